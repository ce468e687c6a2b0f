"""Moments of inertia, kept as exact fractions of kg m2."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure, spell_unit
from lapwright.quantities.length import INCH
from lapwright.quantities.pressure import POUND
from lapwright.quantities.quantity import Quantity

INERTIA = Kind(
    noun="a moment of inertia",
    units={
        **spell_unit("kg m2", Fraction(1)),
        **spell_unit("kg cm2", Fraction(1, 10_000)),
        **spell_unit("kg mm2", Fraction(1, 1_000_000)),
        **spell_unit("g cm2", Fraction(1, 10_000_000)),
        **spell_unit("lb in2", POUND * INCH**2),
        **spell_unit("lb ft2", POUND * (12 * INCH) ** 2),
    },
    examples=("0.002 kg m2", "20 kg cm2", "7 lb in2"),
    usual=("kg m2", "kg cm2"),
    joined=True,
)
_GREATEST = 1_000_000


class Inertia(Quantity):
    """A moment of inertia, kept in kg m2."""

    __slots__ = ()


def read_inertia(text: object) -> Inertia:
    """Read a moment of inertia with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `0.002 kg m2`, `20 kg cm²`, `7 lb in^2`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_inertia("20 kg.cm²")), read_inertia("20 kg cm2").si
    ('20 kg cm2', 0.002)
    """
    read = read_figure(text, INERTIA)
    if max(abs(read.value), read.plus or 0, read.minus or 0) > _GREATEST:
        raise OutOfRange(read.shown, "is more than the flywheel of any small engine has")
    return Inertia(read.value, read.plus, read.minus, read.unit, read.shown)
