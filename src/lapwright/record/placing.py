"""Parts of which a record may have several: a new place for one in the record's own text, and one taken out."""

from __future__ import annotations

import re
from typing import Any

from lapwright.errors import CannotChange
from lapwright.record.changing import find_value, read_path, read_plain
from lapwright.record.contents import MOST_CYLINDERS
from lapwright.record.keys import LISTS
from lapwright.record.layout import Layout, Path, Statement
from lapwright.record.problem import Problem
from lapwright.record.syntax import load_tables

_COMMENT_LINES = re.compile(r"(?:[ \t]*#[^\n]*(?:\n|\Z))*")
_COMMENTS_BEFORE = re.compile(r"(?:\A|(?<=\n))[ \t]*\r?\n((?:[ \t]*#[^\n]*\n)*)\Z")


def add_place(text: str, list_name: str) -> tuple[str, str]:
    r"""Make room for one part more, and return the new text with the record path of the place.

    Parameters
    ----------
    text: the record as read; where its last such part is still blank, that one is the place
    list_name: `cylinder`, `cylinder.0.gland`, `fastener`, `pin` or `bench_test`

    Raises
    ------
    CannotChange: no such list, or no more of it may stand in a record

    Example:
    >>> add_place('[engine]\nname = "Tern"\n', "pin")
    ('[engine]\nname = "Tern"\n\n[[pin]]\n', 'pin.0')
    """
    raw, layout = _load(text, list_name)
    path = _read_list(raw, list_name)
    found = find_value(raw, path)
    if not isinstance(found, (list, type(None))):
        raise CannotChange(list_name, "the record has something else in its place", f"head it with [[{path[-1]}]]")
    there = found or []
    if there and there[-1] == {}:
        return text, f"{list_name}.{len(there) - 1}"
    if path == ("cylinder",) and len(there) >= MOST_CYLINDERS:
        raise CannotChange(list_name, f"{MOST_CYLINDERS} are the most", "write a record for each engine")
    new = _insert(text, layout, path, count=len(there))
    wanted: Any = read_plain(text)
    _find_owner(wanted, path).setdefault(path[-1], []).append({})
    if read_plain(new) != wanted:
        raise CannotChange(list_name, "the record leaves no sure place for it", "add it by hand")
    return new, f"{list_name}.{len(there)}"


def remove_place(text: str, place: str) -> str:
    r"""Take one part out of a record, with the comments that stand in it; those behind it move up.

    Parameters
    ----------
    text: the record as read
    place: its record path, such as `fastener.1` or `cylinder.0.gland.0`

    Raises
    ------
    CannotChange: no such part

    Example:
    >>> remove_place('[engine]\nname = "Tern"\n\n[[pin]]\nhole = "2 mm"\n', "pin.0")
    '[engine]\nname = "Tern"\n'
    """
    raw, layout = _load(text, place)
    path = read_path(place)
    if len(path) < 2 or not isinstance(path[-1], int):
        raise CannotChange(place, "it is no part that can be taken out", "name one as in fastener.0")
    _read_list(raw, ".".join(map(str, path[:-1])))
    if not isinstance(find_value(raw, path), dict):
        noun = str(path[-2]).replace("_", " ")
        raise CannotChange(place, f"the record has no such {noun}", f"count {noun}s from 0")
    is_inline = path in layout.spans
    new = (_cut_element if is_inline else _cut_statements)(text, layout, path)
    wanted: Any = read_plain(text)
    owner = _find_owner(wanted, path[:-1])
    del owner[path[-2]][path[-1]]
    if not owner[path[-2]] and not is_inline:
        del owner[path[-2]]
    if read_plain(new) != wanted:
        raise CannotChange(place, "it cannot be taken out surely", "take it out by hand")
    return new


def _load(text: str, key: str) -> tuple[dict[str, Any], Layout]:
    loaded = load_tables(text)
    if isinstance(loaded, Problem):
        raise CannotChange(key, "the record cannot be read", "mend the record first")
    return loaded


def _read_list(raw: dict[str, Any], list_name: str) -> Path:
    """Take the path of a list apart, and refuse one that no record has."""
    path = read_path(list_name)
    if ".".join(str(part) for part in path if not isinstance(part, int)) not in LISTS or len(path) not in {1, 3}:
        raise CannotChange(list_name, "a record has no such list", "name one as in fastener or cylinder.0.gland")
    if len(path) > 1 and not isinstance(find_value(raw, path[:2]), dict):
        raise CannotChange(list_name, "the record has no such cylinder", "count cylinders from 0")
    return path


def _find_owner(raw: Any, path: Path) -> Any:
    for part in path[:-1]:
        raw = raw[part]
    return raw


def _insert(text: str, layout: Layout, path: Path, *, count: int) -> str:
    newline = "\r\n" if "\r\n" in text else "\n"
    span, owner = layout.spans.get(path), layout.spans.get(path[:-1])
    if span is not None:
        inside = text[span.start + 1 : span.end - 1].rstrip()
        comma = "" if not count or inside.endswith(",") else ", "
        at = span.start + 1 + len(inside)
        return text[:at] + comma + "{}" + text[at:]
    if owner is not None:
        inside = text[owner.start + 1 : owner.end - 1].rstrip()
        at = owner.start + 1 + len(inside)
        return text[:at] + (", " if inside.strip() else " ") + f"{path[-1]} = [{{}}]" + text[at:]
    at = _find_end(text, layout, path, count=count)
    before = "" if at == 0 or text[at - 1] == "\n" else newline
    heading = ".".join(str(part) for part in path if not isinstance(part, int))
    return text[:at] + before + (newline if text[:at].strip() else "") + f"[[{heading}]]{newline}" + text[at:]


def _find_end(text: str, layout: Layout, path: Path, *, count: int) -> int:
    """Find where the new part goes: behind the last of its kind, else its cylinder, else everything."""
    start = (*path, count - 1) if count else path[:-1]
    if not start:
        return len(text)
    return max((_find_block_end(text, s) for s in layout.statements if _belongs(s, start)), default=len(text))


def _belongs(statement: Statement, place: Path) -> bool:
    return statement.path[: len(place)] == place


def _find_block_end(text: str, statement: Statement) -> int:
    """Where a statement ends with the comment lines right below it."""
    below = _COMMENT_LINES.match(text, statement.end)
    return statement.end if below is None else below.end()


def _cut_statements(text: str, layout: Layout, place: Path) -> str:
    runs: list[tuple[int, int]] = []
    for statement in layout.statements:
        if not _belongs(statement, place):
            continue
        start = text.rfind("\n", 0, statement.start) + 1
        end = _find_block_end(text, statement)
        if statement.is_header:
            start = _find_block_start(text, start)
        if runs and not text[runs[-1][1] : start].strip():
            start = runs.pop()[0]
        runs.append((start, end))
    for start, end in reversed(runs):
        text = text[:start] + text[end:]
    return text


def _find_block_start(text: str, start: int) -> int:
    """Where a heading starts with the comment lines right above it and a blank line, if there is one above those."""
    above = _COMMENTS_BEFORE.search(text, 0, start)
    return start if above is None else above.start()


def _cut_element(text: str, layout: Layout, place: Path) -> str:
    """Take an inline table out of its list, with the comma that parts it from its neighbour."""
    number = int(place[-1])
    own, after = layout.spans[place], layout.spans.get((*place[:-1], number + 1))
    if number:
        return text[: layout.spans[(*place[:-1], number - 1)].end] + text[own.end :]
    if after is not None:
        return text[: own.start] + text[after.start :]
    whole = layout.spans[place[:-1]]
    return text[: whole.start] + "[]" + text[whole.end :]
