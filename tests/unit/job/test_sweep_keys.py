"""What varies is written as in the record; whatever is wrong with it is answered with what to write instead."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.errors import CannotVary
from lapwright.job.sweep.keys import MOST_STEPS, SPEED, list_keys, read_varied
from lapwright.quantities import read_angle, read_length, read_pressure, read_temperature
from lapwright.record.keys import TABLES

TWIN = ("A", "B")


@pytest.mark.parametrize(
    ("text", "places", "column", "numbers"),
    [
        ("bore=19 mm:21 mm:3", [(0, "bore"), (1, "bore")], "bore_mm", ["19", "20", "21"]),
        ("B.valve.length = 1/2 in : 9/16 in : 2", [(1, "valve.length")], "B.valve.length_in", ["0.5", "0.5625"]),
        ("cylinder.A.bore=19 mm:19 mm:1", [(0, "bore")], "cylinder.A.bore_mm", ["19"]),
        ("A.valve.edges.3=14 mm:13 mm:2", [(0, "valve.edges.3")], "A.valve.edges.3_mm", ["14", "13"]),
        ("clearance_head=2 %:10 %:2", [(0, "clearance_head"), (1, "clearance_head")], "clearance_head_percent", None),
        ("pressure=1 bar:3 bar:2", [("engine", "supply_pressure")], "pressure_bar", ["1", "3"]),
        ("pressure=2 bar abs:3 bar abs:2", [("engine", "supply_pressure")], "pressure_bar_abs", ["2", "3"]),
        ("engine.exhaust_pressure=0 psi:-5 psi:2", [("engine", "exhaust_pressure")], None, ["0", "-5"]),
        ("load=0 W:5 W:3", [("running", "load")], "load_w", ["0", "2.5", "5"]),
        ("load=10 mN m:30 mN m:2", [("running", "load")], "load_mnm", ["10", "30"]),
        ("speed=100 rpm:400 rpm:4", [SPEED], "speed_rpm", ["100", "200", "300", "400"]),
        ("speed=1 rev/s:4 rev/s:2", [SPEED], "speed_rev_per_s", ["1", "4"]),
        ("running.ring_gap=2 µm:50 µm:2", [("running", "ring_gap")], "running.ring_gap_um", ["2", "50"]),
        ("running.discharge_coefficient=.6:.8:2", [("running", "discharge_coefficient")], None, ["0.6", "0.8"]),
        ("running.supply_temperature=32 F:212 F:2", [("running", "supply_temperature")], None, ["32", "212"]),
    ],
)
def test_a_key_is_found_where_people_say_it_is(
    text: str, places: list[object], column: str | None, numbers: list[str] | None
) -> None:
    varied = read_varied(text, TWIN)
    assert list(varied.places) == places
    assert column is None or varied.column == column
    assert numbers is None or [varied.number(step) for step in range(varied.steps)] == numbers


@pytest.mark.parametrize("key", list_keys())
def test_every_key_that_is_offered_can_be_varied(key: str) -> None:
    table, _, name = {"pressure": "engine.supply_pressure", "load": "running.load"}.get(key, key).rpartition(".")
    if name.isdigit():
        table, _, name = table.rpartition(".")
    table = table if table in ("engine", "running") else f"cylinder.{table}".rstrip(".")
    example = "600 rpm" if key == "speed" else TABLES[table][name].example
    assert read_varied(f"{key}={example}:{example}:1", TWIN).key == key


def test_a_figure_between_is_the_one_that_would_be_read_from_a_record() -> None:
    for text, read in (
        ("valve.length=13 mm:14 mm:9", read_length),
        ("valve.length=1/2 in:1 3/16 in:7", read_length),
        ("valve_drive.eccentric_angle=80 deg:120 deg:5", read_angle),
        ("pressure=2 bar abs:3 bar abs:5", read_pressure),
        ("running.supply_temperature=50 degF:90 degF:5", read_temperature),
    ):
        varied = read_varied(text, ("A",))
        for step in range(varied.steps):
            quantity = varied.quantity(step)
            assert type(quantity) is type(varied.first)
            assert read(str(quantity)).si == pytest.approx(quantity.si, rel=1e-9)


@given(st.integers(-(10**6), 10**6), st.integers(-(10**6), 10**6), st.integers(2, 10**5), st.data())
def test_steps_are_even_and_the_ends_exact(first: int, last: int, steps: int, data: st.DataObject) -> None:
    varied = read_varied(f"valve_drive.valve_offset={first} µm:{last} µm:{steps}", ("A",))
    assert varied.quantity(0).value == Fraction(first, 10**6)
    assert varied.quantity(steps - 1).value == Fraction(last, 10**6)
    step = data.draw(st.integers(0, steps - 2))
    gap = varied.quantity(step + 1).value - varied.quantity(step).value
    assert gap == Fraction(last - first, 10**6) / (steps - 1)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("valve.lenght=1 mm:2 mm:2", "write valve.length"),
        ("eccentric_angle=1 deg:2 deg:2", "write valve_drive.eccentric_angle"),
        ("ring_gap=1 µm:2 µm:2", "write running.ring_gap"),
        ("friction=1 bar:2 bar:2", "write running.friction_pressure"),
        ("conrod=1 mm:2 mm:2", "write connecting_rod"),
        ("supply_presure=1 bar:2 bar:2", "write pressure"),
        ("valve.edges=1 mm:2 mm:2", "write valve.edges.0"),
        ("valve.edges.4=1 mm:2 mm:2", "write valve.edges.0"),
        ("C.bore=1 mm:2 mm:2", "its cylinders: A, B"),
        ("qqqq=1 mm:2 mm:2", "write it like valve.length"),
        ("valve.kind=slide:piston:2", "it is a word"),
        ("running.wall_heat=none:usual:2", "it is a word"),
        ("engine.name=a:b:2", "it is a word"),
        ("target.lap=1 mm:2 mm:2", "no such key"),
        ("valve_drive.spindle_thread=7BA:M5:2", "changes nothing"),
        ("port_face.chest_head=10 mm:12 mm:2", "changes nothing"),
        ("valve.length=13:14:2", '13 has no unit: write "13 in"'),
        ("valve.length=13 mm:14:2", "14 has no unit"),
        ("valve.length=13 bar:14 bar:2", 'unit "bar" is not known here'),
        ("valve.length=13 mm:0.55 in:2", "not in the same unit"),
        ("load=1 W:30 mN m:2", "not in the same unit"),
        ("pressure=1 bar:3 bar abs:2", "not in the same unit"),
        ("clearance_head=1 mm:8 %:2", "not in the same unit"),
        ("valve.length=13 ± 0.1 mm:14 mm:2", "has a tolerance"),
        ("valve.length=nan mm:14 mm:2", "is not a figure"),
        ("pressure=-3 bar:1 bar:2", "below a perfect vacuum"),
        ("speed=0 rpm:100 rpm:2", "is not more than nothing"),
        ("valve.length=13 mm:14 mm", "from where to where"),
        ("valve.length", "from where to where"),
        ("=13 mm:14 mm:2", "from where to where"),
        ("", "from where to where"),
        ("valve.length=13 mm:14 mm:50:2", "from where to where"),
        ("valve.length=13 mm:14 mm:0", "0 steps"),
        ("valve.length=13 mm:14 mm:1", "1 step does not reach"),
        ("valve.length=13 mm:14 mm:-5", '"-5" is not a number of steps'),
        ("valve.length=13 mm:14 mm:2.5", '"2.5" is not a number of steps'),
        ("valve.length=13 mm:14 mm:1e9", '"1e9" is not a number of steps'),
        ("valve.length=13 mm:14 mm:1000000000", "1,000,000,000 steps are too many"),
        ("valve.length=13 mm:14 mm:" + "9" * 5000, "is not a number of steps"),
        ("x" * 5000, "from where to where"),
    ],
)
def test_what_is_wrong_is_told_with_the_better_way(text: str, told: str) -> None:
    with pytest.raises(CannotVary) as refused:
        read_varied(text, TWIN)
    assert told in str(refused.value)
    assert len(str(refused.value)) < 300


def test_the_most_steps_are_still_taken() -> None:
    assert read_varied(f"bore=19 mm:20 mm:{MOST_STEPS}", ("A",)).steps == MOST_STEPS


def test_a_cylinder_that_is_called_like_a_table_does_not_hide_the_table() -> None:
    assert read_varied("valve.length=13 mm:14 mm:2", ("valve", "B")).places == (
        (0, "valve.length"),
        (1, "valve.length"),
    )
    assert read_varied("valve.bore=13 mm:14 mm:2", ("valve", "B")).places == ((0, "bore"),)
