"""A cover is put on anew: fresh studs where they were stretched, a fresh joint, each drawn to what the joint asks."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts.thread import find_fastener
from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.findings.finding import Finding
from lapwright.findings.parts.cover_studs import describe_cover, list_taken
from lapwright.findings.parts.names import name_fasteners
from lapwright.workshop.cover_plan import plan_cover


def cure(finding: Finding, engine: Engine, loads: Mapping[str, PartLoads]) -> PartCure | None:
    """Put on the cover that a finding names.

    Parameters
    ----------
    finding: what was found
    engine: whose cover it is
    loads: what each cylinder's parts have to bear
    """
    fastener = find_fastener(finding, engine)
    wish = describe_cover(fastener, engine, loads)
    if wish is None:
        return None
    plan = plan_cover(wish)
    figures = plan.figures
    return PartCure(
        code="draw-up-cover",
        cylinder=fastener.cylinder,
        part=fastener.name,
        title=f"Put the cover on anew and draw the {name_fasteners(fastener)[0]} up evenly",
        answers=(finding.code,),
        work="an evening",
        steps=plan.steps,
        set={
            "torque_nm": figures.torque,
            "most_torque_nm": figures.most_torque,
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
