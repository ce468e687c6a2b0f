"""What a page tells of an engine's run: figures, losses, uses, notes, pictures, and what was taken for it."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING

from lapwright.cycle.conditions import find_missing
from lapwright.engine.sizes import Assumed
from lapwright.errors import NotOneOf
from lapwright.job.visit import Visit
from lapwright.quantities.figure import show_start
from lapwright.quantities.pressure import ATMOSPHERE, PRESSURE

if TYPE_CHECKING:
    from lapwright.job.run_figures import RunTable
    from lapwright.job.stand import Asked
    from lapwright.job.start_trial import StartTrial
    from lapwright.job.trial import Trial
    from lapwright.papers.drawing import Drawing

#: Widths of a pressure card and of a picture over the whole turn [mm of paper].
_CARD, _TURN = 92.0, 165.0
Rows = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunTold:
    """A run as it is told.

    `pressure` is what it was run on, in `unit`, above the atmosphere; `speed_rpm` the speed it was run at or settled
    at. `racing` are cautions for a speed that only sums reach; `cards` come by cylinder.
    """

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


def tell_run_of(visit: Visit, asked: Asked) -> RunTold:
    """Run an engine as it was asked for and tell of it.

    Parameters
    ----------
    visit: the engine
    asked: what to run it on

    Raises
    ------
    BadInput: something asked for cannot be read
    CannotRun: no run can be worked out; the sentence says why
    """
    from lapwright.job.run_figures import tell_losses, tell_uses
    from lapwright.job.run_notes import CAUTIONS, tell_racing
    from lapwright.job.start_trial import try_starting
    from lapwright.job.trial import try_engine
    from lapwright.papers.matter import RunSheet
    from lapwright.papers.run_block import list_figures
    from lapwright.papers.torque_picture import draw_starting, draw_torque

    if asked.fluid is not None and asked.fluid not in CAUTIONS:
        raise NotOneOf(show_start(asked.fluid), tuple(CAUTIONS))
    trial, start = try_engine(visit, asked), try_starting(visit, asked)
    stand, run = trial.stand, trial.run
    racing = tuple(tell_racing(stand, run))
    figures = list_figures(RunSheet(before=trial.showing))
    unit, size = PRESSURE.find_unit(stand.like.unit) or ("bar", 1e5)
    return RunTold(
        fluid=run.conditions.fluid,
        pressure=(run.conditions.supply - ATMOSPHERE) / float(size),
        unit=unit,
        speed_rpm=run.conditions.speed * 30 / pi,
        settles=stand.is_loaded,
        racing=racing,
        notes=tuple(note for note in (*trial.notes, *start.notes) if note not in racing),
        # The last column is a blank for the card.
        figures=tuple(row[:-1] for row in figures.rows),
        losses=tell_losses(run),
        uses=tell_uses(run),
        starting=_tell_ways(start),
        cards=_draw_cards(trial),
        torque=draw_torque(run, None, width=_TURN),
        dial=_draw_dial(start),
        rest=draw_starting(trial.showing.starting, None, width=_TURN),
        assumed=stand.assumed,
    )


def _draw_cards(trial: Trial) -> tuple[tuple[str, tuple[Drawing, ...]], ...]:
    from lapwright.papers.pressure_picture import Turn, draw_pressure_card, fit_scale

    scale = fit_scale(trial.run.cylinders)
    return tuple(
        (
            run.name,
            tuple(
                draw_pressure_card(Turn(run, trial.motions[run.name]), None, end=end, scale=scale, width=_CARD)
                for end in run.ends
            ),
        )
        for run in trial.run.cylinders
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
