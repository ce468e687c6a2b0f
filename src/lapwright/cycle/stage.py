"""One stage of a step: the pressures at which every free space is in balance, and what then flows."""

from __future__ import annotations

from math import sqrt

from lapwright.cycle.alone import solve_alone
from lapwright.cycle.balance import leak_through
from lapwright.cycle.layout import (
    BEND,
    DENSITY,
    ENTHALPY,
    FACTOR,
    FILM,
    FIRST_GAP,
    FREE_CHEST,
    FREE_CRANK,
    FREE_HEAD,
    FREE_PIPE,
    GAIN_ENERGY,
    GAIN_MASS,
    GAP,
    GAP_RINGS,
    GAPS,
    HEAT,
    KNOWN,
    OPEN,
    OUT_CARRIED,
    OUT_FLOWS,
    RATE,
    ROW,
    SPACES,
    SWELLING,
    WAY_FROM,
    WAY_TO,
    WAYS,
    Floats,
    P,
)
from lapwright.cycle.together import solve_together
from lapwright.medium.compiling import inlined, lean

#: Rounds over the ends in turn before the spaces are solved together.
ROUNDS = 6
#: A guess further off than this share of the pressure is not believed.
BOLDEST = 0.1


@lean
def solve_stage(n: int, ahead: float, span: float, cell: Floats, table: Floats) -> None:
    """Bring every free space into balance in the turn's stage n: the ends in turn, or all spaces at once.

    `ahead` is how far the stage lies beyond the one before [s], `span` its implicit part [s].
    """
    for space in range(4):
        if cell[FREE_HEAD + space] != 0.0:
            _guess(space, n, ahead, cell)
    if cell[FREE_CHEST] == 0.0 and cell[FREE_PIPE] == 0.0 and _solve_in_turn(span, cell, table):
        return
    solve_together(span, cell, table)


@inlined
def _guess(space: int, n: int, ahead: float, cell: Floats) -> None:
    """Guess a space's pressure: straight on from the stage before, bent as the same stage of the last step was."""
    here = space * ROW
    p = cell[here + KNOWN] = cell[here + P]
    guess = p + ahead * (cell[here + RATE] + ahead * cell[here + BEND + n % 2])
    cell[here + P] = guess if abs(guess - p) < BOLDEST * p else p


@lean
def _solve_in_turn(span: float, cell: Floats, table: Floats) -> bool:
    """Bring the ends into balance, one after the other; say whether it was done. Leaking rings want a few rounds."""
    ends = 1 if cell[FREE_CRANK] == 0.0 else 2
    tied = ends == 2 and cell[OPEN + GAP_RINGS] != 0.0
    for n in range(ROUNDS * ends if tied else ends):
        moved = solve_alone(n % 2, span, cell, table)
        # An end whose neighbour has stayed where it was is still in balance.
        if n >= ends and not moved:
            return True
    return not tied


@inlined
def find_flows(n: int, cell: Floats, out: Floats) -> None:
    """Work out every way's flow [kg/s] and the enthalpy it carries [W], and what each space gains a second by them.

    They are written to row n, positive from a way's first space to its second.
    """
    for space in range(SPACES):
        here = space * ROW
        cell[here + GAIN_MASS] = 0.0
        cell[here + GAIN_ENERGY] = cell[here + HEAT] - cell[here + P] * cell[here + SWELLING]
    for way in range(WAYS):
        flow, carried = _flow_through(way, cell)
        out[n, OUT_FLOWS + way] = flow
        out[n, OUT_CARRIED + way] = carried
        giver, taker = WAY_FROM[way] * ROW, WAY_TO[way] * ROW
        cell[giver + GAIN_MASS] -= flow
        cell[giver + GAIN_ENERGY] -= carried
        cell[taker + GAIN_MASS] += flow
        cell[taker + GAIN_ENERGY] += carried


@inlined
def _flow_through(way: int, cell: Floats) -> tuple[float, float]:
    """Return what flows through a way [kg/s] and the enthalpy that it carries [W]."""
    if cell[OPEN + way] == 0.0:
        return 0.0, 0.0
    up, down, sign = WAY_FROM[way] * ROW, WAY_TO[way] * ROW, 1.0
    if cell[down + P] > cell[up + P]:
        up, down, sign = down, up, -1.0
    p, q = cell[up + P], cell[down + P]
    if p == q:
        return 0.0, 0.0
    if way < FIRST_GAP:
        flow = sign * cell[OPEN + way] * sqrt(p * cell[up + DENSITY]) * cell[FACTOR + way]
        return flow, flow * cell[up + ENTHALPY]
    gas, water = leak_through(cell, up, q, GAPS + GAP * (way - FIRST_GAP))
    return sign * (gas + water), sign * (gas * cell[up + ENTHALPY] + water * cell[up + FILM])
