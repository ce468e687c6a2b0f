"""How tight a screw may be drawn, and what a grub screw holds: texts in, answer out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from lapwright.errors import OutOfRange
from lapwright.quantities import Quantity, read_length, read_torque, show_mm
from lapwright.tables.materials import find_metal
from lapwright.tables.naming import find_thread
from lapwright.tables.threads import ThreadRow
from lapwright.workshop.breaking import Breaking, find_breaking
from lapwright.workshop.cautions import LET_DOWN, TRYING_UNDER_PRESSURE
from lapwright.workshop.holding import SUITS, Clamp, Grip, HoldingPlan, measure_grip, plan_holding
from lapwright.workshop.screws import COEFFICIENTS
from lapwright.workshop.tightening import Limit, Tightening, find_tightening

#: What goes with a screw that is drawn tight.
CAUTIONS: Final = (f"A stud or a cover screw may hold pressure. {LET_DOWN}", TRYING_UNDER_PRESSURE)
#: More thread than so many diameters is a slip of the pen.
_LONGEST: Final = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class TorqueAsked:
    """What was asked of a screw, as it was written; None where nothing was."""

    thread: str
    screw: str = "steel"
    hole: str = "brass"
    engagement: str | None = None
    condition: str = "dry"
    worn: bool = False
    grub: bool = False
    slotted: bool = False
    point: str = "cup"
    shaft: str | None = None
    hold: str | None = None
    load: str = "reversing"


@dataclass(frozen=True, slots=True, kw_only=True)
class TorqueAnswer:
    """A screw's tightening, or a grub screw's grip with, where a torque was given, the plan to hold it.

    Either `tightening` or `grip` is there, never both, and `breaking` goes with the first; `others` are torques [N m]
    for other conditions of the thread.
    """

    row: ThreadRow
    tightening: Tightening | None
    breaking: Breaking | None
    others: tuple[tuple[str, float], ...]
    grip: Grip | None
    plan: HoldingPlan | None
    notes: tuple[str, ...]
    sources: tuple[str, ...]


def answer_torque(asked: TorqueAsked) -> TorqueAnswer:
    """Tell how tight a screw may be drawn, or what a grub screw holds.

    Parameters
    ----------
    asked: as it was written; a shaft or a torque to hold makes it a grub screw

    Raises
    ------
    BadInput: something cannot be read, is not in the tables or cannot be; the sentence says what can
    """
    row = find_thread(asked.thread)
    hole = find_metal(asked.hole).name
    engagement, assumed = _read_engagement(asked, row)
    if asked.grub or asked.slotted or asked.shaft is not None or asked.hold is not None:
        return _answer_grub(asked, row, hole=hole, engagement=engagement, assumed=assumed)
    held = find_tightening(
        row, hole=hole, engagement=engagement, screw=asked.screw, condition=asked.condition, worn=asked.worn
    )
    others = tuple(
        (condition, held.torque * COEFFICIENTS[condition] / held.coefficient)
        for condition in ("dry", "oiled")
        if condition != asked.condition
    )
    breaking = find_breaking(held)
    return TorqueAnswer(
        row=row,
        tightening=held,
        breaking=breaking,
        others=others,
        grip=None,
        plan=None,
        notes=(*assumed, *held.notes),
        sources=(row.source, *held.sources, *breaking.sources),
    )


def _answer_grub(
    asked: TorqueAsked, row: ThreadRow, *, hole: str, engagement: float, assumed: tuple[str, ...]
) -> TorqueAnswer:
    if asked.shaft is None:
        shaft = row.major / SUITS
        assumed = (*assumed, f"The shaft is not given: taken as twice the screw, {show_mm(shaft)}.")
    else:
        shaft = _read_more_than_nothing(read_length(asked.shaft), '"5 mm"')
    clamp = Clamp(
        row=row,
        hub=hole,
        shaft=shaft,
        engagement=engagement,
        point=asked.point,
        slotted=asked.slotted,
        worn=asked.worn,
    )
    if asked.hold is None:
        plan, grip = None, measure_grip(clamp)
    else:
        torque = _read_more_than_nothing(read_torque(asked.hold), '"0.05 N m"')
        plan = plan_holding(clamp, torque=torque, load=asked.load)
        grip = plan.grip
    told = plan or grip
    return TorqueAnswer(
        row=row,
        tightening=None,
        breaking=None,
        others=(),
        grip=grip,
        plan=plan,
        notes=(*assumed, *told.notes),
        sources=(row.source, *told.sources),
    )


def _read_engagement(asked: TorqueAsked, row: ThreadRow) -> tuple[float, tuple[str, ...]]:
    if asked.engagement is None:
        return row.major, (
            f"How much thread is in the hole is not given: taken as one diameter, {show_mm(row.major)}.",
        )
    read = read_length(asked.engagement)
    engagement = _read_more_than_nothing(read, '"4 mm"')
    if engagement > _LONGEST * row.major:
        limit = f"{_LONGEST} diameters of {row.name}, {show_mm(_LONGEST * row.major, 0)}"
        raise OutOfRange(read.shown, f"is more thread than {limit}", 'check the figure and its unit, like "4 mm"')
    return engagement, ()


def _read_more_than_nothing(read: Quantity, example: str) -> float:
    if read.value <= 0:
        raise OutOfRange(read.shown, "is not more than nothing", f"write it like {example}")
    return read.si


def list_torque(answer: TorqueAnswer) -> dict[str, Any]:
    """Return an answer as plain lists and dictionaries: `lapwright torque --json`."""
    told = {
        "format": 1,
        "thread": answer.row.name,
        "kind": "screw" if answer.tightening else "grub screw",
        **(_list_tightening(answer, answer.tightening) if answer.tightening else {}),
        **(_list_grip(answer.grip) if answer.grip else {}),
        **(_list_plan(answer.plan) if answer.plan else {}),
    }
    return {**told, "notes": list(answer.notes), "sources": list(dict.fromkeys(answer.sources))}


def _list_tightening(answer: TorqueAnswer, held: Tightening) -> dict[str, Any]:
    breaking = answer.breaking
    return {
        "screw": held.screw,
        "hole": held.hole,
        "engagement_mm": _in_mm(held.engagement),
        "thread_is": held.condition,
        "worn": held.worn,
        "coefficient": held.coefficient,
        "torque_nm": _round(held.torque),
        "thrust_n": _round(held.thrust),
        "torque_if_nm": {condition: _round(torque) for condition, torque in answer.others},
        **_list_limits(held.limits),
        "bare_engagement_mm": _in_mm(held.bare_engagement),
        "needed_engagement_mm": _in_mm(held.needed_engagement),
        "breaking_engagement_mm": _in_mm(breaking.length) if breaking and breaking.is_reached else None,
        "published_nm": None if held.published is None else list(held.published),
    }


def _list_limits(limits: tuple[Limit, ...]) -> dict[str, Any]:
    """What gives way if it is drawn tighter and tighter, first what goes first."""
    return {
        "gives_way_first": limits[0].part,
        "limits": [
            {
                "part": limit.part,
                "how": limit.how,
                "torque_nm": _round(limit.torque),
                "breaks_nm": None if limit.breaks is None else _round(limit.breaks),
                "thrust_n": _round(limit.thrust),
                "safe_torque_nm": _round(limit.safe),
            }
            for limit in limits
        ],
    }


def _list_grip(grip: Grip) -> dict[str, Any]:
    return {
        **_list_limits(grip.limits),
        "hole": grip.clamp.hub,
        "engagement_mm": _in_mm(grip.clamp.engagement),
        "shaft_mm": _in_mm(grip.clamp.shaft),
        "point": grip.clamp.point,
        "slotted": grip.clamp.slotted,
        "worn": grip.clamp.worn,
        "torque_nm": _round(grip.seating),
        "limited_by": grip.limit,
        "full_seating_torque_nm": _round(grip.seat.torque),
        "stainless_seating_torque_nm": None if grip.seat.stainless is None else _round(grip.seat.stainless),
        "test_torque_nm": None if grip.seat.test is None else _round(grip.seat.test),
        "thrust_n": _round(grip.thrust),
        "axial_hold_n": _round(grip.axial),
        "holds_nm": _round(grip.holds),
        "estimated": grip.seat.estimated,
    }


def _list_plan(plan: HoldingPlan) -> dict[str, Any]:
    return {
        "to_hold_nm": _round(plan.torque),
        "factor": plan.factor,
        "needed_nm": _round(plan.needed),
        "needed_force_n": _round(plan.needed_force),
        "enough": plan.enough,
        "ways": [
            {"way": way.name, "holds_nm": None if way.torque is None else _round(way.torque), "enough": way.enough}
            for way in plan.ways
        ],
        "larger_screw": None if plan.larger is None else plan.larger.name,
        "steps": list(plan.steps),
        "cautions": list(plan.cautions),
        "have_ready": list(_list_ready(plan)),
    }


def _list_ready(plan: HoldingPlan) -> Iterator[dict[str, Any]]:
    for item in plan.have_ready:
        yield {"shelf": item.shelf, "name": item.name, "count": item.count, "amount": item.amount}


def _in_mm(metres: float) -> float:
    return round(1e3 * metres, 4)


def _round(value: float) -> float:
    """Four figures: no screw is known better."""
    return float(f"{value:.4g}")
