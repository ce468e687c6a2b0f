"""Running a cylinder for the tests: pack it, march it until its turns repeat, and ask what came of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi

import numpy as np
from numpy.typing import NDArray

from lapwright.cycle import layout as at
from lapwright.cycle.conditions import ATMOSPHERE, Conditions, Setup
from lapwright.cycle.march import march
from lapwright.cycle.packing import Pack, pack_cylinder
from lapwright.engine.cylinder import ENDS
from lapwright.medium.steam import draw_table

Floats = NDArray[np.float64]

RPM = 2 * pi / 60
WARM = 293.15


def on_air(gauge: float, rpm: float, *, ideal: bool = False) -> Conditions:
    """Compressed air of a gauge pressure [Pa] and 20 degC, exhausting to the shop."""
    return Conditions(
        fluid="air",
        supply=ATMOSPHERE + gauge,
        exhaust=ATMOSPHERE,
        speed=rpm * RPM,
        supply_temperature=WARM,
        ideal=ideal,
    )


def on_steam(gauge: float, rpm: float, *, ideal: bool = False, dryness: float = 0.98) -> Conditions:
    """Wet steam of a gauge pressure [Pa], exhausting to the shop."""
    return Conditions(
        fluid="steam",
        supply=ATMOSPHERE + gauge,
        exhaust=ATMOSPHERE,
        speed=rpm * RPM,
        dryness=dryness,
        ideal=ideal,
    )


def pin_wall(pack: Pack, temperature: float) -> None:
    """Hold the wall at a temperature [K]: its loss to a shop of just that warmth is made too strong to move it."""
    pack.cell[at.WALL] = pack.cell[at.SHOP_TEMPERATURE] = temperature
    pack.cell[at.LOSS] = 1e30


@dataclass(frozen=True)
class Run:
    """A cylinder and its last turn: `out` as the kernels leave it, two rows a step."""

    conditions: Conditions
    pack: Pack
    out: Floats
    turns: int
    change: float

    @property
    def angles(self) -> Floats:
        return self.pack.angles

    @property
    def settled(self) -> bool:
        return self.change < self.pack.cell[at.TOLERANCE]

    def add_up(self, column: Floats) -> float:
        """The integral of a column over the turn, the crank angle in rad."""
        return float(np.sum(self.out[:, at.OUT_SHARE] * column))

    def pressure(self, end: str) -> Floats:
        return np.asarray(self.out[:, at.OUT_P + _number(end)])

    def volume(self, end: str) -> Floats:
        return np.asarray(self.pack.turn[:, at.VOLUME_HEAD + 2 * _number(end)])

    def swelling(self, end: str) -> Floats:
        """By how much the volume grows with the angle [m3/rad]."""
        return np.asarray(self.pack.turn[:, at.SWELL_HEAD + 2 * _number(end)])

    def opening(self, way: int) -> Floats:
        """How open a way is all round the turn [m2]."""
        if at.WAY_STEAM_HEAD <= way <= at.WAY_STRAIGHT:
            return np.asarray(self.pack.turn[:, at.OPEN_STEAM_HEAD + way - at.WAY_STEAM_HEAD])
        return np.full(len(self.out), self.pack.cell[at.OPEN + way])

    def flow(self, way: int) -> Floats:
        """Mass through a way [kg/s]."""
        return np.asarray(self.out[:, at.OUT_FLOWS + way])

    def carried(self, way: int) -> Floats:
        """Enthalpy through a way [W]."""
        return np.asarray(self.out[:, at.OUT_CARRIED + way])

    def work(self, end: str) -> float:
        """Work that the end's medium does on the piston in a turn, against the exhaust pressure [J]."""
        return self.add_up((self.pressure(end) - self.conditions.exhaust) * self.swelling(end))

    def mean_pressure(self, end: str) -> float:
        """Mean effective pressure [Pa]."""
        return self.work(end) / self.pack.swept[end]

    def mass_through(self, *ways: int) -> float:
        """Mass through ways in a turn [kg]."""
        return sum(self.add_up(self.flow(way)) for way in ways) / self.conditions.speed

    def heat_through(self, *ways: int) -> float:
        """Enthalpy through ways in a turn [J]."""
        return sum(self.add_up(self.carried(way)) for way in ways) / self.conditions.speed

    def drawn(self) -> float:
        """Mass that the engine takes from its supply in a turn, leaks and all [kg]."""
        if self.pack.cell[at.FREE_CHEST]:
            return self.mass_through(at.WAY_SUPPLY)
        return self.mass_through(*(way for way in range(at.WAYS) if at.WAY_FROM[way] == at.CHEST))


def _number(end: str) -> int:
    return list(ENDS).index(end)


def prepare(setup: Setup, conditions: Conditions, *, steps: int = 180, tolerance: float = 1e-7) -> Pack:
    """Pack a cylinder."""
    return pack_cylinder(setup, conditions, steps=steps, tolerance=tolerance)


def march_pack(pack: Pack, conditions: Conditions, *, turns: int | None = None) -> Run:
    """March a packed cylinder from where it stands; with `turns` for no more than so many."""
    if turns is not None:
        pack.cell[at.MOST_TURNS] = turns
    out = np.full((len(pack.angles), at.OUT), np.nan)
    done, change = march(pack.cell, draw_table(), pack.turn, out)
    return Run(conditions, pack, out, done, change)


def settle(
    setup: Setup, conditions: Conditions, *, steps: int = 180, tolerance: float = 1e-7, wall: float | None = None
) -> Run:
    """Run a cylinder until its turns repeat; with `wall` at a wall of just that temperature [K]."""
    pack = prepare(setup, conditions, steps=steps, tolerance=tolerance)
    if wall is not None:
        pin_wall(pack, wall)
    return march_pack(pack, conditions)


def turn_once_more(run: Run) -> tuple[Run, Pack]:
    """One more turn from where a run ended; beside it the pack as it was before that turn."""
    before = replace(run.pack, cell=run.pack.cell.copy())
    return march_pack(replace(run.pack, cell=run.pack.cell.copy()), run.conditions, turns=1), before
