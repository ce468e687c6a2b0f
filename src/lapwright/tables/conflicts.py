"""Where sources disagree or misprint: what each says, and what is made of it here."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from lapwright.tables.reading import Cited, read_rows


@dataclass(frozen=True, slots=True)
class ConflictRow(Cited):
    """One disagreement, in words: which table and row, which quantity, what is listed, what else, and the verdict."""

    table: str
    item: str
    quantity: str
    listed: str
    other: str
    source: str
    verdict: str


@cache
def list_conflicts(table: str | None = None) -> tuple[ConflictRow, ...]:
    """List the disagreements about one table, or all.

    Parameters
    ----------
    table: its word in the list: `drills`, `materials`; left out, all

    Example:
    >>> [row.item for row in list_conflicts("drills")][:2]
    ['No 25', 'No 28']
    """
    return tuple(
        ConflictRow(
            table=row["table"],
            item=row["item"],
            quantity=row["quantity"],
            listed=row["listed"],
            other=row["expected_or_other"],
            source=row["source"],
            verdict=row["verdict"],
        )
        for row in read_rows("conflicts")
        if table in (None, row["table"])
    )
