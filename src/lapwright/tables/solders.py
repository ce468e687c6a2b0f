"""Solders, soft and silver: where each starts to melt and is wholly melted, and the gap that it wants."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

from lapwright.tables.reading import Cited, demand_kelvin, demand_si, read_rows

#: The two kinds of solder in the table.
KINDS: Final = ("silver solder", "soft solder")


@dataclass(frozen=True, slots=True)
class SolderRow(Cited):
    """A solder: its kind (one of `KINDS`), its alloy, solidus and liquidus [K]."""

    kind: str
    alloy: str
    solidus: float
    liquidus: float
    note: str
    source: str


@dataclass(frozen=True, slots=True)
class GapRow(Cited):
    """The gap to leave for silver solder [m], least and most."""

    least: float
    most: float
    source: str
    note: str


@cache
def list_solders() -> tuple[SolderRow, ...]:
    """List the solders, silver solders first.

    Example:
    >>> [round(row.solidus - 273.15) for row in list_solders() if row.alloy == "63Sn37Pb"]
    [183]
    """
    return tuple(
        SolderRow(
            kind=row["kind"],
            alloy=row["alloy"],
            solidus=demand_kelvin(row["solidus_C"]),
            liquidus=demand_kelvin(row["liquidus_C"]),
            note=row["note"],
            source=row["source"],
        )
        for row in read_rows("solders")
    )


def find_brazing_gap() -> GapRow:
    """Return the gap that a joint for silver solder wants.

    Example:
    >>> find_brazing_gap().most
    8e-05
    """
    row = read_rows("brazing_gap")[0]
    return GapRow(demand_si(row["least_mm"], "0.001"), demand_si(row["most_mm"], "0.001"), row["source"], row["note"])
