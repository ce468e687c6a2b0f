"""What SQLite says when something goes wrong, in our own errors."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from lapwright.errors import CannotSave, DamagedLog, LapwrightError

_DAMAGED = {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}
_WHY = {
    sqlite3.SQLITE_FULL: "the disk is full",
    sqlite3.SQLITE_READONLY: "it is write-protected",
    sqlite3.SQLITE_PERM: "it is write-protected",
    sqlite3.SQLITE_CANTOPEN: "it cannot be opened",
    sqlite3.SQLITE_BUSY: "another program is writing in it",
    sqlite3.SQLITE_LOCKED: "another program is writing in it",
    sqlite3.SQLITE_IOERR: "the disk does not take it",
}


def describe_way_back(folder: Path) -> str:
    """Say how a damaged log book is put right."""
    return (
        f'close the bench and run "lapwright bench {show_path(folder)} --restore": '
        "the damaged file is put aside and the newest sound backup brought back"
    )


def show_path(path: Path) -> str:
    """Write a path so that it can be printed."""
    return "".join(c if c.isprintable() else "?" for c in str(path))


def translate(error: sqlite3.Error, path: Path) -> LapwrightError | None:
    """Find the error of ours that says what SQLite said; None where the fault is our own."""
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    if code in _DAMAGED:
        return DamagedLog(show_path(path), str(error), describe_way_back(path.parent))
    return CannotSave(show_path(path), _WHY[code]) if code in _WHY else None


@contextmanager
def in_our_words(path: Path) -> Iterator[None]:
    """Run a block, and raise what SQLite or the file system says of the log book as an error of ours.

    Raises
    ------
    CannotSave, DamagedLog
    """
    try:
        yield
    except sqlite3.Error as error:
        ours = translate(error, path)
        if ours is None:
            raise
        raise ours from error
    except OSError as error:
        raise CannotSave(show_path(path), error.strerror or "the disk does not take it") from error
