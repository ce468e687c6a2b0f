"""Undo and redo: changes like others, and no text that stood in the file is ever lost by them."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from lapwright.errors import CannotChange, CannotSave, NotThere, RecordChanged, RecordClash
from lapwright.job.shelf.workshop import Workshop, open_workshop
from tests.unit.record.records import TWIN


@pytest.fixture
def workshop(tmp_path: Path):
    (tmp_path / "tern.toml").write_text(TWIN, encoding="utf-8")
    opened = open_workshop(tmp_path)
    yield opened
    opened.close()


def read(workshop: Workshop) -> str:
    return (workshop.folder / "tern.toml").read_text(encoding="utf-8")


def digest_of(workshop: Workshop) -> str:
    return workshop.open_engine("tern").digest


def set_bore(workshop: Workshop, value: str) -> str:
    record = workshop.open_engine("tern")
    seen = record.written["cylinder.0.bore"]
    return workshop.change("tern", "cylinder.0.bore", value, digest=record.digest, seen=seen).record.text


def test_changes_are_undone_one_by_one_down_to_what_was_found_and_made_again(workshop: Workshop) -> None:
    assert not workshop.can_undo("tern")
    texts = [TWIN, set_bore(workshop, "19 mm"), set_bore(workshop, "20 mm"), set_bore(workshop, "21 mm")]
    for text in reversed(texts[:-1]):
        assert workshop.can_undo("tern")
        assert workshop.undo("tern", digest=digest_of(workshop)).record.text == text == read(workshop)
    assert not workshop.can_undo("tern")
    for text in texts[1:]:
        assert workshop.redo("tern", digest=digest_of(workshop)).record.text == text == read(workshop)
    assert not workshop.can_redo("tern")


def test_undo_says_what_it_undoes(workshop: Workshop) -> None:
    set_bore(workshop, "19 mm")
    steps = workshop.find_steps("tern")
    assert (steps.undoes, steps.redoes) == ("cylinder.0.bore: 19 mm", "")
    workshop.undo("tern", digest=digest_of(workshop))
    assert workshop.find_steps("tern").redoes == "cylinder.0.bore: 19 mm"
    assert [revision.what for revision in workshop.list_revisions("tern")] == [
        "cylinder.0.bore: 19 mm", "as it was found",
    ]  # fmt: skip


def test_several_keys_are_set_in_one_step_and_undone_in_one(workshop: Workshop) -> None:
    cure = {"cylinder.0.valve.length": "13.8 mm", "cylinder.0.valve.cavity": None, "engine.notes": "cured"}
    seen = {key: workshop.open_engine("tern").written[key] for key in cure}
    changed = workshop.change_keys("tern", cure, digest=digest_of(workshop), seen=seen)
    assert {key: changed.record.written.get(key) for key in cure} == cure
    assert workshop.find_steps("tern").undoes == "cylinder.0.valve.length: 13.8 mm and 2 more"
    assert workshop.undo("tern", digest=changed.record.digest).record.text == TWIN


def test_of_several_keys_all_are_set_or_none(workshop: Workshop) -> None:
    digest = digest_of(workshop)
    by_hand = TWIN.replace('"8.0 mm"', '"8.2 mm"')
    (workshop.folder / "tern.toml").write_text(by_hand, encoding="utf-8")
    cure = {"cylinder.0.valve.length": "13.8 mm", "cylinder.0.valve.cavity": "7 mm"}
    seen = {"cylinder.0.valve.length": "14.0 mm", "cylinder.0.valve.cavity": "8.0 mm"}
    with pytest.raises(RecordClash) as clash:
        workshop.change_keys("tern", cure, digest=digest, seen=seen)
    assert (clash.value.key, clash.value.theirs) == ("cylinder.0.valve.cavity", "8.2 mm")
    with pytest.raises(CannotChange):
        workshop.change_keys("tern", {**cure, "cylinder.0.boer": "1 mm"}, digest=digest_of(workshop), seen=seen)
    assert read(workshop) == by_hand


def test_undo_after_a_hand_edit_goes_back_before_it_and_redo_brings_it_again(workshop: Workshop) -> None:
    changed = set_bore(workshop, "19 mm")
    by_hand = changed + "# seen again on Sunday\n"
    (workshop.folder / "tern.toml").write_text(by_hand, encoding="utf-8")
    assert workshop.undo("tern", digest=digest_of(workshop)).record.text == changed
    assert workshop.redo("tern", digest=digest_of(workshop)).record.text == by_hand


def test_a_hand_edit_between_two_changes_is_a_step_of_its_own(workshop: Workshop) -> None:
    by_hand = set_bore(workshop, "19 mm") + "# seen again on Sunday\n"
    (workshop.folder / "tern.toml").write_text(by_hand, encoding="utf-8")
    set_bore(workshop, "20 mm")
    assert workshop.undo("tern", digest=digest_of(workshop)).record.text == by_hand
    assert workshop.find_steps("tern").undoes == "edited in the file"


def test_a_change_after_an_undo_leaves_nothing_to_redo(workshop: Workshop) -> None:
    set_bore(workshop, "19 mm")
    workshop.undo("tern", digest=digest_of(workshop))
    set_bore(workshop, "20 mm")
    with pytest.raises(NotThere):
        workshop.redo("tern", digest=digest_of(workshop))
    assert workshop.undo("tern", digest=digest_of(workshop)).record.text == TWIN


def test_undo_is_refused_where_the_file_is_not_what_was_read(workshop: Workshop) -> None:
    set_bore(workshop, "19 mm")
    digest = digest_of(workshop)
    edited = read(workshop) + "# by hand\n"
    (workshop.folder / "tern.toml").write_text(edited, encoding="utf-8")
    with pytest.raises(RecordChanged):
        workshop.undo("tern", digest=digest)
    assert read(workshop) == edited
    with pytest.raises(NotThere):
        workshop.redo("tern", digest=digest_of(workshop))


def test_an_undo_that_cannot_be_saved_leaves_the_way_as_it_was(workshop: Workshop, tmp_path: Path) -> None:
    changed = set_bore(workshop, "19 mm")
    # A folder in the draft's place keeps the record from being written, for whatever user.
    blocked = tmp_path / f".tern.toml.{os.getpid()}.new"
    blocked.mkdir()
    with pytest.raises(CannotSave):
        workshop.undo("tern", digest=digest_of(workshop))
    assert read(workshop) == changed
    blocked.rmdir()
    assert workshop.undo("tern", digest=digest_of(workshop)).record.text == TWIN
    assert workshop.redo("tern", digest=digest_of(workshop)).record.text == changed


def test_what_was_read_before_the_bench_was_closed_still_tells_what_else_changed(tmp_path: Path) -> None:
    (tmp_path / "tern.toml").write_text(TWIN, encoding="utf-8")
    first = open_workshop(tmp_path)
    digest = digest_of(first)
    set_bore(first, "19 mm")
    first.close()
    second = open_workshop(tmp_path)
    changed = second.change("tern", "engine.name", "Ruff", digest=digest, seen="Tern")
    assert [other.key for other in changed.others] == ["cylinder.0.bore"]
    assert second.undo("tern", digest=changed.record.digest).record.written["engine.name"] == "Tern"
    second.close()


def test_a_new_engine_does_not_take_the_history_of_one_that_is_gone(workshop: Workshop) -> None:
    set_bore(workshop, "19 mm")
    (workshop.folder / "tern.toml").unlink()
    assert workshop.create("Tern") == "tern-2"
