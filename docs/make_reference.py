"""Write the reference pages from the program itself: `make docs`.

The commands come from the command line's own description, the record from its table of keys, the codes from the code.
"""

from __future__ import annotations

import ast
import inspect
import json
import pkgutil
import re
from collections.abc import Callable, Iterable
from importlib import import_module
from pathlib import Path
from typing import Any

import typer

import lapwright
from docs.look_ups import LOOK_UPS, READING
from docs.meanings import CALIBRATION, CURES, FINDINGS, PROBLEMS, RESULTS, RUN, START
from lapwright.cli import app
from lapwright.engine.engine import FLUIDS
from lapwright.engine.running import assume_running
from lapwright.engine.sizes import Assumed
from lapwright.errors import BadInput
from lapwright.findings.finding import CODES, PART_CODES
from lapwright.record import read_record, record_schema
from lapwright.record.key import Key
from lapwright.record.keys import TABLES, show_heading
from lapwright.record.words import read_format
from lapwright.tables.drills import list_drills
from lapwright.tables.materials import list_metals
from lapwright.tables.threads import SERIES, list_threads
from lapwright.workshop.drawers import DRAWERS, name_drill
from lapwright.workshop.packing_choice import MATERIALS
from lapwright.workshop.screws import COEFFICIENTS, SCREWS
from lapwright.workshop.tapping import TARGETS

REFERENCE = Path(__file__).parent / "reference"
#: What the record room calls to note a problem: the code comes first.
NOTING = {"add", "strike", "fail", "_fail", "Problem"}
CODE = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
MADE = "<!-- written by `make docs`; change the program, not this page -->"


def make_commands_page() -> str:
    """The commands with their arguments and options, as `--help` knows them."""
    group = typer.main.get_command(app)
    parts = ["# Commands", MADE, _sentence(group.help)]
    for name, command in sorted(getattr(group, "commands", {}).items()):
        parts += [f"## lapwright {name}", _paragraphs(command.help)]
        rows = [_parameter_row(parameter) for parameter in command.params if not getattr(parameter, "hidden", False)]
        parts.append(_table(("", "what it does", "left out"), rows) if rows else "It takes no options.")
    return _page(parts)


def _parameter_row(parameter: Any) -> tuple[str, str, str]:
    option = parameter.param_type_name == "option"
    names = ", ".join(f"`{name}`" for name in (*parameter.opts, *parameter.secondary_opts))
    name = names if option else f"`{parameter.metavar or parameter.name.upper()}`"
    silent = parameter.default in (None, False, "") or callable(parameter.default)
    left_out = "must be given" if parameter.required else "" if silent else f"`{parameter.default}`"
    return name, _sentence(getattr(parameter, "help", "")), left_out


def make_record_page() -> str:
    """Every key of the record, its meaning and how it may be written."""
    parts = [
        "# The engine record",
        MADE,
        "A text file in TOML, format 1. Every length, angle and pressure is text with its unit, and may have a doubt:",
        '`"12.7 ± 0.02 mm"`, `"12.7 +0.02 -0.01 mm"`, `"3/4 in"`',
        "A coefficient has no unit, and may stand without quotation marks.",
        "A key may be left out. The last column says what is then taken; where it is empty the figure is not known, "
        "and an answer that wants it says so. For editors the same stands in [record.schema.json](record.schema.json).",
    ]
    taken = find_taken()
    for table, keys in TABLES.items():
        rows = [(f"`{name}`", key.about, _written(key), taken.get(f"{table}.{name}", "")) for name, key in keys.items()]
        heading = "At the top" if not table else f"`{show_heading(table)}`"
        parts += [f"## {heading}", _table(("key", "meaning", "written", "left out"), rows)]
    return _page(parts)


def _written(key: Key) -> str:
    if key.words:
        return ", ".join(f'`"{word}"`' for word in key.words)
    if key.read is read_format or key.is_number:
        return f"`{key.example}`"
    return f'{key.count} times the like of `"{key.example}"`' if key.count else f'`"{key.example}"`'


def find_taken() -> dict[str, str]:
    """What is taken for each key that is left out, by asking the reader about a record that leaves out all it can."""
    opened = read_record(b'format = 1\n[engine]\nname = "Tern"\n[[cylinder]]\n[[cylinder]]\n')
    if opened.engine is None:
        raise ValueError("the reader made nothing of a record without sizes")
    sizes = opened.engine.cylinders[-1]
    words = {"valve.kind": sizes.kind, "valve.admission": sizes.admission, "valve_drive.rocker": sizes.rocker}
    figures = {key: f"{sizes.numbers[key]:g}" for key in sizes.assumed}
    taken = {f"cylinder.{key}": value for key, value in {**figures, **words}.items()}
    told = (item for fluid in FLUIDS for item in assume_running(opened.engine, fluid=fluid, stroke=1.0)[1])
    pipes = {f"running.{pipe}_bore": "the pipe holds nothing back" for pipe in ("supply", "exhaust")}
    return {**taken, **pipes, **{item.key: _show_taken(item) for item in told}}


def _show_taken(item: Assumed) -> str:
    """What is taken, and why; the flywheel's figure hangs on the stroke and is left off."""
    why = item.because.removeprefix("not given: ").removeprefix("no load given: ")
    return why if item.key == "running.flywheel_inertia" else f"{item.value}: {why}"


def make_schema() -> str:
    """The JSON Schema of the record, for editors."""
    return json.dumps(record_schema(), indent=2, ensure_ascii=False) + "\n"


def make_problems_page() -> str:
    """Problem codes, finding codes and errors, each with its meaning."""
    errors = [(f"`{kind.__name__}`", f"`{_code(kind)}`", _phrase(inspect.getdoc(kind))) for kind in list_errors()]
    return _page(
        [
            "# Problems, findings, cures, errors",
            MADE,
            "Codes are stable: scripts may rest on them.",
            "## Problems of a record",
            "A flawed record is read as far as it goes; a problem tells its line, its key and what to write instead.",
            _table(("code", "meaning"), [(f"`{code}`", meaning) for code, meaning in sorted(list_problems().items())]),
            "## Findings",
            "What is wrong with the engine, worst first; a finding that follows from another is named as its effect.",
            _table(("code", "meaning"), [(f"`{code}`", FINDINGS[code]) for code in (*CODES, *PART_CODES)]),
            "## Cures",
            "A cure of several jobs has their codes with a `+` between.",
            _table(("code", "what is done"), [(f"`{code}`", meaning) for code, meaning in sorted(CURES.items())]),
            "## Errors of the library",
            "Each carries a sentence for the person at the bench and, where there is one, the better way.",
            _table(("error", "code", "meaning"), errors),
        ]
    )


def list_modules() -> list[str]:
    """Every module of the package but the one that runs it."""
    found = pkgutil.walk_packages(lapwright.__path__, "lapwright.")
    return [module.name for module in found if not module.name.endswith("__main__")]


def list_errors() -> list[type[Exception]]:
    """Every error class of the package, by name."""
    kinds = {
        value
        for name in list_modules()
        for value in vars(import_module(name)).values()
        if isinstance(value, type) and issubclass(value, Exception) and value.__module__.startswith("lapwright.")
    }
    return sorted(kinds, key=lambda kind: kind.__name__)


def _code(kind: type[Exception]) -> str:
    return str(getattr(kind, "code", "-"))


def list_problems() -> dict[str, str]:
    """Every code that a problem of a record can have, with its meaning."""
    kinds = [kind for kind in list_errors() if issubclass(kind, BadInput) and kind is not BadInput]
    refusals = {_code(kind): _phrase(inspect.getdoc(kind)) for kind in kinds}
    return {code: PROBLEMS.get(code) or refusals[code] for code in (*find_problem_codes(), *refusals)}


def find_problem_codes() -> set[str]:
    """The codes that stand as plain text where the record room notes a problem."""
    folder = Path(inspect.getfile(lapwright)).parent / "record"
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in sorted(folder.glob("*.py"))]
    return {code for tree in trees for node in ast.walk(tree) if (code := _noted_code(node))}


def _noted_code(node: ast.AST) -> str:
    """The code in a call that notes a problem, or in a row of the table of what the reader of TOML says."""
    texts: list[str] = []
    if isinstance(node, ast.Call) and ast.unparse(node.func).rpartition(".")[2] in NOTING:
        texts = _texts(node.args[:1])
    elif isinstance(node, ast.Tuple) and len(_texts(node.elts)) == len(node.elts) == 4:
        texts = _texts(node.elts[1:2])
    return texts[0] if texts and CODE.fullmatch(texts[0]) else ""


def _texts(nodes: Iterable[ast.expr]) -> list[str]:
    return [node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)]


def make_results_page() -> str:
    """The fields of the JSON that the commands print."""
    head = ("field", "unit", "meaning")
    listed = (RESULTS, RUN, START, CALIBRATION)
    tables = [_table(head, [(f"`{path}`", *told) for path, told in fields.items()]) for fields in listed]
    return _page(
        [
            "# Results",
            MADE,
            "With `--json` a command prints one object. Angles are degrees of crank turn, lengths mm.",
            "END stands for `head` and `crank`, EVENT for `admission`, `cut_off`, `release` and `compression`, "
            "NAME for a name that differs.",
            "A list is empty where an event does not happen; null is what the sizes do not tell.",
            "## lapwright examine RECORD --json",
            tables[0],
            "## lapwright run RECORD --json",
            "Of a record with errors only `format`, `engine`, `problems` and no cylinder are told, by `start` too.",
            tables[1],
            "## lapwright start RECORD --json",
            tables[2],
            "## lapwright calibrate RECORD --json",
            tables[3],
        ]
    )


def make_look_ups_page() -> str:
    """How the look-ups read names, and the fields of the JSON that they print."""
    parts = [
        "# Look-ups",
        MADE,
        "Six commands answer from tables, without a record: `thread`, `drill`, `gland`, `rethread`, `torque`, `fit`. "
        "Their options stand under [commands](commands.md).",
    ]
    lists = list_known_names()
    for heading, paragraphs in READING.items():
        parts += [f"## {heading}", *(re.sub(r"<(\w+)>", lambda found: lists[found[1]], text) for text in paragraphs)]
    parts.append(
        "## What they print with `--json`\n\nOne object. NAME stands for a name that differs; null is what is not "
        "known or does not apply, and where a whole part is null, the fields under it are not there."
    )
    for asked, fields in LOOK_UPS.items():
        rows = [(f"`{path}`", *told) for path, told in fields.items()]
        parts += [f"### lapwright {asked} --json", _table(("field", "unit", "meaning"), rows)]
    return _page(parts)


def list_known_names() -> dict[str, str]:
    """The names that the look-ups know, as the program lists them, by the word that stands for each list."""
    series = [(name, list_threads(name)) for name in SERIES]
    drills = [(name, list_drills(name)) for name in DRAWERS["all"]]
    metals = list_metals().values()
    return {
        "series": _table(
            ("series", "form", "threads", "from", "to"),
            [(name, rows[0].form, str(len(rows)), rows[0].name, rows[-1].name) for name, rows in series],
        ),
        "metals": _table(
            ("metal", "also", "condition"), [(metal.name, ", ".join(metal.also), metal.condition) for metal in metals]
        ),
        "tapped": ", ".join(TARGETS),
        "screws": ", ".join(SCREWS),
        "conditions": ", ".join(COEFFICIENTS),
        "drawers": ", ".join(f"`{name}`" for name in DRAWERS),
        "drills": ", ".join(
            f"{len(rows)} {name} drills from {name_drill(rows[0])} to {name_drill(rows[-1])}" for name, rows in drills
        ),
        "count": str(len(MATERIALS)),
        "packings": ", ".join(MATERIALS),
    }


def _table(head: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join(f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in line)} |" for line in lines)


def _sentence(text: str | None) -> str:
    return " ".join((text or "").split("\n\n")[0].split())


def _phrase(text: str | None) -> str:
    sentence = _sentence(text).removesuffix(".")
    return sentence[:1].lower() + sentence[1:]


def _paragraphs(text: str | None) -> str:
    return "\n\n".join(" ".join(part.split()) for part in inspect.cleandoc(text or "").split("\n\n"))


def _page(parts: Iterable[str]) -> str:
    return "\n\n".join(part for part in parts if part) + "\n"


PAGES: dict[str, Callable[[], str]] = {
    "commands.md": make_commands_page,
    "look-ups.md": make_look_ups_page,
    "problems.md": make_problems_page,
    "record.md": make_record_page,
    "record.schema.json": make_schema,
    "results.md": make_results_page,
}


def write_pages() -> None:
    """Write every page anew."""
    REFERENCE.mkdir(exist_ok=True)
    for name, make in PAGES.items():
        (REFERENCE / name).write_text(make(), encoding="utf-8")


if __name__ == "__main__":
    write_pages()
