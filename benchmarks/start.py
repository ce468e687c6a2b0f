"""How long the program takes to start and to answer, against what it stands on."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from benchmarks.ratio import Ratio

REPEATS = 15
PROGRAM = str(Path(sys.executable).parent / "lapwright")
#: Look-ups of the workshop tables as a person types them.
LOOK_UPS = (
    ("thread", "4BA"),
    ("drill", "4BA"),
    ("gland", "--rod", "4 mm", "--bore", "8 mm"),
    ("rethread", "4BA", "3BA"),
    ("torque", "4BA"),
    ("fit", "6 mm"),
)
RECORD = str(Path(__file__).parents[1] / "examples" / "tern.toml")


def measure() -> Iterator[Ratio]:
    """Whole processes, taken in turn so that a busy machine is busy for all of them."""
    with tempfile.TemporaryDirectory() as folder:
        card = os.path.join(folder, "card.pdf")
        words = {
            "bare": [sys.executable, "-c", "pass"],
            "numpy": [sys.executable, "-c", "import numpy"],
            "typer": [sys.executable, "-c", "import typer"],
            "import": [sys.executable, "-c", "import lapwright"],
            "help": [PROGRAM, "--help"],
            "examine": [PROGRAM, "examine", RECORD],
            "card": [PROGRAM, "examine", RECORD, "--card", card],
            **{line[0]: [PROGRAM, *line] for line in LOOK_UPS},
        }
        taken: dict[str, list[float]] = {name: [] for name in words}
        for _ in range(REPEATS):
            for name, line in words.items():
                taken[name].append(run(line))
    seconds = {name: median(times) for name, times in taken.items()}
    yield Ratio("import lapwright, beyond bare Python", 1e3 * (seconds["import"] - seconds["bare"]), 10, " ms")
    yield Ratio("lapwright --help / python -c 'import typer'", seconds["help"] / seconds["typer"], 1.5)
    yield Ratio("lapwright examine / python -c 'import numpy'", seconds["examine"] / seconds["numpy"], 4)
    yield Ratio("lapwright examine --card", seconds["card"], 2, " s")
    for name, *_ in LOOK_UPS:
        yield Ratio(f"lapwright {name} / lapwright --help", seconds[name] / seconds["help"], 1.5)


def run(line: list[str]) -> float:
    """Seconds of one process."""
    start = time.perf_counter()
    subprocess.run(line, check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start
