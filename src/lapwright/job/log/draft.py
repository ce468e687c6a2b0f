"""An entry of the log as a person fills it in on a form: read into a draft, or told field by field what is amiss."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import cast

from lapwright.errors import BadInput, Unreadable
from lapwright.job.in_words import say_reading
from lapwright.job.log.reading import find_slipped_unit
from lapwright.logbook import Entry, EntryDraft, Reading
from lapwright.logbook.entry import Job, Kind

_HOURS = re.compile(
    r"(?P<hours>\d{1,4}(?:\.\d{1,4})?)\s*h(?:ours?|rs?)?(?:\s*(?P<minutes>\d{1,5})\s*(?:m|mins?|minutes?)?)?"
)
_MINUTES = re.compile(r"(?P<minutes>\d{1,6})\s*(?:m|mins?|minutes?)?")
_DAY_FIRST = re.compile(r"\A(?P<day>[0-9]{1,2})\.\s?(?P<month>[0-9]{1,2})\.\s?(?P<year>[0-9]{4})(?=\Z|\s)")
_CLOCK = re.compile(r"(?P<hours>\d{1,4}):(?P<minutes>[0-5]\d)")


@dataclass(frozen=True, slots=True)
class FilledForm:
    """What stands in the fields of a form, just as it was written; `readings` are pairs of name and value."""

    kind: str = "found"
    text: str = ""
    when: str = ""
    readings: tuple[tuple[str, str], ...] = ()
    parts_used: str = ""
    spent: str = ""
    job: str = ""
    engine: str = ""


@dataclass(frozen=True, slots=True)
class FieldProblem:
    """What is amiss in one field."""

    field: str
    message: str
    instead: str


@dataclass(frozen=True, slots=True)
class ReadEntryForm:
    """A form as read: the draft, or None and what is amiss."""

    draft: EntryDraft | None
    problems: tuple[FieldProblem, ...] = field(default=())


def read_entry_form(engine: str, filled: FilledForm, *, has_photographs: bool) -> ReadEntryForm:
    """Read a filled form.

    Parameters
    ----------
    engine: whose entry it is to be; nothing where none was chosen
    filled: the form
    has_photographs: whether photographs go with it, which may stand without a word
    """
    problems = [] if engine else [FieldProblem("engine", "no engine is chosen", "choose whose entry it is")]
    when = spent = None
    try:
        when = read_moment(filled.when)
    except BadInput as error:
        problems.append(FieldProblem("when", error.message, error.instead))
    try:
        spent = read_spent(filled.spent)
    except BadInput as error:
        problems.append(FieldProblem("spent", error.message, error.instead))
    problems += _judge_readings(filled.readings)
    draft = EntryDraft(
        engine=engine,
        # Whether they are words of the log is its own to say.
        kind=cast(Kind, filled.kind),
        text=filled.text.strip(),
        when=when,
        readings=tuple(Reading(name, value) for name, value in filled.readings if (name + value).strip()),
        parts_used=tuple(line for line in filled.parts_used.splitlines() if line.strip()),
        minutes=spent,
        job=cast(Job, filled.job),
    )
    if not (has_photographs or draft.text or draft.readings or draft.parts_used):
        problems.append(FieldProblem("text", "nothing is written yet", "write a line, a reading, or add a photograph"))
    return ReadEntryForm(None if problems else draft, tuple(problems))


def fill_form(draft: EntryDraft) -> FilledForm:
    """Return the form as it stands filled in for an entry that is already written.

    Parameters
    ----------
    draft: what the entry says, its time included
    """
    return FilledForm(
        kind=draft.kind,
        text=draft.text,
        when="" if draft.when is None else show_moment(draft.when),
        readings=tuple((reading.name, reading.value) for reading in draft.readings),
        parts_used="\n".join(draft.parts_used),
        spent="" if draft.minutes is None else show_spent(draft.minutes),
        job=draft.job,
    )


def draft_of(entry: Entry) -> EntryDraft:
    """Return what an entry says as a draft, to be changed or written once more.

    Parameters
    ----------
    entry: as it stands in the log
    """
    return EntryDraft(
        engine=entry.engine,
        kind=entry.kind,
        text=entry.text,
        when=entry.when,
        readings=entry.readings,
        parts_used=entry.parts_used,
        minutes=entry.minutes,
        job=entry.job,
    )


def say_readings(draft: EntryDraft) -> EntryDraft:
    """Return a draft with its readings as they are shown, without codes and record keys of earlier logs.

    Parameters
    ----------
    draft: what the entry says
    """
    readings = tuple(Reading(*say_reading(each.name, each.value)) for each in draft.readings)
    return replace(draft, readings=readings)


def read_moment(written: str) -> datetime | None:
    """Read the clock time on the bench; None where the field is empty.

    Parameters
    ----------
    written: `2026-03-02 14:05` or `02.03.2026 14:05`, or the day alone

    Raises
    ------
    Unreadable

    Example:
    >>> read_moment("2026-03-02 14:05"), read_moment(" ")
    (datetime.datetime(2026, 3, 2, 14, 5), None)
    >>> read_moment("2.3.2026")
    datetime.datetime(2026, 3, 2, 0, 0)
    """
    plain = _DAY_FIRST.sub(_put_year_first, " ".join(written.split()))
    if not plain:
        return None
    try:
        return datetime.fromisoformat(plain).replace(tzinfo=None)
    except ValueError:
        ways = ("2026-03-02 14:05", "02.03.2026 14:05", "2026-03-02")
        raise Unreadable(written.strip()[:40], "a day and a time", ways) from None


def _put_year_first(found: re.Match[str]) -> str:
    return f"{found['year']}-{int(found['month']):02}-{int(found['day']):02}"


def show_moment(when: datetime) -> str:
    """Show the clock time on the bench as it is written into the field.

    Parameters
    ----------
    when: the time

    Example:
    >>> show_moment(datetime(2026, 3, 2, 14, 5, 59))
    '2026-03-02 14:05'
    """
    return when.strftime("%Y-%m-%d %H:%M")


def read_spent(written: str) -> int | None:
    """Read how much time was spent [-], in whole minutes; None where the field is empty.

    Parameters
    ----------
    written: `45`, `45 min`, `1 h 30`, `1.5 h` or `1:30`

    Raises
    ------
    Unreadable

    Example:
    >>> read_spent("45"), read_spent("1 h 30 min"), read_spent("1.5 h"), read_spent("1:30"), read_spent("")
    (45, 90, 90, 90, None)
    """
    plain = written.strip().lower()
    if not plain:
        return None
    found = next((match for way in (_MINUTES, _CLOCK, _HOURS) if (match := way.fullmatch(plain))), None)
    if found is None:
        raise Unreadable(written.strip()[:40], "a time spent", ("45 min", "1 h 30", "1:30"))
    parts = found.groupdict()
    return round(60 * float(parts.get("hours") or 0)) + int(parts.get("minutes") or 0)


def show_spent(minutes: int) -> str:
    """Show how much time was spent.

    Parameters
    ----------
    minutes: the whole of it [-]

    Example:
    >>> show_spent(45), show_spent(120), show_spent(150)
    ('45 min', '2 h', '2 h 30 min')
    """
    hours, rest = divmod(minutes, 60)
    return " ".join([*([f"{hours} h"] if hours else []), *([f"{rest} min"] if rest or not hours else [])])


def _judge_readings(readings: Sequence[tuple[str, str]]) -> Iterator[FieldProblem]:
    """Each is told at its own field; they are counted from 1, those left empty not among them."""
    filled = [(name.strip(), value.strip()) for name, value in readings if (name + value).strip()]
    for number, (name, value) in enumerate(filled, 1):
        if not value:
            yield FieldProblem(
                f"reading-value-{number}", f'"{name[:40]}" has no value', "write what was read beside it"
            )
        if not name:
            yield FieldProblem(f"reading-name-{number}", f'"{value[:40]}" has no name', "write what it is a reading of")
        if slipped := find_slipped_unit(value):
            written, meant = slipped
            right = value.removesuffix(written) + meant
            yield FieldProblem(f"reading-value-{number}", f'unit "{written}" is not known here', f'write "{right}"')
