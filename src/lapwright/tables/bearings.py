"""Bearings: the pressures that books allow or report, and the rules in use for the clearance of a plain bearing."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from lapwright.tables.reading import Cited, demand_si, read_rows


@dataclass(frozen=True, slots=True)
class BearingRow(Cited):
    """What one source says of the pressure on a bearing's projected area [Pa]: the part, the case, least and most."""

    part: str
    case: str
    low: float
    high: float
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class ClearanceRow(Cited):
    """A rule for the clearance of a plain bearing: so much [m], plus a share of the diameter [-], and at least [m]."""

    case: str
    fixed: float
    per_diameter: float
    least: float
    source: str
    note: str


@cache
def list_bearings() -> tuple[BearingRow, ...]:
    """List what is printed of pressures on bearings.

    Source: from memory (the handbook set); molesworth (proportions); the rest as each row names it

    Example:
    >>> [round(row.low / 1e6, 2) for row in list_bearings() if row.part == "crank pin" and "slow" in row.case]
    [10.5]
    """
    return tuple(
        BearingRow(
            part=row["part"],
            case=row["case"],
            low=demand_si(row["low_MPa"], "1000000"),
            high=demand_si(row["high_MPa"], "1000000"),
            source=row["source"],
            note=row["note"],
        )
        for row in read_rows("bearing_pressures")
    )


@cache
def list_clearance_rules() -> tuple[ClearanceRow, ...]:
    """List the rules for the clearance of plain bearings, which do not agree.

    Source: common practice, no source; from memory (the bench's own)

    Example:
    >>> [row.least for row in list_clearance_rules() if row.from_memory]
    [1e-05]
    """
    return tuple(
        ClearanceRow(
            case=row["case"],
            fixed=demand_si(row["fixed_in"], "0.0254"),
            per_diameter=demand_si(row["per_unit"]),
            least=demand_si(row["least_mm"], "0.001"),
            source=row["source"],
            note=row["note"],
        )
        for row in read_rows("bearing_clearances")
    )
