"""Whether a file is a log book, whole, and not of a later version."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from lapwright.errors import LapwrightError, NewerLog
from lapwright.logbook.connecting import connect_reading
from lapwright.logbook.places import show_path
from lapwright.logbook.steps import APPLICATION, STEPS
from lapwright.logbook.trouble import find_damage


def check_file(connection: sqlite3.Connection, folder: Path, path: Path) -> int:
    """Check a file and return how many of the steps it has taken, 0 for an empty one.

    Raises
    ------
    DamagedLog, NewerLog
    """
    (verdict,) = connection.execute("PRAGMA quick_check(1)").fetchone()
    if verdict != "ok":
        raise find_damage(folder, " ".join(verdict.split()))
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    (tables,) = connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    if tables and application != APPLICATION:
        raise find_damage(folder, "it is the file of another program")
    if version > len(STEPS):
        raise NewerLog(show_path(path))
    return int(version) if tables else 0


def is_sound(folder: Path, path: Path) -> bool:
    """Tell whether a backup can be brought back."""
    try:
        with closing(connect_reading(path, fixed=True)) as connection:
            return check_file(connection, folder, path) > 0
    except (LapwrightError, sqlite3.Error):
        return False
