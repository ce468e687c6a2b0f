"""An O-ring instead of packing: the rings that suit a moving rod, their grooves, and whether they go into the box."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from lapwright.quantities import show_mm
from lapwright.tables.orings import GrooveRow, ORingRow, list_grooves, list_orings
from lapwright.workshop.oring_squeeze import Squeeze, find_squeeze, find_stretch, thin_section

#: How much larger than the rod a ring may lie, and how far it may be stretched at most; from memory.
LOOSEST, TIGHTEST = -0.03, 0.10
#: What makers allow of stretch in a groove, and the middle of what they advise [-].
ALLOWED, ADVISED = 0.05, 0.02
#: The least wall of a bush outside the groove, and the least land beside it [m]; from memory.
WALL, LAND = 0.0005, 0.001
#: What a section may be off where the table does not print it [m]: as AS568 has it for small sections.
USUAL_TOLERANCE = 0.00008
_MOST_SHOWN = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """A groove for a moving rod [m]: its depths from the rod, its width, the clearance of the rod beside it."""

    depths: tuple[float, float]
    width: float
    clearance: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RingGland:
    """An O-ring on a rod, in its groove; lengths in m, `stretch` [-] negative where the ring is larger than the rod.

    `diameters` are the least and the greatest across the groove. `fits` tells whether it goes into the box, `how` says
    in what way, or why not.
    """

    standard: str
    code: str
    inside: float
    section: float
    stretch: float
    groove: Groove
    diameters: tuple[float, float]
    squeeze: Squeeze
    fits: bool
    how: str
    source: str


def find_ring_glands(rod: float, bore: float, depth: float | None = None) -> tuple[RingGland, ...]:
    """Find the O-rings that suit a moving rod and go into its box; where there is none, the one that comes nearest.

    Parameters
    ----------
    rod, bore: diameters of rod and stuffing box [m]
    depth: of the box [m]; None where it could not be reached

    Source: as568; iso-3601; bs-4518; makers' groove tables; from memory (how far off a ring may be, walls and lands)

    Example:
    >>> [(ring.code, ring.fits) for ring in find_ring_glands(0.004, 0.008, 0.010)][:1]
    [('0041-16', True)]
    """
    rows = [row for row in list_orings() if LOOSEST <= find_stretch(row.inside, row.section, rod) <= TIGHTEST]
    glands = [place_ring(row, groove, rod=rod, bore=bore, depth=depth) for row in rows if (groove := find_groove(row))]
    glands.sort(key=lambda gland: (not gland.fits, gland.stretch > ALLOWED, abs(gland.stretch - ADVISED)))
    good = [gland for gland in glands if gland.fits and gland.stretch <= ALLOWED]
    return tuple(good[:_MOST_SHOWN] or glands[:1])


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


_SAME = 1e-6


def _make_groove(row: GrooveRow) -> Groove:
    return Groove(depths=row.depth, width=row.width, clearance=row.clearance, source=row.source)


def _between(below: GrooveRow, above: GrooveRow, section: float) -> Groove:
    """Makers print no groove for this section: depth and width go in step with it between two that they print."""
    share = (section - below.section) / (above.section - below.section)

    def mix(low: float, high: float) -> float:
        return low + share * (high - low)

    between = f"between those for {show_mm(below.section)} and {show_mm(above.section)}"
    return Groove(
        depths=(mix(below.depth[0], above.depth[0]), mix(below.depth[1], above.depth[1])),
        width=mix(below.width, above.width),
        clearance=min(below.clearance, above.clearance),
        source=f"{below.source}; the groove for {show_mm(section)} lies {between}",
    )


def place_ring(ring: ORingRow, groove: Groove, *, rod: float, bore: float, depth: float | None) -> RingGland:
    """Place a ring on a rod in its groove, and see whether that goes into the box.

    Parameters
    ----------
    ring: the ring
    groove: its groove
    rod, bore: diameters of rod and stuffing box [m]
    depth: of the box [m]; None where it could not be reached

    Source: exact geometry; from memory (walls and lands)
    """
    stretched = thin_section(ring.inside, ring.section, rod)
    tolerance = USUAL_TOLERANCE if ring.section_tolerance is None else ring.section_tolerance
    diameters = (rod + 2 * groove.depths[0], rod + 2 * groove.depths[1])
    fits, how = _fit(diameters, groove.width, bore=bore, depth=depth)
    return RingGland(
        standard=ring.standard,
        code=ring.code,
        inside=ring.inside,
        section=ring.section,
        stretch=find_stretch(ring.inside, ring.section, rod),
        groove=groove,
        diameters=diameters,
        squeeze=find_squeeze(
            ring.section, tolerance=tolerance, depths=groove.depths, width=groove.width, stretched=stretched
        ),
        fits=fits,
        how=how,
        source=ring.source,
    )


def _fit(diameters: tuple[float, float], width: float, *, bore: float, depth: float | None) -> tuple[bool, str]:
    long = width + 2 * LAND
    if depth is not None and depth < long:
        return False, f"needs a box {show_mm(long)} deep, with a land on either side of the groove"
    low, high = diameters
    if low <= bore <= high:
        return True, "the box itself is the groove: a plug at its bottom and the gland's nose make the sides"
    outside = high + 2 * WALL
    if bore >= outside:
        return True, f"in a bush turned to fit the box, {show_mm(bore)} outside and at least {show_mm(long)} long"
    return False, f"the box would have to be bored to {show_mm(outside)} to take a bush round the groove"
