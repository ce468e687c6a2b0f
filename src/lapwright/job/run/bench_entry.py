"""Bench tests entered into a record, and what they tell written into it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from lapwright.errors import BadInput, CannotRun, RecordChanged
from lapwright.logbook import Entry, EntryDraft, Reading
from lapwright.record import add_place, change_record, read_record
from lapwright.record.keys import TABLES

if TYPE_CHECKING:
    from lapwright.job.run.calibration import CalibrationReport
    from lapwright.job.shelf.changes import Changed
    from lapwright.job.shelf.workshop import Workshop
    from lapwright.job.visit import Visit

_TABLE = "bench_test"
#: What each kind of test asks for, what it cannot do without first.
KINDS: Mapping[str, tuple[str, ...]] = {
    "steady": ("supply_pressure", "speed", "load", "air_flow", "exhaust_pressure", "fluid", "dead", "note"),
    "run_down": ("run_down_from", "run_down_time", "note"),
    "decay": ("decay_from", "decay_to", "decay_time", "decay_volume", "note"),
}


@dataclass(frozen=True, slots=True)
class Field:
    """One thing that a test asks for: its key, what it means, how it is written, the words it may be."""

    key: str
    about: str
    example: str
    words: tuple[str, ...]
    needed: bool


#: What each kind cannot do without.
_NEEDED = {"supply_pressure", "speed", "run_down_from", "run_down_time", *KINDS["decay"][:-1]}


def list_fields(kind: str) -> tuple[Field, ...]:
    """Return what a kind of test asks for.

    Parameters
    ----------
    kind: one of `KINDS`
    """
    keys = TABLES[_TABLE]
    return tuple(Field(key, keys[key].about, keys[key].example, keys[key].words, key in _NEEDED) for key in KINDS[kind])


def enter_test(workshop: Workshop, engine: str, written: Mapping[str, str]) -> Changed:
    """Write a bench test into an engine's record; a test that is not whole is refused, and nothing written.

    Parameters
    ----------
    workshop: with the record
    engine: id of the engine
    written: as the person wrote it, by key; what is empty or no key of a test is left out

    Raises
    ------
    BadInput: it is not whole, or a figure cannot be
    NotThere, CannotChange, RecordChanged, CannotSave
    """
    record = workshop.open_engine(engine)
    text, place = add_place(record.text, _TABLE)
    values = {f"{place}.{key}": value.strip() for key, value in written.items() if key in TABLES[_TABLE]}
    given = {key: value for key, value in values.items() if value}
    if not given.keys() - {f"{place}.note", f"{place}.fluid"}:
        raise BadInput("nothing measured stands in the test", "write what was read")
    text = change_record(text, given)
    known = {(problem.code, problem.key, problem.message) for problem in record.problems}
    for problem in read_record(text.encode("utf-8"), source=record.source).problems:
        if problem.key.startswith(place) and (problem.code, problem.key, problem.message) not in known:
            raise BadInput(problem.message, problem.instead)
    return workshop.replace_text(engine, text, digest=record.digest)


def look_at_tests(visit: Visit) -> CalibrationReport | CannotRun:
    """Return what the bench tests tell, or the refusal that says why they tell nothing.

    Parameters
    ----------
    visit: the engine
    """
    from lapwright.job.run.calibration import report_calibration

    try:
        return report_calibration(visit)
    except CannotRun as error:
        return error


def write_calibration(workshop: Workshop, engine: str, *, digest: str) -> Changed:
    """Write what the bench tests tell into the record.

    Parameters
    ----------
    workshop: with the record
    engine: id of the engine
    digest: of the record whose tests were looked at

    Raises
    ------
    BadInput: the tests tell nothing that could be written
    RecordChanged: the record is another by now
    CannotRun, CannotChange, CannotSave
    """
    from lapwright.job.run.calibration import report_calibration

    visit = workshop.visit(engine)
    if visit.record.digest != digest:
        raise RecordChanged(Path(visit.record.source).name)
    report = report_calibration(visit)
    if not report.lines:
        raise BadInput("the tests tell nothing yet that could be written", "clear up what they disagree on first")
    text = change_record(visit.record.text, {f"running.{key}": value for key, value in report.lines.items()})
    return workshop.replace_text(engine, text, digest=digest)


#: What may be noted of a run, in the order in which it is written.
RUN_READINGS = ("on", "pressure", "speed", "load", "turned_over_at", "air")
_CALLED: Mapping[str, str] = {"turned_over_at": "turned over at", "air": "free air"}


def note_run(workshop: Workshop, engine: str, written: Mapping[str, str], *, now: datetime) -> Entry:
    """Write into the log book that an engine was run, with what was read.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine
    written: what was read, by `RUN_READINGS`, and "words" and "minutes", all as the person wrote it
    now: the time

    Raises
    ------
    BadInput: nothing was written, or the minutes are none
    NotThere, CannotSave
    """
    workshop.open_engine(engine)
    said = {key: " ".join(written.get(key, "").split()) for key in RUN_READINGS}
    readings = tuple(Reading(_CALLED.get(key, key), value) for key, value in said.items() if value)
    words, minutes = written.get("words", "").strip(), written.get("minutes", "").strip()
    if not readings and not words:
        raise BadInput("nothing was written down", "write what it was run on, or how it went")
    if minutes and not (minutes.isascii() and minutes.isdigit()):
        raise BadInput(f'"{minutes[:20]}" is no number of minutes', 'write whole minutes, as "20"')
    draft = EntryDraft(
        engine=engine,
        kind="run",
        text=words,
        readings=readings,
        minutes=int(minutes) if minutes else None,
    )
    return workshop.log.add_entry(draft, now=now)
