"""Where other lists have another drill for a thread: what they say, and why it is not followed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from lapwright.tables.conflicts import ConflictRow, list_conflicts
from lapwright.tables.threads import ThreadRow

#: By the list's table: how its word for a size becomes a thread's name.
_NAMES: Final[Mapping[str, Callable[[str], tuple[str, ...]]]] = MappingProxyType(
    {
        "BA tapping": lambda item: (item,),
        "BA clearance": lambda item: (item,),
        "ME/BSB tapping": lambda item: (f"{item} ME", f"{item} brass"),
        "BSB": lambda item: (f"{item} x 26 brass",),
        "BSF tapping": lambda item: (f"{item} BSF",),
        "UN % thread": lambda item: (f"No {item} UNC", f"No {item} UNF"),
    }
)
#: Verdicts with which there is nothing to warn of.
_HARMLESS: Final = ("ok", "check")


def tell_disagreements(thread: ThreadRow) -> tuple[str, ...]:
    """Say which other lists of drills disagree about a thread, and what is made of it.

    Parameters
    ----------
    thread: of the tables

    Example:
    >>> from lapwright.tables.naming import find_thread
    >>> print(tell_disagreements(find_thread("8 BA"))[0])
    Another list (a clockmakers' digest on the web) has: "rule of 4" tap drill No 54 = 1.397 mm, 154 % depth
    (impossible: drill below minor diameter). It is not followed here.
    """
    return tuple(_tell(row) for table in _NAMES for row in list_conflicts(table) if _concerns(row, thread))


def _concerns(row: ConflictRow, thread: ThreadRow) -> bool:
    is_drill = row.table != "BSB" or "drill" in row.quantity
    return is_drill and row.verdict not in _HARMLESS and thread.name in _NAMES[row.table](row.item)


def _tell(row: ConflictRow) -> str:
    listed = row.listed.replace("%", " %")
    # In one of the tables the unit stands with the quantity and not with the figure.
    told = f"{row.quantity.removesuffix(' mm')} {listed} mm" if row.table == "BSB" else f"{row.quantity}, {listed}"
    if row.table == "UN % thread":
        return f"{row.source} has: {told}; by the formula it is {row.other.replace('%', ' %')}."
    verdict = row.verdict.removeprefix("= ").replace("100%", "100 %")
    return f"Another list ({row.source}) has: {told} ({verdict}). It is not followed here."
