import pytest

from lapwright.errors import CannotChange
from lapwright.record import Clash, KeyChange, change_record, compare_records, drop_key, merge_records, read_key
from tests.unit.record.records import HALF_KNOWN, PARTED, TWIN


def test_two_texts_differ_in_what_was_set_taken_out_and_put_in() -> None:
    other = drop_key(change_record(TWIN, {"engine.name": "Ruff", "target.lap": "0.4 mm"}), "cylinder.0.bore")
    assert compare_records(TWIN, other + "# and a comment\n") == (
        KeyChange("engine.name", "Tern", "Ruff"),
        KeyChange("cylinder.0.bore", "3/4 in", None),
        KeyChange("target.lap", None, "0.4 mm"),
    )


def test_how_a_value_is_quoted_and_where_it_stands_makes_no_difference() -> None:
    text = "engine = {name = 'Dunlin', fluid = \"steam\"}\n" + HALF_KNOWN.partition('"steam" }\n')[2]
    assert compare_records(HALF_KNOWN, "format = 1\n" + text) == ()


def test_plain_numbers_and_single_edges_are_compared_as_written() -> None:
    other = TWIN.replace("= 0.65 ", "= 0.650 ").replace('"3.1 mm"', '"3.2 mm"')
    assert compare_records(TWIN, other) == (
        KeyChange("cylinder.1.valve.edges.1", "3.1 mm", "3.2 mm"),
        KeyChange("running.discharge_coefficient", "0.65", "0.650"),
    )


def test_a_text_that_cannot_be_read_says_nothing() -> None:
    assert compare_records("[engine", "[engine") == ()
    assert compare_records('[engine]\nname = "Tern"\n', "[engine") == (KeyChange("engine.name", "Tern", None),)


def test_a_key_is_read_as_written_and_edges_in_one_row() -> None:
    assert read_key(TWIN, "cylinder.0.stroke") == '3/4"'
    assert read_key(PARTED, "cylinder.0.gland.1.rings") == "3"
    assert read_key(TWIN, "cylinder.1.valve.edges") == "0 mm, 3.1 mm, 10.9 mm, 14.0 mm"
    assert read_key(TWIN, "cylinder.0.valve.edges") is None


def test_changes_of_both_sides_stand_in_the_merged_text_and_their_comments() -> None:
    yours = drop_key(change_record(TWIN, {"engine.name": "Ruff"}), "target.lead")
    theirs = change_record(TWIN, {"cylinder.0.bore": "19 mm"}) + "# theirs\n"
    merged = merge_records(TWIN, yours, theirs)
    assert merged.clashes == ()
    assert merged.text == drop_key(change_record(theirs, {"engine.name": "Ruff"}), "target.lead")


def test_a_key_changed_on_both_sides_clashes_and_keeps_theirs() -> None:
    yours = change_record(TWIN, {"engine.name": "Ruff", "engine.fluid": "steam", "engine.notes": "seen"})
    theirs = drop_key(change_record(TWIN, {"engine.name": "Knot", "engine.notes": "seen"}), "engine.fluid")
    merged = merge_records(TWIN, yours, theirs)
    assert merged.clashes == (
        Clash("engine.name", "Tern", "Ruff", "Knot"),
        Clash("engine.fluid", "air", "steam", None),
    )
    assert merged.text == theirs


def test_a_change_of_a_part_that_they_took_out_has_no_place() -> None:
    yours = change_record(PARTED, {"pin.0.hole": "2 mm"})
    theirs = PARTED[: PARTED.index("[[pin]]")] + PARTED[PARTED.index("[finish]") :]
    with pytest.raises(CannotChange, match="no such pin"):
        merge_records(PARTED, yours, theirs)
