"""Each engine's log in short, for the shelf."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping

from lapwright.logbook.entry import LogSummary
from lapwright.logbook.times import read_time

# The newest run of an engine is one step down an index, however many entries there are.
_SUMMARIES = """
WITH tally AS (
    SELECT engine, count(*) AS entries,
        (SELECT count(*) FROM entry AS job WHERE job.engine = entry.engine AND job.job = 'open') AS open_jobs,
        (SELECT max(place) FROM entry AS run WHERE run.engine = entry.engine AND run.kind = 'run') AS last
    FROM entry GROUP BY engine
)
SELECT tally.engine, entries, open_jobs, happened, text,
    (SELECT group_concat(name || ' ' || value, ', ') FROM reading WHERE entry = run.id)
FROM tally LEFT JOIN entry AS run ON run.place = last
"""


def summarise_all(connection: sqlite3.Connection) -> Mapping[str, LogSummary]:
    """Tell every engine's log in short, by engine."""
    return {row[0]: _summarise(*row[1:]) for row in connection.execute(_SUMMARIES)}


def _summarise(entries: int, open_jobs: int, happened: str | None, *told: str | None) -> LogSummary:
    if happened is None:
        return LogSummary(entries, open_jobs)
    text, readings = (part or "" for part in told)
    return LogSummary(entries, open_jobs, text.partition("\n")[0] or readings, read_time(happened))
