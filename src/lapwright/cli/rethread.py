"""`lapwright rethread`: what a worn or stripped hole can be cut to, what that leaves, and the work."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson, HoleMetal, IsGrub, ScrewMetal

if TYPE_CHECKING:
    from lapwright.job.rethread_answer import RethreadAnswer
    from lapwright.workshop.rethread_plan import RethreadPlan
    from lapwright.workshop.rethreading import Rethread

#: How many sizes of each kind are told on a sheet.
_MOST = 6


def run(  # noqa: PLR0913 - a command has as many arguments as it has options
    old: Annotated[str, typer.Argument(help='The thread in the hole: 4BA, M4, "1/4 x 40".', metavar="FROM")],
    new: Annotated[
        str | None, typer.Argument(help="The larger thread it is cut to; left out, all that would do.", metavar="TO")
    ] = None,
    *,
    depth: Annotated[
        str | None, typer.Option(help='How much thread the hole has, like "5 mm".', metavar="LENGTH")
    ] = None,
    wall: Annotated[
        str | None,
        typer.Option(help='The thinnest metal beside the old thread, like "3 mm".', metavar="LENGTH"),
    ] = None,
    metal: HoleMetal = "brass",
    stripped: Annotated[
        bool, typer.Option("--stripped/--worn", help="Whether the old thread is gone altogether, or only worn.")
    ] = False,
    into_steam: Annotated[
        bool, typer.Option("--into-steam", help="The hole breaks into a space with steam in it.")
    ] = False,
    keep_screw: Annotated[bool, typer.Option("--keep-screw", help="The old screw has to go in again.")] = False,
    temperature: Annotated[
        str | None,
        typer.Option(help='How hot the part runs, like "150 degC": which solder stands it.', metavar="TEMPERATURE"),
    ] = None,
    screw: ScrewMetal = "steel",
    grub: IsGrub = False,
    torque: Annotated[
        str | None, typer.Option(help='What the screw is drawn to, like "0.5 N m"; or all it bears.', metavar="TORQUE")
    ] = None,
    json: AsJson = False,
) -> None:
    """Tell which larger threads a worn hole can be cut to, what each leaves, and how it is done."""
    from lapwright.job.rethread_answer import RethreadAsked, answer_rethread, list_rethread

    asked = RethreadAsked(
        old=old,
        new=new,
        metal=metal,
        depth=depth,
        wall=wall,
        stripped=stripped,
        into_steam=into_steam,
        temperature=temperature,
        keep_screw=keep_screw,
        screw=screw,
        grub=grub,
        torque=torque,
    )
    answer = answer_rethread(asked)
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_rethread(answer))
        return
    print(write_rethread(answer))


def write_rethread(answer: RethreadAnswer) -> str:
    """Return the sheet of a hole."""
    from lapwright.cli.sheet import write_sheet

    plan, up = answer.plan, answer.rethread
    state = "stripped" if answer.hole.stripped else "worn"
    title = f"{answer.hole.thread.name} hole, {state}, in {answer.hole.metal}{f', to {up.new.name}' if up else ''}"
    rows = [*(_list_up(up) if up else _list_choices(answer)), *_list_plan(plan, answer.hole.metal)]
    return write_sheet(title, rows, steps=plan.steps, notes=answer.notes, cautions=plan.cautions, sources=plan.sources)


def _list_up(up: Rethread) -> Iterator[tuple[str, str]]:
    from lapwright.quantities import show_mm, show_share

    drilled = show_share(up.drilled_worst)
    if up.cleans_up:
        drilled += " of the thread; to drill first is the only way"
    else:
        straight = f"{show_share(up.worst)} of the thread in the worst place"
        yield "Tapped straight in", straight if up.stripped else f"{straight}, {show_share(up.mean)} on the mean"
    if not up.cleans_up and not up.stripped:
        drilled += f" in the worst place, {show_share(up.drilled_mean)} on the mean"
    yield f"Drilled {show_mm(up.tapping_drill)} first", drilled
    yield "Cleans up", _write_cleaning(up)
    if up.beat is not None and not up.stripped and not up.cleans_up:
        yield "One beat of the pitches", show_mm(up.beat, 1)
    if up.wall_left is not None:
        yield "Wall left", f"{show_mm(up.wall_left)}, {'enough' if up.wall_allows else 'too little'}"


def _write_cleaning(up: Rethread) -> str:
    from lapwright.quantities import show_mm

    drill, major = f"{show_mm(up.tapping_drill)}{_mark(up)}", show_mm(up.old.major)
    if up.cleans_up:
        return f"yes: the drill, {drill}, takes away the old thread, {major}"
    return f"no: the drill, {drill}, is smaller than the old thread, {major}"


def _list_choices(answer: RethreadAnswer) -> Iterator[tuple[str, str]]:
    cleaning = [up for up in answer.choices if up.cleans_up]
    straight = [up for up in answer.choices if not up.cleans_up]
    for label, ups in (("Cleans up", cleaning), ("Straight in, no drill", straight)):
        for number, up in enumerate(ups[:_MOST]):
            yield label if number == 0 else "", _write_choice(up)
        if len(ups) > _MOST:
            yield "", f"and {len(ups) - _MOST} more: --json lists them all"


def _write_choice(up: Rethread) -> str:
    from lapwright.quantities import show_mm, show_share

    size = f"{up.new.name} ({show_mm(up.new.major)})"
    if up.cleans_up:
        told = f"{size}: drill {show_mm(up.tapping_drill)}{_mark(up)}, {show_share(up.drilled_worst)} of the thread"
    else:
        told = f"{size}: worst {show_share(up.worst)}{'' if up.stripped else f', mean {show_share(up.mean)}'}"
        told += ", poor" if up.is_poor else ""
    return f"{told}; too little wall" if up.wall_allows is False else told


def _mark(up: Rethread) -> str:
    """A drill that was recalled says so beside its figure."""
    return " (from memory)" if up.drill_from_memory else ""


def _list_plan(plan: RethreadPlan, metal: str) -> Iterator[tuple[str, str]]:
    from lapwright.job.tightening_words import show_tightening, tell_usual_length
    from lapwright.quantities import show_mm

    yield "So", plan.title
    for number, reason in enumerate(plan.reasons):
        yield "Because" if number == 0 else "", reason
    if plan.choice != "straight in":
        exact = "" if plan.drill_name.endswith("mm") else f" ({show_mm(plan.drill)})"
        mark = _mark(plan.rethread) if plan.rethread else ""
        yield "Drill", f"{plan.drill_name}{exact}{mark}"
    yield "Tap", plan.tap
    yield "On the tap", plan.lubricant
    yield "Draw the screw to", f"{show_tightening(plan.torque)}, thread dry"
    usual = tell_usual_length(plan.new, metal, needed=plan.needed_depth)
    yield "That wants", f"{show_mm(plan.needed_depth, 1)} of thread{usual}"
    for number, item in enumerate(plan.have_ready):
        yield "Have ready" if number == 0 else "", item.name
