from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing
from datetime import timedelta

import pytest

from lapwright.errors import CannotSave, DamagedLog, NewerLog, NotAllowed
from lapwright.logbook import open_logbook
from lapwright.logbook.connecting import connect
from lapwright.logbook.steps import STEPS, take_steps
from tests.unit.logbook.books import NOW, RUN, make_picture, note, opened, write_protected


def ask(path, sql: str) -> list[tuple]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(sql).fetchall()


def write(path, sql: str) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.executescript(sql)


def read_files(folder) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_new_log_book_is_one_file_that_keeps_what_it_acknowledges(tmp_path) -> None:
    with opened(tmp_path) as book:
        settings = {
            name: book._check_writable().connection.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("journal_mode", "synchronous", "foreign_keys", "user_version")
        }
        assert settings == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "user_version": len(STEPS)}
        assert not book.read_only
        assert book.why_read_only == ""
        book.add_entry(RUN, now=NOW)
    assert os.listdir(tmp_path) == ["logbook.sqlite"]
    with opened(tmp_path) as book:
        assert len(book.find_entries()) == 1


def test_every_table_of_ours_is_strict(tmp_path) -> None:
    with opened(tmp_path):
        tables = ask(tmp_path / "logbook.sqlite", "SELECT name, strict FROM pragma_table_list WHERE type = 'table'")
    ours = {name: strict for name, strict in tables if not name.startswith("sqlite_")}
    assert ours == dict.fromkeys(["entry", "reading", "part_used", "photograph", "revision", "standing"], 1)


OLD_ENTRY = (
    "INSERT INTO entry (id, version, engine, happened, place, kind, text, job, saved)"
    " VALUES (7, 3, 'tern', '2025-01-02T03:04:05', 1, 'found', 'valve too long', 'open', '2025-01-02T03:04:05');"
    "INSERT INTO reading VALUES (7, 0, 'valve length', '14.8 mm'); INSERT INTO part_used VALUES (7, 0, 'gasket');"
)


@pytest.mark.parametrize("version", range(len(STEPS) + 1))
def test_a_log_book_of_every_older_version_is_brought_up_to_date(tmp_path, version) -> None:
    path = tmp_path / "logbook.sqlite"
    with closing(connect(path)) as connection:
        take_steps(connection, upto=version)
        if version:
            connection.executescript(OLD_ENTRY)
        if version >= 3:
            connection.execute(
                "INSERT INTO entry_words (rowid, text, readings, parts, photographs)"
                " SELECT place, text, readings, parts, photographs FROM words_of_entry"
            )
    with opened(tmp_path) as book:
        assert [entry.text for entry in book.find_entries(words="14.8 gasket")] == ["valve too long"][: version and 1]
        entry = book.add_entry(RUN, now=NOW)
        book.add_photograph(entry.id, make_picture(), name="valve.jpg", now=NOW)
        book.keep_revision("tern", "text", digest="digest", what="as found", now=NOW)
        assert entry.id == (8 if version else 1)
        backups = book.list_backups()
    fresh = tmp_path / "fresh"
    fresh.mkdir()
    with opened(fresh):
        schema = "SELECT type, name, sql FROM sqlite_schema ORDER BY type, name"
        assert ask(path, schema) == ask(fresh / "logbook.sqlite", schema)
    # Before it was brought up to date, it was copied as it stood.
    assert [ask(tmp_path / "backups" / backup.name, "PRAGMA user_version") for backup in backups] == (
        [[(version,)]] if version else []
    )


def test_a_step_is_taken_whole_or_not_at_all(tmp_path) -> None:
    path = tmp_path / "logbook.sqlite"
    with closing(connect(path)) as connection:
        take_steps(connection, upto=1)
        # A table that is in the way of the third step, behind the first thing that the step does.
        connection.execute("CREATE TABLE words_of_entry (x)")
        with pytest.raises(sqlite3.OperationalError):
            take_steps(connection)
    assert ask(path, "PRAGMA user_version") == [(2,)]
    assert ask(path, "SELECT count(*) FROM sqlite_schema WHERE name = 'entry_words'") == [(0,)]
    write(path, "DROP TABLE words_of_entry")
    with opened(tmp_path) as book:
        book.add_entry(RUN, now=NOW)


def test_a_newer_log_book_is_refused_and_left_alone(tmp_path) -> None:
    with opened(tmp_path):
        pass
    write(tmp_path / "logbook.sqlite", f"PRAGMA user_version = {len(STEPS) + 1}")
    before = read_files(tmp_path)
    with pytest.raises(NewerLog) as refusal:
        open_logbook(tmp_path, now=NOW)
    assert str(refusal.value) == (
        f"{tmp_path}/logbook.sqlite was written by a later version of lapwright: use that version, or another folder"
    )
    assert read_files(tmp_path) == before


def break_middle(path) -> None:
    data = bytearray(path.read_bytes())
    data[len(data) // 2 :] = os.urandom(len(data) - len(data) // 2)
    path.write_bytes(data)


BREAKS = {
    "rubbish": lambda path: path.write_bytes(b"rubbish" * 1000),
    "cut short": lambda path: path.write_bytes(path.read_bytes()[:9000]),
    "broken in the middle": break_middle,
    "emptied": lambda path: path.write_bytes(b""),
    "gone": lambda path: path.unlink(),
    "of another program": lambda path: write(path, "PRAGMA application_id = 1"),
}


@pytest.mark.parametrize("way", BREAKS)
def test_a_damaged_log_book_is_refused_with_the_way_back_and_not_touched(tmp_path, way) -> None:
    with opened(tmp_path) as book:
        book.add_entry(RUN, now=NOW)
        book.back_up(now=NOW)
    BREAKS[way](tmp_path / "logbook.sqlite")
    before = read_files(tmp_path)
    with pytest.raises(DamagedLog) as refusal:
        open_logbook(tmp_path, now=NOW + timedelta(days=1))
    assert str(refusal.value).startswith(f"{tmp_path}/logbook.sqlite is damaged (")
    assert str(refusal.value).endswith(
        f'): close the bench and run "lapwright bench {tmp_path} --restore", '
        "which puts the damaged file aside and brings the newest sound backup back"
    )
    assert read_files(tmp_path) == before


def test_damage_that_comes_while_it_is_open_is_told_in_the_same_words(tmp_path) -> None:
    with opened(tmp_path) as book:
        for days in range(50):
            book.add_entry(note("x" * 2000, days=days), now=NOW)
        book._check_writable().connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        path = tmp_path / "logbook.sqlite"
        path.write_bytes(path.read_bytes()[:4096] + os.urandom(path.stat().st_size - 4096))
        with pytest.raises(DamagedLog, match="--restore"):
            book.find_entries(limit=1000)


def test_a_log_book_that_cannot_be_written_can_be_read(tmp_path) -> None:
    with opened(tmp_path) as book:
        entry = book.add_entry(RUN, now=NOW)
        kept = book.add_photograph(entry.id, make_picture(size=(960, 480)), name="valve.jpg", now=NOW)
        book.keep_revision("tern", "text", digest="digest", what="as found", now=NOW)
        entry, small = book.find_entry(entry.id), book.thumbnail(kept.digest)
    files = {name: data for name, data in read_files(tmp_path).items() if "small" not in name}
    with write_protected(files) as folder:
        with opened(folder) as book:
            assert book.read_only
            assert book.why_read_only == f"{folder}/logbook.sqlite cannot be written (it is write-protected)"
            assert book.find_entries(words="knock") == (entry,)
            assert book.thumbnail(kept.digest) == small
            assert book.list_revisions("tern")[0].text == "text"
            for act in (
                lambda: book.add_entry(RUN, now=NOW),
                lambda: book.add_photograph(entry.id, make_picture(), name="valve.jpg", now=NOW),
                lambda: book.back_up(now=NOW),
                lambda: book.undo_revision("tern", "digest"),
            ):
                with pytest.raises(CannotSave) as refusal:
                    act()
                assert refusal.value.message == book.why_read_only
        assert read_files(folder) == files


def test_a_file_that_is_opened_for_reading_alone_is_noticed_by_trying(tmp_path) -> None:
    with opened(tmp_path) as book:
        book.add_entry(RUN, now=NOW)
    # Backups cannot be made where a file has their folder's name.
    (tmp_path / "backups").write_text("no folder", encoding="utf-8")
    with opened(tmp_path) as book:
        assert book.read_only
        assert "backups cannot be written" in book.why_read_only
        assert len(book.find_entries()) == 1


def test_where_nothing_can_be_written_none_is_begun(tmp_path) -> None:
    with write_protected({"tern.toml": b""}) as folder, pytest.raises(CannotSave, match=r"logbook\.sqlite cannot be"):
        open_logbook(folder, now=NOW)
    with pytest.raises(CannotSave, match="cannot be opened"):
        open_logbook(tmp_path / "nowhere", now=NOW)


def test_an_old_log_book_that_cannot_be_brought_up_to_date_is_refused(tmp_path) -> None:
    with closing(connect(tmp_path / "logbook.sqlite")) as connection:
        take_steps(connection, upto=1)
    with write_protected(read_files(tmp_path)) as folder, pytest.raises(CannotSave, match="write-protected"):
        open_logbook(folder, now=NOW)


def test_a_full_disk_refuses_the_entry_whole_and_what_was_there_stays(tmp_path) -> None:
    with opened(tmp_path) as book:
        first = book.add_entry(RUN, now=NOW)
        connection = book._check_writable().connection
        (pages,) = connection.execute("PRAGMA page_count").fetchone()
        connection.execute(f"PRAGMA max_page_count = {pages}")
        long = note("valve " * 3000)
        for act in (
            lambda: book.add_entry(long, now=NOW),
            lambda: book.change_entry(first.id, long, seen=1, now=NOW),
            lambda: book.keep_revision("tern", "x" * 20_000, digest="digest", what="as found", now=NOW),
        ):
            with pytest.raises(CannotSave, match="the disk is full"):
                act()
        assert book.find_entries() == (first,)
        assert book.find_entries(words="valve") == book.list_revisions("tern") == ()
        connection.execute(f"PRAGMA max_page_count = {pages + 1000}")
        assert book.add_entry(long, now=NOW).id == 2
    assert ask(tmp_path / "logbook.sqlite", "PRAGMA quick_check") == [("ok",)]


def test_another_program_may_use_the_file_at_the_same_time(tmp_path) -> None:
    with opened(tmp_path) as one, opened(tmp_path) as other:
        one.add_entry(note("one"), now=NOW)
        other.add_entry(note("other"), now=NOW)
        assert [entry.text for entry in one.find_entries()] == ["other", "one"]


def test_links_out_of_the_folder_are_not_followed(tmp_path) -> None:
    for name in ("inside", "outside"):
        (tmp_path / name).mkdir()
    with opened(tmp_path / "outside"):
        pass
    shutil.move(tmp_path / "outside" / "logbook.sqlite", tmp_path / "outside" / "other.sqlite")
    (tmp_path / "inside" / "logbook.sqlite").symlink_to(tmp_path / "outside" / "other.sqlite")
    with pytest.raises(NotAllowed, match="leads out of the folder"):
        open_logbook(tmp_path / "inside", now=NOW)
