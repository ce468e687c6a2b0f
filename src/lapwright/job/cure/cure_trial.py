"""Trying a cure before it is done: its figures moved by hand, and the engine afterwards beside the engine as found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import degrees

from lapwright.cures import Cure
from lapwright.cures.own_figures import CUTS, find_objection, takes_figures
from lapwright.cycle.comparing import Showing, tell_gain
from lapwright.engine.sizes import Sizes
from lapwright.errors import BadInput, CannotRun, NoUnit, OutOfRange
from lapwright.findings.causes.off_centre import OFFSET, spindle_step
from lapwright.job.cure.choosing import remake
from lapwright.job.in_words import find_unit, read_size
from lapwright.job.log.draft import FieldProblem
from lapwright.job.run.rows import Rows, list_run_rows
from lapwright.job.visit import Visit
from lapwright.motion.answers import CylinderMotion
from lapwright.papers.drawing import Drawing
from lapwright.papers.pressure_picture import Turn, draw_pressure_card, fit_scale
from lapwright.papers.sheets import list_events
from lapwright.papers.timing_picture import draw_timing
from lapwright.papers.torque_picture import draw_starting

#: How far beyond what is there and what the cure wants a figure may be moved [mm, deg], and in what steps.
_BEYOND: Mapping[str, float] = {"mm": 0.6, "deg": 15.0}
_STEPS: Mapping[str, float] = {"mm": 0.01, "deg": 0.1}
_PLACES: Mapping[str, int] = {"mm": 2, "deg": 1}
#: Steps of the spindle's thread to either side.
_TURNS = 6
#: Width of the pictures over the whole turn [mm].
_WIDE = 165.0
#: Letters of a figure that are read.
_LONGEST = 40
#: The least that a length comes down to [mm].
_LEAST = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of a cure that can be moved by hand: as found, as the cure has it, now, and between what.

    All in `unit`, "mm" or "deg"; it is shown with so many `places`, in which a step is a whole number.
    """

    key: str
    unit: str
    found: float | None
    own: float
    now: float
    low: float
    high: float
    step: float
    places: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CureTrial:
    """A cure with the figures tried, and how the engine then does.

    `others` are the same cure done to the other cylinders besides. `found` and `after` are the engine run as found and
    after it, None where `no_run` says why. `objection` is what the geometry has against it, in words.
    """

    cure: Cure
    others: tuple[Cure, ...]
    sizes: Sizes
    motion: CylinderMotion
    found: Showing | None
    after: Showing | None
    no_run: str
    objection: str

    @property
    def gain(self) -> str:
        """What it gains in a run, in one line; nothing where there is none."""
        return "" if self.found is None or self.after is None else tell_gain(self.found, self.after)


def list_figures_of(visit: Visit, cure: Cure, *, now: Mapping[str, float]) -> tuple[Figure, ...]:
    """Return what can be moved by hand about a cure; nothing where its figures are fixed.

    Parameters
    ----------
    visit: the engine
    cure: one of its cures
    now: figures that were chosen, by record key [SI]; the cure's own where left out
    """
    if not takes_figures(cure):
        return ()
    sizes = next(each for each in visit.cylinders if each.name == cure.cylinder)
    return tuple(_describe(sizes, cure, key, now=now.get(key, value)) for key, value in cure.changes.items())


def _describe(sizes: Sizes, cure: Cure, key: str, *, now: float) -> Figure:
    unit = find_unit(key)
    step, beyond, places = _STEPS[unit], _BEYOND[unit], _PLACES[unit]
    found = None if key not in sizes.numbers else _from_si(key, sizes.numbers[key])
    wanted, present = _from_si(key, cure.changes[key]), _from_si(key, now)
    known = (wanted, present) if found is None else (wanted, present, found)
    thread = spindle_step(sizes) if key == OFFSET and "move-on-spindle" in cure.code else None
    if thread is not None and found is not None:
        # The valve goes in the steps that thread and fork allow, counted from where it stands.
        step, beyond, places = abs(thread) * 1e3, 0.0, 4
        known = (found - _TURNS * step, found + _TURNS * step)
    else:
        beyond = max(beyond, 0.5 * (max(known) - min(known)))
    low, high = min(known) - beyond, max(known) + beyond
    if unit == "mm" and key != OFFSET and "edges" not in key:
        low = max(low, _LEAST)
    if found is not None and cure.code in CUTS:
        low, high = (low, found) if key == "valve.length" else (found, high) if key == "valve.cavity" else (low, high)
    return Figure(
        key=key, unit=unit, found=found, own=wanted, now=present, low=low, high=high, step=step, places=places
    )


def _from_si(key: str, value: float) -> float:
    return degrees(value) if find_unit(key) == "deg" else value * 1e3


@dataclass(frozen=True, slots=True)
class ReadFigures:
    """The figures of a cure as they were read, by record key [SI], and what is amiss with the others."""

    figures: Mapping[str, float]
    problems: tuple[FieldProblem, ...]


def read_figures(figures: tuple[Figure, ...], written: Mapping[str, str]) -> ReadFigures:
    """Read the figures of a cure as a page sends them: with their unit, or plain in that of the figure.

    Parameters
    ----------
    figures: that can be moved by hand, with what they lie between
    written: what was sent, by record key; what belongs to none of the figures is passed over
    """
    read: dict[str, float] = {}
    problems = []
    for figure in figures:
        try:
            read.update({figure.key: _read_figure(figure, written[figure.key])} if figure.key in written else {})
        except BadInput as error:
            problems.append(FieldProblem(figure.key, error.message, error.instead))
    return ReadFigures(read, tuple(problems))


def _read_figure(figure: Figure, written: str) -> float:
    text = written.strip()[:_LONGEST]
    if not text:
        raise BadInput("no figure is written", f"write one such as {figure.own:.{figure.places}f} {figure.unit}")
    try:
        value = read_size(figure.key, text)
    except NoUnit:
        value = read_size(figure.key, f"{text} {figure.unit}")
    low, now, high = (round(each, figure.places) for each in (figure.low, _from_si(figure.key, value), figure.high))
    if not low <= now <= high:
        between = f"between {low:.{figure.places}f} and {high:.{figure.places}f} {figure.unit}"
        raise OutOfRange(text, "is outside of what this cure allows", f"write a figure {between}")
    return value


def list_namesakes(visit: Visit, cure: Cure) -> tuple[Cure, ...]:
    """Return the same cure for the other cylinders: nobody mends one valve of a pair.

    Parameters
    ----------
    visit: the engine
    cure: one of its cures
    """
    return tuple(other for other in visit.cures if other.code == cure.code and other.cylinder != cure.cylinder)


def try_cure(visit: Visit, cure: Cure, figures: Mapping[str, float], *, together: bool = False) -> CureTrial:
    """Try a cure with figures of one's own.

    Parameters
    ----------
    visit: the engine
    cure: one of its cures
    figures: by record key [SI]; the cure's own where left out
    together: whether the other cylinders that have this cure get it too, with the same figures

    Raises
    ------
    DoesNotFit: the figures cannot be
    """
    own = remake(visit, cure, figures)
    others = tuple(remake(visit, other, figures) for other in (list_namesakes(visit, cure) if together else ()))
    objections = dict.fromkeys(find_objection(visit.engine, each) for each in (own, *others))
    trial = CureTrial(
        cure=own,
        others=others,
        sizes=next(each for each in visit.cylinders if each.name == cure.cylinder),
        motion=visit.motions[cure.cylinder],
        found=None,
        after=None,
        no_run="",
        objection="; ".join(objection for objection in objections if objection),
    )
    ground = visit.ground
    if ground is None:
        return replace(trial, no_run=visit.no_run)
    try:
        after = ground.show_changed({each.cylinder: each.changes for each in (own, *others)})
    except CannotRun as error:
        return replace(trial, no_run=str(error))
    return replace(trial, found=ground.found, after=after)


def list_rows(trial: CureTrial) -> tuple[tuple[str, ...], Rows]:
    """Return the header and the rows of one table: how it runs, and the events, as found and after the cure.

    Parameters
    ----------
    trial: what was tried
    """
    events = list_events(trial.sizes, trial.motion, trial.cure.after, spread={})
    if trial.found is None or trial.after is None:
        return events.header, events.rows
    return events.header, (*list_run_rows(trial.found, trial.after), *events.rows)


def draw_trial(trial: CureTrial, *, width: float) -> tuple[Drawing, ...]:
    """Draw the pressure cards of both ends, the timing and the starting, as found dashed and after the cure full.

    Parameters
    ----------
    trial: what was tried
    width: of a pressure card [mm]; the others have what their words and curves need
    """
    after_sizes = trial.sizes.replacing(trial.cure.changes)
    timing = draw_timing(trial.sizes, after_sizes, width=_WIDE)
    drawings = [] if timing is None else [timing]
    if trial.found is not None and trial.after is not None:
        name = trial.cure.cylinder
        before, after = (
            next(run for run in showing.run.cylinders if run.name == name) for showing in (trial.found, trial.after)
        )
        scale = fit_scale((before, after))
        turns = Turn(before, trial.motion), Turn(after, trial.cure.after)
        cards = [draw_pressure_card(*turns, end=end, scale=scale, width=width) for end in before.ends]
        drawings = [*cards, *drawings, draw_starting(trial.found.starting, trial.after.starting, width=_WIDE)]
    return tuple(drawings)
