"""A cylinder's turns against plain C of the same scheme; how exact few steps are; how soon an answer comes."""

from __future__ import annotations

import ctypes
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import pi, radians
from pathlib import Path
from statistics import median

import numpy as np

from benchmarks.ratio import Ratio
from lapwright.cycle import alone, balance, layout, march, stage
from lapwright.cycle.conditions import ATMOSPHERE, SHOP, Conditions, Setup
from lapwright.cycle.cylinder_run import FINE_STEPS, QUICK_STEPS
from lapwright.cycle.layout import Floats
from lapwright.cycle.packing import Pack, pack_cylinder
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes
from lapwright.medium import flow, steam

#: One periodic solution is taken as so many turns.
TURNS = 3
REPEATS = 60
#: How near the mean effective pressures of the two programs have to be, as a share.
NEAR = 1e-9
#: Steps of a turn that count as exact, and the speeds at which fewer are held against them [rpm].
MANY_STEPS = 2880
SPEEDS = (60, 600, 3000)
#: What the first answer of a new process may take [s].
SOON = 1.5
FRESH = 9
SOURCE = Path(__file__).parents[1] / "src"
ANSWER = (
    "from benchmarks import cycle\nfrom lapwright.cycle.cylinder_run import run_cylinder\n"
    "run_cylinder(cycle.SETUP, cycle.CASES['{case}'])"
)

SIZES = Sizes(
    "A",
    {
        "bore": 0.019, "stroke": 0.019, "connecting_rod": 0.045, "piston_rod": 0.00476,
        "clearance_head_share": 0.08, "clearance_crank_share": 0.08,
        "port_face.steam_port": 0.002, "port_face.bridge": 0.002, "port_face.exhaust_port": 0.004,
        "port_face.port_length": 0.008, "valve.length": 0.0127, "valve.cavity": 0.008,
        "valve_drive.throw": 0.0022, "valve_drive.eccentric_rod": 0.06, "valve_drive.eccentric_angle": radians(102),
    },
)  # fmt: skip
SETUP = Setup(
    SIZES,
    Running(discharge_coefficient=0.7, ring_gap=4e-6, valve_face_gap=2e-6, gland_gap=5e-6, wall_heat="usual"),
)
_AIR = Conditions(
    fluid="air", supply=ATMOSPHERE + 2e5, exhaust=ATMOSPHERE, speed=600 * pi / 30, supply_temperature=SHOP
)
_STEAM = replace(_AIR, fluid="steam", supply=ATMOSPHERE + 3e5, supply_temperature=None, dryness=0.98)
CASES = {
    "air, ideal": replace(_AIR, ideal=True),
    "air, leaks and heat": _AIR,
    "steam, ideal": replace(_STEAM, ideal=True),
    "steam, leaks and heat": _STEAM,
}

March = Callable[[Floats, Floats, Floats, Floats], int]


def measure() -> Iterator[Ratio]:
    """Time against C, then exactness, then whole processes."""
    if shutil.which("cc") is None:
        print("a cylinder against C: there is no C compiler by the name of cc")
    else:
        with tempfile.TemporaryDirectory(prefix="lapwright-bench-") as folder:
            theirs = build_march(Path(folder))
        for steps in (FINE_STEPS, QUICK_STEPS):
            for case, told in CASES.items():
                yield time_both(f"{case}, {steps} steps", Job(told, steps), theirs)
    for steps in (FINE_STEPS, QUICK_STEPS):
        error = find_worst_error(steps)
        print(f"mean effective pressure by {steps} steps: wrong by {error:.0e} of the drop of pressure at most")
        yield Ratio(f"mean effective pressure by {steps} steps, error", 100 * error, 0.1, " %")
    yield from time_first_answer()


# --- the two programs ---


@dataclass(frozen=True)
class Job:
    """A cylinder packed for some turns, as both programs are handed it."""

    told: Conditions
    steps: int

    def pack(self, *, turns: int = TURNS, tolerance: float = 0.0) -> Pack:
        pack = pack_cylinder(SETUP, self.told, steps=self.steps, tolerance=tolerance)
        pack.cell[layout.MOST_TURNS] = turns
        return pack

    def find_mean_pressures(self, pack: Pack, march_turns: March) -> np.ndarray:
        """Mean effective pressure of both ends over the last turn [Pa]."""
        out = np.zeros((len(pack.angles), layout.OUT))
        march_turns(pack.cell.copy(), steam.draw_table(), pack.turn, out)
        shares = out[:, layout.OUT_SHARE]
        swellings = pack.turn[:, [layout.SWELL_HEAD, layout.SWELL_CRANK]]
        works = shares @ (out[:, layout.OUT_P : layout.OUT_P + 2] * swellings)
        return np.asarray(works / np.array(list(pack.swept.values())))


def run_ours(cell: Floats, table: Floats, turn: Floats, out: Floats) -> int:
    """The kernels."""
    return march.march(cell, table, turn, out)[0]


def build_march(folder: Path) -> March:
    """The C program, compiled with every optimisation that keeps to the rules of arithmetic."""
    (folder / "places.h").write_text("\n".join(write_places()) + "\n", encoding="utf-8")
    library = folder / "cycle.so"
    source = Path(__file__).parent / "cycle.c"
    flags = ["-O3", "-march=native", "-shared", "-fPIC", "-I", str(folder)]
    subprocess.run(["cc", *flags, "-o", library, source, "-lm"], check=True)
    program = ctypes.CDLL(str(library))
    program.march.restype = ctypes.c_long

    def run_theirs(cell: Floats, table: Floats, turn: Floats, out: Floats) -> int:
        at = [ctypes.c_void_p(array.ctypes.data) for array in (cell, table, turn, out)]
        return int(program.march(at[0], at[1], at[2], ctypes.c_long(len(turn)), at[3]))

    return run_theirs


def write_places() -> Iterator[str]:
    """The places in the arrays and the figures of the model as a C header: they stand once, in the kernels' modules."""
    places = {name: value for name, value in vars(layout).items() if name.isupper() and isinstance(value, int)}
    stretches = {"ROWS": steam._ROWS, "COLUMNS": steam._COLUMNS, "CURVE": steam._CURVE, "CURVES": steam._CURVES}
    more = {"CORNER": steam._CORNER, "SURFACE": steam._SURFACE, "ROUNDS": stage.ROUNDS, "PATIENCE": alone._PATIENCE}
    places |= {**stretches, **more, "MOST_WAYS": layout.WAYS_AT.shape[1]}
    yield "enum { " + ", ".join(f"{name} = {value}" for name, value in places.items()) + " };"
    figures = {name: getattr(balance, name) for name in ("FINE", "DAMP", "FULLY_DRY", "SAME_EXPONENT", "WATER")}
    figures |= {"LOWEST": steam.LOWEST, "HIGHEST": steam.HIGHEST, "LOW": steam._LOW, "CURVE_STEP": steam._CURVE_STEP}
    figures |= {"COLUMN_STEP": steam._COLUMN_STEP, "SMALL_DROP": flow.SMALL_DROP, "GAMMA": layout.GAMMA, "PI": pi}
    figures |= {"RUSHED": march.RUSHED, "BIGGEST_MOVE": march._BIGGEST_MOVE, "BOLDEST": stage.BOLDEST}
    for name, figure in figures.items():
        yield f"static const double {name} = {figure!r};"
    for name in ("WAY_FROM", "WAY_TO", "WAYS_AT", "THERE_AT"):
        table = getattr(layout, name)
        sizes = "".join(f"[{size}]" for size in table.shape)
        yield f"static const int {name}{sizes} = {{{', '.join(map(str, table.ravel()))}}};"


def time_both(what: str, job: Job, theirs: March) -> Ratio:
    """Both programs in turn, the least of many times each; they have to agree first."""
    pack = job.pack()
    ours, other = (job.find_mean_pressures(pack, program) for program in (run_ours, theirs))
    np.testing.assert_allclose(other, ours, rtol=NEAR)
    taken = [(clock(run_ours, pack), clock(theirs, pack)) for _ in range(REPEATS)]
    mine, plain = (1e3 * min(column) for column in zip(*taken, strict=True))
    apart = float(np.max(np.abs(other / ours - 1)))
    print(f"{what}: {TURNS} turns in {mine:.3f} ms, in C {plain:.3f} ms; they differ by {apart:.0e}")
    return Ratio(f"a cylinder, {what}: time / C", mine / plain, 1.3)


def clock(program: March, pack: Pack) -> float:
    """Seconds of one solution, from the same start."""
    cell, out = pack.cell.copy(), np.empty((len(pack.angles), layout.OUT))
    table = steam.draw_table()
    start = time.perf_counter()
    turns = program(cell, table, pack.turn, out)
    taken = time.perf_counter() - start
    assert turns == TURNS, "the ends of a stage did not agree"
    return taken


# --- exactness ---


def find_worst_error(steps: int) -> float:
    """The largest share by which few steps miss the mean effective pressure that many give, of all cases and speeds."""
    worst = 0.0
    for told in CASES.values():
        for rpm in SPEEDS:
            few, many = (
                job.find_mean_pressures(job.pack(turns=60, tolerance=1e-7), run_ours)
                for job in (Job(replace(told, speed=rpm * pi / 30), count) for count in (steps, MANY_STEPS))
            )
            worst = max(worst, float(np.max(np.abs(few - many)) / (told.supply - told.exhaust)))
    return worst


# --- whole processes ---


def time_first_answer() -> Iterator[Ratio]:
    """A new process that runs one cylinder, its kernels compiled before; and what compiling them costs once."""
    cold = time_process(ANSWER.format(case="steam, ideal"), cold=True)
    print(f"the first answer after installation, everything compiled: {cold:.1f} s")
    for case in ("air, leaks and heat", "steam, leaks and heat"):
        line = ANSWER.format(case=case)
        time_process(line)
        taken = [(time_process(line), time_process("import numpy")) for _ in range(FRESH)]
        first, numpy_alone = (median(column) for column in zip(*taken, strict=True))
        print(f"the first answer of a new process, {case}: {first / numpy_alone:.1f} times python -c 'import numpy'")
        yield Ratio(f"the first answer of a new process, {case}", first, SOON, " s")


def time_process(line: str, *, cold: bool = False) -> float:
    """Seconds of a new interpreter that does one thing; `cold` from a copy of the package that has compiled nothing."""
    root = Path(__file__).parents[1]
    with tempfile.TemporaryDirectory(prefix="lapwright-bench-") as folder:
        if cold:
            shutil.copytree(SOURCE, Path(folder) / "src", ignore=shutil.ignore_patterns("__pycache__"))
        path = [str(Path(folder) / "src")] if cold else []
        put_first = f"import sys; sys.path[:0] = {[*path, str(root)]!r}\n"
        start = time.perf_counter()
        subprocess.run([sys.executable, "-c", put_first + line], check=True, stdout=subprocess.DEVNULL)
        return time.perf_counter() - start
