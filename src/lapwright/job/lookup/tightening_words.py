"""How a tightening torque, and the length of thread for it, are shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lapwright.quantities import show_mm, show_number
from lapwright.workshop.strength import usual_engagement
from lapwright.workshop.tightening import say_torque

if TYPE_CHECKING:
    from lapwright.tables.threads import ThreadRow

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


def tell_usual_length(row: ThreadRow, metal: str, *, needed: float) -> str:
    """Say how much thread is usual in a metal, to stand behind a length that would do; empty where that is longer.

    Parameters
    ----------
    row: the screw's thread
    metal: that of the hole
    needed: the length that would do [m]

    Source: from memory
    """
    usual = usual_engagement(row, metal)
    if needed > usual:
        return ""
    words = "a diameter" if usual <= row.major else "one and a half diameters"
    verb = "is" if usual <= row.major else "are"
    return f"; {words}, {show_mm(usual, 1)}, {verb} usual in {metal} where there is room (from memory)"
