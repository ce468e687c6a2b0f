"""An engine as its record was first kept beside the engine as it is now: sizes, events, cards, starting, air used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache

from lapwright.cycle.comparing import Ground, Showing, show_running, tell_gain
from lapwright.cycle.plant_setup import prepare_plant
from lapwright.engine.assume import assume_missing
from lapwright.errors import CannotRun, FlawedRecord, LapwrightError
from lapwright.job.in_words import say_keys
from lapwright.job.log.tally import find_log
from lapwright.job.measure.size_places import name_place
from lapwright.job.run.notes import list_cautions
from lapwright.job.run.rows import Rows, list_run_rows
from lapwright.job.shelf.changes import set_keys
from lapwright.job.shelf.workshop import Workshop
from lapwright.job.visit import Visit, examine_opened
from lapwright.papers.drawing import Drawing, Text
from lapwright.papers.matter import RunSheet
from lapwright.papers.measure_terms import name_key
from lapwright.papers.pressure_picture import Turn, draw_pressure_card, fit_scale
from lapwright.papers.sheets import list_events
from lapwright.papers.timing_picture import draw_timing
from lapwright.papers.torque_picture import draw_starting
from lapwright.record import KeyChange, OpenedRecord, compare_records, read_record, read_written

#: Revisions that the log book keeps of a record.
_ALL = 200
#: Width of a card, and of what is drawn over the whole turn [mm].
_WIDTH, _TURN_WIDTH = 120.0, 178.0


@dataclass(frozen=True, slots=True)
class SizeChange:
    """A size that was changed: its place, its name, what stood there and what stands there, empty for nothing."""

    place: str
    name: str
    before: str
    after: str
    key: str = ""


@dataclass(frozen=True, slots=True)
class CylinderChange:
    """What a cylinder's valve did and now does otherwise: rows of event, before, now; and pictures of both states."""

    name: str
    rows: Rows
    cards: tuple[Drawing, ...]
    timing: Drawing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BeforeAfter:
    """The comparison. `since` is when the record was first kept, None where it never was.

    `changes` are the sizes that said something else before; `measured` those that were written down for the first time.

    `runs` are rows of figure, before, now, with `gain` in one line, both empty where `not_known` says why. `cautions`
    go with running the engine.
    """

    since: datetime | None
    changes: tuple[SizeChange, ...] = ()
    measured: tuple[SizeChange, ...] = ()
    cylinders: tuple[CylinderChange, ...] = ()
    runs: Rows = ()
    starting: Drawing | None = None
    gain: str = ""
    not_known: str = ""
    cautions: tuple[str, ...] = ()


def compare_then_and_now(workshop: Workshop, engine: str) -> BeforeAfter:
    """Compare an engine with what its record first said.

    Parameters
    ----------
    workshop: where it stands
    engine: its id

    Raises
    ------
    NotThere
    """
    now, log = workshop.open_engine(engine), find_log(workshop)
    kept = () if log is None else log.list_revisions(engine, _ALL)
    if not kept:
        return BeforeAfter(since=None)
    first = kept[-1]
    base = lay_base(now, [revision.text for revision in reversed(kept)])
    plain = replace(_sort_changes(now, first.text, base), since=first.when)
    if not plain.changes and not plain.measured:
        return plain
    try:
        return _compare_answers(plain, _visit_text(base, engine), workshop.visit(engine))
    except FlawedRecord as error:
        return replace(plain, not_known=say_keys(error.message))


def _sort_changes(now: OpenedRecord, first: str, base: str) -> BeforeAfter:
    """What was changed from what was first known of it, and what was only got to know."""
    cylinders = [] if now.engine is None else [sizes.name for sizes in now.engine.cylinders]
    gone = [change for change in compare_records(first, now.text) if change.after is None]
    new = {change.key for change in compare_records(first, now.text) if change.before is None}
    told = [_name_change(change, cylinders) for change in (*compare_records(base, now.text), *gone)]
    added = [_name_change(change, cylinders) for change in compare_records(first, base) if change.key in new]
    return BeforeAfter(
        since=None,
        changes=tuple(size for size in told if not _is_of_tests(size)),
        measured=tuple(size for size in (*added, *filter(_is_of_tests, told)) if size.key != "running.from_tests"),
    )


def lay_base(now: OpenedRecord, texts: Sequence[str]) -> str:
    """Return a record as it is now, but for each size with what was first written for it: the engine as it was found.

    A record that was begun empty and filled in by and by has no text of its own that is the engine before the work.

    Parameters
    ----------
    now: the record
    texts: that it had, the first one first
    """
    written = _read_text(now.text)
    first: dict[str, str] = {}
    for text in texts:
        for key, value in _read_text(text).items():
            first.setdefault(key, value)
    other: dict[str, str | None] = {key: first[key] for key in written if first.get(key, written[key]) != written[key]}
    try:
        base = set_keys(now, other)
        # A slip of the pen that was put right is nothing that the engine was.
        problems = read_record(base.encode("utf-8"), source=now.source).problems
        slips = {problem.key for problem in problems if problem.severity == "error"}
        return base if not slips else set_keys(now, {key: value for key, value in other.items() if key not in slips})
    except LapwrightError:
        return texts[0]


def _name_change(change: KeyChange, cylinders: list[str]) -> SizeChange:
    name, place = name_key(change.key), name_place(change.key, cylinders)
    return SizeChange(place, name, change.before or "", change.after or "", key=change.key)


def _is_of_tests(size: SizeChange) -> bool:
    """Whether a figure tells how an engine is known, not how it is made: friction, leaks, and the tests of them."""
    return size.key.startswith(("running.", "bench_test."))


# Two hundred texts stay what they are from look to look.
_read_text = lru_cache(maxsize=512)(read_written)


# Running an engine takes a while, and what it was does not change.
@lru_cache(maxsize=8)
def _visit_text(text: str, engine: str) -> Visit:
    return examine_opened(read_record(text.encode("utf-8"), source=f"{engine}, as it was found"))


def _compare_answers(plain: BeforeAfter, before: Visit, now: Visit) -> BeforeAfter:
    runs: RunSheet | None = None
    not_known = ""
    if now.ground is None:
        not_known = say_keys(now.no_run)
    else:
        try:
            runs = RunSheet(before=_run_before(before, now, now.ground), after=now.ground.found)
        except CannotRun as error:
            not_known = say_keys(error.message)
    plain = replace(plain, cylinders=tuple(_compare_cylinders(before, now, runs)), not_known=not_known)
    if runs is None or runs.after is None:
        return plain
    return replace(
        plain,
        runs=list_run_rows(runs.before, runs.after),
        starting=_say_now(draw_starting(runs.before.starting, runs.after.starting, width=_TURN_WIDTH)),
        gain=tell_gain(runs.before, runs.after),
        cautions=list_cautions(runs.after.run.conditions.fluid),
    )


def _run_before(before: Visit, now: Visit, ground: Ground) -> Showing:
    """Run the engine as it was on what it is run on now, with what is known by now of its friction and leaks.

    A test that tells more of these makes no engine worse or better than it was.
    """
    engine = replace(before.engine, running=now.engine.running)
    if before.ground is not None and engine == before.engine and before.ground.conditions == ground.conditions:
        return before.ground.found
    cylinders = tuple(assume_missing(sizes) for sizes in engine.cylinders)
    plant = prepare_plant(engine, fluid=ground.conditions.fluid, cylinders=cylinders)
    return show_running(plant, ground.conditions)


def _compare_cylinders(before: Visit, now: Visit, runs: RunSheet | None) -> Iterator[CylinderChange]:
    old = {sizes.name: sizes for sizes in before.cylinders}
    for sizes in now.cylinders:
        if sizes.name not in old:
            continue
        was, name = old[sizes.name], sizes.name
        if before.motions[name] == now.motions[name]:
            continue
        events = list_events(was, before.motions[name], now.motions[name], spread={})
        timing = draw_timing(was, sizes, width=_TURN_WIDTH)
        cards = tuple(_say_now(card) for card in _draw_cards(before, now, name, runs=runs))
        yield CylinderChange(name, events.rows, cards, None if timing is None else _say_now(timing))


def _draw_cards(before: Visit, now: Visit, name: str, *, runs: RunSheet | None) -> Iterator[Drawing]:
    if runs is None or runs.after is None:
        return
    pair = [run for state in (runs.before, runs.after) for run in state.run.cylinders if run.name == name]
    if len(pair) < 2:
        return
    scale = fit_scale(pair)
    found, last = Turn(pair[0], before.motions[name]), Turn(pair[1], now.motions[name])
    for end in found.run.ends:
        if end in last.run.ends:
            yield draw_pressure_card(found, last, end=end, scale=scale, width=_WIDTH)


def _say_now(drawing: Drawing) -> Drawing:
    """The pictures speak of a cure that is still to be done; here it is."""
    return replace(
        drawing,
        shapes=tuple(
            replace(shape, words=shape.words.replace("after the cure", "as it is now"))
            if isinstance(shape, Text)
            else shape
            for shape in drawing.shapes
        ),
    )
