"""Maggard, Rough and Tumble Engineering, and others: bands of lead."""

from __future__ import annotations

from lapwright.engine.engine import PURPOSES, Engine
from lapwright.findings.aim import choose_aim
from tests.published.engines import INCH
from tests.published.figure import Figure, Row


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
)
