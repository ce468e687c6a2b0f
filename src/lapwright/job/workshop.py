"""The workshop: a folder of engine records with the log book beside them, and everything that is done to them."""

from __future__ import annotations

import os
from collections import OrderedDict
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from threading import RLock
from typing import TypeVar

from lapwright.errors import CannotChange, NotThere, RecordChanged, RecordClash
from lapwright.job.changes import Changed, Edit, check_readable, check_size, check_text, refuse_clash, set_key
from lapwright.job.record_files import find_record_file, make_id
from lapwright.job.shelf import Shelf, ShelfEntry
from lapwright.job.visit import Visit, examine_opened
from lapwright.record import (
    KeyChange,
    OpenedRecord,
    add_place,
    blank_record,
    compare_records,
    merge_records,
    open_record,
    read_record,
    remove_place,
    save_record,
)
from lapwright.record.words import read_name

_K = TypeVar("_K")
_V = TypeVar("_V")
#: Visits and texts that are kept.
_VISITS, _TEXTS = 8, 64
#: How often a change is made anew because the file was changed in the same moment.
_TRIES = 5


class Workshop:
    """One folder. Any thread may use it; changes are made one after the other."""

    def __init__(self, folder: Path, *, clock: Callable[[], datetime]) -> None:
        self.folder = folder
        self._clock = clock
        self._lock = RLock()
        self._shelf = Shelf(folder)
        self._visits: OrderedDict[tuple[str, str], Visit] = OrderedDict()
        self._texts: OrderedDict[str, str] = OrderedDict()

    def list_shelf(self) -> tuple[ShelfEntry, ...]:
        """List the engines by name, each with its state."""
        with self._lock:
            return self._shelf.list_entries({})

    def open_engine(self, engine: str) -> OpenedRecord:
        """Open an engine's record.

        Parameters
        ----------
        engine: its id

        Raises
        ------
        NotThere
        """
        path = find_record_file(self.folder, engine)
        record = open_record(path)
        if any(problem.code == "no-file" for problem in record.problems):
            raise NotThere(f"engine {engine}", "choose one from the shelf")
        with self._lock:
            _keep(self._texts, record.digest, record.text, most=_TEXTS)
        return record

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
        with self._lock:
            visit = self._visits.get((engine, record.digest)) or examine_opened(record)
            _keep(self._visits, (engine, record.digest), visit, most=_VISITS)
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

        def edit(now: OpenedRecord) -> str:
            new = set_key(now, key, value)
            if now.digest != digest:
                refuse_clash(now, key, seen=seen, value=value)
            return new

        return self._change(engine, edit, digest=digest, besides=key)

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
            return text if now.digest == digest else self._merge(now, text, digest=digest)

        return self._change(engine, edit, digest=digest)

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

        changed = self._change(engine, edit, digest=digest)
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
                base = self._find_text(digest)
                kind = place.rpartition(".")[0] + "."
                if base is None or any(change.key.startswith(kind) for change in compare_records(base, now.text)):
                    raise RecordChanged(os.path.basename(now.source))
            return remove_place(now.text, place)

        return self._change(engine, edit, digest=digest)

    def create(self, name: str) -> str:
        """Begin a record for a new engine and return its id.

        Parameters
        ----------
        name: what the engine is called

        Raises
        ------
        NoName, StrayCharacter, CannotSave
        """
        name = read_name(name)
        return self._begin(name, blank_record(name))

    def copy(self, engine: str, name: str) -> str:
        """Copy an engine's record under another name and return the id of the copy.

        Parameters
        ----------
        engine: id of the one that is copied
        name: what the copy is called

        Raises
        ------
        NotThere, NoName, StrayCharacter, CannotSave
        CannotChange: the record is too flawed to be given another name
        """
        name, record = read_name(name), self.open_engine(engine)
        return self._begin(name, set_key(record, "engine.name", name))

    def close(self) -> None:
        """Leave the workshop."""

    def _begin(self, name: str, text: str) -> str:
        with self._lock:
            engine = make_id(self.folder, name)
            save_record(self.folder / f"{engine}.toml", text, expected_digest=None)
            return engine

    def _change(self, engine: str, edit: Edit, *, digest: str, besides: str = "") -> Changed:
        """Make a change on the record as it is now, and anew where somebody saves the file in the same moment."""
        with self._lock:
            for _ in range(_TRIES):
                now = self.open_engine(engine)
                new = edit(now)
                others = self._list_others(now, digest, besides=besides)
                try:
                    record = self._save(engine, now, new)
                except RecordChanged:
                    continue
                return Changed(record, now.digest != digest, others)
            raise RecordChanged(os.path.basename(now.source))

    def _save(self, engine: str, now: OpenedRecord, new: str) -> OpenedRecord:
        if new == now.text:
            return now
        path = find_record_file(self.folder, engine)
        save_record(path, new, expected_digest=now.digest)
        record = read_record(new.encode("utf-8"), source=now.source)
        _keep(self._texts, record.digest, new, most=_TEXTS)
        return record

    def _list_others(self, now: OpenedRecord, digest: str, *, besides: str) -> tuple[KeyChange, ...]:
        """List what was changed in the file since it was read, as far as the text that was read is still known."""
        base = None if now.digest == digest else self._find_text(digest)
        if base is None:
            return ()
        return tuple(change for change in compare_records(base, now.text) if change.key != besides)

    def _find_text(self, digest: str) -> str | None:
        """Find the text of a record as it was when somebody read it."""
        return self._texts.get(digest)

    def _merge(self, now: OpenedRecord, text: str, *, digest: str) -> str:
        """Merge by keys where the new text differs from the one that was read in keys alone."""
        base = self._find_text(digest)
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


def open_workshop(folder: Path, *, clock: Callable[[], datetime] = datetime.now) -> Workshop:
    """Open the workshop of a folder.

    Parameters
    ----------
    folder: where the records are
    clock: tells what time it is

    Raises
    ------
    NotThere: no such folder
    """
    if not folder.is_dir():
        raise NotThere(f"folder {folder}", "make it first, or choose another")
    return Workshop(folder, clock=clock)


def _keep(kept: OrderedDict[_K, _V], key: _K, value: _V, *, most: int) -> None:
    """Put something to the newest end, and let go of the oldest."""
    kept[key] = value
    kept.move_to_end(key)
    while len(kept) > most:
        kept.popitem(last=False)
