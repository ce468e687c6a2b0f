"""Which help a grub screw gets that does not hold by itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from lapwright.engine.parts import Fastener
from lapwright.workshop.holding import HoldingPlan, HoldingWay
from lapwright.workshop.item import Item, merge_items
from lapwright.workshop.rethreading import find_tapping_drill


def find_way(plan: HoldingPlan) -> HoldingWay:
    """Return the least help that is enough: a flat, a second screw, both, or else a point let into a dimple.

    Parameters
    ----------
    plan: what the screw holds, and what it has to hold
    """
    return next((way for way in plan.ways if way.enough), plan.ways[-1])


def list_steps(plan: HoldingPlan, way: HoldingWay, *, start: str = "") -> Iterator[str]:
    """Yield the work of holding: nothing is run before all else on the card is done.

    Parameters
    ----------
    plan: what the screw holds, and what it has to hold
    way: the help that it gets
    start: what is done first, where that is another thing than setting the part to its place

    Source: common practice, no source
    """
    first, *between, _ = plan.steps
    yield start or first
    if "two screws" in way.name:
        yield f"Drill and tap a second {plan.grip.clamp.row.name} hole, a quarter of a turn round from the first."
    yield from between
    yield (
        "When every job on this card is done: turn the engine over by hand, run it for some minutes, stop it, and try "
        "the screw and the scribed line again."
    )


def list_items(plan: HoldingPlan, way: HoldingWay) -> tuple[Item, ...]:
    """Return what the help wants: a dimple another point and a drill, a second screw its hole.

    Parameters
    ----------
    plan: what the screw holds, and what it has to hold
    way: the help that it gets
    """
    items = [item for item in plan.have_ready if "file" not in item.name or "flat" in way.name]
    clamp, use = plan.grip.clamp, plan.have_ready[0].purposes
    if way.torque is None:
        items = [replace(item, name=item.name.replace(f"{clamp.point} point", "cone point")) for item in items]
        items.append(Item("drills", "centre drill for the dimple, no wider than the point", purposes=use))
    if "two screws" in way.name:
        items = [replace(item, count=2) if item.shelf == "screws" else item for item in items]
        drill = find_tapping_drill(clamp.row)
        items.append(Item("drills", f"{1e3 * drill:g} mm drill", purposes=use))
        items.append(Item("taps and dies", f"{clamp.row.name} taps, taper and plug", purposes=use))
    return merge_items(items)


def list_notes(way: HoldingWay) -> tuple[str, ...]:
    """Return what a person should know of a way of holding besides."""
    if way.torque is not None:
        return ()
    return (
        "What a point in a dimple bears is not worked out here. What drives by it, a crank above all, is better held "
        "by a taper pin or a key.",
    )


def scribe_place(fastener: Fastener) -> tuple[str, ...]:
    """What comes before a screw is slackened that holds an eccentric.

    Parameters
    ----------
    fastener: the screw
    """
    if fastener.holds != "eccentric":
        return ()
    return (
        "Before the screw is touched, scribe a line across eccentric and shaft and measure the eccentric's angle from "
        "the crank: where it stands now is the only witness of how it was set.",
    )
