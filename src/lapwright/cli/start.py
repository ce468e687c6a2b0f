"""`lapwright start`: whether the engine starts by itself, and from where."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from lapwright.cli.options import AsJson, Dead, Exhaust, Fluid, Pressure
from lapwright.cli.run import can_show, open_for_running


def run(
    record: Annotated[Path, typer.Argument(help="The engine record to start.", metavar="RECORD")],
    *,
    fluid: Fluid = None,
    pressure: Pressure = None,
    exhaust: Exhaust = None,
    dead: Dead = None,
    json: AsJson = False,
) -> None:
    """Tell from which angles an engine starts by itself, from which never, and the least pressure for all of them."""
    from lapwright.job.run.stand import Asked

    asked = Asked(
        fluid=None if fluid is None else fluid.value, pressure=pressure, exhaust=exhaust, dead=tuple(dead or ())
    )
    visit = open_for_running(record, json=json)
    from lapwright.job.run.start_trial import try_starting

    trial = try_starting(visit, asked)
    if json:
        from lapwright.cli.as_json import print_json
        from lapwright.job.run.start_results import list_start

        print_json(list_start(trial, visit.record))
        return
    from lapwright.cli.start_summary import CHARACTERS, summarise_start
    from lapwright.job.run.notes import list_cautions

    cautions = list_cautions(trial.stand.conditions.fluid, by_hand=True)
    print(summarise_start(trial, cautions=cautions, with_picture=can_show(CHARACTERS)))
