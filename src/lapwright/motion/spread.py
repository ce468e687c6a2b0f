"""How far an answer may be out, given the doubt of the sizes it rests on, and which size is most to blame."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import sqrt

from lapwright.engine.sizes import Sizes

Figures = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Spread:
    """Half-width of a 95 % interval, in the figure's own unit, and the size that contributes most to it."""

    half_width: float
    mostly_from: str


def measure_spread(sizes: Sizes, answer: Callable[[Sizes], Figures], *, turn: float = 360.0) -> dict[str, Spread]:
    """Return how far each figure may be out, from the tolerances in the record.

    A tolerance is read as the half-width of a 95 % interval, and the sizes as independent of each other. Each size
    is put at both ends of its tolerance and the answer worked out afresh, so that a bent dependence is
    felt; half the differences are added as squares. A figure that comes and goes within the doubt (an
    event that may not happen) gets no spread.

    Parameters
    ----------
    sizes: the cylinder with its doubts
    answer: works out the figures from sizes; a figure whose name ends in `_deg` wraps round at `turn`
    turn: a full turn in the unit of the angles [deg]

    Source: gum (law of propagation for independent quantities, section 5.1)

    Example:
    >>> from lapwright.engine.sizes import Doubt
    >>> valve = Sizes("A", {"valve.length": 14.0, "valve.cavity": 8.0}, {"valve.length": Doubt(0.1, 0.1)})
    >>> land = lambda s: {"land_mm": (s.numbers["valve.length"] - s.numbers["valve.cavity"]) / 2}
    >>> measure_spread(valve, land)["land_mm"].mostly_from
    'valve.length'
    """
    if not sizes.doubts:
        return {}
    shares = {key: _swing(sizes, key, answer, turn=turn) for key in sizes.doubts if key in sizes.numbers}
    named = set(answer(sizes)).intersection(*shares.values()) if shares else set()
    return {name: _add_up(name, shares) for name in sorted(named)}


def rank_culprits(spreads: Mapping[str, Spread]) -> tuple[tuple[str, int], ...]:
    """Return the sizes that contribute most to the doubt, each with the number of figures of which it does.

    The first is the one that is best measured again.

    Example:
    >>> rank_culprits({"a": Spread(1.0, "bore"), "b": Spread(2.0, "throw"), "c": Spread(0.1, "throw")})
    (('throw', 2), ('bore', 1))
    """
    counts: dict[str, int] = {}
    for spread in spreads.values():
        if spread.mostly_from:
            counts[spread.mostly_from] = counts.get(spread.mostly_from, 0) + 1
    return tuple(sorted(counts.items(), key=lambda item: (-item[1], item[0])))


def _swing(sizes: Sizes, key: str, answer: Callable[[Sizes], Figures], *, turn: float) -> dict[str, float]:
    """Half the difference of every figure between the two ends of one size's tolerance."""
    doubt, nominal = sizes.doubts[key], sizes.numbers[key]
    above = answer(sizes.replacing({key: nominal + doubt.plus}))
    below = answer(sizes.replacing({key: nominal - doubt.minus}))
    swings = {}
    for name in above.keys() & below.keys():
        difference = above[name] - below[name]
        if name.endswith("_deg"):
            difference = (difference + turn / 2) % turn - turn / 2
        swings[name] = abs(difference) / 2
    return swings


def _add_up(name: str, shares: Mapping[str, Mapping[str, float]]) -> Spread:
    half_width = sqrt(sum(swings[name] ** 2 for swings in shares.values()))
    mostly = max(shares, key=lambda key: shares[key][name])
    return Spread(half_width, mostly if half_width > 0 else "")
