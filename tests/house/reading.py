"""The source code as data: its modules, what they import, and their functions."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

TOP = Path(__file__).parents[2]
SRC = TOP / "src"

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Module:
    """One file of the package."""

    name: str
    text: str

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.text)

    @property
    def room(self) -> str:
        """The package's own modules (`lapwright`, `lapwright.__main__`, `lapwright.errors`) are rooms by themselves."""
        parts = self.name.split(".")
        return parts[1] if len(parts) > 1 else "__init__"

    @property
    def is_package(self) -> bool:
        return (SRC / Path(*self.name.split(".")) / "__init__.py").exists()

    @property
    def public(self) -> bool:
        return not any(part.startswith("_") for part in self.name.split("."))

    def functions(self) -> Iterator[tuple[str, Function]]:
        """Every function with its dotted name, also the ones inside classes and functions."""
        yield from _functions(self.tree, self.name)

    def imports(self) -> Iterator[tuple[str, int]]:
        """Every imported module with its line, also inside functions; type-only imports excepted."""
        for node in _without_type_only(self.tree):
            if isinstance(node, ast.Import):
                yield from ((alias.name, node.lineno) for alias in node.names)
            elif isinstance(node, ast.ImportFrom):
                yield from self._imports_from(node)
            elif isinstance(node, ast.Call) and _called(node) in {"import_module", "__import__"}:
                first = node.args[0] if node.args else None
                if isinstance(first, ast.Constant) and isinstance(first.value, str):
                    yield first.value, node.lineno

    def _imports_from(self, node: ast.ImportFrom) -> Iterator[tuple[str, int]]:
        origin = node.module or ""
        if node.level:
            parents = self.name.split(".")
            kept = parents[: len(parents) - node.level + self.is_package]
            origin = ".".join([*kept, *filter(None, [origin])])
        for alias in node.names:
            inner = f"{origin}.{alias.name}"
            yield (inner if origin == "lapwright" or _is_module(inner) else origin), node.lineno


def _is_module(name: str) -> bool:
    path = SRC / Path(*name.split("."))
    return path.with_suffix(".py").exists() or (path / "__init__.py").exists()


def _called(node: ast.Call) -> str:
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


def _without_type_only(node: ast.AST) -> Iterator[ast.AST]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.If) and ast.unparse(child.test).rpartition(".")[2] == "TYPE_CHECKING":
            for other in child.orelse:
                yield other
                yield from _without_type_only(other)
            continue
        yield child
        yield from _without_type_only(child)


def _functions(node: ast.AST, name: str) -> Iterator[tuple[str, Function]]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef):
            yield f"{name}.{child.name}", child
            yield from _functions(child, f"{name}.{child.name}")
        elif isinstance(child, ast.ClassDef):
            yield from _functions(child, f"{name}.{child.name}")
        else:
            yield from _functions(child, name)


def read_module(path: Path) -> Module:
    """Read one file of the package."""
    parts = path.relative_to(SRC).with_suffix("").parts
    return Module(".".join(parts[:-1] if parts[-1] == "__init__" else parts), path.read_text(encoding="utf-8"))


MODULES = [read_module(path) for path in sorted((SRC / "lapwright").rglob("*.py"))]
NAMES = [module.name for module in MODULES]
