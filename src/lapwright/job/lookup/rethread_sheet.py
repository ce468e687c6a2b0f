"""What a worn or stripped hole can be cut to, what that leaves, and the work, laid out as a sheet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lapwright.job.lookup.sheet import Row, Sheet
from lapwright.job.lookup.tightening_words import show_tightening
from lapwright.quantities import show_mm, show_share
from lapwright.workshop.thread_depth import tell_usual_length

if TYPE_CHECKING:
    from lapwright.job.lookup.rethread_answer import RethreadAnswer
    from lapwright.workshop.rethread_plan import RethreadPlan
    from lapwright.workshop.rethreading import Rethread


def lay_rethread(answer: RethreadAnswer, *, most: int | None = None, rest: str = "") -> Sheet:
    """Lay out a hole.

    Parameters
    ----------
    answer: what is shown
    most: how many threads of each kind are told [-]; None for all
    rest: where the others are told
    """
    plan, up = answer.plan, answer.rethread
    state = "stripped" if answer.hole.stripped else "worn"
    told = _list_up(up) if up else _list_choices(answer, most, rest)
    return Sheet(
        title=f"{answer.hole.thread.name} hole, {state}, in {answer.hole.metal}{f', to {up.new.name}' if up else ''}",
        rows=(*told, *_list_plan(plan, answer.hole.metal)),
        steps=plan.steps,
        notes=answer.notes,
        cautions=plan.cautions,
        sources=plan.sources,
    )


def _list_up(up: Rethread) -> Iterator[Row]:
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
    drill, major = f"{show_mm(up.tapping_drill)}{_mark(up)}", show_mm(up.old.major)
    if up.cleans_up:
        return f"yes: the drill, {drill}, takes away the old thread, {major}"
    return f"no: the drill, {drill}, is smaller than the old thread, {major}"


def _list_choices(answer: RethreadAnswer, most: int | None, rest: str) -> Iterator[Row]:
    cleaning = [up for up in answer.choices if up.cleans_up]
    straight = [up for up in answer.choices if not up.cleans_up]
    for label, ups in (("Cleans up", cleaning), ("Straight in, no drill", straight)):
        for number, up in enumerate(ups[:most]):
            yield label if number == 0 else "", _write_choice(up)
        if most is not None and len(ups) > most:
            yield "", f"and {len(ups) - most} more: {rest}"


def _write_choice(up: Rethread) -> str:
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


def _list_plan(plan: RethreadPlan, metal: str) -> Iterator[Row]:
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
