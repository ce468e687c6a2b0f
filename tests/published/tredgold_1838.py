"""Tredgold, The Steam Engine: the force on a large piston."""

from __future__ import annotations

from math import pi, sqrt

from tests.published.figure import Figure, Row
from tests.published.power import horse_power

AREA, SPEED = 2827, 252


def force(mean: float) -> float:
    """Mean force [lb] of a mean pressure on 2827 sq in: the power at 252 ft a minute over that speed."""
    power = horse_power(mean, bore=sqrt(AREA / (pi / 4)), stroke=72, rpm=SPEED / 12)
    return power * 33000 / SPEED


ROWS = (
    Row(
        id="TRE-IHP",
        source="tredgold-1838",
        locator="p. 387",
        kind="check",
        figures=(
            Figure(
                what="15.35 lb on 2827 sq in",
                theirs=43394,
                ours=lambda: force(15.35),
                unit="lb",
                within=0.5,
                places=1,
            ),
            Figure(
                what="the same less 2 lb of friction",
                theirs=37740.4,
                ours=lambda: force(15.35 - 2),
                unit="lb",
                within=0.1,
                places=1,
            ),
        ),
        note="The source cuts the last figure off (37740.45).",
    ),
)
