"""A whole log added up: its entries from the first to the last, the time spent, the parts used."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from lapwright.errors import CannotSave
from lapwright.job.log.draft import show_spent
from lapwright.job.shelf.workshop import Workshop
from lapwright.logbook import Entry, LogBook, Photograph

#: More entries than any engine gets in a lifetime.
_ALL = 100_000


@dataclass(frozen=True, slots=True)
class Shot:
    """A photograph with the day and the first line of its entry."""

    photograph: Photograph
    when: datetime
    words: str


@dataclass(frozen=True, slots=True)
class Tally:
    """The log of one engine. `entries` go from the first to the last; `spent` is empty where no time was noted."""

    entries: tuple[Entry, ...]
    spent: str

    @property
    def with_parts(self) -> tuple[Entry, ...]:
        """The entries for which parts were used."""
        return tuple(entry for entry in self.entries if entry.parts_used)

    @property
    def open_jobs(self) -> tuple[Entry, ...]:
        """What is still to be done."""
        return tuple(entry for entry in self.entries if entry.job == "open")


def find_log(workshop: Workshop) -> LogBook | None:
    """Return the log book of a workshop; None where there is none and none can be begun, as on a read-only disk.

    Parameters
    ----------
    workshop: whose log
    """
    try:
        return workshop.log
    except CannotSave:
        return None


def add_up_log(workshop: Workshop, engine: str) -> Tally:
    """Add up the log of an engine.

    Parameters
    ----------
    workshop: whose log
    engine: its id
    """
    log = find_log(workshop)
    entries = () if log is None else log.find_entries(engine=engine, limit=_ALL)[::-1]
    minutes = [entry.minutes for entry in entries if entry.minutes is not None]
    return Tally(entries, show_spent(sum(minutes)) if minutes else "")


def list_shots(tally: Tally, kind: str) -> tuple[Shot, ...]:
    """List the photographs of the entries of one kind, the first taken first.

    Parameters
    ----------
    tally: the log
    kind: of the entries
    """
    return tuple(
        Shot(photograph, entry.when, entry.text.partition("\n")[0])
        for entry in tally.entries
        if entry.kind == kind
        for photograph in entry.photographs
    )
