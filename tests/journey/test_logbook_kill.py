"""A program that is killed while it writes: whatever it had acknowledged is in the log book afterwards."""

from __future__ import annotations

import hashlib
import random
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import datetime
from pathlib import Path

import pytest

from lapwright.logbook import open_logbook
from tests.journey.program import TOP
from tests.unit.logbook.books import make_picture

NOW = datetime(2026, 3, 7, 14, 5, 9)
#: Adds entries, each with a photograph of its own and a revision, and says so once they are acknowledged.
CHILD = """
import sys
from datetime import datetime
from pathlib import Path
from lapwright.logbook import EntryDraft, Reading, open_logbook

folder, first, picture = Path(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3]).read_bytes()
now = datetime(2026, 3, 7, 14, 5, 9)
book = open_logbook(folder, now=now)
for turn in range(first, first + 100_000):
    readings = (Reading("speed", f"{turn} rpm"),)
    entry = book.add_entry(EntryDraft("tern", "run", f"turn{turn} " * 50, readings=readings), now=now)
    print("entry", entry.id, turn, flush=True)
    if turn % 5 == 0:
        kept = book.add_photograph(entry.id, picture + str(turn).encode(), name=f"{turn}.jpg", now=now)
        print("photograph", entry.id, kept.digest, flush=True)
    book.keep_revision("tern", "x" * turn, digest=str(turn), what=f"turn {turn}", now=now)
    print("revision", turn, turn, flush=True)
"""


def work_until_killed(folder: Path, first: int, *, saves: int) -> list[tuple[str, int, str]]:
    """Let the child work, kill it somewhere after so many saves, and return all that it had acknowledged."""
    picture = folder.parent / "picture.jpg"
    picture.write_bytes(make_picture())
    command = [sys.executable, "-c", CHILD, str(folder), str(first), str(picture)]
    with subprocess.Popen(command, cwd=TOP, stdout=subprocess.PIPE, encoding="utf-8") as child:
        assert child.stdout is not None
        lines = [child.stdout.readline() for _ in range(saves)]
        child.kill()
        lines += child.stdout.read().splitlines(keepends=True)
    whole = (line.split() for line in lines if line.endswith("\n"))
    return [(what, int(number), told) for what, number, told in whole]


@pytest.mark.journey
def test_nothing_that_was_acknowledged_is_lost_when_the_program_is_killed(tmp_path) -> None:
    folder = tmp_path / "workshop"
    folder.mkdir()
    lots = random.Random(7)
    acknowledged: list[tuple[str, int, str]] = []
    for kill in range(6):
        acknowledged += work_until_killed(folder, 1000 * (kill + 1), saves=lots.randrange(40, 80))
        with closing(sqlite3.connect(folder / "logbook.sqlite")) as connection:
            assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
            assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    assert len(acknowledged) >= 200
    check_all(folder, acknowledged)


def check_all(folder: Path, acknowledged: list[tuple[str, int, str]]) -> None:
    book = open_logbook(folder, now=NOW)
    assert not book.read_only
    digests = {revision.digest for revision in book.list_revisions("tern", 1000)}
    for what, number, told in acknowledged:
        if what == "entry":
            entry = book.find_entry(number)
            assert entry.text == (f"turn{told} " * 50).rstrip()
            assert [reading.value for reading in entry.readings] == [f"{told} rpm"]
            assert entry in book.find_entries(words=f"turn{told}")
        elif what == "photograph":
            assert hashlib.sha256(book.photograph(told)).hexdigest() == told
            assert told in {photograph.digest for photograph in book.find_entry(number).photographs}
        else:
            assert told in digests
    # What had been begun and not acknowledged is there whole or not at all.
    for entry in book.find_entries(limit=10_000):
        assert entry.readings
        assert all(book.photograph(photograph.digest) for photograph in entry.photographs)
    book.close()
