"""Maggard, Rough and Tumble Engineering, and others: bands of lead; the power of a farm engine."""

from __future__ import annotations

from lapwright.engine.engine import PURPOSES, Engine
from lapwright.findings.aim import choose_aim
from tests.published.engines import INCH
from tests.published.figure import Figure, Row
from tests.published.power import horse_power, mean_psi


def lead_aimed_at(purpose: str) -> float:
    """Lead in inches that the program aims at for a valve with 1 in lap and 5 in travel."""
    return choose_aim(Engine(name="Wren", cylinders=(), purpose=purpose)).lead(2.5 * INCH, INCH) / INCH


ROWS = (
    Row(
        id="LEADS",
        source="maggard-1900",
        locator="and others, as the note says",
        kind="rule",
        figures=tuple(
            Figure(
                what=f"lead aimed at for {purpose}, 5 in travel",
                theirs=band,
                ours=lambda purpose=purpose: lead_aimed_at(purpose),  # type: ignore[misc]
                unit="in",
            )
            for purpose, band in zip(PURPOSES, ((1 / 32, 3 / 16), (0.0, 1 / 4), (1 / 32, 1 / 4)), strict=True)
        ),
        note="1/32 to 1/16 in (Maggard), 1/32 to 3/16 (others on farm engines), 1/32 (rohan-1899), 1/16 at full gear "
        "(sinclair-1885), 0 to 1/4 (outside-lap-text), none (langley-1911, williams-1906). Lead goes with speed and "
        "size of ports; the program's shares of the throw lie within.",
    ),
    Row(
        id="RT-HP",
        source="maggard-1900",
        locator="question on a 7 by 10 in engine",
        kind="check",
        figures=(
            Figure(
                what="200 turns a minute, mean pressure 50 lb less 5",
                theirs=17.5,
                ours=lambda: horse_power(45, bore=7, stroke=10, rpm=200),
                unit="hp",
                within=0.25,
                places=2,
            ),
            Figure(
                what="mean pressure of 60 lb gauge cut off at half stroke",
                theirs=50,
                ours=lambda: mean_psi(60 + 14.7, 0.5, back=14.7),
                unit="lb/sq in",
                within=0.5,
                places=1,
                explained=2,
            ),
        ),
        note="The source's 50 lb is a round figure.",
    ),
)
