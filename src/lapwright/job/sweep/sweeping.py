"""Working through many settings into a table: on all cores or a cluster, and going on where it was broken off."""

from __future__ import annotations

import os
from collections.abc import Callable, Generator, Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from lapwright.job.sweep.crew import Span, work_alone, work_together
from lapwright.job.sweep.plan import SweepPlan
from lapwright.job.sweep.table import check_place, finish_table, name_part, open_part

#: Rows handed out at a time: a fraction of a second's work, also where each takes many runs.
_ROWS, _ROWS_OF_MANY_RUNS = 32, 4


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a sweep is: rows done, rows in all, and how many were there when it began."""

    done: int
    rows: int
    before: int


@dataclass(frozen=True, slots=True)
class Swept:
    """A finished table: how many rows it has, and how many settings could not be run."""

    rows: int
    flawed: int


def sweep_settings(
    plan: SweepPlan,
    table: Path,
    *,
    record: str = "",
    jobs: int | None = None,
    cluster: str | None = None,
    report: Callable[[Progress], None] = lambda _: None,
) -> Swept:
    """Work out every setting of a plan and write them as one table, row by row in the plan's order.

    Whatever stops it, the rows so far are kept beside the table, and the same call goes on from them. The table is the
    same to the byte however many processes work on it.

    Parameters
    ----------
    plan: from `plan_sweep`
    table: the file to write, CSV or Parquet by its name
    record: the engine record's file, which is not to be written over
    jobs: how many processes; one for each core where it is None
    cluster: the address of a running Dask scheduler, which takes their place
    report: told how far it is, once at the start and after each few rows

    Raises
    ------
    CannotSweep, CannotSave: why it does not begin, or does not go on
    """
    check_place(table, record)
    with open_part(table, plan) as part:
        before = part.rows
        report(Progress(before, plan.rows, before))
        spans = _cut_spans(part.rows, plan)
        with closing(_choose_crew(plan, spans, jobs=jobs, cluster=cluster)) as crew:
            for lines in crew:
                part.add(lines)
                report(Progress(part.rows, plan.rows, before))
        finish_table(part, table, plan)
    name_part(table).unlink(missing_ok=True)
    return Swept(part.rows, part.flawed)


def _cut_spans(start: int, plan: SweepPlan) -> Iterator[Span]:
    size = _ROWS_OF_MANY_RUNS if plan.loaded or plan.asked.least_pressure else _ROWS
    for first in range(start, plan.rows, size):
        yield first, min(first + size, plan.rows)


def _choose_crew(
    plan: SweepPlan, spans: Iterator[Span], *, jobs: int | None, cluster: str | None
) -> Generator[bytes, None, None]:
    if cluster is not None:
        from lapwright.job.sweep.cluster import work_on_cluster

        return work_on_cluster(plan, spans, address=cluster)
    count = jobs or count_cores()
    return work_alone(plan, spans) if count == 1 else work_together(plan, spans, jobs=count)


def count_cores() -> int:
    """Return how many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
