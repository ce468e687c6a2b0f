"""An engine's dossier gathered from its record and its log, and set in type."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from lapwright.engine.engine import Engine
from lapwright.errors import CannotSave, NotAPhotograph, NotThere
from lapwright.job.in_words import say_reading
from lapwright.job.log.draft import show_spent
from lapwright.job.log.tally import Tally, add_up_log, find_log
from lapwright.job.measure.size_places import name_place
from lapwright.job.papers import CAUTIONS
from lapwright.job.shelf.drawing import draw_for_shelf
from lapwright.job.shelf.workshop import Workshop
from lapwright.logbook import Entry, LogBook
from lapwright.papers.dossier import dossier_bytes
from lapwright.papers.dossier_matter import Chapter, DossierEntry, DossierMatter, Photo, Rows, SizeTable
from lapwright.papers.drawing import Drawing
from lapwright.papers.engine_picture import draw_engine
from lapwright.papers.measure_terms import name_key
from lapwright.record import OpenedRecord
from lapwright.record.comparing import read_written

_CHAPTERS = {
    "found": "What was found",
    "done": "What was done",
    "measured": "What was measured",
    "run": "How it ran",
    "note": "Notes",
}
#: Width of the picture of the engine [mm].
_WIDTH = 150.0
#: Keys that stand elsewhere in the dossier.
_TOLD = {"format", "engine.name", "engine.notes"}


def make_dossier(workshop: Workshop, engine: str, *, now: datetime, paper: str = "a4") -> tuple[str, bytes]:
    """Return the name of an engine's dossier and the dossier as PDF.

    Parameters
    ----------
    workshop: where it stands
    engine: its id
    now: the day that is printed on it
    paper: "a4" or "letter"

    Raises
    ------
    NotThere
    CannotSave: no room on the disk while it was made
    """
    matter = gather_dossier(workshop, engine, now=now)
    try:
        return f"{engine}-dossier.pdf", dossier_bytes(matter, paper=paper)
    except OSError as error:
        raise CannotSave("the dossier", error.strerror or "the disk does not take it") from error


def gather_dossier(workshop: Workshop, engine: str, *, now: datetime) -> DossierMatter:
    """Gather everything in an engine's dossier; its record may be flawed.

    Parameters
    ----------
    workshop: where it stands
    engine: its id
    now: the day that is printed on it

    Raises
    ------
    NotThere
    """
    record, tally = workshop.open_engine(engine), add_up_log(workshop, engine)
    known = record.engine
    return DossierMatter(
        name=engine if known is None else known.name,
        record_name=Path(record.source).name,
        record_digest=record.digest,
        date=f"{now:%Y-%m-%d}",
        about=_tell_engine(record),
        notes=read_written(record.text).get("engine.notes", ""),
        picture=None if known is None or not record.is_sound else _draw(known),
        open_jobs=tuple((f"{job.when:%Y-%m-%d}", _first_line(job)) for job in tally.open_jobs),
        chapters=tuple(_list_chapters(tally, find_log(workshop))),
        parts_used=tuple((f"{entry.when:%Y-%m-%d}", "; ".join(entry.parts_used)) for entry in tally.with_parts),
        spent=tally.spent,
        sizes=_list_sizes(record),
        cautions=tuple(line.replace("This card", "This dossier") for line in CAUTIONS),
    )


def _draw(known: Engine) -> Drawing | None:
    # What cannot be drawn small cannot be drawn large.
    if draw_for_shelf(known) is None:
        return None
    return draw_engine(known.cylinders[0], width=_WIDTH, clockwise=known.rotation != "anticlockwise")


def _tell_engine(record: OpenedRecord) -> Rows:
    written = read_written(record.text)
    rows = [(name_key(key), value) for key, value in written.items() if key.startswith("engine.") and key not in _TOLD]
    if record.engine is not None:
        rows.append(("cylinders", str(len(record.engine.cylinders))))
    return tuple((name[:1].upper() + name[1:], value) for name, value in rows)


def _list_sizes(record: OpenedRecord) -> tuple[SizeTable, ...]:
    cylinders = [] if record.engine is None else [sizes.name for sizes in record.engine.cylinders]
    tables: dict[str, list[tuple[str, str]]] = {}
    for key, value in read_written(record.text).items():
        if key not in _TOLD and not key.startswith("engine."):
            tables.setdefault(name_place(key, cylinders), []).append((name_key(key), value))
    return tuple(SizeTable(title, tuple(rows)) for title, rows in tables.items())


def _list_chapters(tally: Tally, log: LogBook | None) -> Iterable[Chapter]:
    for kind, title in _CHAPTERS.items():
        entries = tuple(_tell_entry(entry, log) for entry in tally.entries if entry.kind == kind)
        if entries:
            yield Chapter(title, entries)


def _tell_entry(entry: Entry, log: LogBook | None) -> DossierEntry:
    return DossierEntry(
        day=f"{entry.when:%Y-%m-%d}",
        hour=f"{entry.when:%H:%M}",
        text=entry.text,
        readings=tuple(say_reading(reading.name, reading.value) for reading in entry.readings),
        parts_used=entry.parts_used,
        spent="" if entry.minutes is None else show_spent(entry.minutes),
        job=entry.job,
        photographs=() if log is None else tuple(_list_photographs(entry, log)),
    )


def _list_photographs(entry: Entry, log: LogBook) -> Iterable[Photo]:
    for kept in entry.photographs:
        # One whose file was lost or damaged is left out; the rest of the dossier stands.
        with suppress(NotThere, NotAPhotograph):
            yield Photo(log.photograph_for_paper(kept.digest), kept.width, kept.height)


def _first_line(entry: Entry) -> str:
    said = (" ".join(say_reading(each.name, each.value)) for each in entry.readings)
    return entry.text.partition("\n")[0] or ", ".join(said)
