"""One stage of a step: the pressures at which every free space is in balance, and what then flows."""

from __future__ import annotations

from math import sqrt

import numpy as np

from lapwright.cycle.balance import leak_through, push_through, weigh
from lapwright.cycle.layout import (
    CRANK,
    DENSITY,
    ENTHALPY,
    FILM,
    FIRST_GAP,
    FREE_CHEST,
    FREE_CRANK,
    FREE_HEAD,
    FREE_PIPE,
    GAP,
    GAPS,
    OPEN,
    RATE,
    ROW,
    SLOPE,
    VOLUME,
    WAY_FROM,
    WAY_TO,
    WAYS,
    Floats,
    P,
)
from lapwright.medium.compiling import compiled

#: A space is in balance when the energy left over is less than this share of what it holds ...
FINE = 1e-9
#: ... and two of them when neither's pressure moves by more than this share from one round to the next.
AGREED = 1e-8
#: Rounds over the ends in turn before the spaces are solved together.
ROUNDS = 5
#: Secant steps before every other one halves what is left between the signs seen.
PATIENCE = 6
#: Newton's steps on all spaces at once, or rounds in their place, before a stage is left as it is.
ATTEMPTS = 100
#: By what share a pressure is changed to find slopes.
NUDGE = 1e-9
#: Slopes are kept while a step leaves less than this share of the excess.
QUICKLY = 0.1


@compiled
def solve_stage(ahead: float, span: float, cell: Floats, table: Floats) -> None:
    """Bring every free space into balance. Alone they are solved in turn; strongly tied together, all at once.

    `ahead` is how far the stage lies beyond the one before [s], `span` its implicit part [s].
    """
    for space in range(4):
        here = space * ROW
        if cell[FREE_HEAD + space] != 0.0:
            guess = cell[here + P] + ahead * cell[here + RATE]
            cell[here + P] = min(max(guess, 0.5 * cell[here + P]), 2.0 * cell[here + P])
    if cell[FREE_CHEST] == 0.0 and cell[FREE_PIPE] == 0.0:
        _solve_space(0, span, cell, table)
        if cell[FREE_CRANK] == 0.0:
            return
        _solve_space(CRANK, span, cell, table)
        if cell[OPEN + FIRST_GAP] == 0.0:
            return
        for _ in range(ROUNDS):
            head, crank = cell[P], cell[CRANK * ROW + P]
            _solve_space(0, span, cell, table)
            _solve_space(CRANK, span, cell, table)
            if abs(cell[P] - head) < AGREED * head and abs(cell[CRANK * ROW + P] - crank) < AGREED * crank:
                return
    _solve_together(span, cell, table)


@compiled
def _solve_space(space: int, span: float, cell: Floats, table: Floats) -> None:
    """Find one space's pressure with its neighbours held: secant steps, kept between the signs already seen."""
    here = space * ROW
    low, high = 0.0, 1e300
    p = cell[here + P]
    slope = cell[here + SLOPE]
    volume = 2.5 * cell[here + VOLUME]
    if slope <= 0.0:
        slope = volume
    excess = weigh(space, p, span, cell, table)
    for n in range(200):
        if abs(excess) < FINE * volume * p:
            break
        if excess > 0.0:
            high = p
        else:
            low = p
        tried = p - excess / slope
        # Along a curve all but flat on one side of its root and steep on the other secants only creep: halving ends it.
        if not low < tried < high or (n > PATIENCE and n % 2 == 0 and high < 1e300):
            tried = 0.5 * (low + high) if high < 1e300 else 2.0 * p
        tried = min(max(tried, 0.2 * p), 5.0 * p)
        if tried == p:
            break
        after = weigh(space, tried, span, cell, table)
        change = (after - excess) / (tried - p)
        if change > 0.0:
            slope = change
        p, excess = tried, after
    cell[here + SLOPE] = slope


@compiled
def _solve_together(span: float, cell: Floats, table: Floats) -> None:
    """Newton's method on the pressures of all free spaces, slopes by differences.

    A step that gains nothing however short it is cut is taken back, and the spaces are solved once round in turn
    instead: that leads nearer, if slowly, for more pressure in one space only ever means more in the others.
    """
    excess, start = np.zeros(4), np.zeros(4)
    slopes = np.zeros((4, 4))
    before = 0.0
    for _ in range(ATTEMPTS):
        worst = _weigh_all(excess, span, cell, table)
        if worst < FINE:
            return
        # Slopes cost four times what a step does: they serve as long as they lead on quickly.
        if worst > QUICKLY * before:
            _find_slopes(slopes, excess, span, cell, table)
        before = worst
        for space in range(4):
            start[space] = cell[space * ROW + P]
        if _step_together(_eliminate(slopes, excess), start, worst, span, cell, table):
            continue
        for space in range(4):
            cell[space * ROW + P] = start[space]
        _weigh_all(excess, span, cell, table)
        for space in range(4):
            if cell[FREE_HEAD + space] != 0.0:
                _solve_space(space, span, cell, table)


@compiled
def _step_together(step: Floats, start: Floats, worst: float, span: float, cell: Floats, table: Floats) -> bool:
    """Take a step in all free spaces, shortened until it gains; say whether it did."""
    tried = np.zeros(4)
    share = 1.0
    for space in range(4):
        if cell[FREE_HEAD + space] != 0.0:
            share = min(share, 0.7 * start[space] / max(abs(step[space]), 1e-300))
    for _ in range(8):
        for space in range(4):
            if cell[FREE_HEAD + space] != 0.0:
                cell[space * ROW + P] = start[space] - share * step[space]
        if _weigh_all(tried, span, cell, table) < worst * (1.0 - 0.1 * share):
            return True
        share *= 0.4
    return False


@compiled
def _find_slopes(slopes: Floats, excess: Floats, span: float, cell: Floats, table: Floats) -> None:
    """Work out how every space's excess answers to every space's pressure [J/Pa]."""
    nudged = np.zeros(4)
    for space in range(4):
        here = space * ROW
        if cell[FREE_HEAD + space] == 0.0:
            for other in range(4):
                slopes[other, space] = 1.0 if other == space else 0.0
            continue
        before = cell[here + P]
        cell[here + P] = before * (1.0 + NUDGE)
        _weigh_all(nudged, span, cell, table)
        for other in range(4):
            slopes[other, space] = (nudged[other] - excess[other]) / (before * NUDGE)
        cell[here + P] = before


@compiled
def _eliminate(slopes: Floats, right: Floats) -> Floats:
    """Solve four linear equations; the largest slopes stand on the diagonal, so rows need no changing about."""
    a, b = slopes.copy(), right.copy()
    for k in range(4):
        for i in range(k + 1, 4):
            share = a[i, k] / a[k, k]
            for j in range(k, 4):
                a[i, j] -= share * a[k, j]
            b[i] -= share * b[k]
    for k in range(3, -1, -1):
        for j in range(k + 1, 4):
            b[k] -= a[k, j] * b[j]
        b[k] /= a[k, k]
    return b


@compiled
def _weigh_all(excess: Floats, span: float, cell: Floats, table: Floats) -> float:
    """Weigh every free space at its present pressure; return the worst excess as a share of what the space holds.

    The fullest comes first: whatever flows into a space comes from one of higher pressure, whose density is known then.
    """
    worst = 0.0
    last, last_space = 1e300, -1
    for _ in range(4):
        space = -1
        for other in range(4):
            p = cell[other * ROW + P]
            follows = p < last or (p == last and other > last_space)
            if cell[FREE_HEAD + other] != 0.0 and follows and (space < 0 or p > cell[space * ROW + P]):
                space = other
        if space < 0:
            break
        last, last_space = cell[space * ROW + P], space
        excess[space] = weigh(space, last, span, cell, table)
        worst = max(worst, abs(excess[space]) / (2.5 * last * cell[space * ROW + VOLUME]))
    return worst


@compiled
def find_flows(cell: Floats, flows: Floats, carried: Floats) -> None:
    """Work out every way's flow [kg/s] and the enthalpy it carries [W], positive from its first space to its second."""
    for way in range(WAYS):
        flows[way] = 0.0
        carried[way] = 0.0
        opening = cell[OPEN + way]
        if opening == 0.0:
            continue
        up, down, sign = WAY_FROM[way] * ROW, WAY_TO[way] * ROW, 1.0
        if cell[down + P] > cell[up + P]:
            up, down, sign = down, up, -1.0
        p, q = cell[up + P], cell[down + P]
        if p == q:
            continue
        if way < FIRST_GAP:
            flow = sign * opening * sqrt(p * cell[up + DENSITY]) * push_through(cell, up, q / p)
            flows[way] = flow
            carried[way] = flow * cell[up + ENTHALPY]
        else:
            gas, water = leak_through(cell, up, q, GAPS + GAP * (way - FIRST_GAP))
            flows[way] = sign * (gas + water)
            carried[way] = sign * (gas * cell[up + ENTHALPY] + water * cell[up + FILM])
