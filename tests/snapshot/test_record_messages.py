"""Every sentence a record can bring forth, as the person reads it. UPDATE_SNAPSHOTS=1 writes the file anew."""

import os
import re
from pathlib import Path

import lapwright.errors
from lapwright.record import open_record, read_record
from lapwright.record.problem import Problem
from tests.unit.record.records import BENCH, HALF_KNOWN, PARTED, TESTED, TWIN

#: What is changed in the record with parts: old text, new text.
CHANGED_PARTS = [
    ('thread = "7BA"', 'thread = "7AB"'),
    ('nut_thread = "3/8 x 32"', 'nut_thread = "3/8 x 33"'),
    ('box_bore = "6.4 mm"', 'box_bore = "3 mm"'),
    ('box_depth = "8 mm"', 'box_depth = "-8 mm"'),
    ("rings = 3", "rings = 0"),
    ("rings = 3", 'packing = "graphite"'),
    ('"ptfe yarn"', '"string"'),
    ('packing_section = "1.2 mm"', 'packing_section = "3 mm"'),
    ("[[cylinder.gland]]\non", "[cylinder.gland]\non"),
    ('torque = "0.4 N m"', 'torque = "0.4"'),
    ('torque = "0.4 N m"', 'torque = "4000 N m"'),
    ('cylinder = "B"', 'cylinder = "C"'),
    ('plain_length = "0 mm"', 'plain_length = "-1 mm"'),
    ('moving_part = "4 mm"', 'diameter = "3 mm"\nhole = "2 mm"'),
    ('joint_outside = "30 mm"', 'joint_outside = "19 mm"'),
    ('shaft = "5 mm"', 'shaft = "2.5 mm"'),
    ('nut_thread = "3/8 x 32"', 'nut_thread = "M3"'),
    ('moving_part = "4 mm"', 'diameter = "1 mm"\nhole = "4.3 mm"'),
    ('metal = "cast iron"', ""),
    ('metal = "cast iron"', 'metal = "pot metal"'),
    ('surface = "600 cm2"', 'surface = "600 mm"'),
    ('old_paint = "yes"', "old_paint = true"),
]

KEPT = Path(__file__).with_name("record_messages.txt")

#: What is changed in the twin's record: old text, new text.
CHANGED = [
    ('bore = "3/4 in"', 'bore = "0.75"'),
    ('bore = "3/4 in"', "bore = 19.05"),
    ('bore = "3/4 in"', "bore = 19.05 mm"),
    ('bore = "3/4 in"', 'bore = 3/4"'),
    ('bore = "3/4 in"', 'bore = "3/4""'),
    ('bore = "3/4 in"', 'bore = "3/4 in'),
    ('bore = "3/4 in"', "bore = '3/4 in"),
    ('bore = "3/4 in"', 'bore "3/4 in"'),
    ('bore = "3/4 in"', "bore ="),
    ('bore = "3/4 in"', 'bore = "3/4" in'),
    ('bore = "3/4 in"', 'bore = "3\\4 in"'),
    ('bore = "3/4 in"', 'bore = "3\\uD800 in"'),
    ('bore = "3/4 in"', 'bore = "3/4 in" # \x07'),
    ('bore = "3/4 in"', 'bore = "3/4 in"\nbore = "1 in"'),
    ('bore = "3/4 in"', 'bore = ["3/4 in"]'),
    ('bore = "3/4 in"', "bore = true"),
    ('bore = "3/4 in"', "bore = nan"),
    ('bore = "3/4 in"', 'bore = "about an inch"'),
    ('bore = "3/4 in"', 'bore = ""'),
    ('bore = "3/4 in"', 'bore = "19,05 mm"'),
    ('bore = "3/4 in"', 'bore = "3/0 in"'),
    ('bore = "3/4 in"', 'bore = "3 hands"'),
    ('bore = "3/4 in"', 'bore = "\\u0007 in"'),
    ('bore = "3/4 in"', 'bore = "1e300 mm"'),
    ('bore = "3/4 in"', 'bore = "19.05 m"'),
    ('bore = "3/4 in"', 'bore = "0.00001 mm"'),
    ('bore = "3/4 in"', 'bore = "0 mm"'),
    ('bore = "3/4 in"', 'bore = "0.5 ± 0.5 mm"'),
    ('bore = "3/4 in"', 'bore = "3 mm"'),
    ('bore = "3/4 in"', 'boar = "3/4 in"'),
    ('bore = "3/4 in"', 'diameter = "3/4 in"'),
    ('bore = "3/4 in"', 'thraw = "3/4 in"'),
    ('bore = "3/4 in"', 'throw = "3/4 in"'),
    ('bore = "3/4 in"', 'supply_pressure = "3/4 in"'),
    ('bore = "3/4 in"', "valve = 3"),
    ('connecting_rod = "45 mm"', 'connecting_rod = "9 mm"'),
    ('cylinder_offset = "0 mm"', 'cylinder_offset = "40 mm"'),
    ('eccentric_rod = "60 mm"', 'eccentric_rod = "2.9 mm"'),
    ('cavity = "8.0 mm"', 'cavity = "14.0 mm"'),
    ('steam_port = "2.0 ± 0.05 mm"', 'edges = ["0 mm", "2 mm", "4 mm", "8 mm", "10 mm", "12 mm"]'),
    ('edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"]', 'edges = ["14 mm", "10.9 mm", "3.1 mm", "0 mm"]'),
    ('edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"]', 'edges = ["1 in", "2/3 in", "1/3 in", "0 in"]'),
    ('edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"]', 'edges = ["0 mm", "3.1 mm", "3.1 mm", "14.0 mm"]'),
    ('edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"]', 'edges = ["0 mm", "10.9", "3.1 mm", "14.0 mm"]'),
    ('edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"]', 'edges = ["0 mm", "3.1 mm", "10.9 mm"]'),
    ('edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"]', 'edges = "14 mm"'),
    ('edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"]', 'edges = ["0 mm", "3.1 mm", "10.9 mm", "14.0 mm"'),
    ('eccentric_angle = "90 ± 1 deg"', 'eccentric_angle = "90"'),
    ('eccentric_angle = "90 ± 1 deg"', 'eccentric_angle = "361 deg"'),
    ('eccentric_angle = "90 ± 1 deg"', 'eccentric_angle = "1e9 deg"'),
    ('spindle_thread = "7BA"', 'spindle_thread = "7"'),
    ('spindle_thread = "7BA"', 'spindle_thread = "70BA"'),
    ('spindle_thread = "7BA"', 'spindle_thread = "M3.3"'),
    ('spindle_thread = "7BA"', 'spindle_thread = "M3 x 5"'),
    ('spindle_step = "1/2 turn"', 'spindle_step = "1/2"'),
    ('spindle_step = "1/2 turn"', 'spindle_step = "0 turn"'),
    ('spindle_step = "1/2 turn"', 'spindle_step = "1e9 turns"'),
    ('spindle_step = "1/2 turn"', 'spindle_step = "1/2 ± 1/4 turn"'),
    ('kind = "slide"', 'kind = "sliding"'),
    ('kind = "slide"', "kind = 1"),
    ('purpose = "steady"', 'purpose = "fast"'),
    ('supply_pressure = "2 bar"', 'supply_pressure = "2"'),
    ('supply_pressure = "2 bar"', 'supply_pressure = "-2 bar"'),
    ('supply_pressure = "2 bar"', 'supply_pressure = "1e6 bar"'),
    ('supply_pressure = "2 bar"', 'supply_pressure = "-0.5 bar"'),
    ('name = "Tern"', ""),
    ('name = "Tern"', "name = 7"),
    ('name = "Tern"', "name = []"),
    ('name = "Tern"', 'name = " "'),
    ('name = "Tern"', f'name = "{"Tern" * 30}"'),
    ('name = "Tern"', 'name = "T\\u001bern"'),
    ('notes = ""', 'notes = "found\\u0000"'),
    ('notes = ""', "notes = 1979-05-27"),
    ('name = "A"', 'name = "B"'),
    ('crank_phase = "0 deg"', 'crank_phase = "10 deg"'),
    ('crank_phase = "90 deg"', ""),
    ('cut_off = "75 %"', 'cut_off = "0.75"'),
    ('cut_off = "75 %"', 'cut_off = "175 %"'),
    ('lead = "0.1 mm"', 'lead = "100 m"'),
    ("[target]", "[targets]"),
    ("[target]", "[valve]"),
    ("[target]", "[engine]"),
    ("[target]", "[target"),
    ("[target]", "[[target]]"),
    ("[target]", "?"),
    ('clearance_head = "0.8 mm"', 'clearance_head = "0.8"'),
    ('clearance_head = "0.8 mm"', 'clearance_head = "small"'),
    ('clearance_head = "0.8 mm"', 'clearance_head = "0 mm"'),
    ('clearance_head = "0.8 mm"', 'clearance_head = "0 %"'),
    ('clearance_head = "0.8 mm"', 'clearance_head = "108 %"'),
    ('clearance_head = "0.8 mm"', 'clearance_head = "20 mm"'),
    ('clearance_head = "0.8 mm"', 'clearance_head = "8 % ± 0.1 mm"'),
    ("discharge_coefficient = 0.65", "discharge_coefficient = 6.5"),
    ("discharge_coefficient = 0.65", 'discharge_coefficient = "0.65 mm"'),
    ("discharge_coefficient = 0.65", 'discharge_coefficient = "0.6 ± 0.7"'),
    ("discharge_coefficient = 0.65", "discharge_coefficient = 65 %"),
    ("discharge_coefficient = 0.65", "cd = 0.65"),
    ("discharge_coefficient = 0.65", "quality = 0.65"),
    ('friction_pressure = "0.3 ± 0.1 bar"', 'friction_pressure = "1.3 bar abs"'),
    ('friction_pressure = "0.3 ± 0.1 bar"', 'friction_pressure = "30 bar"'),
    ('ring_gap = "4 ± 2 µm"', "ring_gap = 4"),
    ('ring_gap = "4 ± 2 µm"', 'ring_gap = "4 mm"'),
    ('ring_gap = "4 ± 2 µm"', 'ring_gap = "4 pm"'),
    ('wall_heat = "usual"', 'wall_heat = "some"'),
    ('supply_temperature = "18 °C"', "supply_temperature = 18"),
    ('supply_temperature = "18 °C"', 'supply_temperature = "1800 C"'),
    ('supply_temperature = "18 °C"', 'supply_temperature = "-300 C"'),
    ('supply_temperature = "18 °C"', 'supply_temperature = "400 F"\nfluid = "air"'),
    ('steam_dryness = "98 %"', "steam_dryness = 98"),
    ('steam_dryness = "98 %"', 'steam_dryness = "20 %"'),
    ('load = "30 mN m"', "load = 30"),
    ('load = "30 mN m"', 'load = "30 mm"'),
    ('load = "30 mN m"', 'load = "-30 mN m"'),
    ('load = "30 mN m"', 'torque = "30 mN m"'),
    ('flywheel_inertia = "3.0 kg cm²"', 'flywheel_inertia = "3.0"'),
    ('flywheel_inertia = "3.0 kg cm²"', 'flywheel_inertia = "0 kg cm2"'),
    ('exhaust_bore = "3/16 in"', 'exhaust_bore = "3/16"'),
    ('exhaust_bore = "3/16 in"', 'exhaust_bore = "3 m"'),
    ('valve_friction = "0.08 ± 0.03"', 'valve_friction = "greased"'),
    ('fluid = "air"', 'fluid = "steam"'),
    ("[running]", "[run]"),
    ("[running]", "[[running]]"),
    ("format = 1", ""),
    ("format = 1", "format = 2"),
    ("format = 1", "format = one"),
    ("[[cylinder]]\nname", "[cylinder]\nname"),
    (TWIN[TWIN.index("[[cylinder]]\ncrank") :], '[[cylinder]]\ncrank_phase = "9 deg"\n' * 99),
    (TWIN[TWIN.index("[[cylinder]]") :], ""),
    (TWIN[TWIN.index("[[cylinder]]") :], "[cylinder]\n"),
    (TWIN[11:], "engine = 3\ncylinder = 4\ntarget = []"),
    (TWIN[11:], "cylinder = [3]"),
    (TWIN[11:], "engine = { name = 'A', name = 'B' }"),
    (TWIN[11:], "engine = { name = 'A'"),
    (TWIN[11:], "a" + ".b" * 40 + " = 1"),
    (TWIN[11:], "a = " + "[" * 4000),
    (TWIN[11:], "".join(f"key{i} = 1\n" for i in range(120))),
]
#: The same of a record with bench tests.
CHANGED_TESTS = [
    ('supply_pressure = "0.8 ± 0.05 bar"', ""),
    ('supply_pressure = "0.8 ± 0.05 bar"', 'supply_pressure = "0.8"'),
    ('supply_pressure = "0.8 ± 0.05 bar"', 'supply_pressure = "0.8 ± 0.9 bar"'),
    ('supply_pressure = "0.8 ± 0.05 bar"', 'supply_pressure = "-0.2 bar"'),
    ('exhaust_pressure = "0.1 bar"', 'exhaust_pressure = "2.1 bar"'),
    ('speed = "420 ± 10 rpm"', ""),
    ('speed = "420 ± 10 rpm"', 'rpm = "420 rpm"'),
    ('speed = "420 ± 10 rpm"', 'speed = "60000 rpm"'),
    ('load = "3 mN m"', 'load = "-3 mN m"'),
    ('load = "3 mN m"', 'torque = "3 mN m"'),
    ('load = "3 mN m"', 'ring_gap = "3 mN m"'),
    ('air_flow = "14 ± 1 L/min"', 'air_flow = "14 g/min"'),
    ('air_flow = "14 ± 1 L/min"', 'air_flow = "0 L/min"'),
    ('dead = "B"', 'dead = "C"'),
    ('note = "oil cups full"', 'notes = "oil cups full"'),
    ('run_down_from = "400 rpm"', ""),
    ('run_down_time = "8.5 ± 0.5 s"', 'run_down_time = "8.5 rpm"'),
    ('run_down_time = "8.5 ± 0.5 s"', 'run_down_time = "2 days"'),
    ('run_down_time = "8.5 ± 0.5 s"', 'run_down_time = "2 ms"'),
    ('decay_from = "30 psi"', ""),
    ('decay_from = "30 psi"', 'decay_from = "30 psi"\nfluid = "steam"'),
    ('decay_to = "2 bar abs"', 'decay_to = "0 bar"'),
    ('decay_to = "2 bar abs"', 'decay_to = "3 bar"'),
    ('decay_volume = "1.5 in3"', 'decay_volume = "1.5 in"'),
    ('decay_volume = "1.5 in3"', 'decay_volume = "2 m3"'),
    ('fluid = "steam"', 'fluid = "steam"\nair_flow = "3 L/min"'),
    (BENCH[1:], '[[bench_test]]\nnote = "to be done"\n'),
    (BENCH[1:], '[bench_test]\nspeed = "420 rpm"\n'),
    (BENCH[1:], '[bench_test]\nnote = ""\n[bench_test]\n'),
    (BENCH[1:], "[[bench_test]]\n[bench_test.speed]\n"),
    ("format = 1", "format = 1\nbench_test = [3]"),
    ('valve_friction = "0.08 ± 0.03"', 'from_tests = "ring_gap, bore"'),
    ('valve_friction = "0.08 ± 0.03"', "from_tests = true"),
    ("dead", "drain"),
]
WHOLE = [b"", b"# only a comment\n", b"\xff\xfe[\x00", b"caf\xe9 = 1", b"# large\n" * 200_000]


def show_problems(title: str, problems: tuple[Problem, ...]) -> list[str]:
    lines = [f"== {title}"]
    shown = problems if len(problems) < 10 else problems[-1:]
    for p in shown:
        lines.append(f"{p.severity} {p.code}, line {p.line}, {p.key or '-'}")
        lines.append(f"   {p.message}: {p.instead}" if p.instead else f"   {p.message}")
    return [*lines, ""]


def write_all(folder: Path) -> list[str]:
    lines: list[str] = []
    for old, new in CHANGED:
        assert old in TWIN
        title = re.sub(r"[^ -~±]", "?", new.strip()[:60]) or f"without {old[:40].splitlines()[0]}"
        lines += show_problems(title, read_record(TWIN.replace(old, new, 1).encode()).problems)
    for old, new in CHANGED_TESTS:
        assert old in TESTED
        title = f"of a test, {re.sub(r'[^ -~±]', '?', new.strip()[:60]) or f'without {old}'}"
        lines += show_problems(title, read_record(TESTED.replace(old, new, 1).encode()).problems)
    for old, new in CHANGED_PARTS:
        assert old in PARTED
        title = f"of a part, {' '.join(new[:60].split()) or f'without {old}'}"
        lines += show_problems(title, read_record(PARTED.replace(old, new, 1).encode()).problems)
    for data in WHOLE:
        lines += show_problems(f"the bytes {data[:12]!r}", read_record(data).problems)
    for title, path in [("a folder", folder), ("no file", folder / "none.toml"), ("a device", Path("/dev/null"))]:
        problems = show_problems(title, open_record(path).problems)
        lines += [line.replace(str(folder), "FOLDER") for line in problems]
    return lines


def test_every_message_reads_as_it_was_last_read(tmp_path: Path) -> None:
    written = write_all(tmp_path)
    if os.environ.get("UPDATE_SNAPSHOTS"):
        KEPT.write_text("\n".join(written), encoding="utf-8")
    assert written == KEPT.read_text(encoding="utf-8").split("\n")


def test_every_kind_of_refusal_of_a_record_is_among_them() -> None:
    kept = KEPT.read_text(encoding="utf-8")
    # A flawed record is refused as a whole, by those who open it; its messages are the ones pinned here.
    # A size beyond a table is refused by whoever looks it up, photographs and archives by whoever takes them in.
    elsewhere = {"FlawedRecord", "NotInTable", "NotAPhotograph", "NotAnArchive"}
    parents = {lapwright.errors.BadInput, *(getattr(lapwright.errors, name) for name in elsewhere)}
    kinds = [kind for kind in vars(lapwright.errors).values() if isinstance(kind, type)]
    for kind in kinds:
        if issubclass(kind, lapwright.errors.BadInput) and kind not in parents:
            assert f" {kind.code}, line" in kept


def test_every_message_is_short_enough_for_a_terminal_and_says_what_to_do() -> None:
    for line in KEPT.read_text(encoding="utf-8").splitlines():
        if line.startswith("   "):
            assert ": " in line
            assert len(line) <= 220


def test_a_sound_record_says_nothing_at_all() -> None:
    assert read_record(HALF_KNOWN.encode()).problems == ()
    assert read_record(TESTED.encode()).problems == ()
