"""Set keys of a record in its own text: what is not set stays as it was, to the byte."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from lapwright.errors import CannotChange
from lapwright.record.key import Key
from lapwright.record.keys import LISTS, TABLES
from lapwright.record.layout import Layout, Path, Span, Statement
from lapwright.record.problem import Problem
from lapwright.record.syntax import load_tables

#: Keys that say the same as a list of edges, by table.
_SAME_AS_EDGES = {"port_face": ("steam_port", "bridge", "exhaust_port"), "valve": ("length", "cavity")}


def change_record(text: str, changes: Mapping[str, str]) -> str:
    r"""Set keys of a record and leave every other byte of it alone.

    Parameters
    ----------
    text: the record as read, with its comments and line ends
    changes: new text by record path, such as `cylinder.0.valve.length` or `cylinder.0.valve.edges.2`;
        a key or table that is not there yet is put where it belongs

    Raises
    ------
    CannotChange: no such key, or one that the record gives in another way

    Example:
    >>> change_record('[engine]\nname = "Tern" # hers\n', {"engine.name": "Dunlin", "engine.fluid": "air"})
    '[engine]\nname = "Dunlin" # hers\nfluid = "air"\n'
    """
    for key, value in changes.items():
        text = _change_key(text, key, value)
    return text


def write_text(value: str) -> str:
    """Write a text as TOML, in single quotes where that keeps an inch mark readable.

    Parameters
    ----------
    value: the text, without quotation marks around it

    Example:
    >>> print(write_text('3/4"'))
    '3/4"'
    """
    if '"' in value and "'" not in value and value.isprintable():
        return f"'{value}'"
    import json

    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _change_key(text: str, key: str, value: str) -> str:
    loaded = load_tables(text)
    if isinstance(loaded, Problem):
        raise CannotChange(key, "the record cannot be read", "mend the record first")
    raw, layout = loaded
    path = read_path(key)
    _check_key(raw, key, path)
    span = layout.spans.get(path)
    if span is not None:
        new = text[: span.start] + write_text(value) + text[span.end :]
    else:
        new = _insert(text, layout, path, value=write_text(value))
    if not _is_as_wanted(text, new, path, value=value):
        raise CannotChange(key, "the record leaves no sure place for it", "change it by hand")
    return new


def read_path(key: str) -> Path:
    """Take a record path apart.

    Example:
    >>> read_path("cylinder.0.bore")
    ('cylinder', 0, 'bore')
    """
    return tuple(int(part) if part.isascii() and part.isdigit() else part for part in key.split("."))


def find_key(path: Path) -> Key | None:
    """Find what a record knows of a path, None where it knows nothing."""
    is_edge = isinstance(path[-1], int)
    if is_edge and len(path) < 2:
        return None
    *tables, name = path[:-1] if is_edge else path
    table, wants_place = "", False
    for part in tables:
        if isinstance(part, int) is not wants_place:
            return None
        table = table if wants_place else f"{table}.{part}".lstrip(".")
        wants_place = not wants_place and table in LISTS
    key = None if wants_place else TABLES.get(table, {}).get(str(name)) if table else None
    return None if key is None or (is_edge and not key.count) else key


def _check_key(raw: dict[str, Any], key: str, path: Path) -> None:
    """Refuse what is no key of a record, and what the record says in another way."""
    known, last = find_key(path), path[-1]
    if known is None:
        raise CannotChange(key, "a record has no such key", "name one as in cylinder.0.valve.length")
    for end, part in enumerate(path[:-1]):
        if isinstance(part, int) and find_value(raw, path[: end + 1]) is None:
            noun = str(path[end - 1]).replace("_", " ")
            raise CannotChange(key, f"the record has no such {noun}", f"count {noun}s from 0")
    if isinstance(last, int) and find_value(raw, path) is None:
        raise CannotChange(key, "the record does not give these edges", "set the widths instead")
    if known.count and not isinstance(last, int):
        raise CannotChange(key, "it is a list", f"set its edges one by one: {key}.0")
    twin = _SAME_AS_EDGES.get(str(path[-2]), ()) if path[0] == "cylinder" else ()
    if last in twin and find_value(raw, (*path[:-1], "edges")) is not None:
        edges = ".".join(map(str, (*path[:-1], "edges")))
        raise CannotChange(key, "the record gives the edges instead", f"set {edges}.0 and the others")


def find_value(raw: Any, path: Path) -> Any:
    """Return what stands at a path, None where nothing does."""
    for part in path:
        if isinstance(raw, dict):
            raw = raw.get(str(part))
        elif isinstance(raw, list) and isinstance(part, int) and part < len(raw):
            raw = raw[part]
        else:
            return None
    return raw


def _insert(text: str, layout: Layout, path: Path, *, value: str) -> str:
    """Put a new key behind the last one of its table, and the table behind the last one of its cylinder."""
    parent, name = path[:-1], str(path[-1])
    span = layout.spans.get(parent)
    if span is not None and span.kind == "inline":
        return _insert_inline(text, span, f"{name} = {value}")
    own = [s for s in layout.statements if s.table == parent]
    if own:
        return _insert_line(text, own[-1].end, f"{name} = {value}")
    dotted = [s for s in layout.statements if not s.is_header and s.path[: len(parent)] == parent]
    if dotted:
        start = parent[len(dotted[-1].table) :]
        return _insert_line(text, dotted[-1].end, ".".join(map(str, (*start, name))) + f" = {value}")
    outer = layout.spans.get(parent[:-1])
    if outer is not None and outer.kind == "inline":
        return _insert_inline(text, outer, f"{parent[-1]} = {{ {name} = {value} }}")
    heading = ".".join(str(part) for part in parent if not isinstance(part, int))
    return _insert_line(text, _find_end(layout.statements, parent, len(text)), f"[{heading}]", f"{name} = {value}")


def _find_end(statements: list[Statement], table: Path, end: int) -> int:
    """Find where a new table goes: behind its cylinder; a table of the engine behind everything else."""
    if len(table) == 1:
        return end
    block = [s.end for s in statements if s.path[: len(table) - 1] == table[:-1]]
    return max(block, default=end)


def _insert_line(text: str, at: int, *lines: str) -> str:
    newline = "\r\n" if "\r\n" in text else "\n"
    before = "" if at == 0 or text[at - 1] == "\n" else newline
    gap = newline if len(lines) > 1 and text[:at].strip() else ""
    return text[:at] + before + gap + "".join(line + newline for line in lines) + text[at:]


def _insert_inline(text: str, span: Span, pair: str) -> str:
    inside = text[span.start + 1 : span.end - 1]
    kept = inside.rstrip(" \t")
    joined = f"{kept}, {pair}" if kept.strip() else f" {pair}"
    return text[: span.start + 1] + joined + (inside[len(kept) :] or " " * (not kept.strip())) + text[span.end - 1 :]


def _is_as_wanted(old: str, new: str, path: Path, *, value: str) -> bool:
    """Read both again: the new record must differ from the old one in this key alone."""
    wanted, found = read_plain(old), read_plain(new)
    place: Any = wanted
    for part in path[:-1]:
        place = place[part] if isinstance(part, int) else place.setdefault(part, {})
        if not isinstance(place, dict | list):
            return False
    place[path[-1]] = value
    return found is not None and wanted == found


def read_plain(text: str) -> dict[str, Any] | None:
    """Read a text as TOML with every fraction as it is written; None where that fails."""
    try:
        return tomllib.loads(text.removeprefix("\ufeff"), parse_float=str)
    except ValueError:
        return None
