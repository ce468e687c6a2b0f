"""Options that several commands have, said once: what an engine is put on."""

from __future__ import annotations

import enum
from typing import Annotated

import typer


class FluidName(enum.StrEnum):
    """What an engine can be put on."""

    air = "air"
    steam = "steam"


Fluid = Annotated[FluidName | None, typer.Option(help="What it is put on; what the record says, or air.")]
Pressure = Annotated[str | None, typer.Option(help='Supply pressure, like "2 bar".', metavar="PRESSURE")]
Exhaust = Annotated[str | None, typer.Option(help='Exhaust pressure, like "0 bar".', metavar="PRESSURE")]
Speed = Annotated[str | None, typer.Option(help='A steady speed, like "600 rpm".', metavar="SPEED")]
Load = Annotated[
    str | None, typer.Option(help='Or what it drives, like "30 mN m" or "5 W": the speed is found.', metavar="LOAD")
]
Ideal = Annotated[bool, typer.Option("--ideal", help="Leave out leaks, wall heat and friction.")]
Dead = Annotated[
    list[str] | None, typer.Option(help="A cylinder whose pipes are off; may be given again.", metavar="NAME")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print everything as one JSON object instead.")]
#: What the look-ups of screws and holes ask alike.
HoleMetal = Annotated[
    str,
    typer.Option("--in", help="What the hole is in: brass, gunmetal, cast iron, steel, a grade.", metavar="METAL"),
]
ScrewMetal = Annotated[
    str,
    typer.Option(
        "--screw",
        help="What the screw is of: steel, high-tensile steel, stainless steel or brass.",
        metavar="METAL",
    ),
]
IsGrub = Annotated[bool, typer.Option("--grub", help="It is a socket grub screw, which holds a part on a shaft.")]
