"""One stage of a step: the pressures at which every free space is in balance, and what then flows."""

from __future__ import annotations

import numpy as np

from lapwright.cycle.balance import leak_through, push_through, weigh
from lapwright.cycle.layout import (
    CHEST,
    DENSITY,
    ENTHALPY,
    FILM,
    FIRST_GAP,
    FREE_HEAD,
    HEAD,
    PIPE,
    SLOPE,
    VOLUME,
    WAY_FROM,
    WAY_TO,
    WAYS,
    Floats,
    P,
)
from lapwright.medium.compiling import compiled

#: A pressure is found when the next step would move it by less than this share of itself.
FINE = 1e-9
#: Rounds over the spaces in turn before they are solved together.
ROUNDS = 4


@compiled
def solve_stage(span: float, par: Floats, table: Floats, state: Floats, ways: Floats, gaps: Floats) -> None:
    """Bring every free space into balance. Alone they are solved in turn; strongly tied together, all at once."""
    tied = par[FREE_HEAD + CHEST] != 0.0 or par[FREE_HEAD + PIPE] != 0.0
    if not tied:
        rounds = ROUNDS if ways[FIRST_GAP] != 0.0 and par[FREE_HEAD + 1] != 0.0 else 1
        for turn in range(rounds):
            moved = 0.0
            for space in range(2):
                if par[FREE_HEAD + space] != 0.0:
                    before = state[space, P]
                    _solve_space(space, span, par, table, state, ways, gaps)
                    moved = max(moved, abs(state[space, P] / before - 1.0))
            if turn > 0 and moved < FINE:
                return
        if rounds == 1:
            return
    _solve_together(span, par, table, state, ways, gaps)


@compiled
def _solve_space(
    space: int, span: float, par: Floats, table: Floats, state: Floats, ways: Floats, gaps: Floats
) -> None:
    """Find one space's pressure with its neighbours held: secant steps, kept between the signs already seen."""
    low, high = 0.0, 1e12
    p = state[space, P]
    slope = state[space, SLOPE]
    excess = weigh(space, p, span, par, table, state, ways, gaps)
    if slope <= 0.0:
        slope = 2.5 * state[space, VOLUME]
    for _ in range(100):
        if excess == 0.0:
            break
        if excess > 0.0:
            high = min(high, p)
        else:
            low = max(low, p)
        tried = p - excess / slope
        if not low < tried < high:
            tried = 0.5 * (low + high) if high < 1e12 else 2.0 * p
        tried = min(max(tried, 0.2 * p), 5.0 * p)
        step = tried - p
        if abs(step) < FINE * p:
            break
        after = weigh(space, tried, span, par, table, state, ways, gaps)
        change = (after - excess) / step
        if change > 0.0:
            slope = change
        p, excess = tried, after
    state[space, SLOPE] = slope


@compiled
def _solve_together(span: float, par: Floats, table: Floats, state: Floats, ways: Floats, gaps: Floats) -> None:
    """Newton's method on the pressures of all free spaces, the slopes by differences, the step shortened if it overshoots."""
    excess, tried = np.zeros(4), np.zeros(4)
    slopes = np.zeros((4, 4))
    for _ in range(60):
        worst = _weigh_all(excess, span, par, table, state, ways, gaps)
        for j in range(4):
            for i in range(4):
                slopes[i, j] = 1.0 if i == j else 0.0
            if par[FREE_HEAD + j] == 0.0:
                continue
            before = state[j].copy()
            nudge = 1e-6 * before[P]
            weigh(j, before[P] + nudge, span, par, table, state, ways, gaps)
            for i in range(4):
                if par[FREE_HEAD + i] != 0.0:
                    kept = state[i].copy()
                    after = weigh(i, kept[P], span, par, table, state, ways, gaps)
                    slopes[i, j] = (after - excess[i]) / nudge
                    state[i] = kept
            state[j] = before
        step = _eliminate(slopes, excess)
        start = state[:4, P].copy()
        share = 1.0
        for i in range(4):
            if par[FREE_HEAD + i] != 0.0:
                share = min(share, 0.7 * start[i] / max(abs(step[i]), 1e-300))
        for _ in range(12):
            for i in range(4):
                if par[FREE_HEAD + i] != 0.0:
                    state[i, P] = start[i] - share * step[i]
            if _weigh_all(tried, span, par, table, state, ways, gaps) <= worst:
                break
            share *= 0.5
        moved_by = 0.0
        for i in range(4):
            if par[FREE_HEAD + i] != 0.0:
                moved_by = max(moved_by, abs(share * step[i]) / start[i])
        if moved_by < FINE:
            return


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
def _weigh_all(
    excess: Floats, span: float, par: Floats, table: Floats, state: Floats, ways: Floats, gaps: Floats
) -> float:
    """Weigh every free space at its present pressure; the worst is measured in pressure, as a share."""
    worst = 0.0
    for space in range(4):
        excess[space] = 0.0
        if par[FREE_HEAD + space] != 0.0:
            p = state[space, P]
            excess[space] = weigh(space, p, span, par, table, state, ways, gaps)
            worst = max(worst, abs(excess[space]) / (p * state[space, VOLUME]))
    return worst


@compiled
def find_flows(state: Floats, ways: Floats, gaps: Floats, flows: Floats, carried: Floats) -> None:
    """Work out every way's flow [kg/s] and the enthalpy it carries [W], positive from its first space to its second."""
    for way in range(WAYS):
        flows[way] = 0.0
        carried[way] = 0.0
        if ways[way] == 0.0:
            continue
        up, down, sign = WAY_FROM[way], WAY_TO[way], 1.0
        if state[down, P] > state[up, P]:
            up, down, sign = down, up, -1.0
        p, q = state[up, P], state[down, P]
        if p == q:
            continue
        if way < FIRST_GAP:
            flow = ways[way] * (p * state[up, DENSITY]) ** 0.5 * push_through(state, up, q / p)
            flows[way] = sign * flow
            carried[way] = sign * flow * state[up, ENTHALPY]
        else:
            gas, water = leak_through(state, up, q, gaps[way - FIRST_GAP])
            flows[way] = sign * (gas + water)
            carried[way] = sign * (gas * state[up, ENTHALPY] + water * state[up, FILM])
