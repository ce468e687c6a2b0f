"""What a page tells of an engine's run: figures, losses, uses, notes, pictures, and what was taken for it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi
from typing import TYPE_CHECKING, Literal, get_args

from lapwright.cycle.conditions import find_missing
from lapwright.engine.sizes import Assumed
from lapwright.errors import NotOneOf
from lapwright.job.visit import Visit
from lapwright.quantities.figure import show_start
from lapwright.quantities.pressure import ATMOSPHERE, PRESSURE

if TYPE_CHECKING:
    from lapwright.cures import Cure
    from lapwright.job.run.figures import RunTable
    from lapwright.job.run.stand import Asked
    from lapwright.job.run.start_trial import StartTrial
    from lapwright.job.run.trial import Trial
    from lapwright.papers.drawing import Drawing

#: What is run: the engine as found, after the work that is chosen, or both beside each other.
Work = Literal["found", "after", "both"]
WORKS: tuple[Work, ...] = get_args(Work)
#: Widths of a pressure card and of a picture over the whole turn [mm of paper].
_CARD, _TURN = 92.0, 165.0
Rows = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunTold:
    """A run as it is told.

    `pressure` is what it was run on, in `unit`, above the atmosphere; `speed_rpm` the speed it was run at or settled
    at. With both states beside each other `figures` have two columns, named in `header`, which is empty for one; notes,
    dial and what was taken are then those after the work. `racing` are cautions for a speed that only sums reach;
    `cards` come by cylinder.
    """

    work: Work
    header: tuple[str, ...]
    fluid: str
    pressure: float
    unit: str
    speed_rpm: float
    settles: bool
    racing: tuple[str, ...]
    notes: tuple[str, ...]
    figures: Rows
    losses: RunTable
    uses: RunTable
    starting: Rows
    cards: tuple[tuple[str, tuple[Drawing, ...]], ...]
    torque: Drawing
    dial: Drawing
    rest: Drawing
    assumed: tuple[Assumed, ...]


def list_missing(visit: Visit) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return the record keys without which an engine cannot be run, by cylinder; nothing where none is missing.

    Parameters
    ----------
    visit: the engine
    """
    missing = ((sizes.name, find_missing(sizes)) for sizes in visit.cylinders)
    return tuple((name, keys) for name, keys in missing if keys)


def tell_run_of(visit: Visit, asked: Asked, *, work: Work = "found", chosen: tuple[Cure, ...] = ()) -> RunTold:
    """Run an engine as it was asked for and tell of it.

    Parameters
    ----------
    visit: the engine
    asked: what to run it on
    work: as found, after the work that is chosen, or both
    chosen: the cures that are, one to a cylinder at most

    Raises
    ------
    BadInput: something asked for cannot be read
    CannotRun: no run can be worked out; the sentence says why
    """
    from lapwright.job.run.notes import CAUTIONS
    from lapwright.job.run.start_trial import try_starting
    from lapwright.job.run.trial import try_engine

    if asked.fluid is not None and asked.fluid not in CAUTIONS:
        raise NotOneOf(show_start(asked.fluid), tuple(CAUTIONS))
    if not chosen:
        work = "found"
    last = visit if work == "found" else _do_work(visit, chosen)
    trial, start = try_engine(last, asked), try_starting(last, asked)
    return _tell(trial, start, try_engine(visit, asked) if work == "both" else None, work=work)


def _do_work(visit: Visit, chosen: tuple[Cure, ...]) -> Visit:
    """The engine as it is once the work is done."""
    changes = {cure.cylinder: cure.changes for cure in chosen}
    cylinders = tuple(sizes.replacing(changes.get(sizes.name, {})) for sizes in visit.engine.cylinders)
    return Visit(visit.record, replace(visit.engine, cylinders=cylinders))


def _tell(trial: Trial, start: StartTrial, found: Trial | None, *, work: Work) -> RunTold:
    """Tell of a run; where there is one as found besides, of both."""
    from lapwright.job.run.figures import tell_losses, tell_uses
    from lapwright.job.run.notes import tell_racing
    from lapwright.papers.torque_picture import draw_starting, draw_torque

    stand, run, first = trial.stand, trial.run, trial if found is None else found
    after = None if found is None else trial
    runs = [first.run] if after is None else [first.run, run]
    racing = tuple(dict.fromkeys(line for each in (first, trial) for line in tell_racing(each.stand, each.run)))
    unit, size = PRESSURE.find_unit(stand.like.unit) or ("bar", 1e5)
    return RunTold(
        work=work,
        header=() if found is None else ("as found", "after the cure"),
        fluid=run.conditions.fluid,
        pressure=(run.conditions.supply - ATMOSPHERE) / float(size),
        unit=unit,
        speed_rpm=run.conditions.speed * 30 / pi,
        settles=stand.is_loaded,
        racing=racing,
        notes=tuple(note for note in (*trial.notes, *start.notes) if note not in racing),
        figures=_list_figures(first, after),
        losses=tell_losses(*runs),
        uses=tell_uses(*runs),
        starting=_tell_ways(start),
        cards=_draw_cards(first, after),
        torque=draw_torque(first.run, None if after is None else run, width=_TURN),
        dial=_draw_dial(start),
        rest=draw_starting(first.showing.starting, None if after is None else trial.showing.starting, width=_TURN),
        assumed=stand.assumed,
    )


def _list_figures(first: Trial, after: Trial | None) -> Rows:
    from lapwright.job.run.rows import list_run_rows
    from lapwright.papers.matter import RunSheet
    from lapwright.papers.run_block import list_figures

    if after is not None:
        return list_run_rows(first.showing, after.showing)
    # The last column is a blank for the card.
    return tuple(row[:-1] for row in list_figures(RunSheet(before=first.showing)).rows)


def _draw_cards(first: Trial, after: Trial | None) -> tuple[tuple[str, tuple[Drawing, ...]], ...]:
    from lapwright.papers.pressure_picture import Turn, draw_pressure_card, fit_scale

    later = {} if after is None else {run.name: Turn(run, after.motions[run.name]) for run in after.run.cylinders}
    scale = fit_scale((*first.run.cylinders, *(turn.run for turn in later.values())))
    return tuple(
        (
            run.name,
            tuple(
                draw_pressure_card(
                    Turn(run, first.motions[run.name]), later.get(run.name), end=end, scale=scale, width=_CARD
                )
                for end in run.ends
            ),
        )
        for run in first.run.cylinders
    )


#: What the two ways round are called.
_FORWARD, _BACKWARD = "the running direction", "the other way round"


def _tell_ways(start: StartTrial) -> Rows:
    from lapwright.job.showing import show_torque

    return tuple(
        (
            name,
            f"{100 * way.share:.0f} %",
            f"{100 * way.dead_share:.0f} %",
            "never" if way.least_pressure is None else start.stand.show(way.least_pressure),
            f"{show_torque(way.torque)} at {way.best_angle:.0f}°" if way.torque > 0 else "none",
        )
        for name, way in ((_FORWARD, start.forward), (_BACKWARD, start.backward))
    )


def _draw_dial(start: StartTrial) -> Drawing:
    from lapwright.papers.starting_dial import DialWay, draw_starting_dial

    ways = [
        DialWay(name=name, starts=way.starts, never=way.never)
        for name, way in ((_FORWARD, start.forward), (_BACKWARD, start.backward))
    ]
    return draw_starting_dial(ways, clockwise=start.rotation != "anticlockwise", best=start.forward.best_angle)
