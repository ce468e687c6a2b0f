"""Entries of the log book: added, changed, removed, read."""

from __future__ import annotations

import json
import sqlite3
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from lapwright.errors import LogChanged, NotThere
from lapwright.logbook.drafting import check_draft
from lapwright.logbook.entry import Entry, EntryDraft, Photograph, Reading
from lapwright.logbook.times import count_seconds, read_time, write_time

if TYPE_CHECKING:
    from datetime import datetime

#: What `load_entries` wants of each entry.
COLUMNS = "entry.id, version, engine, happened, kind, entry.text, minutes, job, saved"
PHOTOGRAPH_COLUMNS = "digest, name, form, width, height, added"

#: An entry's place is its time in seconds with this many bits of its id behind, to part entries of one second.
_ID_BITS = 24


def add_entry(connection: sqlite3.Connection, draft: EntryDraft, *, now: datetime) -> Entry:
    """Put a new entry into the log book."""
    draft = check_draft(draft)
    (number,) = connection.execute(
        "SELECT coalesce(max(seq), 0) + 1 FROM sqlite_sequence WHERE name = 'entry'"
    ).fetchone()
    connection.execute(
        "INSERT INTO entry (id, version, engine, happened, place, kind, text, minutes, job, saved)"
        " VALUES (?, 1, ?, ?, ?, ?, ?, ?, ?, ?)",
        (number, *_list_values(draft, number, when=draft.when or now, now=now)),
    )
    _write_lines(connection, number, draft)
    return find_entry(connection, number)


def change_entry(connection: sqlite3.Connection, number: int, draft: EntryDraft, *, seen: int, now: datetime) -> Entry:
    """Write an entry anew, photographs apart, if it is still the one that was seen."""
    draft = check_draft(draft)
    old = find_seen(connection, number, seen=seen)
    forget_words(connection, number)
    connection.execute(
        "UPDATE entry SET version = version + 1, engine = ?, happened = ?, place = ?, kind = ?, text = ?, minutes = ?,"
        " job = ?, saved = ? WHERE id = ?",
        (*_list_values(draft, number, when=draft.when or old.when, now=now), number),
    )
    for table in ("reading", "part_used"):
        connection.execute(f"DELETE FROM {table} WHERE entry = ?", (number,))
    _write_lines(connection, number, draft)
    return find_entry(connection, number)


def remove_entry(connection: sqlite3.Connection, number: int, *, seen: int) -> None:
    """Take an entry out of the log book, if it is still the one that was seen."""
    find_seen(connection, number, seen=seen)
    forget_words(connection, number)
    connection.execute("DELETE FROM entry WHERE id = ?", (number,))


def find_entry(connection: sqlite3.Connection, number: int) -> Entry:
    """Find an entry by its number."""
    rows = connection.execute(f"SELECT {COLUMNS} FROM entry WHERE id = ?", (number,)).fetchall()
    if not rows:
        raise NotThere(f"entry {number} in the log book", "look at the log again; it may have been removed")
    return next(load_entries(connection, rows))


def find_seen(connection: sqlite3.Connection, number: int, *, seen: int) -> Entry:
    """Find an entry that must still have the version that was seen."""
    entry = find_entry(connection, number)
    if entry.version != seen:
        raise LogChanged
    return entry


def load_entries(connection: sqlite3.Connection, rows: Sequence[Sequence[Any]]) -> Iterator[Entry]:
    """Make entries of rows of `COLUMNS`, each with its readings, parts and photographs."""
    numbers = json.dumps([row[0] for row in rows])
    readings = _collect(connection, "reading", "name, value", order="position", numbers=numbers)
    parts = _collect(connection, "part_used", "name", order="position", numbers=numbers)
    photographs = _collect(connection, "photograph", PHOTOGRAPH_COLUMNS, order="id", numbers=numbers)
    for number, version, engine, happened, kind, text, minutes, job, saved in rows:
        yield Entry(
            id=number,
            version=version,
            engine=engine,
            when=read_time(happened),
            kind=kind,
            text=text,
            readings=tuple(Reading(*row) for row in readings[number]),
            parts_used=tuple(name for (name,) in parts[number]),
            minutes=minutes,
            job=job,
            photographs=tuple(read_photograph(row) for row in photographs[number]),
            saved=read_time(saved),
        )


def find_place(when: datetime, number: int) -> int:
    """Return the number by which entries are put in order: their time, and for those of one second their id."""
    return (count_seconds(when) << _ID_BITS) + number % (1 << _ID_BITS)


def read_photograph(row: Sequence[Any]) -> Photograph:
    """Make a photograph of a row of `PHOTOGRAPH_COLUMNS`."""
    digest, name, form, width, height, added = row
    return Photograph(digest, name, form, width, height, read_time(added))


def write_words(connection: sqlite3.Connection, number: int) -> None:
    """Put what an entry says where a search looks for it."""
    connection.execute(
        "INSERT INTO entry_words (rowid, text, readings, parts, photographs)"
        " SELECT place, text, readings, parts, photographs FROM words_of_entry WHERE id = ?",
        (number,),
    )


def forget_words(connection: sqlite3.Connection, number: int) -> None:
    """Take what an entry said from where a search looks for it."""
    connection.execute("DELETE FROM entry_words WHERE rowid = (SELECT place FROM entry WHERE id = ?)", (number,))


def _list_values(draft: EntryDraft, number: int, *, when: datetime, now: datetime) -> tuple[object, ...]:
    place = find_place(when, number)
    return (
        draft.engine, write_time(when), place, draft.kind, draft.text, draft.minutes, draft.job, write_time(now)
    )  # fmt: skip


def _write_lines(connection: sqlite3.Connection, number: int, draft: EntryDraft) -> None:
    readings = [(number, i, reading.name, reading.value) for i, reading in enumerate(draft.readings)]
    connection.executemany("INSERT INTO reading (entry, position, name, value) VALUES (?, ?, ?, ?)", readings)
    parts = [(number, i, name) for i, name in enumerate(draft.parts_used)]
    connection.executemany("INSERT INTO part_used (entry, position, name) VALUES (?, ?, ?)", parts)
    write_words(connection, number)


def _collect(
    connection: sqlite3.Connection, table: str, columns: str, *, order: str, numbers: str
) -> defaultdict[int, list[tuple[Any, ...]]]:
    """Collect the rows of a table that belong to some entries, by entry."""
    rows: Iterable[tuple[Any, ...]] = connection.execute(
        f"SELECT entry, {columns} FROM {table} WHERE entry IN (SELECT value FROM json_each(?)) ORDER BY entry, {order}",
        (numbers,),
    )
    found: defaultdict[int, list[tuple[Any, ...]]] = defaultdict(list)
    for number, *rest in rows:
        found[number].append(tuple(rest))
    return found
