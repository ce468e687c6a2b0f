"""How a worn or stripped hole is given a sound thread at the bench: the steps in order, and what to have ready.

Source of all of it: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from lapwright.quantities import show_mm
from lapwright.tables.reading import is_from_memory
from lapwright.tables.threads import ThreadRow
from lapwright.workshop.item import Item
from lapwright.workshop.thread_depth import tell_usual_length
from lapwright.workshop.tightening import say_torque

#: What goes on the tap, by the metal of the hole.
LUBRICANTS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "steel": "cutting oil",
        "stainless steel": "heavy cutting oil or tapping paste",
        "brass": "none, or a drop of thin oil",
        "gunmetal": "thin oil",
        "phosphor bronze": "cutting oil",
        "cast iron": "none: iron is tapped dry",
        "aluminium": "paraffin",
        "copper": "tallow or lard oil",
    }
)
#: Metals that pull a drill in where it breaks into an old hole.
_SNATCHES = frozenset({"brass", "gunmetal", "phosphor bronze", "copper"})
#: The ways out.
STRAIGHT, DRILLED, INSERT, BUSH, FRESH = "straight in", "drill and tap out", "insert", "bush", "fresh hole"


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """All sizes of the work: threads, the drill's name, and lengths [m]; `torque` [N m] is what the screw is drawn to.

    `new` is the thread of the screw that goes in afterwards, `cut` the one that the hole itself is tapped with: another
    one only for a bush or an insert. `kind` is what goes in, such as "stud", `count` how many holes there are.
    `clearance` [m] is the hole for it where it passes through another part, None where it does not or none is known,
    and `clearance_name` the drill for that. `depth` is None where it is not known; `seal` is what a bush goes home on.
    """

    choice: str
    old: ThreadRow
    new: ThreadRow
    cut_name: str
    drill_name: str
    inner_drill_name: str
    metal: str
    screw: str
    grub: bool
    kind: str
    count: int
    clearance: float | None
    clearance_name: str
    depth: float | None
    needed_depth: float
    torque: float
    into_steam: bool
    same_pitch: bool
    clears_crests: bool
    purposes: tuple[str, ...]
    seal: str


def list_steps(work: Work) -> tuple[str, ...]:
    """List what is done, in order.

    Parameters
    ----------
    work: the sizes of it
    """
    return (*_LISTS[work.choice](work), _finish(work))


def _straight(work: Work) -> Iterator[str]:
    yield _clean(work)
    if work.clears_crests:
        yield (
            f"If the tap binds, clear the crests of the old thread with a {work.drill_name} drill, and no more: it "
            "takes a little of the mean figure and nothing of the worst."
        )
    yield _tap(work)


def _drilled(work: Work) -> Iterator[str]:
    edge = " Take the keen edge off the drill, or it snatches." if work.metal in _SNATCHES else ""
    yield _clean(work)
    yield (
        f"Open the hole with a {work.drill_name} drill, the part clamped and the drill lined up on the old hole: the "
        f"{work.old.name} thread disappears.{edge}"
    )
    yield _tap(work)


def _insert(work: Work) -> Iterator[str]:
    yield _clean(work)
    yield f"Open the hole with a {work.drill_name} drill and tap it with the {work.cut_name}."
    yield (
        f"Wind in the {work.old.name} wire insert until its end lies a quarter to half a turn under the face, then "
        "break off the tang and take it out."
    )


def _bush(work: Work) -> Iterator[str]:
    yield _clean(work)
    yield (
        f"Open the hole with a {work.drill_name} drill and tap it {work.cut_name}; face it square for the bush's "
        "shoulder."
    )
    yield (
        f"Turn a shouldered bush of brass or gunmetal, screwed {work.cut_name}"
        f"{', its far end left solid so that it closes the steam space' if work.into_steam else ''}; screw it home "
        f"on {work.seal}."
    )
    yield (
        f"When it has set, open the bush with a {work.inner_drill_name} drill and tap it {work.old.name}, square to "
        "the face."
    )


def _fresh(work: Work) -> Iterator[str]:
    yield (
        "Mark out a fresh hole where the metal is whole: in an eccentric or a crank a quarter turn round from the old "
        f"one, at the same distance from the end. Drill it {work.drill_name}."
    )
    yield _tap(work)
    yield f"Close the old hole with a short {work.old.name} screw, cut off and filed flush."


_LISTS: Final[Mapping[str, Callable[[Work], Iterator[str]]]] = MappingProxyType(
    {STRAIGHT: _straight, DRILLED: _drilled, INSERT: _insert, BUSH: _bush, FRESH: _fresh}
)


def _clean(work: Work) -> str:
    several = work.count > 1
    each = f" What follows is done at each of the {work.count} holes." if several else ""
    return (
        f"Take the {work.kind}{'s' if several else ''} out, and the part off if it can be.{each} Clean the old "
        f"{work.old.name} hole, and mark the depth on drill and tap: they must not touch what lies behind it."
    )


def _tap(work: Work) -> str:
    guide = " Hold it in the chuck or a guide block: with equal pitches it drops into the old thread."
    return (
        f"Start the {work.cut_name} taper tap square, try it from two sides after a turn, then half a turn on and a "
        f"quarter back.{guide if work.same_pitch else ''} Finish with the plug tap. On the tap: "
        f"{LUBRICANTS[work.metal]}."
    )


def _finish(work: Work) -> str:
    usual = tell_usual_length(work.new, work.metal, needed=work.needed_depth)
    drawn = "Its nut" if work.kind == "stud" else "It"
    return (
        f"Brush and wash out the chips. The {work.new.name} {work.kind} should go in by the fingers without a shake. "
        f"{drawn} is drawn to {say_torque(work.torque)}. That wants {show_mm(work.needed_depth, 1)} of thread{usual}."
        f"{_clear(work)}"
    )


def _clear(work: Work) -> str:
    if work.clearance is None:
        return ""
    recalled = " (from memory)" if is_from_memory(work.new.clearance_source) else ""
    passes, hole = ("they pass", "each hole") if work.count > 1 else ("it passes", "the hole")
    return f" Where {passes} through another part, open {hole} there to {show_mm(work.clearance)}{recalled}."


def list_items(work: Work) -> tuple[Item, ...]:
    """List what to have ready.

    Parameters
    ----------
    work: the sizes of it
    """
    counts = {"screws": work.count}
    return tuple(
        Item(shelf, name, counts.get(shelf, 1), amount, work.purposes) for shelf, name, amount in _list_things(work)
    )


def _list_things(work: Work) -> Iterator[tuple[str, str, str]]:
    yield "tools", "tap wrench", ""
    if work.choice == INSERT:
        yield "taps and dies", work.cut_name, ""
        yield "tools", f"winding tool for {work.old.name} wire inserts", ""
    else:
        yield "taps and dies", f"{work.cut_name} taps, taper and plug", ""
    if work.choice != STRAIGHT or work.clears_crests:
        yield "drills", f"{work.drill_name} drill", ""
    if work.clearance:
        yield "drills", f"{work.clearance_name} drill, to clear {work.new.name}", ""
    if work.choice == BUSH:
        yield "taps and dies", f"{work.cut_name} die", ""
        yield "taps and dies", f"{work.old.name} taps, taper and plug", ""
        yield "drills", f"{work.inner_drill_name} drill", ""
        yield "metal", "brass or gunmetal bar for a bush", "a short end"
        yield "consumables", work.seal, "a little"
    if work.choice == INSERT:
        yield "screws", f"{work.old.name} wire insert", ""
    elif work.new is not work.old:
        kind = "socket grub screw" if work.grub else f"{work.kind}, {work.screw}"
        yield "screws", f"{work.new.name} {kind}", ""
        if work.kind == "stud":
            yield "screws", f"{work.new.name} nut", ""
    lubricant = LUBRICANTS[work.metal]
    if not lubricant.startswith("none"):
        yield "consumables", lubricant, "a little"
