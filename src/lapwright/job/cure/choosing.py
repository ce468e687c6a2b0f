"""The cures that were chosen, with the figures of the person's own: kept as open jobs in the log book."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from lapwright.cures import Cure, find_cures
from lapwright.cures.cure import WORKS
from lapwright.errors import BadInput, CannotSave, DoesNotFit, LapwrightError, NotThere
from lapwright.findings import find_faults
from lapwright.job.in_words import find_code, find_size, read_size, say_code, write_size
from lapwright.job.log.draft import draft_of
from lapwright.job.visit import Visit
from lapwright.logbook import Entry, EntryDraft, Reading
from lapwright.papers.measure_terms import call_size

if TYPE_CHECKING:
    from lapwright.job.shelf.workshop import Workshop

#: The names of the readings by which a choice is found again in the log book.
CURE, CYLINDER = "cure chosen", "cylinder"
#: What stands behind the name of a size as it was before the work.
_AS_FOUND = " as found"
_MOST = 200
#: How the words of a choice begin.
_TO_DO = "To do, cylinder"


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A cure that was chosen for a cylinder: the entry of the log book that keeps it, and its figures [SI].

    It is chosen for as long as that entry is an open job. `found` are the sizes as they were when it was chosen [SI].
    """

    entry: Entry
    cylinder: str
    code: str
    changes: Mapping[str, float]
    found: Mapping[str, float]


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
    # What each gains by a run does not matter here, and takes long.
    cures = visit.cures if "cures" in vars(visit) else find_cures(visit.engine, find_faults(visit.engine))
    for cure in cures:
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
        write_size(key, value) == write_size(key, cure.changes[key]) for key, value in own.items()
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
    entries = workshop.log.find_entries(engine=engine, words=CURE, open_only=True, limit=_MOST)
    return _read_choices(entries)


def list_unmeasured(workshop: Workshop, visit: Visit, engine: str) -> dict[str, Choice]:
    """Return what was chosen and done while nobody wrote down the sizes that it came to, by cylinder.

    Parameters
    ----------
    workshop: with its log book
    visit: the engine; once one of the sizes says something else in its record, it was measured
    engine: id of the engine

    Raises
    ------
    CannotSave: there is no log book
    """
    entries = workshop.log.find_entries(engine=engine, words=CURE, limit=_MOST)
    done = _read_choices(entry for entry in entries if entry.job == "closed")
    sizes = {each.name: each.numbers for each in visit.cylinders}
    return {
        name: choice
        for name, choice in done.items()
        if choice.found and _say_sizes(choice.found) == _say_sizes(sizes.get(name, {}), choice.found)
    }


def _say_sizes(sizes: Mapping[str, float], keys: Iterable[str] = ()) -> dict[str, str]:
    return {key: write_size(key, sizes[key]) for key in keys or sizes if key in sizes}


def _read_choices(entries: Iterable[Entry]) -> dict[str, Choice]:
    choices: dict[str, Choice] = {}
    for entry in entries:
        choice = read_choice(entry)
        if choice is not None:
            # The newest entry comes first, and it counts.
            choices.setdefault(choice.cylinder, choice)
    return dict(sorted(choices.items()))


def read_choice(entry: Entry) -> Choice | None:
    """Read the choice that an entry of the log keeps; None where it keeps none.

    Parameters
    ----------
    entry: of the log book
    """
    readings = {reading.name: reading.value for reading in entry.readings}
    if CURE not in readings or CYLINDER not in readings:
        return None
    changes: dict[str, float] = {}
    found: dict[str, float] = {}
    for name, value in readings.items():
        key, kept = find_size(name.removesuffix(_AS_FOUND)), found if name.endswith(_AS_FOUND) else changes
        try:
            kept.update({key: read_size(key, value)} if key else {})
        except BadInput:
            # Somebody wrote in the entry by hand.
            return None
    return Choice(
        entry=entry, cylinder=readings[CYLINDER], code=find_code(readings[CURE]), changes=changes, found=found
    )


def remake_choice(visit: Visit, choice: Choice) -> Cure:
    """Return the cure that was chosen, with its figures.

    Parameters
    ----------
    visit: the engine
    choice: what was chosen

    Raises
    ------
    NotThere: the record knows of no such cure any more
    DoesNotFit: its figures cannot be any more, or have become others
    """
    cure = remake(visit, find_cure(visit, choice.cylinder, choice.code), choice.changes)
    sizes = next(each for each in visit.cylinders if each.name == choice.cylinder)
    if _say_sizes(sizes.replacing(cure.changes).numbers, choice.changes) != _say_sizes(choice.changes):
        raise DoesNotFit("by the record it would come to other figures now", "choose it again")
    return cure


def find_chosen(visit: Visit, choices: Mapping[str, Choice]) -> Iterator[Cure]:
    """Yield the cures that were chosen, each with its figures; what the record no longer allows is passed over.

    Parameters
    ----------
    visit: the engine
    choices: by cylinder
    """
    for choice in choices.values():
        with suppress(LapwrightError):
            yield remake_choice(visit, choice)


def visit_as_chosen(workshop: Workshop, engine: str) -> Visit:
    """Return the visit of an engine with the cures that were chosen in front of the others, and without what is done.

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
    choices, done = list_choices(workshop, engine), list_unmeasured(workshop, visit, engine)
    if not choices and not done:
        return visit
    told = {name: tell_unmeasured(choice) for name, choice in done.items() if name not in choices}
    return visit.choosing(
        tuple(find_chosen(visit, choices)),
        done=tuple(find_chosen(visit, {name: done[name] for name in told})),
        told=told,
    )


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
    draft = _draft_choice(workshop.visit(engine), engine, cure)
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


def word_choice(cure: Cure) -> str:
    """Say in the log what is to be done.

    Parameters
    ----------
    cure: with the figures it is to be done with
    """
    return f"{_TO_DO} {cure.cylinder}: {cure.title} ({cure.work})"


def word_task(choice: Choice) -> str:
    """Return what was to be done, without the cylinder and how much work it is.

    Parameters
    ----------
    choice: what was chosen
    """
    first = choice.entry.text.partition("\n")[0]
    start = re.match(rf"(?:To do|Done), cylinder {re.escape(choice.cylinder)}: ", first)
    works = "|".join(WORKS)
    return re.sub(rf"( \((?:{works})\)|\. Not measured yet\.)$", "", first[start.end() if start else 0 :])


def tell_unmeasured(choice: Choice) -> str:
    """Say that the work of a choice was done, and is not measured yet.

    Parameters
    ----------
    choice: what was chosen and done
    """
    return f"Done on {choice.entry.when:%Y-%m-%d}, not measured yet: {word_task(choice)}."


def keep_in_step(workshop: Workshop, engine: str, *, now: datetime) -> None:
    """Word the open jobs of what was chosen anew where the record, or a hand in the log, changed their figures.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine
    now: the time
    """
    with suppress(CannotSave):
        for entry in workshop.log.find_entries(engine=engine, words=CURE, open_only=True, limit=_MOST):
            # A record that is flawed or gone, or another hand at the entry: it stays as it is worded.
            with suppress(LapwrightError):
                _word_anew(workshop, entry, now=now)


def _word_anew(workshop: Workshop, entry: Entry, *, now: datetime) -> None:
    choice, (first, *rest) = read_choice(entry), entry.text.split("\n")
    if choice is None or not first.startswith(_TO_DO):
        return
    visit = workshop.visit(entry.engine)
    plain = _draft_choice(visit, entry.engine, remake_choice(visit, choice))
    by_hand = tuple(reading for reading in entry.readings if not _is_of_choice(reading.name))
    draft = replace(draft_of(entry), text="\n".join((plain.text, *rest)), readings=(*plain.readings, *by_hand))
    if draft != draft_of(entry):
        workshop.log.change_entry(entry.id, draft, seen=entry.version, now=now)


def _is_of_choice(name: str) -> bool:
    return name in (CURE, CYLINDER) or bool(find_size(name.removesuffix(_AS_FOUND)))


def _draft_choice(visit: Visit, engine: str, cure: Cure) -> EntryDraft:
    """The entry that keeps a choice: what is to be done, to which figures, and what is there now."""
    sizes = next(each for each in visit.cylinders if each.name == cure.cylinder)
    figures = (Reading(call_size(key), write_size(key, value)) for key, value in cure.changes.items())
    found = (
        Reading(call_size(key) + _AS_FOUND, write_size(key, sizes.numbers[key]))
        for key in cure.changes
        if key in sizes.numbers
    )
    return EntryDraft(
        engine=engine,
        kind="note",
        job="open",
        text=word_choice(cure),
        readings=(Reading(CURE, say_code(cure.code)), Reading(CYLINDER, cure.cylinder), *figures, *found),
    )
