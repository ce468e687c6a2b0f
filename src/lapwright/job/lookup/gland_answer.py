"""How a gland is packed: texts in, answer out, and the answer as it is printed in JSON."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from lapwright.errors import OutOfRange
from lapwright.quantities import Length, Pressure, Temperature, read_length, read_pressure, read_temperature
from lapwright.quantities.temperature import FREEZING
from lapwright.workshop.gland_cutting import cut_rings
from lapwright.workshop.gland_nut import check_nut
from lapwright.workshop.gland_plan import GlandPlan, Nut, plan_gland
from lapwright.workshop.gland_service import settle_service
from lapwright.workshop.gland_verdict import Judgement
from lapwright.workshop.gland_winding import HANDS
from lapwright.workshop.item import Item
from lapwright.workshop.oring_gland import RingGland
from lapwright.workshop.packing_choice import USUAL_CURE

if TYPE_CHECKING:
    from lapwright.tables.threads import ThreadRow


@dataclass(frozen=True, slots=True, kw_only=True)
class GlandAsked:
    """What was asked about a gland, as it was written; what is None was not said."""

    rod: str
    bore: str
    depth: str | None = None
    nut: str | None = None
    nut_hand: str = HANDS[0]
    fluid: str | None = None
    pressure: str | None = None
    temperature: str | None = None
    oil: str | None = None
    material: str = USUAL_CURE
    joint: str = "butt"


@dataclass(frozen=True, slots=True, kw_only=True)
class GlandAnswer:
    """A gland's plan with the sizes as they were written; `doubt` [m] is how far the section may be out, or None."""

    rod: Length
    bore: Length
    depth: Length | None
    pressure: Pressure | None
    nut: str | None
    doubt: float | None
    plan: GlandPlan


def answer_gland(asked: GlandAsked) -> GlandAnswer:
    """Plan how a gland is packed.

    Parameters
    ----------
    asked: sizes, nut, fluid and the rest, as they were written

    Raises
    ------
    BadInput: one of its kinds, saying what to write instead
    """
    rod, bore = _read_size(asked.rod), _read_size(asked.bore)
    depth = None if asked.depth is None else _read_size(asked.depth)
    pressure = None if asked.pressure is None else read_pressure(asked.pressure)
    heat: Temperature | None = None if asked.temperature is None else read_temperature(asked.temperature)
    thread = None if asked.nut is None else _find_nut(asked.nut)
    cutting = cut_rings(rod.si, bore.si, None if depth is None else depth.si, joint=asked.joint)
    if thread is not None:
        check_nut(thread, rod.si, bore.si)
    plan = plan_gland(
        cutting,
        settle_service(
            asked.fluid,
            pressure=None if pressure is None else pressure.gauge,
            temperature=None if heat is None else heat.si,
            oil=asked.oil,
        ),
        nut=Nut(pitch=None if thread is None else thread.pitch, hand=asked.nut_hand),
        material=asked.material,
    )
    return GlandAnswer(
        rod=rod,
        bore=bore,
        depth=depth,
        pressure=pressure,
        nut=None if thread is None else thread.name,
        doubt=_find_doubt(rod, bore),
        plan=plan,
    )


def _find_nut(text: str) -> ThreadRow:
    # Only a gland with a nut needs the tables of threads, which take longer to read than all the rest.
    from lapwright.tables.naming import find_thread

    return find_thread(text)


def _read_size(text: str) -> Length:
    size = read_length(text)
    if size.value <= 0:
        raise OutOfRange(str(size), "is no size of a gland", "write what was measured, above nothing")
    return size


def _find_doubt(rod: Length, bore: Length) -> float | None:
    """The section is half the difference of the two: it is out by half of what they may be out together [m]."""
    sides = (rod.doubt_plus, rod.doubt_minus), (bore.doubt_plus, bore.doubt_minus)
    given = [max(plus or 0.0, minus or 0.0) for plus, minus in sides]
    return sum(given) / 2 if any(given) else None


def list_gland(answer: GlandAnswer) -> dict[str, Any]:
    """Return a gland's plan by the names it has in JSON.

    Parameters
    ----------
    answer: the plan
    """
    plan, cutting, ring = answer.plan, answer.plan.cutting, answer.plan.ring
    return {
        "format": 1,
        "answer": "packing" if ring is None else "O-ring",
        "rod_mm": _mm(cutting.rod),
        "bore_mm": _mm(cutting.bore),
        "depth_mm": None if cutting.depth is None else _mm(cutting.depth),
        "section_mm": _mm(cutting.section),
        "section_doubt_mm": None if answer.doubt is None else _mm(answer.doubt),
        "packing": cutting.bought.name,
        "packing_fit": cutting.bought.verdict,
        "strands_percent": round(100 * cutting.bought.strands, 1),
        "rings": cutting.rings.count,
        "spacer_mm": _mm(cutting.rings.spacer),
        "joint": cutting.joint,
        "stagger_deg": cutting.stagger,
        "cut_length_mm": _mm(cutting.length),
        "total_length_mm": _mm(cutting.total),
        "wound_length_mm": _mm(cutting.wound),
        "winding": plan.winding,
        **_list_nut(answer),
        **_list_service(plan),
        **_list_tightness(plan),
        "asked": _list_judgement(plan.asked),
        "material": _list_judgement(plan.material),
        "others": [_list_judgement(each) for each in plan.others],
        "orings": [_list_ring(ring) for ring in plan.ring_glands],
        "steps": list(plan.steps if ring is None else ring.steps),
        "packing_steps": list(plan.steps),
        "notes": list(plan.notes if ring is None else (*ring.taken, *ring.background, *plan.background)),
        "cautions": list(plan.cautions),
        "have_ready": [_list_item(item) for item in (plan.have_ready if ring is None else ring.have_ready)],
        "sources": list(plan.sources),
    }


def _list_nut(answer: GlandAnswer) -> dict[str, Any]:
    nut = answer.plan.nut
    return {
        "nut": answer.nut,
        "nut_hand": answer.plan.nut_hand,
        "nut_eighth_turn_mm": None if nut is None else _mm(nut.eighth),
        "nut_flat_mm": None if nut is None else _mm(nut.flat),
    }


def _list_service(plan: GlandPlan) -> dict[str, Any]:
    service = plan.service
    return {
        "fluid": service.fluid,
        "oil": service.oil,
        "pressure_kpa": None if service.pressure is None else round(service.pressure / 1000, 3),
        "temperature_degc": None if service.celsius is None else round(service.celsius, 1),
    }


def _list_tightness(plan: GlandPlan) -> dict[str, Any]:
    tight = plan.tightness
    return {
        "holding_kpa": round(tight.held / 1000, 3),
        "seating_pressure_kpa": round(tight.middle.gland_pressure / 1000, 1),
        "gland_thrust_n": round(tight.middle.thrust, 2),
        "friction_n": round(tight.middle.friction, 3),
        "friction_least_n": round(tight.least.friction, 3),
        "friction_most_n": round(tight.most.friction, 3),
        "friction_twice_n": round(tight.middle.friction_twice, 3),
        "friction_without_decay_n": round(tight.middle.plain, 3),
    }


def _list_judgement(judged: Judgement) -> dict[str, Any]:
    return {
        "name": judged.material,
        "verdict": judged.verdict,
        "reason": judged.reason,
        "limit_degc": None if judged.limit is None else round(judged.limit - FREEZING, 1),
    }


def _list_ring(ring: RingGland) -> dict[str, Any]:
    return {
        "standard": ring.standard,
        "code": ring.code,
        "inside_mm": _mm(ring.inside),
        "section_mm": _mm(ring.section),
        "section_on_rod_mm": _mm(ring.stretched),
        "tolerance_taken": ring.tolerance_taken,
        "stretch_percent": round(100 * ring.stretch, 1),
        "groove_diameter_mm": [_mm(size) for size in ring.diameters],
        "groove_depth_mm": [_mm(size) for size in ring.groove.depths],
        "groove_width_mm": _mm(ring.groove.width),
        "clearance_most_mm": _mm(ring.groove.clearance),
        "squeeze_percent": round(100 * ring.squeeze.nominal, 1),
        "squeeze_least_percent": round(100 * ring.squeeze.least, 1),
        "squeeze_most_percent": round(100 * ring.squeeze.most, 1),
        "squeeze_listed_percent": [round(100 * share, 1) for share in ring.groove.listed],
        "fill_percent": round(100 * ring.squeeze.fill, 1),
        "fill_most_percent": round(100 * ring.squeeze.most_fill, 1),
        "way": ring.way,
        "fits": ring.fits,
        "how": ring.how,
        "source": ring.source,
    }


def _list_item(item: Item) -> dict[str, Any]:
    return {"shelf": item.shelf, "name": item.name, "count": item.count, "amount": item.amount}


def _mm(metres: float) -> float:
    return round(metres * 1000, 3)
