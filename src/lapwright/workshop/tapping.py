"""The drill before the tap: how much thread a metal wants, and what the drills of the drawers leave of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from lapwright.errors import NotOneOf, OutOfRange
from lapwright.quantities import show_mm, show_share
from lapwright.tables.drills import DrillRow
from lapwright.tables.materials import find_metal
from lapwright.tables.threads import ThreadRow
from lapwright.workshop.disagreements import tell_disagreements
from lapwright.workshop.drawers import find_neighbours, name_drill
from lapwright.workshop.forms import find_hole
from lapwright.workshop.tapping_hole import (
    BREAKS,
    ENOUGH,
    PRINTED,
    SHALLOW,
    TappingHole,
    customary_basis,
    list_hole,
    tell_bases,
    tell_hole,
    weigh_hole,
)

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
#: Less than this and more than that is not asked of a tap [-].
_LEAST, _MOST = 0.1, 1.0
#: So begins the source of a drill that no handbook lists.
_DERIVED: Final = "derived here"
_OVERSIZE_SOURCE = "how much larger than itself a drill cuts: from memory"
_TARGET_SOURCE = f"how much thread a metal wants, and {_OVERSIZE_SOURCE}"


@dataclass(frozen=True, slots=True, kw_only=True)
class TappingAdvice:
    """What to drill for a tap: the wanted share [-] on its basis, the ideal hole [m], the drills next to it.

    `advised` is None where the drawers hold no drill that would do; `of_all` is the one that all drawers together hold
    for it, None where that is no other; `listed` is the drill of the handbooks.
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
    of_all: TappingHole | None
    listed: TappingHole | None
    notes: tuple[str, ...]
    sources: tuple[str, ...]


def advise_tapping(
    thread: ThreadRow, *, metal: str | None = None, engagement: float | None = None, drawers: str = "all"
) -> TappingAdvice:
    """Find the drill for a tap in the drawers that a person owns.

    Parameters
    ----------
    thread: what is to be tapped
    metal: one of `TARGETS`, or a grade of one, which says how much thread is wanted; None where it is not told
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
    metal = None if metal is None else _name_metal(metal)
    basis, wanted = _want(thread, metal, engagement)
    aim = _Aim(thread=thread, basis=basis, wanted=wanted, is_asked=engagement is not None)
    under, over = aim.find_next(drawers)
    advised = aim.choose(drawers)
    listed = list_hole(thread)
    advice = TappingAdvice(
        thread=thread,
        metal=metal,
        drawers=drawers,
        basis=basis,
        wanted=wanted,
        ideal=aim.ideal,
        under=under,
        over=over,
        advised=advised,
        of_all=None if advised and aim.holds(advised) else _find_better(aim, drawers),
        listed=listed,
        notes=(),
        sources=_cite(thread, listed, advised, aimed=engagement is None),
    )
    return replace(advice, notes=tuple(_tell_advice(advice, aim)))


def _name_metal(written: str) -> str:
    """The word of `TARGETS` for what is tapped: a metal by its name or grade, or thin plate."""
    plain = " ".join(written.lower().split())
    if plain in TARGETS:
        return plain
    try:
        return find_metal(written).name
    except NotOneOf:
        raise NotOneOf(written, tuple(TARGETS)) from None


def _want(thread: ThreadRow, metal: str | None, engagement: float | None) -> tuple[str, tuple[float, float]]:
    if engagement is None:
        return customary_basis(thread), TARGETS[metal] if metal else ANY_METAL
    if not _LEAST <= engagement <= _MOST:
        raise OutOfRange(show_share(engagement), "is no share of a thread that a tap cuts", 'write it like "70 %"')
    return "own", (engagement, engagement)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Aim:
    """How much of a thread is wanted, on which basis, and whether a person asked for just that share."""

    thread: ThreadRow
    basis: str
    wanted: tuple[float, float]
    is_asked: bool

    @property
    def ideal(self) -> float:
        """The hole that leaves the middle of what is wanted [m]."""
        return find_hole(self.thread, sum(self.wanted) / 2, basis=self.basis)

    def share(self, hole: TappingHole) -> float:
        """What a hole leaves, on the basis of what is wanted [-]."""
        return hole.engagement if self.basis == "own" else hole.share

    def holds(self, hole: TappingHole) -> bool:
        """Whether a hole leaves what is wanted, to the percent in which it is shown; any will do for a single share."""
        low, high = (round(limit, 2) for limit in self.wanted)
        return self.is_asked or low <= round(self.share(hole), 2) <= high

    def find_next(self, drawers: str) -> tuple[TappingHole | None, TappingHole | None]:
        """The holes of the drills next under the ideal one and next over it."""
        under, over = find_neighbours(self.ideal, drawers=drawers)
        return self._weigh(under), self._weigh(over)

    def choose(self, drawers: str) -> TappingHole | None:
        """The handbooks' drill where it does; else the nearer of the two next to the ideal, if either will do at all.

        Where one of the two leaves what is wanted and the other does not, the first is always the nearer.
        """
        fit = [hole for hole in self.find_next(drawers) if hole and self._will_do(hole)]
        nearest = min(fit, key=lambda hole: abs(hole.diameter - self.ideal), default=None)
        return self._keep_listed(drawers) or nearest

    def _weigh(self, drill: DrillRow | None) -> TappingHole | None:
        return None if drill is None else weigh_hole(self.thread, drill.diameter, drill=drill)

    def _will_do(self, hole: TappingHole) -> bool:
        """Not under the minor diameter, so tight that the tap breaks, or too shallow; a share asked for is obeyed."""
        if hole.diameter < self.thread.minor - PRINTED:
            return False
        if self.is_asked:
            return hole.engagement >= _LEAST
        return SHALLOW <= self.share(hole) <= BREAKS[self.basis]

    def _keep_listed(self, drawers: str) -> TappingHole | None:
        """The handbooks' drill, where it leaves what is wanted and lies in the drawers."""
        listed = None if self.is_asked else list_hole(self.thread)
        if listed is None or listed.source.startswith(_DERIVED):
            return None
        under, _ = find_neighbours(listed.diameter + PRINTED, drawers=drawers)
        owned = under is not None and abs(under.diameter - listed.diameter) <= PRINTED
        return self._weigh(under) if owned and self.holds(listed) else None


def _find_better(aim: _Aim, drawers: str) -> TappingHole | None:
    """The drill that all drawers together hold for it, if it is another and does better."""
    best = None if drawers == "all" else aim.choose("all")
    return best if best and aim.holds(best) else None


def _tell_advice(advice: TappingAdvice, aim: _Aim) -> Iterator[str]:
    yield from _tell_choice(advice, aim)
    yield from tell_hole(advice.thread, advice.advised)
    if advice.advised:
        yield from _tell_enough(advice.advised)
    yield from tell_bases(advice.thread)
    yield from tell_disagreements(advice.thread)


def _tell_choice(advice: TappingAdvice, aim: _Aim) -> Iterator[str]:
    """Say so where no drill of the drawers leaves what is wanted, and which of all drills would."""
    if advice.advised and aim.holds(advice.advised):
        return
    low, high = advice.wanted
    wanted = show_share(low) if low == high else f"{100 * low:.0f} to {show_share(high)}"
    basis = " on the American basis" if aim.basis == "american" else ""
    told = f"None of these drills ({advice.drawers}) leaves {wanted} of thread{basis}"
    if advice.advised is None:
        told += ", nor anything near it that would do"
    left = ", ".join(_tell_left(hole, aim) for hole in (advice.under, advice.over) if hole)
    better = f"; of all drills, {_tell_left(advice.of_all, aim)}" if advice.of_all else ""
    yield f"{told}: {left or 'they end before it'}{better}."
    if advice.advised is None:
        yield f"A hole of {show_mm(advice.ideal)} can also be bored to size, or drilled under and reamed."


def _tell_left(hole: TappingHole, aim: _Aim) -> str:
    """A drill with what it leaves, and what is wrong with that."""
    name = name_drill(hole.drill) if hole.drill else show_mm(hole.diameter)
    if hole.is_under_minor or hole.engagement == 0:
        return f"{name} is {hole.fault}"
    return f"{name} leaves {show_share(aim.share(hole))}{f' ({hole.fault})' if hole.fault else ''}"


def _tell_enough(hole: TappingHole) -> Iterator[str]:
    """Say why what is really left is enough, where it is."""
    if round(hole.really[0], 2) >= ENOUGH:
        yield (
            "Lists reckon the depth of thread on the drill's own size; what is really left is less, and enough: the "
            "thread in a hole shears off round the crests of the screw, where the drill takes nothing, so above 60 to "
            "65 % more depth hardly holds more and only loads the tap (from memory)."
        )


def _cite(
    thread: ThreadRow, listed: TappingHole | None, advised: TappingHole | None, *, aimed: bool
) -> tuple[str, ...]:
    sources = [f"sizes: {thread.source}"]
    sources += [f"listed drill: {listed.source}"] if listed else []
    sources += [f"drill: {advised.source}"] if advised else []
    return (*sources, _TARGET_SOURCE if aimed else _OVERSIZE_SOURCE)
