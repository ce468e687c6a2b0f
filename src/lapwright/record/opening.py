"""Open a record: whatever is in the file, the answer is what could be read and what is wrong."""

from __future__ import annotations

import hashlib
import os
import stat
from pathlib import Path as FilePath
from typing import Any

from lapwright.record.building import build_engine
from lapwright.record.contents import read_cylinders, read_list, read_table
from lapwright.record.keys import LISTS, TABLES
from lapwright.record.problem import Ledger, OpenedRecord, Problem
from lapwright.record.syntax import LARGEST, decode_text, load_tables
from lapwright.record.written import list_written


def open_record(path: str | os.PathLike[str]) -> OpenedRecord:
    """Open a record file.

    Parameters
    ----------
    path: where the file is

    Returns
    -------
    the engine as far as known, with the problems found; a missing or unreadable file is a problem too
    """
    source = os.fspath(path)
    data = _read_file(source)
    return _give_up(data, b"", source) if isinstance(data, Problem) else read_record(data, source=source)


def _read_file(source: str) -> bytes | Problem:
    def fail(code: str, message: str, instead: str) -> Problem:
        return Problem(code, "error", 0, "", message, instead)

    shown = "".join(c if c.isprintable() else "?" for c in source)
    try:
        kind = os.stat(source).st_mode
        if stat.S_ISDIR(kind):
            return fail("not-a-file", f"{shown} is a folder", "give the record file in it")
        if not stat.S_ISREG(kind):
            return fail("not-a-file", f"{shown} is not a file", "give a record file")
        if os.stat(source).st_size > LARGEST:
            return fail("too-large", f"{shown} is larger than 1 MB", "give an engine record; they are much smaller")
        with FilePath(source).open("rb") as file:
            return file.read(LARGEST + 1)
    except (FileNotFoundError, NotADirectoryError, ValueError):
        return fail("no-file", f"{shown} does not exist", 'check the name, or start one with "lapwright new"')
    except OSError as error:
        return fail("cannot-open", f"{shown} cannot be opened ({error.strerror})", "check its permissions")


def read_record(data: bytes, *, source: str = "") -> OpenedRecord:
    r"""Read a record from its bytes.

    Parameters
    ----------
    data: the file as it stands on the disk
    source: what the file is called, to be kept with the answer

    Returns
    -------
    the engine as far as known, with the problems found, by line

    Example:
    >>> found = read_record(b'format = 1\n[engine]\nname = "Tern"\n[[cylinder]]\nbore = "0.75"\n')
    >>> found.engine.name, found.problems[0].line, found.problems[0].message
    ('Tern', 5, 'bore: 0.75 has no unit')
    """
    text = decode_text(data)
    if isinstance(text, Problem):
        return _give_up(text, data, source)
    loaded = load_tables(text)
    if isinstance(loaded, Problem):
        return _give_up(loaded, data, source, text=text)
    raw, layout = loaded
    ledger = Ledger(layout)
    written = list_written(text, raw, layout)
    if not raw:
        ledger.add("empty", (), "the file holds no sizes", instead='start one with "lapwright new"')
        return OpenedRecord(None, ledger.close(), written, text, _digest(data), source)
    if "format" not in raw:
        ledger.add(
            "no-format", (), "the format is not given", instead="write format = 1 at the top", severity="warning"
        )
    top = read_table({k: v for k, v in raw.items() if k not in _PARTS}, "", (), ledger=ledger)
    if "format" in raw and "format" not in top:
        return OpenedRecord(None, ledger.close(), written, text, _digest(data), source)
    single = {name: _read_part(raw.get(name, {}), name, ledger=ledger) for name in _SINGLE}
    cylinders = read_cylinders(raw.get("cylinder"), ledger=ledger)
    several = {name: read_list(raw.get(name, []), name, (name,), ledger=ledger) for name in _SEVERAL}
    built = build_engine(cylinders, single=single, several=several, ledger=ledger)
    return OpenedRecord(built, ledger.close(), written, text, _digest(data), source)


_SINGLE = tuple(name for name in TABLES if name and "." not in name and name not in LISTS)
_SEVERAL = tuple(name for name in LISTS if "." not in name and name != "cylinder")
_PARTS = {*_SINGLE, *LISTS}


def _read_part(raw: object, name: str, *, ledger: Ledger) -> dict[str, Any]:
    if isinstance(raw, dict):
        return read_table(raw, name, (name,), ledger=ledger)
    ledger.add("not-a-table", (name,), f"{name} is not a table", instead=f"head its keys with [{name}]")
    return {}


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _give_up(problem: Problem, data: bytes, source: str, *, text: str = "") -> OpenedRecord:
    return OpenedRecord(None, (problem,), {}, text, _digest(data), source)
