"""How much air a compressor or a meter gives, counted as free air, kept as exact fractions of m3/s."""

from __future__ import annotations

import re
from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, clean_text, read_figure, spell_unit
from lapwright.quantities.length import INCH
from lapwright.quantities.quantity import Quantity

_LITRE, _MINUTE = Fraction(1, 1000), 60
_CUBIC_FOOT = (12 * INCH) ** 3
FLOW = Kind(
    noun="a flow of air",
    units={
        **spell_unit("L/min", _LITRE / _MINUTE, "l/min", "litres/minute", "litre/min", "litres/min", "lpm"),
        **spell_unit("L/s", _LITRE, "l/s", "litres/second", "litres/s"),
        **spell_unit("m3/h", Fraction(1, 3600), "m3/hour"),
        **spell_unit("cfm", _CUBIC_FOOT / _MINUTE, "ft3/min", "cu ft/min", "cubic feet/minute", "cubic feet/min"),
    },
    examples=("14 L/min", "0.5 cfm"),
    usual=("L/min", "cfm"),
    joined=True,
)
_FREE_AIR = r"(?i:(?<=[a-z])\s*(?:of\s+)?free\s+air$)"
#: A hundred m3/s: no compressor of a workshop.
_GREATEST = 100


class Flow(Quantity):
    """A flow of free air, as it is in the room, kept in m3/s."""

    __slots__ = ()


def read_flow(text: object) -> Flow:
    """Read a flow of free air with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `14 L/min`, `14 l/min free air`, `0.5 cfm`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_flow("14 l/min free air")), read_flow("60 L/min").si
    ('14 L/min', 0.001)
    """
    read = read_figure(re.sub(_FREE_AIR, "", clean_text(text, FLOW)), FLOW)
    if read.value < 0:
        raise OutOfRange(read.shown, "is less than nothing", 'write it like "14 L/min"')
    if max(read.value, read.plus or 0, read.minus or 0) > _GREATEST:
        raise OutOfRange(read.shown, "is more than any compressor gives")
    return Flow(read.value, read.plus, read.minus, read.unit, read.shown)
