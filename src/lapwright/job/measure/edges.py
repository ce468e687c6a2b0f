"""A port face or a valve told the other way: by its edges where its ends differ, else by its widths."""

from __future__ import annotations

from itertools import pairwise

from lapwright.engine.assume import assume_missing
from lapwright.errors import CannotChange
from lapwright.quantities.length import LENGTH, read_length
from lapwright.record import OpenedRecord, change_record, drop_key
from lapwright.record.changing import read_path
from lapwright.record.comparing import read_written
from lapwright.record.problem import Problem
from lapwright.record.syntax import load_tables

#: What a part is told by, the first of them taking the place of the edges.
WIDTHS = {"port_face": ("steam_port", "bridge", "exhaust_port"), "valve": ("length", "cavity")}

#: Points in a path such as `cylinder.0.valve`.
_PARTS = 2


def turn_edges(record: OpenedRecord, path: str) -> str:
    r"""Return the record's text with edges in place of widths, or widths in place of edges.

    Widths are taken for edges as they are, or as they are assumed where some are not given; edges become the mean
    widths of both ends.

    Parameters
    ----------
    record: as read
    path: of the port face or of the valve, such as `cylinder.0.valve`

    Raises
    ------
    CannotChange: no such part, or too little is known of it

    Example:
    >>> from lapwright.record import read_record
    >>> text = '[engine]\nname = "Tern"\n[[cylinder]]\n[cylinder.valve]\nlength = "14 mm"\ncavity = "8 mm"\n'
    >>> turn_edges(read_record(text.encode()), "cylinder.0.valve").splitlines()[-1]
    'edges = ["0 mm", "3 mm", "11 mm", "14 mm"]'
    """
    table = path.rpartition(".")[2]
    if table not in WIDTHS or path.count(".") != _PARTS:
        raise CannotChange(path, "it has no edges", "name one as in cylinder.0.valve")
    written = read_written(record.text)
    edges = [text for key, text in written.items() if key.startswith(f"{path}.edges.")]
    return _give_widths(record, path, edges) if edges else _give_edges(record, path, written.get(_first(path), ""))


def _first(path: str) -> str:
    return f"{path}.{WIDTHS[path.rpartition('.')[2]][0]}"


def _give_edges(record: OpenedRecord, path: str, like: str) -> str:
    table = path.rpartition(".")[2]
    sizes = _find_sizes(record, path)
    widths = [sizes.get(f"{table}.{name}") for name in WIDTHS[table]]
    known = [width for width in widths if width is not None]
    if len(known) < len(widths) or not like:
        names = " and ".join(name.replace("_", " ") for name in WIDTHS[table])
        raise CannotChange(path, "its widths are not given yet", f"give {names} as well as they can be told")
    unit = read_length(like).unit
    shown = ", ".join(f'"{_show(edge, unit)}"' for edge in _add_up(table, known))
    text = record.text
    for name in WIDTHS[table][1:]:
        text = drop_key(text, f"{path}.{name}")
    new = _swap_key(text, _first(path), name="edges", value=f"[{shown}]")
    return _make_sure(new, path, count=len(_add_up(table, known)))


def _add_up(table: str, widths: list[float]) -> list[float]:
    """The edges from the head-end one on [m]."""
    if table == "valve":
        length, cavity = widths
        return [0.0, (length - cavity) / 2, (length + cavity) / 2, length]
    port, bridge, exhaust = widths
    edges = [0.0]
    for width in (port, bridge, exhaust, bridge, port):
        edges.append(edges[-1] + width)
    return edges


def _give_widths(record: OpenedRecord, path: str, edges: list[str]) -> str:
    table = path.rpartition(".")[2]
    sizes = _find_sizes(record, path)
    known = [sizes.get(f"{table}.edges.{place}") for place in range(len(edges))]
    places = [edge for edge in known if edge is not None]
    if len(places) != len(known) or len(places) not in (4, 6):
        raise CannotChange(path, "its edges cannot be read", "mend them first")
    unit = read_length(edges[-1]).unit
    steps = [b - a for a, b in pairwise(places)]
    means = [(a + b) / 2 for a, b in zip(steps, reversed(steps), strict=True)]
    widths = [places[-1] - places[0], means[1]] if table == "valve" else means[:3]
    text = _swap_key(record.text, f"{path}.edges", name=WIDTHS[table][0], value=f'"{_show(widths[0], unit)}"')
    others = zip(WIDTHS[table][1:], widths[1:], strict=True)
    return change_record(text, {f"{path}.{name}": _show(width, unit) for name, width in others})


def _find_sizes(record: OpenedRecord, path: str) -> dict[str, float]:
    number = path.split(".")[1]
    cylinders = () if record.engine is None else record.engine.cylinders
    if not number.isdigit() or int(number) >= len(cylinders):
        raise CannotChange(path, "the record has no such cylinder", "count cylinders from 0")
    return dict(assume_missing(cylinders[int(number)]).numbers)


def _show(metres: float, unit: str) -> str:
    return f"{metres / float(LENGTH.units[unit][1]):.6g} {unit}"


def _swap_key(text: str, key: str, *, name: str, value: str) -> str:
    """Put another key with its value in the place of one."""
    loaded, path = load_tables(text), read_path(key)
    if isinstance(loaded, Problem) or path not in loaded[1].starts or path not in loaded[1].spans:
        raise CannotChange(key, "the record leaves no sure place for it", "change it by hand")
    start, span = loaded[1].starts[path], loaded[1].spans[path]
    head, old, tail = text[start : span.start].rpartition(str(path[-1]))
    if not old:
        raise CannotChange(key, "the record leaves no sure place for it", "change it by hand")
    return text[:start] + head + name + tail + value + text[span.end :]


def _make_sure(text: str, path: str, *, count: int) -> str:
    edges = [key for key in read_written(text) if key.startswith(f"{path}.edges.")]
    if len(edges) != count:
        raise CannotChange(path, "the record leaves no sure place for its edges", "change it by hand")
    return text
