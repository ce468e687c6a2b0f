"""Rubbers and their kin: what heat each stands in air, hot water and steam, and whether it lives with mineral oil."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from lapwright.errors import NotOneOf
from lapwright.quantities.figure import show_start
from lapwright.tables.reading import Cited, read_kelvin, read_rows


@dataclass(frozen=True, slots=True)
class ElastomerRow(Cited):
    """What an elastomer stands [K]: in dry air, in hot water, in steam; None where it is not for that, or not printed.

    Where sources differ the lower limit is given; `steam` and `mineral_oil` are the words of the table.
    """

    name: str
    air_limit: float | None
    water_limit: float | None
    steam_limit: float | None
    steam: str
    mineral_oil: str
    source: str
    note: str

    @property
    def stands_mineral_oil(self) -> bool:
        """Whether mineral oil, so also mineral steam oil, leaves it sound."""
        return self.mineral_oil in ("good", "excellent")


@cache
def list_elastomers() -> tuple[ElastomerRow, ...]:
    """List the elastomers.

    Source: tribology-handbook (PTFE); the rest as each row says

    Example:
    >>> [row.name for row in list_elastomers() if row.steam_limit and row.stands_mineral_oil]
    ['FEPM (TFE/P)', 'FFKM', 'PTFE (solid)']
    """
    return tuple(_read_elastomer(row) for row in read_rows("elastomers"))


def _read_elastomer(row: Mapping[str, str]) -> ElastomerRow:
    first = re.match(r">?(\d+)", row["steam_max_C"])
    return ElastomerRow(
        name=row["material"],
        air_limit=read_kelvin(row["dry_air_max_C"]),
        water_limit=read_kelvin(row["hot_water_max_C"]),
        steam_limit=read_kelvin(first[1]) if first else None,
        steam=row["steam_max_C"],
        mineral_oil=row["mineral_oil"],
        source=row["source"],
        note=row["note"],
    )


def find_elastomer(name: str) -> ElastomerRow:
    """Return the row of an elastomer.

    Parameters
    ----------
    name: as the table has it, or the first word of that: "NBR", "FFKM", "VMQ"

    Raises
    ------
    NotOneOf: there is no such elastomer, or more than one

    Example:
    >>> find_elastomer("nbr").steam_limit is None
    True
    """
    wanted = name.strip().lower()
    rows = list_elastomers()
    found = [row for row in rows if row.name.lower() == wanted] or [
        row for row in rows if row.name.lower().split()[0] == wanted
    ]
    if len(found) != 1:
        raise NotOneOf(show_start(name), tuple(row.name for row in found or rows))
    return found[0]
