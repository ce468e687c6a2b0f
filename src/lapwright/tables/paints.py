"""Paints: solids, films dry and wet, when the next coat may follow, and the heat that they stand."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from lapwright.errors import NotOneOf
from lapwright.quantities.figure import show_start
from lapwright.tables.reading import Cited, demand_kelvin, read_rows, read_si

_MICRON, _PERCENT = "0.000001", "0.01"


@dataclass(frozen=True, slots=True)
class PaintRow(Cited):
    """A kind of paint: share of solids by volume [-], films [m], heat it stands [K]; None for what is not printed.

    `cure` is in the words of the table.
    """

    name: str
    volume_solids: float | None
    dry_least: float | None
    dry_usual: float | None
    dry_most: float | None
    heat_limit: float
    cure: str
    source: str


def match_paint(text: str, names: tuple[str, ...]) -> str:
    """Return the one of some names of paints that is meant, whole or by a word that only one of them has.

    Parameters
    ----------
    text: `long-oil alkyd gloss enamel`, `alkyd`, `aerosol`
    names: those that may be meant

    Raises
    ------
    NotOneOf: no paint is called so, or more than one

    Example:
    >>> match_paint("Alkyd", tuple(row.name for row in list_paint_rows()))
    'long-oil alkyd gloss enamel'
    """
    wish = " ".join(text.split()).casefold()
    found = [name for name in names if name.casefold() == wish]
    found = found or [name for name in names if wish and wish in name.casefold()]
    if len(found) != 1:
        raise NotOneOf(show_start(text), tuple(found) or names)
    return found[0]


@cache
def list_paint_rows() -> tuple[PaintRow, ...]:
    """List the kinds of paint.

    Source: from memory (engine aerosol); makers' sheets as each row says

    Example:
    >>> [row.volume_solids for row in list_paint_rows() if "alkyd" in row.name]
    [0.48]
    """
    return tuple(
        PaintRow(
            name=row["paint"],
            volume_solids=read_si(row["vol_solids_pct"], _PERCENT),
            dry_least=read_si(row["dft_min_um"], _MICRON),
            dry_usual=read_si(row["dft_typ_um"], _MICRON),
            dry_most=read_si(row["dft_max_um"], _MICRON),
            heat_limit=demand_kelvin(row["heat_limit_C"]),
            cure=row["cure"],
            source=row["source"],
        )
        for row in read_rows("paints")
    )
