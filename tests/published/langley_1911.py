"""Langley and Manly, Memoir on Mechanical Flight: a piston valve's laps and a rod's proportion."""

from __future__ import annotations

from dataclasses import replace

from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import set_moving
from tests.published.engines import MM, build, read_laps
from tests.published.figure import Figure, Row

SOURCE = "langley-1911"


def pump_valve() -> Sizes:
    """Ports 3 mm wide and 34 mm over all; a valve 35 mm long with faces of 4 mm; total movement 14 mm."""
    sizes = build(throw=7, lap=0, port=3, bridge=4, middle=20, unit=MM, stroke=70, advance=0.0)
    return replace(sizes.replacing({"valve.length": 35 * MM, "valve.cavity": 27 * MM}), kind="piston")


def rod_to(what: str) -> float:
    piston = set_moving(build(throw=1, lap=0, port=1, unit=MM, stroke=70, n=150 / 35)).piston
    assert piston is not None
    return 150 * MM / (piston.stroke if what == "stroke" else piston.slider.throw)


ROWS = (
    Row(
        id="LAN-PUMP",
        source=SOURCE,
        locator="pp. 114-115, piston valve of the circulating pump",
        kind="check",
        figures=(
            Figure(
                what="lap at the valve's outer edges",
                theirs=0.5,
                ours=lambda: read_laps(pump_valve(), MM)[0],
                unit="mm",
                within=1e-9,
            ),
            Figure(
                what="lap at its inner edges",
                theirs=0.5,
                ours=lambda: read_laps(pump_valve(), MM)[1],
                unit="mm",
                within=1e-9,
            ),
        ),
        note="What the source calls throw (14 mm) seems to be the whole movement; the laps do not hang on it.",
    ),
    Row(
        id="LAN-ROD",
        source=SOURCE,
        locator="p. 116",
        kind="check",
        figures=(
            Figure(what="rod to stroke traced", theirs=15 / 7, ours=lambda: rod_to("stroke"), within=1e-6, places=4),
            Figure(what="rod to crank", theirs=30 / 7, ours=lambda: rod_to("crank"), within=1e-6, places=4),
        ),
        note="The source counts the rod in strokes (2 1/7); in cranks it is 4 2/7.",
    ),
)
