"""Holes that a screw passes through."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from lapwright.quantities import show_mm
from lapwright.tables.drills import DrillRow
from lapwright.tables.reading import is_from_memory
from lapwright.tables.threads import CLEARANCES, ThreadRow, list_threads
from lapwright.workshop.drawers import SAME_SIZE, find_neighbours

#: Where BS 4186:1967 asks for another hole than ISO 273 [m]: they agree up to M10.
BS_4186: Final[Mapping[str, tuple[float, ...]]] = MappingProxyType({"M12": (0.013, 0.014, 0.015)})
_BORROWED = (
    "no clearance is listed for this thread: its holes have the allowance over the screw that ISO 273 gives the metric "
    "screw nearest in size; a rule of this program's own, no source"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceHole:
    """A hole for a screw to pass: how freely ("close", "medium", "free"), its size [m], and the drill of the drawers.

    `drill` is the smallest that is no smaller than the hole, None where the drawers hold none.
    """

    fit: str
    diameter: float
    drill: DrillRow | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """The clearance holes of a thread, the closest first, and what they rest on."""

    holes: tuple[ClearanceHole, ...]
    source: str
    notes: tuple[str, ...]

    @property
    def from_memory(self) -> bool:
        """Whether the sizes were recalled and not read."""
        return is_from_memory(self.source)


def find_clearance(thread: ThreadRow, *, drawers: str = "all") -> Clearance:
    """Find the holes that a screw passes through, with a drill for each.

    Parameters
    ----------
    thread: that of the screw
    drawers: one of `lapwright.workshop.drawers.DRAWERS`

    Raises
    ------
    NotOneOf: there are no such drawers

    Source: iso-273 (metric); bs-4186 (where it differs); from memory (BA); else as the nearest metric screw

    Example:
    >>> from lapwright.tables.naming import find_thread
    >>> [round(1e3 * hole.diameter, 2) for hole in find_clearance(find_thread("M4")).holes]
    [4.3, 4.5, 4.8]
    """
    sizes, source = (thread.clearance, thread.clearance_source) if thread.clearance else (_borrow(thread), _BORROWED)
    holes = (
        ClearanceHole(fit=fit, diameter=sizes[fit], drill=_find_drill(sizes[fit], drawers))
        for fit in CLEARANCES
        if fit in sizes
    )
    return Clearance(holes=tuple(holes), source=source, notes=tuple(_tell(thread)))


def _find_drill(diameter: float, drawers: str) -> DrillRow | None:
    under, over = find_neighbours(diameter, drawers=drawers)
    return under if under and abs(under.diameter - diameter) <= SAME_SIZE else over


def _borrow(thread: ThreadRow) -> dict[str, float]:
    """The allowance of the nearest metric screw, on this one."""
    like = min(list_threads("metric coarse"), key=lambda row: (not row.clearance, abs(row.major - thread.major)))
    return {fit: thread.major + hole - like.major for fit, hole in like.clearance.items()}


def _tell(thread: ThreadRow) -> Iterator[str]:
    if thread.form == "ISO metric" and (other := BS_4186.get(thread.name.partition(" ")[0])):
        sizes = ", ".join(f"{fit} {show_mm(size, 1)}" for fit, size in zip(CLEARANCES, other, strict=True))
        yield f"BS 4186:1967 asks for other clearance holes here: {sizes}. Those of ISO 273 are used."
