"""How a tightening torque is shown."""

from __future__ import annotations

from lapwright.quantities import show_number
from lapwright.workshop.tightening import say_torque

#: A pound-force at an inch [N m].
_POUND_INCH = 0.112985


def show_tightening(newton_metres: float) -> str:
    """Show a tightening torque in N m and lbf in, as torque drivers have them.

    Parameters
    ----------
    newton_metres: the torque [N.m]

    Example:
    >>> show_tightening(0.5093), show_tightening(0.0312), show_tightening(12.3)
    ('0.51 N m (4.5 lbf in)', '0.031 N m (0.28 lbf in)', '12.3 N m (109 lbf in)')
    """
    pounds = newton_metres / _POUND_INCH
    places = 2 if pounds < 0.995 else 1 if pounds < 9.95 else 0
    return f"{say_torque(newton_metres)} ({show_number(pounds, places)} lbf in)"
