"""Materials for joints: the factors by which a joint is tightened and kept tight, and what each stands."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from lapwright.errors import NotOneOf
from lapwright.quantities.figure import show_start
from lapwright.tables.reading import Cited, read_kelvin, read_rows, read_si


@dataclass(frozen=True, slots=True)
class GasketRow(Cited):
    """A material for joints: factor `m` [-], seating stress `y` [Pa], heat [K] and pressure [Pa] it stands.

    None stands for what is not printed; `also` are the names it goes by at the bench.
    """

    material: str
    also: tuple[str, ...]
    m: float | None
    y: float | None
    max_temperature: float | None
    max_pressure: float | None
    source: str
    note: str


@cache
def list_gaskets() -> tuple[GasketRow, ...]:
    """List the materials for joints.

    Source: asme-viii, table 2-5.1; moss, p. 45; the rest as each row says

    Example:
    >>> [(row.m, row.y) for row in list_gaskets() if "copper" in row.also]
    [(4.75, 89600000.0)]
    """
    return tuple(
        GasketRow(
            material=row["material"],
            also=tuple(filter(None, row["also"].split("; "))),
            m=read_si(row["m"]),
            y=read_si(row["y_MPa"], "1000000"),
            max_temperature=read_kelvin(row["max_C"]),
            max_pressure=read_si(row["max_bar"], "100000"),
            source=row["source"],
            note=row["note"],
        )
        for row in read_rows("gaskets")
    )


def find_gasket(name: str) -> GasketRow:
    """Return the row of a material for joints.

    Parameters
    ----------
    name: as the table has it or as it is called at the bench: "oiled paper", "soft rubber", "copper", "old sheet"

    Raises
    ------
    NotOneOf: there is no such material

    Example:
    >>> find_gasket("oiled paper").m
    1.75
    """
    wanted = name.strip().lower()
    rows = list_gaskets()
    found = next((row for row in rows if wanted in (each.lower() for each in (row.material, *row.also))), None)
    if found is None:
        raise NotOneOf(show_start(name), tuple(each for row in rows for each in (row.also or (row.material,))))
    return found
