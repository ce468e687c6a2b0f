"""A row tells what a run of its engine tells; what cannot be run is a sentence in its row and stops nothing."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from math import pi

import pytest

from lapwright.cycle.engine_run import run_engine
from lapwright.cycle.plant_setup import choose_conditions, prepare_plant
from lapwright.cycle.settling import find_least_pressure
from lapwright.job.sweep.plan import SweepAsked, SweepPlan
from lapwright.job.sweep.rows import list_columns, work_out, write_head
from lapwright.motion.answers import describe_motion
from tests.house.reading import TOP
from tests.unit.job.sweeps import plan_demo

RPM = 2 * pi / 60


def read_rows(plan: SweepPlan) -> list[dict[str, str]]:
    text = (write_head(plan) + work_out(plan, 0, plan.rows)).decode()
    return list(csv.DictReader(io.StringIO(text)))


@pytest.mark.parametrize("fluid", ["air", "steam"])
@pytest.mark.parametrize("fine", [False, True])
def test_a_row_tells_what_a_run_of_its_engine_tells(fluid: str, fine: bool) -> None:
    asked = SweepAsked(fluid=fluid, speed="400 rpm", fine=fine, least_pressure=fine)
    plan = plan_demo("tern", "A.valve.length=12.5 mm:13.5 mm:2", "pressure=1 bar:2 bar:2", asked=asked)
    for number, row in enumerate(read_rows(plan)):
        engine = plan.build_engine(number)
        plant = prepare_plant(engine, fluid=fluid)
        conditions = choose_conditions(engine, plant, fluid=fluid, speed=400 * RPM)
        run = run_engine(plant, conditions, quick=not fine)
        used = ("free_air_l_per_min", run.free_air) if fluid == "air" else ("steam_g_per_min", run.supplied)
        expected = {
            "row": number + 1,
            "A.valve.length_mm": (12.5, 13.5)[number // 2],
            "pressure_bar": (1, 2)[number % 2],
            "speed_rpm": 400,
            "indicated_power_w": run.indicated_power,
            "brake_power_w": run.brake_power,
            "mean_torque_mnm": 1e3 * run.mean_torque,
            "unevenness": run.unevenness,
            "turns": run.turns,
            used[0]: 6e4 * used[1],
        }
        for setup, cylinder in zip(plant.setups, run.cylinders, strict=True):
            for end in ("head", "crank"):
                mean = cylinder.ends[end].mean_effective_pressure
                expected[f"{cylinder.name}.{end}.mean_effective_pressure_kpa"] = mean / 1e3
            expected[f"{cylinder.name}.eccentric_torque_mnm"] = 1e3 * cylinder.valve.eccentric_torque
            expected[f"{cylinder.name}.chest_to_exhaust_deg"] = describe_motion(setup.sizes).chest_to_exhaust_deg
        if fine:
            expected["least_pressure_kpa"] = (find_least_pressure(plant, conditions) - 101_325) / 1e3
        assert {"settled", "problem", *expected} == row.keys()
        assert (row["settled"], row["problem"]) == ("true", "")
        for name, value in expected.items():
            assert float(row[name]) == pytest.approx(value, rel=1e-6), name


def test_a_load_is_carried_at_the_speed_that_is_told() -> None:
    rows = read_rows(plan_demo("tern", "load=5 W:25 W:3"))
    assert [float(row["brake_power_w"]) for row in rows] == pytest.approx([5, 15, 25], rel=0.005)
    speeds = [float(row["speed_rpm"]) for row in rows]
    assert speeds == sorted(speeds, reverse=True)


def test_rows_that_cannot_be_run_say_why_and_stop_nothing() -> None:
    rows = read_rows(plan_demo("tern", "connecting_rod=8 mm:48 mm:5", "pressure=-0.5 bar:1 bar:2"))
    short = [row["problem"] for row in rows[:2]]
    assert all("connecting_rod: 8 mm is too short for a stroke" in problem for problem in short)
    for low, high in zip(rows[2::2], rows[3::2], strict=True):
        assert "are below the exhaust's" in low["problem"]
        assert low["settled"] == low["brake_power_w"] == low["speed_rpm"] == ""
        assert low["pressure_bar"] == "-0.5"
        assert high["problem"] == ""
        assert float(high["brake_power_w"]) > 0


def test_a_load_that_stalls_it_is_told() -> None:
    rows = read_rows(plan_demo("tern", "load=10 mN m:10000 mN m:2"))
    assert [row["problem"] for row in rows] == ["", "it does not turn over under this load"]


def test_a_size_that_is_missing_is_told_in_each_row() -> None:
    for row in read_rows(plan_demo("knot", "valve.length=13 mm:14 mm:2")):
        assert "not known: valve.cavity" in row["problem"]


def test_a_single_acting_cylinder_has_one_end() -> None:
    plan = plan_demo("plover", "speed=100 rpm:200 rpm:2")
    single = replace(plan.engine.cylinders[0], numbers={"bore": 0.02})
    names = [column.name for column in list_columns(replace(plan, engine=replace(plan.engine, cylinders=(single,))))]
    assert [name for name in names if "mean_effective" in name] == ["A.head.mean_effective_pressure_kpa"]
    assert "speed_rpm" in names
    assert len(set(names)) == len(names)


def test_odd_names_stay_one_column() -> None:
    plan = plan_demo("sandpiper", "speed=100 rpm:200 rpm:2")
    odd = replace(plan.engine.cylinders[0], name='No. 1, "low"')
    plan = replace(
        plan,
        engine=replace(plan.engine, cylinders=(odd,)),
        values={**plan.values, 0: {**plan.values[0], "name": odd.name}},
    )
    row = read_rows(plan)[0]
    assert float(row['No. 1, "low".head.mean_effective_pressure_kpa']) > 0


def test_rows_do_not_depend_on_how_they_are_parted() -> None:
    plan = plan_demo("merganser", "speed=100 rpm:400 rpm:7")
    whole = work_out(plan, 0, 7)
    assert b"".join(work_out(plan, row, row + 1) for row in range(7)) == whole
    assert work_out(plan, 5, 7) + work_out(plan, 0, 5) != whole


def test_every_column_is_explained_in_the_manual() -> None:
    page = (TOP / "docs" / "how-to" / "sweep-many-settings.md").read_text(encoding="utf-8")
    for fluid in ("air", "steam"):
        asked = SweepAsked(fluid=fluid, least_pressure=True)
        for column in list_columns(plan_demo("sandpiper", "pressure=20 psi:30 psi:2", asked=asked)):
            name = column.name.replace(".crank.", ".head.")
            assert f"`{name}`" in page, name
