"""An engine as its record was first kept beside the engine as it is now: sizes, events, cards, starting, air used."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache

from lapwright.cycle.comparing import Ground, Showing, show_running, tell_gain
from lapwright.cycle.plant_setup import prepare_plant
from lapwright.engine.assume import assume_missing
from lapwright.errors import CannotRun, FlawedRecord
from lapwright.job.in_words import say_keys
from lapwright.job.log.tally import find_log
from lapwright.job.measure.size_places import name_place
from lapwright.job.run.notes import list_cautions
from lapwright.job.run.rows import Rows, list_run_rows
from lapwright.job.shelf.workshop import Workshop
from lapwright.job.visit import Visit, examine_opened
from lapwright.logbook import Revision
from lapwright.papers.drawing import Drawing, Text
from lapwright.papers.matter import RunSheet
from lapwright.papers.measure_terms import name_key
from lapwright.papers.pressure_picture import Turn, draw_pressure_card, fit_scale
from lapwright.papers.sheets import list_events
from lapwright.papers.timing_picture import draw_timing
from lapwright.papers.torque_picture import draw_starting
from lapwright.record import compare_records, read_record

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
    cylinders = [] if now.engine is None else [sizes.name for sizes in now.engine.cylinders]
    sizes = tuple(
        SizeChange(
            name_place(change.key, cylinders),
            name_key(change.key),
            change.before or "",
            change.after or "",
            key=change.key,
        )
        for change in compare_records(first.text, now.text)
        if change.key != "running.from_tests"
    )
    plain = BeforeAfter(
        since=first.when,
        changes=tuple(size for size in sizes if size.before and not _is_of_tests(size)),
        measured=tuple(size for size in sizes if not size.before or _is_of_tests(size)),
    )
    if not sizes:
        return plain
    try:
        return _compare_answers(plain, _visit_first(first), workshop.visit(engine))
    except FlawedRecord as error:
        return replace(plain, not_known=say_keys(error.message))


def _is_of_tests(size: SizeChange) -> bool:
    """Whether a figure tells how an engine is known, not how it is made: friction, leaks, and the tests of them."""
    return size.key.startswith(("running.", "bench_test."))


def _visit_first(first: Revision) -> Visit:
    return _visit_text(first.text, first.engine)


# Running an engine takes a while, and what it was does not change.
@lru_cache(maxsize=8)
def _visit_text(text: str, engine: str) -> Visit:
    return examine_opened(read_record(text.encode("utf-8"), source=f"{engine}, as it was first kept"))


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
