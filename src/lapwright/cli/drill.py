"""`lapwright drill`: the drill before a tap, holes for a screw to pass, and what a drill is good for."""

from __future__ import annotations

from typing import Annotated

import typer

from lapwright.cli.options import AsJson


def run(
    what: Annotated[
        str,
        typer.Argument(
            help='A thread (4BA, M4, "1/4 x 40"), or a drill ("3.1 mm", "No 30", 7/64, "letter F").', metavar="WHAT"
        ),
    ],
    *,
    metal: Annotated[
        str | None,
        typer.Option("--in", help='What is tapped: steel, brass, LG2, "cast iron", "thin plate"...', metavar="METAL"),
    ] = None,
    engagement: Annotated[
        str | None,
        typer.Option(help='Depth of thread wanted instead, of the full depth, like "70 %".', metavar="SHARE"),
    ] = None,
    drawers: Annotated[
        str,
        typer.Option(
            help="Drills to choose from: metric, number, letter, number-letter, fraction or all.", metavar="DRAWERS"
        ),
    ] = "all",
    json: AsJson = False,
) -> None:
    """Tell what to drill for a thread, to tap it and to clear it; or what a drill is good for."""
    from lapwright.job.lookup.drill_answer import answer_drill, list_drill

    answer = answer_drill(what, metal=metal, engagement=engagement, drawers=drawers)
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_drill(answer))
        return
    from lapwright.cli.sheet import write_sheet
    from lapwright.job.lookup.drill_sheet import lay_drill

    print(write_sheet(lay_drill(answer)))
