"""How fast an engine turns, kept as exact turns in a second."""

from __future__ import annotations

from fractions import Fraction
from math import pi

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure, spell_unit
from lapwright.quantities.quantity import Quantity

_MINUTE = Fraction(1, 60)
SPEED = Kind(
    noun="a speed",
    units={
        **spell_unit("rpm", _MINUTE, "rev/min", "revs/min", "r/min", "turn/min", "turns/min"),
        **spell_unit("rpm", _MINUTE, "turns/minute", "revolutions/minute", "rev/minute", "revs/minute"),
        **spell_unit("rev/s", Fraction(1), "revs/s", "r/s", "rps", "turn/s", "turns/s", "turns/second"),
    },
    examples=("600 rpm", "10 rev/s"),
    usual=("rpm",),
    joined=True,
)
#: A hundred thousand turns a minute [1/s]: no crank stands it.
_FASTEST = Fraction(100_000, 60)


class Speed(Quantity):
    """A speed of turning, kept in turns a second and given out in rad/s."""

    __slots__ = ()

    @property
    def turns_per_second(self) -> float:
        """The speed [1/s]."""
        return float(self.value)

    @property
    def rpm(self) -> float:
        """The speed in turns a minute [1/min]."""
        return float(self.value * 60)

    def _in_si(self, figure: Fraction) -> float:
        return 2 * pi * float(figure)


def read_speed(text: object) -> Speed:
    """Read a speed of turning with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `600 rpm`, `600 turns per minute`, `10 rev/s`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_speed("600 turns per minute")), read_speed("10 rev/s").rpm
    ('600 rpm', 600.0)
    """
    read = read_figure(text, SPEED)
    if read.value <= 0:
        raise OutOfRange(read.shown, "is not more than nothing", 'write the speed alone, like "600 rpm"')
    if max(read.value, read.plus or 0, read.minus or 0) > _FASTEST:
        raise OutOfRange(read.shown, "is faster than any crank turns")
    return Speed(read.value, read.plus, read.minus, read.unit, read.shown)
