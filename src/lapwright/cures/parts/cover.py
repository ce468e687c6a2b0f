"""A cover is put on anew: fresh studs where they were stretched, a fresh joint, each drawn to what the joint asks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts.cover_off import find_wish
from lapwright.cures.parts.thread import find_fastener, find_new_thread
from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.findings.finding import Finding
from lapwright.findings.parts.cover_studs import list_taken
from lapwright.findings.parts.names import name_fasteners
from lapwright.findings.parts.worn_thread import CODE as WORN
from lapwright.workshop.cover_plan import CoverPlan, plan_cover
from lapwright.workshop.item import Item, merge_items


def cure(finding: Finding, engine: Engine, loads: Mapping[str, PartLoads]) -> PartCure | None:
    """Put on the cover that a finding names.

    Parameters
    ----------
    finding: what was found
    engine: whose cover it is
    loads: what each cylinder's parts have to bear
    """
    fastener = find_fastener(finding, engine)
    if fastener is None:
        return None
    if fastener.state in ("worn", "stripped"):
        # The holes are cut anew first, and the cover goes back on the screws that are there then.
        new = find_new_thread(fastener)
        # The screws that go into them are new ones, and listed with that work: how the old ones were drawn is past.
        fastener = fastener if new in (None, fastener.thread) else replace(fastener, thread=new, torque=None)
    wish = find_wish(fastener, engine, loads)
    if wish is None:
        return None
    plan = plan_cover(wish)
    figures = plan.figures
    return PartCure(
        code="draw-up-cover",
        cylinder=fastener.cylinder,
        part=fastener.name,
        title=_name(fastener, plan),
        answers=(finding.code,),
        work="an evening",
        steps=(*_put_in(fastener, finding), *plan.steps),
        set={
            "torque_nm": figures.torque,
            "most_torque_nm": figures.most_torque,
            "gasket": figures.gasket,
            "load_per_stud_n": figures.stud.pull * figures.torque / figures.stud.torque,
            "gasket_outside_mm": wish.joint.outside * 1e3,
            "gasket_bore_mm": wish.joint.bore * 1e3,
        },
        before_you_start=plan.cautions,
        notes=plan.notes,
        have_ready=merge_items((*plan.have_ready, *_list_own(fastener, finding))),
        sources=plan.sources,
        taken=list_taken(fastener, engine, loads),
    )


def _put_in(fastener: Fastener, finding: Finding) -> tuple[str, ...]:
    if finding.code != WORN:
        return ()
    return (
        f"What stands in the holes is not their own: have {fastener.thread} {fastener.kind}s ready, and put them in.",
    )


def _list_own(fastener: Fastener, finding: Finding) -> tuple[Item, ...]:
    if finding.code != WORN:
        return ()
    metal = fastener.screw_material or "steel"
    own = Item("screws", f"{fastener.thread} {fastener.kind}, {metal}", fastener.count or 1, purposes=(fastener.name,))
    nut = Item("screws", f"{fastener.thread} nut", fastener.count or 1, purposes=(fastener.name,))
    return (own, nut) if fastener.kind == "stud" else (own,)


def _name(fastener: Fastener, plan: CoverPlan) -> str:
    found, weak = (
        plan.figures.found,
        "" if plan.figures.is_enough else "; for this joint they are too weak, see the notes",
    )
    if found is not None and found.is_past_proof:
        new = f"{fastener.count} new {fastener.kind}{'s' if (fastener.count or 1) > 1 else ''}"
        return f"Put the cover on anew with {new}, and draw up evenly{weak}"
    return f"Put the cover on anew, and draw the {name_fasteners(fastener)[0]} up evenly{weak}"
