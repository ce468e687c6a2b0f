"""The folder of a workshop as such: whether it is there, and how its log book is brought back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from lapwright.errors import NotThere
from lapwright.logbook import restore_logbook


def check_folder(folder: Path) -> None:
    """Refuse a folder that is none.

    Parameters
    ----------
    folder: of a workshop

    Raises
    ------
    NotThere
    """
    try:
        is_folder = folder.is_dir()
    except (OSError, ValueError):  # no file system takes such a name
        is_folder = False
    if not is_folder:
        shown = "".join(c if c.isprintable() else "?" for c in str(folder))
        raise NotThere(f"folder {shown}", "make it first, or choose another")


def restore_log(folder: Path, *, clock: Callable[[], datetime] = datetime.now) -> str:
    """Put a workshop's log book aside, bring its newest sound backup back, and say what was done.

    Parameters
    ----------
    folder: where the records are; no bench may have it open
    clock: tells what time it is

    Raises
    ------
    NotThere: no such folder, or no sound backup in it; nothing was touched
    CannotSave
    """
    check_folder(folder)
    restored = restore_logbook(folder, now=clock())
    done = f"The log book is as it was backed up on {restored.backup.when:%Y-%m-%d at %H:%M}."
    return done if restored.put_aside is None else f"{done} The other one is kept as {restored.put_aside.name}."
