"""`lapwright run`: the running engine, its pressure cards, power, air or steam."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson, Dead, Exhaust, Fluid, Ideal, Load, Pressure, Speed

if TYPE_CHECKING:
    from lapwright.job.visit import Visit


def run(  # noqa: PLR0913 - a command has as many arguments as it has options
    record: Annotated[Path, typer.Argument(help="The engine record to run.", metavar="RECORD")],
    *,
    fluid: Fluid = None,
    pressure: Pressure = None,
    exhaust: Exhaust = None,
    temperature: Annotated[
        str | None, typer.Option(help='Of the air, or of superheated steam, like "160 degC".', metavar="TEMPERATURE")
    ] = None,
    dryness: Annotated[str | None, typer.Option(help='Of wet steam, like "0.98".', metavar="SHARE")] = None,
    speed: Speed = None,
    load: Load = None,
    ideal: Ideal = False,
    dead: Dead = None,
    compare: Annotated[
        str | None, typer.Option(help='Run it after this cure too: its code, or "best".', metavar="CURE")
    ] = None,
    json: AsJson = False,
) -> None:
    """Run an engine on air or steam: pressure cards, power, torque, what it takes, and where the losses go."""
    from lapwright.job.run.stand import Asked, prepare_stand

    asked = Asked(
        fluid=None if fluid is None else fluid.value,
        pressure=pressure,
        exhaust=exhaust,
        temperature=temperature,
        dryness=dryness,
        speed=speed,
        load=load,
        ideal=ideal,
        dead=tuple(dead or ()),
        compare=compare,
    )
    visit = open_for_running(record, json=json)
    # What cannot be run is said at once, before anything is made ready.
    prepare_stand(visit, asked)
    warn_of_preparing()
    from lapwright.job.run.trial import try_engine

    trial = try_engine(visit, asked)
    if json:
        from lapwright.cli.as_json import print_json
        from lapwright.job.run.results import list_run

        print_json(list_run(trial, visit.record))
        return
    from lapwright.cli.run_summary import summarise_run
    from lapwright.job.run.notes import list_cautions

    print(
        summarise_run(
            trial,
            gain=trial.tell_gain(),
            cautions=list_cautions(trial.run.conditions.fluid),
            with_cards=can_show("⣿"),
        )
    )


def open_for_running(record: Path, *, json: bool) -> Visit:
    """Open a record and print its problems; one with errors ends the program with status 2."""
    from lapwright.cli.problems import print_problems
    from lapwright.job.records import open_record
    from lapwright.job.visit import examine_opened

    opened = open_record(record)
    print_problems(opened)
    if opened.is_sound:
        return examine_opened(opened)
    if json:
        from lapwright.cli.as_json import print_json
        from lapwright.job.run.results import list_unrun

        print_json(list_unrun(opened))
    raise typer.Exit(2)


def warn_of_preparing() -> None:
    """Say why the first run after an installation takes longer than all that follow."""
    from lapwright.job.run.preparing import needs_preparing

    if needs_preparing():
        print("Preparing the running engine, once: this takes about a quarter of a minute ...", file=sys.stderr)


def can_show(text: str) -> bool:
    """Whether the terminal has these characters."""
    try:
        text.encode(sys.stdout.encoding or "ascii")
    except UnicodeEncodeError:
        return False
    return True
