"""`lapwright gland`: which packing goes into a stuffing box, how it is cut and fitted, and how tight."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson

if TYPE_CHECKING:
    from lapwright.job.lookup.gland_answer import GlandAnswer


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
    why: Annotated[
        bool, typer.Option("--why", help="Tell what to have ready, what else would do, reasons and sources too.")
    ] = False,
    json: AsJson = False,
) -> None:
    """Tell which packing a gland takes, how to cut, fit and tighten it, and what it rubs; or the O-ring instead."""
    from lapwright.job.lookup.gland_answer import GlandAsked, answer_gland, list_gland

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
        print(write_gland(answer, why=why))


def write_gland(answer: GlandAnswer, *, why: bool = False) -> str:
    """Return a gland's plan as text: what is wanted at the bench, and on asking why, and what it rests on.

    Parameters
    ----------
    answer: the plan
    why: with what else would do, the background and the sources
    """
    from dataclasses import replace

    from lapwright.cli.sheet import write_sheet
    from lapwright.job.lookup.gland_sheet import lay_gland

    sheet = lay_gland(answer)
    if why:
        return write_sheet(replace(sheet, rows=(*sheet.rows, *sheet.more), notes=sheet.background))
    # Cautions in one paragraph, so that a plan stays on one page.
    return write_sheet(replace(sheet, notes=(_MORE,), cautions=(" ".join(sheet.cautions),), sources=()))


_MORE = "With --why: what to have ready, what else would do, reasons and sources."
