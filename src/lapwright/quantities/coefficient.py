"""Plain numbers: coefficients, and the dryness of steam. The only figures that need no unit."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure
from lapwright.quantities.quantity import Quantity
from lapwright.quantities.share import Share

_ONE, _PERCENT = ("", Fraction(1)), ("%", Fraction(1, 100))
COEFFICIENT = Kind(noun="a plain number", units={"": _ONE}, examples=("0.70", "0.70 ± 0.05"), usual=())
DRYNESS = Kind(
    noun="a dryness",
    units={"": _ONE, "%": _PERCENT, "percent": _PERCENT, "per cent": _PERCENT},
    examples=("0.98", "98 %"),
    usual=(),
)
_GREATEST = 1_000_000


class Coefficient(Quantity):
    """A number without a unit."""

    __slots__ = ()


def read_coefficient(text: object) -> Coefficient:
    """Read a number that has no unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `0.70`, `0.70 ± 0.05`; a number that is no text will do as well

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_coefficient("0.70")), read_coefficient(0.7).si
    ('0.70', 0.7)
    """
    read = read_figure(text, COEFFICIENT)
    if max(abs(read.value), read.plus or 0, read.minus or 0) > _GREATEST:
        raise OutOfRange(read.shown, "is larger than any coefficient", "check the figure")
    return Coefficient(read.value, read.plus, read.minus, read.unit, read.shown)


def read_dryness(text: object) -> Share:
    """Read how dry steam is: the share of its mass that is vapour.

    Parameters
    ----------
    text: `0.98`, `98 %`, `0.98 ± 0.01`; a number that is no text will do as well

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_dryness("98 percent")), read_dryness(0.98).si
    ('98 %', 0.98)
    """
    read = read_figure(text, DRYNESS)
    if not 0 <= read.value <= 1 or max(read.plus or 0, read.minus or 0) > 1:
        meant_percent = not read.unit and 1 < read.value <= 100
        better = f'write "{read.shown} %"' if meant_percent else 'write it like "0.98" or "98 %"'
        raise OutOfRange(read.shown, "is not between 0 and 1, which is dry", better)
    return Share(read.value, read.plus, read.minus, read.unit, read.shown)
