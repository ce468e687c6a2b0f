"""Marching a cylinder through its turns until they repeat.

Each step is a pressure-implicit one in two stages (singly diagonally implicit, L-stable, second order): the small
spaces behind wide ports are far too stiff for anything explicit. Mass, energy and work use the same stage rates, so
both balances close to rounding whatever the step. Steps begin and end on the port events, which the motion knows
exactly, so no step has a corner inside. Where a port has just opened and a space all but empties or fills within one
stage, the step is finished as two simple implicit ones, which never overshoot.

Source: alexander-1977 (scheme); first law for an open space
"""

from __future__ import annotations

from math import inf, pi

from lapwright.cycle.balance import set_flow_terms
from lapwright.cycle.layout import (
    BASE_ENERGY,
    BASE_MASS,
    BEND,
    COUPLING,
    DRYNESS,
    ENERGY,
    FREE_HEAD,
    GAIN_ENERGY,
    GAIN_MASS,
    GAMMA,
    HEAT,
    HEATED,
    LOSS,
    MASS,
    MISSED,
    MISSES,
    MOST_TURNS,
    OPEN,
    OPEN_STEAM_HEAD,
    OUT_HEAT,
    OUT_P,
    OUT_SHARE,
    OUT_T,
    OUT_X,
    RATE,
    ROW,
    SERVING,
    SHOP_TEMPERATURE,
    SPEED,
    START,
    STEP,
    SWELL_HEAD,
    SWELLING,
    TEMPERATURE,
    TOLERANCE,
    TURN_ENERGY,
    TURN_MASS,
    TURN_MISSED,
    VOLUME,
    VOLUME_HEAD,
    WALL,
    WALL_ANSWER,
    WALL_BOLD,
    WALL_COUPLING,
    WALL_GIVEN,
    WALL_KEPT,
    WAY_STEAM_HEAD,
    Floats,
    P,
)
from lapwright.cycle.stage import find_flows, solve_stage
from lapwright.medium.compiling import inlined, lean

#: A space that changes by more than this share within one stage is rushed.
RUSHED = 0.25
#: A balance missed by more than this share is not summed up: the spaces are left with what fills them.
FAR_OFF = 0.01
#: After so many stages without a balance the march is given up.
MOST_MISSES = 200
#: The wall's temperature is moved by no more than this between turns [K].
_BIGGEST_MOVE = 60.0


@lean
def march(cell: Floats, table: Floats, turn: Floats, out: Floats) -> tuple[int, float]:
    """March until a turn repeats the one before, or too many stages find no balance.

    `cell` [SI] is left as at the end of the last turn, `out` with all of it, two rows a step. Returns the number of
    turns, and by what share the contents (and the wall's temperature) still changed over the last, or a balance was
    missed.
    """
    cell[WALL_BOLD], cell[WALL_KEPT], cell[WALL_ANSWER] = 1.0, 0.0, 0.0
    cell[MISSES], cell[SERVING] = 0.0, 0.0
    change = 1.0
    turns = 0
    while turns < int(cell[MOST_TURNS]) and cell[TOLERANCE] <= change < inf and cell[MISSES] < MOST_MISSES:
        for space in range(4):
            cell[space * ROW + TURN_MASS] = cell[space * ROW + MASS]
            cell[space * ROW + TURN_ENERGY] = cell[space * ROW + ENERGY]
        cell[WALL_GIVEN] = cell[WALL_COUPLING] = cell[TURN_MISSED] = 0.0
        for n in range(0, turn.shape[0], 2):
            _take_step(n, cell, table, turn, out)
        change = _find_change(cell)
        if cell[HEATED] != 0.0:
            change = max(change, _warm_wall(cell))
        turns += 1
    return turns, max(change, cell[TURN_MISSED])


@lean
def _find_change(cell: Floats) -> float:
    """Return by what share the contents of a space changed over the turn, infinite if they are lost."""
    change = 0.0
    for space in range(4):
        here = space * ROW
        if cell[FREE_HEAD + space] != 0.0:
            if not (cell[here + MASS] > 0.0 and cell[here + ENERGY] > 0.0):
                return inf
            change = max(change, abs(cell[here + MASS] / cell[here + TURN_MASS] - 1.0))
            change = max(change, abs(cell[here + ENERGY] / cell[here + TURN_ENERGY] - 1.0))
    return change


@lean
def _warm_wall(cell: Floats) -> float:
    """Move the wall towards the temperature at which it keeps no heat; return the move as a share of the temperature.

    The moves grow bolder while the heat kept keeps its sign, and timid when it changes: film that comes and goes makes
    it jump. How strongly the wall answers is remembered for a few turns.
    """
    period = 2.0 * pi / cell[SPEED]
    kept = cell[WALL_GIVEN] - cell[LOSS] * (cell[WALL] - cell[SHOP_TEMPERATURE]) * period
    cell[WALL_ANSWER] = max(cell[WALL_COUPLING] + cell[LOSS] * period, 0.3 * cell[WALL_ANSWER])
    bold = cell[WALL_BOLD]
    cell[WALL_BOLD] = min(1.5 * bold, 4.0) if kept * cell[WALL_KEPT] > 0.0 else max(0.5 * bold, 0.05)
    cell[WALL_KEPT] = kept
    move = min(max(cell[WALL_BOLD] * kept / cell[WALL_ANSWER], -_BIGGEST_MOVE), _BIGGEST_MOVE)
    cell[WALL] += move
    share: float = abs(move) / cell[WALL]
    return share


@lean
def _take_step(n: int, cell: Floats, table: Floats, turn: Floats, out: Floats) -> None:
    """Take the step whose stages are the rows n and n + 1, and add up what heat the wall gave within it."""
    width = turn[n, STEP]
    length = width / cell[SPEED]
    for space in range(4):
        here = space * ROW
        if cell[FREE_HEAD + space] != 0.0:
            set_flow_terms(cell, space)
        cell[here + START] = cell[here + BASE_MASS] = cell[here + MASS]
        cell[here + BASE_ENERGY] = cell[here + ENERGY]
    ahead = span = GAMMA * length
    for row in range(n, n + 2):
        _take_stage(row, ahead, span, cell, table, turn, out)
        if row == n:
            weight = _begin_second(length, cell)
            ahead, span = (1.0 - GAMMA) * length, (1.0 - weight) * length
    out[n, OUT_SHARE], out[n + 1, OUT_SHARE] = weight * width, (1.0 - weight) * width
    for row in range(n, n + 2):
        share = out[row, OUT_SHARE] / cell[SPEED]
        cell[WALL_GIVEN] -= share * (out[row, OUT_HEAT] + out[row, OUT_HEAT + 1])
        cell[WALL_COUPLING] += share * (out[row, OUT_HEAT + 2] + out[row, OUT_HEAT + 3])


@lean
def _take_stage(n: int, ahead: float, span: float, cell: Floats, table: Floats, turn: Floats, out: Floats) -> None:
    """Solve a stage and set the spaces to what they then hold: base and gain, so that nothing is lost to rounding."""
    for end in range(2):
        cell[end * ROW + VOLUME] = turn[n, VOLUME_HEAD + 2 * end]
        cell[end * ROW + SWELLING] = turn[n, SWELL_HEAD + 2 * end] * cell[SPEED]
    for way in range(5):
        cell[OPEN + WAY_STEAM_HEAD + way] = turn[n, OPEN_STEAM_HEAD + way]
    for space in range(4):
        out[n, OUT_P + space] = cell[space * ROW + P]
    cell[MISSED] = 0.0
    solve_stage(n, ahead, span, cell, table)
    cell[TURN_MISSED] = max(cell[TURN_MISSED], cell[MISSED])
    find_flows(n, cell, out)
    for space in range(4):
        here = space * ROW
        if cell[FREE_HEAD + space] != 0.0:
            rate = (cell[here + P] - out[n, OUT_P + space]) / ahead
            cell[here + BEND + n % 2] = (rate - cell[here + RATE]) / ahead
            cell[here + RATE] = rate
            if cell[MISSED] < FAR_OFF:
                cell[here + MASS] = cell[here + BASE_MASS] + span * cell[here + GAIN_MASS]
                cell[here + ENERGY] = cell[here + BASE_ENERGY] + span * cell[here + GAIN_ENERGY]
        out[n, OUT_P + space] = cell[here + P]
    for end in range(2):
        here = end * ROW
        out[n, OUT_T + end] = cell[here + TEMPERATURE]
        out[n, OUT_X + end] = cell[here + DRYNESS]
        out[n, OUT_HEAT + end] = cell[here + HEAT]
        out[n, OUT_HEAT + 2 + end] = cell[here + COUPLING]


@lean
def _begin_second(length: float, cell: Floats) -> float:
    """Set what the second stage of a step begins with; return the first one's weight in the step of a length [s].

    Where a space has changed so much that the scheme's second stage would shoot past and come back, or has found no
    balance, the first counts for the part of the step that it covers, and the second begins where it has ended.
    """
    rushed = cell[MISSED] >= FAR_OFF
    for space in range(4):
        here = space * ROW
        if cell[FREE_HEAD + space] != 0.0:
            rushed = rushed or _rushes(cell[here + MASS], cell[here + BASE_MASS])
            rushed = rushed or _rushes(cell[here + ENERGY], cell[here + BASE_ENERGY])
    for space in range(4):
        here = space * ROW
        if rushed:
            cell[here + BASE_MASS], cell[here + BASE_ENERGY] = cell[here + MASS], cell[here + ENERGY]
        else:
            cell[here + BASE_MASS] += (1.0 - GAMMA) * length * cell[here + GAIN_MASS]
            cell[here + BASE_ENERGY] += (1.0 - GAMMA) * length * cell[here + GAIN_ENERGY]
    return GAMMA if rushed else 1.0 - GAMMA


@inlined
def _rushes(now: float, then: float) -> bool:
    return abs(now - then) > RUSHED * min(now, then)
