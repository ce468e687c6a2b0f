"""The nouns of the log book: entries, photographs, revisions of a record, and what is told of an engine in short."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, get_args

if TYPE_CHECKING:
    from datetime import datetime

Kind = Literal["found", "done", "measured", "run", "note"]
Job = Literal["", "open", "closed"]
KINDS: tuple[Kind, ...] = get_args(Kind)
JOBS: tuple[Job, ...] = get_args(Job)


@dataclass(frozen=True, slots=True)
class Reading:
    """One figure that was read, under its name, as the person wrote it."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class Photograph:
    """A photograph of an entry. `digest` is the SHA-256 of its bytes; width and height are in pixels, seen upright."""

    digest: str
    name: str
    form: Literal["jpg", "png", "webp"]
    width: int
    height: int
    added: datetime

    @property
    def media_type(self) -> str:
        """What a browser calls this kind of picture."""
        return "image/jpeg" if self.form == "jpg" else f"image/{self.form}"


@dataclass(frozen=True, slots=True)
class EntryDraft:
    """What a person writes into the log book.

    `when` is the clock time on the bench, without a zone; None for now, or in a change for as it stands. `job` is empty
    where the entry is no job. `minutes` is the time spent.
    """

    engine: str
    kind: Kind
    text: str = ""
    when: datetime | None = None
    readings: tuple[Reading, ...] = ()
    parts_used: tuple[str, ...] = ()
    minutes: int | None = None
    job: Job = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry of the log book. `version` counts its changes from 1 and is wanted back with the next one.

    `when` is the time the entry speaks of, to the second; `saved` is when it was last written.
    """

    id: int
    version: int
    engine: str
    when: datetime
    kind: Kind
    text: str
    readings: tuple[Reading, ...]
    parts_used: tuple[str, ...]
    minutes: int | None
    job: Job
    photographs: tuple[Photograph, ...]
    saved: datetime


@dataclass(frozen=True, slots=True)
class LogSummary:
    """An engine's log in short. `last_run` tells the newest run in one line, `last_when` when it was; None for none."""

    entries: int = 0
    open_jobs: int = 0
    last_run: str = ""
    last_when: datetime | None = None


@dataclass(frozen=True, slots=True)
class Revision:
    """One text that a record had, and what had been done to get there."""

    engine: str
    number: int
    text: str
    digest: str
    what: str
    when: datetime


@dataclass(frozen=True, slots=True)
class Steps:
    """Whether there is a revision to go back to and one to go forward to, and the change that this undoes or redoes."""

    can_undo: bool = False
    can_redo: bool = False
    undoes: str = ""
    redoes: str = ""


@dataclass(frozen=True, slots=True)
class Backup:
    """A copy of the log book under backups/. `size` is in bytes."""

    name: str
    when: datetime
    size: int
