"""The work of a chosen cure done: the sizes as they were really made go into the record, and the job is closed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from lapwright.errors import FlawedRecord, NotThere
from lapwright.job.cure.choosing import CURE, Choice, list_choices, list_unmeasured, word_task
from lapwright.job.in_words import say_code, write_size
from lapwright.job.log.draft import FieldProblem, draft_of
from lapwright.job.measure.reading_back import read_back
from lapwright.job.shelf.changes import WORK_DONE
from lapwright.logbook import Reading
from lapwright.papers.measure_terms import call_size
from lapwright.record import OpenedRecord
from lapwright.record.comparing import read_written

if TYPE_CHECKING:
    from lapwright.job.shelf.workshop import Workshop
    from lapwright.logbook import Entry

#: What the reading is called once the work is done and measured.
_DONE = "cure done"
#: What stands behind the name of a size as it was made.
_AS_MADE = " as made"
#: Who makes a new valve makes these, whichever of them the cure asks for.
_OF_NEW_VALVE = ("valve.length", "valve.cavity")


@dataclass(frozen=True, slots=True)
class MadeSize:
    """A size that the work gives: its record path, its name, the figure it was to get, and what the record says."""

    path: str
    name: str
    wanted: str
    seen: str


@dataclass(frozen=True, slots=True)
class DoneWork:
    """The work on one cylinder, with what it was to come to; `is_open` until somebody says that it is done."""

    choice: Choice
    task: str
    sizes: tuple[MadeSize, ...]
    is_open: bool


def list_done_work(workshop: Workshop, engine: str, code: str) -> tuple[DoneWork, ...]:
    """Return the work of a chosen cure, by cylinder: what is to be done, and what was done and not measured yet.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine; its record may be flawed
    code: of the cure

    Raises
    ------
    NotThere: no such engine, or that cure is not chosen
    CannotSave: there is no log book
    """
    record = workshop.open_engine(engine)
    choices = list_choices(workshop, engine)
    done: dict[str, Choice] = {}
    with suppress(FlawedRecord):
        done = list_unmeasured(workshop, workshop.visit(engine), engine)
    asked = [each for _, each in sorted({**done, **choices}.items()) if each.code == code]
    if not asked:
        raise NotThere("such work any more", "look at the findings again: another cure may be chosen")
    return tuple(
        DoneWork(each, word_task(each), tuple(_list_sizes(record, each)), each.entry.job == "open") for each in asked
    )


def _list_sizes(record: OpenedRecord, choice: Choice) -> Iterator[MadeSize]:
    names = [] if record.engine is None else [sizes.name for sizes in record.engine.cylinders]
    if choice.cylinder not in names:
        return
    start, written = f"cylinder.{names.index(choice.cylinder)}", read_written(record.text)
    beside = _OF_NEW_VALVE if "new-valve" in choice.code.split("+") else ()
    for key in dict.fromkeys((*choice.changes, *beside)):
        path = f"{start}.{key}"
        seen = written.get(path, "")
        if key in choice.changes or seen:
            wanted = write_size(key, choice.changes[key]) if key in choice.changes else seen
            yield MadeSize(path, call_size(key), wanted, seen)


def judge_sizes(work: Iterable[DoneWork], written: Mapping[str, str]) -> tuple[FieldProblem, ...]:
    """Return what is amiss with the sizes as they were written, size by size.

    Parameters
    ----------
    work: that was done
    written: by record path
    """
    return tuple(
        problem for each in work for size in each.sizes for problem in _judge(size, written.get(size.path, ""))
    )


def _judge(size: MadeSize, written: str) -> Iterator[FieldProblem]:
    if not written.strip():
        yield FieldProblem(size.path, "no figure is written", f"measure it, and write it as in {size.wanted}")
        return
    read = read_back(size.path, written)
    if read.problem:
        yield FieldProblem(size.path, read.problem, read.instead)


def write_as_made(
    workshop: Workshop, engine: str, work: Iterable[DoneWork], *, written: Mapping[str, str], digest: str, now: datetime
) -> tuple[Entry, ...]:
    """Write the sizes as they were made into the record, in one step, and close the jobs.

    Parameters
    ----------
    workshop: with record and log book
    engine: id of the engine
    work: that was done
    written: by record path, as the person wrote them; they were judged before
    digest: of the record that was read
    now: the time

    Raises
    ------
    RecordClash: one of the sizes says something else by now
    NotThere, CannotChange, LogChanged, CannotSave
    """
    work = tuple(work)
    sizes = {size.path: size for each in work for size in each.sizes}
    values = {path: written[path].strip() for path, size in sizes.items() if written[path].strip() != size.seen}
    if values:
        seen = {path: sizes[path].seen or None for path in values}
        workshop.change_keys(engine, values, digest=digest, seen=seen, why=WORK_DONE)
    return tuple(_close(workshop, each, written, now=now) for each in work)


def _close(workshop: Workshop, work: DoneWork, written: Mapping[str, str], *, now: datetime) -> Entry:
    made = [(size.name, written[size.path].strip()) for size in work.sizes]
    kept = [reading for reading in work.choice.entry.readings if reading.name != CURE]
    told = ", ".join(f"{name} {value}" for name, value in made)
    readings = (
        Reading(_DONE, say_code(work.choice.code)),
        *kept,
        *(Reading(name + _AS_MADE, value) for name, value in made),
    )
    return _say_done(workshop, work, f"As made: {told}." if told else "", readings=readings, now=now)


def leave_unmeasured(workshop: Workshop, work: Iterable[DoneWork], *, now: datetime) -> tuple[Entry, ...]:
    """Close the jobs of work that was done while nobody measured yet what it came to.

    Parameters
    ----------
    workshop: with its log book
    work: that was done
    now: the time

    Raises
    ------
    LogChanged, CannotSave
    """
    return tuple(
        _say_done(workshop, each, "Not measured yet.", readings=each.choice.entry.readings, now=now)
        for each in work
        if each.is_open
    )


def _say_done(workshop: Workshop, work: DoneWork, told: str, *, readings: tuple[Reading, ...], now: datetime) -> Entry:
    entry = work.choice.entry
    first = f"Done, cylinder {work.choice.cylinder}: {work.task}. {told}".rstrip()
    text = "\n".join((first, *entry.text.split("\n")[1:]))
    draft = replace(draft_of(entry), kind="done", job="closed", text=text, readings=readings, when=now)
    return workshop.log.change_entry(entry.id, draft, seen=entry.version, now=now)


def reopen(workshop: Workshop, work: DoneWork, *, now: datetime) -> Entry:
    """Take back that some work was done: it is to be done again.

    Parameters
    ----------
    workshop: with its log book
    work: that is not done after all
    now: the time

    Raises
    ------
    LogChanged, CannotSave
    """
    entry = work.choice.entry
    text = "\n".join((f"To do, cylinder {work.choice.cylinder}: {work.task}", *entry.text.split("\n")[1:]))
    draft = replace(draft_of(entry), kind="note", job="open", text=text)
    return workshop.log.change_entry(entry.id, draft, seen=entry.version, now=now)
