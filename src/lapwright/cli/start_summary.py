"""Starting as it is read in a terminal: from where the engine moves off by itself, and how hard it pulls."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lapwright.cli.charts import Canvas, draw_scale
from lapwright.cli.run_summary import wrap, write_assumed, write_notes, write_title
from lapwright.job.showing import show_torque

if TYPE_CHECKING:
    from lapwright.job.run.start_trial import Arcs, StartTrial, Way

#: Size of the picture, and what stands to the left of it, in characters.
_WIDTH, _HEIGHT, _MARGIN = 60, 8, 11
STARTS, PERHAPS, NEVER = "█", "▒", "·"
#: What the picture is made of, to see whether a terminal has it.
CHARACTERS = "⣿" + STARTS + PERHAPS + NEVER
#: Nearly all and next to nothing of a turn.
_ALL, _NOTHING = 0.999, 0.01


def summarise_start(trial: StartTrial, *, cautions: tuple[str, ...], with_picture: bool) -> str:
    """Return the answer at rest as text, at most 80 columns wide.

    Parameters
    ----------
    trial: the engine at rest
    cautions: what goes with putting an engine on air or steam
    with_picture: whether the terminal can show the picture
    """
    parts = [write_title(trial.name, trial.stand, run_at=", at rest")]
    parts.append("\n".join(wrap(line) for line in _tell(trial)))
    if with_picture:
        parts.append(_draw(trial))
    parts.append(write_notes(trial.notes))
    parts.append(write_assumed(trial.stand))
    parts.append(wrap(" ".join(cautions)))
    return "\n\n".join(part for part in parts if part)


def _tell(trial: StartTrial) -> Iterator[str]:
    yield from _tell_way(trial, trial.forward, turned="in the running direction")
    both = trial.rotation == "either" or trial.backward.share > trial.forward.share
    if both:
        yield from _tell_way(trial, trial.backward, turned="the other way round")
    elif trial.backward.share > _NOTHING:
        yield f"The other way round it starts from {100 * trial.backward.share:.0f} % of the turn."
    else:
        yield "The other way round it starts from nowhere."


def _tell_way(trial: StartTrial, way: Way, *, turned: str) -> Iterator[str]:
    friction = show_torque(trial.starting.friction)
    if way.share < _NOTHING:
        yield f"From next to no angle does it start by itself {turned}."
    else:
        share = "every angle" if way.share > _ALL else f"{100 * way.share:.0f} % of the turn"
        yield (
            f"It starts by itself from {share} {turned}. Best set the crank at {way.best_angle:.0f} deg: there it "
            f"pulls with {show_torque(way.torque)}, of which friction takes {friction}."
        )
        if _is_told(way.carries) and way.carries != way.starts:
            yield f"Set from {_show_arcs(way.carries)}, it also gets over the next dead place and goes on turning."
    if _is_told(way.never):
        yield f"It never starts from {_show_arcs(way.never)}."
    if _is_told(way.perhaps):
        yield (
            f"From {_show_arcs(way.perhaps)} it hangs on a closed end: on whether that has leaked down to the exhaust "
            "or up to the supply."
        )
    if way.least_pressure is not None:
        yield f"From {trial.stand.show(way.least_pressure)} on it starts from every angle."
    elif way.share > _NOTHING:
        yield "No pressure starts it from every angle: somewhere the pistons have no hold on the crank."


def _is_told(arcs: Arcs) -> bool:
    """Whether there are any, and not the whole turn."""
    return bool(arcs) and arcs != ((0.0, 360.0),)


def _show_arcs(arcs: Arcs) -> str:
    texts = [f"{start:.0f} to {stop:.0f}" for start, stop in arcs]
    return (", ".join(texts[:-1]) + " and " + texts[-1] if len(texts) > 1 else texts[0]) + " deg"


def _draw(trial: StartTrial) -> str:
    """The torque over the turn, sure and at best, the friction dotted, and below it from where it starts."""
    worst, best = trial.starting.worst.tolist(), trial.starting.best.tolist()
    friction = trial.starting.friction
    low, high = min(*worst, 0.0), max(*best, friction)
    span = (high - low) or 1.0
    canvas = Canvas(_WIDTH, _HEIGHT)
    for torques in (worst, best):
        canvas.draw([(n / (len(torques) - 1), (torque - low) / span) for n, torque in enumerate(torques)])
    canvas.dot_line((friction - low) / span)
    labels = [""] * _HEIGHT
    labels[round((_HEIGHT - 1) * (high - friction) / span)] = "friction"
    labels[0], labels[-1] = show_torque(high), show_torque(low) if low < 0 else "0"
    rows = [f"{label:>{_MARGIN}} {row}".rstrip() for label, row in zip(labels, canvas.list_rows(), strict=True)]
    left = " " * (_MARGIN + 1)
    key = f"{STARTS} starts   {PERHAPS} perhaps   {NEVER} does not; torque at rest over the first crank's angle"
    return "\n".join([*rows, left + draw_scale(_WIDTH), left + _mark(worst, best, friction), key])


def _mark(worst: list[float], best: list[float], friction: float) -> str:
    """One mark to each sixtieth of the turn, for its middle."""
    each = len(worst) // _WIDTH
    middles = range(each // 2, len(worst), each)
    return "".join(STARTS if worst[n] > friction else PERHAPS if best[n] > friction else NEVER for n in middles)
