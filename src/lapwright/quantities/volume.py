"""How much room a space has, kept as exact fractions of m3."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure, spell_unit
from lapwright.quantities.length import INCH
from lapwright.quantities.quantity import Quantity

_CUBIC_CENTIMETRE = Fraction(1, 1_000_000)
VOLUME = Kind(
    noun="a volume",
    units={
        **spell_unit("cm3", _CUBIC_CENTIMETRE, "cc", "ccm", "cubic centimetre", "cubic centimetres"),
        **spell_unit("mL", _CUBIC_CENTIMETRE, "ml", "millilitre", "millilitres"),
        **spell_unit("L", Fraction(1, 1000), "l", "litre", "litres"),
        **spell_unit("m3", Fraction(1), "cubic metre", "cubic metres"),
        **spell_unit("in3", INCH**3, "cu in", "cubic inch", "cubic inches"),
    },
    examples=("25 cm3", "0.4 L", "1.5 in3"),
    usual=("cm3", "in3"),
    joined=True,
)
#: A thousand m3: no vessel of a workshop.
_GREATEST = 1000


class Volume(Quantity):
    """A volume, kept in m3."""

    __slots__ = ()


def read_volume(text: object) -> Volume:
    """Read a volume with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `25 cm3`, `25 ± 2 ml`, `0.4 L`, `1.5 cu in`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_volume("25 cc")), read_volume("2 litres").si
    ('25 cm3', 0.002)
    """
    read = read_figure(text, VOLUME)
    if read.value <= 0:
        raise OutOfRange(read.shown, "is not more than nothing", 'write it like "25 cm3"')
    if max(read.value, read.plus or 0, read.minus or 0) > _GREATEST:
        raise OutOfRange(read.shown, "is more than any vessel of a workshop holds")
    return Volume(read.value, read.plus, read.minus, read.unit, read.shown)
