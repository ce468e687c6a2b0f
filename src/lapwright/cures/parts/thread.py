"""A worn or stripped hole is given a thread that holds."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import partial
from math import floor

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts.cover_off import CoverOff, list_cover_items, list_cover_steps, say_load, take_off
from lapwright.cures.parts.ways import find_way, list_items, list_notes, list_steps, scribe_place
from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.engine.sizes import Assumed
from lapwright.errors import BadInput
from lapwright.findings.finding import Finding
from lapwright.findings.parts.holding_screw import list_load_taken, plan_hold
from lapwright.findings.parts.taking import NO_SOURCE, list_missing
from lapwright.findings.parts.worn_thread import VITAL
from lapwright.tables.materials import find_metal
from lapwright.tables.naming import find_thread
from lapwright.tables.threads import list_threads
from lapwright.workshop.cautions import LET_DOWN, TRYING_UNDER_PRESSURE
from lapwright.workshop.holding import HoldingPlan
from lapwright.workshop.item import Item, merge_items
from lapwright.workshop.rethread_choice import Hole
from lapwright.workshop.rethread_plan import RethreadPlan, plan_rethread
from lapwright.workshop.rethread_steps import BUSH, DRILLED, FRESH, INSERT, STRAIGHT
from lapwright.workshop.rethreading import describe_rethread
from lapwright.workshop.strength import usual_engagement
from lapwright.workshop.thread_depth import is_usual_longer
from lapwright.workshop.tightening import say_torque

#: The hole's metal where nobody gave it.
_METAL = "brass"
#: How many of the next larger threads are told of beside the one that is taken.
_NEXT = 2
#: No shorter grub screw is made [m].
_SHORTEST = 1e-3


def cure(finding: Finding, engine: Engine, loads: Mapping[str, PartLoads]) -> PartCure | None:
    """Re-thread the hole that a finding names; None where its thread is not known.

    Parameters
    ----------
    finding: what was found
    engine: whose screw it is
    loads: what each cylinder's parts have to bear
    """
    fastener = find_fastener(finding, engine)
    if fastener is None or fastener.thread is None:
        return None
    load = loads.get(fastener.cylinder)
    plan_hole = _plan(fastener, temperature=None if load is None or load.fluid != "steam" else load.temperature)
    try:
        plan = plan_hole()
        if _breaks_the_flange(fastener, plan):
            return None
        hold = plan_hold(fastener, engine, loads, thread=plan.new.name) if fastener.holds in VITAL else None
        cover = take_off(replace(fastener, thread=plan.new.name), engine, loads)
        # A screw that presses on a shaft, or clamps a joint, is drawn to what that asks, not to all that it may bear.
        torque = hold.grip.seating if hold else cover.figures.torque if cover else None
        if torque:
            plan = plan_hole(torque=torque)
    except BadInput:
        return None
    told = _put_back(_tell(fastener, plan, hold, code=finding.code), fastener, cover)
    return told if hold is None else replace(told, taken=(*told.taken, *list_load_taken(fastener, engine, loads)))


def _put_back(told: PartCure, fastener: Fastener, cover: CoverOff | None) -> PartCure:
    """A cover was taken off for its holes: it is put back, and says which load its torque comes from."""
    known = {assumed.key for assumed in told.taken}
    return replace(
        told,
        taken=(*told.taken, *(() if cover is None else (new for new in cover.taken if new.key not in known))),
        steps=(*told.steps, *list_cover_steps(cover)),
        notes=(*told.notes, *(() if cover is None else (say_load(cover),))),
        have_ready=merge_items((*told.have_ready, *list_cover_items(fastener, cover))),
    )


def find_new_thread(fastener: Fastener) -> str | None:
    """Return the thread that a worn or stripped hole gets, by its name; None where none can be chosen.

    Parameters
    ----------
    fastener: whose hole it is
    """
    if fastener.thread is None:
        return None
    try:
        plan = _plan(fastener)()
    except BadInput:
        return None
    return None if _breaks_the_flange(fastener, plan) else plan.new.name


def _plan(fastener: Fastener, *, temperature: float | None = None) -> Callable[..., RethreadPlan]:
    hole = Hole(
        thread=find_thread(fastener.thread or ""),
        metal=fastener.hole_material or _METAL,
        depth=fastener.engagement,
        wall=fastener.wall,
        stripped=fastener.state == "stripped",
        temperature=temperature,
    )
    return partial(
        plan_rethread,
        hole,
        kind=fastener.kind,
        count=fastener.count or 1,
        screw=fastener.screw_material or "steel",
        # A grub screw is seated dry, whatever was between the threads before.
        condition="dry" if fastener.kind == "grub screw" else fastener.thread_is or "dry",
        purpose=fastener.name,
    )


def _breaks_the_flange(fastener: Fastener, plan: RethreadPlan) -> bool:
    """A fresh hole beside the old one goes through the joint's face, and takes the cover's hole with it."""
    return fastener.holds in ("cover", "gland") and plan.choice == FRESH


def find_fastener(finding: Finding, engine: Engine) -> Fastener | None:
    """Return the fastener that a finding names; None where it names another part."""
    own = (f for f in engine.fasteners if f.cylinder == finding.cylinder and f.name == finding.part)
    return next(own, None)


def _tell(fastener: Fastener, plan: RethreadPlan, hold: HoldingPlan | None, *, code: str) -> PartCure:
    return PartCure(
        code="rethread",
        cylinder=fastener.cylinder,
        part=fastener.name,
        title=f"{fastener.name[:1].upper()}{fastener.name[1:]}: {plan.title}{_say_help(hold)}",
        answers=(code, *(("screw-will-not-hold",) if hold is not None and hold.enough else ())),
        work="an evening",
        steps=(*scribe_place(fastener), *plan.steps, *_list_holding(fastener, hold)),
        set=dict(_list_figures(fastener, plan, hold)),
        before_you_start=_list_cautions(fastener, plan, hold),
        notes=(*plan.reasons, *_say_others(fastener, plan), *plan.notes, *(() if hold is None else _say_hold(hold))),
        have_ready=_list_items(fastener, plan, hold),
        sources=tuple(dict.fromkeys((*plan.sources, *(() if hold is None else hold.sources)))),
        taken=_list_taken(fastener, hold),
    )


def _say_help(hold: HoldingPlan | None) -> str:
    """What the new screw wants besides, where it does not hold by itself."""
    if hold is None or hold.enough:
        return ""
    return f", and {find_way(hold).name}: by itself it does not hold"


def _list_holding(fastener: Fastener, hold: HoldingPlan | None) -> Iterator[str]:
    if hold is None:
        return
    start = (
        "Set the eccentric as the sheet on setting the valve has it, nip the screw only lightly until both leads have "
        "been measured, and scribe a line across eccentric and shaft: it shows the first slip."
    )
    yield from list_steps(hold, find_way(hold), start=start if fastener.holds == "eccentric" else "")


def _list_cautions(fastener: Fastener, plan: RethreadPlan, hold: HoldingPlan | None) -> tuple[str, ...]:
    """A cover and a gland are opened first and tried afterwards, and what holds on a shaft is run."""
    opened = (LET_DOWN, TRYING_UNDER_PRESSURE) if fastener.holds in ("cover", "gland") else ()
    return tuple(dict.fromkeys((*opened, *plan.cautions, *(hold.cautions if hold else ()))))


def _list_figures(
    fastener: Fastener, plan: RethreadPlan, hold: HoldingPlan | None
) -> Iterator[tuple[str, float | str]]:
    left = plan.rethread
    yield "thread", plan.new.name
    if plan.choice in (INSERT, BUSH):
        # The drill makes room for the insert or the bush, not for the screw's thread.
        yield "opening_drill_mm", plan.drill * 1e3
    elif plan.choice != STRAIGHT:
        yield "tapping_drill_mm", plan.drill * 1e3
    if plan.choice == DRILLED and left is not None:
        yield "engagement_percent", 100 * left.drilled_worst
    elif left is not None:
        yield "worst_engagement_percent", 100 * left.worst
        yield "mean_engagement_percent", 100 * left.mean
    yield "tapped_depth_mm", plan.needed_depth * 1e3
    metal = find_metal(fastener.hole_material or _METAL).name
    if is_usual_longer(plan.new, metal, needed=plan.needed_depth):
        yield "usual_depth_mm", usual_engagement(plan.new, metal) * 1e3
    yield "torque_nm", plan.torque
    if hold is not None:
        yield "held_torque_nm", hold.grip.holds


def _list_taken(fastener: Fastener, hold: HoldingPlan | None) -> tuple[Assumed, ...]:
    usual = {
        "hole_material": (_METAL, f"the usual metal ({NO_SOURCE})"),
        "engagement": ("one diameter of the screw", f"usual ({NO_SOURCE})"),
    }
    if fastener.kind != "grub screw":
        usual["screw_material"] = ("steel", "the usual metal")
    if hold is not None:
        usual["point"] = ("cup", f"the usual point ({NO_SOURCE})")
    return list_missing(fastener, usual)


def _list_items(fastener: Fastener, plan: RethreadPlan, hold: HoldingPlan | None) -> tuple[Item, ...]:
    """Where the screw has to hold, its own list knows point and key; it is as long as the thread in its hole."""
    if hold is None:
        return plan.have_ready
    name, length = plan.new.name, fastener.engagement
    # Screws are sold by half millimetres: none that stands out of its hole.
    long = name if length is None or length < _SHORTEST else f"{name} x {floor(2e3 * length + 1e-6) / 2:g} mm"
    screws = (
        replace(item, name=item.name.replace(name, long, 1)) if item.shelf == "screws" else item
        for item in list_items(hold, find_way(hold))
    )
    return merge_items((*(item for item in plan.have_ready if item.shelf != "screws"), *screws))


def _say_others(fastener: Fastener, plan: RethreadPlan) -> Iterator[str]:
    """What the next larger threads of the same series would have left of themselves."""
    old = plan.rethread.old if plan.rethread else None
    if old is None:
        return
    larger = sorted((row for row in list_threads(old.series) if row.major > old.major), key=lambda row: row.major)
    for up in larger[:_NEXT]:
        if up.name == plan.new.name:
            continue
        left = describe_rethread(
            old, up, stripped=fastener.state == "stripped", depth=fastener.engagement, wall=fastener.wall
        )
        practice = (
            ", trade practice for an eccentric's screw" if up is larger[0] and fastener.holds == "eccentric" else ""
        )
        yield (
            f"{up.name} straight into the old hole{practice}: {100 * left.worst:.0f} % of its thread at the worst, "
            f"{100 * left.mean:.0f} % on the whole."
        )


def _say_hold(hold: HoldingPlan) -> tuple[str, ...]:
    verdict = "that is enough" if hold.enough else "that is not enough"
    return (
        f"Seated to {say_torque(hold.grip.seating)} the new screw holds {say_torque(hold.grip.holds)} at the shaft; "
        f"the run puts {say_torque(hold.torque)} on it, {hold.factor:g} times that is wanted: {verdict}.",
        *list_notes(find_way(hold)),
        *hold.notes,
    )
