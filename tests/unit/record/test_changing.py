import tomllib

import pytest

from lapwright.errors import CannotChange
from lapwright.record import change_record, read_record
from lapwright.record.changing import write_text
from tests.unit.record.records import HALF_KNOWN, TESTED, TWIN


def test_only_the_value_changes() -> None:
    assert change_record(TWIN, {"cylinder.0.valve.length": "13.2 mm"}) == TWIN.replace(
        '"14.0 mm"     ', '"13.2 mm"     ', 1
    )


def test_one_edge_changes_inside_its_list_and_the_comments_stay() -> None:
    changed = change_record(TWIN, {"cylinder.1.port_face.edges.0": "2.1 mm"})
    assert changed == TWIN.replace('"2.0 mm",  # a comment', '"2.1 mm",  # a comment')


def test_a_new_key_goes_behind_the_last_of_its_table() -> None:
    changed = change_record(TWIN, {"cylinder.0.valve_drive.rocker": "reversing"})
    assert changed == TWIN.replace('spindle_step = "1/2 turn"\n', 'spindle_step = "1/2 turn"\nrocker = "reversing"\n')


def test_a_new_table_goes_behind_its_cylinder() -> None:
    changed = change_record(TWIN, {"cylinder.1.valve_drive.throw": "3 mm"})
    assert changed == TWIN.replace("\n[target]", '\n[cylinder.valve_drive]\nthrow = "3 mm"\n\n[target]')
    first = (
        TWIN[: TWIN.index("[cylinder.valve_drive]")].rstrip() + "\n\n" + TWIN[TWIN.index("[[cylinder]]\ncrank_phase") :]
    )
    changed = change_record(first, {"cylinder.0.valve_drive.throw": "3 mm"})
    engine = read_record(changed.encode()).engine
    assert engine is not None
    assert engine.cylinders[0].numbers["valve_drive.throw"] == 0.003
    assert "valve_drive.throw" not in engine.cylinders[1].numbers


def test_a_clearance_changes_from_a_length_to_a_share_and_back() -> None:
    changed = change_record(TWIN, {"cylinder.0.clearance_head": "8 %", "cylinder.0.clearance_crank": "0.8 mm"})
    assert changed == TWIN.replace('clearance_head = "0.8 mm"', 'clearance_head = "8 %"').replace(
        'clearance_crank = "8 ± 1 %"', 'clearance_crank = "0.8 mm"'
    )
    engine = read_record(changed.encode()).engine
    assert engine is not None
    assert engine.cylinders[0].numbers["clearance_head_share"] == 0.08
    assert engine.cylinders[0].numbers["clearance_crank"] == 0.0008


def test_a_plain_number_gives_way_to_a_text() -> None:
    changed = change_record(TWIN, {"running.discharge_coefficient": "0.72 ± 0.04"})
    assert changed == TWIN.replace("= 0.65 ", '= "0.72 ± 0.04" ')
    assert read_record(changed.encode()).engine.running.discharge_coefficient == 0.72


def test_a_figure_of_a_bench_test_changes_and_the_other_tests_stay() -> None:
    changed = change_record(TESTED, {"bench_test.1.run_down_time": "9 s", "bench_test.0.exhaust_pressure": "0 bar"})
    assert changed == TESTED.replace('"8.5 ± 0.5 s"', '"9 s"').replace(
        'note = "oil cups full"\n', 'note = "oil cups full"\nexhaust_pressure = "0 bar"\n'
    )


def test_a_table_of_the_running_is_made_beside_bench_tests() -> None:
    text = TESTED[: TESTED.index("[running]")] + TESTED[TESTED.index("[[bench_test]]") :]
    changed = change_record(text, {"running.ring_gap": "5 µm", "running.from_tests": "ring_gap"})
    assert changed == text + '\n[running]\nring_gap = "5 µm"\nfrom_tests = "ring_gap"\n'
    engine = read_record(changed.encode()).engine
    assert (engine.running.ring_gap, engine.from_tests, len(engine.bench_tests)) == (5e-6, ("ring_gap",), 3)


def test_a_new_target_goes_behind_everything() -> None:
    changed = change_record(HALF_KNOWN, {"target.lead": "0.1 mm"})
    assert changed == HALF_KNOWN + '\n[target]\nlead = "0.1 mm"\n'


def test_dotted_keys_and_inline_tables_are_kept_in_their_manner() -> None:
    changed = change_record(
        HALF_KNOWN,
        {
            "engine.fluid": "air",
            "engine.rotation": "either",
            "cylinder.0.valve.cavity": "6 mm",
            "cylinder.0.valve_drive.eccentric_rod": "40 mm",
        },
    )
    assert changed == (
        "format = 1\n"
        'engine = { name = "Dunlin", fluid = "air", rotation = "either" }\n'
        "[[cylinder]]\n"
        'bore = "25 mm"\n'
        'valve.length = "1/2 in"  # dotted\n'
        'valve.cavity = "6 mm"\n'
        'valve_drive = { throw = "1/8 in", eccentric_rod = "40 mm" }\n'
    )


def test_a_table_is_made_inside_an_inline_cylinder() -> None:
    text = 'engine = {}\ncylinder = [{ bore = "1 in" }]'
    changed = change_record(text, {"cylinder.0.valve.length": "14 mm", "engine.name": "Knot"})
    assert changed == 'engine = { name = "Knot" }\ncylinder = [{ bore = "1 in", valve = { length = "14 mm" } }]'


def test_line_ends_marks_and_a_missing_last_line_end_are_kept() -> None:
    text = "\ufeff" + TWIN.replace("\n", "\r\n").removesuffix("\r\n")
    text = text.replace('valve_friction = "0.08 ± 0.03"', "").rstrip("\r\n")
    changed = change_record(text, {"running.valve_friction": "0.1", "engine.name": "Ruff"})
    assert changed == text.replace('"Tern"', '"Ruff"') + '\r\nvalve_friction = "0.1"\r\n'


def test_a_key_only_seen_in_a_comment_is_not_taken_for_the_key() -> None:
    text = '[engine]\n# fluid = "air"\nname = "fluid = x" # fluid = "air"\n'
    assert change_record(text, {"engine.fluid": "steam"}) == text + 'fluid = "steam"\n'


@pytest.mark.parametrize(
    "value", ['3/4"', "it's", "both ' and \"", "back\\slash", "two\nlines", "\x7f\x01", "½ ± é", ""]
)
def test_any_text_can_be_written_and_read_again(value: str) -> None:
    assert tomllib.loads(f"k = {write_text(value)}")["k"] == value
    changed = change_record(TWIN, {"engine.notes": value})
    assert tomllib.loads(changed)["engine"]["notes"] == value


@pytest.mark.parametrize(
    ("key", "why"),
    [
        ("cylinder.1.valve.length", "the record gives the edges instead"),
        ("cylinder.1.port_face.bridge", "the record gives the edges instead"),
        ("cylinder.0.valve.edges.1", "the record does not give these edges"),
        ("cylinder.1.valve.edges.4", "the record does not give these edges"),
        ("cylinder.1.valve.edges", "it is a list"),
        ("cylinder.2.bore", "the record has no such cylinder"),
        ("bench_test.0.speed", "the record has no such bench test"),
        ("bench_test.speed", "a record has no such key"),
        ("cylinder.0.boer", "a record has no such key"),
        ("cylinder.bore", "a record has no such key"),
        ("cylinder.0.0.bore", "a record has no such key"),
        ("engine.0.name", "a record has no such key"),
        ("engine", "a record has no such key"),
        ("format", "a record has no such key"),
        ("", "a record has no such key"),
        ("7", "a record has no such key"),
    ],
)
def test_what_cannot_be_set_is_refused_with_the_reason(key: str, why: str) -> None:
    with pytest.raises(CannotChange) as refusal:
        change_record(TWIN, {key: "14 mm"})
    assert why in refusal.value.message
    assert refusal.value.instead


def test_a_broken_record_is_not_changed() -> None:
    with pytest.raises(CannotChange, match="mend the record first"):
        change_record("[engine\n", {"engine.name": "Knot"})


def test_a_place_that_is_not_sure_is_refused() -> None:
    with pytest.raises(CannotChange, match="change it by hand"):
        change_record("engine = 3\n", {"engine.name": "Knot"})
