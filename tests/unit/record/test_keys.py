import tomllib
from dataclasses import fields

import jsonschema
import pytest

from lapwright.engine.bench_test import DECAY, RUN_DOWN, STEADY, BenchTest
from lapwright.engine.parts import Fastener, Finish, Gland, Pin
from lapwright.engine.running import Running
from lapwright.engine.sizes import NUMBER_KEYS, SHARE_KEYS
from lapwright.record import blank_record, read_record, record_schema
from lapwright.record.keys import TABLES
from lapwright.record.layout import find_layout
from lapwright.record.part_keys import PART_TABLES
from tests.unit.record.records import HALF_KNOWN, TESTED, TWIN


def list_numbers() -> set[str]:
    """Every number of a cylinder that the keys of a record give."""
    found = set()
    for table, keys in TABLES.items():
        for name, key in keys.items():
            if table.startswith("cylinder") and table not in PART_TABLES and not key.words and name != "name":
                full = f"{table}.{name}".removeprefix("cylinder.")
                found |= {f"{full}.{i}" for i in range(key.count)} if key.count else {full}
    return found


def test_the_record_has_a_key_for_every_number_of_the_engine_and_no_other() -> None:
    assert list_numbers() | set(SHARE_KEYS.values()) == set(NUMBER_KEYS)
    assert set(SHARE_KEYS) <= list_numbers()


def test_the_record_has_a_key_for_every_field_of_the_running_and_no_other() -> None:
    names = {field.name for field in fields(Running)} - {"load_torque", "load_power", "doubts"}
    assert set(TABLES["running"]) == {*names, "load", "from_tests"}


def test_the_record_has_a_key_for_every_field_of_a_bench_test_and_no_other() -> None:
    names = {field.name for field in fields(BenchTest)} - {"number", "load_torque", "load_power", "doubts"}
    assert set(TABLES["bench_test"]) == {*names, "load"}
    assert {*STEADY, *RUN_DOWN, *DECAY} <= names


@pytest.mark.parametrize(
    ("table", "part", "own"),
    [
        ("cylinder.gland", Gland, {"cylinder", "number"}),
        ("fastener", Fastener, {"number"}),
        ("pin", Pin, {"number"}),
        ("finish", Finish, set()),
    ],
)
def test_the_record_has_a_key_for_every_field_of_a_part_and_no_other(table: str, part: type, own: set[str]) -> None:
    assert set(TABLES[table]) == {field.name for field in fields(part)} - own


def test_every_example_can_be_read_by_its_own_key() -> None:
    for keys in TABLES.values():
        for key in keys.values():
            assert key.read(1 if key.example == "1" else key.example) is not None


def test_the_schema_is_one_and_takes_the_sound_records() -> None:
    schema = record_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    for text in (TWIN, TESTED, HALF_KNOWN):
        jsonschema.validate(tomllib.loads(text.replace('"steady"', '"steady stationary running"')), schema)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("= 0.65", "= true"),
        ('"0.3 ± 0.1 bar"', "0.3"),
        ('"18 °C"', '"18"'),
        ('"30 mN m"', '"30"'),
        ("ring_gap", "ring_hole"),
        ('wall_heat = "usual"', 'wall_heat = "some"'),
        ('"3/4 in"', '"0.75"'),
        ('"3/4 in"', "0.75"),
        ("bore", "boar"),
        ('"clockwise"', '"left"'),
        ('name = "Tern"', ""),
        ('edges = ["0 mm"', 'length = "1 mm"\nedges = ["0 mm"'),
        ('"420 ± 10 rpm"', '"420"'),
        ("run_down_time", "run_down_tim"),
        ('fluid = "steam"', 'fluid = "water"'),
        ('"1.5 in3"', "1.5"),
        ('"0 mm", "3.1 mm"', '"3.1 mm"'),
    ],
)
def test_the_schema_refuses_what_the_reader_refuses(old: str, new: str) -> None:
    text = TESTED.replace(old, new)
    assert text != TESTED
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(tomllib.loads(text), record_schema())
    assert read_record(text.encode()).problems


@pytest.mark.parametrize("name", ["Tern", 'The "Old" Tern', "Tern's sister", "Téméraire ½"])
def test_a_blank_record_opens_without_a_problem(name: str) -> None:
    found = read_record(blank_record(name).encode())
    assert found.problems == ()
    assert found.engine is not None
    assert found.engine.name == name


def test_a_blank_record_names_every_key_and_opens_when_each_is_taken_up() -> None:
    blank = blank_record("Tern")
    for table, keys in TABLES.items():
        for name, key in keys.items():
            assert f"{name} = " in blank
            assert key.about in blank or not table
    lines = [line[2:] if line.startswith("# ") and " = " in line else line for line in blank.splitlines()]
    # Nobody drags the only cylinder.
    taken_up = [line for line in lines if not line.startswith(("edges", "dead"))]
    found = read_record("\n".join(taken_up).encode())
    assert found.problems == ()
    assert found.engine is not None
    assert set(found.engine.cylinders[0].numbers) == {
        key for key in NUMBER_KEYS if ".edges." not in key and key not in SHARE_KEYS.values()
    }
    assert set(TABLES["running"]) == {key for key in TABLES["running"] if f"\n{key} = " in "\n" + "\n".join(taken_up)}
    (test,) = found.engine.bench_tests
    assert all(test.has(kind) for kind in (STEADY, RUN_DOWN, DECAY))
    assert found.engine.from_tests == ("friction_pressure", "ring_gap")
    assert all(len(line) <= 140 for line in lines)


def test_every_value_is_found_where_it_stands() -> None:
    text = '''\
"a b".'c' = """x
"y" \\""""  # z
[t.u]
k = ["1", [2, {l = 'm', n.o = 3}], # ]
  1979-05-27 07:32:32]
[[r]]
[r.s]
v = """"q""""
[[r]]
"\\u0041" = 1.5 # end'''
    layout = find_layout(text)
    assert layout.find_line(("t", "u", "k", 2)) == 5
    assert layout.find_line(("r", 0, "s", "v")) == 8
    assert layout.find_line(("r", 1, "A")) == 10
    assert layout.find_line(("r", 1, "B", "C")) == 9
    assert layout.find_line(("none",)) == 0
    shown = {path: text[span.start : span.end] for path, span in layout.spans.items()}
    assert shown["t", "u", "k", 1, 1, "n", "o"] == "3"
    assert shown["t", "u", "k", 2] == "1979-05-27 07:32:32"
    assert shown["r", 0, "s", "v"] == '""""q""""'
    assert shown["r", 1, "A"] == "1.5"
    assert shown["a b", "c"].endswith('\\""""')
