"""Pressure cards in characters: pressure over the stroke, both ends side by side, the four corners named."""

from __future__ import annotations

from math import radians
from typing import TYPE_CHECKING

from lapwright.cli.charts import Canvas

if TYPE_CHECKING:
    from lapwright.cycle.answers import CylinderRun, EndRun
    from lapwright.job.run.trial import Trial
    from lapwright.motion.answers import EndMotion

#: Size of one card, of the gap between two and of what stands to the left of them, in characters.
WIDTH, HEIGHT, GAP, MARGIN = 31, 9, 3, 9
#: The letters, those first that keep their place; the others go to the side of the stroke on which they come, counted
#: from its start: 1 beyond, -1 before.
LETTERS = {"admission": ("A", 1), "compression": ("K", 1), "release": ("R", 1), "cut_off": ("C", -1)}
LEGEND = "Pressure over the stroke: A admission, C cut-off, R release, K compression"
#: How much room is left above and below the pressures that occur, as a share.
_ROOM = 0.03


def draw_cards(trial: Trial, name: str, *, heading: str) -> str:
    """Return a cylinder's cards, the head end's on the left, the crank end's mirrored beside it.

    Parameters
    ----------
    trial: the run
    name: of the cylinder
    heading: what stands over the cards
    """
    run = next(cylinder for cylinder in trial.run.cylinders if cylinder.name == name)
    lowest, highest = _find_reach(trial, run)
    cards = []
    for end, answers in run.ends.items():
        canvas = Canvas(WIDTH, HEIGHT)
        _draw_end(canvas, run, answers, events=trial.motions[name].ends[end], reach=(lowest, highest))
        title = f"{heading}, {end} end" if heading else f"{end} end"
        cards.append([f"{title:^{WIDTH}}", *canvas.list_rows()])
    margin = [""] * (1 + HEIGHT)
    supply, exhaust = trial.run.conditions.supply, trial.run.conditions.exhaust
    for pressure in (exhaust, supply):
        row = 1 + round((HEIGHT - 1) * (highest - pressure) / (highest - lowest))
        margin[row] = trial.stand.show(pressure)
    gap = " " * GAP
    rows = (gap.join(parts) for parts in zip(*cards, strict=True))
    return "\n".join(f"{left:>{MARGIN}} {row}".rstrip() for left, row in zip(margin, rows, strict=True))


def _find_reach(trial: Trial, run: CylinderRun) -> tuple[float, float]:
    """The lowest and the highest pressure of the picture [Pa]."""
    conditions = trial.run.conditions
    low = min(conditions.exhaust, *(float(end.pressures.min()) for end in run.ends.values()))
    high = max(conditions.supply, *(float(end.pressures.max()) for end in run.ends.values()))
    room = max(_ROOM * (high - low), 1.0)
    return low - room, high + room


def _draw_end(
    canvas: Canvas, run: CylinderRun, answers: EndRun, *, events: EndMotion, reach: tuple[float, float]
) -> None:
    low, high = reach
    mirrored = answers is run.ends.get("crank")
    strokes = [volume / answers.swept - answers.clearance for volume in answers.volumes.tolist()]
    points = [
        (1 - x if mirrored else x, (p - low) / (high - low))
        for x, p in zip(strokes, answers.pressures.tolist(), strict=True)
    ]
    canvas.draw([*points, points[0]])
    angles = run.angles.tolist()
    for event, (letter, side) in LETTERS.items():
        for angle in events.events[event].crank_deg or ():
            nearest = min(range(len(angles)), key=lambda n: abs(angles[n] - radians(angle)))
            canvas.name(letter, *points[nearest], side=-side if mirrored else side)
