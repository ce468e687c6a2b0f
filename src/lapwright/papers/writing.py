"""Put a paper on disk whole or not at all."""

from __future__ import annotations

import contextlib
import os
import tempfile


def write_whole(path: str | os.PathLike[str], data: bytes) -> None:
    """Write a file in one stroke: a reader sees the old one or the new one, never a part.

    Raises
    ------
    OSError: the file system says no; what stood there before is untouched
    """
    target = os.path.realpath(os.fspath(path))
    handle, part = tempfile.mkstemp(prefix=".", suffix=".part", dir=os.path.dirname(target))
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(part, _mode_for(target))
        os.replace(part, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(part)
        raise


def _mode_for(target: str) -> int:
    """The mode of the file that is replaced, or what a new file gets here."""
    try:
        return os.stat(target).st_mode & 0o7777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask
