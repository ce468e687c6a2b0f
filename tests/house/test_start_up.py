"""Starting costs next to nothing: what is heavy is loaded where it is used."""

from __future__ import annotations

import ast
import subprocess
import sys

import pytest

import lapwright
from tests.house.reading import SRC, TOP

HEAVY = {"numpy", "scipy", "pydantic", "typst", "tomlkit", "font_source_sans_pro", "sqlite3"}
#: All that `import lapwright` may load on top of a bare interpreter.
LIGHT = {"lapwright", "importlib", "importlib._bootstrap", "importlib._bootstrap_external", "warnings"}


def list_loaded(*arguments: str) -> set[str]:
    """Names of the modules that a new interpreter loads while it does what it is told."""
    command = [sys.executable, "-X", "importtime", *arguments]
    done = subprocess.run(command, cwd=TOP, capture_output=True, encoding="utf-8", timeout=60, check=False)
    assert done.returncode == 0, done.stderr
    lines = [line for line in done.stderr.splitlines() if line.startswith("import time:")]
    return {line.rpartition("|")[2].strip() for line in lines}


def test_importing_the_package_loads_nothing_else() -> None:
    assert list_loaded("-c", "import lapwright") - list_loaded("-c", "pass") <= LIGHT


def test_help_loads_no_heavy_library() -> None:
    loaded = list_loaded("-m", "lapwright", "--help")
    assert "lapwright.cli" in loaded
    assert not HEAVY & loaded
    assert not {name for name in loaded if name.startswith(("lapwright.record", "lapwright.motion"))}


def test_examining_an_engine_on_the_terminal_loads_no_pages() -> None:
    loaded = list_loaded("-m", "lapwright", "examine", "examples/tern.toml")
    assert {"lapwright.motion.answers", "lapwright.cycle.march"} <= loaded
    # The compiler takes scipy along where it is installed; the program itself never asks for it.
    assert not {"typst", "font_source_sans_pro", "sqlite3", "pyarrow"} & loaded


def test_checking_a_record_loads_no_arrays() -> None:
    loaded = list_loaded("-m", "lapwright", "check", "examples/tern.toml")
    assert not {"numpy", "numba", "typst"} & loaded


def test_a_heavy_library_would_be_noticed() -> None:
    assert "numpy" in list_loaded("-c", "import lapwright.motion.many")


@pytest.mark.parametrize("name", lapwright.__all__)
def test_every_public_name_is_found_on_first_use(name: str) -> None:
    assert getattr(lapwright, name)
    assert name in dir(lapwright)


def test_type_checkers_are_told_the_same_names_from_the_same_rooms() -> None:
    tree = ast.parse((SRC / "lapwright" / "__init__.py").read_text(encoding="utf-8"))
    nodes = [node for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module != "importlib"]
    told = {alias.name: node.module for node in nodes for alias in node.names}
    found = {name: room for node in ast.walk(tree) if isinstance(node, ast.Dict) for name, room in _pairs(node)}
    assert told == found
    assert {"__version__", *told} == set(lapwright.__all__)


def _pairs(node: ast.Dict) -> list[tuple[str, str]]:
    return list(ast.literal_eval(node).items())


def test_a_name_that_is_not_there_is_refused_as_python_does() -> None:
    with pytest.raises(AttributeError, match="no attribute 'find_flaw'"):
        lapwright.find_flaw  # noqa: B018 - reading it is the test
