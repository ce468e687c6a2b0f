"""A cylinder's end marched by itself, for what can be worked out by hand: shut, filling, or warmed through."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.cycle import layout as at
from lapwright.cycle.balance import leak_through, leak_water
from lapwright.cycle.conditions import ATMOSPHERE, SHOP, Conditions
from lapwright.cycle.march import march
from lapwright.cycle.packing import Pack, pack_cylinder
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes
from lapwright.medium.if97 import saturation_temperature, vapour
from lapwright.medium.steam import draw_table
from tests.published.running import first_setup, on_air, on_steam, small_engine

#: Pressure and volume at the start [Pa, m3], and how many times the volume grows.
START, VOLUME, EXPANSION = 301325.0, 1e-6, 3.0
TIGHT = Running(ring_gap=0.0, valve_face_gap=0.0, gland_gap=0.0)
#: Small enough to fill the vessel over many steps [m2].
SMALL_HOLE = 2e-9
#: So strong that the wall leaves no difference of temperature [W/m2 K].
ALL_HEAT = 1e7


@dataclass(frozen=True)
class Stroke:
    """What an expansion from `VOLUME` does: pressure [Pa] and temperature [K] at its end, work [J]."""

    pressure: float
    temperature: float
    work: float


def shut_engine() -> Sizes:
    """A single-acting cylinder whose ports never open, its clearance half of what it sweeps."""
    return small_engine(rod=None, lap=5.0, exhaust_lap=5.0, lead=0.0, advance=0.0, clearance=1 / (EXPANSION - 1))


def expand_shut(*, warmed: bool) -> Stroke:
    """Expand what is shut in from dead centre to dead centre, without heat or with all of it."""
    both = Conditions(fluid="air", supply=START, exhaust=START, speed=60.0, supply_temperature=SHOP, ideal=not warmed)
    pack = pack_cylinder(first_setup(shut_engine(), running=TIGHT), both, steps=360, tolerance=1e-9)
    if warmed:
        pack.cell[at.DRY_HEAT] = ALL_HEAT
        pack.cell[at.WALL] = pack.cell[at.SHOP_TEMPERATURE] = SHOP
    out = march_once(pack)
    outward = pack.angles < np.pi + 1e-9
    last = int(np.flatnonzero(outward)[-1])
    work = np.sum((out[:, at.OUT_P] * pack.turn[:, at.SWELL_HEAD] * out[:, at.OUT_SHARE])[outward])
    scale = VOLUME / (pack.swept["head"] * pack.clearance["head"])
    return Stroke(float(out[last, at.OUT_P]), float(out[last, at.OUT_T]), float(work) * scale)


def fill_vessel() -> tuple[float, float]:
    """Mass [kg] that `VOLUME` takes in from the supply, and how warm it is then [K]."""
    pack = pack_cylinder(
        first_setup(small_engine(rod=None)), on_air((START - ATMOSPHERE) / 1e5, 10), steps=180, tolerance=1e-9
    )
    pack.turn[:, at.VOLUME_HEAD] = VOLUME
    pack.turn[:, at.SWELL_HEAD] = 0.0
    pack.turn[:, at.OPEN_STEAM_HEAD :] = 0.0
    pack.turn[:, at.OPEN_STEAM_HEAD] = SMALL_HOLE
    inner = pack.cell[at.ENERGY] / pack.cell[at.MASS]
    before = VOLUME * pack.cell[at.DENSITY]
    pack.cell[at.VOLUME], pack.cell[at.MASS], pack.cell[at.ENERGY] = VOLUME, before, before * inner
    out = march_once(pack)
    return float(pack.cell[at.MASS] - before), float(out[-1, at.OUT_T])


def march_once(pack: Pack) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """March a single turn."""
    pack.cell[at.MOST_TURNS] = 1
    out = np.zeros((len(pack.angles), at.OUT))
    march(pack.cell, draw_table(), pack.turn, out)
    return out


def leak_past_piston(*, water: bool) -> float:
    """Dry steam or water [kg/s] through a ring gap of 5 micrometres at 3 bar, the ring as long as the trial's: 5 mm."""
    running = Running(ring_gap=5e-6, valve_face_gap=0.0, gland_gap=0.0, wall_heat="none")
    conditions = on_steam(3.0, 600, ideal=False)
    pack = pack_cylinder(
        first_setup(small_engine(), fluid="steam", running=running), conditions, steps=90, tolerance=1e-3
    )
    cell, gap = pack.cell, at.GAPS
    longer = 0.25 * 0.019 / 0.005
    if water:
        return longer * leak_water(cell, gap, conditions.supply - conditions.exhaust)
    boiling = saturation_temperature(conditions.supply)
    cell[at.P], cell[at.DENSITY] = conditions.supply, 1 / vapour(conditions.supply, boiling)[0]
    cell[at.WET] = 0.0
    return longer * leak_through(cell, 0, conditions.exhaust, gap)[0]


def march_for_balance() -> tuple[float, float]:
    """By what share mass and energy of the trial's engine on air do not close over a turn that repeats exactly."""
    conditions = on_air(2.0, 600)
    pack = pack_cylinder(first_setup(small_engine()), conditions, steps=180, tolerance=1e-13)
    out = np.zeros((len(pack.angles), at.OUT))
    march(pack.cell, draw_table(), pack.turn, out)
    time = out[:, at.OUT_SHARE] / conditions.speed
    into, away = (at.WAY_STEAM_HEAD, at.WAY_STEAM_CRANK), (at.WAY_EXHAUST_HEAD, at.WAY_EXHAUST_CRANK)

    def total(first: int, ways: tuple[int, ...]) -> float:
        return sum(float(np.sum(out[:, first + way] * time)) for way in ways)

    mass_in, mass_out = total(at.OUT_FLOWS, into), total(at.OUT_FLOWS, away)
    heat_in, heat_out = total(at.OUT_CARRIED, into), total(at.OUT_CARRIED, away)
    work = sum(
        float(np.sum(out[:, at.OUT_P + n] * pack.turn[:, at.SWELL_HEAD + 2 * n] * out[:, at.OUT_SHARE])) for n in (0, 1)
    )
    return mass_out / mass_in - 1, (heat_in - heat_out - work) / heat_in
