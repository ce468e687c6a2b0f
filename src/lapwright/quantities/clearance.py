"""The clearance at an end of a cylinder: a gap, or the whole volume as a share of the swept one."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_either
from lapwright.quantities.length import LENGTH, LONGEST, Length
from lapwright.quantities.share import Share

_PERCENT = ("%", Fraction(1, 100))
_SWEPT_VOLUME = ("swept volume", "the swept volume")
_SWEPT = Kind(
    noun="a share of the swept volume",
    units=dict.fromkeys(
        (
            *("%", "percent", "per cent"),
            *(f"{percent} of {swept}" for percent in ("%", "percent", "per cent") for swept in _SWEPT_VOLUME),
        ),
        _PERCENT,
    ),
    examples=("8 %",),
    usual=("%",),
)
_GAP = Kind(noun="a gap", units=LENGTH.units, examples=("0.8 mm",), usual=("mm",))


def read_clearance(text: object) -> Length | Share:
    """Read the clearance at one end: the gap between piston and cover, or the whole volume in percent.

    The share is that of everything the steam fills at dead centre, passage included, in the volume the piston sweeps.

    Parameters
    ----------
    text: `0.8 mm`, `1/32 in`, `8 %`, `8 ± 1 %`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it either way

    Example:
    >>> read_clearance("0.8 mm").si, read_clearance("8 %").si
    (0.0008, 0.08)
    """
    kind, read = read_either(text, (_GAP, _SWEPT), noun="a clearance")
    parts = (read.value, read.plus, read.minus, read.unit, read.shown)
    if kind is _GAP:
        if max(abs(read.value), read.plus or 0, read.minus or 0) > LONGEST:
            raise OutOfRange(read.shown, "is longer than anything on an engine")
        return Length(*parts)
    if not 0 <= read.value <= 1 or max(read.plus or 0, read.minus or 0) > 1:
        raise OutOfRange(
            read.shown, "is not between 0 and 100 % of the swept volume", 'write it like "8 %" or "0.8 mm"'
        )
    return Share(*parts)
