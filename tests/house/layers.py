"""Who may import whom, and what each room may reach outside the house: the table, and how code is held against it.

ARCHITECTURE.md says why the arrows point as they do.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator

from tests.house.reading import Module

_GROUND = {"quantities", "sources"}
_MACHINE = {"motion", "medium", "engine", *_GROUND}
_FINDINGS = {"cycle", "survey", "workshop", "tables", *_MACHINE}
_PAPERS = {"cures", "findings", "plant", *_FINDINGS}
_BELOW_JOB = {"papers", "logbook", "record", *_PAPERS}

#: The rooms by rank, each with the rooms it may import besides `errors` and itself.
ROOMS: dict[str, tuple[int, set[str]]] = {
    "errors": (0, set()),
    "__init__": (0, set()),
    "quantities": (0, set()),
    "sources": (0, set()),
    "engine": (1, _GROUND),
    "medium": (1, _GROUND),
    "tables": (1, _GROUND),
    # A thread in a record is one of the tables'.
    "record": (2, {"engine", "tables", *_GROUND}),
    "motion": (2, {"engine", *_GROUND}),
    "workshop": (2, {"engine", "medium", "tables", *_GROUND}),
    "plant": (2, {"engine", "medium", "tables", *_GROUND}),
    "cycle": (3, _MACHINE),
    "survey": (3, {"motion", "engine", *_GROUND}),
    "logbook": (3, {"record", "engine", "quantities"}),
    "findings": (4, _FINDINGS),
    "cures": (5, {"findings", *_FINDINGS}),
    "papers": (6, _PAPERS),
    "job": (7, _BELOW_JOB),
    "bench": (8, {"job", "record", "quantities", "papers"}),
    # The command that opens the bench starts it, and nothing else of the terminal knows it.
    "cli": (9, {"job", "quantities", "bench"}),
    "__main__": (10, {"cli"}),
}

#: Modules from outside the house, and the rooms (or single modules) in which they may be used.
OUTSIDE: dict[str, set[str]] = {
    "typer": {"cli"},
    "click": {"cli"},
    "rich": {"cli"},
    "argparse": {"cli"},
    "typst": {"papers"},
    "font_source_sans_pro": {"papers"},
    "tomllib": {"record", "bench.texts"},
    "csv": {"tables", "job"},
    "sqlite3": {"logbook"},
    "PIL": {"logbook"},
    "starlette": {"bench"},
    "jinja2": {"bench"},
    "uvicorn": {"bench"},
    "h11": {"bench"},
    "websockets": {"bench"},
    "zipfile": {"job"},
    "segno": {"bench"},
    "numpy": {"motion.many", "motion.ways", "medium", "cycle"},
    # One module compiles, so that compiled code is kept in one way.
    "numba": {"medium.compiling"},
    "pyarrow": {"job.sweep.table"},
    "distributed": {"job.sweep.cluster"},
    "http": {"bench"},
    "socket": {"bench"},
    "urllib": {"bench"},
    "webbrowser": {"bench", "cli"},
    "subprocess": set(),
}

#: From this rank on a room may know the clock, draw lots and print.
FRONT_RANK = 7
CLOCK_AND_LOTS = {"time", "datetime", "random", "secrets"}
#: Reads times that were written down before; the clock itself it may not ask.
TIME_MODULES = {"lapwright.logbook.times"}
CLOCK_CALLS = {"now", "utcnow", "today"}
FILE_ROOMS = {"record", "tables", "logbook", "papers", "job"}
#: One reads the sources of the kernels, to know whether the compiled code kept on disk is still theirs; the other the
#: words of the bench's pages, which lie beside it.
FILE_MODULES = {"lapwright.medium.compiling", "lapwright.bench.texts"}
FILE_CALLS = {
    "open", "read_text", "read_bytes", "write_text", "write_bytes", "mkdir", "touch", "unlink", "rename", "rmdir",
    "mkstemp", "fdopen", "NamedTemporaryFile", "TemporaryDirectory", "files", "as_file",
}  # fmt: skip


def find_breaches(module: Module) -> Iterator[str]:
    """Say everything in a module that its room may not do."""
    rank, allowed = ROOMS[module.room]
    for name, line in module.imports():
        if name.partition(".")[0] == "lapwright":
            room = [*name.split("."), "__init__"][1]
            if room not in allowed | {module.room, "errors"}:
                yield f"{module.name}:{line} imports {name}, but {module.room} may not import {room}"
        else:
            yield from _outside_breach(module, name, line)
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Call | ast.Attribute):
            yield from _act_breach(module, node, rank)


def _outside_breach(module: Module, name: str, line: int) -> Iterator[str]:
    package = name.partition(".")[0]
    places = OUTSIDE.get(package)
    if places is None and package not in sys.stdlib_module_names:
        yield f"{module.name}:{line} imports {package}, which has no place in the house"
    if places is not None and module.room not in places and module.name.removeprefix("lapwright.") not in places:
        yield f"{module.name}:{line} imports {package}, which belongs in {', '.join(sorted(places)) or 'no room'}"
    written_times = package == "datetime" and module.name in TIME_MODULES
    if package in CLOCK_AND_LOTS and not written_times and ROOMS[module.room][0] < FRONT_RANK:
        yield f"{module.name}:{line} imports {package}: time and seed are arguments below rank {FRONT_RANK}"


def _act_breach(module: Module, node: ast.Call | ast.Attribute, rank: int) -> Iterator[str]:
    where = f"{module.name}:{node.lineno}"
    if isinstance(node, ast.Attribute):
        if rank < FRONT_RANK and ast.unparse(node) in {"sys.stdout", "sys.stderr", "sys.stdin"}:
            yield f"{where} uses {ast.unparse(node)} below rank {FRONT_RANK}"
        return
    called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if called in {"print", "input"} and rank < FRONT_RANK:
        yield f"{where} calls {called}() below rank {FRONT_RANK}"
    if called in CLOCK_CALLS and module.name in TIME_MODULES:
        yield f"{where} calls {called}(): time and seed are arguments below rank {FRONT_RANK}"
    if called in FILE_CALLS and module.room not in FILE_ROOMS and module.name not in FILE_MODULES:
        yield f"{where} calls {called}(): files are opened in {', '.join(sorted(FILE_ROOMS))} only"
