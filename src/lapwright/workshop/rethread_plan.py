"""What to do about a worn or stripped hole: which way out, why, and the work with drill, tap and screw."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lapwright.errors import DoesNotFit, NotInTable
from lapwright.quantities import show_mm, show_share
from lapwright.tables.inserts import InsertRow, list_inserts
from lapwright.tables.materials import find_metal
from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop import cautions
from lapwright.workshop.drawers import find_neighbours, name_drill
from lapwright.workshop.forms import find_hole
from lapwright.workshop.item import Item
from lapwright.workshop.rethread_steps import (
    BUSH,
    DRILLED,
    FRESH,
    INSERT,
    LUBRICANTS,
    STRAIGHT,
    Work,
    list_items,
    list_steps,
)
from lapwright.workshop.rethreading import (
    WALL_SHARE,
    Rethread,
    describe_rethread,
    find_tapping_drill,
    list_successors,
)
from lapwright.workshop.strength import refuse_pipe_thread, useful_engagement
from lapwright.workshop.tightening import (
    DOUBLED,
    Tightening,
    bare_length,
    find_tightening,
    say_torque,
    thrust_from_torque,
)

if TYPE_CHECKING:
    from lapwright.workshop.bush_solder import BushSeal

#: A drill and its printed size may differ by the last digit [m].
_PRINTED = 3e-6
_CHOOSING = (
    "when to tap out, bush or insert, the steps and what goes on the tap: common practice, no source; half a diameter "
    "of wall: from memory"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A worn or stripped hole: its thread and metal, and what is known of it [m]; None where it is not.

    `wall` is the thinnest metal beside the thread, from its major diameter to the outside; `into_steam` says that the
    hole breaks into a space with steam in it; `temperature` is how hot the part runs [K].
    """

    thread: ThreadRow
    metal: str = "brass"
    depth: float | None = None
    wall: float | None = None
    stripped: bool = False
    into_steam: bool = False
    temperature: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RethreadPlan:
    """The way out that was chosen, such as `lapwright.workshop.rethread_steps.BUSH`, and the work.

    `new` is the screw that goes in afterwards; `rethread` what is left of its thread, None for a bush or an insert.
    `torque` [N m] is what it is drawn to, `needed_depth` [m] the thread that this wants.
    """

    choice: str
    title: str
    reasons: tuple[str, ...]
    new: ThreadRow
    rethread: Rethread | None
    drill: float
    drill_name: str
    tap: str
    torque: float
    needed_depth: float
    lubricant: str
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    have_ready: tuple[Item, ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    choice: str
    new: ThreadRow
    reasons: tuple[str, ...]
    rethread: Rethread | None = None
    insert: InsertRow | None = None
    outer: ThreadRow | None = None


def plan_rethread(
    hole: Hole,
    *,
    new: ThreadRow | None = None,
    keep_screw: bool = False,
    torque: float | None = None,
    screw: str = "steel",
    grub: bool = False,
    condition: str = "dry",
    purpose: str = "",
) -> RethreadPlan:
    """Choose the way out for a worn or stripped hole, and lay out the work.

    Parameters
    ----------
    hole: what is known of it
    new: the thread that is wanted; left out, the best of the tables is taken
    keep_screw: whether the old screw has to go in again
    torque: what the screw has to bear [N.m]; left out, what it can be drawn to
    screw: its metal
    grub: whether it is a socket grub screw, which is drawn to its seating torque at most
    condition: of its thread when it is drawn up, as `find_tightening` has it
    purpose: the part it is for, as it stands on a shopping list

    Raises
    ------
    NotOneOf: a metal or a condition that is not known
    DoesNotFit: the new thread is not larger, a length is none, or the torque is more than the screw bears

    Source: common practice, no source; fed-std-h28 (length of thread)
    """
    refuse_pipe_thread(hole.thread)
    hole = replace(hole, metal=find_metal(hole.metal).name)
    way = _choose(hole, new, keep_screw=keep_screw)
    held = find_tightening(
        way.new,
        hole=hole.metal,
        engagement=hole.depth or way.new.major,
        screw=screw,
        grub=grub,
        condition=condition,
        bore=_find_bore(way),
    )
    if torque is None and grub:
        torque = _find_seating(way.new, held)
    _refuse_too_much(torque, held)
    seal = _find_seal(hole, way)
    work = _lay_out(hole, way, held=held, torque=torque, grub=grub)
    work = replace(work, purposes=(purpose,) if purpose else (), seal=seal.seal if seal else "")
    return RethreadPlan(
        choice=way.choice,
        title=_name(hole, way),
        reasons=way.reasons,
        new=way.new,
        rethread=way.rethread,
        drill=_find_drill(way),
        drill_name=work.drill_name,
        tap=work.cut_name,
        torque=work.torque,
        needed_depth=work.needed_depth,
        lubricant=LUBRICANTS[hole.metal],
        steps=list_steps(work),
        cautions=tuple(_list_cautions(hole, way)),
        have_ready=list_items(work),
        notes=tuple(_list_notes(hole, way, work, seal=seal)),
        sources=(way.new.source, *_list_sources(way), *held.sources, *(seal.sources if seal else ()), _CHOOSING),
    )


def _find_seating(row: ThreadRow, held: Tightening) -> float:
    """What a grub screw is seated to [N m]; beyond the table of seating torques, what its threads and key may bear."""
    # The tables of grub screws are read where one is asked for.
    from lapwright.workshop.holding import find_seat

    try:
        return min(held.torque, find_seat(row).torque)
    except NotInTable:
        return held.torque


def _find_seal(hole: Hole, way: _Way) -> BushSeal | None:
    """What a bush goes home on; None where there is no bush."""
    if way.choice != BUSH:
        return None
    # The tables of solders are read where a bush is made.
    from lapwright.workshop.bush_solder import choose_seal

    return choose_seal(hole.metal, _find_drill(way), temperature=hole.temperature, into_steam=hole.into_steam)


def _refuse_too_much(torque: float | None, held: Tightening) -> None:
    # Threads too short for the torque are told with the plan: a hole may be deepened, a screw not strengthened.
    first = next((limit for limit in held.limits if limit.part in ("screw shank", "hex key")), None)
    if torque is not None and first is not None and torque > first.torque * (1 + 1e-9):
        what = f"{say_torque(torque)} is more than {held.row.name} bears here: the {first.part} {first.how}"
        instead = f"draw it to {say_torque(held.torque)}, or take a larger screw"
        raise DoesNotFit(f"{what} at {say_torque(first.torque)}", instead)


def _choose(hole: Hole, new: ThreadRow | None, *, keep_screw: bool) -> _Way:
    asked = None if new is None else _describe(hole, new)
    if hole.into_steam:
        return _keep_thread(hole, "The hole breaks into a steam space: a bush with a solid end closes it.")
    if keep_screw:
        return _keep_thread(hole, "The old screw has to go in again.")
    if asked and asked.wall_allows is not False and not asked.is_poor:
        return _take(asked)
    why = () if asked is None else (_say_poor(asked),)
    ranked = list_successors(hole.thread, stripped=hole.stripped, depth=hole.depth, wall=hole.wall)
    for up in ranked:
        if up.wall_allows is not False and not up.is_poor:
            return _take(up, *why)
    return _keep_thread(hole, *why, "No larger thread of the tables leaves enough wall beside it.")


def _describe(hole: Hole, new: ThreadRow) -> Rethread:
    return describe_rethread(hole.thread, new, stripped=hole.stripped, depth=hole.depth, wall=hole.wall)


def _say_poor(asked: Rethread) -> str:
    if asked.wall_allows is False:
        return f"{asked.new.name} would leave less than half its diameter of wall."
    return f"{asked.new.name} would have only {show_share(asked.counted)} of its thread in the worst place."


def _take(up: Rethread, *why: str) -> _Way:
    if up.cleans_up:
        reason = (
            f"The tapping drill for {up.new.name} is as large as the old thread or larger: nothing of the "
            f"{up.old.name} is left, and the new thread is whole."
        )
        return _Way(choice=DRILLED, new=up.new, rethread=up, reasons=(*why, reason))
    kind = "the worst place" if up.counted == up.worst else "the mean"
    reason = (
        f"{up.new.name} goes straight into the old hole and has {show_share(up.counted)} of its thread, counting on "
        f"{kind}. One size up without drilling is trade practice for the screw of an eccentric (common practice, no "
        "source)."
    )
    return _Way(choice=STRAIGHT, new=up.new, rethread=up, reasons=(*why, reason))


def _keep_thread(hole: Hole, *why: str) -> _Way:
    """Give the hole its old thread back: a wire insert where one is known and fits, or else a bush."""
    old = hole.thread
    insert = None if hole.into_steam else next((row for row in list_inserts() if row.thread == old.name), None)
    if insert and (hole.wall is None or hole.wall - insert.extra_wall >= WALL_SHARE * insert.tap_major):
        return _Way(choice=INSERT, new=old, insert=insert, reasons=(*why, "A wire insert needs the least wall."))
    outer = _find_outer(old)
    if outer is None:
        return _give_up_bush(hole, *why)
    left = _wall_beside(hole, outer)
    if left is not None and left < outer.pitch and not hole.into_steam:
        no_room = f"A bush screwed {outer.name} outside would leave {show_mm(max(0.0, left))} of wall: no room for it."
        return _Way(choice=FRESH, new=old, reasons=(*why, no_room))
    return _Way(choice=BUSH, new=old, outer=outer, reasons=(*why, "A bush gives the old thread back."))


def _give_up_bush(hole: Hole, *why: str) -> _Way:
    """A hole so thick that no thread of the tables goes round a bush for it."""
    thick = f"no thread of the tables is thick enough for the outside of a bush with {hole.thread.name} in it"
    if hole.into_steam:
        raise DoesNotFit(thick, "have the hole bored and a plain bush fitted by somebody who does pressure parts")
    return _Way(choice=FRESH, new=hole.thread, reasons=(*why, f"{thick[:1].upper()}{thick[1:]}."))


def _wall_beside(hole: Hole, outer: ThreadRow) -> float | None:
    return None if hole.wall is None else hole.wall - (outer.major - hole.thread.major) / 2


def _find_outer(old: ThreadRow) -> ThreadRow | None:
    """The thinnest thread for the outside of a bush: its wall is at least one pitch of either thread (from memory)."""
    fit = [
        row
        for row in list_threads()
        if row.series != "BSP" and (row.minor - old.major) / 2 >= max(row.pitch, old.pitch)
    ]
    return min(fit, key=lambda row: (row.major, row.series != old.series), default=None)


def _find_bore(way: _Way) -> float | None:
    """As wide as the hole is between the ridges of the new thread, where the old one has taken of them [m]."""
    up = way.rethread
    if up is None or up.cleans_up:
        return None
    return find_hole(up.new, up.counted)


def _find_drill(way: _Way) -> float:
    if way.insert:
        return way.insert.drill or way.insert.basic_hole
    return find_tapping_drill(way.outer or way.new)


def _name_hole(diameter: float) -> str:
    under, _ = find_neighbours(diameter + _PRINTED)
    named = under if under and abs(under.diameter - diameter) < _PRINTED else None
    return name_drill(named) if named else show_mm(diameter)


def _lay_out(hole: Hole, way: _Way, *, held: Tightening, torque: float | None, grub: bool) -> Work:
    up = way.rethread
    needed = held.needed_engagement
    if torque is not None:
        thrust = thrust_from_torque(torque, way.new.major, coefficient=held.coefficient)
        length = useful_engagement(way.new, held.engagement)
        needed = DOUBLED * bare_length(held.limits, thrust, engagement=length)
    return Work(
        choice=way.choice,
        old=hole.thread,
        new=way.new,
        cut_name=_name_tap(way),
        drill_name=_name_hole(_find_drill(way)),
        inner_drill_name=_name_hole(find_tapping_drill(hole.thread)),
        metal=hole.metal,
        screw=held.screw,
        grub=grub,
        depth=hole.depth,
        needed_depth=needed,
        torque=held.torque if torque is None else torque,
        into_steam=hole.into_steam,
        same_pitch=way.choice == STRAIGHT and bool(up and up.same_pitch),
        clears_crests=bool(up and not up.cleans_up and not hole.stripped and up.tapping_drill < hole.thread.major),
        purposes=(),
        seal="",
    )


def _name_tap(way: _Way) -> str:
    if way.insert:
        return f"insert tap for {way.insert.thread}, {show_mm(way.insert.tap_major)} over its threads"
    return (way.outer or way.new).name


def _list_sources(way: _Way) -> Iterator[str]:
    if way.rethread:
        yield f"tapping drill: {way.rethread.drill_source}"
    if way.insert:
        drill = f"; drill: {way.insert.drill_source}" if way.insert.drill else ""
        yield f"wire insert: {way.insert.source}{drill}"
    if way.outer:
        yield "wall of a bush, at least one pitch of either thread: from memory"


def _name(hole: Hole, way: _Way) -> str:
    old = hole.thread.name
    return {
        STRAIGHT: f"{old} cut to {way.new.name}, straight in",
        DRILLED: f"{old} drilled out and tapped {way.new.name}",
        INSERT: f"{old} kept, with a wire insert",
        BUSH: f"{old} kept, with a {'closed ' if hole.into_steam else ''}bush",
        FRESH: f"a fresh {old} hole",
    }[way.choice]


def _list_cautions(hole: Hole, way: _Way) -> Iterator[str]:
    if hole.into_steam:
        yield cautions.LET_DOWN
    yield cautions.CUTTING
    if hole.into_steam:
        yield cautions.TRYING_UNDER_PRESSURE
    elif way.choice == BUSH:
        yield cautions.FLAME


def _list_notes(hole: Hole, way: _Way, work: Work, *, seal: BushSeal | None) -> Iterator[str]:
    if way.rethread:
        yield from way.rethread.notes
    if hole.depth is not None and hole.depth < work.needed_depth:
        yield (
            f"The hole has {show_mm(hole.depth, 1)} of thread and {say_torque(work.torque)} wants "
            f"{show_mm(work.needed_depth, 1)}: draw it less tight, or go deeper."
        )
    if way.insert and way.insert.drill is None:
        yield "Of this insert neither drill nor tap was found in print: the maker's leaflet comes first."
    if way.outer:
        yield from _tell_bush(hole, way.outer, seal)


def _tell_bush(hole: Hole, outer: ThreadRow, seal: BushSeal | None) -> Iterator[str]:
    left = _wall_beside(hole, outer)
    if left is not None:
        yield f"The bush leaves {show_mm(max(0.0, left))} of wall{'' if left >= outer.pitch else ': too little'}."
    if seal:
        yield from seal.notes
    if not hole.into_steam:
        yield (
            "In an eccentric or a crank a fresh hole in the old size, a quarter turn round, is often less work (common "
            "practice, no source)."
        )
