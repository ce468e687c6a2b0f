"""Compiled kernels: the decorators that make them, and where the compiled code is kept.

Compiling takes many seconds, loading compiled code a fraction of one, so it is kept on disk. The compiler itself
looks only at the file of the outermost function: a change in a function that this one calls would go unseen, and
old code would answer with wrong numbers. So every kernel lives in a folder named after the bytes of all sources
that kernels are made of, and the compiler's version: any change leads to another folder.
"""

from __future__ import annotations

import hashlib
import os
import shutil
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, TypeVar, cast

import numba
from numba.core import config

Kernel = TypeVar("Kernel", bound=Callable[..., Any])

#: The modules that kernels and the figures in them are made of.
SOURCES = (
    "medium/boiling.py",
    "medium/compiling.py",
    "medium/flow.py",
    "medium/if97.py",
    "medium/if97_coefficients.py",
    "medium/steam.py",
    "cycle/layout.py",
    "cycle/balance.py",
    "cycle/alone.py",
    "cycle/together.py",
    "cycle/stage.py",
    "cycle/march.py",
)
#: So many folders of older sources are left lying beside the one in use; each takes about 2 MB.
OLD_FOLDERS = 3


def compiled(function: Kernel) -> Kernel:
    """Compile a function of plain floats and arrays on its first call, and keep the machine code.

    Division by nothing follows IEEE 754, as in numpy; the interpreter's lock is let go of while the kernel runs.
    """
    return _compile(function)


def lean(function: Kernel) -> Kernel:
    """Compile a function that makes no arrays, but only fills those that it is handed.

    It does not count who holds an array, which took half the time of a march. The compiler's switch for that is not
    a public one, but its version is pinned, and it refuses a lean function that makes an array after all.
    """
    return _compile(function, _nrt=False)


def inlined(function: Kernel) -> Kernel:
    """Compile a lean function into the body of whatever calls it, for what is called millions of times a second."""
    return _compile(function, _nrt=False, forceinline=True)


def _compile(function: Kernel, **switches: bool) -> Kernel:
    folder = find_folder()
    options: dict[str, Any] = {"cache": folder is not None, "nogil": True, "error_model": "numpy", **switches}
    # The compiler asks where to keep code when a function is decorated, and only then.
    settings = vars(config)
    before = settings["CACHE_DIR"]
    settings["CACHE_DIR"] = "" if folder is None else str(folder)
    try:
        made = numba.njit(**options)(function)
    finally:
        settings["CACHE_DIR"] = before
    return cast("Kernel", made)


@cache
def find_folder() -> Path | None:
    """Return the folder for the compiled code: beside the package, else in the user's cache; None if neither can be."""
    package = Path(__file__).resolve().parent.parent
    name = f"kernels-{digest_sources(package)}"
    home = Path(os.environ.get("XDG_CACHE_HOME") or Path("~/.cache").expanduser())
    for folder in (package / "__pycache__" / name, home / "lapwright" / name):
        is_new = not folder.exists()
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            continue
        if os.access(folder, os.W_OK):
            if is_new:
                clear_old(folder)
            return folder
    return None


def clear_old(folder: Path) -> None:
    """Remove the oldest of our folders beside one, all but `OLD_FOLDERS` of them; one in another's hands stays."""
    others = [other for other in folder.parent.glob("kernels-*") if other != folder and other.is_dir()]
    for other in sorted(others, key=lambda path: path.stat().st_mtime)[:-OLD_FOLDERS]:
        shutil.rmtree(other, ignore_errors=True)


def digest_sources(package: Path) -> str:
    """Return a name for the state of everything that kernels are made of."""
    digest = hashlib.sha256(numba.__version__.encode())
    for name in SOURCES:
        digest.update(name.encode() + b"\0" + (package / name).read_bytes() + b"\0")
    return digest.hexdigest()[:16]
