"""`lapwright torque`: how tight a screw may be drawn, what gives way first, and what a grub screw holds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson, HoleMetal, IsGrub, ScrewMetal

if TYPE_CHECKING:
    from lapwright.job.torque_answer import TorqueAnswer
    from lapwright.workshop.breaking import Breaking
    from lapwright.workshop.holding import Grip, HoldingPlan
    from lapwright.workshop.tightening import Limit, Tightening


def run(  # noqa: PLR0913 - a command has as many arguments as it has options
    thread: Annotated[str, typer.Argument(help='The screw: 4BA, M3, "1/4 x 40", 1/4BSF.', metavar="THREAD")],
    *,
    screw: ScrewMetal = "steel",
    hole: HoleMetal = "brass",
    engagement: Annotated[
        str | None, typer.Option(help='How much thread is in the hole, like "4 mm"; or one diameter.', metavar="LENGTH")
    ] = None,
    thread_is: Annotated[
        str, typer.Option(help="dry, oiled, zinc plated, waxed, molybdenum grease or galvanised.")
    ] = "dry",
    worn: Annotated[
        bool, typer.Option("--worn", help="The thread in the hole is worn: half of it is counted.")
    ] = False,
    grub: IsGrub = False,
    slotted: Annotated[bool, typer.Option("--slotted", help="A grub screw of plain steel with a slot.")] = False,
    point: Annotated[str, typer.Option(help="A grub screw's point: cup, cone, flat, dog or oval.")] = "cup",
    shaft: Annotated[
        str | None, typer.Option(help='The shaft a grub screw stands on, like "5 mm".', metavar="LENGTH")
    ] = None,
    hold: Annotated[
        str | None, typer.Option(help='The torque a grub screw has to hold, like "0.05 N m".', metavar="TORQUE")
    ] = None,
    load: Annotated[str, typer.Option(help="Whether that torque is steady or reversing.")] = "reversing",
    json: AsJson = False,
) -> None:
    """Tell how tight a screw may be drawn and what gives way first, or what a grub screw holds on its shaft."""
    from lapwright.job.torque_answer import TorqueAsked, answer_torque, list_torque

    asked = TorqueAsked(
        thread=thread,
        screw=screw,
        hole=hole,
        engagement=engagement,
        condition=thread_is,
        worn=worn,
        grub=grub,
        slotted=slotted,
        point=point,
        shaft=shaft,
        hold=hold,
        load=load,
    )
    answer = answer_torque(asked)
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_torque(answer))
        return
    print(write_torque(answer))


def write_torque(answer: TorqueAnswer) -> str:
    """Return the sheet of a screw, or of a grub screw."""
    from lapwright.cli.sheet import write_sheet
    from lapwright.job.torque_answer import CAUTIONS

    plan, grip, held = answer.plan, answer.grip, answer.tightening
    rows = [*_list_grip(grip, plan)] if grip else [*_list_tightening(answer, held)] if held else []
    return write_sheet(
        _write_title(answer),
        rows,
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


def _list_tightening(answer: TorqueAnswer, held: Tightening) -> Iterator[tuple[str, str]]:
    from lapwright.job.tightening_words import show_tightening, tell_usual_length
    from lapwright.quantities import show_mm

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
    from lapwright.quantities import show_mm

    if breaking.is_reached:
        return f"from {show_mm(breaking.length, 1)} of thread on; with less the threads strip"
    return f"never: past {show_mm(breaking.counted, 1)} no more thread is counted, and the threads strip"


def _list_limits(limits: tuple[Limit, ...]) -> Iterator[tuple[str, str]]:
    from lapwright.job.tightening_words import show_tightening

    for number, limit in enumerate(limits):
        label = ("Gives way first", "then")[number] if number < 2 else ""
        breaks = "" if limit.breaks is None else f", breaks at {show_tightening(limit.breaks)}"
        yield label, f"the {limit.part} {limit.how} at {show_tightening(limit.torque)}{breaks}"


def _list_grip(grip: Grip, plan: HoldingPlan | None) -> Iterator[tuple[str, str]]:
    from lapwright.job.tightening_words import show_tightening
    from lapwright.quantities import show_mm

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
    from lapwright.quantities import show_number

    over = plan.grip.holds / plan.torque
    verdict = "yes" if plan.enough else "no"
    return (
        f"{verdict}: it holds {show_number(over, 1 if over < 9.95 else 0)} times the torque, {plan.factor:g} times is "
        "wanted"
    )
