"""How a sweep uses the cores, and whether time and memory stay in step with the number of settings."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from benchmarks.ratio import Ratio

PROGRAM = str(Path(sys.executable).parent / "lapwright")
RECORD = str(Path(__file__).parents[1] / "examples" / "sandpiper.toml")
MANY, FEW = 10_000, 1_000
#: Run by a process of its own: the table alone, its rows made up.
TABLE = """
import sys
from pathlib import Path
from lapwright.job.records import open_record
from lapwright.job.sweep_plan import SweepAsked, plan_sweep
from lapwright.job.sweep_rows import list_columns
from lapwright.job.sweep_table import finish_table, open_part
rows, table = int(sys.argv[2]), Path(sys.argv[3])
plan = plan_sweep(open_record(sys.argv[1]), [f"valve.length=11 mm:14 mm:{rows}"], SweepAsked())
made = "," + "".join("123.4567," * (len(list_columns(plan)) - 4)) + "true,7,\\n"
with open_part(table, plan) as part:
    for start in range(0, rows, 100):
        part.add("".join(f"{row + 1}{made}" for row in range(start, start + 100)).encode())
    finish_table(part, table, plan)
"""


def measure() -> Iterator[Ratio]:
    """Whole processes; what is short is taken off what is long, so that starting up does not count."""
    if len(os.sched_getaffinity(0)) < 2:
        print("a sweep on two cores: this machine has one")
        return
    with tempfile.TemporaryDirectory() as folder:
        sweep(folder, FEW, jobs=2)  # so that the kernels are compiled
        few, few_memory = sweep(folder, FEW, jobs=1)
        one, memory = sweep(folder, MANY, jobs=1)
        two, _ = sweep(folder, MANY, jobs=2)
        _, small = run([sys.executable, "-c", TABLE, RECORD, "10000", os.path.join(folder, "small.parquet")])
        table, large = run([sys.executable, "-c", TABLE, RECORD, "1000000", os.path.join(folder, "large.parquet")])
    print(f"sweep of {MANY:,} settings: {one:.1f} s on one core, {two:.1f} s on two: {one / two:.2f} times as fast")
    yield Ratio(f"sweep of {MANY:,} settings, time on two cores / on one", two / one, 1 / 1.8)
    yield Ratio(f"sweep, time for a setting: {MANY:,} / {FEW:,} settings", one / MANY / (few / FEW), 1.1)
    yield Ratio(f"sweep, memory: {MANY:,} / {FEW:,} settings", memory / few_memory, 1.1)
    yield Ratio("sweep's table alone, memory: a million / ten thousand rows", large / small, 1.5)
    yield Ratio("sweep's table alone, a million rows / working them out", table / (one / MANY * 1e6), 0.02)


def sweep(folder: str, rows: int, *, jobs: int) -> tuple[float, float]:
    """Seconds and memory of a sweep."""
    vary = ["--vary", f"valve.length=11 mm:14 mm:{rows // 10}", "--vary", "pressure=1 bar:3 bar:10"]
    table = os.path.join(folder, f"{rows}-{jobs}.csv")
    return run([PROGRAM, "sweep", RECORD, *vary, "--out", table, "--jobs", str(jobs)])


def run(line: list[str]) -> tuple[float, float]:
    """Seconds of one process, and the most memory it took [MB]."""
    start = time.perf_counter()
    process = subprocess.Popen(line, stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(process.pid, 0)
    if status:
        raise RuntimeError(f"{line} ended with {status}")
    return time.perf_counter() - start, used.ru_maxrss / 1024
