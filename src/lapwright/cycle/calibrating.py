"""Friction and leaks worked out from bench tests: what fits them best, how far that may be out, what stays open."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import exp, log

import numpy as np
from numpy.typing import NDArray

from lapwright.cycle.bench_prediction import TWO_SIDED, Reading, set_up
from lapwright.cycle.fitting import Fit, find_interval, measure_slope
from lapwright.cycle.layout import Floats
from lapwright.engine.bench_test import FITTED
from lapwright.engine.engine import Engine
from lapwright.engine.running import assume_running
from lapwright.errors import CannotRun

#: How far each lies from what is usual, as a standard deviation of its logarithm: the ranges that are printed with the
#: usual figures (0.1 to 0.8 bar; a gap from a quarter of it to four times as much) hold 95 in 100.
USUAL_SPREAD = {"friction_pressure": 0.6, "ring_gap": 0.7, "valve_face_gap": 0.7, "gland_gap": 0.7}
#: A doubt is taken to reach down to this share of its figure at most.
_SMALLEST = 0.25
#: With how little trust in what was known before the tests are held against each other alone.
_LITTLE_TRUST = 1 / 9
#: So many standard deviations off, a reading contradicts the rest; two that are alike to this share go together.
CONTRADICTS, _ALIKE = 3.0, 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Prior:
    """What is known of a figure before the tests: about where it lies [SI], and how far its logarithm may be out.

    `is_own` says that the record gives it, otherwise it is the usual one; where `spread` is 0 it is left as it is.
    """

    key: str
    value: float
    spread: float
    is_own: bool

    @property
    def interval(self) -> tuple[float, float]:
        """Where it lies in 95 cases of 100 [SI]."""
        return self.value * exp(-TWO_SIDED * self.spread), self.value * exp(TWO_SIDED * self.spread)


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A figure after the tests [SI], with the ends of its 95 % interval.

    `kept` is the share of the doubt before that is left, about 1 where the tests say nothing; `mostly_from` is the
    number of the test that tells most of it; `trades` says by other figures how far they move, in standard deviations
    of what was known before, to make up for this one at an end of its interval.
    """

    key: str
    value: float
    low: float
    high: float
    prior: Prior
    kept: float
    mostly_from: int | None
    trades: Mapping[str, float]

    @property
    def moved(self) -> float:
        """How far the tests moved it from where it was thought to be, in standard deviations of that."""
        spread = self.prior.spread
        return log(self.value / self.prior.value) / spread if spread > 0 else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibration:
    """What a fit gives.

    `readings` are at the fit, `correlations` of the figures in `fitted`. `contradictions` are places among the
    readings: those that do not go with the rest, in groups of which one or another must be wrong. `weights` says by
    test how much it adds to what is known.
    """

    estimates: tuple[Estimate, ...]
    correlations: Floats
    readings: tuple[Reading, ...]
    contradictions: tuple[tuple[int, ...], ...]
    weights: Mapping[int, float]
    settled: bool

    @property
    def fitted(self) -> tuple[Estimate, ...]:
        """The figures that were fitted, in the order of `correlations`."""
        return tuple(estimate for estimate in self.estimates if estimate.prior.spread > 0)

    def find(self, key: str) -> Estimate:
        """Return the estimate of a figure by its field of the running engine."""
        return next(estimate for estimate in self.estimates if estimate.key == key)


def list_priors(engine: Engine) -> tuple[Prior, ...]:
    """Return what is known of each figure before its tests: the record's own, or what is usual.

    A figure of the record that came from its tests is not counted as known before them; one without a doubt is taken
    to be about right; one that is nothing stays so.
    """
    own = {key: getattr(engine.running, key) for key in FITTED if key not in engine.from_tests}
    silent = Engine(name=engine.name, cylinders=engine.cylinders)
    usual, _ = assume_running(silent, fluid="air", stroke=1.0)
    return tuple(_find_prior(engine, key, own.get(key), usual=getattr(usual, key)) for key in FITTED)


def _find_prior(engine: Engine, key: str, own: float | None, *, usual: float) -> Prior:
    if own is None:
        return Prior(key=key, value=usual, spread=USUAL_SPREAD[key], is_own=False)
    if own <= 0:
        return Prior(key=key, value=0.0, spread=0.0, is_own=True)
    doubt = engine.running.doubts.get(key)
    spread = USUAL_SPREAD[key]
    if doubt is not None and doubt.plus + doubt.minus > 0:
        # A doubt that reaches down to nothing has no logarithm there.
        low = max(own - doubt.minus, _SMALLEST * own)
        spread = max(log((own + doubt.plus) / low) / (2 * TWO_SIDED), 1e-3)
    return Prior(key=key, value=own, spread=spread, is_own=True)


def calibrate(engine: Engine) -> Calibration:
    """Work friction and leaks out of an engine's bench tests.

    The logarithms are fitted by least squares: every reading counts by its doubt, and what was known before by its own.

    Parameters
    ----------
    engine: with its bench tests

    Raises
    ------
    CannotRun: there is no test, or sizes are missing, or a test cannot be worked out

    Source: gum (section 5.1); from memory (Gauss and Newton's least squares, the profile of a likelihood)
    """
    if not engine.bench_tests:
        raise CannotRun("a test", "the record has none", "write one under [[bench_test]]")
    priors = list_priors(engine)
    fit = Fit(
        rigs=tuple(set_up(engine, test) for test in engine.bench_tests),
        keys=tuple(prior.key for prior in priors if prior.spread > 0),
        start={prior.key: prior.value for prior in priors},
        spreads=np.array([prior.spread for prior in priors if prior.spread > 0]),
    )
    settled = fit.settle()
    return _tell(fit, priors, settled=settled)


def _tell(fit: Fit, priors: tuple[Prior, ...], *, settled: bool) -> Calibration:
    readings, slope = fit.read_at(fit.place), measure_slope(fit, fit.place)
    cover = _invert(slope)
    sizes = np.sqrt(np.diag(cover))
    numbers = np.array([reading.number for reading in readings])
    return Calibration(
        estimates=tuple(_list_estimates(fit, priors, slope, numbers=numbers)),
        correlations=cover / np.outer(sizes, sizes),
        readings=readings,
        contradictions=_find_contradictions(fit),
        weights={int(n): _weigh_test(slope, numbers == n) for n in dict.fromkeys(numbers)},
        settled=settled,
    )


def _invert(slope: Floats) -> Floats:
    """Covariances of the places: what the readings add to what was known before, in its own measure."""
    return np.asarray(np.linalg.inv(slope.T @ slope + np.eye(slope.shape[1])))


def _list_estimates(fit: Fit, priors: tuple[Prior, ...], slope: Floats, *, numbers: Floats) -> Iterator[Estimate]:
    guess = fit.guess_at(fit.place)
    for prior in priors:
        if prior.key not in fit.keys:
            yield Estimate(
                key=prior.key, value=prior.value, low=prior.value, high=prior.value, prior=prior, kept=1.0,
                mostly_from=None, trades={},
            )  # fmt: skip
            continue
        n = fit.keys.index(prior.key)
        ends = find_interval(fit, n)
        low, high = (fit.guess_at(place)[prior.key] for place in ends)
        moved = np.max([np.abs(place - fit.place) for place in ends], axis=0)
        yield Estimate(
            key=prior.key,
            value=guess[prior.key],
            low=low,
            high=high,
            prior=prior,
            kept=float(ends[1][n] - ends[0][n]) / (2 * TWO_SIDED),
            mostly_from=_find_source(slope, n, numbers=numbers),
            trades={key: float(moved[other]) for other, key in enumerate(fit.keys) if other != n},
        )


def _find_source(slope: Floats, n: int, *, numbers: Floats) -> int | None:
    """The test without which a figure would be known least; None where none tells anything of it."""
    without = {int(number): float(_invert(slope[numbers != number])[n, n]) for number in dict.fromkeys(numbers)}
    best = max(without, key=lambda number: without[number])
    return best if without[best] > 1.05 * float(_invert(slope)[n, n]) else None


def _weigh_test(slope: Floats, own: NDArray[np.bool_]) -> float:
    """How much a test adds: the logarithm by which the room that is left to the figures would grow without it."""
    size = slope.shape[1]
    rest = slope[~own]
    _, whole = np.linalg.slogdet(slope.T @ slope + np.eye(size))
    _, without = np.linalg.slogdet(rest.T @ rest + np.eye(size))
    return float(whole - without) / 2


def _find_contradictions(fit: Fit) -> tuple[tuple[int, ...], ...]:
    """The readings that do not go with the rest, the worst first; those that cannot be told apart in this together.

    What was known before must not be what they stand against, so it is held against them once with little trust too.
    """
    found: list[tuple[int, ...]] = []
    count = len(fit.miss_at(fit.place))
    while count - (gone := sum(map(len, found))) >= max(2, gone):
        without = tuple(n for group in found for n in group)
        left = [n for n in range(count) if n not in without]
        strange = {n: _find_strangeness(fit, n, without=without) for n in left}
        worst = max(strange, key=lambda n: strange[n])
        if strange[worst] < CONTRADICTS:
            break
        found.append(tuple(n for n in left if strange[n] > _ALIKE * strange[worst]) if len(left) == 2 else (worst,))
    return tuple(found)


def _find_strangeness(fit: Fit, n: int, *, without: tuple[int, ...]) -> float:
    """How far a reading lies from what the others lead to expect, in standard deviations of both.

    It is by how much better everything else fits once the reading is left out; so the others may move as far as they
    like, and a leak that grows as the cube of its gap is no stranger than it is.
    """
    least = float("inf")
    for trust in (1.0, _LITTLE_TRUST):
        place = fit.descend(fit.place, trust=trust, without=without)[0]
        other = fit.descend(place, trust=trust, without=(*without, n))[0]
        gain = fit.cost_at(place, trust=trust, without=without) - fit.cost_at(other, trust=trust, without=(*without, n))
        least = min(least, float(np.sqrt(max(gain, 0.0))))
    return least
