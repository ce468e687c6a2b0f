"""What to do about a worn or stripped hole: which way out, why, and the work with drill, tap and screw."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from lapwright.errors import DoesNotFit, NotInTable
from lapwright.quantities import show_mm
from lapwright.tables.materials import find_metal
from lapwright.tables.threads import ThreadRow
from lapwright.workshop import cautions
from lapwright.workshop.drawers import find_neighbours, name_drill
from lapwright.workshop.item import Item
from lapwright.workshop.rethread_choice import Hole, Way, choose_way, find_bore, find_drill, find_wall_beside
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
from lapwright.workshop.rethreading import Rethread, find_tapping_drill
from lapwright.workshop.strength import refuse_pipe_thread
from lapwright.workshop.thread_depth import find_borne_depth, find_least_depth, say_least_depth
from lapwright.workshop.tightening import Tightening, find_tightening, say_torque

if TYPE_CHECKING:
    from lapwright.workshop.bush_solder import BushSeal

#: A drill and its printed size may differ by the last digit [m].
_PRINTED = 3e-6
_CHOOSING = (
    "when to tap out, bush or insert, the steps and what goes on the tap: common practice, no source; half a diameter "
    "of wall: from memory"
)


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


def plan_rethread(
    hole: Hole,
    *,
    new: ThreadRow | None = None,
    keep_screw: bool = False,
    torque: float | None = None,
    screw: str = "steel",
    kind: str = "screw",
    count: int = 1,
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
    kind: "screw", "bolt", "stud", which gets a nut, or "grub screw", which is drawn to its seating torque at most
    count: how many such holes there are [-]
    condition: of its thread when it is drawn up, as `find_tightening` has it
    purpose: the part it is for, as it stands on a shopping list

    Raises
    ------
    NotOneOf: a metal or a condition that is not known
    DoesNotFit: the new thread is not larger, a length is none, or the torque is more than the screw bears

    Source: common practice, no source; fed-std-h28 (length of thread)
    """
    refuse_pipe_thread(hole.thread)
    hole, grub = replace(hole, metal=find_metal(hole.metal).name), kind == "grub screw"
    way = choose_way(hole, new, keep_screw=keep_screw)
    held = find_tightening(
        way.new,
        hole=hole.metal,
        engagement=hole.depth or way.new.major,
        screw=screw,
        grub=grub,
        condition=condition,
        bore=find_bore(way),
    )
    if torque is None and grub:
        torque = _find_seating(way.new, held)
    _refuse_too_much(torque, held)
    seal = _find_seal(hole, way)
    borne = find_borne_depth(held, torque)
    work = replace(
        _lay_out(hole, way, held=held, grub=grub),
        kind="screw" if grub else kind,
        count=count,
        needed_depth=max(borne, find_least_depth(way.new)),
        torque=held.torque if torque is None else torque,
        purposes=(purpose,) if purpose else (),
        seal=seal.seal if seal else "",
    )
    return RethreadPlan(
        choice=way.choice,
        title=_name(hole, way),
        reasons=way.reasons,
        new=way.new,
        rethread=way.rethread,
        drill=find_drill(way),
        drill_name=work.drill_name,
        tap=work.cut_name,
        torque=work.torque,
        needed_depth=work.needed_depth,
        lubricant=LUBRICANTS[hole.metal],
        steps=list_steps(work),
        cautions=tuple(_list_cautions(hole, way)),
        have_ready=list_items(work),
        notes=tuple(_list_notes(hole, way, work, borne=borne, seal=seal)),
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


def _find_seal(hole: Hole, way: Way) -> BushSeal | None:
    """What a bush goes home on; None where there is no bush."""
    if way.choice != BUSH:
        return None
    # The tables of solders are read where a bush is made.
    from lapwright.workshop.bush_solder import choose_seal

    return choose_seal(hole.metal, find_drill(way), temperature=hole.temperature, into_steam=hole.into_steam)


def _refuse_too_much(torque: float | None, held: Tightening) -> None:
    # Threads too short for the torque are told with the plan: a hole may be deepened, a screw not strengthened.
    first = next((limit for limit in held.limits if limit.part in ("screw shank", "hex key")), None)
    if torque is not None and first is not None and torque > first.torque * (1 + 1e-9):
        what = f"{say_torque(torque)} is more than {held.row.name} bears here: the {first.part} {first.how}"
        instead = f"draw it to {say_torque(held.torque)}, or take a larger screw"
        raise DoesNotFit(f"{what} at {say_torque(first.torque)}", instead)


def _name_hole(diameter: float) -> str:
    under, _ = find_neighbours(diameter + _PRINTED)
    named = under if under and abs(under.diameter - diameter) < _PRINTED else None
    return name_drill(named) if named else show_mm(diameter)


def _lay_out(hole: Hole, way: Way, *, held: Tightening, grub: bool) -> Work:
    up = way.rethread
    clears = way.new.clearance.get("medium") if way.new is not hole.thread and not grub else None
    return Work(
        choice=way.choice,
        old=hole.thread,
        new=way.new,
        cut_name=_name_tap(way),
        drill_name=_name_hole(find_drill(way)),
        inner_drill_name=_name_hole(find_tapping_drill(hole.thread)),
        metal=hole.metal,
        screw=held.screw,
        grub=grub,
        kind="screw",
        count=1,
        clearance=clears,
        clearance_name=_name_hole(clears) if clears else "",
        depth=hole.depth,
        needed_depth=held.needed_engagement,
        torque=held.torque,
        into_steam=hole.into_steam,
        same_pitch=way.choice == STRAIGHT and bool(up and up.same_pitch),
        clears_crests=bool(up and not up.cleans_up and not hole.stripped and up.tapping_drill < hole.thread.major),
        purposes=(),
        seal="",
    )


def _name_tap(way: Way) -> str:
    if way.insert:
        return f"insert tap for {way.insert.thread}, {show_mm(way.insert.tap_major)} over its threads"
    return (way.outer or way.new).name


def _list_sources(way: Way) -> Iterator[str]:
    if way.rethread:
        yield f"tapping drill: {way.rethread.drill_source}"
    if way.insert:
        drill = f"; drill: {way.insert.drill_source}" if way.insert.drill else ""
        yield f"wire insert: {way.insert.source}{drill}"
    if way.outer:
        yield "wall of a bush, at least one pitch of either thread: from memory"


def _name(hole: Hole, way: Way) -> str:
    old = hole.thread.name
    return {
        STRAIGHT: f"{old} cut to {way.new.name}, straight in",
        DRILLED: f"{old} drilled out and tapped {way.new.name}",
        INSERT: f"{old} kept, with a wire insert",
        BUSH: f"{old} kept, with a {'closed ' if hole.into_steam else ''}bush",
        FRESH: f"a fresh {old} hole",
    }[way.choice]


def _list_cautions(hole: Hole, way: Way) -> Iterator[str]:
    if hole.into_steam:
        yield cautions.LET_DOWN
    yield cautions.CUTTING
    # A bush is of brass, or drills as brass does.
    if hole.metal == "brass" or way.choice == BUSH:
        yield cautions.SNATCHING
    if hole.into_steam:
        yield cautions.TRYING_UNDER_PRESSURE
    elif way.choice == BUSH:
        yield cautions.FLAME


def _list_notes(hole: Hole, way: Way, work: Work, *, borne: float, seal: BushSeal | None) -> Iterator[str]:
    if way.rethread:
        yield from way.rethread.notes
    least = say_least_depth(way.new, borne)
    if least:
        yield least
    if hole.depth is not None and hole.depth < work.needed_depth:
        wish = "that wants" if least else f"{say_torque(work.torque)} wants"
        yield (
            f"The hole has {show_mm(hole.depth, 1)} of thread and {wish} {show_mm(work.needed_depth, 1)}: "
            f"{'' if least else 'draw it less tight, or '}go deeper."
        )
    if way.insert and way.insert.drill is None:
        yield "Of this insert neither drill nor tap was found in print: the maker's leaflet comes first."
    if way.outer:
        yield from _tell_bush(hole, way.outer, seal)


def _tell_bush(hole: Hole, outer: ThreadRow, seal: BushSeal | None) -> Iterator[str]:
    left = find_wall_beside(hole, outer)
    if left is not None:
        yield f"The bush leaves {show_mm(max(0.0, left))} of wall{'' if left >= outer.pitch else ': too little'}."
    if seal:
        yield from seal.notes
    if not hole.into_steam:
        yield (
            "In an eccentric or a crank a fresh hole in the old size, a quarter turn round, is often less work (common "
            "practice, no source)."
        )
