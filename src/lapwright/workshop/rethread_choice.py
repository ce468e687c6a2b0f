"""Which way out is taken for a worn or stripped hole: a larger thread, an insert, a bush, or a fresh hole."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.errors import DoesNotFit
from lapwright.quantities import show_mm, show_share
from lapwright.tables.inserts import InsertRow, list_inserts
from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop.forms import find_hole
from lapwright.workshop.rethread_steps import BUSH, DRILLED, FRESH, INSERT, STRAIGHT
from lapwright.workshop.rethreading import (
    WALL_SHARE,
    Rethread,
    describe_rethread,
    find_tapping_drill,
    list_successors,
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
class Way:
    """The way out: the thread of the screw afterwards, why, and what the hole gets besides."""

    choice: str
    new: ThreadRow
    reasons: tuple[str, ...]
    rethread: Rethread | None = None
    insert: InsertRow | None = None
    outer: ThreadRow | None = None


def choose_way(hole: Hole, new: ThreadRow | None, *, keep_screw: bool) -> Way:
    """Choose the way out.

    Parameters
    ----------
    hole: what is known of it
    new: the thread that is wanted, None for the best of the tables
    keep_screw: whether the old screw has to go in again

    Source: common practice, no source
    """
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


def _take(up: Rethread, *why: str) -> Way:
    if up.cleans_up:
        reason = (
            f"The tapping drill for {up.new.name} is as large as the old thread or larger: nothing of the "
            f"{up.old.name} is left, and the new thread is whole."
        )
        return Way(choice=DRILLED, new=up.new, rethread=up, reasons=(*why, reason))
    kind = "the worst place" if up.counted == up.worst else "the mean"
    reason = (
        f"{up.new.name} goes straight into the old hole and has {show_share(up.counted)} of its thread, counting on "
        f"{kind}. One size up without drilling is trade practice for the screw of an eccentric (common practice, no "
        "source)."
    )
    return Way(choice=STRAIGHT, new=up.new, rethread=up, reasons=(*why, reason))


def _keep_thread(hole: Hole, *why: str) -> Way:
    """Give the hole its old thread back: a wire insert where one is known and fits, or else a bush."""
    old = hole.thread
    insert = None if hole.into_steam else next((row for row in list_inserts() if row.thread == old.name), None)
    if insert and (hole.wall is None or hole.wall - insert.extra_wall >= WALL_SHARE * insert.tap_major):
        return Way(choice=INSERT, new=old, insert=insert, reasons=(*why, "A wire insert needs the least wall."))
    outer = _find_outer(old)
    if outer is None:
        return _give_up_bush(hole, *why)
    left = find_wall_beside(hole, outer)
    if left is not None and left < outer.pitch and not hole.into_steam:
        no_room = f"A bush screwed {outer.name} outside would leave {show_mm(max(0.0, left))} of wall: no room for it."
        return Way(choice=FRESH, new=old, reasons=(*why, no_room))
    return Way(choice=BUSH, new=old, outer=outer, reasons=(*why, "A bush gives the old thread back."))


def _give_up_bush(hole: Hole, *why: str) -> Way:
    """A hole so thick that no thread of the tables goes round a bush for it."""
    thick = f"no thread of the tables is thick enough for the outside of a bush with {hole.thread.name} in it"
    if hole.into_steam:
        raise DoesNotFit(thick, "have the hole bored and a plain bush fitted by somebody who does pressure parts")
    return Way(choice=FRESH, new=hole.thread, reasons=(*why, f"{thick[:1].upper()}{thick[1:]}."))


def find_wall_beside(hole: Hole, outer: ThreadRow) -> float | None:
    """Work out the metal that a bush leaves beside it [m]; None where the wall is not known.

    Parameters
    ----------
    hole: what is known of it
    outer: the thread on the outside of the bush

    Source: exact geometry
    """
    return None if hole.wall is None else hole.wall - (outer.major - hole.thread.major) / 2


def _find_outer(old: ThreadRow) -> ThreadRow | None:
    """The thinnest thread for the outside of a bush: its wall is at least one pitch of either thread (from memory)."""
    fit = [
        row
        for row in list_threads()
        if row.series != "BSP" and (row.minor - old.major) / 2 >= max(row.pitch, old.pitch)
    ]
    return min(fit, key=lambda row: (row.major, row.series != old.series), default=None)


def find_bore(way: Way) -> float | None:
    """Return how wide the hole is between the ridges of the new thread [m], where the old one has taken of them.

    Parameters
    ----------
    way: the way out

    Source: exact geometry
    """
    up = way.rethread
    if up is None or up.cleans_up:
        return None
    return find_hole(up.new, up.counted)


def find_drill(way: Way) -> float:
    """Return the drill for the hole [m]: for the screw's thread, the insert's or the bush's.

    Parameters
    ----------
    way: the way out

    Source: common practice, no source (three quarters of the depth where the tables have no drill)
    """
    if way.insert:
        return way.insert.drill or way.insert.basic_hole
    return find_tapping_drill(way.outer or way.new)
