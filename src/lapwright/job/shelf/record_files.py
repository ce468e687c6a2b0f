"""The record files of a workshop: which there are, and that nobody gets at any other file through a name."""

from __future__ import annotations

import os
import re
import stat
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path

from lapwright.errors import NotThere

SUFFIX = ".toml"
#: Letters of an engine's id.
LONGEST_ID = 80
_LONGEST_MADE = 48


def find_record_file(folder: Path, engine: str) -> Path:
    """Return where the record of an engine is.

    Parameters
    ----------
    folder: the workshop
    engine: the id, the stem of a file at the top of the folder

    Raises
    ------
    NotThere: no such file in the folder, or one that is a link to somewhere outside
    """
    path = folder / f"{engine}{SUFFIX}"
    if not _is_id(engine) or not _is_inside(folder, path):
        shown = "".join(c if c.isprintable() else "?" for c in engine[:LONGEST_ID])
        raise NotThere(f"engine {shown}", "choose one from the shelf")
    return path


def list_record_files(folder: Path) -> Iterator[tuple[str, Path]]:
    """List the engines of a workshop by id, each with its file.

    Parameters
    ----------
    folder: the workshop
    """
    for path in sorted(folder.glob(f"*{SUFFIX}")):
        if _is_id(path.stem) and _is_inside(folder, path):
            yield path.stem, path


def make_id(folder: Path, name: str, *, is_taken: Callable[[str], bool] = lambda _: False) -> str:
    """Return an id for a new engine, made of its name, that no other has.

    Parameters
    ----------
    folder: the workshop
    name: what the engine is called
    is_taken: tells of an id that has no file whether it is another's nevertheless

    Example:
    >>> make_id(Path("no-such-folder"), "Old Tern (1902)")
    'old-tern-1902'
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    stem = re.sub(r"[^a-z0-9]+", "-", plain)[:_LONGEST_MADE].strip("-") or "engine"
    number, made = 1, stem
    while os.path.lexists(folder / f"{made}{SUFFIX}") or is_taken(made):
        number += 1
        made = f"{stem}-{number}"
    return made


def _is_id(engine: str) -> bool:
    return (
        0 < len(engine) <= LONGEST_ID
        and engine.isprintable()
        and not engine.startswith(".")
        and "/" not in engine
        and "\\" not in engine
    )


def _is_inside(folder: Path, path: Path) -> bool:
    """Whether a path leads, through whatever links, to a record file inside the folder."""
    try:
        target, home = os.path.realpath(path), os.path.realpath(folder)
        is_file = stat.S_ISREG(os.stat(target).st_mode)
    except (OSError, ValueError):
        return False
    return is_file and target.startswith(os.path.join(home, "")) and target.endswith(SUFFIX)
