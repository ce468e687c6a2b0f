"""All that an engine's dossier is made from, handed in by whoever read the log book: no file and no clock in here."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.papers.drawing import Drawing

Rows = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Photo:
    """A photograph as JPEG, upright; `width` and `height` are in pixels."""

    data: bytes
    width: int
    height: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DossierEntry:
    """One entry of the log book.

    `day` and `hour` are as they shall be printed. `readings` pairs names with figures as they were written. `spent`
    says in words how much time it took. `job` is empty where the entry is no job, else "open" or "closed".
    """

    day: str
    hour: str
    text: str
    readings: Rows = ()
    parts_used: tuple[str, ...] = ()
    spent: str = ""
    job: str = ""
    photographs: tuple[Photo, ...] = ()


@dataclass(frozen=True, slots=True)
class Chapter:
    """The entries of one kind under their title, the oldest first."""

    title: str
    entries: tuple[DossierEntry, ...]


@dataclass(frozen=True, slots=True)
class SizeTable:
    """The sizes of one table of the record: their names, and each as it stands there."""

    title: str
    rows: Rows


@dataclass(frozen=True, slots=True, kw_only=True)
class DossierMatter:
    """Everything in a dossier.

    `date` is as it shall be printed. `about` and `notes` say what the engine is, `picture` shows it where its sizes are
    known. `open_jobs` are lines with their dates. `parts_used` has a row to each entry with parts: day, parts. `spent`
    is the whole time in words. `cautions` go with work on the engine.
    """

    name: str
    record_name: str
    record_digest: str
    date: str
    about: Rows = ()
    notes: str = ""
    picture: Drawing | None = None
    open_jobs: Rows = ()
    chapters: tuple[Chapter, ...] = ()
    parts_used: Rows = ()
    spent: str = ""
    sizes: tuple[SizeTable, ...] = ()
    cautions: tuple[str, ...] = ()
