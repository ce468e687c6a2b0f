"""`lapwright sweep`: many settings of one engine, worked out on all cores, as a table."""

from __future__ import annotations

import signal
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from lapwright.cli.options import Fluid, Ideal, Load, Pressure, Speed
from lapwright.cli.run import warn_of_preparing

if TYPE_CHECKING:
    from lapwright.job.sweep.plan import SweepPlan
    from lapwright.job.sweep.sweeping import Progress

#: What a program ends with that was stopped from the keyboard.
STOPPED = 130
#: How often the line on the terminal is written anew [s].
_OFTEN = 0.2


def run(  # noqa: PLR0913 - a command has as many arguments as it has options
    record: Annotated[Path, typer.Argument(help="The engine record to start from.", metavar="RECORD")],
    *,
    vary: Annotated[
        list[str],
        typer.Option(
            help='What varies, like "valve.length=13 mm:14 mm:50" or "pressure=1 bar:4 bar:7"; may be given again.',
            metavar="KEY=FROM:TO:N",
        ),
    ],
    out: Annotated[Path, typer.Option(help="The table to write.", metavar="TABLE.csv|TABLE.parquet")],
    fluid: Fluid = None,
    pressure: Pressure = None,
    speed: Speed = None,
    load: Load = None,
    ideal: Ideal = False,
    fine: Annotated[bool, typer.Option("--fine", help="Run each setting as closely as `run` does; slower.")] = False,
    least_pressure: Annotated[
        bool, typer.Option("--least-pressure", help="Find the least pressure that turns it over, too; slower.")
    ] = False,
    jobs: Annotated[
        int | None, typer.Option(help="How many processes; one for each core where left out.", min=1, max=512)
    ] = None,
    cluster: Annotated[
        str | None,
        typer.Option(help="The scheduler of a running Dask cluster, to work there instead.", metavar="ADDRESS"),
    ] = None,
) -> None:
    """Work through many settings of an engine and write a table, one row each.

    It may be stopped at any time: the same command goes on where it was.
    """
    from lapwright.cli.problems import print_problems
    from lapwright.job.records import open_record
    from lapwright.job.sweep.plan import SweepAsked, plan_sweep

    opened = open_record(record)
    print_problems(opened)
    if not opened.is_sound:
        raise typer.Exit(2)
    asked = SweepAsked(
        fluid=None if fluid is None else fluid.value,
        pressure=pressure,
        speed=speed,
        load=load,
        ideal=ideal,
        fine=fine,
        least_pressure=least_pressure,
    )
    plan = plan_sweep(opened, vary, asked)
    _work_through(plan, out, record=record, jobs=jobs, cluster=cluster)


def _work_through(plan: SweepPlan, out: Path, *, record: Path, jobs: int | None, cluster: str | None) -> None:
    from lapwright.job.sweep.sweeping import sweep_settings

    teller = _Teller()
    if teller.on_terminal and cluster is None:
        warn_of_preparing()
    signal.signal(signal.SIGTERM, _stop)
    try:
        swept = sweep_settings(plan, out, record=str(record), jobs=jobs, cluster=cluster, report=teller.report)
    except KeyboardInterrupt:
        teller.end()
        print(f"lapwright: stopped; {teller.tell_kept(out)}", file=sys.stderr)
        raise typer.Exit(STOPPED) from None
    finally:
        teller.end()
    flawed = f", {swept.flawed:,} of which could not be run: see the column problem" if swept.flawed else ""
    print(f"Written: {out} ({_count_rows(swept.rows)}{flawed})")


def _stop(*_: object) -> NoReturn:
    """Stop at once and in good order, as if from the keyboard."""
    raise KeyboardInterrupt


def _count_rows(rows: int) -> str:
    return "1 row" if rows == 1 else f"{rows:,} rows"


class _Teller:
    """Says how far it is: on a terminal in a line that is written over, elsewhere only where it takes up again."""

    def __init__(self) -> None:
        self.on_terminal = sys.stderr.isatty()
        self.began = self.last = time.monotonic()
        self.now: Progress | None = None
        self.length = 0

    def report(self, now: Progress) -> None:
        """Take note of how far it is, and say so now and then."""
        if self.now is None and now.before:
            print(f"Going on after row {now.before:,} of {now.rows:,}, kept from before", file=sys.stderr)
        self.now = now
        if self.on_terminal and time.monotonic() - self.last > _OFTEN:
            self.last = time.monotonic()
            line = tell_progress(now, self.last - self.began)
            print("\r" + line.ljust(self.length), end="", file=sys.stderr, flush=True)
            self.length = len(line)

    def end(self) -> None:
        """Take the line off the terminal."""
        if self.length:
            print("\r" + " " * self.length + "\r", end="", file=sys.stderr, flush=True)
            self.length = 0

    def tell_kept(self, out: Path) -> str:
        """What is left of the work when it is broken off."""
        if self.now is None or not self.now.done:
            return "nothing was done yet"
        return f"{_count_rows(self.now.done)} of {self.now.rows:,} are kept in {out}.part, and the same command goes on"


def tell_progress(now: Progress, seconds: float) -> str:
    """Return the line that says how far it is.

    Parameters
    ----------
    now: rows done, in all, and before this run
    seconds: since this run began [s]

    Example:
    >>> from lapwright.job.sweep.sweeping import Progress
    >>> tell_progress(Progress(done=1500, rows=10_000, before=500), 2.0)
    '1,500 of 10,000 rows, 500 a second, 17 s left'
    """
    fresh = now.done - now.before
    told = f"{now.done:,} of {now.rows:,} rows"
    if not fresh or seconds <= 0:
        return told
    rate = fresh / seconds
    return f"{told}, {rate:.3g} a second, {_show_time((now.rows - now.done) / rate)} left"


def _show_time(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    if hours:
        return f"{hours} h {minutes:02d} min"
    return f"{minutes} min {rest:02d} s" if minutes else f"{rest} s"
