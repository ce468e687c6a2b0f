"""What a record's text says, value by value, as the person wrote it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from lapwright.record.layout import Layout, Path


def list_written(text: str, raw: Mapping[str, Any], layout: Layout) -> dict[str, str]:
    r"""List every value of a record by its path: a text without its quotation marks, a plain number as it stands.

    Parameters
    ----------
    text: the record
    raw: the same, read as TOML
    layout: where everything stands in it

    Example:
    >>> from lapwright.record.syntax import load_tables
    >>> text = '[running]\ndischarge_coefficient = 0.650\nring_gap = "4 µm"\n'
    >>> list_written(text, *load_tables(text))
    {'running.discharge_coefficient': '0.650', 'running.ring_gap': '4 µm'}
    """
    found = {}
    for path, value in _walk(raw, ()):
        if isinstance(value, str):
            found[".".join(map(str, path))] = value
        elif path in layout.spans:
            span = layout.spans[path]
            found[".".join(map(str, path))] = text[span.start : span.end]
    return found


def _walk(raw: object, path: Path) -> Iterator[tuple[Path, object]]:
    if isinstance(raw, dict):
        items = iter(raw.items())
    elif isinstance(raw, list):
        items = iter(enumerate(raw))
    else:
        yield path, raw
        return
    for key, item in items:
        yield from _walk(item, (*path, key))
