"""What a run takes for a size that nobody gave is always told."""

from __future__ import annotations

from dataclasses import replace

from lapwright.cycle.cylinder_run import run_cylinder
from lapwright.cycle.plant_setup import choose_conditions, prepare_plant
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Sizes
from lapwright.record import open_record
from tests.unit.papers.matters import EXAMPLES


def without(sizes: Sizes, key: str) -> Sizes:
    return replace(sizes, numbers={name: value for name, value in sizes.numbers.items() if name != key})


def tern(key: str) -> Engine:
    engine = open_record(EXAMPLES / "tern.toml").engine
    assert engine is not None
    first, second = engine.cylinders
    return replace(engine, cylinders=(first, without(second, key)))


def told(engine: Engine) -> dict[str, str]:
    return {assumed.key: assumed.value for assumed in prepare_plant(engine, fluid="air").assumed}


def test_a_phase_that_nobody_gave_is_told() -> None:
    assert told(tern("crank_phase"))["cylinder.B.crank_phase"] == "0 deg"
    assert not any("crank_phase" in key for key in told(tern("nothing")))


def test_a_valve_width_that_nobody_gave_is_told_and_decides_what_presses_the_valve() -> None:
    engine = tern("valve.width")
    assert told(engine)["cylinder.B.valve.width"] == "9.9 mm"
    plant = prepare_plant(engine, fluid="air")
    conditions = choose_conditions(engine, plant, fluid="air")
    loads = [run_cylinder(setup, conditions).valve for setup in plant.setups]
    assert loads[0] is not None
    assert loads[1] is not None
    # 11 mm against 9.92 mm: the wider valve is pressed harder.
    assert loads[0].eccentric_torque > 1.05 * loads[1].eccentric_torque
