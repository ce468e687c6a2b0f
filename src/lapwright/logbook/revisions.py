"""The history of an engine's record: one line of texts, and where on it the record stands.

A change puts a new text behind the one the record has, and cuts off what had been undone before. Undo and redo move
along the line and cut nothing. Where the record stands is remembered; when the digest of the file says otherwise (a
save that failed, a hand at the file), the newest text of that digest counts.
"""

from __future__ import annotations

import sqlite3
from typing import TYPE_CHECKING

from lapwright.logbook.entry import Revision, Steps
from lapwright.logbook.times import read_time, write_time

if TYPE_CHECKING:
    from datetime import datetime

#: How many texts of a record are kept, the newest.
KEPT = 200

_COLUMNS = "engine, number, text, digest, what, happened"


def keep_revision(
    connection: sqlite3.Connection, engine: str, text: str, *, digest: str, what: str, now: datetime
) -> Revision:
    """Put a text behind the one the record stands at; nothing is put where it is that same text."""
    standing = _read_standing(connection, engine)
    if standing is not None and standing.digest == digest:
        return standing
    number = 1 if standing is None else standing.number + 1
    connection.execute("DELETE FROM revision WHERE engine = ? AND number >= ?", (engine, number))
    row = (engine, number, text, digest, what, write_time(now))
    connection.execute(f"INSERT INTO revision ({_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?)", row)
    _stand_at(connection, engine, number)
    connection.execute("DELETE FROM revision WHERE engine = ? AND number <= ?", (engine, number - KEPT))
    return _read(row)


def list_revisions(connection: sqlite3.Connection, engine: str, limit: int) -> tuple[Revision, ...]:
    """List the texts a record had, the newest first, what was undone before the rest."""
    sql = f"SELECT {_COLUMNS} FROM revision WHERE engine = ? ORDER BY number DESC LIMIT ?"
    return tuple(_read(row) for row in connection.execute(sql, (engine, limit)))


def move_standing(connection: sqlite3.Connection, engine: str, digest: str, *, by: int) -> Revision | None:
    """Go back or forward along the line and return the text that stands there; None where the line ends.

    From a text that is not on the line the way back leads to where the record last stood on it.
    """
    number = _find_number(connection, engine, digest)
    if number is not None:
        found = _find(connection, engine, number + by)
    else:
        found = _read_standing(connection, engine) if by < 0 else None
    if found is not None:
        _stand_at(connection, engine, found.number)
    return found


def find_steps(connection: sqlite3.Connection, engine: str, digest: str) -> Steps:
    """Find what undo and redo would do."""
    number = _find_number(connection, engine, digest)
    if number is None:
        return Steps(can_undo=_read_standing(connection, engine) is not None)
    here, back, ahead = (_find(connection, engine, number + by) for by in (0, -1, 1))
    undoes = here.what if here is not None and back is not None else ""
    return Steps(back is not None, ahead is not None, undoes, ahead.what if ahead is not None else "")


def _find_number(connection: sqlite3.Connection, engine: str, digest: str) -> int | None:
    standing = _read_standing(connection, engine)
    if standing is not None and standing.digest == digest:
        return standing.number
    sql = "SELECT max(number) FROM revision WHERE engine = ? AND digest = ?"
    number: int | None = connection.execute(sql, (engine, digest)).fetchone()[0]
    return number


def _find(connection: sqlite3.Connection, engine: str, number: int) -> Revision | None:
    sql = f"SELECT {_COLUMNS} FROM revision WHERE engine = ? AND number = ?"
    row = connection.execute(sql, (engine, number)).fetchone()
    return None if row is None else _read(row)


def _read_standing(connection: sqlite3.Connection, engine: str) -> Revision | None:
    row = connection.execute("SELECT number FROM standing WHERE engine = ?", (engine,)).fetchone()
    return None if row is None else _find(connection, engine, row[0])


def _stand_at(connection: sqlite3.Connection, engine: str, number: int) -> None:
    connection.execute(
        "INSERT INTO standing (engine, number) VALUES (?, ?) ON CONFLICT DO UPDATE SET number = excluded.number",
        (engine, number),
    )


def _read(row: tuple[str, int, str, str, str, str]) -> Revision:
    engine, number, text, digest, what, happened = row
    return Revision(engine, number, text, digest, what, read_time(happened))
