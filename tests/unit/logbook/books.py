"""What the checks of the log book share: the time, entries, pictures, and a folder that nobody may write in."""

from __future__ import annotations

import ctypes
import io
import re
import struct
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from pathlib import Path

from PIL import Image

from lapwright.logbook import EntryDraft, LogBook, Reading, open_logbook

#: CAP_DAC_OVERRIDE and CAP_DAC_READ_SEARCH of capabilities(7).
_PAST_PERMISSIONS = 1 << 1 | 1 << 2
NOW = datetime(2026, 3, 7, 14, 5, 9)
RUN = EntryDraft(
    "tern",
    "run",
    "Runs on air, a knock at the crank end.\nBetter with oil.",
    when=NOW,
    readings=(Reading("lowest pressure", "0.4 bar"), Reading("speed", "310 rpm at 1 bar")),
    parts_used=("4BA grub screw", "graphite yarn 3/32"),
    minutes=45,
    job="open",
)


def note(text: str, *, engine: str = "tern", days: int = 0, kind="note", job="") -> EntryDraft:
    return EntryDraft(engine, kind, text, when=NOW + timedelta(days=days), job=job)


@contextmanager
def opened(folder: Path, *, now: datetime = NOW) -> Iterator[LogBook]:
    book = open_logbook(folder, now=now)
    try:
        yield book
    finally:
        book.close()


def make_picture(form: str = "JPEG", *, size: tuple[int, int] = (60, 40), mode: str = "RGB", **options) -> bytes:
    """A picture whose upper left quarter is red and the rest blue."""
    image = Image.new("RGB", size, "blue")
    image.paste("red", (0, 0, size[0] // 2, size[1] // 2))
    file = io.BytesIO()
    image.convert(mode).save(file, form, **options)
    return file.getvalue()


@contextmanager
def write_protected(files: dict[str, bytes]) -> Iterator[Path]:
    """A folder with these files in which nothing can be written, not even by the one who may do everything."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        for name, data in files.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(data)
        inside = [folder, *folder.rglob("*")]
        for path in inside:
            path.chmod(0o555 if path.is_dir() else 0o444)
        try:
            with bound_by_permissions():
                yield folder
        finally:
            for path in inside:
                path.chmod(0o755)


@contextmanager
def bound_by_permissions() -> Iterator[None]:
    """Let this thread, and those it begins, do no more than a file's permissions allow, also as root.

    The user stays the same, so that all that only this user can read, the interpreter's own modules perhaps, still is.
    """
    status = dict(re.findall(r"Cap(\w+):\s*(\w+)", Path("/proc/thread-self/status").read_text(encoding="ascii")))
    effective, *others = (int(status[name], 16) for name in ("Eff", "Prm", "Inh"))
    _set_capabilities(effective & ~_PAST_PERMISSIONS, *others)
    try:
        yield
    finally:
        _set_capabilities(effective, *others)


def _set_capabilities(*sets: int) -> None:
    """Call capset(2): a header of version 3, then effective, permitted and inheritable in two halves."""
    halves = [each >> shift & 0xFFFFFFFF for shift in (0, 32) for each in sets]
    libc = ctypes.CDLL(None, use_errno=True)
    if libc.capset(struct.pack("Ii", 0x20080522, 0), struct.pack("6I", *halves)):
        raise OSError(ctypes.get_errno(), "capset")
