"""`lapwright calibrate`: friction and leaks out of the bench tests of a record."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from lapwright.cli.options import AsJson
from lapwright.cli.run import open_for_running, warn_of_preparing


def run(
    record: Annotated[Path, typer.Argument(help="The engine record with its bench tests.", metavar="RECORD")],
    *,
    json: AsJson = False,
    write: Annotated[bool, typer.Option("--write", help="Put what the tests tell into the record.")] = False,
) -> None:
    """Work out friction and leaks from bench tests, each with its doubt, and tell what the tests leave open."""
    visit = open_for_running(record, json=json)
    if not visit.engine.bench_tests:
        from lapwright.job.run.calibration import NO_TESTS

        if json:
            from lapwright.cli.as_json import print_json
            from lapwright.job.run.calibration_results import list_uncalibrated

            print_json(list_uncalibrated(visit.record))
        print(NO_TESTS, file=sys.stderr)
        raise typer.Exit(2)
    warn_of_preparing()
    from lapwright.job.run.calibration import report_calibration, write_into_record

    report = report_calibration(visit)
    if write and report.lines:
        write_into_record(visit, report)
    if json:
        from lapwright.cli.as_json import print_json
        from lapwright.job.run.calibration_results import list_calibration

        print_json(list_calibration(report, visit.record, written=write and bool(report.lines)))
        return
    from lapwright.cli.calibration_summary import summarise_calibration

    print(summarise_calibration(report, written=str(record) if write else ""))
