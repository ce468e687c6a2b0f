"""Marching a cylinder through its turns until they repeat.

Each step is a pressure-implicit one in two stages (singly diagonally implicit, L-stable, second order): the small
spaces behind wide ports are far too stiff for anything explicit. Mass, energy and work use the same stage rates, so
both balances close to rounding whatever the step. Steps begin and end on the port events, which the motion knows
exactly, so no step has a corner inside.

Source: alexander-1977 (scheme); first law for an open space
"""

from __future__ import annotations

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
    OPEN_STEAM_HEAD,
    OUT_CARRIED,
    OUT_FLOWS,
    OUT_HEAT,
    OUT_P,
    OUT_SHARE,
    OUT_T,
    OUT_X,
    SHOP_TEMPERATURE,
    SPEED,
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


@compiled
def march(
    par: Floats, table: Floats, turn: Floats, state: Floats, ways: Floats, gaps: Floats, out: Floats
) -> tuple[int, float]:
    """March until a turn repeats the one before; `out` is left with the last turn, two rows a step.

    Returns the number of turns, and by what share the state still changed over the last.
    """
    before = np.zeros((4, 2))
    change = 1.0
    turns = 0
    while turns < int(par[MOST_TURNS]):
        for space in range(4):
            before[space, 0] = state[space, MASS]
            before[space, 1] = state[space, ENERGY]
        given, exchange = _march_turn(par, table, turn, state, ways, gaps, out)
        turns += 1
        change = 0.0
        for space in range(4):
            if par[FREE_HEAD + space] != 0.0:
                change = max(change, abs(state[space, MASS] / before[space, 0] - 1.0))
                change = max(change, abs(state[space, ENERGY] / before[space, 1] - 1.0))
        if par[HEATED] != 0.0:
            change = max(change, _warm_wall(par, given, exchange))
        if change < par[TOLERANCE]:
            break
    return turns, change


@compiled
def _warm_wall(par: Floats, given: float, exchange: float) -> float:
    """Move the wall towards the temperature at which it keeps no heat; return the move as a share of it.

    `given` is the heat it got in the turn less nothing [J], `exchange` how strongly it is coupled to what is inside
    [J/K].
    """
    period = 2.0 * np.pi / par[SPEED]
    lost = par[LOSS] * (par[WALL] - par[SHOP_TEMPERATURE]) * period
    step = (given - lost) / (exchange + par[LOSS] * period)
    step = min(max(step, -50.0), 50.0)
    par[WALL] += step
    return abs(step) / par[WALL]


@compiled
def _march_turn(
    par: Floats, table: Floats, turn: Floats, state: Floats, ways: Floats, gaps: Floats, out: Floats
) -> tuple[float, float]:
    """March one turn; return the heat given to the wall [J] and its coupling to what is inside, over the turn [J/K]."""
    gained = np.zeros((4, 2))
    given, exchange = 0.0, 0.0
    for step in range(turn.shape[0] // 2):
        length = turn[2 * step, STEP] / par[SPEED]
        for space in range(4):
            if par[FREE_HEAD + space] != 0.0:
                set_flow_terms(state, space, par)
        first, last = 2 * step, 2 * step + 1
        _set_stage(first, turn, state, ways)
        for space in range(4):
            state[space, BASE_MASS] = state[space, MASS]
            state[space, BASE_ENERGY] = state[space, ENERGY]
        _take_stage(GAMMA * length, par, table, state, ways, gaps, gained, out[first])
        rushed = _is_rushed(par, state)
        weight = GAMMA if rushed else 1.0 - GAMMA
        for space in range(4):
            state[space, BASE_MASS] += weight * length * gained[space, 0]
            state[space, BASE_ENERGY] += weight * length * gained[space, 1]
        given, exchange = _count_heat(given, exchange, weight * length, state)
        out[first, OUT_SHARE] = weight * turn[first, STEP]
        _set_stage(last, turn, state, ways)
        _take_stage((1.0 - weight) * length, par, table, state, ways, gaps, gained, out[last])
        given, exchange = _count_heat(given, exchange, (1.0 - weight) * length, state)
        out[last, OUT_SHARE] = (1.0 - weight) * turn[first, STEP]
    return given, exchange


@compiled
def _take_stage(
    span: float, par: Floats, table: Floats, state: Floats, ways: Floats, gaps: Floats, gained: Floats, row: Floats
) -> None:
    """Solve a stage and set the spaces to what they then hold: base and gain, so that nothing is lost to rounding."""
    flows, carried = row[OUT_FLOWS : OUT_FLOWS + WAYS], row[OUT_CARRIED : OUT_CARRIED + WAYS]
    solve_stage(span, par, table, state, ways, gaps)
    find_flows(state, ways, gaps, flows, carried)
    _gain(gained, flows, carried, state)
    for space in range(4):
        if par[FREE_HEAD + space] != 0.0:
            state[space, MASS] = state[space, BASE_MASS] + span * gained[space, 0]
            state[space, ENERGY] = state[space, BASE_ENERGY] + span * gained[space, 1]
    _write_row(row, state)


@compiled
def _is_rushed(par: Floats, state: Floats) -> bool:
    """Say whether a space changed so much within the first stage that the scheme's second would shoot past and come back.

    Such a step is finished as two simple implicit ones, which never overshoot.
    """
    for space in range(4):
        if par[FREE_HEAD + space] != 0.0:
            mass, energy = state[space, MASS], state[space, ENERGY]
            if abs(mass - state[space, BASE_MASS]) > RUSHED * min(mass, state[space, BASE_MASS]):
                return True
            if abs(energy - state[space, BASE_ENERGY]) > RUSHED * min(energy, state[space, BASE_ENERGY]):
                return True
    return False


@compiled
def _count_heat(given: float, exchange: float, share: float, state: Floats) -> tuple[float, float]:
    given -= share * (state[0, HEAT] + state[CRANK, HEAT])
    return given, exchange + share * (state[0, COUPLING] + state[CRANK, COUPLING])


@compiled
def _set_stage(row: int, turn: Floats, state: Floats, ways: Floats) -> None:
    """Put volumes and openings of a stage in place."""
    for end in range(2):
        state[end, VOLUME] = turn[row, VOLUME_HEAD + 2 * end]
        state[end, SWELLING] = turn[row, SWELL_HEAD + 2 * end]
    for n in range(5):
        ways[WAY_STEAM_HEAD + n] = turn[row, OPEN_STEAM_HEAD + n]


@compiled
def _gain(gained: Floats, flows: Floats, carried: Floats, state: Floats) -> None:
    """Add up what each space gains a second: mass [kg/s] and energy [W]."""
    for space in range(4):
        gained[space, 0] = 0.0
        gained[space, 1] = state[space, HEAT] - state[space, P] * state[space, SWELLING]
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


@compiled
def _write_row(row: Floats, state: Floats) -> None:
    for space in range(4):
        row[OUT_P + space] = state[space, P]
    for end in range(2):
        row[OUT_T + end] = state[end, TEMPERATURE]
        row[OUT_X + end] = state[end, DRYNESS]
        row[OUT_HEAT + end] = state[end, HEAT]
