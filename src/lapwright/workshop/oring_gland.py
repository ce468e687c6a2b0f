"""An O-ring instead of packing: the rings that suit a moving rod, and the easiest way in which each goes into its box.

A ring may lie in the box as it stands, between two washers, where its section suits the space; or in the groove of a
bush; or the box has to be bored out for that bush.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from lapwright.quantities import show_mm, show_share
from lapwright.tables.orings import ORingRow, Range, list_orings
from lapwright.workshop.oring_groove import Groove, find_groove
from lapwright.workshop.oring_squeeze import Squeeze, find_squeeze, find_stretch, thin_section

#: How much larger than the rod a ring may lie, and how far it may be stretched at most; from memory.
LOOSEST, TIGHTEST = -0.03, 0.10
#: What makers allow of stretch in a groove, and the middle of what they advise [-].
ALLOWED, ADVISED = 0.05, 0.02
#: What another maker asks of the squeeze of a ring on a moving rod, whatever its section [-].
ASKED: Range = (0.12, 0.18)
#: Squeezed less than this a ring does not reliably touch all round; from memory.
LIGHTEST = 0.05
#: By how much the worst squeeze may pass the listed one: figures are listed in whole percent.
_ROUNDED = 0.005
#: The least wall of a bush outside the groove, and the least land beside it [m]; from memory.
WALL, LAND = 0.0005, 0.001
#: What a section may be off where the table does not print it [m]: as AS568 has it for small sections.
USUAL_TOLERANCE = 0.00008
#: In what ways a ring goes into a box, the first preferred.
IN_BOX, IN_BUSH, LIGHT, BORED, SHALLOW = "box as it stands", "bush", "lightly squeezed", "box bored out", "too shallow"
WAYS = (IN_BOX, IN_BUSH, LIGHT, BORED, SHALLOW)
_MOST_SHOWN = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class RingGland:
    """An O-ring on a rod, in its groove; lengths in m, `stretch` [-] negative where the ring is larger than the rod.

    `stretched` is its section on the rod. `diameters` are the least and the greatest across the groove; where it lies
    in the box as it stands both are the bore. `way` is one of `WAYS`; `fits` tells whether it goes into the box, `how`
    says in what way, or why not. `tolerance_taken` tells that none is printed for its section and that of AS568 is
    taken.
    """

    standard: str
    code: str
    inside: float
    section: float
    stretched: float
    tolerance_taken: bool
    stretch: float
    groove: Groove
    diameters: Range
    squeeze: Squeeze
    way: str
    how: str
    source: str

    @property
    def fits(self) -> bool:
        """Whether it goes into the box as that is bored."""
        return self.way not in (BORED, SHALLOW)

    @property
    def name(self) -> str:
        """What to ask for: "BS 4518 0031-16, 3.10 mm x 1.60 mm"."""
        return f"{self.standard} {self.code}, {show_mm(self.inside)} x {show_mm(self.section)}"


def find_ring_glands(rod: float, bore: float, depth: float | None = None) -> tuple[RingGland, ...]:
    """Find the O-rings that suit a moving rod, the easiest way first: the box as it stands, a bush, the box bored out.

    Parameters
    ----------
    rod, bore: diameters of rod and stuffing box [m]
    depth: of the box [m]; None where it could not be reached

    Returns
    -------
    one or two rings, the second another way or of another standard; none where no ring of the tables is right

    Source: as568; iso-3601; bs-4518; makers' groove tables; from memory (how far off a ring may be, walls and lands)

    Example:
    >>> [(ring.code, ring.way) for ring in find_ring_glands(0.004, 0.008, 0.010)][:1]
    [('0041-16', 'bush')]
    >>> [(ring.code, ring.way) for ring in find_ring_glands(0.003175, 0.00635)]
    [('006', 'lightly squeezed'), ('0031-16', 'box bored out')]
    """
    rows = [row for row in list_orings() if LOOSEST <= find_stretch(row.inside, row.section, rod) <= TIGHTEST]
    glands = [gland for row in rows for gland in place_ring(row, rod=rod, bore=bore, depth=depth)]
    glands.sort(key=_rank)
    return (glands[0], *_find_others(glands))[:_MOST_SHOWN] if glands else ()


def _rank(gland: RingGland) -> tuple[int, bool, float, float]:
    """The easiest way first, what makers allow before the rest, and as little bored out as may be."""
    bored = gland.diameters[1] if gland.way == BORED else 0.0
    return WAYS.index(gland.way), gland.stretch > ALLOWED, bored, abs(gland.stretch - ADVISED)


def _find_others(glands: list[RingGland]) -> Iterator[RingGland]:
    """What is worth knowing besides the first: another standard or an equal way, stretched as makers allow."""
    first = glands[0]
    # What has to be bored out is told of beside a light squeeze only, and a light squeeze beside nothing better.
    ways = (LIGHT, BORED) if first.way == LIGHT else (IN_BOX, IN_BUSH)
    for gland in glands[1:]:
        differs = (gland.way, gland.standard) != (first.way, first.standard)
        if differs and gland.way in ways and gland.stretch <= ALLOWED:
            yield gland


def place_ring(ring: ORingRow, *, rod: float, bore: float, depth: float | None) -> Iterator[RingGland]:
    """Place a ring on a rod, in every way in which it goes into the box; or tell what it would take.

    Parameters
    ----------
    ring: the ring
    rod, bore: diameters of rod and stuffing box [m]
    depth: of the box [m]; None where it could not be reached

    Source: exact geometry; from memory (walls and lands)
    """
    groove = find_groove(ring)
    if groove is None:
        return
    long = groove.width + 2 * LAND
    if depth is not None and depth < long:
        how = f"needs a box {show_mm(long)} deep, with a washer or a land on either side of it"
        yield _seat(ring, groove, rod=rod, way=SHALLOW, how=how)
        return
    if standing := _stand_in_box(ring, groove, rod=rod, bore=bore):
        yield standing
    outside = rod + 2 * groove.depths[1] + 2 * WALL
    if bore >= outside:
        how = f"in a bush turned to fit the box, {show_mm(bore)} outside and at least {show_mm(long)} long"
        yield _seat(ring, groove, rod=rod, way=IN_BUSH, how=how)
    else:
        how = f"the box would have to be bored to {show_mm(outside)} to take a bush round the groove"
        yield _seat(ring, groove, rod=rod, way=BORED, how=how)


def _stand_in_box(ring: ORingRow, groove: Groove, *, rod: float, bore: float) -> RingGland | None:
    """The box itself is the groove, as deep as the space between it and the rod; None where that does not do."""
    space = (bore - rod) / 2
    gland = _seat(ring, replace(groove, depths=(space, space)), rod=rod, way=IN_BOX, how="")
    squeeze, (low, high) = gland.squeeze, groove.listed
    # A squeeze that either of the two makers asks for will do.
    too_hard = squeeze.nominal > ASKED[1] and squeeze.most > high + _ROUNDED
    if too_hard or squeeze.least <= 0 or squeeze.nominal < LIGHTEST:
        return None
    between = f"in the box as it stands, between two washers {show_mm(groove.width)} apart"
    if squeeze.nominal >= min(low, ASKED[0]):
        return replace(gland, how=between)
    asks = f"{show_share(ASKED[0])} to {show_share(ASKED[1])}, or {show_share(low)} to {show_share(high)}"
    how = f"{between}; squeezed less than makers ask ({asks}), it holds a low pressure and rubs little (from memory)"
    return replace(gland, way=LIGHT, how=how)


def _seat(ring: ORingRow, groove: Groove, *, rod: float, way: str, how: str) -> RingGland:
    stretched = thin_section(ring.inside, ring.section, rod)
    taken = ring.section_tolerance is None
    tolerance = USUAL_TOLERANCE if ring.section_tolerance is None else ring.section_tolerance
    return RingGland(
        standard=ring.standard,
        code=ring.code,
        inside=ring.inside,
        section=ring.section,
        stretched=stretched,
        tolerance_taken=taken,
        stretch=find_stretch(ring.inside, ring.section, rod),
        groove=groove,
        diameters=(rod + 2 * groove.depths[0], rod + 2 * groove.depths[1]),
        squeeze=find_squeeze(
            ring.section, tolerance=tolerance, depths=groove.depths, width=groove.width, stretched=stretched
        ),
        way=way,
        how=how,
        source=ring.source,
    )
