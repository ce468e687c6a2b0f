"""How a part is painted: texts in, plan out."""

from __future__ import annotations

import re
from dataclasses import dataclass

from lapwright.engine.parts import LETTERINGS
from lapwright.job.finishing import ROOM
from lapwright.quantities import read_area, read_temperature
from lapwright.workshop.finish import plan_finish
from lapwright.workshop.finish_plan import FinishPlan
from lapwright.workshop.heat import show_heat

#: What stands between the parts that stay bright.
_BETWEEN = re.compile(r"[,;]|\band\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintAsked:
    """What was asked of a part, as it was written; None where nothing was."""

    metal: str = "cast iron"
    temperature: str | None = None
    surface: str | None = None
    paint: str | None = None
    old_paint: bool = False
    lettering: str = LETTERINGS[0]
    bright: str | None = None
    seen: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintAnswer:
    """A part's plan, and what was taken because it was not said."""

    plan: FinishPlan
    taken: tuple[str, ...]


def answer_paint(asked: PaintAsked) -> PaintAnswer:
    """Plan how a part is painted.

    Parameters
    ----------
    asked: as it was written

    Raises
    ------
    BadInput: something cannot be read, is not in the tables or cannot be; the sentence says what can

    Example:
    >>> answer_paint(PaintAsked(temperature="150 degC")).plan.paint
    'oil/styrene aluminium heat paint'
    """
    heat = ROOM if asked.temperature is None else float(read_temperature(asked.temperature).si)
    taken = f"How hot the part runs is not given: taken as the room, {show_heat(ROOM)}, as on air."
    plan = plan_finish(
        metal=asked.metal,
        temperature=heat,
        surface=None if asked.surface is None else float(read_area(asked.surface).si),
        old_paint=asked.old_paint,
        lettering=asked.lettering,
        masked=() if asked.bright is None else tuple(_BETWEEN.split(asked.bright)),
        paint=asked.paint,
        seen=() if asked.seen is None else (asked.seen,),
    )
    return PaintAnswer(plan=plan, taken=(taken,) if asked.temperature is None else ())
