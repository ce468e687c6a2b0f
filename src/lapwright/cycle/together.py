"""All free spaces of a stage brought into balance at once, where they are tied too strongly to be solved in turn.

The unknowns are the logarithms of the pressures, and so is the excess of energy: what a space ends up with over what
came in. Thus a port that passes freely one way and hardly the other bends the equations far less.
"""

from __future__ import annotations

from math import exp, log, sqrt

from lapwright.cycle.alone import solve_alone
from lapwright.cycle.balance import FINE, find_measure, weigh
from lapwright.cycle.layout import (
    BEST,
    EXCESS,
    FREE_HEAD,
    KNOWN,
    LEAST,
    LINE,
    LINES,
    MARK_EXCESS,
    MARK_P,
    MISSED,
    MISSES,
    ROW,
    SERVING,
    SLOPES,
    SPAN,
    TURNED,
    Floats,
    P,
)
from lapwright.medium.compiling import lean

#: Steps of one search, rounds of single spaces within it, and parts of the span tried, before it is given up.
_STEPS, _ROUNDS, _PARTS = 60, 30, 40
#: The first part of the span that is tried where the whole of it leads nowhere.
_FIRST_PART = 4.0**-10
#: The first leap of a pressure's logarithm, and how many follow, each twice the one before.
_FIRST_LEAP, _LEAPS = 1e-5, 14
#: Slopes serve as long as a step by them leaves less than this share of the excess.
_SERVES = 0.3
#: How far the logarithm of a pressure is nudged to find slopes: finely, for tied spaces differ by a few pascals.
_NUDGE = 1e-8
#: Where no step helps any more, so small an excess is rounding.
_ROUNDING = 1e-6


@lean
def solve_together(span: float, cell: Floats, table: Floats) -> None:
    """Bring all free spaces into balance at once; a stage that will not come is left at its best and noted as missed.

    Where the search leads nowhere, the spaces start from the pressures of the stage before and are led through parts
    of the span [s] that grow to the whole: for a short part there is little to find. Where that ends in a fold, one
    space after the other leaps over it.
    """
    cell[SPAN], cell[LEAST] = span, 1e300
    if _search(span, cell, table) or _creep(span, cell, table):
        return
    for space in range(4):
        if cell[FREE_HEAD + space] != 0.0 and _leap(space, span, cell, table):
            return
    _set_pressures(BEST, cell)
    _weigh_all(span, cell, table)
    cell[SERVING] = 0.0
    cell[MISSED] = _find_worst(cell)
    cell[MISSES] += 1.0


@lean
def _creep(span: float, cell: Floats, table: Floats) -> bool:
    """Search for the balance through growing parts of the span; say whether the whole of it was reached."""
    done, part = 0.0, _FIRST_PART
    for _ in range(_PARTS):
        _set_pressures(KNOWN, cell)
        cell[SERVING] = 0.0
        if _search(part * span, cell, table):
            if part == 1.0:
                return True
            _keep_pressures(KNOWN, cell)
            done, part = part, min(1.0, 4.0 * part)
        else:
            part = sqrt(part * done) if done > 0.0 else part / 16.0
            if part < 1.01 * done:
                break
    return False


@lean
def _leap(space: int, span: float, cell: Floats, table: Floats) -> bool:
    """Search beyond the next pressure of one space at which its excess changes sign; say whether a balance was found.

    Where wet steam comes back into a space that is dry, it cools what is there: less pressure, so more comes in, until
    all is wet. There is no balance on the way, and only leaps lead to the one beyond.
    """
    _set_pressures(BEST, cell)
    _weigh_all(span, cell, table)
    here = space * ROW
    sign = 1.0 if cell[here + EXCESS] > 0.0 else -1.0
    leap = _FIRST_LEAP
    for _ in range(_LEAPS):
        p = cell[here + P] * exp(-sign * leap)
        weigh(space, p, span, cell, table)
        for n in range(8):
            if n % 4 != space and cell[FREE_HEAD + n % 4] != 0.0:
                solve_alone(n % 4, span, cell, table)
        excess = weigh(space, p, span, cell, table)
        if sign * excess < 0.0:
            cell[SERVING] = 0.0
            return _search(span, cell, table)
        leap *= 2.0
    return False


@lean
def _search(span: float, cell: Floats, table: Floats) -> bool:
    """Search for the balance from where the spaces are: the secant method in as many unknowns as there are spaces.

    Slopes are kept from stage to stage and corrected by what every step shows; when they no longer serve they are found
    anew. Where even then no step gains, every space is solved alone once: that leads nearer, if slowly.

    Source: broyden-1965
    """
    _weigh_all(span, cell, table)
    rounds = 0
    for _ in range(_STEPS):
        worst = _find_worst(cell)
        if span == cell[SPAN] and worst < cell[LEAST]:
            cell[LEAST] = worst
            _keep_pressures(BEST, cell)
        if worst < FINE:
            return True
        are_new = cell[SERVING] == 0.0
        if are_new:
            _find_slopes(span, cell, table)
        if _step(span, cell, table):
            continue
        if are_new:
            if worst < _ROUNDING or rounds == _ROUNDS:
                return worst < _ROUNDING
            rounds += 1
            for space in range(4):
                if cell[FREE_HEAD + space] != 0.0:
                    solve_alone(space, span, cell, table)
            _weigh_all(span, cell, table)
        cell[SERVING] = 0.0
    return False


@lean
def _step(span: float, cell: Floats, table: Floats) -> bool:
    """Take the step that the slopes ask for, shortened while it gains nothing; say whether it gained."""
    before, share = _find_norm(cell), _eliminate(cell)
    norm = _move(share, span, cell, table)
    for _ in range(4):
        if norm < 0.9 * before:
            break
        share *= 0.4
        norm = _move(share, span, cell, table)
    if norm < (1.0 - 0.1 * share) * before:
        _correct_slopes(share, cell)
        cell[SERVING] = 1.0 if norm < _SERVES * before else 0.0
        return True
    _set_pressures(MARK_P, cell)
    _weigh_all(span, cell, table)
    return False


@lean
def _weigh_all(span: float, cell: Floats, table: Floats) -> None:
    """Weigh every free space at its present pressure.

    The fullest comes first: whatever flows into a space comes from one of higher pressure, whose density is known then.
    """
    done = 0
    space = _find_fullest(done, cell)
    while space >= 0:
        here = space * ROW
        excess = weigh(space, cell[here + P], span, cell, table)
        cell[here + EXCESS] = log(cell[here + TURNED] / (cell[here + TURNED] - excess))
        done |= 1 << space
        space = _find_fullest(done, cell)


@lean
def _find_fullest(done: int, cell: Floats) -> int:
    """Return the free space of the highest pressure whose bit is not set in `done`, -1 when there is none left."""
    fullest, highest = -1, 0.0
    for space in range(4):
        if cell[FREE_HEAD + space] != 0.0 and not (done >> space) & 1 and cell[space * ROW + P] > highest:
            fullest, highest = space, cell[space * ROW + P]
    return fullest


@lean
def _find_worst(cell: Floats) -> float:
    """Return the worst excess of all free spaces, as a share of its measure."""
    worst = 0.0
    for space in range(4):
        if cell[FREE_HEAD + space] != 0.0:
            excess = abs(cell[space * ROW + EXCESS]) * cell[space * ROW + TURNED]
            worst = max(worst, excess / find_measure(space, cell))
    return worst


@lean
def _find_norm(cell: Floats) -> float:
    """Return the largest excess, as a logarithm: what every step has to lessen."""
    largest = 0.0
    for space in range(4):
        if cell[FREE_HEAD + space] != 0.0:
            largest = max(largest, abs(cell[space * ROW + EXCESS]))
    return largest


@lean
def _set_pressures(column: int, cell: Floats) -> None:
    """Set all free spaces to the pressures kept in a column of their rows."""
    for space in range(4):
        if cell[FREE_HEAD + space] != 0.0:
            cell[space * ROW + P] = cell[space * ROW + column]


@lean
def _keep_pressures(column: int, cell: Floats) -> None:
    """Keep the present pressures in a column of the spaces' rows."""
    for space in range(4):
        cell[space * ROW + column] = cell[space * ROW + P]


@lean
def _find_slopes(span: float, cell: Floats, table: Floats) -> None:
    """Work out how every space's excess answers to every space's pressure, both as logarithms."""
    for space in range(4):
        cell[space * ROW + MARK_EXCESS] = cell[space * ROW + EXCESS]
    for n in range(16):
        cell[SLOPES + n] = 1.0 if n % 5 == 0 else 0.0
    for space in range(4):
        if cell[FREE_HEAD + space] == 0.0:
            continue
        p = cell[space * ROW + P]
        cell[space * ROW + P] = p * (1.0 + _NUDGE)
        _weigh_all(span, cell, table)
        cell[space * ROW + P] = p
        for other in range(4):
            if cell[FREE_HEAD + other] != 0.0:
                change = cell[other * ROW + EXCESS] - cell[other * ROW + MARK_EXCESS]
                cell[SLOPES + 4 * other + space] = change / _NUDGE
    for space in range(4):
        cell[space * ROW + EXCESS] = cell[space * ROW + MARK_EXCESS]


@lean
def _eliminate(cell: Floats) -> float:
    """Mark where the spaces stand and solve for the step that would bring all into balance.

    The largest slopes stand on the diagonal, so lines need no changing about. Returns the share of the step that about
    halves or doubles a pressure, at most 1.
    """
    for i in range(4):
        line, here = LINES + LINE * i, i * ROW
        cell[here + MARK_P], cell[here + MARK_EXCESS] = cell[here + P], cell[here + EXCESS]
        for j in range(4):
            cell[line + j] = cell[SLOPES + 4 * i + j]
        cell[line + 4] = cell[here + EXCESS] if cell[FREE_HEAD + i] != 0.0 else 0.0
        for k in range(i):
            above = LINES + LINE * k
            times = cell[line + k] / cell[above + k]
            for j in range(k, LINE):
                cell[line + j] -= times * cell[above + j]
    share = 1.0
    for i in range(3, -1, -1):
        line = LINES + LINE * i
        for j in range(i + 1, 4):
            cell[line + 4] -= cell[line + j] * cell[LINES + LINE * j + 4]
        cell[line + 4] /= cell[line + i]
        share = min(share, 0.7 / max(abs(cell[line + 4]), 1e-300))
    return share


@lean
def _move(share: float, span: float, cell: Floats, table: Floats) -> float:
    """Take a share of the step from the pressures marked; return the largest excess there."""
    for space in range(4):
        if cell[FREE_HEAD + space] != 0.0:
            here = space * ROW
            cell[here + P] = cell[here + MARK_P] * exp(-share * cell[LINES + LINE * space + 4])
    _weigh_all(span, cell, table)
    return _find_norm(cell)


@lean
def _correct_slopes(share: float, cell: Floats) -> None:
    """Correct the slopes by what a share of the step has shown, and leave alone what it has not."""
    square = 0.0
    for j in range(4):
        square += cell[LINES + LINE * j + 4] ** 2
    for i in range(4):
        if cell[FREE_HEAD + i] != 0.0:
            missed = cell[i * ROW + EXCESS] - (1.0 - share) * cell[i * ROW + MARK_EXCESS]
            for j in range(4):
                cell[SLOPES + 4 * i + j] -= missed * cell[LINES + LINE * j + 4] / (share * square)
