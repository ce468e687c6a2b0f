"""`lapwright rethread`: what a worn or stripped hole can be cut to, what that leaves, and the work."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson, HoleMetal, IsGrub, ScrewMetal

if TYPE_CHECKING:
    from lapwright.job.lookup.rethread_answer import RethreadAnswer

#: How many sizes of each kind are told on a sheet.
_MOST = 6


def run(  # noqa: PLR0913 - a command has as many arguments as it has options
    old: Annotated[str, typer.Argument(help='The thread in the hole: 4BA, M4, "1/4 x 40".', metavar="FROM")],
    new: Annotated[
        str | None, typer.Argument(help="The larger thread it is cut to; left out, all that would do.", metavar="TO")
    ] = None,
    *,
    depth: Annotated[
        str | None, typer.Option(help='How much thread the hole has, like "5 mm".', metavar="LENGTH")
    ] = None,
    wall: Annotated[
        str | None,
        typer.Option(help='The thinnest metal beside the old thread, like "3 mm".', metavar="LENGTH"),
    ] = None,
    metal: HoleMetal = "brass",
    stripped: Annotated[
        bool, typer.Option("--stripped/--worn", help="Whether the old thread is gone altogether, or only worn.")
    ] = False,
    into_steam: Annotated[
        bool, typer.Option("--into-steam", help="The hole breaks into a space with steam in it.")
    ] = False,
    keep_screw: Annotated[bool, typer.Option("--keep-screw", help="The old screw has to go in again.")] = False,
    temperature: Annotated[
        str | None,
        typer.Option(help='How hot the part runs, like "150 degC": which solder stands it.', metavar="TEMPERATURE"),
    ] = None,
    screw: ScrewMetal = "steel",
    grub: IsGrub = False,
    torque: Annotated[
        str | None, typer.Option(help='What the screw is drawn to, like "0.5 N m"; or all it bears.', metavar="TORQUE")
    ] = None,
    json: AsJson = False,
) -> None:
    """Tell which larger threads a worn hole can be cut to, what each leaves, and how it is done."""
    from lapwright.job.lookup.rethread_answer import RethreadAsked, answer_rethread, list_rethread

    asked = RethreadAsked(
        old=old,
        new=new,
        metal=metal,
        depth=depth,
        wall=wall,
        stripped=stripped,
        into_steam=into_steam,
        temperature=temperature,
        keep_screw=keep_screw,
        screw=screw,
        grub=grub,
        torque=torque,
    )
    answer = answer_rethread(asked)
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_rethread(answer))
        return
    print(write_rethread(answer))


def write_rethread(answer: RethreadAnswer) -> str:
    """Return the sheet of a hole."""
    from lapwright.cli.sheet import write_sheet
    from lapwright.job.lookup.rethread_sheet import lay_rethread

    return write_sheet(lay_rethread(answer, most=_MOST, rest="--json lists them all"))
