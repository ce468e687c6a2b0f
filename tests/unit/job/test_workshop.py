"""The workshop's folder: what gets in, what a change does, and what happens when somebody else edits the file."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from lapwright.errors import (
    BadInput,
    CannotChange,
    FlawedRecord,
    NotThere,
    RecordChanged,
    RecordClash,
    StrayCharacter,
    TooLarge,
)
from lapwright.job.shelf.workshop import Workshop, open_workshop
from lapwright.record import KeyChange
from tests.unit.record.records import HALF_KNOWN, TWIN

NOW = datetime(2026, 11, 25, 16, 30)


@pytest.fixture
def workshop(tmp_path: Path):
    (tmp_path / "tern.toml").write_text(TWIN, encoding="utf-8")
    (tmp_path / "dunlin.toml").write_text(HALF_KNOWN, encoding="utf-8")
    opened = open_workshop(tmp_path, clock=lambda: NOW)
    yield opened
    opened.close()


def edit_by_hand(workshop: Workshop, old: str, new: str, *, engine: str = "tern") -> None:
    path = workshop.folder / f"{engine}.toml"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def read(workshop: Workshop, engine: str = "tern") -> str:
    return (workshop.folder / f"{engine}.toml").read_text(encoding="utf-8")


def test_the_shelf_lists_every_engine_by_name_with_what_is_wrong(workshop: Workshop) -> None:
    (workshop.folder / "flawed.toml").write_text('[engine]\nname = "Avocet"\nspeed = 3\n', encoding="utf-8")
    (workshop.folder / "broken.toml").write_bytes(b"\xff\xfe\x00")
    shelf = {entry.id: entry for entry in workshop.list_shelf()}
    assert list(shelf) == ["flawed", "broken", "dunlin", "tern"]
    assert (shelf["flawed"].name, shelf["broken"].name, shelf["tern"].name) == ("Avocet", "broken", "Tern")
    assert (shelf["tern"].problems, shelf["tern"].errors) == (0, 0)
    assert shelf["flawed"].errors == 2  # an unknown key, no cylinder
    assert shelf["flawed"].problems == 3  # and no format


def test_the_shelf_sees_what_a_hand_edits(workshop: Workshop) -> None:
    workshop.list_shelf()
    edit_by_hand(workshop, '"Tern" ', '"Ruff" ')
    assert [entry.name for entry in workshop.list_shelf()] == ["Dunlin", "Ruff"]


@pytest.mark.parametrize(
    "engine",
    ["", ".", "..", "../tern", "/etc/passwd", "a/b", "a\\b", ".hidden", "tern\0", "t" * 81, "é" * 80, "wren", "tern\n"],
)
def test_a_name_gets_at_no_other_file(workshop: Workshop, engine: str) -> None:
    (workshop.folder / ".hidden.toml").write_text(TWIN, encoding="utf-8")
    (workshop.folder.parent / "tern.toml").write_text(TWIN, encoding="utf-8")
    with pytest.raises(NotThere):
        workshop.open_engine(engine)
    with pytest.raises(NotThere):
        workshop.change(engine, "engine.name", "Ruff", digest="", seen=None)


def test_a_link_out_of_the_folder_is_no_engine_and_one_inside_is(tmp_path: Path) -> None:
    folder = tmp_path / "workshop"
    (folder / "kept").mkdir(parents=True)
    (tmp_path / "outside.toml").write_text(TWIN, encoding="utf-8")
    (folder / "kept" / "inside.toml").write_text(TWIN, encoding="utf-8")
    (folder / "notes.txt").write_text("not a record", encoding="utf-8")
    (folder / "out.toml").symlink_to(tmp_path / "outside.toml")
    (folder / "in.toml").symlink_to(Path("kept", "inside.toml"))
    (folder / "round.toml").symlink_to("round.toml")
    (folder / "other.toml").symlink_to("notes.txt")
    (folder / "folder.toml").mkdir()
    workshop = open_workshop(folder)
    assert [entry.id for entry in workshop.list_shelf()] == ["in"]
    for engine in ("out", "round", "other", "folder"):
        with pytest.raises(NotThere):
            workshop.open_engine(engine)
    digest = workshop.open_engine("in").digest
    workshop.change("in", "engine.name", "Ruff", digest=digest, seen="Tern")
    assert (folder / "in.toml").is_symlink()
    assert '"Ruff"' in (folder / "kept" / "inside.toml").read_text(encoding="utf-8")
    workshop.close()


def test_a_folder_that_is_not_there_is_said_so(tmp_path: Path) -> None:
    with pytest.raises(NotThere):
        open_workshop(tmp_path / "nowhere")


def test_a_change_sets_one_value_and_none_takes_it_out(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    changed = workshop.change("tern", "cylinder.0.bore", "19 mm", digest=digest, seen="3/4 in")
    assert (changed.merged, changed.others) == (False, ())
    assert read(workshop) == TWIN.replace('bore = "3/4 in"', 'bore = "19 mm"', 1)
    out = workshop.change("tern", "cylinder.0.bore", None, digest=changed.record.digest, seen="19 mm")
    assert read(workshop) == TWIN.replace('bore = "3/4 in"\n', "", 1)
    assert "bore" not in out.record.engine.cylinders[0].numbers


def test_a_visit_stays_the_same_until_the_record_changes(workshop: Workshop) -> None:
    first = workshop.visit("tern")
    assert workshop.visit("tern") is first
    edit_by_hand(workshop, '"45 mm"', '"46 mm"')
    assert workshop.visit("tern") is not first
    edit_by_hand(workshop, '"46 mm"', '"46"')
    with pytest.raises(FlawedRecord):
        workshop.visit("tern")
    assert workshop.open_engine("tern").problems


def test_only_the_newest_visits_are_kept(workshop: Workshop) -> None:
    first = workshop.visit("tern")
    for number in range(8):
        (workshop.folder / f"knot-{number}.toml").write_text(TWIN, encoding="utf-8")
        workshop.visit(f"knot-{number}")
    assert workshop.visit("tern") is not first


def test_a_change_is_made_on_what_a_hand_saved_since(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    edit_by_hand(workshop, '"45 mm"          #', '"46 mm"          # measured again,')
    changed = workshop.change("tern", "cylinder.0.bore", "19 mm", digest=digest, seen="3/4 in")
    assert changed.merged
    assert changed.others == (KeyChange("cylinder.0.connecting_rod", "45 mm", "46 mm"),)
    assert "# measured again, centre to centre" in read(workshop)
    assert 'bore = "19 mm"' in read(workshop)


def test_a_key_changed_on_both_sides_clashes_and_nothing_is_written(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    edit_by_hand(workshop, 'bore = "3/4 in"', 'bore = "18 mm"')
    before = read(workshop)
    with pytest.raises(RecordClash) as clash:
        workshop.change("tern", "cylinder.0.bore", "19 mm", digest=digest, seen="3/4 in")
    assert (clash.value.base, clash.value.yours, clash.value.theirs) == ("3/4 in", "19 mm", "18 mm")
    assert read(workshop) == before
    chosen = workshop.change("tern", "cylinder.0.bore", "19 mm", digest=clash.value.digest, seen="18 mm")
    assert not chosen.merged
    assert 'bore = "19 mm"' in read(workshop)


def test_a_key_changed_alike_on_both_sides_is_no_clash(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    edit_by_hand(workshop, 'bore = "3/4 in"', 'bore = "18 mm"')
    before = read(workshop)
    changed = workshop.change("tern", "cylinder.0.bore", "18 mm", digest=digest, seen="3/4 in")
    assert changed.merged
    assert read(workshop) == before


def test_a_key_set_here_and_taken_out_there_clashes(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    edit_by_hand(workshop, 'bore = "3/4 in"\n', "")
    with pytest.raises(RecordClash) as clash:
        workshop.change("tern", "cylinder.0.bore", "19 mm", digest=digest, seen="3/4 in")
    assert clash.value.theirs is None


def test_what_was_seen_decides_where_the_text_that_was_read_is_forgotten(workshop: Workshop) -> None:
    changed = workshop.change("tern", "cylinder.0.bore", "19 mm", digest="of last week", seen="3/4 in")
    assert (changed.merged, changed.others) == (True, ())
    with pytest.raises(RecordClash):
        workshop.change("tern", "cylinder.0.bore", "20 mm", digest="of last week", seen="3/4 in")


def test_a_record_that_cannot_be_read_is_not_changed_key_by_key(workshop: Workshop) -> None:
    (workshop.folder / "wren.toml").write_text("[engine\n", encoding="utf-8")
    (workshop.folder / "odd.toml").write_bytes(b"name = '\xe9'\n")
    for engine in ("wren", "odd"):
        with pytest.raises(CannotChange):
            workshop.change(engine, "engine.name", "Wren", digest="old", seen=None)
    with pytest.raises(CannotChange):
        workshop.replace_text("odd", TWIN, digest=workshop.open_engine("odd").digest)
    assert (workshop.folder / "odd.toml").read_bytes() == b"name = '\xe9'\n"
    workshop.replace_text("wren", TWIN, digest=workshop.open_engine("wren").digest)
    assert read(workshop, "wren") == TWIN


def test_what_cannot_be_kept_is_refused(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    with pytest.raises(StrayCharacter):
        workshop.change("tern", "engine.notes", "a\ud800b", digest=digest, seen="")
    with pytest.raises(StrayCharacter):
        workshop.replace_text("tern", "a\ud800b", digest=digest)
    with pytest.raises(TooLarge):
        workshop.change("tern", "engine.notes", "x" * 20_001, digest=digest, seen="")
    with pytest.raises(TooLarge):
        workshop.replace_text("tern", TWIN + "#" * 1_000_000, digest=digest)
    with pytest.raises(BadInput):
        workshop.replace_text("tern", " \n", digest=digest)
    assert read(workshop) == TWIN


def test_a_whole_text_is_merged_where_only_keys_were_changed(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    edit_by_hand(workshop, '"45 mm"          #', '"46 mm"          # measured again,')
    yours = TWIN.replace('bore = "3/4 in"', 'bore = "19 mm"', 1)
    changed = workshop.replace_text("tern", yours, digest=digest)
    assert changed.merged
    assert changed.others == (KeyChange("cylinder.0.connecting_rod", "45 mm", "46 mm"),)
    assert "measured again" in read(workshop)
    assert 'bore = "19 mm"' in read(workshop)


def test_a_whole_text_with_other_comments_is_not_put_over_a_hand_edit(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    edit_by_hand(workshop, '"45 mm"', '"46 mm"')
    before = read(workshop)
    with pytest.raises(RecordChanged):
        workshop.replace_text("tern", TWIN + "# mine\n", digest=digest)
    with pytest.raises(RecordClash):
        workshop.replace_text("tern", TWIN.replace('"45 mm"', '"44 mm"'), digest=digest)
    with pytest.raises(RecordChanged):
        workshop.replace_text("tern", TWIN, digest="of last week")
    assert read(workshop) == before


def test_parts_come_and_go(workshop: Workshop) -> None:
    digest = workshop.open_engine("tern").digest
    changed = workshop.add_part("tern", "fastener", digest=digest)
    assert changed.place == "fastener.0"
    named = workshop.change("tern", "fastener.0.thread", "7 BA", digest=changed.record.digest, seen=None)
    removed = workshop.remove_part("tern", "fastener.0", digest=named.record.digest)
    assert removed.record.text == TWIN


def test_a_part_is_added_to_what_a_hand_saved_since_but_not_taken_from_a_list_that_moved(workshop: Workshop) -> None:
    digest = workshop.add_part("tern", "pin", digest=workshop.open_engine("tern").digest).record.digest
    edit_by_hand(workshop, '"45 mm"', '"46 mm"')
    assert workshop.add_part("tern", "fastener", digest=digest).merged
    edit_by_hand(workshop, "[[pin]]\n", '[[pin]]\nname = "fork pin"\n')
    with pytest.raises(RecordChanged):
        workshop.remove_part("tern", "pin.0", digest=digest)
    assert workshop.remove_part("tern", "fastener.0", digest=digest).merged
    assert "fork pin" in read(workshop)


def test_a_new_engine_gets_a_blank_record_and_a_name_of_its_own(workshop: Workshop) -> None:
    assert [workshop.create(name) for name in ("Old Tern", "Old  tern!", "Möwe №1", "鴨")] == [
        "old-tern", "old-tern-2", "mowe-no1", "engine",
    ]  # fmt: skip
    assert workshop.open_engine("old-tern").engine.name == "Old Tern"
    with pytest.raises(BadInput):
        workshop.create("  ")


def test_a_copy_has_another_name_and_is_the_same_otherwise(workshop: Workshop) -> None:
    assert workshop.copy("tern", "Young Tern") == "young-tern"
    assert read(workshop, "young-tern") == TWIN.replace('"Tern"', '"Young Tern"')
    assert read(workshop) == TWIN
