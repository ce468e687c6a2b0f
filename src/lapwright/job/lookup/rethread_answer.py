"""What a worn or stripped hole can be cut to, and the plan for it: texts in, answer out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from lapwright.errors import OutOfRange
from lapwright.quantities import Quantity, read_length, read_temperature, read_torque
from lapwright.tables.materials import find_metal
from lapwright.tables.naming import find_thread
from lapwright.workshop.forms import FORMS
from lapwright.workshop.item import Item
from lapwright.workshop.rethread_choice import Hole
from lapwright.workshop.rethread_plan import RethreadPlan, plan_rethread
from lapwright.workshop.rethreading import Rethread, describe_rethread, list_successors

_BASIS: Final = (
    "Percentages are of the full depth of each form itself. Of metric and Unified threads that is the depth of the "
    "standard's nut, 1.083 x pitch on the diameter; on the American basis, 1.299 x pitch, they would be 5/6 of it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RethreadAsked:
    """What was asked of a hole, as it was written; None where nothing was."""

    old: str
    new: str | None = None
    metal: str = "brass"
    depth: str | None = None
    wall: str | None = None
    stripped: bool = False
    into_steam: bool = False
    temperature: str | None = None
    keep_screw: bool = False
    screw: str = "steel"
    grub: bool = False
    torque: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RethreadAnswer:
    """The thread that was asked for with what it leaves, or else all that would do; and the plan for the hole."""

    hole: Hole
    rethread: Rethread | None
    choices: tuple[Rethread, ...]
    plan: RethreadPlan
    notes: tuple[str, ...]


def answer_rethread(asked: RethreadAsked) -> RethreadAnswer:
    """Tell what a hole can be cut to, and lay out the work.

    Parameters
    ----------
    asked: as it was written

    Raises
    ------
    BadInput: something cannot be read, is not in the tables or cannot be; the sentence says what can
    """
    old = find_thread(asked.old)
    new = None if asked.new is None else find_thread(asked.new)
    hole = Hole(
        thread=old,
        metal=find_metal(asked.metal).name,
        depth=_read_length(asked.depth, '"5 mm"'),
        wall=_read_length(asked.wall, '"3 mm"'),
        stripped=asked.stripped,
        into_steam=asked.into_steam,
        temperature=None if asked.temperature is None else read_temperature(asked.temperature).si,
    )
    torque = None if asked.torque is None else _more_than_nothing(read_torque(asked.torque), '"0.5 N m"')
    kind = "grub screw" if asked.grub else "screw"
    plan = plan_rethread(hole, new=new, keep_screw=asked.keep_screw, torque=torque, screw=asked.screw, kind=kind)
    if new is not None:
        up = describe_rethread(old, new, stripped=hole.stripped, depth=hole.depth, wall=hole.wall)
        return RethreadAnswer(hole=hole, rethread=up, choices=(), plan=plan, notes=_list_notes(plan, (up,)))
    keeps = asked.keep_screw or hole.into_steam
    ups = () if keeps else list_successors(old, stripped=hole.stripped, depth=hole.depth, wall=hole.wall)
    return RethreadAnswer(hole=hole, rethread=None, choices=ups, plan=plan, notes=_list_notes(plan, ups))


def _list_notes(plan: RethreadPlan, told: tuple[Rethread, ...]) -> tuple[str, ...]:
    """The plan's notes, and on which basis percentages are where threads of 60 degrees are among them."""
    basis = (_BASIS,) if any(FORMS[up.new.form].has_american_basis for up in told) else ()
    return (*basis, *plan.notes)


def _read_length(text: str | None, example: str) -> float | None:
    return None if text is None else _more_than_nothing(read_length(text), example)


def _more_than_nothing(read: Quantity, example: str) -> float:
    if read.value <= 0:
        raise OutOfRange(read.shown, "is not more than nothing", f"write it like {example}")
    return read.si


def list_rethread(answer: RethreadAnswer) -> dict[str, Any]:
    """Return an answer as plain lists and dictionaries: `lapwright rethread --json`."""
    told: dict[str, Any] = {"format": 1, "from": answer.hole.thread.name, "percent_basis": "own"}
    if answer.rethread:
        told |= {"to": answer.rethread.new.name, **_list_up(answer.rethread)}
    else:
        told["choices"] = [{"to": up.new.name, **_list_up(up)} for up in answer.choices]
    return {**told, "plan": _list_plan(answer.plan)}


def _list_up(up: Rethread) -> dict[str, Any]:
    return {
        "worst_engagement_percent": _percent(up.worst),
        "mean_engagement_percent": _percent(up.mean),
        "counted_engagement_percent": _percent(up.counted),
        "cleans_up": up.cleans_up,
        "tapping_drill_mm": _in_mm(up.tapping_drill),
        "tapping_drill_source": up.drill_source,
        "drilled_worst_engagement_percent": _percent(up.drilled_worst),
        "drilled_mean_engagement_percent": _percent(up.drilled_mean),
        "beat_mm": None if up.beat is None else _in_mm(up.beat),
        "shorter_than_beat": up.shorter_than_beat,
        "same_pitch": up.same_pitch,
        "wall_left_mm": None if up.wall_left is None else _in_mm(up.wall_left),
        "wall_allows": up.wall_allows,
        "notes": list(up.notes),
    }


def _list_plan(plan: RethreadPlan) -> dict[str, Any]:
    return {
        "choice": plan.choice,
        "title": plan.title,
        "reasons": list(plan.reasons),
        "screw": plan.new.name,
        "drill": plan.drill_name,
        "drill_mm": _in_mm(plan.drill),
        "tap": plan.tap,
        "torque_nm": float(f"{plan.torque:.4g}"),
        "needed_depth_mm": _in_mm(plan.needed_depth),
        "lubricant": plan.lubricant,
        "steps": list(plan.steps),
        "cautions": list(plan.cautions),
        "have_ready": [_list_item(item) for item in plan.have_ready],
        "notes": list(plan.notes),
        "sources": list(dict.fromkeys(plan.sources)),
    }


def _list_item(item: Item) -> dict[str, Any]:
    return {"shelf": item.shelf, "name": item.name, "count": item.count, "amount": item.amount}


def _percent(share: float) -> float:
    return round(100 * share, 1)


def _in_mm(metres: float) -> float:
    return round(1e3 * metres, 4)
