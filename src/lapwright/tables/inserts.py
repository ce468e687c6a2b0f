"""Wire thread inserts: the hole, the tap's size over its threads, and how much more wall they want than the thread."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from lapwright.tables.reading import demand_si, is_from_memory, read_rows, read_si

_MM = "0.001"


@dataclass(frozen=True, slots=True)
class InsertRow:
    """The insert that gives a thread back, all in m: its tap over the threads, the least hole, the drill, the wall.

    `thread` is the thread's name in the tables; `drill` is None where none is known, and has a source of its own;
    `extra_wall` is how much deeper than the thread itself the insert goes, on each side.
    """

    thread: str
    tap_major: float
    basic_hole: float
    drill: float | None
    drill_source: str
    extra_wall: float
    source: str

    @property
    def from_memory(self) -> bool:
        """Whether hole or drill was recalled and not read."""
        return is_from_memory(self.source) or is_from_memory(self.drill_source)


@cache
def list_inserts() -> tuple[InsertRow, ...]:
    """List the wire inserts.

    Source: iso-68-1 (outside thread D + 1.299 p); from memory (drills)

    Example:
    >>> [(row.thread, round(1000 * row.tap_major, 2)) for row in list_inserts() if row.thread == "M4"]
    [('M4', 4.91)]
    """
    return tuple(
        InsertRow(
            thread=row["thread"],
            tap_major=demand_si(row["insert_tap_major_mm"], _MM),
            basic_hole=demand_si(row["basic_hole_mm"], _MM),
            drill=read_si(row["drill_mm"], _MM),
            drill_source=row["drill_source"],
            extra_wall=demand_si(row["extra_wall_per_side_mm"], _MM),
            source=row["source"],
        )
        for row in read_rows("inserts")
    )
