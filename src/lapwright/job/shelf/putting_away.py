"""Engines that are taken off the shelf: their records are kept in a folder beside it, and nothing is deleted."""

from __future__ import annotations

import os
import re
from datetime import datetime
from pathlib import Path

from lapwright.errors import CannotSave
from lapwright.job.shelf.record_files import SUFFIX, find_record_file

#: The folder, in that of the workshop.
PUT_AWAY = "put-away"
_STAMP, _DATED = "%Y%m%d-%H%M%S", re.compile(r"(.+)-\d{8}-\d{6}(?:-\d+)?")


def put_away(folder: Path, engine: str, *, now: datetime) -> str:
    """Put the record of an engine away under a name with the date, and return that name, from the workshop on.

    Parameters
    ----------
    folder: the workshop
    engine: id of the engine
    now: what time it is

    Raises
    ------
    NotThere
    CannotSave: the record stays where it is
    """
    path, place = find_record_file(folder, engine), folder / PUT_AWAY
    if path.is_symlink():
        raise CannotSave(path.name, "it is a link to another record")
    try:
        place.mkdir(exist_ok=True)
        if not _is_own(folder):
            raise CannotSave(PUT_AWAY, "it leads out of the workshop")
        kept = _find_free(place, f"{engine}-{now.strftime(_STAMP)}")
        path.rename(kept)
    except OSError as error:
        raise CannotSave(path.name, error.strerror or "it cannot be moved") from error
    return f"{PUT_AWAY}/{kept.name}"


def find_put_away(folder: Path, data: bytes) -> str | None:
    """Find the id of the engine whose record was put away as it is now brought in, None where there is none.

    Parameters
    ----------
    folder: the workshop
    data: the record
    """
    if not _is_own(folder):
        return None
    for path in sorted((folder / PUT_AWAY).glob(f"*{SUFFIX}"), reverse=True):
        dated = _DATED.fullmatch(path.stem)
        if dated is not None and _holds(path, data):
            return dated[1]
    return None


def _holds(path: Path, data: bytes) -> bool:
    try:
        return path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data
    except OSError:
        return False


def _is_own(folder: Path) -> bool:
    place = folder / PUT_AWAY
    return place.is_dir() and not place.is_symlink()


def _find_free(place: Path, stem: str) -> Path:
    number, path = 1, place / f"{stem}{SUFFIX}"
    while os.path.lexists(path):
        number += 1
        path = place / f"{stem}-{number}{SUFFIX}"
    return path
