"""A hole before it is tapped: what thread a drill leaves in it, and what is wrong with that, if anything is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from lapwright.quantities import show_mm, show_share
from lapwright.tables.drills import DrillRow
from lapwright.tables.reading import is_from_memory
from lapwright.tables.threads import ThreadRow
from lapwright.workshop.drawers import find_neighbours
from lapwright.workshop.forms import BASIS_NAMES, FORMS, measure_engagement

#: How much larger than itself a drill cuts [m]: a sharp one that runs true, and one ground by eye.
OVERSIZE: Final = (0.02e-3, 0.08e-3)
#: From here on the tap has little room to cut, by the basis on which the share is counted [-].
TIGHT: Final[Mapping[str, float]] = MappingProxyType({"own": 0.90, "american": 0.80})
#: Above this no drill is advised: the tap breaks. On the American basis the minor diameter comes before it [-].
BREAKS: Final[Mapping[str, float]] = MappingProxyType({"own": 0.95, "american": 5 / 6})
#: Below this a thread is too shallow to be relied on [-].
SHALLOW: Final = 0.50
#: From here on more depth hardly makes a thread stronger, of the form's own full depth [-].
ENOUGH: Final = 0.60
#: A printed drill size and the drill itself may differ by the last digit [m].
PRINTED: Final = 3e-6


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

    @property
    def share(self) -> float:
        """What it leaves on the basis on which such threads are usually told [-]."""
        return self.engagement if self.american is None else self.american

    @property
    def is_under_minor(self) -> bool:
        """Whether the tap would have to cut the hole larger as well."""
        return self.engagement > _MINOR

    @property
    def verdict(self) -> str:
        """Whether what is really left is enough, in a few words."""
        least, most = (round(share, 2) for share in self.really)
        return "enough" if least >= ENOUGH else "enough if it runs true" if most >= ENOUGH else "little"

    @property
    def fault(self) -> str:
        """What is wrong with it in a few words; empty where nothing is."""
        basis = "own" if self.american is None else "american"
        if self.is_under_minor:
            return "under the minor diameter"
        if self.engagement == 0:
            return "no smaller than the screw"
        if self.share > BREAKS[basis]:
            return "the tap breaks"
        return "tight for the tap" if self.share > TIGHT[basis] else "too shallow" if self.share < SHALLOW else ""


#: From this share on a drill is under the minor diameter: the tables round their sizes [-].
_MINOR: Final = 1.005


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
    named = under if under and abs(under.diameter - thread.tapping_drill) < PRINTED else None
    return weigh_hole(thread, thread.tapping_drill, drill=named, source=thread.drill_source)


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
    """Say what is wrong with a tapping hole, if anything is: under the minor diameter, tight, or shallow.

    Parameters
    ----------
    thread: what is to be tapped
    hole: as weighed

    Source: from memory
    """
    if hole is None:
        return
    basis, share = customary_basis(thread), hole.share
    told = f"{show_mm(hole.diameter)} leaves {show_share(share)} {BASIS_NAMES[basis]}"
    if hole.diameter < thread.minor - PRINTED:
        yield (
            f"{show_mm(hole.diameter)} is under the minor diameter ({show_mm(thread.minor)}): the tap would have "
            "to cut the hole larger as well, and breaks."
        )
    elif share > BREAKS[basis]:
        yield f"{told}: the tap has no room and breaks, and the thread is hardly any stronger."
    elif share > TIGHT[basis]:
        yield f"{told}: little room for the tap, and hardly any stronger. Go in turn by turn, and clear the chips."
    elif share < SHALLOW:
        yield f"{told}: too shallow to be relied on."
