"""One small search for the place where a smooth figure passes through zero."""

from __future__ import annotations

from collections.abc import Callable


def find_zero(figure: Callable[[float], float], low: float, high: float, *, steps: int = 60) -> float | None:
    """Return where a figure passes through zero between two places, or None where it does not change its sign.

    A secant that always keeps the zero between its two ends; an end that does not move has its figure halved, so that
    the other end comes over (regula falsi, Illinois rule).

    Parameters
    ----------
    figure: a continuous function of one number
    low, high: the places between which to look [unit of that number]
    steps: the most evaluations

    Source: definition

    Example:
    >>> round(find_zero(lambda x: x * x - 2.0, 0.0, 2.0), 12)
    1.414213562373
    """
    at_low, at_high = figure(low), figure(high)
    if at_low == 0 or at_high == 0:
        return low if at_low == 0 else high
    if (at_low > 0) == (at_high > 0):
        return None
    for _ in range(steps):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        at_middle = figure(middle)
        if at_middle == 0 or middle in (low, high):
            return middle
        if (at_middle > 0) != (at_high > 0):
            low, at_low = high, at_high
        else:
            at_low /= 2
        high, at_high = middle, at_middle
    return high
