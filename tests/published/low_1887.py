"""Low, An Introduction to Machine Drawing and Design: the valve and ports of fig. 58."""

from __future__ import annotations

from lapwright.engine.sizes import Sizes
from tests.published.engines import INCH, LONG, build, read_advance, read_event, read_laps
from tests.published.figure import Figure, Row
from tests.published.van_cleve import travel_by_program

SOURCE = "low-1887"
#: Widths as drawn, in: port, bridge, middle port, land and cavity of the valve.
PORT, BRIDGE, MIDDLE, LAND, CAVITY = 0.625, 0.625, 1.25, 1.0, 2.5


def drawn() -> Sizes:
    sizes = build(throw=1, lap=0, port=PORT, bridge=BRIDGE, middle=MIDDLE, stroke=12, advance=0.0)
    return sizes.replacing({"valve.length": (2 * LAND + CAVITY) * INCH, "valve.cavity": CAVITY * INCH})


def set_right() -> Sizes:
    return build(throw=1, lap=0.375, port=PORT, bridge=BRIDGE, middle=MIDDLE, stroke=12, n=LONG)


ROWS = (
    Row(
        id="LOW-58",
        source=SOURCE,
        locator="figs. 58 a-f and pp. 71-73",
        kind="check",
        figures=(
            Figure(what="outside lap", theirs=0.375, ours=lambda: read_laps(drawn())[0], unit="in", within=1e-9),
            Figure(what="inside lap", theirs=0, ours=lambda: read_laps(drawn())[1], unit="in", within=1e-9),
        ),
        note="The laps stand in the text; the widths of port, bridge and valve were read from the drawing, in eighths. "
        "The piston's clearance (1/4 in at each end) is a size and no answer.",
    ),
    Row(
        id="LOW-58d",
        source=SOURCE,
        locator="fig. 58, driven as the rule travel = 2 (lap + port) has it",
        kind="derived",
        figures=(
            Figure(
                what="travel that opens the port",
                theirs=2.0,
                ours=lambda: travel_by_program(0.375, PORT),
                unit="in",
                within=1e-6,
            ),
            Figure(
                what="angle of advance without lead",
                theirs=22.024,
                ours=lambda: read_advance(drawn(), 0.0),
                unit="deg",
                within=0.0005,
            ),
            Figure(
                what="cut-off",
                theirs=0.8594,
                ours=lambda: read_event(set_right(), "cut_off"),
                unit="stroke",
                within=0.00005,
                places=4,
            ),
        ),
        note="Not published: worked out by hand from the drawing's sizes (infinite rods), so that the whole chain from "
        "widths to cut-off is held.",
    ),
)
