"""Connections to the file: one that writes, kept behind a lock, and short-lived ones that read."""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from lapwright.logbook.trouble import in_our_words

#: How long one waits for another program that is writing [s].
_PATIENCE = 5.0


def connect_writing(path: Path) -> sqlite3.Connection:
    """Open the file for writing, or begin one; what is acknowledged is on the disk."""
    connection = sqlite3.connect(path, timeout=_PATIENCE, isolation_level=None, check_same_thread=False)
    try:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA foreign_keys = ON")
    except BaseException:
        connection.close()
        raise
    return connection


def connect_reading(path: Path, *, fixed: bool = False) -> sqlite3.Connection:
    """Open the file for reading.

    Parameters
    ----------
    path: where it is
    fixed: nobody can write in it, so that it is read without leaving any trace beside it
    """
    mode = "immutable=1" if fixed else "mode=ro"
    address = f"{path.absolute().as_uri()}?{mode}"
    return sqlite3.connect(address, uri=True, timeout=_PATIENCE, isolation_level=None)


@dataclass(slots=True)
class Writer:
    """The one connection that writes; whoever wants it waits for the lock."""

    path: Path
    connection: sqlite3.Connection
    lock: threading.Lock = field(default_factory=threading.Lock)

    @contextmanager
    def transaction(self) -> Iterator[sqlite3.Connection]:
        """Run a block whose changes are made together or not at all, and are on the disk when it ends.

        Raises
        ------
        CannotSave, DamagedLog
        """
        with self.lock, in_our_words(self.path):
            self.connection.execute("BEGIN IMMEDIATE")
            try:
                yield self.connection
                self.connection.execute("COMMIT")
            except BaseException:
                # A full disk makes SQLite itself take the changes back.
                if self.connection.in_transaction:
                    self.connection.execute("ROLLBACK")
                raise


@contextmanager
def reading(path: Path, *, fixed: bool) -> Iterator[sqlite3.Connection]:
    """Run a block that reads, all of it from one state of the file.

    Raises
    ------
    CannotSave, DamagedLog
    """
    with in_our_words(path), closing(connect_reading(path, fixed=fixed)) as connection:
        connection.execute("BEGIN")
        yield connection
