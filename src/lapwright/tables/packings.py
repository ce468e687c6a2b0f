"""Soft packings: the section for a rod, what heat each stands, and what is printed of fitting and friction."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from lapwright.errors import NotOneOf
from lapwright.quantities.figure import show_start
from lapwright.tables.reading import Cited, demand_kelvin, demand_si, read_rows, read_si


@dataclass(frozen=True, slots=True)
class WidthRow(Cited):
    """The section of packing for rods over one diameter and up to another, all in m."""

    kind: str
    over: float
    up_to: float
    width: float
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class PackingLimit(Cited):
    """The greatest heat that a packing stands, [K] and in degrees Celsius; `also` are other names of it."""

    name: str
    also: tuple[str, ...]
    limit: float
    celsius: float
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class PackingRow(Cited):
    """One thing printed of packings: what of which case, least and most in the unit printed; None where it is words."""

    item: str
    case: str
    least: float | None
    most: float | None
    unit: str
    source: str
    note: str


@cache
def list_widths() -> tuple[WidthRow, ...]:
    """List the sections of packing by the diameter of the rod, from thin to thick for each kind of packing.

    Source: tribology-handbook, table 25.2

    Example:
    >>> [row.width for row in list_widths() if row.kind == "soft packing"][:2]
    [0.003, 0.005]
    """
    return tuple(
        WidthRow(
            kind=row["kind"],
            over=demand_si(row["over_mm"], "0.001"),
            up_to=demand_si(row["up_to_mm"], "0.001"),
            width=demand_si(row["width_mm"], "0.001"),
            source=row["source"],
            note=row["note"],
        )
        for row in read_rows("packing_widths")
    )


@cache
def list_packing_limits() -> tuple[PackingLimit, ...]:
    """List the greatest heat that each packing stands.

    Source: tribology-handbook, table 25.1; makers' data as each row says

    Example:
    >>> [row.celsius for row in list_packing_limits() if row.name == "ramie"]
    [120.0]
    """
    return tuple(
        PackingLimit(
            name=row["name"],
            also=tuple(filter(None, row["also"].split("; "))),
            limit=demand_kelvin(row["limit_C"]),
            celsius=demand_si(row["limit_C"]),
            source=row["source"],
            note=row["note"],
        )
        for row in read_rows("packing_limits")
    )


def find_packing_limit(name: str) -> PackingLimit:
    """Return the greatest heat that a packing stands.

    Parameters
    ----------
    name: of the packing, by the table or as it is called at the bench: "graphite yarn", "PTFE yarn", "flax"

    Raises
    ------
    NotOneOf: there is no such packing in the table

    Example:
    >>> find_packing_limit("PTFE yarn").celsius, find_packing_limit("flax").from_memory
    (250.0, True)
    """
    wanted = name.strip().lower()
    rows = list_packing_limits()
    found = next((row for row in rows if wanted in (each.lower() for each in (row.name, *row.also))), None)
    if found is None:
        raise NotOneOf(show_start(name), tuple(row.name for row in rows))
    return found


@cache
def list_packings() -> tuple[PackingRow, ...]:
    """List what else is printed of packings: joints, gaps, how far to squeeze, friction, finish of the rod.

    Source: tribology-handbook; mobley-1999; drago-evans-2017; valve-selection-handbook; the rest as each row says

    Example:
    >>> [(row.least, row.most) for row in list_packings() if row.case == "first rings"]
    [(15.0, 20.0)]
    """
    return tuple(
        PackingRow(
            item=row["item"],
            case=row["case"],
            least=read_si(row["least"]),
            most=read_si(row["most"]),
            unit=row["unit"],
            source=row["source"],
            note=row["note"],
        )
        for row in read_rows("packing_practice")
    )
