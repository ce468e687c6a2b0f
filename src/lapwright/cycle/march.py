"""Marching a cylinder through its turns until they repeat.

Each step is a pressure-implicit one in two stages (singly diagonally implicit, L-stable, second order): the small
spaces behind wide ports are far too stiff for anything explicit. Mass, energy and work use the same stage rates, so
both balances close to rounding whatever the step. Steps begin and end on the port events, which the motion knows
exactly, so no step has a corner inside. Where a port has just opened and a space all but empties or fills within one
stage, the step is finished as two simple implicit ones, which never overshoot.

Source: alexander-1977 (scheme); first law for an open space
"""

from __future__ import annotations

from math import pi

import numpy as np

from lapwright.cycle.balance import set_flow_terms
from lapwright.cycle.layout import (
    BASE_ENERGY,
    BASE_MASS,
    COUPLING,
    CRANK,
    DRYNESS,
    ENERGY,
    FREE_HEAD,
    GAMMA,
    HEAT,
    HEATED,
    LOSS,
    MASS,
    MOST_TURNS,
    OPEN,
    OPEN_STEAM_HEAD,
    OUT_CARRIED,
    OUT_FLOWS,
    OUT_HEAT,
    OUT_P,
    OUT_SHARE,
    OUT_T,
    OUT_X,
    RATE,
    ROW,
    SHOP_TEMPERATURE,
    SPEED,
    START,
    STEP,
    SWELL_HEAD,
    SWELLING,
    TEMPERATURE,
    TOLERANCE,
    VOLUME,
    VOLUME_HEAD,
    WALL,
    WAY_FROM,
    WAY_STEAM_HEAD,
    WAY_TO,
    WAYS,
    Floats,
    P,
)
from lapwright.cycle.stage import find_flows, solve_stage
from lapwright.medium.compiling import compiled

#: A space that changes by more than this share within one stage is rushed.
RUSHED = 0.25
#: The wall's temperature is moved by no more than this between turns [K].
_BIGGEST_MOVE = 60.0


@compiled
def march(cell: Floats, table: Floats, turn: Floats, out: Floats) -> tuple[int, float]:
    """March until a turn repeats the one before.

    `cell` is left as at the end of the last turn, `out` with all of it, two rows a step. Returns the number of turns,
    and by what share the contents (and the wall's temperature) still changed over the last.
    """
    before = np.zeros((4, 2))
    gained = np.zeros((4, 2))
    # How boldly the wall is moved, the heat it kept a turn ago, the strongest coupling seen of late.
    wall = np.array([1.0, 0.0, 0.0])
    change = 1.0
    turns = 0
    while turns < int(cell[MOST_TURNS]):
        for space in range(4):
            before[space, 0] = cell[space * ROW + MASS]
            before[space, 1] = cell[space * ROW + ENERGY]
        given, exchange = _march_turn(cell, table, turn, out, gained)
        turns += 1
        change = 0.0
        for space in range(4):
            if cell[FREE_HEAD + space] != 0.0:
                change = max(change, abs(cell[space * ROW + MASS] / before[space, 0] - 1.0))
                change = max(change, abs(cell[space * ROW + ENERGY] / before[space, 1] - 1.0))
        if cell[HEATED] != 0.0:
            change = max(change, _warm_wall(cell, wall, given, exchange))
        if change < cell[TOLERANCE]:
            break
    return turns, change


@compiled
def _warm_wall(cell: Floats, last: Floats, given: float, exchange: float) -> float:
    """Move the wall towards the temperature at which it keeps no heat; return the move as a share of the temperature.

    `given` is the heat it got within the turn [J], `exchange` how strongly it is coupled to what is inside [J/K]. The
    moves grow while the heat kept keeps its sign, and shrink when it changes: film that comes and goes makes it jump.
    """
    period = 2.0 * pi / cell[SPEED]
    kept = given - cell[LOSS] * (cell[WALL] - cell[SHOP_TEMPERATURE]) * period
    answer = last[2] = max(exchange + cell[LOSS] * period, 0.3 * last[2])
    last[0] = min(1.5 * last[0], 4.0) if kept * last[1] > 0.0 else max(0.5 * last[0], 0.05)
    last[1] = kept
    step = min(max(last[0] * kept / answer, -_BIGGEST_MOVE), _BIGGEST_MOVE)
    cell[WALL] += step
    return abs(step) / cell[WALL]


@compiled
def _march_turn(cell: Floats, table: Floats, turn: Floats, out: Floats, gained: Floats) -> tuple[float, float]:
    """March one turn; return the heat given to the wall [J] and its coupling to what is inside, over the turn [J/K]."""
    given, exchange = 0.0, 0.0
    for step in range(turn.shape[0] // 2):
        width = turn[2 * step, STEP]
        length = width / cell[SPEED]
        for space in range(4):
            here = space * ROW
            if cell[FREE_HEAD + space] != 0.0:
                set_flow_terms(cell, space)
            cell[here + START] = cell[here + BASE_MASS] = cell[here + MASS]
            cell[here + BASE_ENERGY] = cell[here + ENERGY]
        first, last = out[2 * step], out[2 * step + 1]
        _take_stage(GAMMA * length, GAMMA * length, cell, table, turn[2 * step], gained, first)
        weight = GAMMA if _is_rushed(cell) else 1.0 - GAMMA
        for space in range(4):
            cell[space * ROW + BASE_MASS] += weight * length * gained[space, 0]
            cell[space * ROW + BASE_ENERGY] += weight * length * gained[space, 1]
        first[OUT_SHARE], last[OUT_SHARE] = weight * width, (1.0 - weight) * width
        ahead = (1.0 - GAMMA) * length
        _take_stage(ahead, (1.0 - weight) * length, cell, table, turn[2 * step + 1], gained, last)
        for row in (first, last):
            for end in range(2):
                given -= row[OUT_SHARE] * row[OUT_HEAT + end]
                exchange += row[OUT_SHARE] * row[OUT_HEAT + 2 + end]
    return given / cell[SPEED], exchange / cell[SPEED]


@compiled
def _take_stage(
    ahead: float, span: float, cell: Floats, table: Floats, place: Floats, gained: Floats, row: Floats
) -> None:
    """Solve a stage and set the spaces to what they then hold: base and gain, so that nothing is lost to rounding."""
    for end in range(2):
        cell[end * ROW + VOLUME] = place[VOLUME_HEAD + 2 * end]
        cell[end * ROW + SWELLING] = place[SWELL_HEAD + 2 * end] * cell[SPEED]
    for n in range(5):
        cell[OPEN + WAY_STEAM_HEAD + n] = place[OPEN_STEAM_HEAD + n]
    for space in range(4):
        row[OUT_P + space] = cell[space * ROW + P]
    flows, carried = row[OUT_FLOWS : OUT_FLOWS + WAYS], row[OUT_CARRIED : OUT_CARRIED + WAYS]
    solve_stage(ahead, span, cell, table)
    find_flows(cell, flows, carried)
    _gain(gained, flows, carried, cell)
    for space in range(4):
        here = space * ROW
        if cell[FREE_HEAD + space] != 0.0:
            cell[here + RATE] = (cell[here + P] - row[OUT_P + space]) / ahead
            cell[here + MASS] = cell[here + BASE_MASS] + span * gained[space, 0]
            cell[here + ENERGY] = cell[here + BASE_ENERGY] + span * gained[space, 1]
        row[OUT_P + space] = cell[here + P]
    for end in range(2):
        here = end * ROW
        row[OUT_T + end] = cell[here + TEMPERATURE]
        row[OUT_X + end] = cell[here + DRYNESS]
        row[OUT_HEAT + end] = cell[here + HEAT]
        row[OUT_HEAT + 2 + end] = cell[here + COUPLING]


@compiled
def _is_rushed(cell: Floats) -> bool:
    """Say whether a space changed so much in the first stage that the scheme's second would shoot past and come back."""
    for space in range(4):
        here = space * ROW
        if cell[FREE_HEAD + space] != 0.0:
            for now, then in ((MASS, BASE_MASS), (ENERGY, BASE_ENERGY)):
                a, b = cell[here + now], cell[here + then]
                if abs(a - b) > RUSHED * min(a, b):
                    return True
    return False


@compiled
def _gain(gained: Floats, flows: Floats, carried: Floats, cell: Floats) -> None:
    """Add up what each space gains a second: mass [kg/s] and energy [W]."""
    for space in range(4):
        here = space * ROW
        gained[space, 0] = 0.0
        gained[space, 1] = cell[here + HEAT] - cell[here + P] * cell[here + SWELLING]
    for way in range(WAYS):
        if flows[way] == 0.0:
            continue
        giver, taker = WAY_FROM[way], WAY_TO[way]
        if giver < 4:
            gained[giver, 0] -= flows[way]
            gained[giver, 1] -= carried[way]
        if taker < 4:
            gained[taker, 0] += flows[way]
            gained[taker, 1] += carried[way]
