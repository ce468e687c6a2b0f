"""`lapwright check`: the problems of a record, and nothing else."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer


def run(record: Annotated[Path, typer.Argument(help="The engine record to read.", metavar="RECORD")]) -> None:
    """List what is wrong with a record. The exit status is 0 where it can be used, 2 where it cannot."""
    from lapwright.cli.problems import print_problems
    from lapwright.job.records import open_record

    opened = open_record(record)
    print_problems(opened, to=sys.stdout)
    if not opened.is_sound:
        raise typer.Exit(2)
    warnings = len(opened.problems)
    print(f"{opened.source}: no errors" + (f", {warnings} to look at" if warnings else ""))
