"""Williams, How It Works: travel, eccentric and advance for a valve with lap."""

from __future__ import annotations

from lapwright.engine.sizes import Sizes
from tests.published.engines import build, read_advance, read_event
from tests.published.figure import Figure, Row
from tests.published.van_cleve import travel_by_program

LAP, PORT, LEAD = 0.375, 0.625, 1 / 32


def engine(lead: float) -> Sizes:
    return build(throw=LAP + PORT, lap=LAP, lead=lead, port=PORT)


def lap_angle_and_lead_angle() -> float:
    """The advance for the lap alone, and how far before dead centre the port then opens with the lead."""
    return read_advance(engine(0.0), 0.0) + 360 - read_event(engine(LEAD), "admission", angle=True)


ROWS = (
    Row(
        id="HW-1",
        source="williams-1906",
        locator='chapter "How the cut-off is managed"',
        kind="rule",
        figures=(
            Figure(what="travel", theirs=2.0, ours=lambda: travel_by_program(LAP, PORT), unit="in", within=1e-6),
            Figure(
                what="throw (eccentricity)",
                theirs=1.0,
                ours=lambda: travel_by_program(LAP, PORT) / 2,
                unit="in",
                within=1e-6,
            ),
            Figure(
                what="lap angle and lead angle together",
                theirs=23.9695,
                ours=lap_angle_and_lead_angle,
                unit="deg",
                within=0.0001,
                places=4,
            ),
        ),
        note="For lap 3/8, port 5/8 and lead 1/32 in. This book, like this project, calls the eccentricity the throw. "
        "By hand, sin of the whole advance is (lap + lead) / throw; ours adds the advance for the lap "
        "alone to the angle by which the lead then opens the port early.",
    ),
)
