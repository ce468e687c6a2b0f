"""Put a record back on the disk: whole or not at all, and never over what was not read."""

from __future__ import annotations

import contextlib
import hashlib
import os
import stat

from lapwright.errors import CannotSave, RecordChanged


def save_record(path: str | os.PathLike[str], text: str, *, expected_digest: str | None) -> str:
    """Write a record in one stroke, through a link and with the file's own permissions.

    Parameters
    ----------
    path: where the record is, or is to be
    text: the whole record
    expected_digest: what the file held when it was read; None for a file that is not to be there yet

    Returns
    -------
    the digest of what was written, for the next time

    Raises
    ------
    RecordChanged: the file is not the one that was read
    CannotSave: the file system says no
    """
    shown = os.fspath(path)
    data = text.encode("utf-8")
    try:
        target = os.path.realpath(shown)
        if _find_digest(target) != expected_digest:
            raise RecordChanged(shown)
        if expected_digest is not None and not os.access(target, os.W_OK):
            raise CannotSave(shown, "it is write-protected")
        write_whole(target, data)
    except OSError as error:
        raise CannotSave(shown, error.strerror or "unknown reason") from error
    except ValueError as error:
        raise CannotSave(shown, "no such name is possible") from error
    return hashlib.sha256(data).hexdigest()


def _find_digest(target: str) -> str | None:
    try:
        with open(target, "rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except FileNotFoundError:
        return None


def write_whole(target: str, data: bytes) -> None:
    """Write a file in one stroke: whoever reads sees the old one or the new one, never a part.

    Raises
    ------
    OSError: the file system says no; what stood there before is untouched
    """
    folder, name = os.path.split(target)
    draft = os.path.join(folder, f".{name}.{os.getpid()}.new")
    # A program of our number that was killed while it saved may have left one behind.
    with contextlib.suppress(FileNotFoundError):
        os.unlink(draft)
    handle = os.open(draft, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o666)
    try:
        with open(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if os.path.exists(target):
            os.chmod(draft, stat.S_IMODE(os.stat(target).st_mode))
        os.replace(draft, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(draft)
        raise
    # Not every system lets a folder be flushed; the file itself is safe by now.
    with contextlib.suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)
