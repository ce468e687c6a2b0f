"""Write the reference pages from the program itself: `make docs`.

The commands come from the command line's own description, the record from its schema, the codes from the code.
"""

from __future__ import annotations

import ast
import inspect
import pkgutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any

import typer

import lapwright
from docs.meanings import FINDINGS, PROBLEMS, RESULTS
from lapwright.cli import app
from lapwright.errors import BadInput
from lapwright.findings.finding import CODES
from lapwright.record.schema import record_schema

REFERENCE = Path(__file__).parent / "reference"
MADE = "<!-- written by `make docs`; change the program, not this page -->"


def make_commands_page() -> str:
    """The commands with their arguments and options, as `--help` knows them."""
    group = typer.main.get_command(app)
    parts = ["# Commands", MADE, _sentence(group.help)]
    for name, command in sorted(getattr(group, "commands", {}).items()):
        parts += [f"## lapwright {name}", _paragraphs(command.help)]
        rows = [_parameter_row(parameter) for parameter in command.params if not getattr(parameter, "hidden", False)]
        parts.append(_table(("", "what it does", "left out"), rows))
    return _page(parts)


def _parameter_row(parameter: Any) -> tuple[str, str, str]:
    option = parameter.param_type_name == "option"
    names = ", ".join(f"`{name}`" for name in (*parameter.opts, *parameter.secondary_opts))
    name = names if option else f"`{parameter.metavar or parameter.name.upper()}`"
    silent = parameter.default is None or parameter.default is False or callable(parameter.default)
    left_out = "must be given" if parameter.required else "" if silent else f"`{parameter.default}`"
    return name, _sentence(getattr(parameter, "help", "")), left_out


def make_record_page() -> str:
    """Every key of the record, its meaning and how it may be written."""
    schema = record_schema()
    parts = ["# The engine record", MADE, _sentence(schema.get("description"))]
    for path, table in _walk_tables(schema, schema, ()):
        rows = [
            (f"`{key}`", _resolve(schema, field).get("description", ""), _ways(_resolve(schema, field)))
            for key, field in table["properties"].items()
            if not _is_table(_resolve(schema, field))
        ]
        parts += [
            f"## {_header(path)}",
            _sentence(table.get("description")),
            _table(("key", "meaning", "written"), rows),
        ]
    return _page(parts)


def _walk_tables(schema: Mapping[str, Any], table: Mapping[str, Any], path: tuple[str, ...]) -> Iterator[Any]:
    yield path, table
    for key, field in table["properties"].items():
        resolved = _resolve(schema, field)
        if resolved.get("type") == "array" and _is_table(_resolve(schema, resolved["items"])):
            yield from _walk_tables(schema, _resolve(schema, resolved["items"]), (*path, f"[{key}]"))
        elif _is_table(resolved):
            yield from _walk_tables(schema, resolved, (*path, key))


def _resolve(schema: Mapping[str, Any], field: Mapping[str, Any]) -> Mapping[str, Any]:
    """A field with its reference followed and its "or nothing" taken away, keeping its own description."""
    kept = {key: value for key, value in field.items() if key not in {"$ref", "anyOf", "allOf"}}
    inner = next((way for way in field.get("anyOf", field.get("allOf", ())) if way.get("type") != "null"), field)
    if "$ref" in inner:
        inner = schema["$defs"][inner["$ref"].rpartition("/")[2]]
        return {**kept, **inner}
    return {**inner, **kept}


def _is_table(field: Mapping[str, Any]) -> bool:
    return "properties" in field or (field.get("type") == "array" and "$ref" in field.get("items", {}))


def _header(path: tuple[str, ...]) -> str:
    if not path:
        return "At the top"
    name = ".".join(part.strip("[]") for part in path)
    return f"`[[{name}]]`" if path[-1].startswith("[") else f"`[{name}]`"


def _ways(field: Mapping[str, Any]) -> str:
    if "const" in field:
        return f"`{field['const']}`"
    if "enum" in field:
        return ", ".join(f'`"{word}"`' for word in field["enum"])
    if field.get("type") == "array":
        return f"a list of {field['minItems']}, each {_ways(field['items'])}"
    return ", ".join(f'`"{example}"`' for example in field.get("examples", ())) or "text"


def make_problems_page() -> str:
    """Problem codes, finding codes and errors, each with its meaning."""
    errors = [(f"`{kind.__name__}`", f"`{_code(kind)}`", _sentence(inspect.getdoc(kind))) for kind in list_errors()]
    return _page(
        [
            "# Problems, findings, errors",
            MADE,
            "Codes are stable: scripts may rest on them.",
            "## Problems of a record",
            "A flawed record is read as far as it goes; a problem tells its line, its key and what to write instead.",
            _table(("code", "meaning"), [(f"`{code}`", meaning) for code, meaning in sorted(list_problems().items())]),
            "## Findings",
            "What is wrong with the engine, worst first; a finding that follows from another is named as its effect.",
            _table(("code", "meaning"), [(f"`{code}`", FINDINGS[code]) for code in CODES]),
            "## Errors of the library",
            "The first sentence of each is meant for the person at the bench.",
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
    refusals = {_code(kind): _sentence(inspect.getdoc(kind)) for kind in list_errors() if issubclass(kind, BadInput)}
    return {code: PROBLEMS.get(code) or refusals[code] for code in (*find_problem_codes(), *refusals)}


def find_problem_codes() -> set[str]:
    """The codes that stand as plain text where the record room notes a problem."""
    folder = Path(str(inspect.getfile(lapwright))).parent
    codes = set()
    for path in sorted((folder / "record").glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Call)
                and ast.unparse(node.func).rpartition(".")[2] in {"add", "Problem"}
                and node.args
            ):
                first = node.args[0]
                if isinstance(first, ast.Constant) and isinstance(first.value, str):
                    codes.add(first.value)
    return codes


def make_results_page() -> str:
    """The fields of the JSON that `examine --json` prints."""
    rows = [(f"`{path}`", unit, meaning) for path, (unit, meaning) in RESULTS.items()]
    return _page(
        [
            "# Results",
            MADE,
            "`lapwright examine RECORD --json` prints one object. Angles are degrees of crank turn, lengths mm.",
            "END stands for `head` and `crank`, EVENT for `admission`, `cut_off`, `release` and `compression`, "
            "NAME for a name that differs.",
            "A list is empty where an event does not happen; null is what the sizes do not tell.",
            _table(("field", "unit", "meaning"), rows),
        ]
    )


def _table(head: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join(f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in line)} |" for line in lines)


def _sentence(text: str | None) -> str:
    return " ".join((text or "").split("\n\n")[0].split())


def _paragraphs(text: str | None) -> str:
    return "\n\n".join(" ".join(part.split()) for part in inspect.cleandoc(text or "").split("\n\n"))


def _page(parts: Iterable[str]) -> str:
    return "\n\n".join(part for part in parts if part) + "\n"


PAGES: dict[str, Callable[[], str]] = {
    "commands.md": make_commands_page,
    "problems.md": make_problems_page,
    "record.md": make_record_page,
    "results.md": make_results_page,
}


def write_pages() -> None:
    """Write every page anew."""
    REFERENCE.mkdir(exist_ok=True)
    for name, make in PAGES.items():
        (REFERENCE / name).write_text(make(), encoding="utf-8")


if __name__ == "__main__":
    write_pages()
