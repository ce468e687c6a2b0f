"""How much surface a part has, kept as exact fractions of m2."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure, spell_unit
from lapwright.quantities.length import INCH
from lapwright.quantities.quantity import Quantity

AREA = Kind(
    noun="an area",
    units={
        **spell_unit("mm2", Fraction(1, 1_000_000), "sq mm", "square millimetre", "square millimetres"),
        **spell_unit("cm2", Fraction(1, 10_000), "sq cm", "square centimetre", "square centimetres"),
        **spell_unit("m2", Fraction(1), "sq m", "square metre", "square metres"),
        **spell_unit("in2", INCH**2, "sq in", "square inch", "square inches"),
    },
    examples=("350 cm2", "0.04 m2", "54 in2"),
    usual=("cm2", "in2"),
    joined=True,
)
#: A hundred m2: no part of a small engine.
_GREATEST = 100


class Area(Quantity):
    """An area, kept in m2."""

    __slots__ = ()


def read_area(text: object) -> Area:
    """Read an area with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `350 cm2`, `350 ± 50 cm²`, `0.04 m2`, `54 sq in`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_area("350 cm²")), read_area("350 square centimetres").si
    ('350 cm2', 0.035)
    """
    read = read_figure(text, AREA)
    if read.value <= 0:
        raise OutOfRange(read.shown, "is not more than nothing", 'write it like "350 cm2"')
    if max(read.value, read.plus or 0, read.minus or 0) > _GREATEST:
        raise OutOfRange(read.shown, "is more than any part of a small engine has")
    return Area(read.value, read.plus, read.minus, read.unit, read.shown)
