"""The log book of a workshop: what was found, done, measured and run, with photographs, and each record's history."""

from lapwright.logbook.backups import Restored, list_backups, restore_logbook
from lapwright.logbook.book import LogBook
from lapwright.logbook.entry import (
    JOBS,
    KINDS,
    Backup,
    Entry,
    EntryDraft,
    LogSummary,
    Photograph,
    Reading,
    Revision,
    Steps,
)
from lapwright.logbook.opening import open_logbook

__all__ = [
    "JOBS",
    "KINDS",
    "Backup",
    "Entry",
    "EntryDraft",
    "LogBook",
    "LogSummary",
    "Photograph",
    "Reading",
    "Restored",
    "Revision",
    "Steps",
    "list_backups",
    "open_logbook",
    "restore_logbook",
]
