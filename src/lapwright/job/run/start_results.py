"""An engine at rest as plain lists and dictionaries: the shape of `lapwright start --json`, format 1."""

from __future__ import annotations

from dataclasses import asdict
from math import degrees
from typing import Any

from lapwright.job.run.start_trial import Arcs, StartTrial, Way
from lapwright.quantities.pressure import ATMOSPHERE
from lapwright.record import OpenedRecord


def list_start(trial: StartTrial, record: OpenedRecord) -> dict[str, Any]:
    """Return everything that is told of starting; pressures gauge, angles of the first crank."""
    starting, conditions = trial.starting, trial.stand.conditions
    return {
        "format": 1,
        "engine": trial.name,
        "problems": [asdict(problem) for problem in record.problems],
        "fluid": conditions.fluid,
        "supply_pressure_kpa": (conditions.supply - ATMOSPHERE) / 1e3,
        "exhaust_pressure_kpa": (conditions.exhaust - ATMOSPHERE) / 1e3,
        "friction_torque_mnm": 1e3 * starting.friction,
        "torque": {
            "crank_deg": [round(degrees(angle), 3) for angle in starting.angles.tolist()],
            "worst_mnm": [round(1e3 * torque, 4) for torque in starting.worst.tolist()],
            "best_mnm": [round(1e3 * torque, 4) for torque in starting.best.tolist()],
        },
        "forward": _list_way(trial.forward),
        "backward": _list_way(trial.backward),
        "assumed": [{**asdict(assumed), "affects": list(assumed.affects)} for assumed in trial.stand.assumed],
        "notes": list(trial.notes),
    }


def _list_way(way: Way) -> dict[str, Any]:
    return {
        "starts_deg": _list_arcs(way.starts),
        "starts_percent": 100 * way.share,
        "perhaps_deg": _list_arcs(way.perhaps),
        "never_deg": _list_arcs(way.never),
        "never_percent": 100 * way.dead_share,
        "carries_deg": _list_arcs(way.carries),
        "best_angle_deg": way.best_angle,
        "best_torque_mnm": 1e3 * way.torque,
        "least_pressure_kpa": None if way.least_pressure is None else (way.least_pressure - ATMOSPHERE) / 1e3,
    }


def _list_arcs(arcs: Arcs) -> list[list[float]]:
    return [[round(start, 3), round(stop, 3)] for start, stop in arcs]
