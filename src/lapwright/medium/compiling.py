"""Compiled kernels: the one decorator that makes them, and where the compiled code is kept.

Compiling takes many seconds, loading compiled code a fraction of one, so it is kept on disk. The compiler itself
looks only at the file of the outermost function: a change in a function that this one calls would go unseen, and
old code would answer with wrong numbers. So every kernel lives in a folder named after the bytes of all sources
that kernels are made of, and the compiler's version: any change leads to another folder.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, TypeVar, cast

import numba
from numba.core import config

Kernel = TypeVar("Kernel", bound=Callable[..., Any])

#: The rooms whose functions are compiled.
ROOMS = ("medium", "cycle")


def compiled(function: Kernel) -> Kernel:
    """Compile a function of plain floats and arrays on its first call, and keep the machine code.

    Division by nothing follows IEEE 754, as in numpy; the interpreter's lock is let go of while the kernel runs.
    """
    folder = find_folder()
    before = config.CACHE_DIR
    # The compiler asks where to keep code when a function is decorated, and only then.
    config.CACHE_DIR = "" if folder is None else str(folder)
    try:
        made = numba.njit(cache=folder is not None, nogil=True, error_model="numpy")(function)
    finally:
        config.CACHE_DIR = before
    return cast("Kernel", made)


@cache
def find_folder() -> Path | None:
    """Return the folder for the compiled code: beside the package, else in the user's cache; None if neither can be."""
    package = Path(__file__).resolve().parent.parent
    name = f"kernels-{digest_sources(package)}"
    home = Path(os.environ.get("XDG_CACHE_HOME") or Path("~/.cache").expanduser())
    for folder in (package / "__pycache__" / name, home / "lapwright" / name):
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            continue
        if os.access(folder, os.W_OK):
            return folder
    return None


def digest_sources(package: Path) -> str:
    """Return a name for the state of everything that kernels are made of."""
    digest = hashlib.sha256(numba.__version__.encode())
    for room in ROOMS:
        for path in sorted((package / room).glob("*.py")):
            digest.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()[:16]
