"""The texts that the records of a workshop have had, so that every change can be undone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from datetime import datetime

from lapwright.errors import CannotSave
from lapwright.logbook import LogBook, LogSummary, Revision, Steps
from lapwright.record import OpenedRecord

AS_FOUND, BY_HAND = "as it was found", "edited in the file"
#: As many as the log book keeps of an engine.
_ALL = 200


class History:
    """What the log book keeps of the records; without a log book there is none, and nothing can be changed."""

    def __init__(self, log: LogBook | None, *, clock: Callable[[], datetime], why_none: CannotSave | None) -> None:
        self._log = log
        self._clock = clock
        self._why_none = why_none

    @property
    def log(self) -> LogBook:
        """The log book.

        Raises
        ------
        CannotSave: there is none, and none can be begun
        """
        if self._log is None:
            raise self._why_none or CannotSave("the log book", "there is none")
        return self._log

    @property
    def log_or_none(self) -> LogBook | None:
        """The log book, None where there is none."""
        return self._log

    def now(self) -> datetime:
        """Tell what time it is."""
        return self._clock()

    def keep_before(self, engine: str, now: OpenedRecord) -> None:
        """Keep the text that stands in the file before it is changed: as it was found, or as a hand edited it.

        Raises
        ------
        CannotSave
        """
        what = BY_HAND if self.log.list_revisions(engine, 1) else AS_FOUND
        self.log.keep_revision(engine, now.text, digest=now.digest, what=what, now=self._clock())

    def keep_after(self, engine: str, new: OpenedRecord, *, what: str) -> None:
        """Keep the text that was saved. Should that fail, the next change keeps it: the record itself is safe."""
        with suppress(CannotSave):
            self.log.keep_revision(engine, new.text, digest=new.digest, what=what, now=self._clock())

    def step(self, engine: str, digest: str, *, back: bool) -> Revision | None:
        """Step to the text before, or to the one that was undone last; None where there is none.

        Raises
        ------
        CannotSave
        """
        return (self.log.undo_revision if back else self.log.redo_revision)(engine, digest)

    def step_again(self, engine: str, revision: Revision, *, back: bool) -> None:
        """Take a step again whose text could not be saved."""
        with suppress(CannotSave):
            self.step(engine, revision.digest, back=not back)

    def find_steps(self, engine: str, digest: str) -> Steps:
        """Find what undo and redo would do to a record as it is now."""
        return Steps() if self._log is None else self._log.find_steps(engine, digest)

    def find_text(self, engine: str, digest: str) -> str | None:
        """Find a text that a record had, None where it is not kept."""
        texts = () if self._log is None else self._log.list_revisions(engine, _ALL)
        return next((revision.text for revision in texts if revision.digest == digest), None)

    def knows(self, engine: str) -> bool:
        """Whether an engine of this id has left anything in the log book."""
        log = self._log
        return log is not None and bool(log.list_revisions(engine, 1) or log.find_entries(engine=engine, limit=1))

    def summarise_all(self) -> Mapping[str, LogSummary]:
        """Tell in short what the log book tells of each engine that has been in it."""
        return {} if self._log is None else self._log.summarise_all()
