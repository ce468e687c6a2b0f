"""Files that come from elsewhere: read with limits, nothing in them trusted, no path of theirs ever used."""

from __future__ import annotations

import io
import json
import re
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from datetime import datetime
from functools import partial
from typing import Any, cast

from lapwright.errors import LapwrightError, NotAnArchive, TooLarge
from lapwright.job.shelf.archive import LOG, LOG_FORMAT, PHOTOGRAPHS, RECORD
from lapwright.logbook import Entry, EntryDraft, LogBook, Reading
from lapwright.record.comparing import read_key, read_written
from lapwright.record.problem import Problem
from lapwright.record.syntax import LARGEST, decode_text

#: Limits of an archive: bytes of it, files in it, and bytes of all that is unpacked of it.
MOST_BYTES, MOST_FILES = 100_000_000, 3_000
_MOST_UNPACKED = 300_000_000
_MOST_LOG, _MOST_ENTRIES, _MOST_PHOTOGRAPH = 20_000_000, 20_000, 25_000_000
_ENTRY_MARK = b"PK\x01\x02"
_STARTS = (b"PK\x03\x04", b"PK\x05\x06")
#: Others need more memory than the size of what they unpack tells.
_WAYS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
#: What tells a record under any name.
_KNOWN = ("engine.", "cylinder.")
_DAMAGED = "it is damaged, or was not made by the shelf"
_LONGEST_SHOWN = 60


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph of an entry that is brought in: what it is called, and how its bytes are read."""

    name: str
    read: Callable[[], bytes]


@dataclass(frozen=True, slots=True)
class Arrival:
    """What came: a name for the engine, its record, and the entries of its log, each with its photographs."""

    name: str
    text: str
    entries: tuple[tuple[EntryDraft, tuple[Picture, ...]], ...] = ()


def read_arrival(filename: str, data: bytes) -> Arrival:
    """Read an archive or a bare record, flawed or not.

    Parameters
    ----------
    filename: what it was called; only shown, and the engine's name where the record gives none
    data: its bytes

    Raises
    ------
    TooLarge, NotAnArchive
    """
    name = "".join(c for c in re.split(r"[/\\]", filename)[-1] if c.isprintable())[:_LONGEST_SHOWN] or "the file"
    if len(data) > MOST_BYTES:
        raise TooLarge(name, f"{MOST_BYTES // 1_000_000} MB")
    if data.startswith(_STARTS):
        with _said_plainly(name):
            return _read_archive(name, data)
    text = _read_text(name, data)
    return Arrival(_name_engine(text, name), text)


def _read_text(name: str, data: bytes) -> str:
    text, is_called_record = decode_text(data), name.lower().endswith(".toml")
    if isinstance(text, Problem) and is_called_record:
        raise NotAnArchive(name, text.message, text.instead)
    if isinstance(text, Problem) or not (is_called_record or _speaks_of_engine(text)):
        raise NotAnArchive(name, "it is neither an archive from a shelf nor an engine record")
    return text


def _speaks_of_engine(text: str) -> bool:
    return any(key.startswith(("engine.", "cylinder.")) for key in read_written(text))


def _name_engine(text: str, filename: str) -> str:
    return read_key(text, "engine.name") or filename.rpartition(".")[0] or filename


@contextmanager
def _said_plainly(name: str) -> Iterator[None]:
    """Say in one sentence that an archive is damaged, in whatever way its reader falls over it."""
    try:
        yield
    except LapwrightError:
        raise
    except Exception as error:
        raise NotAnArchive(name, _DAMAGED) from error


class _Members:
    """The files of an archive, read by name and within what is left of the limit."""

    def __init__(self, name: str, data: bytes) -> None:
        # Counted before the list is read, which alone could fill the memory.
        if data.count(_ENTRY_MARK) > MOST_FILES:
            raise TooLarge(name, f"{MOST_FILES} files")
        self.name = name
        self.archive = zipfile.ZipFile(io.BytesIO(data))
        self.names = set(self.archive.namelist())
        self.left = _MOST_UNPACKED
        # Somebody may have unpacked it, looked, and packed the folder again.
        records = [member for member in self.names if member == RECORD or member.endswith(f"/{RECORD}")]
        self.folder = records[0].removesuffix(RECORD) if len(records) == 1 else ""

    def has(self, member: str) -> bool:
        """Whether there is a file of this name."""
        return self.folder + member in self.names

    def read(self, member: str, most: int) -> bytes | None:
        """Read a file; None where there is none of this name."""
        if not self.has(member):
            return None
        info = self.archive.getinfo(self.folder + member)
        if info.compress_type not in _WAYS or info.flag_bits & 1:
            raise NotAnArchive(self.name, "it is locked, or packed in an unusual way", "pack it as a plain zip")
        most = min(most, self.left)
        with self.archive.open(info) as file:
            data = file.read(most + 1)
        if len(data) > most:
            raise TooLarge(f"{member} in {self.name}", f"{max(most, 1) / 1e6:.3g} MB")
        self.left -= len(data)
        return data


def _read_archive(name: str, data: bytes) -> Arrival:
    members = _Members(name, data)
    record = members.read(RECORD, LARGEST)
    if record is None:
        raise NotAnArchive(name, f"there is no {RECORD} in it")
    text = _read_text(f"{RECORD} in {name}", record)
    return Arrival(_name_engine(text, name), text, tuple(_read_log(members)))


def _read_log(members: _Members) -> Iterator[tuple[EntryDraft, tuple[Picture, ...]]]:
    data = members.read(LOG, _MOST_LOG)
    if data is None:
        return
    told = json.loads(data)
    if told["format"] != LOG_FORMAT:
        raise NotAnArchive(members.name, f"its {LOG} is of a later version of lapwright", "use that version")
    if len(told["entries"]) > _MOST_ENTRIES:
        raise TooLarge(f"{LOG} in {members.name}", f"{_MOST_ENTRIES} entries")
    for entry in told["entries"]:
        yield _read_entry(entry), tuple(_list_pictures(entry, members))


def _read_entry(told: dict[str, Any]) -> EntryDraft:
    """Read an entry; whether its words and figures can stand in a log book is the log book's to say."""
    minutes = told["minutes"]
    if minutes is not None and type(minutes) is not int:
        raise ValueError("minutes")
    return EntryDraft(
        engine="",
        kind=cast("Any", _want_text(told["kind"])),
        text=_want_text(told["text"]),
        when=datetime.fromisoformat(told["when"]),
        readings=tuple(Reading(_want_text(r["name"]), _want_text(r["value"])) for r in told["readings"]),
        parts_used=tuple(_want_text(part) for part in told["parts_used"]),
        minutes=minutes,
        job=cast("Any", _want_text(told["job"])),
    )


def _list_pictures(told: dict[str, Any], members: _Members) -> Iterator[Picture]:
    """List the photographs of an entry that are there; some may have been taken out to make the file smaller."""
    for picture in told["photographs"]:
        member, name = _want_text(picture["file"]), _want_text(picture["name"])
        if member.startswith(PHOTOGRAPHS) and members.has(member):
            yield Picture(name, partial(_read_picture, members, member))


def _read_picture(members: _Members, member: str) -> bytes:
    with _said_plainly(members.name):
        return members.read(member, _MOST_PHOTOGRAPH) or b""


def _want_text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError("a text is wanted")
    return value


@contextmanager
def put_into_log(arrival: Arrival, engine: str, log: LogBook, *, now: datetime) -> Iterator[None]:
    """Put the entries that came into the log book, with their photographs: all, or none if the block then fails too.

    Parameters
    ----------
    arrival: what came
    engine: the id it gets here
    log: the log book
    now: the time

    Raises
    ------
    CannotSave, TooLarge, NotAPhotograph, NotAnArchive, and what the log book says of an entry that it cannot take
    """
    added: list[Entry] = []
    try:
        for draft, pictures in arrival.entries:
            added.append(log.add_entry(replace(draft, engine=engine), now=now))
            for picture in pictures:
                log.add_photograph(added[-1].id, picture.read(), name=picture.name, now=now)
        yield
    except LapwrightError:
        for entry in added:
            with suppress(LapwrightError):
                log.remove_entry(entry.id, seen=entry.version)
        raise
