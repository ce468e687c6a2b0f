"""O-rings of two standards, and the grooves in which they seal."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from lapwright.errors import NotOneOf
from lapwright.tables.reading import Cited, demand_si, read_rows, read_si

_MM, _PERCENT = "0.001", "0.01"
#: What each table of rings and of grooves may ask for.
STANDARDS: Final = ("AS568 / ISO 3601-1", "BS 4518")
DUTIES: Final = ("dynamic", "static radial")
Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class ORingRow(Cited):
    """An O-ring, all in m: inside diameter and section with how far each may be out; None where none is printed."""

    standard: str
    code: str
    inside: float
    section: float
    section_tolerance: float | None
    source: str


@dataclass(frozen=True, slots=True)
class GrooveRow(Cited):
    """The groove for a section of ring in one duty, in m, each as least and most where the table has both.

    `depth` is from the surface that the ring seals on to the bottom of the groove, `squeeze` how far the ring is
    flattened, `squeeze_share` the same as a share of its section, as printed [-]; `clearance` and `off_centre` are
    the most that may be.
    """

    duty: str
    section: float
    depth: Range
    squeeze: Range
    squeeze_share: Range
    clearance: float
    width: float
    off_centre: float
    source: str


@cache
def list_orings(standard: str | None = None) -> tuple[ORingRow, ...]:
    """List the O-rings of one standard, or all.

    Parameters
    ----------
    standard: one of `STANDARDS`; left out, both

    Raises
    ------
    NotOneOf: there is no such standard

    Source: as568; iso-3601; bs-4518; from memory (some of the last, as each row says)

    Example:
    >>> [ring.inside for ring in list_orings() if ring.code == "008"]
    [0.00447]
    """
    if standard is not None and standard not in STANDARDS:
        raise NotOneOf(standard, STANDARDS)
    return tuple(_read_ring(row) for row in read_rows("orings") if standard in (None, row["standard"]))


def _read_ring(row: Mapping[str, str]) -> ORingRow:
    return ORingRow(
        standard=row["standard"],
        code=row["code"],
        inside=demand_si(row["id_mm"], _MM),
        section=demand_si(row["section_mm"], _MM),
        section_tolerance=read_si(row["section_tol_mm"], _MM),
        source=row["source"],
    )


@cache
def list_grooves(duty: str | None = None) -> tuple[GrooveRow, ...]:
    """List the grooves for one duty, or all, from thin rings to thick.

    Parameters
    ----------
    duty: one of `DUTIES`; left out, both

    Raises
    ------
    NotOneOf: there is no such duty

    Source: iso-3601 (sections); makers' tables as each row says

    Example:
    >>> [row.squeeze_share for row in list_grooves("dynamic") if row.section == 0.00178]
    [(0.15, 0.25)]
    """
    if duty is not None and duty not in DUTIES:
        raise NotOneOf(duty, DUTIES)
    return tuple(_read_groove(row) for row in read_rows("oring_grooves") if duty in (None, row["duty"]))


def _read_groove(row: Mapping[str, str]) -> GrooveRow:
    def read_pair(column: str, unit: str, tail: str) -> Range:
        return demand_si(row[f"{column}_min_{tail}"], unit), demand_si(row[f"{column}_max_{tail}"], unit)

    return GrooveRow(
        duty=row["duty"],
        section=demand_si(row["section_mm"], _MM),
        depth=read_pair("depth", _MM, "mm"),
        squeeze=read_pair("squeeze", _MM, "mm"),
        squeeze_share=read_pair("squeeze", _PERCENT, "pct_listed"),
        clearance=demand_si(row["clearance_max_mm"], _MM),
        width=demand_si(row["width_mm"], _MM),
        off_centre=demand_si(row["ecc_max_mm"], _MM),
        source=row["source"],
    )
