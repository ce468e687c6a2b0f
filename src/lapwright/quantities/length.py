"""Lengths as they are written on the bench, kept as exact fractions of a metre."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Figure, Kind, read_figure
from lapwright.quantities.quantity import Quantity

#: One inch, exactly (international inch of 1959).
INCH = Fraction("0.0254")
_MM, _CM, _M = ("mm", Fraction(1, 1000)), ("cm", Fraction(1, 100)), ("m", Fraction(1))
_IN, _THOU = ("in", INCH), ("thou", INCH / 1000)
_MICRON = ("µm", Fraction(1, 1_000_000))

LENGTH = Kind(
    noun="a length",
    units={
        "mm": _MM, "cm": _CM, "m": _M, "in": _IN, "thou": _THOU,
        "millimetre": _MM, "millimetres": _MM, "millimeter": _MM, "millimeters": _MM,
        "centimetre": _CM, "centimetres": _CM, "metre": _M, "metres": _M,
        "in.": _IN, "inch": _IN, "inches": _IN, '"': _IN, "mil": _THOU, "thous": _THOU,
        "µm": _MICRON, "um": _MICRON, "micron": _MICRON, "microns": _MICRON,
        "micrometre": _MICRON, "micrometres": _MICRON, "micrometer": _MICRON, "micrometers": _MICRON,
    },
    examples=("19.05 mm", "3/4 in", "12.7 ± 0.02 mm"),
    usual=("in", "mm"),
)  # fmt: skip
GAP = replace(LENGTH, noun="a gap", examples=("5 µm", "0.2 thou", "4 ± 2 µm"), usual=("µm", "thou"))
#: Nothing on an engine is longer; a larger figure is a slip of the pen.
LONGEST = Fraction(10_000)


class Length(Quantity):
    """A length, kept in m."""

    __slots__ = ()

    @property
    def metres(self) -> Fraction:
        """The length, exactly [m]."""
        return self.value


def read_length(text: object) -> Length:
    """Read a length with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `19.05 mm`, `3/4 in`, `1 7/8"`, `25 thou`, `5 µm`, `12.7 ± 0.02 mm`, `12.7 +0.02 -0.01 mm`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_length('1-3/16"')), read_length('1-3/16"').si
    ('1 3/16 in', 0.0301625)
    """
    return _keep_length(read_figure(text, LENGTH))


def read_gap(text: object) -> Length:
    """Read a gap through which something leaks: a length, mostly written in thousandths of a mm or of an inch.

    Parameters
    ----------
    text: `5 µm`, `4 ± 2 um`, `0.2 thou`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_gap("5 um")), read_gap("5 um").si
    ('5 µm', 5e-06)
    """
    return _keep_length(read_figure(text, GAP))


def _keep_length(read: Figure) -> Length:
    if abs(read.value) > LONGEST or max(read.plus or 0, read.minus or 0) > LONGEST:
        raise OutOfRange(read.shown, "is longer than anything on an engine")
    return Length(read.value, read.plus, read.minus, read.unit, read.shown)
