"""The rows of a sweep's table: one setting after another run, and its answers as text."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import isfinite
from typing import TYPE_CHECKING

from lapwright.errors import LapwrightError
from lapwright.job.sweep.keys import SPEED
from lapwright.job.sweep.plan import SweepPlan
from lapwright.motion.travel import RPM
from lapwright.quantities.pressure import ATMOSPHERE

if TYPE_CHECKING:
    from lapwright.cycle.engine_run import EngineRun, Plant

#: What a column holds; the Parquet file keeps it as a type.
WHOLE, NUMBER, TRUTH, TEXT = "whole number", "number", "true or false", "text"
_PER_MINUTE = 6e4
#: Figures of a result are given with so many digits; a quick run is good to three or four.
_DIGITS = 7

Answers = dict[str, float | int | bool | str | None]


@dataclass(frozen=True, slots=True)
class Column:
    """One column of the table: its name, with the unit, and what it holds."""

    name: str
    holds: str


def list_columns(plan: SweepPlan) -> list[Column]:
    """Return the columns in their order: the row's number, what varies, the answers, and why there are none."""
    columns = [Column("row", WHOLE), *(Column(varied.column, NUMBER) for varied in plan.varied)]
    if not any(SPEED in varied.places for varied in plan.varied):
        columns.append(Column("speed_rpm", NUMBER))
    columns += [Column(name, NUMBER) for name in _list_cylinder_columns(plan)]
    used = "free_air_l_per_min" if plan.fluid == "air" else "steam_g_per_min"
    columns += [Column(name, NUMBER) for name in ("indicated_power_w", "brake_power_w", "mean_torque_mnm", used)]
    if plan.asked.least_pressure:
        columns.append(Column("least_pressure_kpa", NUMBER))
    columns += [Column("unevenness", NUMBER), Column("settled", TRUTH), Column("turns", WHOLE)]
    return [*columns, Column("problem", TEXT)]


def _list_cylinder_columns(plan: SweepPlan) -> Iterator[str]:
    varied = {place for item in plan.varied for place in item.places}
    for number, sizes in enumerate(plan.engine.cylinders):
        name = sizes.name
        double = "piston_rod" in sizes.numbers or (number, "piston_rod") in varied
        for end in ("head", "crank") if double else ("head",):
            yield f"{name}.{end}.mean_effective_pressure_kpa"
        yield f"{name}.chest_to_exhaust_deg"
        yield f"{name}.eccentric_torque_mnm"


def work_out(plan: SweepPlan, start: int, stop: int) -> bytes:
    """Return some rows of the table as lines of CSV.

    Parameters
    ----------
    plan: what is worked out
    start: the first row, counted from 0
    stop: the row behind the last
    """
    names = [column.name for column in list_columns(plan)]
    lines = io.StringIO()
    writer = csv.writer(lines, lineterminator="\n")
    for row in range(start, stop):
        given = dict(zip(names, [str(row + 1), *plan.numbers(row)], strict=False))
        answers = {**_answer(plan, row), **given}
        writer.writerow([_show(answers.get(name)) for name in names])
    return lines.getvalue().encode()


def write_head(plan: SweepPlan) -> bytes:
    """Return the line of CSV that names the columns."""
    line = io.StringIO()
    csv.writer(line, lineterminator="\n").writerow([column.name for column in list_columns(plan)])
    return line.getvalue().encode()


def _answer(plan: SweepPlan, row: int) -> Answers:
    """A row's answers, or the sentence that says why there are none."""
    try:
        answers = _run(plan, row)
    except LapwrightError as error:
        return {"problem": " ".join(str(error).split())}
    except (ArithmeticError, ValueError, AssertionError, LookupError) as error:
        # A fault of ours in one setting must not cost the person the night in which the others were worked out.
        return {"problem": f"a fault of the program's own: {type(error).__name__}: {' '.join(str(error).split())}"}
    if not all(isfinite(value) for value in answers.values() if isinstance(value, float)):
        return {"problem": "a fault of the program's own: an answer is not a number"}
    return answers


def _run(plan: SweepPlan, row: int) -> Answers:
    # The running engine is loaded in the processes that run it, not in the one that hands out the rows.
    from lapwright.cycle.engine_run import run_engine
    from lapwright.cycle.plant_setup import choose_conditions, prepare_plant
    from lapwright.cycle.settling import find_least_pressure, settle_speed

    engine, asked = plan.build_engine(row), plan.asked
    plant = prepare_plant(engine, fluid=plan.fluid)
    conditions = choose_conditions(engine, plant, fluid=plan.fluid, speed=plan.choose_speed(row))
    conditions = replace(conditions, ideal=asked.ideal)
    if plan.loaded:
        running = engine.running
        torque, power = running.load_torque or 0.0, running.load_power or 0.0
        speed = settle_speed(plant, conditions, torque=torque, power=power)
        if speed is None:
            return {"problem": "it does not turn over under this load"}
        conditions = conditions.at_speed(speed)
    answers = _list_answers(plant, run_engine(plant, conditions, quick=not asked.fine))
    if asked.least_pressure:
        least = find_least_pressure(plant, conditions)
        answers["least_pressure_kpa"] = None if least is None else (least - ATMOSPHERE) / 1e3
    return answers


def _list_answers(plant: Plant, run: EngineRun) -> Answers:
    from lapwright.motion.answers import describe_motion

    answers: Answers = {
        "speed_rpm": run.conditions.speed / RPM,
        "indicated_power_w": run.indicated_power,
        "brake_power_w": run.brake_power,
        "mean_torque_mnm": run.mean_torque * 1e3,
        "free_air_l_per_min": run.free_air * _PER_MINUTE,
        "steam_g_per_min": run.supplied * _PER_MINUTE,
        "unevenness": run.unevenness,
        "settled": run.settled,
        "turns": run.turns,
    }
    for setup, cylinder in zip(plant.setups, run.cylinders, strict=True):
        for end, half in cylinder.ends.items():
            answers[f"{cylinder.name}.{end}.mean_effective_pressure_kpa"] = half.mean_effective_pressure / 1e3
        answers[f"{cylinder.name}.chest_to_exhaust_deg"] = describe_motion(setup.sizes).chest_to_exhaust_deg
        if cylinder.valve is not None:
            answers[f"{cylinder.name}.eccentric_torque_mnm"] = cylinder.valve.eccentric_torque * 1e3
    return answers


def _show(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    # Adding nothing takes the sign off a nothing.
    return f"{value + 0.0:.{_DIGITS}g}" if isinstance(value, float) else "" if value is None else str(value)
