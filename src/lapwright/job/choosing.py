"""The cures that were chosen, with the figures of the person's own: kept as open jobs in the log book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from math import degrees, radians
from typing import TYPE_CHECKING

from lapwright.cures import Cure
from lapwright.errors import BadInput, LapwrightError, NotThere
from lapwright.job.visit import Visit
from lapwright.logbook import Entry, EntryDraft, Reading
from lapwright.quantities import read_angle, read_length, show_number

if TYPE_CHECKING:
    from lapwright.job.workshop import Workshop

#: The names of the readings by which a choice is found again in the log book.
_CURE, _CYLINDER = "cure chosen", "cylinder"
_MOST = 200
#: As finely as figures are kept.
_PLACES = {"mm": 4, "deg": 3}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A cure that was chosen for a cylinder: the entry of the log book that keeps it, and its figures [SI]."""

    entry: Entry
    cylinder: str
    code: str
    changes: Mapping[str, float]


def find_unit(key: str) -> str:
    """Return in what a size of the record is told: "deg" or "mm".

    Parameters
    ----------
    key: record key of a cylinder

    Example:
    >>> find_unit("valve_drive.eccentric_angle"), find_unit("valve.length")
    ('deg', 'mm')
    """
    return "deg" if key.endswith("_angle") else "mm"


def find_cure(visit: Visit, cylinder: str, code: str) -> Cure:
    """Return one of an engine's cures.

    Parameters
    ----------
    visit: the engine
    cylinder: by its name
    code: of the cure

    Raises
    ------
    NotThere
    """
    for cure in visit.cures:
        if (cure.cylinder, cure.code) == (cylinder, code):
            return cure
    raise NotThere("such cure any more", "look at the findings again; the record may have changed")


def remake(visit: Visit, cure: Cure, changes: Mapping[str, float]) -> Cure:
    """Return a cure with other figures, or the cure itself where they are its own.

    Parameters
    ----------
    visit: the engine
    cure: one of its cures
    changes: record keys with their values [SI]; what is left out stays

    Raises
    ------
    DoesNotFit: they cannot be
    """
    from lapwright.cures.own_figures import remake_cure, takes_figures

    own = {key: value for key, value in changes.items() if key in cure.changes}
    if not takes_figures(cure) or all(
        _write(key, value) == _write(key, cure.changes[key]) for key, value in own.items()
    ):
        return cure
    return remake_cure(visit.engine, visit.findings, cure, changes=own)


def list_choices(workshop: Workshop, engine: str) -> dict[str, Choice]:
    """Return what was chosen and is not done yet, by cylinder.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine

    Raises
    ------
    CannotSave: there is no log book
    """
    entries = workshop.log.find_entries(engine=engine, words=_CURE, open_only=True, limit=_MOST)
    choices: dict[str, Choice] = {}
    for entry in entries:
        choice = _read_choice(entry)
        if choice is not None:
            choices.setdefault(choice.cylinder, choice)
    return choices


def _read_choice(entry: Entry) -> Choice | None:
    readings = {reading.name: reading.value for reading in entry.readings}
    if _CURE not in readings or _CYLINDER not in readings:
        return None
    try:
        changes = {key: _read(key, value) for key, value in readings.items() if "." in key}
    except BadInput:
        # Somebody wrote in the entry by hand.
        return None
    return Choice(entry=entry, cylinder=readings[_CYLINDER], code=readings[_CURE], changes=changes)


def find_chosen(visit: Visit, choices: Mapping[str, Choice]) -> Iterator[Cure]:
    """Yield the cures that were chosen, each with its figures; what the record no longer allows is passed over.

    Parameters
    ----------
    visit: the engine
    choices: by cylinder
    """
    for choice in choices.values():
        try:
            cure = find_cure(visit, choice.cylinder, choice.code)
            yield remake(visit, cure, choice.changes)
        except LapwrightError:
            continue


def visit_as_chosen(workshop: Workshop, engine: str) -> Visit:
    """Return the visit of an engine with the cures that were chosen in front of the others.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine

    Raises
    ------
    NotThere
    FlawedRecord
    CannotSave: there is no log book
    """
    visit = workshop.visit(engine)
    choices = list_choices(workshop, engine)
    return visit.choosing(tuple(find_chosen(visit, choices))) if choices else visit


def accept_cure(workshop: Workshop, engine: str, cure: Cure, *, now: datetime) -> Entry:
    """Note a cure as the job to be done; it takes the place of the one chosen for that cylinder before.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine
    cure: with the figures it is to be done with
    now: the time

    Raises
    ------
    LogChanged, CannotSave
    """
    figures = (Reading(key, _write(key, value)) for key, value in cure.changes.items())
    draft = EntryDraft(
        engine=engine,
        kind="note",
        job="open",
        text=f"To do, cylinder {cure.cylinder}: {cure.title} ({cure.work})",
        readings=(Reading(_CURE, cure.code), Reading(_CYLINDER, cure.cylinder), *figures),
    )
    before = list_choices(workshop, engine).get(cure.cylinder)
    if before is None:
        return workshop.log.add_entry(draft, now=now)
    return workshop.log.change_entry(before.entry.id, draft, seen=before.entry.version, now=now)


def drop_choice(workshop: Workshop, engine: str, cylinder: str) -> None:
    """Take back what was chosen for a cylinder; where nothing was, nothing happens.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine
    cylinder: by its name

    Raises
    ------
    LogChanged, CannotSave
    """
    before = list_choices(workshop, engine).get(cylinder)
    if before is not None:
        workshop.log.remove_entry(before.entry.id, seen=before.entry.version)


def _write(key: str, value: float) -> str:
    unit = find_unit(key)
    return f"{show_number(degrees(value) if unit == 'deg' else value * 1e3, _PLACES[unit])} {unit}"


def _read(key: str, written: str) -> float:
    return float(read_angle(written).si) if find_unit(key) == "deg" else float(read_length(written).si)


def to_si(key: str, figure: float) -> float:
    """Return a size of the record in SI.

    Parameters
    ----------
    key: record key of a cylinder
    figure: in the unit of `find_unit` [mm or deg]
    """
    return radians(figure) if find_unit(key) == "deg" else figure * 1e-3
