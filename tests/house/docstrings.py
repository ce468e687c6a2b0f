"""What a docstring must tell, and how one is held against its function."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

from lapwright.sources import SOURCES
from tests.house.reading import Function, Module

SECTIONS = ("Parameters", "Returns", "Raises", "Holds for", "Source", "Example")
#: What may stand after `Source:` instead of a key of the bibliography.
NO_KEY = ("exact geometry", "common practice, no source", "definition", "from memory")
#: What may stand first between the square brackets of a unit; [any unit] or [unit of ...].
UNITS = {
    *("m", "mm", "in", "µm", "thou", "m2", "m²", "mm2", "mm²", "pt", "rad", "deg", "turn", "turns"),
    *(
        "Pa",
        "kPa",
        "bar",
        "psi",
        "kg",
        "N",
        "N.m",
        "J",
        "W",
        "K",
        "s",
        "ms",
        "1/s",
        "m/s",
        "mm/m",
        "%",
        "-",
        "SI",
        "any",
        "unit",
    ),
}
NUMBERS = {"float", "Number", "Floats", "Decimal", "Fraction"}

_HEADING = re.compile(rf"^({'|'.join(SECTIONS)}):?[ ]*(.*)$")
_ENTRY = re.compile(r"^(\*{0,2}\w+(?:, \*{0,2}\w+)*): \S")
_BRACKETS = re.compile(r"\[([^\]\[]+?)[\])]")
_KEY_LIKE = re.compile(r"^[a-z]+(?:-[a-z0-9]+)*-\d+$")


def split_sections(docstring: str) -> dict[str, list[str]]:
    """The lines under each heading; what stands before the first one is under ''."""
    sections: dict[str, list[str]] = {"": []}
    lines = sections[""]
    for line in docstring.splitlines():
        heading = _HEADING.match(line)
        if heading and (line.rstrip() == heading[1] or line.startswith(f"{heading[1]}:")):
            lines = sections.setdefault(heading[1], [])
            if heading[2]:
                lines.append(heading[2])
        elif not re.fullmatch(r"-{3,}", line):
            lines.append(line)
    return sections


def find_undocumented(module: Module) -> Iterator[str]:
    """Every public module, class and function that has no docstring."""
    if not ast.get_docstring(module.tree):
        yield module.name
    for name, node in find_public(module):
        if not ast.get_docstring(node) and not _is_overload(node):
            yield name


def find_flaws(name: str, node: Function) -> Iterator[str]:
    """Everything in which a function's docstring fails its signature, its units or its sources."""
    docstring = ast.get_docstring(node) or ""
    sections = split_sections(docstring)
    if "Parameters" in sections:
        told, given = _told_parameters(sections["Parameters"]), set(_parameters(node))
        if told != given:
            yield f"{name}: Parameters tells of {sorted(told - given)} too much, {sorted(given - told)} too little"
    numbers = [argument for argument, annotation in _parameters(node).items() if _is_number(annotation)]
    if numbers and not states_unit(docstring):
        yield f"{name}: takes {', '.join(numbers)} and states no unit in square brackets"
    if "Source" in sections:
        yield from (f"{name}: {flaw}" for flaw in find_source_flaws(" ".join(sections["Source"])))


def find_source_flaws(text: str) -> Iterator[str]:
    """Everything that is not a known source in the text after `Source:`; several sources are parted by semicolons."""
    first, *others = (part.strip() for part in text.split(";"))
    if not first.startswith(NO_KEY) and _leading_word(first) not in SOURCES:
        yield f"no such source: {first!r}"
    for other in others:
        word = _leading_word(other)
        if _KEY_LIKE.match(word) and word not in SOURCES:
            yield f"no such source: {word!r}"


def find_cited_keys(module: Module) -> Iterator[str]:
    """The keys that a module cites by literal text."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "cite" and node.args:
            first = node.args[0]
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                yield first.value


def find_public(module: Module) -> Iterator[tuple[str, Function | ast.ClassDef]]:
    """Every public class, function and method of a module."""
    if module.public:
        yield from _public(module.tree, module.name)


def _public(node: ast.Module | ast.ClassDef, name: str) -> Iterator[tuple[str, Function | ast.ClassDef]]:
    for child in node.body:
        if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef) and not child.name.startswith("_"):
            yield f"{name}.{child.name}", child
            if isinstance(child, ast.ClassDef):
                yield from _public(child, f"{name}.{child.name}")


def states_unit(docstring: str) -> bool:
    """Whether a unit stands somewhere in square brackets."""
    return any(re.split(r"[,; ]", inside)[0] in UNITS for inside in _BRACKETS.findall(docstring))


def _told_parameters(lines: list[str]) -> set[str]:
    entries = (_ENTRY.match(line) for line in lines)
    return {name.strip().lstrip("*") for entry in entries if entry for name in entry[1].split(",")}


def _parameters(node: Function) -> dict[str, str]:
    arguments = node.args
    every = [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs]
    every += [extra for extra in (arguments.vararg, arguments.kwarg) if extra]
    return {
        argument.arg: ast.unparse(argument.annotation) if argument.annotation else ""
        for argument in every
        if argument.arg not in {"self", "cls"}
    }


def _is_number(annotation: str) -> bool:
    return any(part.strip() in NUMBERS for part in annotation.split("|"))


def _is_overload(node: ast.AST) -> bool:
    return any(ast.unparse(decorator).endswith("overload") for decorator in getattr(node, "decorator_list", []))


def _leading_word(text: str) -> str:
    return re.split(r"[ ,.:(]", text, maxsplit=1)[0]
