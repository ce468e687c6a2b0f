"""What a run puts on pins, screws and covers, against what a hand finds from pressures and areas."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from math import pi

import pytest

from lapwright.cycle.part_loads import PartLoads, find_part_loads
from lapwright.job.visit import Visit, examine
from tests.unit.papers.matters import EXAMPLES


@cache
def examine_turnstone() -> Visit:
    return examine(EXAMPLES / "turnstone.toml")


def find_turnstone_loads() -> PartLoads:
    return examine_turnstone().loads["A"]


def test_the_rod_bears_the_steam_on_one_side_of_the_piston() -> None:
    # 3 bar on a piston of 25 mm, and at the most next to nothing behind it: 0.3 x 490.9 = 147.3 N.
    load = find_turnstone_loads()
    assert load.rod_force == pytest.approx(0.3 * pi / 4 * 25**2, rel=0.02)
    assert load.fluid == "steam"


def test_the_pressure_is_that_of_the_chest_or_what_cushioning_adds() -> None:
    load = find_turnstone_loads()
    assert 3e5 <= load.pressure < 3.2e5
    # Steam of 4.013 bar abs boils at 143.7 degC.
    assert load.temperature == pytest.approx(273.15 + 143.73, abs=0.05)


def test_the_valves_friction_lies_between_its_bounds() -> None:
    # 0.08 x 0.3 MPa x 217.2 mm2 with half the pressure under the lands; 67.2 mm2 of ports may be empty instead.
    load = find_turnstone_loads()
    assert load.valve_friction is not None
    assert load.eccentric_torque is not None
    assert 0.08 * 65.1 < load.valve_friction < 0.08 * 75.3
    assert 0.95 * 0.08 * 65.1 * 3e-3 < load.eccentric_torque < 0.08 * 75.3 * 3.01e-3
    assert load.eccentric_torque <= load.valve_friction * 3.01e-3


def test_no_flat_valve_no_friction_and_no_run_no_loads() -> None:
    ground = examine_turnstone().ground
    assert ground is not None
    (cylinder,) = ground.found.run.cylinders
    run = replace(ground.found.run, cylinders=(replace(cylinder, valve=None),))
    load = find_part_loads(run, ground.cylinders)["A"]
    assert (load.valve_friction, load.eccentric_torque) == (None, None)
    assert load.rod_force == find_turnstone_loads().rod_force
