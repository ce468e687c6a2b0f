"""How long something takes on the bench, kept as exact fractions of a second."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure, spell_unit
from lapwright.quantities.quantity import Quantity

DURATION = Kind(
    noun="a duration",
    units={
        **spell_unit("s", Fraction(1), "sec", "secs", "second", "seconds"),
        **spell_unit("ms", Fraction(1, 1000)),
        **spell_unit("min", Fraction(60), "mins", "minute", "minutes"),
        **spell_unit("h", Fraction(3600), "hr", "hrs", "hour", "hours"),
    },
    examples=("12 s", "2 min"),
    usual=("s", "min"),
    joined=True,
)
#: A year [s].
_LONGEST = 31_557_600


class Duration(Quantity):
    """A duration, kept in s."""

    __slots__ = ()


def read_duration(text: object) -> Duration:
    """Read a duration with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `12 s`, `12.5 ± 0.5 s`, `2 min`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_duration("2 minutes")), read_duration("1 1/2 min").si
    ('2 min', 90.0)
    """
    read = read_figure(text, DURATION)
    if read.value <= 0:
        raise OutOfRange(read.shown, "is not more than nothing", 'write it like "12 s"')
    if max(read.value, read.plus or 0, read.minus or 0) > _LONGEST:
        raise OutOfRange(read.shown, "is longer than any test")
    return Duration(read.value, read.plus, read.minus, read.unit, read.shown)
