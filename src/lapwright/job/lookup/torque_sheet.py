"""How tight a screw may be drawn, or what a grub screw holds, laid out as a sheet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lapwright.job.lookup.sheet import Row, Sheet
from lapwright.job.lookup.tightening_words import show_tightening
from lapwright.job.lookup.torque_answer import CAUTIONS, TorqueAnswer
from lapwright.quantities import show_mm, show_number
from lapwright.workshop.thread_depth import tell_usual_length

if TYPE_CHECKING:
    from lapwright.workshop.breaking import Breaking
    from lapwright.workshop.holding import Grip, HoldingPlan
    from lapwright.workshop.tightening import Limit, Tightening


def lay_torque(answer: TorqueAnswer) -> Sheet:
    """Lay out a screw, or a grub screw.

    Parameters
    ----------
    answer: what is shown
    """
    plan, grip, held = answer.plan, answer.grip, answer.tightening
    rows = (*_list_grip(grip, plan),) if grip else (*_list_tightening(answer, held),) if held else ()
    return Sheet(
        title=_write_title(answer),
        rows=rows,
        steps=plan.steps if plan else (),
        notes=answer.notes,
        cautions=plan.cautions if plan else CAUTIONS if held else (),
        sources=answer.sources,
    )


def _write_title(answer: TorqueAnswer) -> str:
    if answer.grip:
        clamp = answer.grip.clamp
        kind = "slotted" if clamp.slotted else "socket"
        return f"{answer.row.name} {kind} grub screw, {clamp.point} point, in {clamp.hub}"
    held = answer.tightening
    worn = ", worn thread" if held and held.worn else ""
    return f"{answer.row.name} {held.screw} screw in {held.hole}{worn}" if held else answer.row.name


def _list_tightening(answer: TorqueAnswer, held: Tightening) -> Iterator[Row]:
    yield "Tighten to", f"{show_tightening(held.torque)}, thread {held.condition}"
    for condition, torque in answer.others:
        yield "", f"{show_tightening(torque)} if it is {condition}"
    yield "Then it clamps with", f"{held.thrust:.0f} N"
    if held.published:
        low, high = held.published
        yield "Lists say", f"{low:g} to {high:g} N m for small steel screws, about class 4.8"
    yield from _list_limits(held.limits)
    yield "Thread in the hole", show_mm(held.engagement, 1)
    yield (
        "It wants",
        (
            f"{show_mm(held.needed_engagement, 1)} for all that the screw bears: twice the "
            f"{show_mm(held.bare_engagement, 1)} that would just do"
            f"{tell_usual_length(held.row, held.hole, needed=held.needed_engagement)}"
        ),
    )
    if answer.breaking:
        yield "Screw breaks first", _tell_breaking(answer.breaking)


def _tell_breaking(breaking: Breaking) -> str:
    if breaking.is_reached:
        return f"from {show_mm(breaking.length, 1)} of thread on; with less the threads strip"
    return f"never: past {show_mm(breaking.counted, 1)} no more thread is counted, and the threads strip"


def _list_limits(limits: tuple[Limit, ...]) -> Iterator[Row]:
    for number, limit in enumerate(limits):
        label = ("Gives way first", "then")[number] if number < 2 else ""
        breaks = "" if limit.breaks is None else f", breaks at {show_tightening(limit.breaks)}"
        yield label, f"the {limit.part} {limit.how} at {show_tightening(limit.torque)}{breaks}"


def _list_grip(grip: Grip, plan: HoldingPlan | None) -> Iterator[Row]:
    if plan:
        yield "Enough?", _write_verdict(plan)
    why = _LIMITS[grip.limit].format(hub=grip.clamp.hub)
    yield "Seat it to", f"{show_tightening(grip.seating)}, {why}"
    if grip.limit != "screw":
        yield "", f"in a steel hub it would take {show_tightening(grip.seat.torque)}"
    if grip.seat.stainless is not None:
        yield "", f"a stainless one is seated to {show_tightening(grip.seat.stainless)} at most"
    yield from _list_limits(grip.limits)
    yield "Seated, it presses with", f"{grip.thrust:.0f} N"
    yield "It holds", f"{show_tightening(grip.holds)} round a shaft of {show_mm(grip.clamp.shaft)}"
    yield "", f"{grip.axial:.0f} N along it"
    if plan:
        yield "It has to hold", f"{show_tightening(plan.torque)}, times {plan.factor:g}: {show_tightening(plan.needed)}"
        for number, way in enumerate(plan.ways):
            if way.torque is not None:
                verdict = "enough" if way.enough else "not enough"
                yield "Ways" if number == 0 else "", f"{way.name}: {show_tightening(way.torque)}, {verdict}"
            else:
                yield "", f"{way.name}: cannot slip, only slacken"
        if plan.larger:
            yield "Larger screw", f"{plan.larger.name} would be enough"
        elif not plan.enough:
            yield "Larger screw", "none of its kind that suits the shaft would be enough"
        for number, item in enumerate(plan.have_ready):
            yield "Have ready" if number == 0 else "", item.name


#: What forbids seating it harder.
_LIMITS = {
    "screw": "its full seating torque",
    "hole thread": "half of what strips the thread in the {hub}",
    "screw thread": "half of what strips its own thread",
    "hex key": "where the hex key begins to twist",
}


def _write_verdict(plan: HoldingPlan) -> str:
    over = plan.grip.holds / plan.torque
    verdict = "yes" if plan.enough else "no"
    return (
        f"{verdict}: it holds {show_number(over, 1 if over < 9.95 else 0)} times the torque, {plan.factor:g} times is "
        "wanted"
    )
