"""How a gland is packed, laid out as a sheet: what is wanted at the bench, and what is told on asking why."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import TYPE_CHECKING

from lapwright.job.lookup.sheet import Row, Sheet
from lapwright.quantities import show_inch, show_length_both, show_mm, show_number, show_share
from lapwright.quantities.length import INCH
from lapwright.quantities.pressure import PRESSURE

if TYPE_CHECKING:
    from lapwright.job.lookup.gland_answer import GlandAnswer
    from lapwright.workshop.item import Item
    from lapwright.workshop.oring_gland import RingGland
    from lapwright.workshop.oring_plan import RingPlan

_O_RING = " O-ring"
_INCH = float(INCH)


def lay_gland(answer: GlandAnswer) -> Sheet:
    """Lay out a gland's plan.

    Parameters
    ----------
    answer: the plan
    """
    plan, ring = answer.plan, answer.plan.ring
    deep = "" if answer.depth is None else f", {answer.depth} deep"
    return Sheet(
        title=f"Gland: {answer.rod} rod in a box of {answer.bore}{deep}",
        rows=(*_list_rows(answer),),
        more=(*_list_why_rows(answer),),
        steps=plan.steps if ring is None else ring.steps,
        background=(*(() if ring is None else ring.background), *plan.background),
        cautions=plan.cautions,
        sources=plan.sources,
    )


def _list_rows(answer: GlandAnswer) -> Iterator[Row]:
    plan = answer.plan
    if plan.ring is None:
        yield from _list_packing(answer)
    else:
        yield from _list_ring(answer, plan.ring)
    yield "Judged for", " ".join((_tell_service(answer), *(plan.ring or plan).taken))


def _list_packing(answer: GlandAnswer) -> Iterator[Row]:
    cutting = answer.plan.cutting
    yield "Section", _tell_section(answer)
    yield "Packing", _tell_bought(answer)
    rings = cutting.rings
    spacer = f", on a spacer ring of {show_length_both(rings.spacer)}" if rings.spacer else ""
    turned = f" joints {cutting.stagger} degrees apart" if cutting.stagger else " joint"
    yield (
        "Rings",
        f"{_count(rings.count)} of {show_length_both(cutting.length)}, {cutting.joint}{turned}{spacer}",
    )
    yield "If wound", f"{answer.plan.winding} from the bottom, seen from the nut; better cut rings"
    yield from _list_nut(answer)
    yield from _list_tightness(answer)
    yield from _list_verdict(answer)
    yield from _list_instead(answer)
    yield "From memory", "how many rings, sections sold, friction, which way to wind"


def _list_ring(answer: GlandAnswer, done: RingPlan) -> Iterator[Row]:
    ring, plan = done.ring, answer.plan
    sizes = f"{show_number(1000 * ring.inside, 2)} x {show_mm(ring.section)}"
    inches = f"{show_number(ring.inside / _INCH, 3)} x {show_inch(ring.section)}"
    yield "O-ring", f"{ring.standard} {ring.code}, {done.rubber}: {sizes} ({inches})"
    yield "How", f"{ring.how}."
    yield "Groove", _tell_groove(ring)
    yield "Squeeze", f"{_tell_squeeze(ring)}; {_tell_stretch(ring)}"
    yield "Put in with", f"{done.grease} (from memory)"
    yield from _list_verdict(answer)
    for other in plan.ring_glands[1:]:
        yield "Or", f"{other.name}: {other.how}."
    cutting = plan.cutting
    yield (
        "Or packing",
        f"{cutting.bought.name} {plan.material.material}, {_count(cutting.rings.count)} of "
        f"{show_length_both(cutting.length)}: ask without naming a ring",
    )


def _list_why_rows(answer: GlandAnswer) -> Iterator[Row]:
    """What else would do, and every ring with its groove."""
    plan = answer.plan
    for verdict in ("suits", "with care", "unsuitable"):
        names = [each.material for each in plan.others if each.verdict == verdict]
        if names:
            yield f"Also {verdict}" if verdict != "unsuitable" else "Not for it", ", ".join(names)
    yield "Have ready", "; ".join(_tell_item(item) for item in (plan.ring or plan).have_ready)
    if plan.ring is not None:
        yield "If packed", plan.material.reason
        yield from _list_tightness(answer)
    if _find_rubbers(answer):
        for ring in plan.ring_glands:
            yield f"Ring {ring.code}", f"{ring.name}, {_tell_stretch(ring)}. Groove: {_tell_groove(ring)}."
            yield "", f"Squeeze {_tell_squeeze(ring)}: {ring.how}."


def _count(rings: int) -> str:
    return "1 ring" if rings == 1 else f"{rings} rings"


def _tell_section(answer: GlandAnswer) -> str:
    doubt = "" if answer.doubt is None else f", ± {show_mm(answer.doubt)}"
    return f"{show_length_both(answer.plan.cutting.section)}{doubt}"


def _tell_bought(answer: GlandAnswer) -> str:
    cutting = answer.plan.cutting
    made = f", to {cutting.bought.verdict}" if cutting.bought.advice else ""
    return f"{cutting.bought.name} {answer.plan.material.material}, {cutting.total:.2f} m of it{made}"


def _tell_item(item: Item) -> str:
    count = f"{item.count} of " if item.count > 1 else ""
    return f"{count}{item.name}" + (f", {item.amount}" if item.amount else "")


def _list_nut(answer: GlandAnswer) -> Iterator[Row]:
    nut = answer.plan.nut
    if nut is not None:
        moves = f"1/8 turn moves {show_mm(nut.eighth)}, a flat {show_mm(nut.flat)}"
        yield "Nut", f"{answer.nut}, {answer.plan.nut_hand} hand: {moves}"


def _list_tightness(answer: GlandAnswer) -> Iterator[Row]:
    tight = answer.plan.tightness
    given = answer.pressure
    unit = "bar" if given is None else given.unit
    held = "each bar" if given is None else str(given)
    presses = _round(tight.middle.gland_pressure / float(PRESSURE.units[unit][1]))
    yield f"To hold {held}", f"the gland presses with about {presses} {unit}, {_round(tight.middle.thrust)} N in all"
    yield (
        "Friction",
        f"{_round(tight.middle.friction)} N just tight ({_round(tight.least.friction)} to "
        f"{_round(tight.most.friction)}), {_round(tight.middle.friction_twice)} N twice as tight",
    )


def _round(value: float) -> str:
    """To two figures: a coefficient of friction is not known any better."""
    return f"{Decimal(f'{value:.2g}'):f}"


def _list_verdict(answer: GlandAnswer) -> Iterator[Row]:
    plan = answer.plan
    yield plan.asked.verdict.capitalize(), plan.asked.reason
    if plan.ring is None and plan.material != plan.asked:
        yield "Packed with", plan.material.reason
    if not any(each.suits for each in (plan.asked, plan.material, *plan.others)):
        yield "", "Nothing in the tables lasts there: what follows is for a cooler gland."


def _tell_service(answer: GlandAnswer) -> str:
    service = answer.plan.service
    oil = "mineral oil" if service.oil == "mineral" else "no oil"
    heat = "" if service.celsius is None else f" at {show_number(service.celsius, 0)} degC"
    return f"{service.fluid} with {oil}{heat}."


def _find_rubbers(answer: GlandAnswer) -> list[str]:
    plan = answer.plan
    judged = (plan.asked, *plan.others)
    return [each.material.removesuffix(_O_RING) for each in judged if each.suits and each.material.endswith(_O_RING)]


def _list_instead(answer: GlandAnswer) -> Iterator[Row]:
    rings, rubbers = answer.plan.ring_glands, _find_rubbers(answer)
    if not rubbers:
        yield "Or an O-ring", "no rubber lives here"
    elif not rings:
        yield "Or an O-ring", "none of the tables is right for this rod"
    else:
        names = " or ".join(rubbers) if len(rubbers) < 4 else f"{', '.join(rubbers[:-1])} or {rubbers[-1]}"
        yield "Or an O-ring", f"of {names}, {rings[0].standard} {rings[0].code}: {rings[0].how}"


def _tell_groove(ring: RingGland) -> str:
    low, high = ring.diameters
    wide = show_length_both(ring.groove.width)
    clear = f"rod clearance up to {show_mm(ring.groove.clearance)}"
    if high == low:
        return f"none: {wide} between the washers, {clear}"
    across = f"{show_number(1000 * low, 2)} to {show_mm(high)} ({show_inch(low)} to {show_inch(high)})"
    return f"{across} across, {wide} wide, {clear}"


def _tell_squeeze(ring: RingGland) -> str:
    squeeze = ring.squeeze
    taken = ", with the tolerance of AS568, for none is printed" if ring.tolerance_taken else ""
    return (
        f"{show_share(squeeze.nominal)} ({show_share(squeeze.least)} to {show_share(squeeze.most)}{taken}), "
        f"{show_share(squeeze.fill)} full (at most {show_share(squeeze.most_fill)})"
    )


def _tell_stretch(ring: RingGland) -> str:
    if ring.stretch < 0:
        return f"loose by {show_share(-ring.stretch)}"
    much = ", more than the 5 % makers allow" if ring.stretch > 0.05 else ""
    return f"stretched {show_share(ring.stretch)}{much}, which leaves {show_mm(ring.stretched)} of its section"
