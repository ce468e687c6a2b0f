"""Where in an engine a size of its record belongs, in words: the cylinder and the part of it, the screw, the pin."""

from __future__ import annotations

from collections.abc import Sequence

_PARTS = {
    "": "The record",
    "engine": "The engine",
    "cylinder": "Cylinder",
    "target": "What is wanted",
    "running": "Running",
    "bench_test": "Bench test",
    "fastener": "Screws",
    "pin": "Pin",
    "finish": "Paint",
}


def name_place(key: str, cylinders: Sequence[str]) -> str:
    """Return where a size belongs.

    Parameters
    ----------
    key: its record path
    cylinders: the names of the engine's cylinders, as far as they are known

    Example:
    >>> name_place("cylinder.0.port_face.bridge", ["A"]), name_place("fastener.1.thread", [])
    ('Cylinder A, port face', 'Screws 2')
    """
    parts = key.split(".")
    last = len(parts) - (2 if parts[-1].isdigit() else 1)
    table, *rest = parts[:last] or [""]
    words = [_PARTS.get(table, _spell(table))]
    if rest and rest[0].isdigit():
        place = int(rest.pop(0))
        is_known = table == "cylinder" and place < len(cylinders)
        words.append(cylinders[place] if is_known else str(place + 1))
    tail = " ".join(str(int(part) + 1) if part.isdigit() else _spell(part) for part in rest)
    return " ".join(words) + (f", {tail}" if tail else "")


def _spell(part: str) -> str:
    return part.replace("_", " ")
