"""The drill before the tap: how much thread a metal wants, and what the drills of the drawers leave of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from lapwright.errors import NotOneOf, OutOfRange
from lapwright.quantities import show_mm, show_share
from lapwright.tables.drills import DrillRow
from lapwright.tables.reading import is_from_memory
from lapwright.tables.threads import ThreadRow
from lapwright.workshop.disagreements import tell_disagreements
from lapwright.workshop.drawers import find_neighbours
from lapwright.workshop.forms import BASIS_NAMES, FORMS, find_hole, measure_engagement

#: How much thread is wanted in a metal, as shares of the full depth [-]; the basis is that of `customary_basis`.
TARGETS: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {
        "steel": (0.65, 0.75),
        "stainless steel": (0.65, 0.75),
        "cast iron": (0.65, 0.75),
        "brass": (0.70, 0.80),
        "gunmetal": (0.70, 0.80),
        "phosphor bronze": (0.65, 0.75),
        "copper": (0.65, 0.75),
        "aluminium": (0.70, 0.80),
        "thin plate": (0.75, 0.85),
    }
)
#: Where the metal is not told: a hole that will do in all of them but thin plate.
ANY_METAL: Final = (0.65, 0.80)
#: How much larger than itself a drill cuts [m]: a sharp one that runs true, and one ground by eye.
OVERSIZE: Final = (0.02e-3, 0.08e-3)
#: From here on the tap has little room to cut, by the basis on which the share is counted [-].
TIGHT: Final[Mapping[str, float]] = MappingProxyType({"own": 0.90, "american": 0.80})
#: Below this a thread is too shallow to be relied on [-].
SHALLOW: Final = 0.50
#: Less than this and more than that is not asked of a tap [-].
_LEAST, _MOST = 0.1, 1.0
#: So begins the source of a drill that no handbook lists.
_DERIVED: Final = "derived here"
_OVERSIZE_SOURCE = "how much larger than itself a drill cuts: from memory"
_TARGET_SOURCE = f"how much thread a metal wants, and {_OVERSIZE_SOURCE}"


@dataclass(frozen=True, slots=True, kw_only=True)
class TappingHole:
    """A hole before tapping: the drill that makes it (may be None), its size [m], and the thread it leaves.

    `engagement` is the share of the form's own full depth [-], `american` the same hole on the American basis and None
    where the form is not counted so; `really` (least, most) is what is left where the drill cuts larger than itself.
    """

    drill: DrillRow | None
    diameter: float
    engagement: float
    american: float | None
    really: tuple[float, float]
    source: str

    @property
    def from_memory(self) -> bool:
        """Whether the size was recalled and not read."""
        return is_from_memory(self.source)


@dataclass(frozen=True, slots=True, kw_only=True)
class TappingAdvice:
    """What to drill for a tap: the wanted share [-] on its basis, the ideal hole [m], the drills next to it.

    `advised` is None where the drawers hold no drill that would do; `listed` is the drill of the handbooks.
    """

    thread: ThreadRow
    metal: str | None
    drawers: str
    basis: str
    wanted: tuple[float, float]
    ideal: float
    under: TappingHole | None
    over: TappingHole | None
    advised: TappingHole | None
    listed: TappingHole | None
    notes: tuple[str, ...]
    sources: tuple[str, ...]


def customary_basis(thread: ThreadRow) -> str:
    """Tell on which basis percentages of a thread are usually told: 60 degree threads on the American one.

    A share of the American depth is about as much metal as the same share of a Whitworth thread; of the ISO nut's
    depth it is 6/5 of that.

    Parameters
    ----------
    thread: a thread of the tables

    Source: machinery-handbook (31st ed., p. 2155)
    """
    return "american" if FORMS[thread.form].has_american_basis else "own"


def weigh_hole(thread: ThreadRow, diameter: float, *, drill: DrillRow | None = None, source: str = "") -> TappingHole:
    """Tell what thread a hole leaves.

    Parameters
    ----------
    thread: a thread of the tables
    diameter: the hole before it is tapped [m]
    drill: what makes it; may be left out
    source: what the size rests on

    Source: machinery-handbook (31st ed., p. 2155: percentage of thread); the oversize of a drill is from memory
    """
    american = customary_basis(thread) == "american"
    near, far = OVERSIZE
    return TappingHole(
        drill=drill,
        diameter=diameter,
        engagement=measure_engagement(thread, diameter),
        american=measure_engagement(thread, diameter, basis="american") if american else None,
        really=(measure_engagement(thread, diameter + far), measure_engagement(thread, diameter + near)),
        source=source or (drill.source if drill else ""),
    )


def list_hole(thread: ThreadRow) -> TappingHole | None:
    """Weigh the tapping drill that the handbooks list for a thread, or return None where none is listed.

    Parameters
    ----------
    thread: a thread of the tables
    """
    if thread.tapping_drill is None:
        return None
    under, _ = find_neighbours(thread.tapping_drill)
    named = under if under and abs(under.diameter - thread.tapping_drill) < _PRINTED else None
    return weigh_hole(thread, thread.tapping_drill, drill=named, source=thread.drill_source)


#: A printed drill size and the drill itself may differ by the last digit [m].
_PRINTED = 3e-6


def advise_tapping(
    thread: ThreadRow, *, metal: str | None = None, engagement: float | None = None, drawers: str = "all"
) -> TappingAdvice:
    """Find the drill for a tap in the drawers that a person owns.

    Parameters
    ----------
    thread: what is to be tapped
    metal: one of `TARGETS`, which says how much thread is wanted; None where it is not told
    engagement: the share wanted instead, of the form's own full depth [-]
    drawers: one of `lapwright.workshop.drawers.DRAWERS`

    Raises
    ------
    NotOneOf: there is no such metal or drawer
    OutOfRange: no tap leaves such a share

    Source: from memory (how much thread a metal wants); machinery-handbook (31st ed., p. 2155: percentage of thread)

    Example:
    >>> from lapwright.tables.naming import find_thread
    >>> advice = advise_tapping(find_thread("4 BA"), metal="brass", drawers="metric")
    >>> advice.advised.drill.name, round(advice.advised.engagement, 3)
    ('3 mm', 0.759)
    """
    basis, wanted = _want(thread, metal, engagement)
    ideal = find_hole(thread, sum(wanted) / 2, basis=basis)
    under, over = (
        None if drill is None else weigh_hole(thread, drill.diameter, drill=drill)
        for drill in find_neighbours(ideal, drawers=drawers)
    )
    listed = list_hole(thread)
    printed = None if engagement is not None else _keep_listed(thread, wanted, drawers)
    advised = printed or _choose(thread, ideal, (under, over))
    notes = (*_tell_choice(ideal, advised, drawers), *tell_hole(thread, advised), *tell_bases(thread))
    return TappingAdvice(
        thread=thread,
        metal=metal,
        drawers=drawers,
        basis=basis,
        wanted=wanted,
        ideal=ideal,
        under=under,
        over=over,
        advised=advised,
        listed=listed,
        notes=(*notes, *tell_disagreements(thread)),
        sources=_cite(thread, listed, advised, aimed=engagement is None),
    )


def _want(thread: ThreadRow, metal: str | None, engagement: float | None) -> tuple[str, tuple[float, float]]:
    if metal is not None and metal not in TARGETS:
        raise NotOneOf(metal, tuple(TARGETS))
    if engagement is None:
        return customary_basis(thread), TARGETS[metal] if metal else ANY_METAL
    if not _LEAST <= engagement <= _MOST:
        raise OutOfRange(show_share(engagement), "is no share of a thread that a tap cuts", 'write it like "70 %"')
    return "own", (engagement, engagement)


def _keep_listed(thread: ThreadRow, wanted: tuple[float, float], drawers: str) -> TappingHole | None:
    """The handbooks' drill, where it leaves what is wanted and lies in the drawers."""
    listed = list_hole(thread)
    if listed is None or listed.source.startswith(_DERIVED):
        return None
    share = listed.engagement if listed.american is None else listed.american
    under, _ = find_neighbours(listed.diameter + _PRINTED, drawers=drawers)
    owned = under is not None and abs(under.diameter - listed.diameter) <= _PRINTED
    low, high = (round(limit, 3) for limit in wanted)
    return (
        weigh_hole(thread, under.diameter, drill=under) if under and owned and low <= round(share, 3) <= high else None
    )


def _choose(thread: ThreadRow, ideal: float, holes: tuple[TappingHole | None, ...]) -> TappingHole | None:
    """The nearer of the two drills, unless it lies under the core or is too wide for a thread."""
    fit = [
        hole for hole in holes if hole and hole.engagement >= SHALLOW / 2 and hole.diameter >= thread.minor - _PRINTED
    ]
    return min(fit, key=lambda hole: abs(hole.diameter - ideal), default=None)


def _tell_choice(ideal: float, advised: TappingHole | None, drawers: str) -> Iterator[str]:
    if advised is None:
        yield (
            f"The drawers ({drawers}) hold no drill for a hole of {show_mm(ideal)}: bore it to size, or drill under "
            "and ream."
        )


def tell_bases(thread: ThreadRow) -> Iterator[str]:
    """Say what the two bases are, for a thread that is counted on both.

    Parameters
    ----------
    thread: what is to be tapped

    Source: machinery-handbook (31st ed., p. 2155); iso-68-1
    """
    if FORMS[thread.form].has_american_basis:
        yield (
            "The full depth is that of the standard's nut, 1.083 x pitch on the diameter; the American basis counts on "
            "1.299 x pitch, so one drill has 6/5 of the American percentage on the other."
        )


def tell_hole(thread: ThreadRow, hole: TappingHole | None) -> Iterator[str]:
    """Say what is wrong with a tapping hole, if anything is: under the core, tight, or shallow.

    Parameters
    ----------
    thread: what is to be tapped
    hole: as weighed

    Source: from memory
    """
    if hole is None:
        return
    basis = customary_basis(thread)
    share = hole.engagement if hole.american is None else hole.american
    told = f"{show_mm(hole.diameter)} leaves {show_share(share)} {BASIS_NAMES[basis]}"
    if hole.diameter < thread.minor - _PRINTED:
        yield (
            f"{show_mm(hole.diameter)} is under the core of the thread ({show_mm(thread.minor)}): the tap would have "
            "to cut the hole larger as well, and breaks."
        )
    elif share > TIGHT[basis]:
        yield f"{told}: little room for the tap, and hardly any stronger. Go in turn by turn, and clear the chips."
    elif share < SHALLOW:
        yield f"{told}: too shallow to be relied on."


def _cite(
    thread: ThreadRow, listed: TappingHole | None, advised: TappingHole | None, *, aimed: bool
) -> tuple[str, ...]:
    sources = [f"sizes: {thread.source}"]
    sources += [f"listed drill: {listed.source}"] if listed else []
    sources += [f"drill: {advised.source}"] if advised else []
    return (*sources, _TARGET_SOURCE if aimed else _OVERSIZE_SOURCE)
