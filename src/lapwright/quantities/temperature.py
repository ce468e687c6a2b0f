"""Temperatures, kept as exact fractions of a kelvin above absolute zero."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, read_figure, spell_unit
from lapwright.quantities.quantity import Quantity

_FIFTH_NINTHS = Fraction(5, 9)
TEMPERATURE = Kind(
    noun="a temperature",
    units={
        **spell_unit("degC", Fraction(1), "°c", "c", "celsius", "degrees c", "degrees celsius"),
        **spell_unit("degF", _FIFTH_NINTHS, "°f", "f", "fahrenheit", "degrees f", "degrees fahrenheit"),
        **spell_unit("K", Fraction(1), "k", "kelvin"),
    },
    examples=("20 degC", "68 degF", "293 K"),
    usual=("degC", "degF"),
    joined=True,
)
#: Where each scale has its nought [K].
#: 0 degC [K].
FREEZING = 273.15
_NOUGHT = {"degC": Fraction("273.15"), "degF": Fraction("459.67") * _FIFTH_NINTHS, "K": Fraction(0)}
#: Hotter than any metal that holds pressure [K].
_HOTTEST = 2000


class Temperature(Quantity):
    """A temperature, kept in K; its tolerance is a difference in K."""

    __slots__ = ()


def read_temperature(text: object) -> Temperature:
    """Read a temperature with its scale, and its tolerance if one is given.

    Parameters
    ----------
    text: `20 C`, `20 °C`, `20 ± 2 degC`, `68 F`, `293 K`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_temperature("68 °F")), read_temperature("68 °F").si
    ('68 degF', 293.15)
    """
    read = read_figure(text, TEMPERATURE)
    kelvin = read.value + _NOUGHT[read.unit]
    if kelvin < 0:
        raise OutOfRange(read.shown, "is below absolute zero")
    if max(kelvin, read.plus or 0, read.minus or 0) > _HOTTEST:
        raise OutOfRange(read.shown, "is hotter than anything in an engine")
    return Temperature(kelvin, read.plus, read.minus, read.unit, read.shown)
