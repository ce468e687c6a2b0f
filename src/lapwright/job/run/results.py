"""A trial as plain lists and dictionaries: the shape of `lapwright run --json`, format 1."""

from __future__ import annotations

from dataclasses import asdict
from math import degrees, isfinite, pi
from typing import Any

from lapwright.cycle.answers import CylinderRun, EndRun, ValveLoad
from lapwright.cycle.cards import free_air_by_rule
from lapwright.cycle.engine_run import EngineRun, Plant, sum_swept
from lapwright.cycle.layout import Floats
from lapwright.job.run.trial import Trial
from lapwright.motion.travel import TURN
from lapwright.quantities.pressure import ATMOSPHERE
from lapwright.quantities.temperature import FREEZING
from lapwright.record import OpenedRecord

#: Kilograms a second as grams a minute, and cubic metres a second as litres a minute.
_PER_MINUTE = 6e4


def list_run(trial: Trial, record: OpenedRecord) -> dict[str, Any]:
    """Return everything a trial tells; with a cure to compare, also the run after it and what it gains.

    Pressures are gauge; crank angles are the first crank's, but within a cylinder its own.
    """
    told = _list_trial(trial)
    told["problems"] = [asdict(problem) for problem in record.problems]
    if trial.after is not None:
        told["after"] = _list_trial(trial.after)
        told["gain"] = _list_gain(trial, trial.after)
    return told


def list_unrun(record: OpenedRecord) -> dict[str, Any]:
    """Return what is told of a record that has to be mended before anything can be run: its problems."""
    return {
        "format": 1,
        "engine": None if record.engine is None else record.engine.name,
        "problems": [asdict(problem) for problem in record.problems],
        "cylinders": [],
    }


def _list_trial(trial: Trial) -> dict[str, Any]:
    run, conditions = trial.run, trial.run.conditions
    steam = conditions.fluid == "steam"
    loaded = trial.stand.is_loaded
    return {
        "format": 1,
        "engine": trial.name,
        "cures": [{"code": cure.code, "cylinder": cure.cylinder, "title": cure.title} for cure in trial.cures],
        "fluid": conditions.fluid,
        "supply_pressure_kpa": _kpa(conditions.supply),
        "exhaust_pressure_kpa": _kpa(conditions.exhaust),
        "supply_temperature_c": _number(conditions.supply_temperature, 1, -FREEZING),
        "steam_dryness": _number(conditions.dryness) if steam and conditions.supply_temperature is None else None,
        "speed_rpm": _number(conditions.speed, 30 / pi),
        "load_torque_mnm": _number(trial.stand.load_torque, 1e3) if loaded else None,
        "load_power_w": _number(trial.stand.load_power) if loaded else None,
        "ideal": conditions.ideal,
        "settled": run.settled,
        "turns": run.turns,
        "change": _number(max(cylinder.change for cylinder in run.cylinders)),
        "indicated_power_w": _number(run.indicated_power),
        "friction_power_w": _number(run.friction_power),
        "brake_power_w": _number(run.brake_power),
        "mean_torque_mnm": _number(run.mean_torque, 1e3),
        "free_air_l_per_min": None if steam else _number(run.free_air, _PER_MINUTE),
        "free_air_by_rule_l_per_min": None if steam else _number(_rule_air(trial.stand.plant, run), _PER_MINUTE),
        "steam_g_per_min": _number(run.supplied, _PER_MINUTE) if steam else None,
        "least_pressure_kpa": None if trial.least_pressure is None else _kpa(trial.least_pressure),
        "losses_w": {
            "full": _number(run.full_power),
            **{_key(name): _number(power) for name, power in run.losses.items()},
            "brake": _number(run.brake_power),
        },
        "uses_g_per_min": {_key(name): _number(mass, _PER_MINUTE) for name, mass in run.uses.items()},
        "flywheel": {
            "inertia_kg_m2": _number(trial.stand.plant.inertia),
            "swing_j": _number(run.swing),
            "unevenness": _number(run.unevenness),
        },
        "torque": {
            "crank_deg": _angles(run.angles),
            "torque_mnm": _numbers(run.torque, 4, factor=1e3),
        },
        "assumed": [{**asdict(assumed), "affects": list(assumed.affects)} for assumed in trial.stand.assumed],
        "notes": list(trial.notes),
        "cylinders": [_list_cylinder(cylinder, trial.stand.plant) for cylinder in run.cylinders],
    }


def _rule_air(plant: Plant, run: EngineRun) -> float:
    """Free air by the rule of the swept volume [m3/s], the dead cylinders left out."""
    swept = sum(sum_swept(setup) for setup in plant.setups if setup.sizes.name not in plant.dead)
    return free_air_by_rule(swept, supply=run.conditions.supply, speed=run.conditions.speed)


def _list_cylinder(run: CylinderRun, plant: Plant) -> dict[str, Any]:
    turns = run.conditions.speed / TURN
    return {
        "name": run.name,
        "dead": run.name in plant.dead,
        "mass_per_turn_mg": _number(run.supplied, 1e6),
        "wall_temperature_c": _number(run.wall_temperature, 1, -FREEZING),
        "heat_to_shop_w": _number(run.heat, turns),
        "condensed_mg_per_turn": _number(run.condensed, 1e6),
        "exhaust_temperature_c": _number(run.exhaust_temperature, 1, -FREEZING),
        "exhaust_dryness": _number(run.exhaust_dryness) if run.conditions.fluid == "steam" else None,
        "valve": None if run.valve is None else _list_valve(run.valve, turns),
        "ends": {end: _list_end(run.ends[end], run.angles) if end in run.ends else None for end in ("head", "crank")},
    }


def _list_valve(valve: ValveLoad, turns: float) -> dict[str, Any]:
    return {
        "eccentric_torque_mnm": _number(valve.eccentric_torque, 1e3),
        "friction_power_w": _number(valve.work, turns),
        "lifts_deg": [[degrees(start), degrees(stop)] for start, stop in valve.lifts],
    }


def _list_end(end: EndRun, angles: Floats) -> dict[str, Any]:
    return {
        "mean_effective_pressure_kpa": _number(end.mean_effective_pressure, 1e-3),
        "work_j_per_turn": _number(end.work),
        "greatest_pressure_kpa": _kpa(float(end.pressures.max())),
        "least_temperature_c": _number(float(end.temperatures.min()), 1, -FREEZING),
        "card": {
            "crank_deg": _angles(angles),
            "volume_mm3": _numbers(end.volumes, 3, factor=1e9),
            "pressure_kpa": _numbers(end.pressures - ATMOSPHERE, 4, factor=1e-3),
        },
    }


def _list_gain(before: Trial, after: Trial) -> dict[str, Any]:
    least = {name: trial.least_pressure for name, trial in (("before", before), ("after", after))}
    return {
        "brake_power_percent": _percent(before.run.brake_power, after.run.brake_power),
        "consumption_percent": _percent(before.run.supplied, after.run.supplied),
        "consumption_for_work_percent": _percent(before.showing.use_for_work, after.showing.use_for_work),
        "least_pressure_kpa": {name: None if value is None else _kpa(value) for name, value in least.items()},
    }


def _percent(before: float | None, after: float | None) -> float | None:
    """How much more there is afterwards; None where there was nothing to speak of before."""
    if before is None or after is None or before <= 0:
        return None
    return _number(after / before - 1, 100)


def _key(name: str) -> str:
    return name.replace(" ", "_").replace("-", "_")


def _kpa(absolute: float) -> float | None:
    return _number(absolute - ATMOSPHERE, 1e-3)


def _number(value: float | None, factor: float = 1.0, offset: float = 0.0) -> float | None:
    """A plain number in the unit that is told; what is no figure is None, never a NaN."""
    if value is None:
        return None
    told = float(value) * factor + offset
    return told if isfinite(told) else None


def _numbers(values: Floats, places: int, *, factor: float) -> list[float]:
    return [round(factor * value, places) for value in values.tolist()]


def _angles(radians: Floats) -> list[float]:
    return [round(degrees(angle), 3) for angle in radians.tolist()]
