"""One space of a stage brought into balance alone, its neighbours held as they are."""

from __future__ import annotations

from lapwright.cycle.balance import FINE, find_measure, weigh
from lapwright.cycle.layout import ROW, SLOPE, VOLUME, Floats, P
from lapwright.medium.compiling import lean

#: Secant steps before halving comes in: along a curve all but flat on one side of its root and steep on the other
#: secants only creep.
_PATIENCE = 2


@lean
def solve_alone(space: int, span: float, cell: Floats, table: Floats) -> bool:
    """Find one space's pressure by secant steps, kept between the signs already seen; say whether it had to be moved.

    `span` is the implicit part of the stage [s].
    """
    here = space * ROW
    low, high = 0.0, 1e300
    p = before = cell[here + P]
    excess_before = 0.0
    slope = cell[here + SLOPE] if cell[here + SLOPE] > 0.0 else 2.5 * cell[here + VOLUME]
    n = 0
    while n < 200:
        excess = weigh(space, p, span, cell, table)
        if n > 0:
            change = (excess - excess_before) / (p - before)
            slope = change if change > 0.0 else slope
        if abs(excess) < FINE * find_measure(space, cell):
            break
        low, high = (low, p) if excess > 0.0 else (p, high)
        creeps = n > _PATIENCE and abs(excess) > 0.5 * abs(excess_before)
        before, excess_before = p, excess
        p -= excess / slope
        if creeps or not low < p < high:
            p = 0.5 * (low + high) if high < 1e300 else 2.0 * before
        p = min(max(p, 0.2 * before), 5.0 * before)
        if p == before:
            break
        n += 1
    cell[here + SLOPE] = slope
    return n > 0
