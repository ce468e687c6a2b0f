"""Running one cylinder until its turn repeats, and reading the answers off the last turn."""

from __future__ import annotations

import numpy as np

from lapwright.cycle import layout as at
from lapwright.cycle.answers import CylinderRun, EndRun
from lapwright.cycle.conditions import Conditions, Setup
from lapwright.cycle.layout import Floats
from lapwright.cycle.losses import find_exhaust_heat, split_card, split_supply
from lapwright.cycle.march import march
from lapwright.cycle.packing import Pack, pack_cylinder
from lapwright.cycle.valve_load import find_valve_load
from lapwright.engine.cylinder import ENDS
from lapwright.errors import CannotRun
from lapwright.medium import air
from lapwright.medium.steam import draw_table
from lapwright.medium.water import HIGHEST_PRESSURE, LOWEST_PRESSURE, find_by_enthalpy, find_saturation
from lapwright.motion.travel import TURN
from lapwright.quantities.pressure import ATMOSPHERE

#: Steps a turn, and how well it repeats, for what is printed and for what is only searched through.
FINE_STEPS, FINE_TOLERANCE = 180, 1e-6
QUICK_STEPS, QUICK_TOLERANCE = 90, 1e-4
#: A change above this share from turn to turn is no longer called settled.
SETTLED = 1e-3


def run_cylinder(setup: Setup, conditions: Conditions, *, quick: bool = False) -> CylinderRun:
    """Run a cylinder at a steady speed until its turn repeats.

    Parameters
    ----------
    setup: the cylinder with everything filled in that a run needs
    conditions: what it is run on
    quick: whether fewer steps will do, as within a search

    Raises
    ------
    CannotRun: pressures or temperatures that do not go together, or a gear that cannot turn

    Holds for: speeds above 0; supply 0.01 to 150 bar

    Source: saint-venant-1839 (flow); alexander-1977 (scheme)
    """
    check_conditions(conditions)
    steps, tolerance = (QUICK_STEPS, QUICK_TOLERANCE) if quick else (FINE_STEPS, FINE_TOLERANCE)
    pack = pack_cylinder(setup, conditions, steps=steps, tolerance=tolerance)
    out = np.zeros((len(pack.angles), at.OUT))
    turns, change = march(pack.cell, draw_table(), pack.turn, out)
    ends = {end: _read_end(pack, out, conditions, n=n) for n, end in enumerate(ENDS) if pack.cell[at.FREE_HEAD + n]}
    supplied, uses = split_supply(pack.turn, out, speed=conditions.speed)
    temperature, dryness = _find_exhaust(out, conditions)
    heated = bool(pack.cell[at.HEATED])
    wall = float(pack.cell[at.WALL])
    lost = pack.cell[at.LOSS] * (wall - pack.cell[at.SHOP_TEMPERATURE]) * TURN / conditions.speed
    return CylinderRun(
        name=setup.sizes.name,
        conditions=conditions,
        ends=ends,
        angles=pack.angles,
        shares=out[:, at.OUT_SHARE].copy(),
        torque=_find_torque(pack, out),
        supplied=supplied,
        uses=uses,
        heat=float(lost) if heated else 0.0,
        wall_temperature=wall if heated else None,
        exhaust_temperature=temperature,
        exhaust_dryness=dryness,
        valve=find_valve_load(setup, pack, out),
        settled=change < SETTLED,
        turns=turns,
        change=change,
    )


def check_conditions(conditions: Conditions) -> None:
    """Refuse what no run can be worked out for.

    Raises
    ------
    CannotRun: what does not go together, in a sentence
    """
    if conditions.speed <= 0:
        raise CannotRun(
            "the engine", "its speed is nothing", "give a speed above 0; `lapwright start` looks at it at rest"
        )
    if conditions.supply <= conditions.exhaust * (1 + 1e-9) and conditions.supply != conditions.exhaust:
        raise CannotRun(
            "the engine",
            f"the supply's {_bar(conditions.supply)} are below the exhaust's {_bar(conditions.exhaust)}",
            "check both figures",
        )
    lowest, highest = (LOWEST_PRESSURE, HIGHEST_PRESSURE) if conditions.fluid == "steam" else (100.0, HIGHEST_PRESSURE)
    for pressure in (conditions.supply, conditions.exhaust):
        if not lowest <= pressure <= highest:
            raise CannotRun("the engine", f"{_bar(pressure)} is beyond what can be worked out")


def _bar(pressure: float) -> str:
    return f"{pressure / 1e5:.3g} bar abs"


def _read_end(pack: Pack, out: Floats, conditions: Conditions, *, n: int) -> EndRun:
    end = tuple(ENDS)[n]
    full, losses = split_card(n, pack.turn, out, supply=conditions.supply, exhaust=conditions.exhaust)
    work = full - sum(losses.values())
    return EndRun(
        mean_effective_pressure=work / pack.swept[end],
        work=work,
        full=full,
        losses=losses,
        volumes=pack.turn[:, at.VOLUME_HEAD + 2 * n].copy(),
        pressures=out[:, at.OUT_P + n].copy(),
        temperatures=out[:, at.OUT_T + n].copy(),
        dryness=out[:, at.OUT_X + n].copy(),
        condensed=_find_condensed(n, out, conditions),
        swept=pack.swept[end],
        clearance=pack.clearance[end],
    )


def _find_condensed(n: int, out: Floats, conditions: Conditions) -> float:
    """Water made by the wall in a turn [kg]: the heat it takes from wet steam, over the heat of evaporation."""
    if conditions.fluid != "steam":
        return 0.0
    # What it takes from superheated steam only cools it.
    taken = np.where(out[:, at.OUT_X + n] < 1.0, np.clip(-out[:, at.OUT_HEAT + n], 0.0, None), 0.0)
    taken *= out[:, at.OUT_SHARE] / conditions.speed
    latent = find_saturation(conditions.supply).latent_heat
    return float(np.sum(taken) / latent)


def _find_torque(pack: Pack, out: Floats) -> Floats:
    """Torque on the crankshaft [N m]: every pressure above the shop's, times how its volume grows with the angle."""
    torque = np.zeros(len(pack.angles))
    for n in range(2):
        if pack.cell[at.FREE_HEAD + n]:
            torque += (out[:, at.OUT_P + n] - ATMOSPHERE) * pack.turn[:, at.SWELL_HEAD + 2 * n]
    return torque


def _find_exhaust(out: Floats, conditions: Conditions) -> tuple[float, float]:
    """How warm the exhaust is, all of a turn mixed [K], and how dry [-]."""
    mass, heat = find_exhaust_heat(out, speed=conditions.speed)
    warm = conditions.supply_temperature or find_saturation(conditions.exhaust).temperature
    if mass <= 0:
        return warm, 1.0
    if conditions.fluid == "air":
        return heat / mass / (air.GAS_CONSTANT * air.EXPONENT / (air.EXPONENT - 1)), 1.0
    state = find_by_enthalpy(conditions.exhaust, heat / mass)
    return state.temperature, state.dryness


def sample_pressures(run: CylinderRun, end: str, angles: Floats) -> Floats:
    """Return an end's pressures [Pa] at other angles [rad] of its crank, in straight lines between those of the run."""
    return np.asarray(np.interp(angles, run.angles, run.ends[end].pressures, period=TURN))
