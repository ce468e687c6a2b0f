"""`lapwright gland`: which packing goes into a stuffing box, how it is cut and fitted, and how tight."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson

if TYPE_CHECKING:
    from lapwright.job.gland_answer import GlandAnswer
    from lapwright.workshop.oring_gland import RingGland


def run(  # noqa: PLR0913 - a command has as many arguments as it has options
    *,
    rod: Annotated[str, typer.Option(help='Diameter of the rod, like "4 mm" or "5/32 in".', metavar="SIZE")],
    bore: Annotated[str, typer.Option(help='Bore of the stuffing box, like "8 mm".', metavar="SIZE")],
    depth: Annotated[
        str | None, typer.Option(help='Depth of the box, mouth to bottom, like "10 mm".', metavar="SIZE")
    ] = None,
    nut: Annotated[str | None, typer.Option(help='Thread of the gland nut, like "3/8 x 32".', metavar="THREAD")] = None,
    nut_hand: Annotated[
        str, typer.Option("--nut-hand", "--hand", help="Its hand: right or left.", metavar="HAND")
    ] = "right",
    fluid: Annotated[
        str | None,
        typer.Option(help="What it holds: air, steam or water; left out, judged for steam.", metavar="FLUID"),
    ] = None,
    pressure: Annotated[str | None, typer.Option(help='Pressure it holds, like "3 bar".', metavar="PRESSURE")] = None,
    temperature: Annotated[
        str | None,
        typer.Option(help="How hot; left out, that of steam at its pressure.", metavar="TEMPERATURE"),
    ] = None,
    oil: Annotated[
        str | None,
        typer.Option(
            help="The oil that reaches it: mineral, as steam oil is, or none; left out, mineral.", metavar="OIL"
        ),
    ] = None,
    material: Annotated[
        str, typer.Option(help='Packing or ring to judge, like "PTFE yarn" or "EPDM".', metavar="NAME")
    ] = "graphite yarn",
    joint: Annotated[
        str, typer.Option(help="How the ends of a ring of packing meet: butt or skive.", metavar="JOINT")
    ] = "butt",
    json: AsJson = False,
) -> None:
    """Tell which packing a gland takes, how to cut, fit and tighten it, and what it rubs; or the O-ring instead."""
    from lapwright.job.gland_answer import GlandAsked, answer_gland, list_gland

    answer = answer_gland(
        GlandAsked(
            rod=rod,
            bore=bore,
            depth=depth,
            nut=nut,
            nut_hand=nut_hand,
            fluid=fluid,
            pressure=pressure,
            temperature=temperature,
            oil=oil,
            material=material,
            joint=joint,
        )
    )
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_gland(answer))
    else:
        print(write_gland(answer))


def write_gland(answer: GlandAnswer) -> str:
    """Return a gland's plan as text.

    Parameters
    ----------
    answer: the plan
    """
    from lapwright.cli.sheet import write_sheet

    plan = answer.plan
    deep = "" if answer.depth is None else f", {answer.depth} deep"
    return write_sheet(
        f"Gland: {answer.rod} rod in a box of {answer.bore}{deep}",
        _list_rows(answer),
        steps=plan.steps,
        notes=plan.notes,
        cautions=plan.cautions,
        sources=plan.sources,
    )


def _list_rows(answer: GlandAnswer) -> Iterator[tuple[str, str]]:
    from lapwright.quantities import show_length_both, show_mm

    cutting = answer.plan.cutting
    doubt = "" if answer.doubt is None else f", ± {show_mm(answer.doubt)}"
    yield "Section", f"{show_length_both(cutting.section)}{doubt}"
    yield "Packing", _tell_bought(answer)
    rings = cutting.rings
    many = "1 ring" if rings.count == 1 else f"{rings.count} rings"
    spacer = f", on a spacer ring of {show_length_both(rings.spacer)}" if rings.spacer else ""
    yield "Rings", f"{many}, each cut {show_length_both(cutting.length)}{spacer}"
    turned = f", each {cutting.stagger} degrees on from the one below" if cutting.stagger else ""
    yield "Joint", f"{cutting.joint}{turned}"
    yield "If wound", f"{answer.plan.winding} from the bottom, as seen from the nut; cut rings are better"
    yield from _list_nut(answer)
    yield from _list_tightness(answer)
    yield from _list_materials(answer)
    yield from _list_rings(answer)
    yield (
        "Have ready",
        "; ".join(f"{item.name}, {item.amount}" if item.amount else item.name for item in answer.plan.have_ready),
    )


def _tell_bought(answer: GlandAnswer) -> str:
    cutting = answer.plan.cutting
    share = f" {cutting.bought.advice}" if cutting.bought.advice else ""
    return f"{cutting.bought.name} {answer.plan.material.material}, {cutting.total:.2f} m of it.{share}"


def _list_nut(answer: GlandAnswer) -> Iterator[tuple[str, str]]:
    from lapwright.quantities import show_mm

    nut = answer.plan.nut
    moves = f" An eighth of a turn moves {show_mm(nut.eighth)}, a flat {show_mm(nut.flat)}." if nut else ""
    name = f"{answer.nut}, {answer.plan.nut_hand} hand: nip" if answer.nut else "Nip"
    yield "Nut", f"{name} to seat, slacken to finger tight, then a flat at a time.{moves}"


def _list_tightness(answer: GlandAnswer) -> Iterator[tuple[str, str]]:
    from lapwright.quantities import show_number, show_pressure_like

    tight = answer.plan.tightness
    if answer.pressure is None:
        held, presses = "each bar", f"{show_number(tight.middle.gland_pressure / 1e5, 1)} bar"
    else:
        held, presses = str(answer.pressure), show_pressure_like(tight.middle.gland_pressure, answer.pressure)
    yield f"To hold {held}", f"the gland has to press with {presses}, {show_number(tight.middle.thrust, 0)} N in all"
    yield (
        "Friction",
        f"{show_number(tight.middle.friction, 1)} N just tight ({show_number(tight.least.friction, 1)} to "
        f"{show_number(tight.most.friction, 1)}), {show_number(tight.middle.friction_twice, 1)} N twice as tight",
    )


def _list_materials(answer: GlandAnswer) -> Iterator[tuple[str, str]]:
    plan = answer.plan
    oil = "mineral oil" if plan.service.oil == "mineral" else "no oil"
    yield "Judged for", f"{plan.service.fluid} with {oil}{_show_heat(answer)}"
    yield plan.asked.verdict.capitalize(), plan.asked.reason
    if plan.material != plan.asked:
        yield "Packed with", plan.material.reason
    for verdict in ("suits", "with care", "unsuitable"):
        names = [each.material for each in plan.others if each.verdict == verdict]
        if names:
            yield f"Also {verdict}" if verdict != "unsuitable" else "Not for it", ", ".join(names)


def _show_heat(answer: GlandAnswer) -> str:
    from lapwright.quantities import show_number

    celsius = answer.plan.service.celsius
    return "" if celsius is None else f" at {show_number(celsius, 0)} degC"


def _list_rings(answer: GlandAnswer) -> Iterator[tuple[str, str]]:
    rings = answer.plan.ring_glands
    if not rings:
        yield "O-ring", "none of the tables is right for this rod"
        return
    rubbers = [each.material for each in answer.plan.others if each.suits and each.material.endswith(_O_RING)]
    names = " or ".join(name.removesuffix(_O_RING) for name in rubbers)
    yield "O-ring instead", f"of {names}:" if names else "no rubber lives here"
    yield from (("", _tell_ring(ring)) for ring in rings if names)


_O_RING = " O-ring"


def _tell_ring(ring: RingGland) -> str:
    from lapwright.quantities import show_inch, show_length_both, show_mm, show_number, show_share

    low, high = ring.diameters
    lies = "stretched" if ring.stretch >= 0 else "loose by"
    much = ", more than the 5 % makers allow" if ring.stretch > 0.05 else ""
    verdict = "fits" if ring.fits else "does not fit"
    across = f"{show_number(1000 * low, 2)} to {show_mm(high)} ({show_inch(low)} to {show_inch(high)})"
    return (
        f"{ring.standard} {ring.code}, {show_mm(ring.inside)} x {show_mm(ring.section)}, {lies} "
        f"{show_share(abs(ring.stretch))}{much}. Groove {across} across, {show_length_both(ring.groove.width)} wide, "
        f"rod clearance up to {show_mm(ring.groove.clearance)}: squeeze {show_share(ring.squeeze.nominal)} "
        f"({show_share(ring.squeeze.least)} to {show_share(ring.squeeze.most)}), {show_share(ring.squeeze.fill)} full "
        f"(at most {show_share(ring.squeeze.most_fill)}). It {verdict}: {ring.how}."
    )
