"""The record's keys as a JSON Schema, with which an editor checks and completes a record as it is typed."""

from __future__ import annotations

from typing import Any

from lapwright.record.contents import MOST_CYLINDERS
from lapwright.record.key import Key
from lapwright.record.keys import LISTS, TABLES, find_subtables
from lapwright.record.words import read_format, read_name, read_notes, read_purpose

_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_REQUIRED = {"": ["format", "engine", "cylinder"], "engine": ["name"]}
_EITHER = {"cylinder.port_face": ("steam_port", "bridge", "exhaust_port"), "cylinder.valve": ("length", "cavity")}
#: How many there may be of a table that may stand several times.
_COUNTS: dict[str, dict[str, int]] = {"cylinder": {"minItems": 1, "maxItems": MOST_CYLINDERS}}
#: Something besides a number: a unit, or the x of a thread.
_NOT_BARE = r"[^\d\s.,/+±-]"


def record_schema() -> dict[str, Any]:
    """Describe format 1 of the record as a JSON Schema, draft 2020-12.

    Example:
    >>> record_schema()["properties"]["format"]
    {'description': 'the format of this record', 'const': 1}
    """
    return {"$schema": _DIALECT, "title": "Engine record, format 1", **_describe_table("")}


def _describe_table(table: str) -> dict[str, Any]:
    parts = {name: _describe_key(key) for name, key in TABLES[table].items()}
    for name in find_subtables(table):
        whole = f"{table}.{name}" if table else name
        inner = _describe_table(whole)
        parts[name] = {"type": "array", **_COUNTS.get(whole, {}), "items": inner} if whole in LISTS else inner
    described: dict[str, Any] = {"type": "object", "properties": parts, "additionalProperties": False}
    if table in _REQUIRED:
        described["required"] = _REQUIRED[table]
    if table in _EITHER:
        described["not"] = {"anyOf": [{"required": ["edges", name]} for name in _EITHER[table]]}
    return described


def _describe_key(key: Key) -> dict[str, Any]:
    if key.read is read_format:
        return {"description": key.about, "const": 1}
    if key.words:
        return {"description": key.about, "enum": list(key.words)}
    if key.is_number:
        return {"description": key.about, "type": ["number", "string"], "examples": [float(key.example)]}
    text: dict[str, Any] = {"type": "string"}
    if key.read not in (read_name, read_notes, read_purpose) and not key.is_plain:
        text["pattern"] = _NOT_BARE
    if key.count:
        return {"description": key.about, "type": "array", "minItems": key.count, "maxItems": key.count, "items": text}
    return {"description": key.about, **text, "examples": [key.example]}
