import hashlib
from math import pi, radians

import pytest

from lapwright.engine.bench_test import DECAY, RUN_DOWN, STEADY, BenchTest
from lapwright.engine.running import Running
from lapwright.engine.sizes import Doubt
from lapwright.record import OpenedRecord, open_record, read_record
from tests.unit.record.records import HALF_KNOWN, TESTED, TWIN


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
        "clearance_crank_share": Doubt(0.01, 0.01),
        "port_face.steam_port": Doubt(5e-5, 5e-5),
        "port_face.bridge": Doubt(2e-5, 1e-5),
        "valve_drive.eccentric_angle": Doubt(radians(1), radians(1)),
    }


def test_the_running_is_in_si_with_its_doubts() -> None:
    engine = read(TWIN).engine
    assert engine is not None
    assert engine.running == Running(
        discharge_coefficient=0.65,
        friction_pressure=30_000.0,
        ring_gap=4e-6,
        valve_face_gap=2e-6,
        gland_gap=5.08e-6,
        wall_heat="usual",
        supply_temperature=291.15,
        steam_dryness=0.98,
        load_torque=0.03,
        flywheel_inertia=3e-4,
        supply_bore=0.004,
        exhaust_bore=0.0047625,
        passage_bore=0.0035,
        valve_friction=0.08,
        doubts={
            "friction_pressure": Doubt(10_000.0, 10_000.0),
            "ring_gap": Doubt(2e-6, 2e-6),
            "valve_friction": Doubt(0.03, 0.03),
        },
    )


def test_a_load_is_a_torque_or_a_power_by_its_unit() -> None:
    engine = read(TWIN.replace('"30 mN m"', '"5 ± 1 W"')).engine
    assert engine is not None
    assert (engine.running.load_torque, engine.running.load_power) == (None, 5.0)
    assert engine.running.doubts["load_power"] == Doubt(1.0, 1.0)


def test_a_clearance_is_a_length_or_a_share_and_never_both() -> None:
    engine = read(TWIN).engine
    assert engine is not None
    numbers = engine.cylinders[0].numbers
    assert (numbers["clearance_head"], numbers["clearance_crank_share"]) == (0.0008, 0.08)
    assert not {"clearance_head_share", "clearance_crank"} & set(numbers)


def test_the_table_of_the_running_may_be_left_out_or_be_given_by_half() -> None:
    assert read(HALF_KNOWN).engine.running == Running()
    half = read(HALF_KNOWN + '[running]\nload = "0 W"\n')
    assert half.problems == ()
    assert half.engine.running == Running(load_power=0.0)


@pytest.mark.parametrize(
    ("written", "severity", "code"),
    [
        ('clearance_head = "0 mm"', "warning", "no-clearance"),
        ('clearance_head = "0 %"', "warning", "no-clearance"),
        ('clearance_head = "20 mm"', "error", "absurd"),
        ('clearance_head = "101 %"', "error", "out-of-range"),
        ('clearance_head = "-0.1 mm"', "error", "not-positive"),
        ('clearance_head = "0.8"', "error", "no-unit"),
    ],
)
def test_a_clearance_that_no_engine_has_is_told(written: str, severity: str, code: str) -> None:
    found = read(TWIN.replace('clearance_head = "0.8 mm"', written))
    assert [(p.code, p.severity, p.key) for p in found.problems] == [(code, severity, "cylinder.0.clearance_head")]
    assert found.engine is not None
    known = {"clearance_head", "clearance_head_share"} & set(found.engine.cylinders[0].numbers)
    assert bool(known) == (severity == "warning")


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("discharge_coefficient = 0.65", "discharge_coefficient = 0.05", "absurd"),
        ("discharge_coefficient = 0.65", "discharge_coefficient = 7", "absurd"),
        ("discharge_coefficient = 0.65", 'discharge_coefficient = "0.6 ± 0.7"', "doubt-too-large"),
        ("discharge_coefficient = 0.65", 'discharge_coefficient = "0.65 mm"', "unreadable"),
        ('friction_pressure = "0.3 ± 0.1 bar"', 'friction_pressure = "1 bar abs"', "not-absolute"),
        ('friction_pressure = "0.3 ± 0.1 bar"', 'friction_pressure = "-0.1 bar"', "absurd"),
        ('friction_pressure = "0.3 ± 0.1 bar"', 'friction_pressure = "30 bar"', "absurd"),
        ('ring_gap = "4 ± 2 µm"', 'ring_gap = "1.1 mm"', "absurd"),
        ('ring_gap = "4 ± 2 µm"', 'ring_gap = "-1 um"', "absurd"),
        ('ring_gap = "4 ± 2 µm"', "ring_gap = 4", "no-unit"),
        ('steam_dryness = "98 %"', "steam_dryness = 0.4", "absurd"),
        ('supply_temperature = "18 °C"', 'supply_temperature = "400 C"', "absurd"),
        ('supply_temperature = "18 °C"', 'supply_temperature = "-80 C"', "absurd"),
        ('load = "30 mN m"', 'load = "-30 mN m"', "absurd"),
        ('flywheel_inertia = "3.0 kg cm²"', 'flywheel_inertia = "0 kg m2"', "absurd"),
        ('supply_bore = "4 mm"', 'supply_bore = "0 mm"', "absurd"),
        ('valve_friction = "0.08 ± 0.03"', "valve_friction = 1.5", "absurd"),
        ('wall_heat = "usual"', 'wall_heat = "some"', "not-one-of"),
        ('load = "30 mN m"', 'power = "5 W"', "unknown-key"),
        ('load = "30 mN m"', 'bore = "5 mm"', "misplaced-key"),
    ],
)
def test_what_no_run_has_is_one_problem_and_is_left_out(old: str, new: str, code: str) -> None:
    assert old in TWIN
    found = read(TWIN.replace(old, new))
    (problem,) = found.problems
    assert (problem.code, problem.severity) == (code, "error")
    assert problem.line == TWIN[: TWIN.index(old)].count("\n") + 1
    assert found.engine is not None
    field = old.split(" ", maxsplit=1)[0].replace("load", "load_torque")
    assert getattr(found.engine.running, field) is None
    assert field not in found.engine.running.doubts


@pytest.mark.parametrize(
    ("fluid", "supply", "temperature", "sound"),
    [
        ("air", "2 bar", "20 C", True),
        ("air", "2 bar", "350 C", False),
        ("steam", "2 bar", "20 C", False),
        ("steam", "2 bar", "180 C", True),
        ("steam", "-0.5 bar", "85 C", True),
        ("steam", "-0.5 bar", "30 C", False),
        ("steam", "2 bar", "620 C", False),
    ],
)
def test_a_temperature_is_judged_by_the_fluid(fluid: str, supply: str, temperature: str, *, sound: bool) -> None:
    found = read(
        f'format = 1\n[engine]\nname = "Knot"\nfluid = "{fluid}"\nsupply_pressure = "{supply}"\n[[cylinder]]\n'
        f'[running]\nsupply_temperature = "{temperature}"\n'
    )
    assert found.is_sound == sound
    assert (found.engine.running.supply_temperature is None) != sound


def test_steam_that_is_superheated_and_wet_at_once_is_a_warning() -> None:
    text = TWIN.replace('fluid = "air"', 'fluid = "steam"').replace('"18 °C"', '"180 °C"')
    (problem,) = read(text).problems
    assert (problem.code, problem.severity, problem.key) == ("given-both-ways", "warning", "running.steam_dryness")


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


def test_bench_tests_are_in_si_with_their_doubts_and_their_place() -> None:
    found = read(TESTED)
    assert found.problems == ()
    assert found.engine is not None
    steady, other, steam = found.engine.bench_tests
    assert steady == BenchTest(
        number=1,
        supply_pressure=80_000.0,
        speed=pytest.approx(14 * pi),
        load_torque=0.003,
        air_flow=pytest.approx(0.014 / 60),
        dead="B",
        note="oil cups full",
        doubts={
            "supply_pressure": Doubt(5_000.0, 5_000.0),
            "speed": Doubt(pytest.approx(pi / 3), pytest.approx(pi / 3)),
            "air_flow": Doubt(pytest.approx(0.001 / 60), pytest.approx(0.001 / 60)),
        },
    )
    assert [other.has(kind) for kind in (STEADY, RUN_DOWN, DECAY)] == [False, True, True]
    assert other.decay_to == 2e5 - 101_325
    assert other.decay_volume == pytest.approx(1.5 * 0.0254**3)
    assert other.doubts == {"run_down_time": Doubt(0.5, 0.5)}
    assert (steam.fluid, steam.load_torque, steam.load_power, steam.exhaust_pressure) == ("steam", None, 5.0, 1e4)


def test_a_test_that_lacks_something_is_left_out_and_the_others_keep_their_places() -> None:
    found = read(TESTED.replace('speed = "420 ± 10 rpm"            # read at the flywheel\n', ""))
    assert [(p.code, p.severity, p.key) for p in found.problems] == [
        ("incomplete-test", "warning", "bench_test.0.supply_pressure")
    ]
    assert found.is_sound
    assert found.engine is not None
    assert [test.number for test in found.engine.bench_tests] == [2, 3]


def test_of_a_test_of_two_kinds_the_whole_one_stays() -> None:
    found = read(TESTED.replace('decay_volume = "1.5 in3"\n', ""))
    assert [(p.code, p.key) for p in found.problems] == [("incomplete-test", "bench_test.1.decay_from")]
    assert found.engine is not None
    test = found.engine.bench_tests[1]
    assert test.run_down_time == 8.5
    assert (test.decay_from, test.decay_to, test.decay_time, test.decay_volume) == (None, None, None, None)


def test_what_cannot_be_read_of_a_test_is_one_problem() -> None:
    for old in ('"0.8 ± 0.05 bar"', '"8.5 ± 0.5 s"', '"1.5 in3"', '"10 rev/s"'):
        found = read(TESTED.replace(old, '"7 m2"'))
        assert [p.code for p in found.problems] == ["unknown-unit"]


def test_a_test_not_filled_in_yet_is_no_problem() -> None:
    found = read(TWIN + "[[bench_test]]\n[[bench_test]]\n")
    assert found.problems == ()
    assert found.engine is not None
    assert found.engine.bench_tests == ()


def test_a_record_without_tests_has_none_and_says_of_nothing_that_it_came_from_them() -> None:
    engine = read(TWIN).engine
    assert engine is not None
    assert (engine.bench_tests, engine.from_tests) == ((), ())


def test_what_came_from_tests_is_known_by_name_as_long_as_it_stands_there() -> None:
    text = TWIN + 'from_tests = "ring_gap, friction_pressure"\n'
    assert read(text).engine.from_tests == ("friction_pressure", "ring_gap")
    assert read(text.replace('ring_gap = "4 ± 2 µm"\n', "")).engine.from_tests == ("friction_pressure",)


def test_a_test_on_the_engines_own_steam_has_no_flow_of_air_but_a_fall_of_pressure_is_air() -> None:
    found = read(TESTED.replace('fluid = "air"', 'fluid = "steam"'))
    assert [(p.code, p.key) for p in found.problems if p.key.startswith("bench")] == [
        ("not-on-steam", "bench_test.0.air_flow")
    ]
