"""What an engine drives: a torque or a power, kept as exact fractions of N m and W."""

from __future__ import annotations

from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Figure, Kind, read_either, read_figure, spell_unit
from lapwright.quantities.length import INCH
from lapwright.quantities.pressure import POUND_FORCE
from lapwright.quantities.quantity import Quantity

#: A kilogram's weight [N].
_KILOGRAM_FORCE = Fraction("9.80665")
TORQUE = Kind(
    noun="a torque",
    units={
        **spell_unit("N m", Fraction(1), "n m", "newton metre", "newton metres"),
        **spell_unit("mN m", Fraction(1, 1000)),
        **spell_unit("N cm", Fraction(1, 100), "n cm"),
        **spell_unit("N mm", Fraction(1, 1000), "n mm"),
        **spell_unit("kgf cm", _KILOGRAM_FORCE / 100, "kg cm"),
        **spell_unit("lbf in", POUND_FORCE * INCH, "lb in", "in lbf", "in lb"),
        **spell_unit("lbf ft", POUND_FORCE * INCH * 12, "lb ft", "ft lbf", "ft lb"),
        **spell_unit("ozf in", POUND_FORCE / 16 * INCH, "oz in", "in ozf", "in oz"),
    },
    examples=("30 mN m", "0.03 N m", "4 ozf in"),
    usual=("mN m", "N m"),
    joined=True,
)
#: A horse lifts 550 lb one foot in a second.
_HORSEPOWER = POUND_FORCE * INCH * 12 * 550
POWER = Kind(
    noun="a power",
    units={
        **spell_unit("W", Fraction(1), "w", "watt", "watts"),
        **spell_unit("mW", Fraction(1, 1000)),
        **spell_unit("kW", Fraction(1000), "kw", "kilowatt", "kilowatts"),
        **spell_unit("hp", _HORSEPOWER, "horsepower", "horse power"),
    },
    examples=("5 W", "0.1 hp"),
    usual=("W", "hp"),
    joined=True,
)
#: Ten thousand N m, a megawatt: beyond any small engine.
_GREATEST_TORQUE, _GREATEST_POWER = 10_000, 1_000_000


class Torque(Quantity):
    """A torque, kept in N m."""

    __slots__ = ()


class Power(Quantity):
    """A power, kept in W."""

    __slots__ = ()


def read_torque(text: object) -> Torque:
    """Read a torque with its unit, and its tolerance if one is given.

    Parameters
    ----------
    text: `30 mN m`, `0.03 Nm`, `3 N cm`, `4 oz in`, `0.25 lbf in`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_torque("30 mNm")), read_torque("3 N.cm").si
    ('30 mN m', 0.03)
    """
    return _keep_torque(read_figure(text, TORQUE))


def read_power(text: object) -> Power:
    """Read a power with its unit, and its tolerance if one is given; a horsepower is 550 ft lbf a second.

    Parameters
    ----------
    text: `5 W`, `0.005 kW`, `0.1 hp`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_power("1 HP")), round(read_power("1 hp").si, 4)
    ('1 hp', 745.6999)
    """
    return _keep_power(read_figure(text, POWER))


def read_load(text: object) -> Torque | Power:
    """Read what an engine drives, given as a torque or as a power.

    Parameters
    ----------
    text: `30 mN m`, `5 W`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> [type(read_load(text)).__name__ for text in ("30 mN m", "5 W")]
    ['Torque', 'Power']
    """
    kind, read = read_either(text, (TORQUE, POWER), noun="a load")
    return _keep_torque(read) if kind is TORQUE else _keep_power(read)


def _keep_torque(read: Figure) -> Torque:
    if max(abs(read.value), read.plus or 0, read.minus or 0) > _GREATEST_TORQUE:
        raise OutOfRange(read.shown, "is more than any small engine turns")
    return Torque(read.value, read.plus, read.minus, read.unit, read.shown)


def _keep_power(read: Figure) -> Power:
    if max(abs(read.value), read.plus or 0, read.minus or 0) > _GREATEST_POWER:
        raise OutOfRange(read.shown, "is more than any small engine gives")
    return Power(read.value, read.plus, read.minus, read.unit, read.shown)
