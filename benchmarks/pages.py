"""How soon the bench is ready, and what a long log costs its pages."""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing
from http.client import HTTPConnection
from pathlib import Path
from statistics import median

from benchmarks.bench_process import EXAMPLES, ask, call, lay_out_demo, open_bench
from benchmarks.long_log import COMMON, FEW, MANY, PHRASE, RARE, fill_log
from benchmarks.ratio import Ratio
from benchmarks.start import run

ROUNDS, ANSWERS = 11, 41
#: The first is nearly Python alone; the second loads what a server with pages and a command line cannot do without.
STARLETTE = "import starlette"
ALL_IT_STANDS_ON = "import typer, starlette.applications, jinja2, uvicorn, sqlite3"
ENGINES = sorted(record.stem for record in EXAMPLES.glob("*.toml"))
#: The pages that read the log. The entry at which a second page begins is put into `{older}`.
PAGES = {
    "shelf": "/",
    "log": "/log",
    "log of an engine": "/engine/tern/log",
    "a common word": f"/log?words={COMMON}",
    "a rare word": f"/log?words={RARE}",
    "two words": f"/log?words={PHRASE.replace(' ', '+')}",
    "the beginning of a word": f"/log?words={COMMON[0]}",
    "a word nowhere": "/log?words=xylophone",
    "a word within an engine": f"/engine/tern/log?words={COMMON}",
    "a rare word within an engine": f"/engine/tern/log?words={RARE}",
    "a kind": "/log?kind=run",
    "a word within a kind": f"/log?kind=run&words={COMMON}",
    "a word in open jobs": f"/log?open=1&words={COMMON}",
    "open jobs": "/log?open=1",
    "the next page": "/log?before={older}",
    "the next page of a word": f"/log?before={{older}}&words={COMMON}",
    "the list alone": f"/log?part=list&words={COMMON}",
}


def measure() -> Iterator[Ratio]:
    """One workshop with few entries, and one with many."""
    with tempfile.TemporaryDirectory() as folder:
        few, many = Path(folder, "few"), Path(folder, "many")
        for place, entries in ((few, FEW), (many, MANY)):
            fill_log(lay_out_demo(place), ENGINES, entries=entries)
        yield from measure_ready(many)
        yield from measure_long_log(few, many)


def measure_ready(many: Path) -> Iterator[Ratio]:
    """Whole processes, taken in turn so that a busy machine is busy for all of them."""
    bare: dict[str, list[float]] = {line: [] for line in (STARLETTE, ALL_IT_STANDS_ON)}
    taken: dict[str, list[tuple[float, float]]] = {"bench": [], f"bench with {MANY} entries": []}
    for _ in range(ROUNDS):
        for line, seconds in bare.items():
            seconds.append(run([sys.executable, "-c", line]))
        with tempfile.TemporaryDirectory() as demo:
            for times, folder in zip(taken.values(), (lay_out_demo(Path(demo)), many), strict=True):
                times.append(wait_ready(folder))
    for name, times in taken.items():
        told, answered = (median(column) for column in zip(*times, strict=True))
        for line, seconds in bare.items():
            yield Ratio(f"{name}, address told / {line}", told / median(seconds), 5)
            yield Ratio(f"{name}, page answered / {line}", answered / median(seconds), 5)


def wait_ready(folder: Path) -> tuple[float, float]:
    """Seconds from the start of the bench until it tells its address, and until it has answered with its shelf."""
    start = time.perf_counter()
    with open_bench(folder) as address:
        told = time.perf_counter() - start
        with closing(call(address)) as line:
            ask(line, "/")
        return told, time.perf_counter() - start


def measure_long_log(few: Path, many: Path) -> Iterator[Ratio]:
    """Two benches at once, asked in turn for the same page."""
    with ExitStack() as stack:
        lines = [stack.enter_context(closing(call(stack.enter_context(open_bench(folder))))) for folder in (few, many)]
        # A few entries have no second page: all but the newest stand for it.
        older = (FEW, MANY // 2)
        for name, path in PAGES.items():
            asked = [ask_for(line, path.format(older=number)) for line, number in zip(lines, older, strict=True)]
            taken: list[list[float]] = [[], []]
            for _ in range(ANSWERS):
                for times, page in zip(taken, asked, strict=True):
                    times.append(page())
            ratio = median(taken[1]) / median(taken[0])
            yield Ratio(f"{name}: {MANY} entries / {FEW} entries", ratio, 3)


def ask_for(line: HTTPConnection, path: str) -> Callable[[], float]:
    """Make a call that asks for a page and tells the seconds; asked once before, so that nothing is new to it."""

    def page() -> float:
        start = time.perf_counter()
        ask(line, path)
        return time.perf_counter() - start

    page()
    return page


if __name__ == "__main__":
    for ratio in measure():
        print(ratio, flush=True)
