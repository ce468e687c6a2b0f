"""Several hands at one log book, and a disk that takes no more."""

from __future__ import annotations

import os
import resource
import sqlite3
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager

import pytest

from lapwright.errors import CannotSave, LogChanged
from tests.unit.logbook.books import NOW, RUN, make_picture, note, opened


def test_many_hands_lose_nothing_and_read_whole_entries(tmp_path) -> None:
    picture = make_picture()
    with opened(tmp_path) as book, ThreadPoolExecutor(8) as hands:

        def work(hand: int) -> None:
            for turn in range(10):
                entry = book.add_entry(note(f"hand {hand} turn {turn}", engine=f"engine{hand % 2}"), now=NOW)
                kept = book.add_photograph(entry.id, picture, name="valve.jpg", now=NOW)
                book.change_entry(entry.id, RUN, seen=1, now=NOW)
                assert all(len(found.readings) in {0, 2} for found in book.find_entries(limit=20))
                assert book.thumbnail(kept.digest)

        list(hands.map(work, range(8)))
        assert len(book.find_entries(words="knock", limit=100)) == 80
        assert book.find_entries(words="hand") == ()
        assert book.summarise("tern").entries == 80


def test_of_two_changes_to_what_was_seen_one_is_made(tmp_path) -> None:
    with opened(tmp_path) as book, ThreadPoolExecutor(8) as hands:
        entry = book.add_entry(RUN, now=NOW)

        def change(hand: int) -> int:
            try:
                book.change_entry(entry.id, note(f"by {hand}"), seen=1, now=NOW)
            except LogChanged:
                return 0
            return 1

        assert sum(hands.map(change, range(8))) == 1
        assert book.find_entry(entry.id).version == 2


@contextmanager
def files_no_longer_than(size: int) -> Iterator[None]:
    """Let the system refuse to write beyond the first bytes of any file, as a full disk does."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def test_a_photograph_for_which_there_is_no_room_leaves_nothing(tmp_path) -> None:
    picture = make_picture("PNG", size=(300, 300)) + bytes(40_000)
    with opened(tmp_path) as book:
        book.add_entry(RUN, now=NOW)
        with (
            files_no_longer_than(20_000),
            pytest.raises(CannotSave, match=r"photographs cannot be written \(File too large\)"),
        ):
            book.add_photograph(1, picture, name="valve.png", now=NOW)
        assert [path for path in (tmp_path / "photographs").rglob("*") if path.is_file()] == []
        assert book.find_entry(1).photographs == ()
        book.add_photograph(1, picture, name="valve.png", now=NOW)
        assert len(book.find_entry(1).photographs) == 1


def test_a_backup_and_an_entry_for_which_there_is_no_room_leave_nothing(tmp_path) -> None:
    with opened(tmp_path) as book:
        book.add_entry(RUN, now=NOW)
        with files_no_longer_than(20_000):
            with pytest.raises(CannotSave):
                book.back_up(now=NOW)
            with pytest.raises(CannotSave):
                book.add_entry(RUN, now=NOW)
            assert len(book.find_entries()) == 1
        assert os.listdir(tmp_path / "backups") == []
        assert book.add_entry(RUN, now=NOW).id == 2
    with closing(sqlite3.connect(tmp_path / "logbook.sqlite")) as connection:
        assert connection.execute("PRAGMA quick_check").fetchone() == ("ok",)
