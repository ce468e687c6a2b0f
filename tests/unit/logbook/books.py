"""What the checks of the log book share: the time, entries, pictures, and a folder that nobody may write in."""

from __future__ import annotations

import io
import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from pathlib import Path

from PIL import Image

from lapwright.logbook import EntryDraft, LogBook, Reading, open_logbook

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
        user = os.geteuid()
        try:
            if user == 0:
                os.seteuid(65534)
            yield folder
        finally:
            os.seteuid(user)
            for path in inside:
                path.chmod(0o755)
