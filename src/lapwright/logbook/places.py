"""Where the log book keeps its files in the folder of a workshop, and nowhere else."""

from __future__ import annotations

from pathlib import Path

from lapwright.errors import NotAllowed


def locate_log(folder: Path) -> Path:
    """Return where the log book's file is, or is to be.

    Raises
    ------
    NotAllowed: a link there leads out of the folder
    """
    return _confine(folder, folder / "logbook.sqlite")


def locate_backup(folder: Path, name: str = "") -> Path:
    """Return where a backup is, or the folder of all of them.

    Raises
    ------
    NotAllowed: a link there leads out of the folder
    """
    return _confine(folder, folder / "backups" / name)


def locate_photograph(folder: Path, file: str) -> Path:
    """Return where a photograph's file is, or is to be.

    Raises
    ------
    NotAllowed: a link there leads out of the folder
    """
    return _confine(folder, folder / "photographs" / file)


def locate_thumbnail(folder: Path, digest: str) -> Path:
    """Return where the small picture of a photograph is kept.

    Raises
    ------
    NotAllowed: a link there leads out of the folder
    """
    return _confine(folder, folder / "photographs" / "small" / f"{digest}.jpg")


def show_path(path: Path) -> str:
    """Write a path so that it can be printed."""
    return "".join(c if c.isprintable() else "?" for c in str(path))


def _confine(folder: Path, path: Path) -> Path:
    if not path.resolve().is_relative_to(folder.resolve()):
        raise NotAllowed(f"{show_path(path)} leads out of the folder", "put the file itself there, and no link to it")
    return path
