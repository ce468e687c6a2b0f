"""Bench tests made up from an engine whose friction and leaks are known: by the model, with noise or without."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import exp, pi
from pathlib import Path
from random import Random

from lapwright.cycle.bench_prediction import (
    AIR_FLOW,
    DECAY_TIME,
    RUN_DOWN_TIME,
    TORQUE,
    list_scatter,
    read_rig,
    run_rig,
    set_up,
)
from lapwright.engine.bench_test import BenchTest
from lapwright.engine.engine import Engine
from lapwright.record import open_record

RPM = pi / 30
EXAMPLES = Path(__file__).parents[3] / "examples"
FIELDS = {AIR_FLOW: "air_flow", RUN_DOWN_TIME: "run_down_time", DECAY_TIME: "decay_time"}
#: Whatever stands here is measured afterwards.
TO_MEASURE = 1.0


def bring_engine(name: str) -> Engine:
    """A demo engine of which nobody has said how it rubs and leaks."""
    engine = open_record(EXAMPLES / f"{name}.toml").engine
    assert engine is not None
    running = replace(
        engine.running,
        friction_pressure=None,
        ring_gap=None,
        valve_face_gap=None,
        gland_gap=None,
        flywheel_inertia=engine.running.flywheel_inertia or 1e-3,
        doubts={},
    )
    return replace(engine, running=running, bench_tests=())


def steady(number: int, pressure: float, speed: float, *, air: bool = False, **other: object) -> BenchTest:
    """Steady running at a gauge pressure [bar] and a speed [rpm]; the load is what the engine then drives."""
    return BenchTest(
        number=number,
        supply_pressure=pressure * 1e5,
        speed=speed * RPM,
        air_flow=TO_MEASURE if air else None,
        **other,
    )


def run_down(number: int, speed: float) -> BenchTest:
    return BenchTest(number=number, run_down_from=speed * RPM, run_down_time=TO_MEASURE)


def decay(number: int, start: float, stop: float, **other: object) -> BenchTest:
    return BenchTest(
        number=number,
        decay_from=start * 1e5,
        decay_to=stop * 1e5,
        decay_time=TO_MEASURE,
        decay_volume=25e-6,
        **other,
    )


def measure(engine: Engine, tests: list[BenchTest], truth: Mapping[str, float], rng: Random | None = None) -> Engine:
    """The engine with its tests as they would have come out; with `rng` as far off as their doubts allow."""
    return replace(engine, bench_tests=tuple(_measure_one(engine, test, truth, rng) for test in tests))


def _measure_one(engine: Engine, test: BenchTest, truth: Mapping[str, float], rng: Random | None) -> BenchTest:
    rig = set_up(engine, test)
    outcome, scatter = run_rig(rig, truth), list_scatter(rig, truth)
    changes: dict[str, float] = {}
    for reading in read_rig(rig, truth, outcome=outcome, scatter=scatter):
        noise = 0.0 if rng is None else rng.gauss(0.0, reading.scatter)
        if reading.kind == TORQUE:
            changes["load_torque"] = reading.predicted + noise
        else:
            changes[FIELDS[reading.kind]] = reading.predicted * exp(noise)
    return replace(test, **changes)
