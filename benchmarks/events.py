"""A million engines' events, against a plain C loop of the same closed form."""

from __future__ import annotations

import ctypes
import shutil
import subprocess
import tempfile
import time
import tracemalloc
from collections.abc import Callable, Iterator
from dataclasses import fields
from pathlib import Path

import numpy as np

from benchmarks.ratio import Ratio
from lapwright.motion.many import EngineArrays, EventArrays, find_events_of_many

ENGINES = 1_000_000
ROWS = 8
REPEATS = 7
#: How near the two answers have to be, degrees and shares alike.
NEAR = 1e-9


def measure() -> Iterator[Ratio]:
    """Time and memory, each as a ratio; the two answers have to agree first."""
    engines = draw_engines(ENGINES)
    yield Ratio("events of 1,000,000 engines: memory / (inputs + outputs)", measure_memory(engines), 3.0)
    if shutil.which("cc") is None:
        print("events against C: there is no C compiler by the name of cc")
        return
    with tempfile.TemporaryDirectory(prefix="lapwright-bench-") as folder:
        loop = build_loop(Path(folder))
    ours, theirs = find_events_of_many(engines), run_loop(loop, engines)
    compare(ours, theirs)
    pairs = [
        (clock(lambda: find_events_of_many(engines)), clock(lambda: run_loop(loop, engines))) for _ in range(REPEATS)
    ]
    yield Ratio("events of 1,000,000 engines: time / C loop", min(a for a, _ in pairs) / min(b for _, b in pairs), 1.3)


def draw_engines(count: int) -> EngineArrays:
    """Random engines that could exist, lengths in m."""
    rng = np.random.default_rng(1)
    stroke = rng.uniform(0.015, 0.06, count)
    throw = rng.uniform(0.0015, 0.006, count)
    return EngineArrays(
        stroke=stroke,
        connecting_rod=stroke * rng.uniform(1.6, 3.0, count),
        cylinder_offset=stroke * rng.uniform(-0.05, 0.05, count),
        throw=throw,
        eccentric_rod=throw * rng.uniform(8, 30, count),
        eccentric_angle=rng.uniform(1.4, 2.4, count),
        valve_line_offset=throw * rng.uniform(-0.3, 0.3, count),
        valve_offset=throw * rng.uniform(-0.1, 0.1, count),
        head_steam_lap=throw * rng.uniform(-0.1, 0.7, count),
        head_exhaust_lap=throw * rng.uniform(-0.1, 0.3, count),
        crank_steam_lap=throw * rng.uniform(-0.1, 0.7, count),
        crank_exhaust_lap=throw * rng.uniform(-0.1, 0.3, count),
        hand=rng.choice((1.0, -1.0), count),
        rocker=rng.choice((1.0, -1.0), count),
    )


def build_loop(folder: Path) -> ctypes.CDLL:
    """Compile the loop with the system's compiler: every optimisation that keeps to the rules of arithmetic."""
    library = folder / "events.so"
    source = Path(__file__).parent / "events.c"
    subprocess.run(["cc", "-O3", "-march=native", "-shared", "-fPIC", "-o", library, source, "-lm"], check=True)
    return ctypes.CDLL(str(library))


def run_loop(loop: ctypes.CDLL, engines: EngineArrays) -> EventArrays:
    """The loop's answer for the same engines."""
    columns = [np.ascontiguousarray(getattr(engines, field.name), dtype=np.float64) for field in fields(engines)]
    count = columns[0].size
    deg, share = np.empty((ROWS, count)), np.empty((ROWS, count))
    loop.find_events(ctypes.c_long(count), _pointers(columns), _pointers(list(deg)), _pointers(list(share)))
    return EventArrays(deg, share)


def _pointers(rows: list[np.ndarray]) -> ctypes.Array[ctypes.c_void_p]:
    return (ctypes.c_void_p * len(rows))(*(row.ctypes.data for row in rows))


def compare(ours: EventArrays, theirs: EventArrays) -> None:
    """Refuse to time two things that do not answer alike."""
    # An event at a dead centre may read 0 here and 360 there.
    turn = np.abs(ours.crank_deg - theirs.crank_deg)
    np.testing.assert_allclose(np.minimum(turn, 360 - turn), np.where(theirs.happens, 0, np.nan), rtol=0, atol=NEAR)
    np.testing.assert_allclose(ours.stroke_share, theirs.stroke_share, rtol=0, atol=NEAR)


def clock(work: Callable[[], object]) -> float:
    """Seconds of one run."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def measure_memory(engines: EngineArrays) -> float:
    """Peak memory over what goes in and comes out."""
    inputs = sum(np.asarray(getattr(engines, field.name)).nbytes for field in fields(engines))
    tracemalloc.start()
    answer = find_events_of_many(engines)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    outputs = answer.crank_deg.nbytes + answer.stroke_share.nbytes
    return (inputs + peak) / (inputs + outputs)
