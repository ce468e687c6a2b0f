"""Shares of a whole, such as a cut-off; and turns of a nut or a crank."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import NoUnit, OutOfRange
from lapwright.quantities.figure import Kind, read_figure
from lapwright.quantities.quantity import Quantity

_PERCENT, _STROKE, _TURN = ("%", Fraction(1, 100)), ("stroke", Fraction(1)), ("turn", Fraction(1))

SHARE = Kind(
    noun="a share of the stroke",
    units={
        "%": _PERCENT, "percent": _PERCENT, "per cent": _PERCENT,
        "stroke": _STROKE, "of stroke": _STROKE, "of the stroke": _STROKE,
    },
    examples=("60 %", "5/8 stroke"),
    usual=("%", "stroke"),
)  # fmt: skip
TURNS = Kind(
    noun="a number of turns",
    units={"turn": _TURN, "turns": _TURN, "of a turn": _TURN},
    examples=("1/2 turn", "1 turn"),
    usual=("turn",),
)
_MOST_TURNS = 1000


class Share(Quantity):
    """A part of a whole, 0 to 1."""

    __slots__ = ()


class Turns(Quantity):
    """A number of turns; never with a tolerance, since turns are counted."""

    __slots__ = ()


def read_share(text: object) -> Share:
    """Read a share of the stroke.

    Parameters
    ----------
    text: `60 %`, `60 per cent`, `5/8 stroke`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_share("5/8 of the stroke")), read_share("60 %").si
    ('5/8 stroke', 0.6)
    """
    try:
        read = read_figure(text, SHARE)
    except NoUnit as error:
        raise _suggest_percent(text, error) from None
    if not 0 <= read.value <= 1 or max(read.plus or 0, read.minus or 0) > 1:
        raise OutOfRange(read.shown, "is not between 0 and 100 %")
    return Share(read.value, read.plus, read.minus, read.unit, read.shown)


def _suggest_percent(text: object, error: NoUnit) -> NoUnit:
    """A bare 0.75 means three quarters of the stroke, never 0.75 %."""
    try:
        value = float(str(text))
    except ValueError:
        return error
    better = NoUnit(str(text), SHARE.usual)
    better.instead = f'write "{100 * value:g} %" or "{text} stroke"' if value <= 1 else f'write "{text} %"'
    return better


def read_turns(text: object) -> Turns:
    """Read a number of turns.

    Parameters
    ----------
    text: `1/2 turn`, `1 turn`, `1 1/2 turns`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_turns("1/2 TURN")), read_turns("1 1/2 turns").si
    ('1/2 turn', 1.5)
    """
    read = read_figure(text, TURNS)
    if abs(read.value) > _MOST_TURNS:
        raise OutOfRange(read.shown, "is more turns than anything needs")
    if read.plus is not None:
        raise OutOfRange(read.shown, "has a tolerance, but turns are counted", "write the turns alone")
    return Turns(read.value, None, None, read.unit, f"{read.shown}s" if abs(read.value) > 1 else read.shown)
