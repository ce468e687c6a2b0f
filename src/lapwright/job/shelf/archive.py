"""One engine as a file to give away: its record, its log and its photographs in a zip that says what is in it."""

from __future__ import annotations

import hashlib
import io
import json
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from lapwright.errors import NotAPhotograph, NotThere
from lapwright.logbook import Entry, LogBook, Photograph

RECORD, LOG, PHOTOGRAPHS, README = "record.toml", "log.json", "photographs/", "README.txt"
LOG_FORMAT = 1
_PAGE = 500
_README = """\
{name}: one engine from a workshop, as lapwright keeps it.

record.toml   the sizes of the engine: a plain text that any editor opens
log.json      its log book, the oldest entry first; entries: {entries}
photographs/  what was photographed, upright, without place, time and camera; photographs: {photographs}

To have it on another bench, bring this file in there as it is.
"""
_LEFT_OUT = "\nThese photographs could not be read and are not in here:\n"


@dataclass(slots=True)
class _Packed:
    """The photographs of an archive: its files by name, which file each became, and those that could not be read."""

    files: dict[str, bytes] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)
    left_out: list[str] = field(default_factory=list)


def pack_archive(engine: str, record: bytes, log: LogBook | None) -> bytes:
    """Pack an engine's record, log and photographs.

    Parameters
    ----------
    engine: its id
    record: the bytes of its file
    log: the log book, None where there is none
    """
    entries = [] if log is None else list(_list_oldest_first(engine, log))
    packed = _Packed()
    for entry in entries:
        for photograph in entry.photographs:
            if log is not None and photograph.digest not in packed.names:
                _pack_photograph(photograph, log, packed)
    told = {"format": LOG_FORMAT, "engine": engine, "entries": [_tell_entry(entry, packed) for entry in entries]}
    about = _README.format(name=engine, entries=len(entries), photographs=len(packed.files))
    if packed.left_out:
        about += _LEFT_OUT + "".join(f"{name}\n" for name in packed.left_out)
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(RECORD, record)
        archive.writestr(LOG, json.dumps(told, ensure_ascii=False, indent=2))
        archive.writestr(README, about)
        for name, data in packed.files.items():
            # A photograph is packed already.
            archive.writestr(name, data, zipfile.ZIP_STORED)
    return file.getvalue()


def _list_oldest_first(engine: str, log: LogBook) -> Iterator[Entry]:
    pages = [log.find_entries(engine=engine, limit=_PAGE)]
    while len(pages[-1]) == _PAGE:
        pages.append(log.find_entries(engine=engine, before=pages[-1][-1].id, limit=_PAGE))
    for page in reversed(pages):
        yield from reversed(page)


def _pack_photograph(photograph: Photograph, log: LogBook, packed: _Packed) -> None:
    try:
        data = log.photograph_for_export(photograph.digest)
    except (NotThere, NotAPhotograph):
        packed.left_out.append(photograph.name)
        return
    name = f"{PHOTOGRAPHS}{hashlib.sha256(data).hexdigest()}.{photograph.form}"
    packed.files[name] = data
    packed.names[photograph.digest] = name


def _tell_entry(entry: Entry, packed: _Packed) -> dict[str, Any]:
    return {
        "when": entry.when.isoformat(),
        "kind": entry.kind,
        "text": entry.text,
        "readings": [{"name": reading.name, "value": reading.value} for reading in entry.readings],
        "parts_used": list(entry.parts_used),
        "minutes": entry.minutes,
        "job": entry.job,
        "photographs": [
            {"file": packed.names[photograph.digest], "name": photograph.name}
            for photograph in entry.photographs
            if photograph.digest in packed.names
        ],
    }
