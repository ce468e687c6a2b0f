"""Search the log book: by words as they are typed, by engine, by kind; the newest entries first."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass

from lapwright.errors import NotOneOf
from lapwright.logbook.entries import COLUMNS, find_entry, find_place, load_entries
from lapwright.logbook.entry import KINDS, Entry, Kind
from lapwright.quantities.figure import show_start

#: A search of more words than these is one for the first of them.
_MOST_WORDS = 20


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is looked for. Of `before` only entries older than that one are wanted, for the next page of a list."""

    engine: str | None = None
    words: str = ""
    kind: Kind | None = None
    open_only: bool = False
    before: int | None = None
    limit: int = 50


def find_entries(connection: sqlite3.Connection, wanted: Wanted) -> tuple[Entry, ...]:
    """Find the entries that are wanted, the newest first."""
    if wanted.kind is not None and wanted.kind not in KINDS:
        raise NotOneOf(show_start(wanted.kind), KINDS)
    last = None if wanted.before is None else find_entry(connection, wanted.before)
    place = None if last is None else find_place(last.when, last.id)
    sql, values = build_query(wanted, place=place)
    return tuple(load_entries(connection, connection.execute(sql, values).fetchall()))


def build_query(wanted: Wanted, *, place: int | None = None) -> tuple[str, list[object]]:
    """Put the query together; each has an index to walk along, so that a long log answers like a short one.

    Parameters
    ----------
    wanted: what is looked for
    place: only entries that stand before this one
    """
    match = quote_words(wanted.words)
    # With words, their table is walked; its rows have the place of the entry as their number.
    walked = "entry_words.rowid" if match else "entry.place"
    tests: list[tuple[str, object]] = [
        ("entry_words MATCH ?", match or None),
        (f"{walked} < ?", place),
        ("engine = ?", wanted.engine),
        ("kind = ?", wanted.kind),
    ]
    given = [(test, value) for test, value in tests if value is not None]
    where = [test for test, _ in given] + ["job = 'open'"] * wanted.open_only
    tables = "entry_words CROSS JOIN entry ON entry.place = entry_words.rowid" if match else "entry"
    sql = (
        f"SELECT {COLUMNS} FROM {tables}"
        f"{' WHERE ' if where else ''}{' AND '.join(where)} ORDER BY {walked} DESC LIMIT ?"
    )
    return sql, [*(value for _, value in given), max(wanted.limit, 0)]


def quote_words(typed: str) -> str:
    """Write what a person typed as a search for entries that hold all of it, each word perhaps not yet to its end.

    Parameters
    ----------
    typed: anything at all; what has neither letter nor figure is left out

    Returns
    -------
    the query, empty where nothing was typed that could be looked for

    Example:
    >>> print(quote_words('gland 3/16" - OR'))
    "gland"* "3/16"* "OR"*
    """
    typed = typed.encode("utf-8", "ignore").decode("utf-8").replace("\0", " ")
    words = [word.replace('"', " ").strip() for word in typed.split()]
    able = (word for word in words if any(c.isalnum() for c in word))
    return " ".join(f'"{word}"*' for word in list(able)[:_MOST_WORDS])
