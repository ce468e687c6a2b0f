"""A workshop that cannot be written in, whose log book is damaged, or in which many hands are at work."""

from __future__ import annotations

import resource
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from lapwright.errors import CannotSave, DamagedLog, NotThere, RecordChanged, RecordClash
from lapwright.job.shelf.workshop import Workshop, open_workshop
from lapwright.job.shelf.workshop_folder import restore_log
from lapwright.logbook import EntryDraft
from lapwright.record import read_record
from tests.unit.logbook.books import write_protected
from tests.unit.record.records import TWIN

NOW = datetime(2026, 11, 25, 16, 30)


def list_changes(workshop: Workshop) -> dict[str, Callable[[], Any]]:
    """Everything that a bench may be asked to do to a folder."""
    record = workshop.open_engine("tern")
    digest = record.digest
    return {
        "change": lambda: workshop.change("tern", "engine.name", "Ruff", digest=digest, seen="Tern"),
        "replace": lambda: workshop.replace_text("tern", record.text + "#", digest=digest),
        "add": lambda: workshop.add_part("tern", "pin", digest=digest),
        "remove": lambda: workshop.remove_part("tern", "cylinder.1", digest=digest),
        "undo": lambda: workshop.undo("tern", digest=digest),
        "create": lambda: workshop.create("Ruff"),
        "copy": lambda: workshop.copy("tern", "Ruff"),
        "bring in": lambda: workshop.bring_in("wren.toml", TWIN.encode()),
    }


def test_a_folder_that_cannot_be_written_is_read_and_refuses_every_change(tmp_path: Path) -> None:
    (tmp_path / "tern.toml").write_text(TWIN, encoding="utf-8")
    workshop = open_workshop(tmp_path)
    workshop.change("tern", "engine.notes", "seen", digest=workshop.open_engine("tern").digest, seen="")
    workshop.log.add_entry(EntryDraft("tern", "note", "seen"), now=NOW)
    workshop.close()
    files = {name: (tmp_path / name).read_bytes() for name in ("tern.toml", "logbook.sqlite")}
    with write_protected(files) as folder:
        workshop = open_workshop(folder)
        assert [entry.id for entry in workshop.list_shelf()] == ["tern"]
        assert workshop.visit("tern").engine.notes == "seen"
        assert workshop.can_undo("tern")
        assert len(workshop.log.find_entries()) == 1
        for change in list_changes(workshop).values():
            with pytest.raises(CannotSave):
                change()
        workshop.close()
        assert {path.name: path.read_bytes() for path in folder.iterdir()} == files


def test_a_folder_that_cannot_be_written_needs_no_log_book_to_be_read(tmp_path: Path) -> None:
    with write_protected({"tern.toml": TWIN.encode()}) as folder:
        workshop = open_workshop(folder)
        assert [entry.id for entry in workshop.list_shelf()] == ["tern"]
        assert workshop.visit("tern").engine.name == "Tern"
        assert not workshop.can_undo("tern")
        assert workshop.export("tern")[0] == "tern.zip"
        changes = list_changes(workshop)
        with pytest.raises(NotThere):
            changes.pop("undo")()
        for change in changes.values():
            with pytest.raises(CannotSave):
                change()
        with pytest.raises(CannotSave, match="logbook"):
            workshop.log.find_entries()
        workshop.close()
        assert [path.name for path in folder.iterdir()] == ["tern.toml"]


def test_where_no_room_is_left_a_change_is_refused_and_everything_stays(tmp_path: Path) -> None:
    (tmp_path / "tern.toml").write_text(TWIN, encoding="utf-8")
    workshop = open_workshop(tmp_path)
    changes = list_changes(workshop)
    del changes["undo"]
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, usual[1]))
    try:
        for change in changes.values():
            with pytest.raises(CannotSave):
                change()
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)
    assert (tmp_path / "tern.toml").read_text(encoding="utf-8") == TWIN
    assert [path.name for path in tmp_path.glob("*.toml*")] == ["tern.toml"]
    assert list_changes(workshop)["change"]().record.engine.name == "Ruff"
    workshop.close()


def test_a_damaged_log_book_is_said_and_brought_back(tmp_path: Path) -> None:
    for text in ("first", "second"):
        workshop = open_workshop(tmp_path, clock=lambda: NOW)
        workshop.log.add_entry(EntryDraft("tern", "note", text), now=NOW)
        workshop.close()
    (tmp_path / "logbook.sqlite").write_bytes(b"no log book at all" * 1000)
    with pytest.raises(DamagedLog):
        open_workshop(tmp_path, clock=lambda: NOW)
    said = restore_log(tmp_path, clock=lambda: NOW)
    assert said.startswith("The log book is as it was backed up on 2026-11-25 at 16:30. The other one is kept as ")
    workshop = open_workshop(tmp_path, clock=lambda: NOW)
    assert [entry.text for entry in workshop.log.find_entries()] == ["first"]
    workshop.close()


def test_a_log_book_without_a_backup_cannot_be_brought_back(tmp_path: Path) -> None:
    with pytest.raises(NotThere):
        restore_log(tmp_path)


KEYS = [
    "engine.notes", "cylinder.0.bore", "cylinder.0.stroke", "cylinder.0.connecting_rod", "cylinder.0.valve.length",
    "cylinder.0.valve.cavity", "cylinder.1.bore", "running.load",
]  # fmt: skip


def test_pages_that_change_different_keys_at_once_lose_nothing(tmp_path: Path) -> None:
    (tmp_path / "tern.toml").write_text(TWIN, encoding="utf-8")
    workshop = open_workshop(tmp_path)

    def hammer(key: str) -> str:
        """A page that reads its own answers only, so that its digest is nearly always an old one."""
        record = workshop.open_engine("tern")
        for number in range(1, 7):
            value = f"{number} mm" if key != "running.load" else f"{number} mN m"
            seen = record.written[key]
            record = workshop.change("tern", key, value, digest=record.digest, seen=seen).record
            assert record.written[key] == value
        return key

    with ThreadPoolExecutor(len(KEYS)) as pool:
        assert sorted(pool.map(hammer, KEYS)) == sorted(KEYS)
    written = workshop.open_engine("tern").written
    assert {written[key] for key in KEYS} == {"6 mm", "6 mN m"}
    assert len(workshop.list_revisions("tern", 200)) == 1 + 6 * len(KEYS)
    for _ in range(6 * len(KEYS)):
        workshop.undo("tern", digest=workshop.open_engine("tern").digest)
    assert (tmp_path / "tern.toml").read_text(encoding="utf-8") == TWIN
    workshop.close()


def test_of_pages_that_change_one_key_at_once_each_knows_whether_it_did(tmp_path: Path) -> None:
    (tmp_path / "tern.toml").write_text(TWIN, encoding="utf-8")
    workshop = open_workshop(tmp_path)
    digest = workshop.open_engine("tern").digest

    def change(number: int) -> str:
        try:
            workshop.change("tern", "engine.notes", f"page {number}", digest=digest, seen="")
        except RecordClash as clash:
            return f"lost to {clash.theirs}"
        return f"page {number}"

    with ThreadPoolExecutor(6) as pool:
        said = set(pool.map(change, range(6)))
    (winner,) = {line for line in said if line.startswith("page")}
    assert said == {winner, f"lost to {winner}"}
    assert workshop.open_engine("tern").written["engine.notes"] == winner
    workshop.close()


def test_a_file_that_a_hand_saves_all_the_time_is_given_up_after_a_few_tries(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "tern.toml"
    path.write_text(TWIN, encoding="utf-8")
    workshop = open_workshop(tmp_path)
    digest = workshop.open_engine("tern").digest
    history = workshop._history
    keep = history.keep_before

    def keep_while_a_hand_saves(engine: str, now: object) -> None:
        keep(engine, now)
        path.write_text(path.read_text(encoding="utf-8") + "# again\n", encoding="utf-8")

    monkeypatch.setattr(history, "keep_before", keep_while_a_hand_saves)
    with pytest.raises(RecordChanged):
        workshop.change("tern", "engine.name", "Ruff", digest=digest, seen="Tern")
    assert path.read_text(encoding="utf-8").startswith(TWIN + "# again\n")
    workshop.close()


SAVING = """
import sys
from pathlib import Path
from lapwright.job.shelf.workshop import open_workshop
workshop = open_workshop(Path(sys.argv[1]))
record = workshop.open_engine("tern")
for number in range(200):
    value = f"{number}: " + "x" * (number * 37 % 500)
    record = workshop.change(
        "tern", "engine.notes", value, digest=record.digest, seen=record.written["engine.notes"]
    ).record
    print(number, flush=True)
"""


@pytest.mark.parametrize("killed_after", [3, 120])
def test_what_was_acknowledged_is_there_after_a_kill_and_the_record_is_whole(tmp_path: Path, killed_after: int) -> None:
    (tmp_path / "tern.toml").write_text(TWIN, encoding="utf-8")
    saving = subprocess.Popen(
        [sys.executable, "-c", SAVING, str(tmp_path)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert saving.stdout is not None
    assert saving.stderr is not None
    last = -1
    for line in saving.stdout:
        last = int(line)
        if last == killed_after:
            saving.kill()
    saving.wait(timeout=30)
    saving.stdout.close()
    assert saving.stderr.read() == ""
    saving.stderr.close()
    text = (tmp_path / "tern.toml").read_text(encoding="utf-8")
    record = read_record(text.encode())
    number = int(record.written["engine.notes"].partition(":")[0])
    assert number >= last >= killed_after
    assert record.problems == ()
    assert text.replace(record.written["engine.notes"], "", 1) == TWIN
    workshop = open_workshop(tmp_path)
    kept = [revision.what for revision in workshop.list_revisions("tern", 200)]
    # Killed between saving the record and keeping it, the log book has it with the next change.
    assert [what.split(":")[1].strip() for what in kept[:-1]][-last - 1 :] == [str(n) for n in range(last, -1, -1)]
    assert workshop.undo("tern", digest=record.digest).record.written["engine.notes"].startswith(f"{number - 1}:")
    workshop.close()
