"""Take a key out of a record's own text: what is not taken out stays as it was, comments too."""

from __future__ import annotations

import re
from typing import Any

from lapwright.errors import CannotChange
from lapwright.record.changing import find_key, find_value, read_path, read_plain
from lapwright.record.layout import Layout, Path
from lapwright.record.problem import Problem
from lapwright.record.syntax import load_tables

_MARGIN = re.compile(r"[ \t]*\Z")
_COMMENT = re.compile(r"[ \t]*(#[^\n]*\n?)")
_COMMA_BEHIND = re.compile(r"[ \t]*,[ \t]*")
_COMMA_BEFORE = re.compile(r"[ \t]*,[ \t]*\Z")


def drop_key(text: str, key: str) -> str:
    r"""Take a key out of a record and leave every other byte of it alone; a key that is not there is no fault.

    A comment behind the value stays, on a line of its own.

    Parameters
    ----------
    text: the record as read, with its comments and line ends
    key: record path, such as `cylinder.0.valve.length` or, with all its edges, `cylinder.0.valve.edges`

    Raises
    ------
    CannotChange: no such key, one edge of several, or a record that cannot be read

    Example:
    >>> drop_key('[engine]\nname = "Tern"\nfluid = "air" # dry\n', "engine.fluid")
    '[engine]\nname = "Tern"\n# dry\n'
    """
    loaded = load_tables(text)
    if isinstance(loaded, Problem):
        raise CannotChange(key, "the record cannot be read", "mend the record first")
    raw, layout = loaded
    path = read_path(key)
    if isinstance(path[-1], int):
        whole = ".".join(map(str, path[:-1]))
        raise CannotChange(key, "edges stand and fall together", f"take out {whole}")
    stands = len(path) > 1 and not isinstance(find_value(raw, path), (dict, type(None)))
    if not stands:
        if find_key(path) is None:
            raise CannotChange(key, "a record has no such key", "name one as in cylinder.0.valve.length")
        return text
    new = _cut(text, layout, path) if path in layout.starts else text
    if not _is_as_wanted(text, new, path):
        raise CannotChange(key, "it cannot be taken out surely", "change it by hand")
    return new


def _cut(text: str, layout: Layout, path: Path) -> str:
    start, end = layout.starts[path], layout.spans[path].end
    if any(statement.start == start for statement in layout.statements):
        margin = _MARGIN.search(text, 0, start)
        first = start if margin is None else margin.start()
        behind = _COMMENT.match(text, end)
        if behind is not None:
            return text[:start] + behind[1] + text[behind.end() :]
        newline = text.find("\n", end)
        return text[:first] + ("" if newline < 0 else text[newline + 1 :])
    return _cut_inline(text, start, end)


def _cut_inline(text: str, start: int, end: int) -> str:
    behind = _COMMA_BEHIND.match(text, end)
    if behind is not None:
        return text[:start] + text[behind.end() :]
    before = _COMMA_BEFORE.search(text, 0, start)
    return text[: start if before is None else before.start()] + text[end:]


def _is_as_wanted(old: str, new: str, path: Path) -> bool:
    """Read both again: the new record must lack this key alone, or with it the table that held nothing else."""
    wanted, found = read_plain(old), read_plain(new)
    places: list[Any] = [wanted]
    for part in path[:-1]:
        places.append(places[-1][part])
    del places[-1][path[-1]]
    for part, place, inner in reversed(list(zip(path, places, places[1:], strict=False))):
        if wanted == found:
            return True
        if inner or isinstance(part, int):
            return False
        del place[part]
    return wanted == found
