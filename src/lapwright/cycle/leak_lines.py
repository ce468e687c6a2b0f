"""What a test run would have given with wider or tighter gaps: a few runs, with smooth lines between.

A gap lets through the cube of its height, so a fit that went by the slope where it stands would not see what is round
the corner. The lines are drawn far out to both sides, and cost no more runs than two steps of a search would.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import exp, log

import numpy as np

from lapwright.cycle.bench_prediction import Guess, Outcome, Rig, run_rig
from lapwright.cycle.layout import Floats
from lapwright.errors import CannotRun

GAPS = ("ring_gap", "valve_face_gap", "gland_gap")
#: No gap is looked at beyond these [m], unless the record itself goes farther.
TIGHTEST, WIDEST = 1e-8, 1e-4
#: Where the lines are fixed: logarithms of the gap over the one they start from, closest where leaks begin to count.
_PLACES = np.array([-2.2, -1.1, -0.7, -0.35, 0.0, 0.35, 0.7, 1.05, 1.4, 1.8, 2.2])


@dataclass(frozen=True, slots=True)
class Line:
    """A smooth line through points: a cubic between each two, with the slopes of their neighbours."""

    places: tuple[float, ...]
    heights: tuple[float, ...]
    slopes: tuple[float, ...]

    def read(self, place: float) -> float:
        """Return its height at a place, beyond its ends that of the end.

        Parameters
        ----------
        place: in the line's own unit [any]
        """
        here = min(max(place, self.places[0]), self.places[-1])
        n = min(bisect_right(self.places, here), len(self.places) - 1) - 1
        wide = self.places[n + 1] - self.places[n]
        part = (here - self.places[n]) / wide
        rest = 1.0 - part
        return rest * rest * ((1 + 2 * part) * self.heights[n] + part * wide * self.slopes[n]) + part * part * (
            (1 + 2 * rest) * self.heights[n + 1] - rest * wide * self.slopes[n + 1]
        )


@dataclass(frozen=True, slots=True)
class Lines:
    """How a test's torque and flow change with each gap by itself, the others as at the start."""

    start: Guess
    base: Outcome
    torque: dict[str, Line]
    air: dict[str, Line]

    def read(self, guess: Guess) -> Outcome:
        """Return what a run would give, each gap adding its own change."""
        torque, air = self.base.torque, self.base.air
        for key, line in self.torque.items():
            place = log(max(guess[key], TIGHTEST) / self.start[key])
            torque += line.read(place)
            air += self.air[key].read(place)
        return Outcome(torque, max(air, 0.0))


def draw_lines(rig: Rig, start: Guess) -> Lines:
    """Run a test with each gap tighter and wider in turn, and draw the lines.

    Parameters
    ----------
    rig: the test
    start: friction and leaks from which to start; a gap that is nothing stays so

    Raises
    ------
    CannotRun: what cannot be worked out, in a sentence
    """
    base = run_rig(rig, start)
    torque, air = {}, {}
    for key in GAPS if rig.conditions is not None else ():
        if start[key] > 0:
            outcomes = _run_along(rig, start, key, base=base)
            torque[key] = _draw(np.array([outcome.torque - base.torque for outcome in outcomes]))
            air[key] = _draw(np.array([outcome.air - base.air for outcome in outcomes]))
    return Lines(start, base, torque, air)


def _run_along(rig: Rig, start: Guess, key: str, *, base: Outcome) -> list[Outcome]:
    """Run a test with one gap after the other; where no turn comes out, it is as it was for the gap before."""
    middle = int(np.argmin(np.abs(_PLACES)))
    outcomes = {middle: base}
    for side in (-1, 1):
        n = middle + side
        while 0 <= n < len(_PLACES):
            gap = min(max(start[key] * exp(float(_PLACES[n])), TIGHTEST), max(WIDEST, start[key]))
            try:
                outcomes[n] = run_rig(rig, {**start, key: gap})
            except CannotRun:
                outcomes[n] = outcomes[n - side]
            n += side
    return [outcomes[n] for n in range(len(_PLACES))]


def _draw(heights: Floats) -> Line:
    slopes = np.gradient(heights, _PLACES)
    return Line(tuple(_PLACES.tolist()), tuple(heights.tolist()), tuple(slopes.tolist()))
