"""The records of a workshop's folder as they are read, changed and saved: never over a text that was not read."""

from __future__ import annotations

import os
from collections import OrderedDict
from collections.abc import Callable, Container
from contextlib import AbstractContextManager, nullcontext
from pathlib import Path
from threading import Lock, RLock

from lapwright.errors import CannotChange, CannotSave, NotThere, RecordChanged, RecordClash
from lapwright.job.shelf.changes import Changed, Edit, check_readable
from lapwright.job.shelf.history import History
from lapwright.job.shelf.record_files import SUFFIX, find_record_file, make_id
from lapwright.record import (
    KeyChange,
    OpenedRecord,
    compare_records,
    merge_records,
    open_record,
    read_record,
    save_record,
)

#: Texts that are kept, to tell what was changed since one of them was read.
_TEXTS = 64
#: How often a change is made anew because the file was changed in the same moment.
_TRIES = 5
Around = Callable[[str], AbstractContextManager[object]]


class RecordKeeper:
    """The records of one folder; changes are made one after the other, by whatever thread, behind `lock`."""

    def __init__(self, folder: Path, history: History) -> None:
        self.folder = folder
        self.history = history
        self.lock = RLock()
        self._remembering = Lock()
        self._texts: OrderedDict[str, str] = OrderedDict()

    def open(self, engine: str) -> OpenedRecord:
        """Open an engine's record.

        Raises
        ------
        NotThere
        """
        path = find_record_file(self.folder, engine)
        record = open_record(path)
        if any(problem.code == "no-file" for problem in record.problems):
            raise NotThere(f"engine {engine}", "choose one from the shelf")
        self._remember(record)
        return record

    def read_bytes(self, engine: str) -> bytes:
        """Read the file of an engine's record as it stands.

        Raises
        ------
        NotThere, CannotSave
        """
        path = find_record_file(self.folder, engine)
        try:
            return path.read_bytes()
        except OSError as error:
            raise CannotSave(path.name, error.strerror or "it cannot be read") from error

    def begin(self, name: str, text: str, *, around: Around = nullcontext, known: str | None = None) -> str:
        """Put a new record into the folder and return its id, made of the engine's name.

        Parameters
        ----------
        name: what the engine is called
        text: its record
        around: given the id, opens what is done before the record stands on the shelf, and taken back if it cannot
        known: the id of an engine that was put away and comes back; it is given if it is free

        Raises
        ------
        CannotSave, and what `around` raises
        """
        with self.lock:
            if known is not None and not os.path.lexists(self.folder / f"{known}{SUFFIX}"):
                engine = known
            else:
                engine = make_id(self.folder, name, is_taken=self.history.knows)
            with around(engine):
                save_record(self.folder / f"{engine}{SUFFIX}", text, expected_digest=None)
            return engine

    def change(self, engine: str, edit: Edit, *, digest: str, what: str, besides: Container[str] = ()) -> Changed:
        """Make a change on the record as it is now, and anew where somebody saves the file in the same moment.

        Parameters
        ----------
        engine: whose record
        edit: makes the new text out of the record as it is
        digest: of the record that was read
        what: the change, in a few words
        besides: keys that are not told among those changed elsewhere

        Raises
        ------
        NotThere, RecordChanged, CannotSave, and what `edit` raises
        """
        with self.lock:
            for _ in range(_TRIES):
                now = self.open(engine)
                new = edit(now)
                others = self._list_others(engine, now, digest=digest, besides=besides)
                try:
                    record = self._save(engine, now, new, what=what)
                except RecordChanged:
                    continue
                return Changed(record, now.digest != digest, others)
            raise RecordChanged(os.path.basename(now.source))

    def step(self, engine: str, *, digest: str, back: bool) -> Changed:
        """Go back to the text before, or forward to the one that was undone last.

        Raises
        ------
        NotThere, RecordChanged, CannotSave
        """
        with self.lock:
            now = self.open(engine)
            if now.digest != digest:
                raise RecordChanged(os.path.basename(now.source))
            check_readable(now)
            steps = self.history.find_steps(engine, digest)
            if not (steps.can_undo if back else steps.can_redo):
                raise NotThere("change to undo" if back else "change to redo")
            if back:
                self.history.keep_before(engine, now)
            revision = self.history.step(engine, digest, back=back)
            if revision is None:
                raise NotThere("change to undo" if back else "change to redo")
            try:
                return Changed(self._save(engine, now, revision.text))
            except (RecordChanged, CannotSave):
                self.history.step_again(engine, revision, back=back)
                raise

    def _save(self, engine: str, now: OpenedRecord, new: str, *, what: str = "") -> OpenedRecord:
        """Save a new text of a record; what is a change of its own is kept together with the text before it."""
        if new == now.text:
            return now
        path = find_record_file(self.folder, engine)
        if what:
            self.history.keep_before(engine, now)
        save_record(path, new, expected_digest=now.digest)
        record = read_record(new.encode("utf-8"), source=now.source)
        if what:
            self.history.keep_after(engine, record, what=what)
        self._remember(record)
        return record

    def _list_others(
        self, engine: str, now: OpenedRecord, *, digest: str, besides: Container[str]
    ) -> tuple[KeyChange, ...]:
        """List what was changed in the file since it was read, as far as the text that was read is still known."""
        base = None if now.digest == digest else self.find_text(engine, digest)
        if base is None:
            return ()
        return tuple(change for change in compare_records(base, now.text) if change.key not in besides)

    def find_text(self, engine: str, digest: str) -> str | None:
        """Find the text of a record as it was when somebody read it."""
        return self._texts.get(digest) or self.history.find_text(engine, digest)

    def merge(self, engine: str, now: OpenedRecord, *, text: str, digest: str) -> str:
        """Merge by keys where the new text differs from the one that was read in keys alone.

        Raises
        ------
        RecordClash: a key was changed on both sides
        RecordChanged: there is no sure way
        """
        base = self.find_text(engine, digest)
        if base is None:
            raise RecordChanged(os.path.basename(now.source))
        try:
            is_keys_alone = merge_records(base, text, base).text == text
            merged = merge_records(base, text, now.text)
        except CannotChange:
            raise RecordChanged(os.path.basename(now.source)) from None
        if merged.clashes:
            first = merged.clashes[0]
            raise RecordClash(first.key, base=first.base, yours=first.yours, theirs=first.theirs, digest=now.digest)
        if not is_keys_alone:
            raise RecordChanged(os.path.basename(now.source))
        return merged.text

    def _remember(self, record: OpenedRecord) -> None:
        with self._remembering:
            self._texts[record.digest] = record.text
            self._texts.move_to_end(record.digest)
            while len(self._texts) > _TEXTS:
                self._texts.popitem(last=False)
