"""Compiled code is kept, and never outlives the sources it was made of."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from numba.core.errors import NumbaError

from lapwright.medium.compiling import OLD_FOLDERS, SOURCES, clear_old, digest_sources, lean
from tests.house.reading import MODULES, SRC, Module

ASK = (
    "from lapwright.medium.flow import flow_factor, find_flow_terms; print(flow_factor(0.9995, *find_flow_terms(1.4)))"
)

#: The decorators that make kernels.
KERNELS = {"compiled", "lean", "inlined"}


def copy_package(folder: Path) -> Path:
    package = folder / "lapwright"
    shutil.copytree(SRC / "lapwright", package, ignore=shutil.ignore_patterns("__pycache__"))
    return package


def ask(folder: Path, **environment: str) -> float:
    kept = {name: value for name, value in os.environ.items() if name not in {"HOME", "XDG_CACHE_HOME"}}
    done = subprocess.run(
        [sys.executable, "-c", ASK],
        env={**kept, "PYTHONPATH": str(folder), **environment},
        capture_output=True,
        encoding="utf-8",
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return float(done.stdout)


def list_folders(package: Path) -> set[str]:
    return {path.name for path in (package / "__pycache__").glob("kernels-*")}


def test_a_change_in_a_module_that_a_kernel_leans_on_is_never_missed(tmp_path: Path) -> None:
    package = copy_package(tmp_path)
    before = ask(tmp_path, HOME=str(tmp_path))
    flow = package / "medium" / "flow.py"
    flow.write_text(
        flow.read_text(encoding="utf-8").replace("SMALL_DROP = 1e-3", "SMALL_DROP = 1e-2"), encoding="utf-8"
    )
    after = ask(tmp_path, HOME=str(tmp_path))
    assert after < 0.5 * before
    assert len(list_folders(package)) == 2


def test_what_was_compiled_is_used_again(tmp_path: Path) -> None:
    package = copy_package(tmp_path)
    ask(tmp_path, HOME=str(tmp_path))
    kept = {path: path.stat().st_mtime_ns for path in package.rglob("*.nbc")}
    assert kept
    ask(tmp_path, HOME=str(tmp_path))
    assert {path: path.stat().st_mtime_ns for path in package.rglob("*.nbc")} == kept


def test_without_a_place_to_keep_it_the_code_is_compiled_each_time(tmp_path: Path) -> None:
    package = copy_package(tmp_path)
    (package / "__pycache__").write_text("no folder can be made here", encoding="utf-8")
    (tmp_path / "home").write_text("nor here", encoding="utf-8")
    assert ask(tmp_path, HOME=str(tmp_path / "home"), PYTHONDONTWRITEBYTECODE="1") == pytest.approx(
        0.5 * 0.002**0.5, rel=0.01
    )


def _names_of_ours(module: Module) -> set[str]:
    names = {name for name, _ in module.imports() if name.startswith("lapwright.")}
    parts = {"/".join(name.split(".")[1:3]) + ".py" for name in names}
    return {part for part in parts if (SRC / "lapwright" / part).exists()}


def test_the_sources_of_kernels_are_all_on_the_list() -> None:
    kernels = [
        module
        for module in MODULES
        for node in ast.walk(module.tree)
        if isinstance(node, ast.FunctionDef) and KERNELS & {ast.unparse(d) for d in node.decorator_list}
    ]
    wanted = {"/".join(module.name.split(".")[1:]) + ".py" for module in kernels}
    for module in kernels:
        wanted |= _names_of_ours(module)
    assert wanted <= set(SOURCES)


def test_every_listed_source_counts(tmp_path: Path) -> None:
    package = copy_package(tmp_path)
    seen = {digest_sources(package)}
    for name in SOURCES:
        (package / name).write_text((package / name).read_text(encoding="utf-8") + "\n", encoding="utf-8")
        seen.add(digest_sources(package))
    assert len(seen) == len(SOURCES) + 1


def test_old_folders_are_cleared_away_but_for_the_newest(tmp_path: Path) -> None:
    for n in range(7):
        (tmp_path / f"kernels-{n}").mkdir()
        os.utime(tmp_path / f"kernels-{n}", (n, n))
    (tmp_path / "other").mkdir()
    clear_old(tmp_path / "kernels-1")
    left = {path.name for path in tmp_path.iterdir()}
    assert left == {"other", "kernels-1", *(f"kernels-{n}" for n in range(7 - OLD_FOLDERS, 7))}


def test_a_lean_kernel_that_makes_an_array_is_refused() -> None:
    """Nobody would count who holds it."""

    @lean
    def make(size: int) -> np.ndarray:
        return np.zeros(size)

    with pytest.raises(NumbaError, match="Only accept returning of array passed into the function"):
        make(3)
