"""Babcock & Wilcox, "Steam": Napier's rule, and steam measured through openings, against the flow law of the ports."""

from __future__ import annotations

from functools import partial
from math import sqrt

from lapwright.cycle.balance import find_exponent
from lapwright.cycle.cards import napier_flow
from lapwright.medium.flow import find_flow_terms, flow_factor
from lapwright.medium.water import find_saturation
from tests.published.figure import Figure, Row
from tests.published.power import HOUR, INCH, POUND, PSI

SOURCE = "babcock-1919"
ATMOSPHERE = 14.7
#: Table 68: pressure [lb/sq in, absolute] and steam into the atmosphere [lb/min] through a square inch.
CLARK = {25.37: 22.81, 30: 26.84, 50: 44.06, 60: 52.59, 75: 65.3, 135: 115.61, 215: 181.58}


def pass_steam(pressure: float, back: float) -> float:
    """Dry steam [kg/s m2] through an opening without contraction; pressures in Pa."""
    steam = find_saturation(pressure).steam
    return sqrt(pressure / steam.volume) * flow_factor(back / pressure, *find_flow_terms(find_exponent(1.0)))


def through_inch(pressure: float, drop: float | None = None) -> float:
    """The same [lb/min] through a square inch, into the atmosphere or over a drop [lb/sq in]."""
    back = ATMOSPHERE if drop is None else pressure - drop
    return pass_steam(pressure * PSI, back * PSI) * INCH**2 / POUND * 60


def by_napier(pressure: float) -> float:
    """Napier's rule for a square millimetre [kg/h]."""
    return napier_flow(pressure, 1e-6) * HOUR


ROWS = (
    Row(
        id="NAPIER",
        source=SOURCE,
        locator="equation 49",
        kind="rule",
        figures=(
            Figure(
                what="steam of 3 bar above the atmosphere through 1 mm2",
                theirs=2.104387690,
                ours=partial(by_napier, 4.01325e5),
                unit="kg/h",
                within=0.0005,
                places=5,
            ),
            Figure(
                what="the same by the flow law of the ports",
                theirs=2.135020984,
                ours=lambda: pass_steam(4.01325e5, 1.01325e5) * 1e-6 * HOUR,
                unit="kg/h",
                within=0.00005,
                places=5,
            ),
        ),
        note="Pounds a second = pressure x area / 70. The flow law, dry steam expanding with 1.135, passes 1.5 % more; "
        "Peabody's short tubes passed up to 3.2 % more. Both figures of theirs are worked out by hand.",
    ),
    Row(
        id="CLARK-FLOW",
        source=SOURCE,
        locator="table 68",
        kind="check",
        figures=tuple(
            Figure(
                what=f"steam of {pressure:g} lb through a square inch",
                theirs=measured,
                ours=partial(through_inch, pressure),
                unit="lb/min",
                within=0.005,
                explained=0.01 * measured,
                places=2,
            )
            for pressure, measured in CLARK.items()
        ),
        note="Clark's figures for dry steam into the atmosphere; the flow law of the ports, without contraction, comes "
        "within a hundredth.",
    ),
    Row(
        id="CD-BW",
        source=SOURCE,
        locator="equation 50",
        kind="rule",
        figures=tuple(
            Figure(
                what=f"short pipe, {pressure} lb, a drop of {drop} lb",
                theirs=1.9 * 0.93 * sqrt((pressure - drop) * drop),
                ours=lambda pressure=pressure, drop=drop: 0.93 * through_inch(pressure, drop),  # type: ignore[misc]
                unit="lb/min",
                within=0.005,
                explained=0.05 * 1.9 * sqrt((pressure - drop) * drop),
                places=2,
            )
            for pressure, drop in ((50, 2), (50, 10), (100, 10))
        ),
        note="Through a square inch: 1.9 x 0.93 x root of pressure after x drop, worked out by hand; a rule of thumb "
        "that comes within 2 % of the flow law with the same 0.93.",
    ),
)
