"""Angles, kept as exact fractions of a degree."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import pi, radians

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure

_DEG, _RAD = ("deg", Fraction(1)), ("rad", Fraction(180 / pi))

ANGLE = Kind(
    noun="an angle",
    units={"deg": _DEG, "deg.": _DEG, "degree": _DEG, "degrees": _DEG, "°": _DEG, "rad": _RAD, "radians": _RAD},
    examples=("90 deg", "90 ± 1 deg"),
    usual=("deg",),
)
#: Ten turns: a larger figure is a slip of the pen.
_WIDEST = 3600


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle in deg, exact, with its tolerance if one was given."""

    degrees: Fraction
    plus: Fraction | None = None
    minus: Fraction | None = None
    unit: str = field(default="deg", compare=False)
    shown: str = field(default="", compare=False)

    @property
    def si(self) -> float:
        """The angle [rad]."""
        return radians(float(self.degrees))

    @property
    def doubt_plus(self) -> float | None:
        """How much larger it may be [rad]; None where no tolerance was given."""
        return None if self.plus is None else radians(float(self.plus))

    @property
    def doubt_minus(self) -> float | None:
        """How much smaller it may be [rad]; None where no tolerance was given."""
        return None if self.minus is None else radians(float(self.minus))

    def __str__(self) -> str:
        return self.shown


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
