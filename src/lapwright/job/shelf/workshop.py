"""The workshop: a folder of engine records with the log book beside them, and everything that is done to them."""

from __future__ import annotations

import os
from collections import OrderedDict
from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager, nullcontext, suppress
from datetime import datetime
from pathlib import Path
from threading import Lock

from lapwright.errors import CannotSave, RecordChanged
from lapwright.job.shelf.archive import pack_archive
from lapwright.job.shelf.bringing_in import put_into_log, read_arrival
from lapwright.job.shelf.changes import Changed, check_readable, check_size, check_text, refuse_clash, set_keys
from lapwright.job.shelf.history import History
from lapwright.job.shelf.putting_away import find_put_away, put_away
from lapwright.job.shelf.record_keeper import RecordKeeper
from lapwright.job.shelf.shelf import Shelf, ShelfEntry
from lapwright.job.shelf.workshop_folder import check_folder
from lapwright.job.visit import Visit, examine_opened
from lapwright.logbook import LogBook, Revision, Steps, open_logbook
from lapwright.record import OpenedRecord, add_place, blank_record, compare_records, remove_place
from lapwright.record.words import read_name

#: Visits that are kept.
_VISITS = 8
#: Letters of a value that the history tells.
_LONGEST_TOLD = 60


class Workshop:
    """One folder. Any thread may use it; changes are made one after the other."""

    def __init__(self, folder: Path, history: History) -> None:
        self.folder = folder
        self._history = history
        self._records = RecordKeeper(folder, history)
        self._shelf = Shelf(folder)
        self._visiting = Lock()
        self._visits: OrderedDict[tuple[str, str], Visit] = OrderedDict()

    @property
    def log(self) -> LogBook:
        """The log book.

        Raises
        ------
        CannotSave: there is none yet, and none can be begun in this folder
        """
        return self._history.log

    def list_shelf(self) -> tuple[ShelfEntry, ...]:
        """List the engines by name, each with its state."""
        return self._shelf.list_entries(self._history.summarise_all())

    def name_engines(self) -> dict[str, str]:
        """Return the engines' names by id, in the order of the shelf, without looking into the log."""
        return {entry.id: entry.name for entry in self._shelf.list_entries({})}

    def open_engine(self, engine: str) -> OpenedRecord:
        """Open an engine's record.

        Parameters
        ----------
        engine: its id

        Raises
        ------
        NotThere
        """
        return self._records.open(engine)

    def visit(self, engine: str) -> Visit:
        """Return the visit that answers everything about an engine, the same one while its record stays the same.

        Parameters
        ----------
        engine: its id

        Raises
        ------
        NotThere
        FlawedRecord: the record has errors; they are listed in its `problems`
        """
        record = self.open_engine(engine)
        with self._visiting:
            visit = self._visits.get((engine, record.digest)) or examine_opened(record)
            self._visits[engine, record.digest] = visit
            self._visits.move_to_end((engine, record.digest))
            while len(self._visits) > _VISITS:
                self._visits.popitem(last=False)
            return visit

    def change(self, engine: str, key: str, value: str | None, *, digest: str, seen: str | None) -> Changed:
        """Set a key of a record, also of one that was changed elsewhere since it was read, unless at this very key.

        Parameters
        ----------
        engine: its id
        key: record path, such as `cylinder.0.valve.length`
        value: as the person wrote it; None takes the key out
        digest: of the record that was read
        seen: what the key said there, None where it did not stand

        Raises
        ------
        NotThere, CannotChange, CannotSave, TooLarge
        RecordClash: the key says something else by now; with all three texts
        """
        return self.change_keys(engine, {key: value}, digest=digest, seen={key: seen})

    def change_keys(
        self,
        engine: str,
        values: Mapping[str, str | None],
        *,
        digest: str,
        seen: Mapping[str, str | None],
        why: str = "",
    ) -> Changed:
        """Set several keys of a record in one step, such as those of a cure: all of them, or none.

        Parameters
        ----------
        engine: its id
        values: by record path, as the person wrote them; None takes a key out
        digest: of the record that was read
        seen: what each of the keys said there, None where it did not stand
        why: what the history says first, such as that work was done

        Raises
        ------
        NotThere, CannotChange, CannotSave, TooLarge
        RecordClash: one of the keys says something else by now; with all three texts
        """

        def edit(now: OpenedRecord) -> str:
            new = set_keys(now, values)
            if now.digest != digest:
                for key, value in values.items():
                    refuse_clash(now, key, seen=seen.get(key), value=value)
            return new

        what = f"{why}: {_tell(values)}" if why else _tell(values)
        return self._records.change(engine, edit, digest=digest, what=what, besides=values)

    def replace_text(self, engine: str, text: str, *, digest: str) -> Changed:
        """Put a whole new text in a record's place; where the file was changed since, keys are merged if that is sure.

        Parameters
        ----------
        engine: its id
        text: the whole record, flawed or not
        digest: of the record that was read

        Raises
        ------
        NotThere, CannotChange, CannotSave, TooLarge
        RecordClash: one key was changed on both sides
        RecordChanged: the file was changed, and the two cannot be merged without losing something
        """
        check_text(text)
        check_size(text)

        def edit(now: OpenedRecord) -> str:
            check_readable(now)
            return text if now.digest == digest else self._records.merge(engine, now, text=text, digest=digest)

        return self._records.change(engine, edit, digest=digest, what="the whole text")

    def add_part(self, engine: str, list_name: str, *, digest: str) -> Changed:
        """Make room in a record for one part more; `place` of the answer is its record path.

        Parameters
        ----------
        engine: its id
        list_name: `cylinder`, `cylinder.0.gland`, `fastener`, `pin` or `bench_test`
        digest: of the record that was read

        Raises
        ------
        NotThere, CannotChange, CannotSave
        """
        place = ""

        def edit(now: OpenedRecord) -> str:
            nonlocal place
            check_readable(now)
            new, place = add_place(now.text, list_name)
            return new

        changed = self._records.change(engine, edit, digest=digest, what=f"{list_name} added")
        return Changed(changed.record, changed.merged, changed.others, place)

    def remove_part(self, engine: str, place: str, *, digest: str) -> Changed:
        """Take a part out of a record; those behind it move up.

        Parameters
        ----------
        engine: its id
        place: its record path, such as `fastener.1`
        digest: of the record that was read

        Raises
        ------
        NotThere, CannotChange, CannotSave
        RecordChanged: parts of its kind were changed in the file since
        """

        def edit(now: OpenedRecord) -> str:
            check_readable(now)
            if now.digest != digest:
                base = self._records.find_text(engine, digest)
                kind = place.rpartition(".")[0] + "."
                if base is None or any(change.key.startswith(kind) for change in compare_records(base, now.text)):
                    raise RecordChanged(os.path.basename(now.source))
            return remove_place(now.text, place)

        return self._records.change(engine, edit, digest=digest, what=f"{place} taken out")

    def find_steps(self, engine: str) -> Steps:
        """Find whether there is something to undo and to redo, and what.

        Parameters
        ----------
        engine: its id

        Raises
        ------
        NotThere
        """
        return self._history.find_steps(engine, self.open_engine(engine).digest)

    def can_undo(self, engine: str) -> bool:
        """Whether there is a change of an engine's record to undo."""
        return self.find_steps(engine).can_undo

    def can_redo(self, engine: str) -> bool:
        """Whether there is an undone change of an engine's record to make again."""
        return self.find_steps(engine).can_redo

    def list_revisions(self, engine: str, limit: int = 50) -> tuple[Revision, ...]:
        """List the texts that a record had, the newest first."""
        return self._history.log.list_revisions(engine, limit)

    def undo(self, engine: str, *, digest: str) -> Changed:
        """Bring back the text that a record had before its last change; what a hand edited since is kept for redo.

        Parameters
        ----------
        engine: its id
        digest: of the record that was read

        Raises
        ------
        NotThere: no such engine, or nothing to undo
        RecordChanged, CannotSave
        """
        return self._records.step(engine, digest=digest, back=True)

    def redo(self, engine: str, *, digest: str) -> Changed:
        """Bring back the text that was undone last.

        Parameters
        ----------
        engine: its id
        digest: of the record that was read

        Raises
        ------
        NotThere: no such engine, or nothing to redo
        RecordChanged, CannotSave
        """
        return self._records.step(engine, digest=digest, back=False)

    def create(self, name: str) -> str:
        """Begin a record for a new engine and return its id.

        Parameters
        ----------
        name: what the engine is called

        Raises
        ------
        NoName, StrayCharacter, CannotSave
        BadInput: one on the shelf is called so
        """
        name = read_name(name)
        with self._records.lock:
            self._shelf.refuse_taken(name)
            return self._records.begin(name, blank_record(name))

    def copy(self, engine: str, name: str) -> str:
        """Copy an engine's record under another name and return the id of the copy.

        Parameters
        ----------
        engine: id of the one that is copied
        name: what the copy is called

        Raises
        ------
        NotThere, NoName, StrayCharacter, CannotSave
        BadInput: one on the shelf is called so
        CannotChange: the record is too flawed to be given another name
        """
        name, record = read_name(name), self.open_engine(engine)
        with self._records.lock:
            self._shelf.refuse_taken(name)
            return self._records.begin(name, set_keys(record, {"engine.name": name}))

    def put_away(self, engine: str) -> str:
        """Take an engine off the shelf and return the name of its file, which is kept beside it as its log is.

        Parameters
        ----------
        engine: its id

        Raises
        ------
        NotThere, CannotSave
        """
        with self._records.lock:
            return put_away(self.folder, engine, now=self._history.now())

    def export(self, engine: str) -> tuple[str, bytes]:
        """Return an engine as one file to give away: its name, and a zip of record, log and photographs.

        Parameters
        ----------
        engine: its id

        Raises
        ------
        NotThere
        CannotSave: the file cannot be read
        """
        return f"{engine}.zip", pack_archive(engine, self._records.read_bytes(engine), self._history.log_or_none)

    def bring_in(self, filename: str, data: bytes) -> str:
        """Put an engine that comes from elsewhere on the shelf and return its id; one that is taken gets a number.

        A record that was put away here, and comes back as it was, is the engine again that it was, log and all.

        Parameters
        ----------
        filename: what the file was called
        data: an archive that a shelf made, or a bare record, flawed or not

        Raises
        ------
        NotAnArchive, TooLarge, NotAPhotograph, CannotSave, and what the log book says of an entry
        """
        arrival = read_arrival(filename, data)

        def fill_log(engine: str) -> AbstractContextManager[None]:
            if not arrival.entries:
                return nullcontext()
            return put_into_log(arrival, engine, self.log, now=self._history.now())

        with self._records.lock:
            known = None if arrival.entries else find_put_away(self.folder, data)
            return self._records.begin(arrival.name, arrival.text, around=fill_log, known=known)

    def close(self) -> None:
        """Close the log book; what was acknowledged is on the disk already."""
        with suppress(CannotSave):
            self.log.close()


def open_workshop(folder: Path, *, clock: Callable[[], datetime] = datetime.now) -> Workshop:
    """Open the workshop of a folder.

    Parameters
    ----------
    folder: where the records are
    clock: tells what time it is

    Raises
    ------
    NotThere: no such folder
    DamagedLog: the log book does not pass its check; the sentence tells the way back
    NewerLog: a later version of the program wrote it
    """
    check_folder(folder)
    log, why_none = None, None
    try:
        log = open_logbook(folder, now=clock())
    except CannotSave as error:
        why_none = error
    return Workshop(folder, History(log, clock=clock, why_none=why_none))


def _tell(values: Mapping[str, str | None]) -> str:
    """Say in a few words what was done to keys."""
    key, value = next(iter(values.items()), ("", ""))
    told = f"{key} taken out" if value is None else f"{key}: {value[:_LONGEST_TOLD]}"
    return told if len(values) == 1 else f"{told} and {len(values) - 1} more"
