"""Open a log book: checked, backed up, brought up to date."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from lapwright.logbook.book import LogBook
from lapwright.logbook.connecting import Writer, connect_writing
from lapwright.logbook.steps import take_steps
from lapwright.logbook.trouble import in_our_words

if TYPE_CHECKING:
    from datetime import datetime

FILE = "logbook.sqlite"


def open_logbook(folder: Path, *, now: datetime) -> LogBook:
    """Open the log book of a workshop's folder, or begin one.

    Parameters
    ----------
    folder: the workshop's
    now: the time, for the name of the backup

    Raises
    ------
    DamagedLog: the file does not pass its check; the sentence tells the way back
    NewerLog: a later version of the program wrote it
    CannotSave: there is none yet, and none can be begun
    """
    path = folder / FILE
    with in_our_words(path):
        connection = connect_writing(path)
        take_steps(connection)
    return LogBook(folder, path, _writer=Writer(path, connection))
