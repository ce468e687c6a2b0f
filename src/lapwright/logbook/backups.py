"""Backups of the log book: made while it is in use, ten kept, and the way back to one of them."""

from __future__ import annotations

import os
import re
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from lapwright.errors import NotThere
from lapwright.logbook.checking import is_sound
from lapwright.logbook.entry import Backup
from lapwright.logbook.places import locate_backup, locate_log
from lapwright.logbook.times import name_time, read_name
from lapwright.logbook.trouble import find_damage, writing_trouble
from lapwright.record.saving import write_whole

if TYPE_CHECKING:
    from datetime import datetime

_KEPT = 10
_NAME = re.compile(r"logbook-(\d{8}-\d{6})\.sqlite")
#: What SQLite lays beside a file while it is written.
_BESIDE = ("-wal", "-shm")


@dataclass(frozen=True, slots=True)
class Restored:
    """What was brought back, and where the file that stood there before was put; None where there was none."""

    backup: Backup
    put_aside: Path | None


def list_backups(folder: Path) -> tuple[Backup, ...]:
    """List the backups of a folder's log book, the newest first.

    Parameters
    ----------
    folder: the workshop's
    """
    found = []
    with suppress(OSError):
        for path in locate_backup(folder).iterdir():
            name = _NAME.fullmatch(path.name)
            when = name and read_name(name[1])
            if when is not None:
                found.append(Backup(path.name, when, path.stat().st_size))
    return tuple(sorted(found, key=lambda backup: backup.name, reverse=True))


def make_backup(source: sqlite3.Connection, folder: Path, *, now: datetime) -> Path:
    """Copy the log book as it is at this moment, and keep the ten newest copies.

    Raises
    ------
    CannotSave, DamagedLog
    """
    target = locate_backup(folder, f"logbook-{name_time(now)}.sqlite")
    draft = locate_backup(folder, f".{target.name}.{os.getpid()}.new")
    with writing_trouble(folder):
        target.parent.mkdir(exist_ok=True)
        try:
            with closing(sqlite3.connect(draft, isolation_level=None)) as copy:
                source.backup(copy)
                # The copy is one file, with nothing beside it.
                copy.execute("PRAGMA journal_mode = DELETE")
            os.replace(draft, target)
        finally:
            for beside in ("", *_BESIDE, "-journal"):
                with suppress(OSError):
                    os.unlink(f"{draft}{beside}")
        _keep_newest(folder, made=target.name)
    return target


def restore_logbook(folder: Path, backup_name: str | None = None, *, now: datetime) -> Restored:
    """Put the log book aside under a dated name, and bring a backup back; no bench may have the folder open.

    Parameters
    ----------
    folder: the workshop's
    backup_name: one of `list_backups`; None for the newest that is sound
    now: the time, for the name of what is put aside

    Raises
    ------
    NotThere: no such backup, or none that is sound; nothing was touched
    DamagedLog: the backup asked for is not sound; nothing was touched
    CannotSave: the file system says no
    """
    backup = _choose_backup(folder, backup_name)
    with writing_trouble(folder):
        data = locate_backup(folder, backup.name).read_bytes()
        aside = _put_aside(locate_log(folder), now=now)
        write_whole(str(locate_log(folder)), data)
    return Restored(backup, aside)


def _choose_backup(folder: Path, name: str | None) -> Backup:
    backups = list_backups(folder)
    if name is not None:
        backups = tuple(backup for backup in backups if backup.name == name)
        if not backups:
            raise NotThere("backup of that name", "choose one of those in backups/")
    for backup in backups:
        if is_sound(folder, locate_backup(folder, backup.name)):
            return backup
    if name is not None:
        raise find_damage(folder, f"so is its backup {name}")
    raise NotThere("sound backup in backups/", "move logbook.sqlite and backups/ elsewhere to begin an empty log book")


def _put_aside(path: Path, *, now: datetime) -> Path | None:
    """Give the file a second name; the first is left to it until the backup takes its place."""
    if not path.exists():
        return None
    stem = f"logbook-put-aside-{name_time(now)}"
    names = (path.with_name(f"{stem}{extra}.sqlite") for extra in ("", *(f"-{n}" for n in range(2, 1000))))
    aside = next(name for name in names if not name.exists())
    try:
        os.link(path, aside)
    except OSError:
        # Not every disk knows second names.
        os.rename(path, aside)
    for beside in _BESIDE:
        with suppress(FileNotFoundError):
            os.rename(f"{path}{beside}", f"{aside}{beside}")
    return aside


def _keep_newest(folder: Path, *, made: str) -> None:
    """Remove all but the newest; the one just made stays, whatever the clock had said before."""
    older = [backup.name for backup in list_backups(folder) if backup.name != made]
    for name in older[_KEPT - 1 :]:
        with suppress(OSError):
            os.unlink(locate_backup(folder, name))
