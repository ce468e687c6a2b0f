"""The groove in which an O-ring seals on a moving rod: as a table has it, or between two of its sections."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from lapwright.quantities import show_mm
from lapwright.tables.orings import GrooveRow, ORingRow, Range, list_grooves

_SAME = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """A groove for a moving rod [m]: its depths from the rod, its width, the clearance of the rod beside it.

    `listed` is the squeeze that makers list for its section, least and most, as a share of the section [-].
    """

    depths: Range
    width: float
    clearance: float
    listed: Range
    source: str


def find_groove(ring: ORingRow) -> Groove | None:
    """Find the groove for a ring on a moving rod: as the table has it, or between two of its sections.

    Parameters
    ----------
    ring: the ring

    Returns
    -------
    the groove; None for a section beyond the ends of the table
    """
    rows = sorted(list_grooves("dynamic"), key=lambda row: row.section)
    for row in rows:
        if abs(row.section - ring.section) < _SAME:
            return _make_groove(row)
    for below, above in pairwise(rows):
        if below.section < ring.section < above.section:
            return _between(below, above, ring.section)
    return None


def _make_groove(row: GrooveRow) -> Groove:
    return Groove(
        depths=row.depth, width=row.width, clearance=row.clearance, listed=row.squeeze_share, source=row.source
    )


def _between(below: GrooveRow, above: GrooveRow, section: float) -> Groove:
    """Makers print no groove for this section: depth and width go in step with it between two that they print."""
    share = (section - below.section) / (above.section - below.section)

    def mix(low: float, high: float) -> float:
        return low + share * (high - low)

    def mix_both(low: Range, high: Range) -> Range:
        return mix(low[0], high[0]), mix(low[1], high[1])

    between = f"between those for {show_mm(below.section)} and {show_mm(above.section)}"
    return Groove(
        depths=mix_both(below.depth, above.depth),
        width=mix(below.width, above.width),
        clearance=min(below.clearance, above.clearance),
        listed=mix_both(below.squeeze_share, above.squeeze_share),
        source=f"{below.source}; the groove for {show_mm(section)} lies {between}",
    )
