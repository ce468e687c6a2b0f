"""Packing a gland, or packing it anew with what lasts there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cures.part_cure import PartCure
from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Gland
from lapwright.engine.sizes import Assumed
from lapwright.errors import BadInput
from lapwright.findings.finding import Finding
from lapwright.findings.parts.names import name_gland, name_glands
from lapwright.findings.parts.stuffing_box import list_unpacked
from lapwright.findings.parts.taking import NO_SOURCE, find_pressure, list_missing, list_run_taken
from lapwright.tables.naming import find_thread
from lapwright.workshop.gland_cutting import cut_rings
from lapwright.workshop.gland_plan import GlandPlan, Nut, plan_gland
from lapwright.workshop.gland_service import settle_service
from lapwright.workshop.gland_steps import EMPTY_ALREADY, EMPTYING
from lapwright.workshop.item import merge_items
from lapwright.workshop.packing_choice import USUAL_CURE


def cure(finding: Finding, engine: Engine, loads: Mapping[str, PartLoads]) -> PartCure | None:
    """Pack those of the glands that a finding names of which rod and box are known; None where there is none.

    Parameters
    ----------
    finding: what was found
    engine: whose gland it is
    loads: what each cylinder's parts have to bear
    """
    planned = tuple((gland, _plan(gland, engine, loads)) for gland in _list_glands(finding, engine))
    glands = tuple(gland for gland, plan in planned if plan is not None)
    plans = tuple(plan for _, plan in planned if plan is not None)
    if not plans:
        return None
    fresh = all(gland.packed_with == "nothing" for gland in glands)
    return PartCure(
        code="pack-gland",
        cylinder=finding.cylinder,
        part=finding.part,
        title=f"Pack the {name_glands(glands)}" + ("" if fresh else f" anew, with {plans[0].material.material}"),
        answers=(finding.code,),
        work="an evening",
        steps=_join(glands, tuple(_tell_steps(gland, plan) for gland, plan in zip(glands, plans, strict=True))),
        set={
            f"{prefix}{name}": value for prefix, plan in _pair(glands, plans) for name, value in _figures(plan).items()
        },
        before_you_start=tuple(dict.fromkeys(caution for plan in plans for caution in plan.cautions)),
        notes=_join(glands, tuple((_say_material(plan), *plan.notes) for plan in plans)),
        have_ready=merge_items(item for plan in plans for item in plan.have_ready),
        sources=tuple(dict.fromkeys(source for plan in plans for source in plan.sources)),
        taken=(*_list_taken(glands), *list_run_taken(engine, loads.get(finding.cylinder))),
    )


def _list_glands(finding: Finding, engine: Engine) -> tuple[Gland, ...]:
    empty = list_unpacked(engine, finding.cylinder)
    if finding.code == "gland-leaks" and empty and finding.part == name_glands(empty):
        return empty
    return tuple(g for g in engine.glands if g.cylinder == finding.cylinder and name_gland(g) == finding.part)


def _plan(gland: Gland, engine: Engine, loads: Mapping[str, PartLoads]) -> GlandPlan | None:
    if gland.rod is None or gland.box_bore is None:
        return None
    load = loads.get(gland.cylinder)
    nut = Nut(pitch=find_thread(gland.nut_thread).pitch if gland.nut_thread else None, hand=gland.nut_hand)
    # What was found there and lasts is packed again.
    wanted = gland.packed_with if gland.packed_with not in (None, "nothing", "old string") else USUAL_CURE
    try:
        cutting = cut_rings(gland.rod, gland.box_bore, gland.box_depth)
        service = settle_service(
            engine.fluid,
            pressure=find_pressure(engine, load),
            temperature=None if load is None else load.temperature,
            oil=gland.oil,
        )
    except BadInput:
        # No packing is so thick, the box holds no ring, or water does not boil under such a pressure.
        return None
    plan = plan_gland(cutting, service, nut=nut, material=wanted, purpose=name_gland(gland))
    # Hotter than all of them, no packing is a cure.
    return plan if plan.material.suits else None


def _pair(glands: tuple[Gland, ...], plans: tuple[GlandPlan, ...]) -> list[tuple[str, GlandPlan]]:
    """Each plan with what its figures are prefixed by: nothing where there is one."""
    if len(plans) == 1:
        return [("", plans[0])]
    return [(f"{gland.on.replace(' ', '_')}_", plan) for gland, plan in zip(glands, plans, strict=True)]


def _figures(plan: GlandPlan) -> dict[str, float | str]:
    cutting = plan.cutting
    return {
        "section_mm": cutting.section * 1e3,
        "rings": cutting.rings.count,
        "cut_length_mm": cutting.length * 1e3,
        "winding": plan.winding,
    }


def _tell_steps(gland: Gland, plan: GlandPlan) -> tuple[str, ...]:
    if gland.packed_with != "nothing":
        return plan.steps
    return tuple(EMPTY_ALREADY if step == EMPTYING else step for step in plan.steps)


def _join(glands: tuple[Gland, ...], told: tuple[tuple[str, ...], ...]) -> tuple[str, ...]:
    """Sentences that read alike for all glands stand once; the others say whose they are."""
    if len(told) == 1:
        return told[0]
    alike = set(told[0]).intersection(*told[1:])
    joined: list[str] = []
    for place in range(max(len(sentences) for sentences in told)):
        for gland, sentences in zip(glands, told, strict=True):
            if place < len(sentences):
                one = sentences[place]
                joined.append(one if one in alike else f"{gland.on.capitalize()}: {one[:1].lower()}{one[1:]}")
    return tuple(dict.fromkeys(joined))


def _say_material(plan: GlandPlan) -> str:
    reason = plan.material.reason
    return f"{reason[:1].upper()}{reason[1:]}"


def _list_taken(glands: tuple[Gland, ...]) -> Iterator[Assumed]:
    usual = {
        "box_depth": ("enough for four rings", f"the usual number ({NO_SOURCE})"),
        "oil": ("mineral", "the oil that spoils most rubbers"),
        "nut_thread": ("unknown pitch, right-hand", "the usual hand"),
    }
    for gland in glands:
        yield from list_missing(gland, usual)
