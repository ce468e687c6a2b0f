"""Figures of a run as people read them: each in the unit that suits its size."""

from __future__ import annotations

from lapwright.quantities import show_number

#: Below this a power reads better in mW [W], and from this on a torque in N m [N m].
_SMALL_POWER, _LARGE_TORQUE = 0.2, 1.0


def show_power(watts: float) -> str:
    """Show a power in W or mW.

    Parameters
    ----------
    watts: the power [W]

    Example:
    >>> show_power(16.731), show_power(0.0512)
    ('16.7 W', '51 mW')
    """
    size = abs(watts)
    if size < _SMALL_POWER:
        return f"{show_number(1e3 * watts, 0 if size >= 0.01 else 1)} mW"
    return f"{show_number(watts, 2 if size < 10 else 1 if size < 1000 else 0)} W"


def show_three(value: float) -> str:
    """Show a number to three figures, without an exponent.

    Parameters
    ----------
    value: in any unit [-]

    Example:
    >>> show_three(0.99812), show_three(27.52), show_three(1234.4)
    ('0.998', '27.5', '1234')
    """
    size = abs(value)
    return show_number(value, 3 if size < 0.9995 else 2 if size < 9.995 else 1 if size < 99.95 else 0)


def show_torque(newton_metres: float) -> str:
    """Show a torque in mN m, a large one in N m.

    Parameters
    ----------
    newton_metres: the torque [N.m]

    Example:
    >>> show_torque(0.5323), show_torque(8.117), show_torque(0.00406)
    ('532 mN m', '8.12 N m', '4.1 mN m')
    """
    size = abs(newton_metres)
    if size == 0:
        return "0 N m"
    if size >= _LARGE_TORQUE:
        return f"{show_number(newton_metres, 2 if size < 10 else 1)} N m"
    return f"{show_number(1e3 * newton_metres, 1 if size < 0.0995 else 0)} mN m"


def show_supply(kilograms: float, *, per_kilogram: float | None) -> str:
    """Show how much air or steam is taken in a minute.

    Parameters
    ----------
    kilograms: what is taken in a second [kg]
    per_kilogram: how much free air a kilogram of it is [SI]; None for steam

    Example:
    >>> show_supply(0.0003, per_kilogram=0.83), show_supply(0.0003, per_kilogram=None)
    ('14.9 L/min', '18.0 g/min')
    """
    if per_kilogram is None:
        return f"{show_three(6e4 * kilograms)} g/min"
    return f"{show_three(6e4 * kilograms * per_kilogram)} L/min"


def show_percent(part: float, whole: float) -> str:
    """Show a part as a percentage of the whole, or nothing where there is no whole.

    Parameters
    ----------
    part, whole: both in the same unit [any]

    Example:
    >>> show_percent(0.79, 21.42)
    '3.7'
    """
    return show_number(100 * part / whole, 1) if whole > 0 else ""
