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
#: Each is timed so often, in turn, and the least counts: whatever else the machine does only adds to it.
REPEATS = 2
#: Run by a process of its own: the table alone, its rows made up.
TABLE = """
import sys
from pathlib import Path
from lapwright.job.records import open_record
from lapwright.job.sweep.plan import SweepAsked, plan_sweep
from lapwright.job.sweep.rows import list_columns
from lapwright.job.sweep.table import finish_table, open_part
rows, table = int(sys.argv[2]), Path(sys.argv[3])
plan = plan_sweep(open_record(sys.argv[1]), [f"valve.length=11 mm:14 mm:{rows}"], SweepAsked())
made = "," + "".join("123.4567," * (len(list_columns(plan)) - 4)) + "true,7,\\n"
with open_part(table, plan) as part:
    for start in range(0, rows, 100):
        part.add("".join(f"{row + 1}{made}" for row in range(start, start + 100)).encode())
    finish_table(part, table, plan)
"""


def measure() -> Iterator[Ratio]:
    """Whole processes, starting up included."""
    if len(os.sched_getaffinity(0)) < 2:
        print("a sweep on two cores: this machine has one")
        return
    with tempfile.TemporaryDirectory() as folder:
        sweep(folder, FEW, jobs=2)  # so that the kernels are compiled
        few, few_memory = min(sweep(folder, FEW, jobs=1) for _ in range(REPEATS))
        taken = [(sweep(folder, MANY, jobs=1), sweep(folder, MANY, jobs=2)) for _ in range(REPEATS)]
        small, large = (write_table(folder, rows) for rows in (1_000_000, 2_000_000))
    (one, memory), (two, _) = min(pair[0] for pair in taken), min(pair[1] for pair in taken)
    print(f"sweep of {MANY:,} settings: {one:.1f} s on one core, {two:.1f} s on two: {one / two:.2f} times as fast")
    yield Ratio(f"sweep of {MANY:,} settings, time on two cores / on one", two / one, 1 / 1.8)
    yield Ratio(f"sweep, time for a setting: {MANY:,} / {FEW:,} settings", one / MANY / (few / FEW), 1.1)
    yield Ratio(f"sweep, memory: {MANY:,} / {FEW:,} settings", memory / few_memory, 1.1)
    yield Ratio("sweep's table alone, memory: two million / one million rows", large[1] / small[1], 1.1)
    yield Ratio("sweep's table alone, time: two million / one million rows", large[0] / small[0], 2.2)
    yield Ratio("sweep's table alone, a million rows / working them out", small[0] / (one / MANY * 1e6), 0.02)


def write_table(folder: str, rows: int) -> tuple[float, float]:
    """Seconds and memory of a Parquet table whose rows are made up."""
    return run([sys.executable, "-c", TABLE, RECORD, str(rows), os.path.join(folder, f"{rows}.parquet")])


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
