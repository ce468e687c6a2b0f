"""Going downhill to the figures that fit a set of bench tests best, and how far one can go from there."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import exp
from typing import TypeVar

import numpy as np

from lapwright.cycle.bench_prediction import TWO_SIDED, Guess, Outcome, Reading, Rig, list_scatter, read_rig, run_rig
from lapwright.cycle.layout import Floats
from lapwright.cycle.leak_lines import TIGHTEST, WIDEST, Lines, draw_lines
from lapwright.errors import CannotRun

T = TypeVar("T")

#: No friction is looked for beyond these [Pa].
_LEAST_FRICTION, _MOST_FRICTION = 1.0, 5e5
#: Shift of the logarithm with which slopes are taken, the longest step of it at a time, and the step that is none.
_SHIFT, _LONGEST_STEP, _SMALL_STEP = 0.02, 1.0, 3e-4
_MOST_STEPS, _MOST_HALVINGS, _MOST_ROUNDS = 40, 8, 5
#: The lines are drawn afresh until they agree with a run where they lead to, in standard deviations of the readings.
_AGREED = 0.1
#: How closely the ends of an interval are found, in standard deviations, and how far out they are looked for.
_CLOSE, _FAR_OUT = 0.01, 20.0


@dataclass(slots=True, kw_only=True)
class Fit:
    """A search under way.

    `place` counts each figure in `keys` from where it was before the tests, in standard deviations (`spreads`, of its
    logarithm); `start` has all the figures [SI] as they were, those that are not fitted too.
    """

    rigs: tuple[Rig, ...]
    keys: tuple[str, ...]
    start: Mapping[str, float]
    spreads: Floats
    place: Floats = field(init=False)
    lines: tuple[Lines, ...] = ()
    scatters: tuple[Mapping[str, float], ...] = ()

    def __post_init__(self) -> None:
        """Begin where the figures were before."""
        self.place = np.zeros(len(self.keys))

    def guess_at(self, place: Floats) -> dict[str, float]:
        """Turn a place [-] into the figures themselves [SI], none beyond what is looked at."""
        guess = dict(self.start)
        for key, here, spread in zip(self.keys, place.tolist(), self.spreads.tolist(), strict=True):
            least, most = (_LEAST_FRICTION, _MOST_FRICTION) if key == "friction_pressure" else (TIGHTEST, WIDEST)
            guess[key] = min(max(self.start[key] * exp(here * spread), least), max(most, self.start[key]))
        return guess

    def settle(self) -> bool:
        """Draw lines and go downhill by them, again from there until a run agrees with them; say whether it did."""
        self._draw()
        self._weigh()
        for _ in range(_MOST_ROUNDS):
            self.place, arrived = self.descend(self.place)
            self._weigh()
            if arrived and self._agrees():
                self.place, arrived = self.descend(self.place)
                return arrived
            self._draw()
        return False

    def _draw(self) -> None:
        self.lines = tuple(self._work_out(draw_lines))

    def _weigh(self) -> None:
        self.scatters = tuple(self._work_out(list_scatter))

    def _agrees(self) -> bool:
        """Whether runs give here what the lines say."""
        outcomes = tuple(self._work_out(run_rig))
        by_lines, by_runs = self.read_at(self.place), self.read_at(self.place, outcomes=outcomes)
        return all(abs(a.off - b.off) < _AGREED for a, b in zip(by_lines, by_runs, strict=True))

    def _work_out(self, work: Callable[[Rig, Guess], T]) -> Iterator[T]:
        """Do something with every test where the search stands; what cannot be done is laid to the test."""
        guess = self.guess_at(self.place)
        for rig in self.rigs:
            try:
                yield work(rig, guess)
            except CannotRun as error:
                raise CannotRun(f"test {rig.test.number}", error.message, error.instead) from error

    def read_at(self, place: Floats, *, outcomes: tuple[Outcome, ...] | None = None) -> tuple[Reading, ...]:
        """Return every reading beside what the lines give for it at a place [-], or what runs gave there."""
        guess = self.guess_at(place)
        found = tuple(lines.read(guess) for lines in self.lines) if outcomes is None else outcomes
        readings: list[Reading] = []
        for rig, outcome, scatter in zip(self.rigs, found, self.scatters, strict=True):
            readings += read_rig(rig, guess, outcome=outcome, scatter=scatter)
        return tuple(readings)

    def miss_at(self, place: Floats) -> Floats:
        """Return how far off each reading is at a place [-], in standard deviations."""
        return np.array([reading.off for reading in self.read_at(place)])

    def descend(
        self, place: Floats, *, trust: float = 1.0, without: tuple[int, ...] = (), held: int | None = None
    ) -> tuple[Floats, bool]:
        """Go downhill until it is level, and say whether it became so.

        Parameters
        ----------
        place: where to start
        trust: how much what was known before counts, 0 to 1 [-]
        without: readings that are to be left out
        held: a figure that is to stay where it is

        Source: from memory (Gauss and Newton's least squares, with steps halved until they lead down)
        """
        free = [n for n in range(len(place)) if n != held]
        cost = self.cost_at(place, trust=trust, without=without)
        for _ in range(_MOST_STEPS if free else 0):
            slope, miss = _leave_out(measure_slope(self, place, free), without), self.miss_at(place)
            pull = slope.T @ _leave_out(miss, without) + trust * place[free]
            step = np.zeros(len(place))
            step[free] = -np.linalg.solve(slope.T @ slope + trust * np.eye(len(free)), pull)
            step *= min(1.0, _LONGEST_STEP / max(float(np.max(np.abs(step * self.spreads))), 1e-12))
            for _ in range(_MOST_HALVINGS):
                lower = self.cost_at(place + step, trust=trust, without=without)
                if lower <= cost:
                    break
                step *= 0.5
            else:
                # Nothing leads down but steps too short to tell.
                return place, bool(np.max(np.abs(step * self.spreads)) < _SHIFT)
            place, cost = place + step, lower
            if np.max(np.abs(step * self.spreads)) < _SMALL_STEP:
                return place, True
        return place, not free

    def cost_at(self, place: Floats, *, trust: float = 1.0, without: tuple[int, ...] = ()) -> float:
        """Return what is to be least: all misses squared, and how far it is from what was known before [-].

        Parameters
        ----------
        place: where
        trust: how much what was known before counts, 0 to 1 [-]
        without: readings that are left out
        """
        return float(np.sum(_leave_out(self.miss_at(place), without) ** 2) + trust * np.sum(place**2))


def _leave_out(rows: Floats, without: tuple[int, ...]) -> Floats:
    return np.delete(rows, without, axis=0) if without else rows


def measure_slope(fit: Fit, place: Floats, figures: Sequence[int] | None = None) -> Floats:
    """Return how the misses change about a place [-]: a row for each reading, a column for each figure.

    Parameters
    ----------
    fit: the search
    place: where
    figures: those of which it is asked; all where it is None
    """
    asked = range(len(place)) if figures is None else figures
    columns = []
    for n in asked:
        step = np.zeros(len(place))
        step[n] = _SHIFT / fit.spreads[n]
        columns.append((fit.miss_at(place + step) - fit.miss_at(place - step)) / (2 * step[n]))
    return np.array(columns).T.reshape(-1, len(asked))


def find_interval(fit: Fit, n: int) -> tuple[Floats, Floats]:
    """Return the places at both ends of a figure's 95 % interval.

    The figure is moved away from where it fits best, the others making up for it as well as they can, until the fit is
    worse by as much as chance may make it.

    Source: from memory (the profile of a likelihood)
    """
    low, high = (_find_end(fit, n, side) for side in (-1.0, 1.0))
    return low, high


def _find_end(fit: Fit, n: int, side: float) -> Floats:
    best = fit.cost_at(fit.place)
    slope = measure_slope(fit, fit.place)
    place = fit.place

    def go(away: float) -> tuple[Floats, float]:
        """Move the figure so far, and say how much worse the fit is: as a distance, which grows evenly."""
        start = place.copy()
        start[n] = fit.place[n] + side * away
        made_up = fit.descend(start, held=n)[0]
        return made_up, float(np.sqrt(max(fit.cost_at(made_up) - best, 0.0)))

    near, near_by = 0.0, 0.0
    far = TWO_SIDED * float(np.sqrt(np.linalg.inv(slope.T @ slope + np.eye(len(fit.place)))[n, n]))
    place, far_by = go(far)
    while far_by < TWO_SIDED - _CLOSE and far < _FAR_OUT:
        near, near_by, far = far, far_by, far * 1.5
        place, far_by = go(far)
    for _ in range(12):
        if abs(far_by - TWO_SIDED) < _CLOSE:
            break
        # Where the fit gets no worse on the way, as beyond what is looked at, halving must do.
        share = (TWO_SIDED - near_by) / (far_by - near_by) if far_by > near_by else 0.5
        share = min(max(share, 0.1), 0.9)
        middle = near + share * (far - near)
        trial, by = go(middle)
        if by < TWO_SIDED - _CLOSE:
            near, near_by = middle, by
        else:
            far, far_by, place = middle, by, trial
    return place
