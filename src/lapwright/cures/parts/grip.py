"""A grub screw that does not hold is given help: a flat, a second screw, or a larger one."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts.thread import find_fastener
from lapwright.cures.parts.ways import find_way, list_items, list_notes, list_steps, scribe_place
from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.findings.finding import Finding
from lapwright.findings.parts.holding_screw import list_taken, plan_hold
from lapwright.workshop.holding import HoldingPlan, HoldingWay
from lapwright.workshop.tightening import say_torque


def cure(finding: Finding, engine: Engine, loads: Mapping[str, PartLoads]) -> PartCure | None:
    """Make the screw that a finding names hold; None where it cannot be worked out.

    Parameters
    ----------
    finding: what was found
    engine: whose screw it is
    loads: what each cylinder's parts have to bear
    """
    fastener = find_fastener(finding, engine)
    plan = None if fastener is None else plan_hold(fastener, engine, loads)
    if fastener is None or plan is None:
        return None
    way = find_way(plan)
    figures: dict[str, float | str] = {"seating_torque_nm": plan.grip.seating}
    if way.torque is not None:
        figures["held_torque_nm"] = way.torque
    return PartCure(
        code="secure-screw",
        cylinder=fastener.cylinder,
        part=fastener.name,
        # The plain shaft is enough where the screw was only never drawn to its seat.
        title=f"Make the {fastener.name} hold: {'drawn to its seat ' * (way is plan.ways[0])}{way.name}",
        answers=(finding.code,),
        work="an evening",
        steps=(*scribe_place(fastener), *list_steps(plan, way)),
        set=figures,
        before_you_start=plan.cautions,
        notes=(*(_say_way(way, plan) for way in plan.ways), *_say_larger(plan), *list_notes(way), *plan.notes),
        have_ready=list_items(plan, way),
        sources=plan.sources,
        taken=list_taken(fastener, engine, loads),
    )


def _say_way(way: HoldingWay, plan: HoldingPlan) -> str:
    if way.torque is None:
        return f"{way.name.capitalize()}: holds by its shape, and fixes the angle; settle that first."
    verdict = "enough" if way.enough else f"less than the {say_torque(plan.needed)} that are wanted"
    return f"{way.name.capitalize()}: holds {say_torque(way.torque)}, {verdict}."


def _say_larger(plan: HoldingPlan) -> tuple[str, ...]:
    if plan.larger is None:
        return ()
    return (f"A {plan.larger.name} screw alone would hold; the hub has to be drilled and tapped for it.",)
