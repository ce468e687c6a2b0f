"""The drawers of drills a person owns, and the drills next to a wanted hole."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Final

from lapwright.errors import NotOneOf
from lapwright.tables.drills import DrillRow, list_drills

#: What lies in each drawer, by the series of its drills.
DRAWERS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "metric": ("metric",),
        "number": ("number",),
        "letter": ("letter",),
        "number-letter": ("number", "letter"),
        "fraction": ("fraction",),
        "all": ("metric", "number", "letter", "fraction"),
    }
)
#: Two drills closer than this are one size [m].
SAME_SIZE: Final = 2e-6


@cache
def open_drawers(drawers: str) -> tuple[DrillRow, ...]:
    """Return the drills of some drawers, the smallest first.

    Parameters
    ----------
    drawers: one of `DRAWERS`

    Raises
    ------
    NotOneOf: there are no such drawers
    """
    if drawers not in DRAWERS:
        raise NotOneOf(drawers, tuple(DRAWERS))
    series = DRAWERS[drawers]
    return tuple(sorted((row for row in list_drills() if row.series in series), key=lambda row: row.diameter))


def find_neighbours(diameter: float, *, drawers: str = "all") -> tuple[DrillRow | None, DrillRow | None]:
    """Find the largest drill that is no larger than a hole, and the smallest that is larger; None beyond the ends.

    Parameters
    ----------
    diameter: the wanted hole [m]
    drawers: one of `DRAWERS`

    Raises
    ------
    NotOneOf: there are no such drawers

    Example:
    >>> [drill.name for drill in find_neighbours(0.00303, drawers="metric") if drill]
    ['3 mm', '3.1 mm']
    """
    drills = open_drawers(drawers)
    under = [row for row in drills if row.diameter <= diameter + SAME_SIZE]
    return (under[-1] if under else None, drills[len(under)] if len(under) < len(drills) else None)


def name_drill(drill: DrillRow) -> str:
    """Write what a drill is called so that its series can be seen: No 30, letter F, 1/8 in, 3.1 mm.

    Parameters
    ----------
    drill: any
    """
    if drill.series == "letter":
        return f"letter {drill.name}"
    return f"{drill.name} in" if drill.series == "fraction" else drill.name
