"""Several soldered joints on one part: in which order they are made, so that none opens again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.workshop.heat import show_heat
from lapwright.workshop.soldering import find_solder


@dataclass(frozen=True, slots=True)
class JointOrder:
    """In which order alloys are used on one part, and whether each leaves the joints before it alone."""

    alloys: tuple[str, ...]
    works: bool
    why: str


def order_joints(alloys: Sequence[str]) -> JointOrder:
    """Return in which order several alloys are used on one part, so that no joint melts the one before it.

    Parameters
    ----------
    alloys: their names, in any order

    Raises
    ------
    NotOneOf: no alloy is called so, or more than one

    Source: common practice, no source; melting ranges from the table of solders

    Example:
    >>> order = order_joints(["Ag155", "AG21"])
    >>> order.works, order.alloys[0]
    (True, '30Ag (AG21)')
    """
    rows = sorted(map(find_solder, alloys), key=lambda row: (row.liquidus, row.solidus), reverse=True)
    names = tuple(row.alloy for row in rows)
    clash = next(((first, then) for first, then in pairwise(rows) if then.liquidus >= first.solidus), None)
    if clash is None:
        return JointOrder(names, True, "Each is all liquid before the joint made before it begins to melt.")
    first, then = clash
    why = (
        f"{then.alloy} is liquid only at {show_heat(then.liquidus)}, and {first.alloy} begins to melt at "
        f"{show_heat(first.solidus)}: the first joint opens while the second is made. Take alloys further apart, or "
        "make both joints in one heat."
    )
    return JointOrder(names, False, why)
