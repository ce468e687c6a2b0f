"""Figures shown back: plain numbers in SI in, text out."""

from __future__ import annotations

from math import degrees

from lapwright.quantities.length import LENGTH, Length
from lapwright.quantities.pressure import PRESSURE, Pressure

_PLACES = {
    "mm": 2,
    "cm": 3,
    "m": 5,
    "in": 3,
    "thou": 1,
    "µm": 1,
    "bar": 2,
    "psi": 1,
    "kPa": 0,
    "MPa": 3,
    "Pa": 0,
    "mbar": 0,
}


def show_number(value: float, places: int) -> str:
    """Show a number to some decimal places, without a minus sign before nothing.

    Parameters
    ----------
    value: the number, in any unit [-]
    places: digits after the point

    Example:
    >>> show_number(-0.001, 2)
    '0.00'
    """
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0 else text


def show_mm(metres: float, places: int = 2) -> str:
    """Show a length in millimetres.

    Parameters
    ----------
    metres: the length [m]
    places: digits after the point

    Example:
    >>> show_mm(0.014)
    '14.00 mm'
    """
    return f"{show_number(metres * 1000, places)} mm"


def show_inch(metres: float, places: int = 3) -> str:
    """Show a length in decimal inches.

    Parameters
    ----------
    metres: the length [m]
    places: digits after the point

    Example:
    >>> show_inch(0.014)
    '0.551 in'
    """
    return f"{show_number(metres / 0.0254, places)} in"


def show_length_both(metres: float) -> str:
    """Show a length that goes to a lathe: millimetres first, inches behind.

    Parameters
    ----------
    metres: the length [m]

    Example:
    >>> show_length_both(0.014)
    '14.00 mm (0.551 in)'
    """
    return f"{show_mm(metres)} ({show_inch(metres)})"


def show_length_like(metres: float, like: Length) -> str:
    """Show a length in the unit in which another one was given.

    Parameters
    ----------
    metres: the length to show [m]
    like: the one whose unit is taken

    Example:
    >>> from lapwright.quantities import read_length
    >>> show_length_like(0.014, read_length("3/4 in")), show_length_like(0.0005, read_length("25 thou"))
    ('0.551 in', '19.7 thou')
    """
    return f"{show_number(metres / float(LENGTH.units[like.unit][1]), _PLACES[like.unit])} {like.unit}"


def show_angle(radians: float, places: int = 1) -> str:
    """Show an angle in degrees.

    Parameters
    ----------
    radians: the angle [rad]
    places: digits after the point

    Example:
    >>> show_angle(1.5707963)
    '90.0 deg'
    """
    return f"{show_number(degrees(radians), places)} deg"


def show_share(share: float, places: int = 0) -> str:
    """Show a share in percent.

    Parameters
    ----------
    share: 0 to 1 [-]
    places: digits after the point

    Example:
    >>> show_share(0.615)
    '62 %'
    """
    return f"{show_number(share * 100, places)} %"


def show_pressure_like(pascals: float, like: Pressure) -> str:
    """Show a gauge pressure in the unit in which another one was given.

    Parameters
    ----------
    pascals: the pressure to show, above the atmosphere [Pa]
    like: the one whose unit is taken

    Example:
    >>> from lapwright.quantities import read_pressure
    >>> show_pressure_like(206843, read_pressure("3 psi"))
    '30.0 psi'
    """
    return f"{show_number(pascals / float(PRESSURE.units[like.unit][1]), _PLACES[like.unit])} {like.unit}"
