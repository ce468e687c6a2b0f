from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from datetime import timedelta

import pytest

from lapwright.errors import CannotSave, DamagedLog, NotThere
from lapwright.logbook import Backup, open_logbook, restore_logbook
from lapwright.logbook.steps import STEPS
from tests.unit.logbook.books import NOW, note, opened

DAY = timedelta(days=1)


def name(when) -> str:
    return f"logbook-{when:%Y%m%d-%H%M%S}.sqlite"


def texts(folder, *, days: int) -> list[str]:
    """The texts of a log book, which is opened for that, so many days later."""
    with opened(folder, now=NOW + days * DAY) as book:
        return [entry.text for entry in book.find_entries()]


def fill(folder, days: int) -> None:
    """An entry a day, each day's log book opened anew."""
    for day in range(days):
        with opened(folder, now=NOW + day * DAY) as book:
            book.add_entry(note(f"day {day}", days=day), now=NOW)


def test_every_start_makes_a_backup_and_the_ten_newest_are_kept(tmp_path) -> None:
    fill(tmp_path, 13)
    with opened(tmp_path, now=NOW + 13 * DAY) as book:
        backups = book.list_backups()
    assert [backup.when for backup in backups] == [NOW + day * DAY for day in range(13, 3, -1)]
    assert sorted(os.listdir(tmp_path / "backups")) == sorted(backup.name for backup in backups)
    newest = tmp_path / "backups" / name(NOW + 13 * DAY)
    assert backups[0] == Backup(newest.name, NOW + 13 * DAY, newest.stat().st_size)
    with closing(sqlite3.connect(newest)) as connection:
        assert connection.execute("SELECT count(*) FROM entry").fetchone() == (13,)
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("delete",)


def test_a_backup_on_demand_holds_what_was_acknowledged(tmp_path) -> None:
    with opened(tmp_path) as book:
        book.add_entry(note("kept"), now=NOW)
        path = book.back_up(now=NOW)
        book.add_entry(note("later"), now=NOW)
        assert path == tmp_path / "backups" / name(NOW)
        with closing(sqlite3.connect(path)) as connection:
            assert connection.execute("SELECT text FROM entry").fetchall() == [("kept",)]
        # Two within a second are one, the later.
        book.back_up(now=NOW)
        with closing(sqlite3.connect(path)) as connection:
            assert connection.execute("SELECT count(*) FROM entry").fetchone() == (2,)
        assert len(book.list_backups()) == 1


def test_a_clock_set_back_does_not_cost_the_backup_just_made(tmp_path) -> None:
    fill(tmp_path, 12)
    with opened(tmp_path, now=NOW - 1000 * DAY) as book:
        assert len(book.list_backups()) == 10
        assert book.list_backups()[-1].when == NOW - 1000 * DAY


def test_other_files_among_the_backups_are_left_alone(tmp_path) -> None:
    (tmp_path / "backups").mkdir()
    others = {"logbook-20261399-000000.sqlite", "notes.txt", "logbook-20260101-000000.sqlite.bak"}
    for other in others:
        (tmp_path / "backups" / other).write_text("mine", encoding="utf-8")
    fill(tmp_path, 12)
    assert others < set(os.listdir(tmp_path / "backups"))
    assert len(os.listdir(tmp_path / "backups")) == 13


def test_the_newest_sound_backup_comes_back_and_the_damaged_file_is_put_aside(tmp_path) -> None:
    fill(tmp_path, 4)
    (tmp_path / "logbook.sqlite").write_bytes(b"broken")
    (tmp_path / "logbook.sqlite-wal").write_bytes(b"unfinished")
    (tmp_path / "backups" / name(NOW + 3 * DAY)).write_bytes(b"broken as well")
    restored = restore_logbook(tmp_path, None, now=NOW + 9 * DAY)
    assert restored.backup.name == name(NOW + 2 * DAY)
    assert restored.put_aside == tmp_path / "logbook-put-aside-20260316-140509.sqlite"
    assert restored.put_aside.read_bytes() == b"broken"
    assert (tmp_path / f"{restored.put_aside.name}-wal").read_bytes() == b"unfinished"
    assert texts(tmp_path, days=9) == ["day 1", "day 0"]


def test_a_backup_is_brought_back_by_its_name_and_nothing_put_aside_is_written_over(tmp_path) -> None:
    fill(tmp_path, 3)
    first = restore_logbook(tmp_path, name(NOW + DAY), now=NOW)
    assert texts(tmp_path, days=5) == ["day 0"]
    second = restore_logbook(tmp_path, name(NOW + 2 * DAY), now=NOW)
    assert texts(tmp_path, days=6) == ["day 1", "day 0"]
    assert first.put_aside != second.put_aside
    assert second.put_aside == tmp_path / "logbook-put-aside-20260307-140509-2.sqlite"
    # What was put aside is a whole log book.
    with closing(sqlite3.connect(first.put_aside)) as connection:
        assert connection.execute("SELECT count(*) FROM entry").fetchone() == (3,)


def test_a_log_book_that_is_gone_comes_back(tmp_path) -> None:
    fill(tmp_path, 2)
    (tmp_path / "logbook.sqlite").unlink()
    assert restore_logbook(tmp_path, now=NOW).put_aside is None
    assert texts(tmp_path, days=2) == ["day 0"]


def test_what_cannot_be_brought_back_is_told_and_nothing_is_touched(tmp_path) -> None:
    fill(tmp_path, 2)
    backup = tmp_path / "backups" / name(NOW + DAY)
    backup.write_bytes(b"broken")
    before = (tmp_path / "logbook.sqlite").read_bytes()
    with pytest.raises(DamagedLog, match="so is its backup"):
        restore_logbook(tmp_path, backup.name, now=NOW)
    with pytest.raises(NotThere, match="there is no sound backup in backups/"):
        restore_logbook(tmp_path, None, now=NOW)
    for asked in ("logbook-20000101-000000.sqlite", "../tern.toml", ""):
        with pytest.raises(NotThere, match="there is no backup of that name"):
            restore_logbook(tmp_path, asked, now=NOW)
    assert sorted(os.listdir(tmp_path)) == ["backups", "logbook.sqlite"]
    assert (tmp_path / "logbook.sqlite").read_bytes() == before


def test_a_backup_of_a_later_version_is_not_brought_back(tmp_path) -> None:
    fill(tmp_path, 3)
    with closing(sqlite3.connect(tmp_path / "backups" / name(NOW + 2 * DAY))) as connection:
        connection.execute(f"PRAGMA user_version = {len(STEPS) + 1}")
    assert restore_logbook(tmp_path, now=NOW).backup.name == name(NOW + DAY)


def test_a_backup_that_cannot_be_finished_leaves_nothing(tmp_path) -> None:
    with opened(tmp_path) as book:
        book.add_entry(note("kept"), now=NOW)
        (tmp_path / "backups" / name(NOW)).mkdir(parents=True)
        (tmp_path / "backups" / name(NOW) / "full").mkdir()
        with pytest.raises(CannotSave):
            book.back_up(now=NOW)
        assert os.listdir(tmp_path / "backups") == [name(NOW)]


def test_after_a_way_back_the_log_book_goes_on(tmp_path) -> None:
    fill(tmp_path, 2)
    restore_logbook(tmp_path, now=NOW)
    book = open_logbook(tmp_path, now=NOW)
    book.add_entry(note("on we go", days=3), now=NOW)
    assert [entry.text for entry in book.find_entries(words="go")] == ["on we go"]
    book.close()
