"""Open a log book: checked, backed up, brought up to date."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from lapwright.errors import CannotSave
from lapwright.logbook.backups import list_backups, make_backup
from lapwright.logbook.book import LogBook
from lapwright.logbook.checking import check_file
from lapwright.logbook.connecting import Writer, connect, make_ready_for_writing, reading
from lapwright.logbook.places import locate_log
from lapwright.logbook.steps import STEPS, take_steps
from lapwright.logbook.trouble import find_damage, writing_trouble

if TYPE_CHECKING:
    from datetime import datetime


def open_logbook(folder: Path, *, now: datetime) -> LogBook:
    """Open the log book of a workshop's folder, or begin one.

    It is checked first, then backed up, then brought up to date. One that cannot be written is opened for reading, and
    says why.

    Parameters
    ----------
    folder: the workshop's
    now: the time, for the name of the backup

    Raises
    ------
    DamagedLog: the file does not pass its check, and was not touched; the sentence tells the way back
    NewerLog: a later version of the program wrote it
    CannotSave: there is none yet, and none can be begun; or an older one cannot be brought up to date
    NotAllowed: a link leads out of the folder
    """
    path = locate_log(folder)
    if not path.exists() and list_backups(folder):
        raise find_damage(folder, "it is gone, though there are backups of it")
    try:
        return LogBook(folder, _open_for_writing(folder, now=now))
    except CannotSave as refusal:
        if not path.is_file() or not _can_be_read(folder):
            raise
        return LogBook(folder, refusal)


def _open_for_writing(folder: Path, *, now: datetime) -> Writer:
    path = locate_log(folder)
    with writing_trouble(folder):
        connection = connect(path)
        try:
            version = check_file(connection, folder, path)
            if not version and list_backups(folder):
                raise find_damage(folder, "it is empty, though there are backups of it")
            make_ready_for_writing(connection)
            if version:
                make_backup(connection, folder, now=now)
            take_steps(connection)
        except BaseException:
            connection.close()
            raise
    return Writer(folder, connection)


def _can_be_read(folder: Path) -> bool:
    path = locate_log(folder)
    with reading(path, may_write=False) as connection:
        return check_file(connection, folder, path) == len(STEPS)
