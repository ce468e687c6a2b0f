"""Times as the log book writes them: the clock on the bench, to the second, without a zone."""

from __future__ import annotations

from datetime import datetime, timedelta

_EPOCH = datetime(1, 1, 1)


def write_time(when: datetime) -> str:
    """Write a time as it stands in the log book.

    Parameters
    ----------
    when: the clock time on the bench; a zone and parts of a second are dropped

    Example:
    >>> write_time(datetime(2026, 3, 7, 14, 5, 9, 250))
    '2026-03-07T14:05:09'
    """
    return when.replace(tzinfo=None, microsecond=0).isoformat()


def read_time(written: str) -> datetime:
    """Read a time as it stands in the log book."""
    return datetime.fromisoformat(written)


def count_seconds(when: datetime) -> int:
    """Count the seconds of clock time since the first year began, so that times sort as whole numbers."""
    return (when.replace(tzinfo=None) - _EPOCH) // timedelta(seconds=1)


def name_time(when: datetime) -> str:
    """Write a time as part of a file's name.

    Parameters
    ----------
    when: the clock time on the bench

    Example:
    >>> name_time(datetime(2026, 3, 7, 14, 5, 9))
    '20260307-140509'
    """
    return f"{when:%Y%m%d-%H%M%S}"


def read_name(written: str) -> datetime | None:
    """Read a time out of a file's name; None where there is no such time.

    Parameters
    ----------
    written: as `name_time` writes it
    """
    try:
        return datetime.strptime(written, "%Y%m%d-%H%M%S")
    except ValueError:
        return None
