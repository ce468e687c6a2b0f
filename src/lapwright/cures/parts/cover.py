"""A cover is put on anew: fresh studs where they were stretched, a fresh joint, each drawn to what the joint asks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts.thread import find_fastener
from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.findings.finding import Finding
from lapwright.findings.parts.cover_studs import describe_cover, list_taken
from lapwright.findings.parts.names import name_fasteners
from lapwright.findings.parts.packing_kind import CODE as PACKING
from lapwright.workshop.cover_plan import CoverPlan, plan_cover


def cure(finding: Finding, engine: Engine, loads: Mapping[str, PartLoads]) -> PartCure | None:
    """Put on the cover that a finding names.

    Parameters
    ----------
    finding: what was found
    engine: whose cover it is
    loads: what each cylinder's parts have to bear
    """
    fastener = find_fastener(finding, engine)
    wish = None if fastener is None else describe_cover(fastener, engine, loads)
    if fastener is None or wish is None:
        return None
    if finding.code == PACKING:
        # The sheet that does not last is not put back: what does is chosen.
        wish = replace(wish, gasket=None)
    plan = plan_cover(wish)
    figures = plan.figures
    return PartCure(
        code="draw-up-cover",
        cylinder=fastener.cylinder,
        part=fastener.name,
        title=_name(fastener, plan),
        answers=(finding.code,),
        work="an evening",
        steps=plan.steps,
        set={
            "torque_nm": figures.torque,
            "most_torque_nm": figures.most_torque,
            "gasket": figures.gasket,
            "load_per_stud_n": figures.stud.pull,
            "gasket_outside_mm": wish.joint.outside * 1e3,
            "gasket_bore_mm": wish.joint.bore * 1e3,
        },
        before_you_start=plan.cautions,
        notes=plan.notes,
        have_ready=plan.have_ready,
        sources=plan.sources,
        taken=list_taken(fastener, engine, loads),
    )


def _name(fastener: Fastener, plan: CoverPlan) -> str:
    found = plan.figures.found
    if found is not None and found.is_past_proof:
        return f"Put the cover on anew with {fastener.count} new {fastener.kind}s, and draw them up evenly"
    return f"Put the cover on anew, and draw the {name_fasteners(fastener)[0]} up evenly"
