"""How much thread a screw is given: what its torque wants, the least that is cut, and what is usual in a metal."""

from __future__ import annotations

from lapwright.quantities import show_mm
from lapwright.tables.threads import ThreadRow
from lapwright.workshop.strength import useful_engagement, usual_engagement
from lapwright.workshop.tightening import DOUBLED, Tightening, bare_length, thrust_from_torque

#: A thread of fewer full turns than this is not cut [-]: common practice, no source.
LEAST_TURNS = 2
#: Lengths that are reckoned in two ways are not told apart for less [-].
_HAIR = 1e-9


def find_least_depth(row: ThreadRow) -> float:
    """Return the least length of thread that is cut [m]: two full turns.

    Parameters
    ----------
    row: a thread of the tables

    Source: common practice, no source

    Example:
    >>> from lapwright.tables.naming import find_thread
    >>> f"{1e3 * find_least_depth(find_thread('3 BA')):.2f} mm"
    '1.46 mm'
    """
    return LEAST_TURNS * row.pitch


def find_borne_depth(held: Tightening, torque: float | None) -> float:
    """Work out the length of thread that bears a torque, doubled [m]; it may be less than anybody would cut.

    Parameters
    ----------
    held: the screw in its hole
    torque: what it is drawn to [N.m]; None for all that it bears

    Source: fed-std-h28
    """
    if torque is None:
        return held.needed_engagement
    thrust = thrust_from_torque(torque, held.row.major, coefficient=held.coefficient)
    return DOUBLED * bare_length(held.limits, thrust, engagement=useful_engagement(held.row, held.engagement))


def say_least_depth(row: ThreadRow, borne: float) -> str:
    """Say that a torque alone wants less thread than is cut; empty where it wants more.

    Parameters
    ----------
    row: the screw's thread
    borne: the length of thread that bears the torque, doubled [m]

    Source: common practice, no source
    """
    least = find_least_depth(row)
    if borne >= least * (1 - _HAIR):
        return ""
    return (
        f"For the torque alone {show_mm(borne, 1)} of thread would do; two full turns, {show_mm(least, 1)}, are the "
        "least that is cut (common practice, no source)."
    )


def is_usual_longer(row: ThreadRow, metal: str, *, needed: float) -> bool:
    """Say whether more thread is usual in a metal than would do.

    Parameters
    ----------
    row: the screw's thread
    metal: that of the hole
    needed: the length that would do [m]

    Source: from memory
    """
    return needed <= usual_engagement(row, metal)


def tell_usual_length(row: ThreadRow, metal: str, *, needed: float) -> str:
    """Say how much thread is usual in a metal, to stand behind a length that would do; empty where that is longer.

    Parameters
    ----------
    row: the screw's thread
    metal: that of the hole
    needed: the length that would do [m]

    Source: from memory
    """
    if not is_usual_longer(row, metal, needed=needed):
        return ""
    usual = usual_engagement(row, metal)
    words = "a diameter" if usual <= row.major else "one and a half diameters"
    verb = "is" if usual <= row.major else "are"
    return f"; {words}, {show_mm(usual, 1)}, {verb} usual in {metal} where there is room (from memory)"
