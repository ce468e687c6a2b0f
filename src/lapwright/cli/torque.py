"""`lapwright torque`: how tight a screw may be drawn, what gives way first, and what a grub screw holds."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson, HoleMetal, IsGrub, ScrewMetal

if TYPE_CHECKING:
    from lapwright.job.lookup.torque_answer import TorqueAnswer


def run(  # noqa: PLR0913 - a command has as many arguments as it has options
    thread: Annotated[str, typer.Argument(help='The screw: 4BA, M3, "1/4 x 40", 1/4BSF.', metavar="THREAD")],
    *,
    screw: ScrewMetal = "steel",
    hole: HoleMetal = "brass",
    engagement: Annotated[
        str | None, typer.Option(help='How much thread is in the hole, like "4 mm"; or one diameter.', metavar="LENGTH")
    ] = None,
    thread_is: Annotated[
        str, typer.Option(help="dry, oiled, zinc plated, waxed, molybdenum grease or galvanised.")
    ] = "dry",
    worn: Annotated[
        bool, typer.Option("--worn", help="The thread in the hole is worn: half of it is counted.")
    ] = False,
    grub: IsGrub = False,
    slotted: Annotated[bool, typer.Option("--slotted", help="A grub screw of plain steel with a slot.")] = False,
    point: Annotated[str, typer.Option(help="A grub screw's point: cup, cone, flat, dog or oval.")] = "cup",
    shaft: Annotated[
        str | None, typer.Option(help='The shaft a grub screw stands on, like "5 mm".', metavar="LENGTH")
    ] = None,
    hold: Annotated[
        str | None, typer.Option(help='The torque a grub screw has to hold, like "0.05 N m".', metavar="TORQUE")
    ] = None,
    load: Annotated[str, typer.Option(help="Whether that torque is steady or reversing.")] = "reversing",
    json: AsJson = False,
) -> None:
    """Tell how tight a screw may be drawn and what gives way first, or what a grub screw holds on its shaft."""
    from lapwright.job.lookup.torque_answer import TorqueAsked, answer_torque, list_torque

    asked = TorqueAsked(
        thread=thread,
        screw=screw,
        hole=hole,
        engagement=engagement,
        condition=thread_is,
        worn=worn,
        grub=grub,
        slotted=slotted,
        point=point,
        shaft=shaft,
        hold=hold,
        load=load,
    )
    answer = answer_torque(asked)
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_torque(answer))
        return
    print(write_torque(answer))


def write_torque(answer: TorqueAnswer) -> str:
    """Return the sheet of a screw, or of a grub screw."""
    from lapwright.cli.sheet import write_sheet
    from lapwright.job.lookup.torque_sheet import lay_torque

    return write_sheet(lay_torque(answer))
