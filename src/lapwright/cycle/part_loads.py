"""What the running engine puts on its pins, screws and covers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.cycle.answers import CylinderRun
from lapwright.cycle.engine_run import EngineRun
from lapwright.engine.cylinder import assemble_cylinder
from lapwright.engine.sizes import Assumed, Sizes
from lapwright.medium.water import find_saturation
from lapwright.quantities.pressure import ATMOSPHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLoads:
    """What one cylinder's parts have to bear.

    `pressure` [Pa, gauge] is the greatest in the cylinder, `temperature` [K] that of what arrives; `rod_force` [N] the
    greatest on the piston rod; `valve_friction` [N] and `eccentric_torque` [N m] the greatest of a flat valve, None
    for another. `taken` holds what the run took for the coefficient of that friction, where nobody gave it.
    """

    fluid: str
    pressure: float
    temperature: float
    rod_force: float
    valve_friction: float | None
    eccentric_torque: float | None
    taken: tuple[Assumed, ...] = ()


def find_part_loads(run: EngineRun, cylinders: tuple[Sizes, ...]) -> dict[str, PartLoads]:
    """Return what each cylinder's parts have to bear in a run.

    Holds for: the pressures of the run alone; the weight of moving parts adds to them at speed

    Parameters
    ----------
    run: a turn of the engine
    cylinders: their sizes, in the order of the run

    Source: exact geometry (pressure on the piston's two sides)
    """
    pairs = zip(run.cylinders, cylinders, strict=True)
    taken = tuple(assumed for assumed in run.assumed if assumed.key == "running.valve_friction")
    return {cylinder.name: _find_loads(cylinder, sizes, taken=taken) for cylinder, sizes in pairs}


def _find_loads(cylinder: CylinderRun, sizes: Sizes, *, taken: tuple[Assumed, ...]) -> PartLoads:
    conditions, valve = cylinder.conditions, cylinder.valve
    areas = assemble_cylinder(sizes).area
    force = np.zeros(len(cylinder.angles))
    for end, sign in (("head", 1.0), ("crank", -1.0)):
        if end in cylinder.ends:
            force += sign * (cylinder.ends[end].pressures - ATMOSPHERE) * (areas[end] or 0.0)
    greatest = max(float(np.max(end.pressures)) for end in cylinder.ends.values())
    return PartLoads(
        fluid=conditions.fluid,
        pressure=max(greatest, conditions.supply) - ATMOSPHERE,
        temperature=conditions.supply_temperature or find_saturation(conditions.supply).temperature,
        rod_force=float(np.max(np.abs(force))),
        valve_friction=None if valve is None else valve.friction,
        eccentric_torque=None if valve is None else valve.eccentric_torque,
        taken=() if valve is None else taken,
    )
