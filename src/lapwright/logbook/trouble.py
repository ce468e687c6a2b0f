"""What SQLite and the file system say when something goes wrong, in our own errors."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from lapwright.errors import CannotSave, DamagedLog, LapwrightError
from lapwright.logbook.places import locate_log, show_path

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


def find_damage(folder: Path, why: str) -> DamagedLog:
    """Put what is wrong with the log book of a folder together with the way back.

    Parameters
    ----------
    folder: the workshop's
    why: what is wrong with the file
    """
    way_back = (
        f'close the bench and run "lapwright bench {show_path(folder)} --restore", '
        "which puts the damaged file aside and brings the newest sound backup back"
    )
    return DamagedLog(show_path(locate_log(folder)), why, way_back)


@contextmanager
def writing_trouble(folder: Path) -> Iterator[None]:
    """Run a block that writes, and raise what SQLite or the file system says as an error of ours.

    Raises
    ------
    CannotSave, DamagedLog
    """
    try:
        yield
    except sqlite3.Error as error:
        raise _translate(error, folder) or error from error
    except OSError as error:
        path = Path(error.filename) if isinstance(error.filename, str) else locate_log(folder)
        raise CannotSave(show_path(path), error.strerror or "the disk does not take it") from error


@contextmanager
def reading_trouble(folder: Path) -> Iterator[None]:
    """Run a block that reads, and raise as damage whatever keeps SQLite from it.

    Raises
    ------
    DamagedLog
    """
    try:
        yield
    except sqlite3.Error as error:
        if _translate(error, folder) is None:
            raise
        raise find_damage(folder, str(error)) from error


def _translate(error: sqlite3.Error, folder: Path) -> LapwrightError | None:
    """Find the error of ours that says what SQLite said; None where the fault is our own."""
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    if code in _DAMAGED:
        return find_damage(folder, str(error))
    return CannotSave(show_path(locate_log(folder)), _WHY[code]) if code in _WHY else None
