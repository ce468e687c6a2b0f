import hashlib
from math import pi, radians

import pytest

from lapwright.engine.sizes import Doubt
from lapwright.record import OpenedRecord, open_record, read_record
from tests.unit.record.records import HALF_KNOWN, TWIN


def read(text: str) -> OpenedRecord:
    return read_record(text.encode())


def read_codes(text: str) -> list[str]:
    return [problem.code for problem in read(text).problems]


def test_a_sound_record_has_no_problems_and_gives_the_whole_engine() -> None:
    found = read(TWIN)
    assert found.problems == ()
    assert found.engine is not None
    assert found.engine.purpose == "steady stationary running"
    assert found.engine.supply_pressure == 200_000
    assert found.engine.exhaust_pressure == pytest.approx(-1325)
    assert (found.engine.target.cut_off, found.engine.target.lead, found.engine.target.equal) == (0.75, 0.0001, "leads")
    assert [cylinder.name for cylinder in found.engine.cylinders] == ["A", "B"]
    assert found.digest == hashlib.sha256(TWIN.encode()).hexdigest()
    assert found.text == TWIN


def test_numbers_are_in_si_by_the_keys_of_the_record() -> None:
    engine = read(TWIN).engine
    assert engine is not None
    first, second = engine.cylinders
    assert first.numbers["bore"] == 0.01905
    assert first.numbers["stroke"] == 0.01905
    assert first.numbers["valve_drive.eccentric_angle"] == pi / 2
    assert first.numbers["valve_drive.spindle_thread"] == 0.00048
    assert first.numbers["valve_drive.spindle_step"] == 0.5
    assert first.numbers["valve_drive.valve_offset"] == -0.0001
    assert second.numbers["crank_phase"] == pi / 2
    assert [second.numbers[f"port_face.edges.{i}"] for i in range(6)] == [0.002, 0.004, 0.006, 0.01, 0.012, 0.014]
    assert second.numbers["valve.edges.2"] == 0.0109
    assert "valve.length" not in second.numbers


def test_tolerances_become_doubts_in_si() -> None:
    engine = read(TWIN).engine
    assert engine is not None
    assert engine.cylinders[0].doubts == {
        "port_face.steam_port": Doubt(5e-5, 5e-5),
        "port_face.bridge": Doubt(2e-5, 1e-5),
        "valve_drive.eccentric_angle": Doubt(radians(1), radians(1)),
    }


def test_what_is_written_is_kept_by_its_path() -> None:
    written = read(TWIN).written
    assert written["cylinder.0.stroke"] == '3/4"'
    assert written["cylinder.0.port_face.steam_port"] == "2.0 ± 0.05 mm"
    assert written["cylinder.1.valve.edges.2"] == "10.9 mm"


def test_a_half_known_engine_opens_and_says_what_it_assumed() -> None:
    found = read(HALF_KNOWN)
    assert found.problems == ()
    assert found.engine is not None
    (cylinder,) = found.engine.cylinders
    assert cylinder.name == "A"
    assert cylinder.numbers["valve.length"] == 0.0127
    assert cylinder.numbers["valve_drive.throw"] == 0.003175
    zeros = {"crank_phase", "cylinder_offset", "valve_drive.valve_line_offset", "valve_drive.valve_offset"}
    assert set(cylinder.assumed) == zeros
    assert all(cylinder.numbers[key] == 0 for key in zeros)
    assert "stroke" not in cylinder.numbers
    assert found.engine.rotation is None


def test_what_is_given_is_not_assumed_and_what_is_refused_is_not_assumed_either() -> None:
    engine = read(HALF_KNOWN.replace('bore = "25 mm"', 'cylinder_offset = "2"\ncrank_phase = "0 deg"')).engine
    assert engine is not None
    assert set(engine.cylinders[0].assumed) == {"valve_drive.valve_line_offset", "valve_drive.valve_offset"}
    assert "cylinder_offset" not in engine.cylinders[0].numbers


def test_a_second_cylinder_without_its_phase_is_a_warning_and_not_a_guess() -> None:
    found = read(TWIN.replace('[[cylinder]]\ncrank_phase = "90 deg"', "[[cylinder]]"))
    (problem,) = found.problems
    assert (problem.code, problem.severity, problem.key) == ("no-phase", "warning", "cylinder.1.crank_phase")
    assert found.engine is not None
    assert "crank_phase" not in found.engine.cylinders[1].numbers
    assert found.is_sound


def test_a_size_in_error_is_left_out_and_the_rest_stays() -> None:
    found = read(TWIN.replace('connecting_rod = "45 mm"', 'connecting_rod = "9 mm"'))
    assert [problem.code for problem in found.problems] == ["rod-too-short"]
    assert not found.is_sound
    assert found.engine is not None
    assert "connecting_rod" not in found.engine.cylinders[0].numbers
    assert "stroke" in found.engine.cylinders[0].numbers


def test_a_piston_rod_too_thick_does_not_make_the_engine_single_acting() -> None:
    engine = read(TWIN.replace('piston_rod = "3.2 mm"', 'piston_rod = "32 mm"')).engine
    assert engine is not None
    assert "piston_rod" in engine.cylinders[0].numbers
    assert "bore" not in engine.cylinders[0].numbers


@pytest.mark.parametrize(
    ("old", "new", "code", "line"),
    [
        ('bore = "3/4 in"', 'bore = "0.75"', "no-unit", 15),
        ('bore = "3/4 in"', "bore = 19.05", "no-unit", 15),
        ('bore = "3/4 in"', "bore = true", "not-text", 15),
        ('bore = "3/4 in"', 'bore = "1e300 m"', "out-of-range", 15),
        ('bore = "3/4 in"', "bore = nan", "not-finite", 15),
        ('bore = "3/4 in"', 'bore = "11 m"', "absurd", 15),
        ('bore = "3/4 in"', 'bore = "0 mm"', "not-positive", 15),
        ('bore = "3/4 in"', 'bore = "-3/4 in"', "not-positive", 15),
        ('bore = "3/4 in"', 'bore = "0.0001 mm"', "absurd", 15),
        ('bore = "3/4 in"', 'bore = "19 ± 19 mm"', "doubt-too-large", 15),
        ('bore = "3/4 in"', 'boore = "3/4 in"', "unknown-key", 15),
        ('cavity = "8.0 mm"', 'cavity = "14.0 mm"', "does-not-fit", 35),
        ('eccentric_rod = "60 mm"', 'eccentric_rod = "3 mm"', "rod-too-short", 40),
        ('"12.0 mm",', '"9.0 mm",', "edges-out-of-order", 53),
        ('"12.0 mm",', '"10.0 mm",', "edges-out-of-order", 53),
        ('"12.0 mm",', "", "not-the-edges", 53),
        ('"3.1 mm"', '"3.1"', "no-unit", 60),
        ('cavity = "8.0 mm"', 'throw = "8.0 mm"', "misplaced-key", 35),
        ('name = "A"', 'name = "B"', "name-twice", 47),
        ('supply_pressure = "2 bar"', 'supply_pressure = "-0.5 bar"', "pressures-swapped", 8),
        ("format = 1", "format = 2", "other-format", 1),
        ("format = 1", "format = true", "other-format", 1),
        ("[target]", "[aims]", "unknown-key", 62),
        ('equal = "leads"', 'equal = "laps"', "not-one-of", 65),
    ],
)
def test_each_fault_is_one_problem_on_its_line(old: str, new: str, code: str, line: int) -> None:
    assert TWIN.count(old) >= 1
    found = read(TWIN.replace(old, new, 1))
    assert [(problem.code, problem.line) for problem in found.problems] == [(code, line)]


def test_one_byte_order_mark_and_any_line_ends_are_no_matter() -> None:
    assert read("\ufeff" + TWIN.replace("\n", "\r\n")).problems == ()


def test_a_hundred_cylinders_are_one_problem() -> None:
    text = 'format = 1\n[engine]\nname = "Tern"\n' + '[[cylinder]]\nbore = "1 in"\n' * 100
    assert [(problem.code, problem.line) for problem in read(text).problems] == [("too-many-cylinders", 12)]


def test_a_hopeless_file_gives_a_list_that_ends() -> None:
    found = read("".join(f"key{i} = 1\n" for i in range(20_000)))
    assert len(found.problems) == 101
    assert found.problems[-1].code == "more-problems"


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"", "empty"),
        (b" \r\n\t\n", "empty"),
        (b"# nothing but a comment\n", "empty"),
        (b"\xff\xfe[\x00e\x00", "not-utf-8"),
        (b'[engine]\nname = "T\xe9rn"\n', "not-utf-8"),
        (b"# 10 MB\n" * 1_250_000, "too-large"),
        (b"a." * 400_000 + b"a = 1", "too-deep"),
        (b"a = " + b"[" * 400_000, "too-deep"),
        (b"a = " + b"1" * 5_000, "bad-line"),
    ],
)
def test_what_is_no_record_is_one_problem(data: bytes, code: str) -> None:
    found = read_record(data)
    assert [problem.code for problem in found.problems] == [code]
    assert found.engine is None


def test_a_file_that_cannot_be_had_is_a_problem(tmp_path) -> None:
    assert [problem.code for problem in open_record(tmp_path).problems] == ["not-a-file"]
    assert [problem.code for problem in open_record(tmp_path / "none.toml").problems] == ["no-file"]
    assert [problem.code for problem in open_record("nul\0.toml").problems] == ["no-file"]
    assert [problem.code for problem in open_record("/dev/null").problems] == ["not-a-file"]
    large = tmp_path / "large.toml"
    large.write_bytes(b"# 10 MB\n" * 1_250_000)
    assert [problem.code for problem in open_record(large).problems] == ["too-large"]


def test_an_opened_file_says_where_it_came_from(tmp_path) -> None:
    path = tmp_path / "tern.toml"
    path.write_text(TWIN, encoding="utf-8")
    found = open_record(path)
    assert found.source == str(path)
    assert found.problems == ()


def test_control_characters_never_reach_a_message() -> None:
    text = '[engine]\nname = "T\\u001b[2J"\n"\\u001b[31m" = 1\n[[cylinder]]\nbore = "\\u0007 1 in"\n'
    for problem in read(text).problems:
        assert (problem.message + problem.instead).isprintable()


def test_messages_show_only_the_start_of_a_long_text() -> None:
    for problem in read(f'[engine]\nname = "{"x" * 9999}"\n[[cylinder]]\nbore = "{"9" * 9999} mm"\n').problems:
        assert len(problem.message) < 160


def test_edges_from_the_wrong_end_are_turned_round_in_the_answer() -> None:
    falling = '"14.0 mm", "10.9 mm", "3.1 mm", "0 mm"'
    found = read(TWIN.replace('"0 mm", "3.1 mm", "10.9 mm", "14.0 mm"', falling))
    assert found.problems[0].instead == 'write edges = ["0 mm", "3.1 mm", "10.9 mm", "14 mm"]'
    assert found.engine is not None
    assert not any(key.startswith("valve.edges") for key in found.engine.cylinders[1].numbers)


def test_a_valve_given_both_ways_keeps_its_edges() -> None:
    found = read(TWIN.replace('edges = ["0 mm"', 'length = "14 mm"\ncavity = "8 mm"\nedges = ["0 mm"'))
    assert [problem.code for problem in found.problems] == ["given-both-ways"]
    assert found.engine is not None
    assert "valve.length" not in found.engine.cylinders[1].numbers
    assert found.engine.cylinders[1].numbers["valve.edges.3"] == 0.014


def test_any_first_words_name_a_purpose() -> None:
    for words, purpose in [
        ("Economical", "economical on steam"),
        ("low-pressure air", "low-pressure air demonstration"),
    ]:
        engine = read(TWIN.replace('"steady"', f'"{words}"')).engine
        assert engine is not None
        assert engine.purpose == purpose
    assert read_codes(TWIN.replace('"steady"', '"fast"')) == ["not-one-of"]
    assert read_codes(TWIN.replace('"steady"', '""')) == ["not-one-of"]
