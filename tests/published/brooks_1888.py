"""Brooks, Cotton Manufacturing: the indicated horse-power of a mill engine."""

from __future__ import annotations

from math import pi, sqrt

from tests.published.figure import Figure, Row
from tests.published.power import horse_power

ROWS = (
    Row(
        id="BRK-IHP",
        source="brooks-1888",
        locator="section on engines",
        kind="check",
        figures=(
            Figure(
                what="400 sq in, 5 1/2 ft stroke, 40 turns a minute, 39.81 lb",
                theirs=212.32,
                ours=lambda: horse_power(39.81, bore=sqrt(400 / (pi / 4)), stroke=66, rpm=40),
                unit="hp",
                within=0.005,
                places=2,
            ),
        ),
        note="Its strokes are double ones, 11 ft each. Its nominal horse-power names a size and is not compared.",
    ),
)
