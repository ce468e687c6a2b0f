"""The log book: what can be written into it and read out of it."""

from __future__ import annotations

from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from lapwright.errors import CannotSave
from lapwright.logbook import revisions
from lapwright.logbook.connecting import Writer, reading
from lapwright.logbook.trouble import show_path

if TYPE_CHECKING:
    import sqlite3
    from datetime import datetime

    from lapwright.logbook.entry import Revision, Steps


@dataclass(slots=True)
class LogBook:
    """A log book that is open; any thread may use it. `why_read_only` is empty where it can be written."""

    folder: Path
    path: Path
    why_read_only: str = ""
    _writer: Writer | None = None
    _fixed: bool = False

    @property
    def read_only(self) -> bool:
        """Whether nothing can be written into it."""
        return self._writer is None

    def close(self) -> None:
        """Close it; what was acknowledged is on the disk already."""
        if self._writer is not None:
            with self._writer.lock:
                self._writer.connection.close()

    def keep_revision(self, engine: str, text: str, *, digest: str, what: str, now: datetime) -> Revision:
        """Put a text of a record behind the one it stands at, and cut off what had been undone.

        Keep the text as it stands before a change (what was edited by hand is then not lost) and the text after it; a
        text that the record stands at already is not put twice. The newest 200 of an engine stay.

        Parameters
        ----------
        engine: whose record
        text: the whole record
        digest: the SHA-256 of the record's bytes, as `OpenedRecord.digest`
        what: the change that led to this text, in a few words
        now: the time

        Raises
        ------
        CannotSave
        """
        with self._writing() as connection:
            return revisions.keep_revision(connection, engine, text, digest=digest, what=what, now=now)

    def list_revisions(self, engine: str, limit: int = 50) -> tuple[Revision, ...]:
        """List the texts of a record that are kept, the newest first; those that were undone stand before the rest."""
        with self._reading() as connection:
            return revisions.list_revisions(connection, engine, limit)

    def undo_revision(self, engine: str, digest: str) -> Revision | None:
        """Step back to the text before the one the record stands at.

        Parameters
        ----------
        engine: whose record
        digest: that of the record's file as it is now; from a text that was never kept, the way back leads to the last
            one that was. Should the file then not be saved, nothing is lost: the next call goes by the digest again.

        Returns
        -------
        the revision whose text is to be saved; None where there is nothing before

        Raises
        ------
        CannotSave
        """
        with self._writing() as connection:
            return revisions.move_standing(connection, engine, digest, by=-1)

    def redo_revision(self, engine: str, digest: str) -> Revision | None:
        """Step forward to the text that was undone last.

        Parameters
        ----------
        engine: whose record
        digest: that of the record's file as it is now

        Returns
        -------
        the revision whose text is to be saved; None where nothing was undone, or the file was changed since

        Raises
        ------
        CannotSave
        """
        with self._writing() as connection:
            return revisions.move_standing(connection, engine, digest, by=1)

    def find_steps(self, engine: str, digest: str) -> Steps:
        """Find what undo and redo would do for a record whose file has this digest; nothing is moved."""
        with self._reading() as connection:
            return revisions.find_steps(connection, engine, digest)

    def _reading(self) -> AbstractContextManager[sqlite3.Connection]:
        return reading(self.path, fixed=self._fixed)

    def _writing(self) -> AbstractContextManager[sqlite3.Connection]:
        if self._writer is None:
            raise CannotSave(show_path(self.path), self.why_read_only)
        return self._writer.transaction()
