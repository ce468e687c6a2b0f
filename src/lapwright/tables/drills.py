"""Twist drills: metric, number, letter and fraction sizes, in metres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from lapwright.errors import NotOneOf
from lapwright.tables.reading import Cited, demand_si, read_rows

#: The four ways in which drills are sized.
DRILL_SERIES: Final = ("metric", "number", "letter", "fraction")


@dataclass(frozen=True, slots=True)
class DrillRow(Cited):
    """One drill: the series it belongs to (one of `DRILL_SERIES`), what is stamped on it, and its diameter [m]."""

    series: str
    name: str
    diameter: float
    source: str


def list_drills(series: str | None = None) -> tuple[DrillRow, ...]:
    """List all drills, or those of one series, from thin to thick.

    Parameters
    ----------
    series: one of `DRILL_SERIES`; left out, all

    Raises
    ------
    NotOneOf: there is no such series

    Source: asme-b94-11m (number and letter); exact geometry (fraction); from memory (metric stock steps)

    Example:
    >>> [drill.name for drill in list_drills("number")][-3:]
    ['No 3', 'No 2', 'No 1']
    """
    if series is None:
        return _read_drills()
    if series not in DRILL_SERIES:
        raise NotOneOf(series, DRILL_SERIES)
    return tuple(drill for drill in _read_drills() if drill.series == series)


@cache
def _read_drills() -> tuple[DrillRow, ...]:
    rows = (DrillRow(row["series"], row["name"], _read_diameter(row), row["source"]) for row in read_rows("drills"))
    return tuple(sorted(rows, key=lambda row: (row.diameter, DRILL_SERIES.index(row.series))))


def _read_diameter(row: Mapping[str, str]) -> float:
    """Read the unit in which the drill is made [m]: a fraction of an inch is exact only in its name."""
    if row["series"] == "metric":
        return demand_si(row["mm"], "0.001")
    return demand_si(row["name"] if row["series"] == "fraction" else row["inch"], "0.0254")
