"""The log book: what can be written into it and read out of it."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from lapwright.logbook import backups, entries, photographs, revisions, searching, summaries
from lapwright.logbook.connecting import Writer, reading
from lapwright.logbook.drafting import tidy_file_name
from lapwright.logbook.entry import LogSummary
from lapwright.logbook.pictures import examine_picture
from lapwright.logbook.places import locate_log

if TYPE_CHECKING:
    import sqlite3
    from datetime import datetime

    from lapwright.errors import CannotSave
    from lapwright.logbook.entry import Backup, Entry, EntryDraft, Kind, Photograph, Revision, Steps


@dataclass(frozen=True, slots=True)
class LogBook:
    """A log book that is open; any thread may use it."""

    folder: Path
    #: The connection that writes, or why there is none.
    _writer: Writer | CannotSave

    @property
    def read_only(self) -> bool:
        """Whether nothing can be written into it."""
        return not isinstance(self._writer, Writer)

    @property
    def why_read_only(self) -> str:
        """Why nothing can be written into it, in a sentence; empty where it can."""
        return "" if isinstance(self._writer, Writer) else self._writer.message

    def close(self) -> None:
        """Close it; what was acknowledged is on the disk already."""
        if isinstance(self._writer, Writer):
            self._writer.close()

    def add_entry(self, draft: EntryDraft, *, now: datetime) -> Entry:
        """Put a new entry into the log book.

        Raises
        ------
        CannotSave; NotOneOf, NoName, StrayCharacter, TooLarge, OutOfRange: something in the draft
        """
        with self._writing() as connection:
            return entries.add_entry(connection, draft, now=now)

    def change_entry(self, number: int, draft: EntryDraft, *, seen: int, now: datetime) -> Entry:
        """Write an entry anew; its photographs stay as they are.

        Parameters
        ----------
        number: the entry's `id`
        draft: all that it is to say
        seen: the entry's `version` as it was read
        now: the time

        Raises
        ------
        LogChanged: it has another version by now
        NotThere: it was removed
        CannotSave; NotOneOf, NoName, StrayCharacter, TooLarge, OutOfRange: something in the draft
        """
        with self._writing() as connection:
            return entries.change_entry(connection, number, draft, seen=seen, now=now)

    def remove_entry(self, number: int, *, seen: int) -> None:
        """Take an entry out of the log book; the files of its photographs stay.

        Parameters
        ----------
        number: the entry's `id`
        seen: the entry's `version` as it was read

        Raises
        ------
        LogChanged: it has another version by now
        NotThere: it was removed already
        CannotSave
        """
        with self._writing() as connection:
            entries.remove_entry(connection, number, seen=seen)

    def find_entry(self, number: int) -> Entry:
        """Find an entry by its `id`.

        Raises
        ------
        NotThere
        """
        with self._reading() as connection:
            return entries.find_entry(connection, number)

    def find_entries(
        self,
        *,
        engine: str | None = None,
        words: str = "",
        kind: Kind | None = None,
        open_only: bool = False,
        before: int | None = None,
        limit: int = 50,
    ) -> tuple[Entry, ...]:
        """Find entries, the newest first.

        Parameters
        ----------
        engine: of this engine only
        words: what is typed into a search, anything at all; each word may be the beginning of one in the text, the
            readings, the parts or the names of photographs
        kind: of this kind only
        open_only: open jobs only
        before: the `id` of the last entry of a list, for the page after it
        limit: how many at most

        Raises
        ------
        NotOneOf: no such kind
        NotThere: the entry of `before` was removed
        """
        wanted = searching.Wanted(engine, words, kind, open_only, before, limit)
        with self._reading() as connection:
            return searching.find_entries(connection, wanted)

    def summarise(self, engine: str) -> LogSummary:
        """Tell an engine's log in short."""
        return self.summarise_all().get(engine, LogSummary())

    def summarise_all(self) -> Mapping[str, LogSummary]:
        """Tell the log of every engine that has one in short, by engine."""
        with self._reading() as connection:
            return summaries.summarise_all(connection)

    def add_photograph(self, number: int, data: bytes, *, name: str, now: datetime) -> Photograph:
        """Keep a photograph as it is given, and put it to an entry, whose version stays.

        Parameters
        ----------
        number: the entry's `id`
        data: the file, at most 25 MB
        name: what the file was called
        now: the time

        Raises
        ------
        NotAPhotograph: it is no JPEG, PNG or WebP picture, or one of more than 60 million pixels
        TooLarge, NotThere, CannotSave
        """
        writing = self._writing()
        # Looking at a large picture takes a while, and nobody has to wait for it.
        picture = examine_picture(data, tidy_file_name(name))
        with writing as connection:
            entries.find_entry(connection, number)
            photographs.store_picture(self.folder, picture)
            return photographs.add_photograph(connection, number, picture, now=now)

    def remove_photograph(self, number: int, digest: str) -> None:
        """Take a photograph off an entry; its file stays.

        Raises
        ------
        NotThere, CannotSave
        """
        with self._writing() as connection:
            photographs.remove_photograph(connection, number, digest)

    def find_photograph(self, digest: str) -> Photograph:
        """Find what is known of a photograph.

        Raises
        ------
        NotThere
        """
        with self._reading() as connection:
            return photographs.find_photograph(connection, digest)

    def photograph(self, digest: str) -> bytes:
        """Return a photograph as it was given, with all that the camera wrote into it.

        Raises
        ------
        NotThere
        """
        return photographs.read_file(self.folder, self.find_photograph(digest))

    def thumbnail(self, digest: str) -> bytes:
        """Return a small upright JPEG picture of a photograph, its longer side 480 pixels at most.

        Raises
        ------
        NotThere; NotAPhotograph: its file was damaged
        """
        return photographs.read_thumbnail(self.folder, self.find_photograph(digest))

    def photograph_for_export(self, digest: str) -> bytes:
        """Return a photograph to be given away: upright, of the same form, without place, time or camera.

        Raises
        ------
        NotThere; NotAPhotograph: its file was damaged
        """
        return photographs.read_stripped(self.folder, self.find_photograph(digest))

    def photograph_for_paper(self, digest: str) -> bytes:
        """Return a photograph to be printed: an upright JPEG picture, its longer side 1400 pixels at most.

        Raises
        ------
        NotThere; NotAPhotograph: its file was damaged
        """
        return photographs.read_for_paper(self.folder, self.find_photograph(digest))

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

    def back_up(self, *, now: datetime) -> Path:
        """Copy the log book into backups/ as it is at this moment, and keep the ten newest copies.

        Raises
        ------
        CannotSave
        """
        self._check_writable()
        with self._reading() as connection:
            return backups.make_backup(connection, self.folder, now=now)

    def list_backups(self) -> tuple[Backup, ...]:
        """List the copies in backups/, the newest first."""
        return backups.list_backups(self.folder)

    def _reading(self) -> AbstractContextManager[sqlite3.Connection]:
        return reading(locate_log(self.folder), may_write=not self.read_only)

    def _writing(self) -> AbstractContextManager[sqlite3.Connection]:
        return self._check_writable().transaction()

    def _check_writable(self) -> Writer:
        if isinstance(self._writer, Writer):
            return self._writer
        raise self._writer.with_traceback(None)
