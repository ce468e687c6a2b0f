"""Figures of a running engine as they stand on paper: pressures in bar and psi, torques, powers, shares of a turn."""

from __future__ import annotations

from lapwright.motion.travel import RPM
from lapwright.papers.lettering import show_number
from lapwright.quantities.pressure import PSI

BAR = 1e5


def show_pressure(pascals: float) -> str:
    """Return a difference of pressure, or a gauge pressure [Pa], in bar and in psi.

    Example:
    >>> show_pressure(185_000.0)
    '1.85 bar (26.8 psi)'
    """
    return f"{show_number(pascals / BAR, 2)} bar ({show_number(pascals / PSI, 1)} psi)"


def show_speed(speed: float) -> str:
    """Return an angular speed [1/s] in turns a minute.

    Example:
    >>> show_speed(31.416)
    '300 rpm'
    """
    return f"{show_number(speed / RPM, 0)} rpm"


def show_power(watts: float) -> str:
    """Return a power [W] to three figures, small ones to the hundredth.

    Example:
    >>> show_power(16.73), show_power(0.734), show_power(-0.5)
    ('16.7 W', '0.73 W', '−0.50 W')
    """
    return f"{show_figures(watts)} W"


def show_figures(value: float) -> str:
    """Return a number [any unit] to three figures or to the hundredth, whichever is less.

    Example:
    >>> show_figures(0.0231), show_figures(7.312), show_figures(16.73), show_figures(321.4)
    ('0.02', '7.31', '16.7', '321')
    """
    size = abs(value)
    return show_number(value, 2 if size < 9.995 else 1 if size < 99.95 else 0)


def pick_torque_unit(greatest: float) -> tuple[float, str]:
    """Return the unit in which torques up to a greatest [N m] are told, with how many of it make a N m.

    Example:
    >>> pick_torque_unit(0.533), pick_torque_unit(12.34)
    ((1000.0, 'mN m'), (1.0, 'N m'))
    """
    return (1.0, "N m") if greatest >= 1 else (1e3, "mN m")


def show_torque(torque: float, greatest: float) -> str:
    """Return a torque [N m] in the unit that suits the greatest of those it stands beside [N m].

    Example:
    >>> show_torque(0.533, 0.8), show_torque(0.451, 12.34)
    ('533 mN m', '0.45 N m')
    """
    factor, unit = pick_torque_unit(greatest)
    return f"{show_figures(torque) if factor == 1 else show_number(torque * factor, 0)} {unit}"


def pick_step(span: float, most: int) -> float:
    """Return the least of 1, 2, 5 times a power of ten that divides a span [any unit] into so many parts at most.

    Example:
    >>> pick_step(2.4, 5), pick_step(0.7, 5), pick_step(31.0, 4)
    (0.5, 0.2, 10.0)
    """
    wanted = span / most
    power = 10.0 ** int(f"{wanted:e}".split("e")[1])
    return next(step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= wanted * (1 - 1e-9))


def list_ticks(low: float, high: float, *, most: int) -> list[float]:
    """Return the round numbers [any unit] from low to high, at most so many and one more.

    Example:
    >>> list_ticks(-0.3, 2.4, most=5)
    [0.0, 1.0, 2.0]
    """
    step = pick_step(high - low, most)
    first = -int(-low // step) if low < 0 else int(-(-low // step))
    ticks = [number * step for number in range(first - 1, int(high / step) + 2)]
    return [tick for tick in ticks if low - 1e-9 * step <= tick <= high + 1e-9 * step]
