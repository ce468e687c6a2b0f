"""Photographs: files as they were given, named by what is in them, and rows that say which entry they belong to.

A file is on the disk before its row is, so that a crash leaves at worst a file that nobody asks for. Files stay when
entries go: a backup may still speak of them.
"""

from __future__ import annotations

import hashlib
import sqlite3
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from lapwright.errors import CannotSave, NotThere
from lapwright.logbook.entries import PHOTOGRAPH_COLUMNS, find_entry, forget_words, read_photograph, write_words
from lapwright.logbook.entry import Photograph
from lapwright.logbook.pictures import FOR_PAPER, Picture, shrink_picture, strip_picture
from lapwright.logbook.places import locate_photograph, locate_thumbnail, show_path
from lapwright.logbook.times import write_time
from lapwright.record.saving import write_whole

if TYPE_CHECKING:
    from datetime import datetime


def store_picture(folder: Path, picture: Picture) -> None:
    """Put a picture's file on the disk, unless it is there already, whole.

    Raises
    ------
    CannotSave
    """
    target = locate_photograph(folder, f"{picture.digest}.{picture.form}")
    try:
        target.parent.mkdir(exist_ok=True)
        if not _holds(target, picture.digest):
            write_whole(str(target), picture.data)
    except OSError as error:
        raise CannotSave(show_path(target.parent), error.strerror or "the disk does not take it") from error
    _keep_thumbnail(folder, picture.digest, picture.small)


def add_photograph(connection: sqlite3.Connection, number: int, picture: Picture, *, now: datetime) -> Photograph:
    """Say that a stored picture belongs to an entry; one that it has already is not added twice."""
    forget_words(connection, number)
    connection.execute(
        f"INSERT OR IGNORE INTO photograph (entry, {PHOTOGRAPH_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?)",
        (number, picture.digest, picture.name, picture.form, picture.width, picture.height, write_time(now)),
    )
    write_words(connection, number)
    return next(kept for kept in find_entry(connection, number).photographs if kept.digest == picture.digest)


def remove_photograph(connection: sqlite3.Connection, number: int, digest: str) -> None:
    """Take a photograph off an entry."""
    if all(photograph.digest != digest for photograph in find_entry(connection, number).photographs):
        raise _not_there(digest)
    forget_words(connection, number)
    connection.execute("DELETE FROM photograph WHERE entry = ? AND digest = ?", (number, digest))
    write_words(connection, number)


def find_photograph(connection: sqlite3.Connection, digest: str) -> Photograph:
    """Find a photograph of any entry by its digest."""
    sql = f"SELECT {PHOTOGRAPH_COLUMNS} FROM photograph WHERE digest = ? ORDER BY id LIMIT 1"
    row = connection.execute(sql, (digest,)).fetchone()
    if row is None:
        raise _not_there(digest)
    return read_photograph(row)


def read_file(folder: Path, photograph: Photograph) -> bytes:
    """Read the bytes of a photograph as they were given."""
    try:
        return locate_photograph(folder, f"{photograph.digest}.{photograph.form}").read_bytes()
    except OSError as error:
        raise NotThere(
            f'file of the photograph "{photograph.name}"', "look for it in an older copy of photographs/"
        ) from error


def read_stripped(folder: Path, photograph: Photograph) -> bytes:
    """Read a photograph without anything that the camera wrote into it."""
    return strip_picture(read_file(folder, photograph), photograph.name)


def read_for_paper(folder: Path, photograph: Photograph) -> bytes:
    """Make an upright JPEG picture of a photograph, fine enough for print, with nothing in it but the picture."""
    return shrink_picture(read_file(folder, photograph), photograph.name, side=FOR_PAPER)


def read_thumbnail(folder: Path, photograph: Photograph) -> bytes:
    """Read the small picture of a photograph, or make it and keep it where that can be done."""
    with suppress(OSError):
        return locate_thumbnail(folder, photograph.digest).read_bytes()
    small = shrink_picture(read_file(folder, photograph), photograph.name)
    _keep_thumbnail(folder, photograph.digest, small)
    return small


def _keep_thumbnail(folder: Path, digest: str, small: bytes) -> None:
    # It can be made again at any time.
    with suppress(OSError):
        target = locate_thumbnail(folder, digest)
        target.parent.mkdir(exist_ok=True)
        write_whole(str(target), small)


def _holds(path: Path, digest: str) -> bool:
    with suppress(OSError), path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest() == digest
    return False


def _not_there(digest: str) -> NotThere:
    return NotThere(f"photograph {digest[:12]} in the log book", "look at the log again; it may have been removed")
