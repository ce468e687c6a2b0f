"""Singh, Applied Thermodynamics: cushion steam, and how dry the steam is after cut-off and at release."""

from __future__ import annotations

from math import pi

from lapwright.cycle.cards import steam_shown
from tests.published.figure import Figure, Row

SWEPT, CLEARANCE = pi / 4 * 0.2**2 * 0.3, 2000e-6
SUPPLIED = 0.05


def in_cylinder() -> float:
    """Steam [kg] in the cylinder: what a stroke brings, and dry steam of 1 bar shut in at 0.8 of the way home."""
    return SUPPLIED + steam_shown(1e5, CLEARANCE + 0.2 * SWEPT)


def dryness(pressure: float, share: float) -> float:
    """What shows of it at so much of the stroke."""
    return steam_shown(pressure, CLEARANCE + share * SWEPT) / in_cylinder()


ROWS = (
    Row(
        id="ONK-8",
        source="singh",
        locator="example 8, p. 545",
        kind="check",
        figures=(
            Figure(what="steam in the cylinder", theirs=0.052293, ours=in_cylinder, unit="kg", within=5e-7, places=6),
            Figure(
                what="dryness at cut-off, 15 bar at a tenth",
                theirs=0.427,
                ours=lambda: dryness(15e5, 0.1),
                within=0.0005,
                places=4,
            ),
            Figure(
                what="dryness at release, 3 bar at nine tenths",
                theirs=0.3309,
                ours=lambda: dryness(3e5, 0.9),
                within=0.00005,
                places=4,
            ),
        ),
        note="Reckoned with a steam table in four figures. Steam that is wetter at release than at cut-off is odd; as "
        "an exercise in cushion steam it serves.",
    ),
)
