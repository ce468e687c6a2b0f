"""Angles, kept as exact fractions of a degree."""

from __future__ import annotations

from fractions import Fraction
from math import pi, radians

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure
from lapwright.quantities.quantity import Quantity

_DEG, _RAD = ("deg", Fraction(1)), ("rad", Fraction(180 / pi))

ANGLE = Kind(
    noun="an angle",
    units={"deg": _DEG, "deg.": _DEG, "degree": _DEG, "degrees": _DEG, "°": _DEG, "rad": _RAD, "radians": _RAD},
    examples=("90 deg", "90 ± 1 deg"),
    usual=("deg",),
)
#: Ten turns: a larger figure is a slip of the pen.
_WIDEST = 3600


class Angle(Quantity):
    """An angle, kept in deg and given out in rad."""

    __slots__ = ()

    @property
    def degrees(self) -> Fraction:
        """The angle, exactly [deg]."""
        return self.value

    def _in_si(self, figure: Fraction) -> float:
        return radians(float(figure))


def read_angle(text: object) -> Angle:
    """Read an angle with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `90 deg`, `90°`, `112.5 ± 1 deg`, `1.5 rad`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_angle("112 1/2°")), round(read_angle("180 deg").si, 6)
    ('112 1/2 deg', 3.141593)
    """
    read = read_figure(text, ANGLE)
    if abs(read.value) > _WIDEST or max(read.plus or 0, read.minus or 0) > _WIDEST:
        raise OutOfRange(read.shown, "is more than ten turns")
    return Angle(read.value, read.plus, read.minus, read.unit, read.shown)
