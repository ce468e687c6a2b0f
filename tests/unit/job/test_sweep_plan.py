"""Each row of a sweep is the record with other figures in it, in a fixed order; what excludes each other is refused."""

from __future__ import annotations

import pickle
from dataclasses import replace
from math import pi

import pytest

from lapwright.errors import BadInput, CannotChange, CannotRun, CannotSweep, CannotVary, FlawedRecord
from lapwright.job.sweep.plan import SweepAsked, plan_sweep
from lapwright.record import change_record, read_record
from tests.unit.job.sweeps import open_demo, plan_demo

RPM = 2 * pi / 60


def test_the_last_key_changes_quickest() -> None:
    plan = plan_demo("sandpiper", "valve.length=12 mm:13 mm:2", "pressure=1 bar:3 bar:3")
    assert plan.rows == 6
    rows = [tuple(plan.numbers(row)) for row in range(plan.rows)]
    assert rows == [("12", "1"), ("12", "2"), ("12", "3"), ("13", "1"), ("13", "2"), ("13", "3")]


@pytest.mark.parametrize(
    ("name", "key", "path", "figures"),
    [
        ("sandpiper", "valve.length", "cylinder.0.valve.length", ("12.5 mm", "12.75 mm", "13 mm")),
        ("sandpiper", "clearance_head", "cylinder.0.clearance_head", ("4 %", "6 %", "8 %")),
        ("tern", "A.clearance_head", "cylinder.0.clearance_head", ("4 %", "6 %", "8 %")),
        ("tern", "clearance_crank", "cylinder.0.clearance_crank", ("0.5 mm", "0.75 mm", "1 mm")),
        (
            "tern",
            "B.valve_drive.eccentric_angle",
            "cylinder.1.valve_drive.eccentric_angle",
            ("85 deg", "90 deg", "95 deg"),
        ),
        ("tern", "B.crank_phase", "cylinder.1.crank_phase", ("80 deg", "90 deg", "100 deg")),
        ("tern", "running.ring_gap", "running.ring_gap", ("2 µm", "6 µm", "10 µm")),
        ("tern", "running.steam_dryness", "running.steam_dryness", ("0.9", "0.95", "1")),
        ("tern", "load", "running.load", ("1 W", "3 W", "5 W")),
        ("tern", "pressure", "engine.supply_pressure", ("1 bar abs", "2 bar abs", "3 bar abs")),
        ("merganser", "engine.exhaust_pressure", "engine.exhaust_pressure", ("0 psi", "1.5 psi", "3 psi")),
        ("knot", "valve.cavity", "cylinder.0.valve.cavity", ("7 mm", "8 mm", "9 mm")),
    ],
)
def test_a_row_is_what_the_record_with_that_figure_tells(
    name: str, key: str, path: str, figures: tuple[str, str, str]
) -> None:
    record = open_demo(name)
    plan = plan_sweep(record, [f"{key}={figures[0]}:{figures[2]}:3"], SweepAsked(fluid=record.engine.fluid))
    for row, figure in enumerate(figures):
        paths = [path, path.replace(".0.", ".1.")] if name == "tern" and key == "clearance_crank" else [path]
        changed = read_record(change_record(record.text, dict.fromkeys(paths, figure)).encode())
        assert plan.build_engine(row) == replace(changed.engine, fluid=record.engine.fluid or "air")


def test_edges_vary_one_by_one_where_the_record_gives_edges() -> None:
    text = open_demo("sandpiper").text
    lines = [line for line in text.splitlines() if not line.startswith(("length = ", "cavity = "))]
    at = lines.index("[cylinder.valve]") + 1
    lines.insert(at, 'edges = ["0 mm", "2.2 mm", "10.6 mm", "12.8 mm"]')
    record = read_record("\n".join(lines).encode())
    plan = plan_sweep(record, ["valve.edges.3=12.8 mm:13.2 mm:3"], SweepAsked())
    assert plan.build_engine(2).cylinders[0].numbers["valve.edges.3"] == pytest.approx(0.0132)
    with pytest.raises(CannotChange, match="gives the edges instead"):
        plan_sweep(record, ["valve.length=12 mm:13 mm:3"], SweepAsked())
    with pytest.raises(CannotChange, match="does not give these edges"):
        plan_demo("sandpiper", "valve.edges.3=12.8 mm:13.2 mm:3")


def test_figures_that_do_not_go_together_are_told_by_cylinder() -> None:
    plan = plan_demo("tern", "B.valve.cavity=8 mm:20 mm:2")
    assert plan.build_engine(0)
    with pytest.raises(CannotRun, match="cylinder B cannot be run: cavity: 20 mm leaves the valve no walls"):
        plan.build_engine(1)
    plan = plan_demo("tern", "running.ring_gap=0.001 mm:2 mm:2")
    with pytest.raises(CannotRun, match="the engine cannot be run: ring_gap: 2 mm is not between 0 and 1 mm"):
        plan.build_engine(1)


def test_what_is_asked_takes_the_place_of_what_the_record_says() -> None:
    asked = SweepAsked(fluid="steam", pressure="3 bar", load="2 W")
    engine = plan_demo("tern", "bore=19 mm:20 mm:2", asked=asked).build_engine(0)
    assert (engine.fluid, engine.supply_pressure, engine.running.load_power) == ("steam", 3e5, 2.0)
    changed = change_record(open_demo("tern").text, {"running.supply_temperature": "40 degC"})
    record = read_record(changed.encode())
    for fluid, kelvin in (("air", 313.15), ("steam", None)):
        plan = plan_sweep(record, ["bore=19 mm:20 mm:2"], SweepAsked(fluid=fluid))
        assert plan.build_engine(0).running.supply_temperature == kelvin


def test_the_speed_is_given_or_varies_or_comes_from_the_load() -> None:
    def plan(*vary: str, **asked: str) -> tuple[bool, float | None]:
        made = plan_demo("tern", *vary, asked=SweepAsked(**asked))  # type: ignore[arg-type]
        return made.loaded, made.choose_speed(0)

    assert plan("bore=19 mm:20 mm:2") == (False, None)
    assert plan("bore=19 mm:20 mm:2", speed="600 rpm") == (False, pytest.approx(600 * RPM))
    assert plan("speed=300 rpm:600 rpm:2") == (False, pytest.approx(300 * RPM))
    assert plan("bore=19 mm:20 mm:2", load="30 mN m") == (True, None)
    assert plan("load=1 W:2 W:2") == (True, None)
    record = read_record(change_record(open_demo("tern").text, {"running.load": "1 W"}).encode())
    assert plan_sweep(record, ["bore=19 mm:20 mm:2"], SweepAsked()).loaded
    assert not plan_sweep(record, ["bore=19 mm:20 mm:2"], SweepAsked(speed="600 rpm")).loaded


@pytest.mark.parametrize(
    ("vary", "asked", "kind", "told"),
    [
        ((), SweepAsked(), CannotSweep, "nothing varies"),
        (("bore=19 mm:20 mm:2", "A.bore=19 mm:20 mm:2"), SweepAsked(), CannotVary, "it varies twice"),
        (("load=1 W:2 W:2", "running.load=1 W:2 W:2"), SweepAsked(), CannotVary, "it varies twice"),
        (("speed=1 rpm:2 rpm:2", "speed=1 rpm:2 rpm:2"), SweepAsked(), CannotVary, "it varies twice"),
        (("speed=1 rpm:2 rpm:2",), SweepAsked(speed="3 rpm"), CannotSweep, "the speed is given, and varies"),
        (("load=1 W:2 W:2",), SweepAsked(load="3 W"), CannotSweep, "the load is given, and varies"),
        (("pressure=1 bar:2 bar:2",), SweepAsked(pressure="3 bar"), CannotSweep, "the pressure is given, and varies"),
        (("speed=1 rpm:2 rpm:2",), SweepAsked(load="3 W"), CannotSweep, "to be found from the load"),
        (("load=1 W:2 W:2",), SweepAsked(speed="3 rpm"), CannotSweep, "to be found from the load"),
        (("bore=1 mm:2 mm:2",), SweepAsked(speed="3 rpm", load="3 W"), CannotSweep, "to be found from the load"),
        (("bore=1 mm:2 mm:2",), SweepAsked(ideal=True, least_pressure=True), CannotSweep, "--least-pressure"),
        (("bore=1 mm:2 mm:2",), SweepAsked(speed="600"), BadInput, "has no unit"),
        (("bore=1 mm:2 mm:2",), SweepAsked(pressure=""), BadInput, "cannot be read as a pressure"),
        (
            ("bore=1 mm:2 mm:9999", "stroke=1 mm:2 mm:9999"),
            SweepAsked(),
            CannotSweep,
            "99,980,001 settings are too many",
        ),
    ],
)
def test_what_excludes_each_other_is_refused(
    vary: tuple[str, ...], asked: SweepAsked, kind: type[Exception], told: str
) -> None:
    with pytest.raises(kind, match=told):
        plan_demo("tern", *vary, asked=asked)


def test_a_flawed_record_is_not_swept() -> None:
    record = read_record(b'format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\nbore = 19.05\n')
    with pytest.raises(FlawedRecord):
        plan_sweep(record, ["bore=19 mm:20 mm:2"], SweepAsked())


def test_whatever_a_figure_depends_on_makes_another_plan() -> None:
    vary, record = "bore=19 mm:20 mm:2", open_demo("tern")
    plans = [plan_sweep(record, [vary], SweepAsked()) for _ in range(2)]
    assert len({plan.digest for plan in plans}) == 1
    asked = [
        SweepAsked(fluid="steam"), SweepAsked(pressure="3 bar"), SweepAsked(speed="300 rpm"), SweepAsked(load="1 W"),
        SweepAsked(ideal=True), SweepAsked(fine=True), SweepAsked(least_pressure=True),
    ]  # fmt: skip
    plans += [plan_sweep(record, [vary], each) for each in asked]
    plans += [plan_sweep(record, [other], SweepAsked()) for other in ("bore=19 mm:20 mm:3", "bore=19 mm:21 mm:2")]
    plans.append(plan_sweep(read_record(record.text.replace("Twin", "twin").encode()), [vary], SweepAsked()))
    assert len({plan.digest for plan in plans}) == len(plans) - 1


def test_a_plan_goes_to_another_process_whole() -> None:
    plan = plan_demo("tern", "pressure=1 bar abs:3 bar abs:3", "bore=19 mm:20 mm:2")
    other = pickle.loads(pickle.dumps(plan))
    assert other == plan
    assert [other.build_engine(row) for row in range(6)] == [plan.build_engine(row) for row in range(6)]
