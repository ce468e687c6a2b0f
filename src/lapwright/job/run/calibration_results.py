"""A calibration as plain lists and dictionaries: the shape of `lapwright calibrate --json`, format 1."""

from __future__ import annotations

from dataclasses import asdict
from itertools import combinations
from typing import Any

from lapwright.cycle.bench_prediction import AIR_FLOW, TORQUE, Reading
from lapwright.cycle.calibrating import Calibration, Estimate
from lapwright.job.run.calibration import NO_TESTS, CalibrationReport
from lapwright.record import OpenedRecord

#: What one of the unit is in SI, and its name, by figure and by reading.
_KPA, _MICRON, _LITRE, _TORQUE = (1e3, "kPa"), (1e-6, "µm"), (1e-3 / 60, "L/min"), (1e-3, "mN m")


def list_calibration(report: CalibrationReport, record: OpenedRecord, *, written: bool) -> dict[str, Any]:
    """Return everything a calibration tells.

    Parameters
    ----------
    report: what was worked out
    record: the record it was worked out from
    written: whether it was put into the record
    """
    calibration = report.calibration
    sentences = [sentence for _, told in report.tests for sentence in told]
    return {
        **_begin(record),
        "settled": calibration.settled,
        "figures": [_list_figure(estimate) for estimate in calibration.estimates],
        "correlations": _list_correlations(calibration),
        "readings": [
            _list_reading(reading, sentence) for reading, sentence in zip(calibration.readings, sentences, strict=True)
        ],
        "verdicts": [asdict(verdict) for verdict in report.verdicts],
        "running": dict(report.lines),
        "written": written,
        "cautions": list(report.cautions),
    }


def list_uncalibrated(record: OpenedRecord) -> dict[str, Any]:
    """Return what is told of a sound record without bench tests."""
    lists: dict[str, list[Any]] = {name: [] for name in ("figures", "correlations", "readings", "verdicts", "cautions")}
    return {**_begin(record), "no_calibration": NO_TESTS, "settled": False, **lists, "running": {}, "written": False}


def _begin(record: OpenedRecord) -> dict[str, Any]:
    return {
        "format": 1,
        "engine": None if record.engine is None else record.engine.name,
        "problems": [asdict(problem) for problem in record.problems],
        "no_calibration": "",
    }


def _number(value: float, size: float = 1.0) -> float:
    """A figure in a unit, to six figures."""
    return float(f"{value / size:.6g}")


def _list_figure(estimate: Estimate) -> dict[str, Any]:
    size, unit = _KPA if estimate.key == "friction_pressure" else _MICRON
    low, high = estimate.prior.interval
    return {
        "key": f"running.{estimate.key}",
        "unit": unit,
        "value": _number(estimate.value, size),
        "low": _number(estimate.low, size),
        "high": _number(estimate.high, size),
        "before": {
            "value": _number(estimate.prior.value, size),
            "low": _number(low, size),
            "high": _number(high, size),
            "is_own": estimate.prior.is_own,
        },
        "doubt_left": _number(estimate.kept),
        "mostly_from": estimate.mostly_from,
    }


def _list_correlations(calibration: Calibration) -> list[dict[str, Any]]:
    keys = [estimate.key for estimate in calibration.fitted]
    return [
        {"keys": [f"running.{keys[a]}", f"running.{keys[b]}"], "value": _number(float(calibration.correlations[a, b]))}
        for a, b in combinations(range(len(keys)), 2)
    ]


def _list_reading(reading: Reading, sentence: str) -> dict[str, Any]:
    size, unit = {TORQUE: _TORQUE, AIR_FLOW: _LITRE}.get(reading.kind, (1.0, "s"))
    return {
        "test": reading.number,
        "kind": reading.kind,
        "unit": unit,
        "by_the_fit": _number(reading.predicted, size),
        "measured": _number(reading.measured, size),
        "off": _number(reading.off),
        "sentence": sentence,
    }
