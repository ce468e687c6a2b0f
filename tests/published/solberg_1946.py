"""Solberg and others, Elementary Heat Power: indicated power from a pair of cards, and what the brake holds of it."""

from __future__ import annotations

from math import pi

from lapwright.cycle.cards import measure_card
from tests.published.figure import Figure, Row
from tests.published.power import INCH, PSI, horse_power

#: 600 lb at 3 ft on the brake, 250 turns a minute [hp].
BRAKE = 2 * pi * 600 * 3 * 250 / 33000


def pressure(area: float) -> float:
    """Mean pressure [lb/sq in] of a card of so many sq in: 3.4 in long, 60 lb spring."""
    return measure_card(area * INCH**2, 3.4 * INCH, spring=60 * PSI / INCH) / PSI


def power() -> float:
    """Both ends: the head end as a single-acting cylinder, the crank end as what a double-acting one has more."""
    size = {"bore": 12.0, "stroke": 15.0, "rpm": 250.0}
    head, crank = pressure(2.70), pressure(2.75)
    crank_end = horse_power(crank, **size, rod=2.5) - horse_power(crank, **size, rod=None)
    return horse_power(head, **size, rod=None) + crank_end


ROWS = (
    Row(
        id="SOL-8.1",
        source="solberg-1946",
        locator="example 8.1, p. 461",
        kind="check",
        figures=(
            Figure(what="indicated power", theirs=100.749, ours=power, unit="hp", within=0.0005),
            Figure(
                what="lost to friction, the brake holding 600 lb at 3 ft",
                theirs=15.069,
                ours=lambda: power() - BRAKE,
                unit="hp",
                within=0.0005,
            ),
            Figure(
                what="brake over indicated power",
                theirs=85.04,
                ours=lambda: BRAKE / power() * 100,
                unit="%",
                within=0.005,
                places=2,
            ),
        ),
        note="Theirs as re-keyed; the book itself has 101.1 and 85.7 hp. The rod is taken off at the crank end.",
    ),
)
