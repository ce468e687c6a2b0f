"""Connections to the file: one that writes, kept behind a lock, and short-lived ones that read."""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from lapwright.logbook.trouble import reading_trouble, writing_trouble

#: How long one waits for another program that is writing [s].
_PATIENCE = 5.0


def connect(path: Path) -> sqlite3.Connection:
    """Open a file, or begin one, without changing anything in it yet."""
    return sqlite3.connect(path, timeout=_PATIENCE, isolation_level=None, check_same_thread=False)


def make_ready_for_writing(connection: sqlite3.Connection) -> None:
    """Make sure that the file can be written, and that what is acknowledged is on the disk."""
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    connection.execute("BEGIN IMMEDIATE")
    try:
        # A file that cannot be written lets a transaction begin, but nothing be put into it.
        connection.execute(f"PRAGMA user_version = {version}")
    finally:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")


def connect_reading(path: Path, *, fixed: bool) -> sqlite3.Connection:
    """Open the file for reading.

    Parameters
    ----------
    path: where it is
    fixed: nobody is writing in it, so that it is read without leaving a trace beside it
    """
    address = f"{path.absolute().as_uri()}?mode=ro{'&immutable=1' * fixed}"
    return sqlite3.connect(address, uri=True, timeout=_PATIENCE, isolation_level=None)


@contextmanager
def reading(path: Path, *, may_write: bool) -> Iterator[sqlite3.Connection]:
    """Run a block that reads, all of it from one state of the file.

    Parameters
    ----------
    path: where the file is
    may_write: whether SQLite can put files beside it, which it wants where anybody may be writing

    Raises
    ------
    DamagedLog
    """
    fixed = not may_write and not path.with_name(f"{path.name}-wal").exists()
    with reading_trouble(path.parent), closing(connect_reading(path, fixed=fixed)) as connection:
        connection.execute("BEGIN")
        yield connection


@dataclass(slots=True)
class Writer:
    """The one connection that writes; whoever wants it waits for the lock."""

    folder: Path
    connection: sqlite3.Connection
    lock: threading.Lock = field(default_factory=threading.Lock)

    @contextmanager
    def transaction(self) -> Iterator[sqlite3.Connection]:
        """Run a block whose changes are made together or not at all, and are on the disk when it ends.

        Raises
        ------
        CannotSave, DamagedLog
        """
        with self.lock, writing_trouble(self.folder):
            self.connection.execute("BEGIN IMMEDIATE")
            try:
                yield self.connection
                self.connection.execute("COMMIT")
            except BaseException:
                # A full disk makes SQLite itself take the changes back.
                if self.connection.in_transaction:
                    self.connection.execute("ROLLBACK")
                raise

    def close(self) -> None:
        """Close the connection once nobody is writing."""
        with self.lock:
            self.connection.close()
