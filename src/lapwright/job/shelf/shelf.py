"""What the shelf tells of each engine, worked out anew only for records that have changed."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from lapwright.errors import BadInput
from lapwright.job.shelf.drawing import draw_for_shelf
from lapwright.job.shelf.record_files import list_record_files
from lapwright.logbook import LogSummary
from lapwright.papers.drawing import Drawing
from lapwright.record import OpenedRecord, open_record


@dataclass(frozen=True, slots=True)
class ShelfEntry:
    """One engine on the shelf.

    `problems` counts everything wrong with its record, `errors` what keeps answers back; `drawing` is None where a size
    of it is missing; `last_run` tells the newest run in a line, empty where there was none. `bore` and `stroke` are as
    written, `fluid` and `valve` words of the record; empty where nobody gave them.
    """

    id: str
    name: str
    bore: str
    stroke: str
    fluid: str
    valve: str
    cylinders: int
    problems: int
    errors: int
    drawing: Drawing | None
    changed: datetime
    open_jobs: int = 0
    last_run: str = ""


class Shelf:
    """The engines of a folder; a file that has not changed is not read again."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._known: dict[Path, tuple[tuple[int, int, int], ShelfEntry]] = {}

    def list_entries(self, summaries: Mapping[str, LogSummary]) -> tuple[ShelfEntry, ...]:
        """List the engines in the order of their names.

        Parameters
        ----------
        summaries: what the log book tells, by engine
        """
        entries = []
        for engine, path in list_record_files(self.folder):
            try:
                entry = self._tell(engine, path, os.stat(path))
            except FileNotFoundError:  # taken away since the folder was read
                continue
            summary = summaries.get(engine, LogSummary())
            entries.append(replace(entry, open_jobs=summary.open_jobs, last_run=summary.last_run))
        return tuple(sorted(entries, key=lambda entry: (entry.name.casefold(), entry.id)))

    def refuse_taken(self, name: str) -> None:
        """Refuse a name that an engine on the shelf has, in whatever case.

        Parameters
        ----------
        name: of a new one

        Raises
        ------
        BadInput: with a name that is free
        """
        taken = {_fold(entry.name): entry.name for entry in self.list_entries({})}
        if _fold(name) not in taken:
            return
        name, number = taken[_fold(name)], 2
        while _fold(f"{name} ({number})") in taken:
            number += 1
        raise BadInput(
            f"there is an engine called {name} on the shelf already",
            f'call this one otherwise, or take "{name} ({number})"',
        )

    def _tell(self, engine: str, path: Path, found: os.stat_result) -> ShelfEntry:
        """What the file alone tells."""
        state = found.st_mtime_ns, found.st_size, found.st_ino
        known = self._known.get(path)
        if known is None or known[0] != state:
            entry = _read_entry(engine, open_record(path), datetime.fromtimestamp(found.st_mtime))
            known = self._known[path] = (state, entry)
        return known[1]


def _fold(name: str) -> str:
    return " ".join(name.split()).casefold()


def _read_entry(file: str, record: OpenedRecord, changed: datetime) -> ShelfEntry:
    engine, written = record.engine, record.written
    return ShelfEntry(
        id=file,
        name=(engine.name if engine else written.get("engine.name", "")) or file,
        bore=written.get("cylinder.0.bore", ""),
        stroke=written.get("cylinder.0.stroke", ""),
        fluid=(engine.fluid or "") if engine else "",
        valve=written.get("cylinder.0.valve.kind", ""),
        cylinders=len(engine.cylinders) if engine else 0,
        problems=len(record.problems),
        errors=sum(problem.severity == "error" for problem in record.problems),
        drawing=draw_for_shelf(engine) if engine and engine.cylinders else None,
        changed=changed,
    )
