"""What a page of the log shows: entries, their readings read back, the open jobs, and where the next page begins."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from lapwright.errors import CannotSave
from lapwright.job.in_words import say_reading
from lapwright.job.log.draft import show_spent
from lapwright.job.log.reading import tell_in_other_unit
from lapwright.job.shelf.workshop import Workshop
from lapwright.logbook import KINDS as _KINDS
from lapwright.logbook import Entry
from lapwright.logbook.entry import Kind

#: The kinds of entries, in the order in which they are offered.
KINDS = _KINDS
#: Entries on a page, and open jobs above it.
PAGE, _MOST_JOBS = 25, 50


@dataclass(frozen=True, slots=True)
class Search:
    """What is looked for; `before` is the last entry of the page before."""

    words: str = ""
    kind: Kind | None = None
    open_only: bool = False
    before: int | None = None

    @property
    def is_plain(self) -> bool:
        """Whether the whole log is wanted from its newest entry on."""
        return not (self.words.strip() or self.kind or self.open_only or self.before)


@dataclass(frozen=True, slots=True)
class ShownReading:
    """A reading as it was written, and what it comes to in another unit; empty where there is none."""

    name: str
    value: str
    said: str


@dataclass(frozen=True, slots=True)
class ShownEntry:
    """An entry as a page shows it. `engine_name` is empty where its record is gone."""

    entry: Entry
    engine_name: str
    readings: tuple[ShownReading, ...]
    spent: str


@dataclass(frozen=True, slots=True)
class LogSheet:
    """A page of the log. `open_jobs` are told with its first page alone; `older` is where the next one begins.

    `why_read_only` says why nothing can be written into it, and is empty where it can.
    """

    entries: tuple[ShownEntry, ...] = ()
    open_jobs: tuple[ShownEntry, ...] = ()
    older: int | None = None
    why_read_only: str = ""


def lay_log(workshop: Workshop, engine: str | None, search: Search) -> LogSheet:
    """Gather a page of the log.

    Parameters
    ----------
    workshop: whose log
    engine: of which only; None for all of them
    search: what is looked for

    Raises
    ------
    NotThere, NotOneOf
    """
    try:
        log = workshop.log
    except CannotSave as error:
        return LogSheet(why_read_only=error.message)
    found = log.find_entries(
        engine=engine,
        words=search.words,
        kind=search.kind,
        open_only=search.open_only,
        before=search.before,
        limit=PAGE + 1,
    )
    jobs = log.find_entries(engine=engine, open_only=True, limit=_MOST_JOBS) if search.is_plain else ()
    names = name_engines(workshop)
    page = found[:PAGE]
    return LogSheet(
        tuple(show_entries(page, names)),
        tuple(show_entries(jobs, names)),
        page[-1].id if len(found) > PAGE else None,
        log.why_read_only,
    )


def show_entries(entries: Iterable[Entry], names: Mapping[str, str]) -> Iterable[ShownEntry]:
    """Yield entries as a page shows them.

    Parameters
    ----------
    entries: from the log
    names: of the engines, by id
    """
    for entry in entries:
        said = (say_reading(each.name, each.value) for each in entry.readings)
        readings = tuple(ShownReading(name, value, tell_in_other_unit(value).said) for name, value in said)
        spent = "" if entry.minutes is None else show_spent(entry.minutes)
        yield ShownEntry(entry, names.get(entry.engine, ""), readings, spent)


def name_engines(workshop: Workshop) -> dict[str, str]:
    """Return the names of a workshop's engines by id, in the order of the shelf."""
    return workshop.name_engines()


def pick_kind(written: str) -> Kind | None:
    """Return the kind of entries that is looked for, None where it is none of the log's.

    Example:
    >>> pick_kind("run"), pick_kind("")
    ('run', None)
    """
    return next((kind for kind in KINDS if kind == written), None)
