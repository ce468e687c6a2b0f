"""Dole and James, Mechanism of Steam Engines: how wide the exhaust port must be."""

from __future__ import annotations

from lapwright.motion.answers import describe_motion
from tests.published.engines import INCH, MM, build, name_faults
from tests.published.figure import Figure, Row

PORT, BRIDGE = 0.625, 0.625


def way(middle: float) -> float:
    """Way left to the exhaust at greatest displacement [in]: low-1887's valve at 2 in travel."""
    left = describe_motion(build(throw=1, lap=0.375, port=PORT, bridge=BRIDGE, middle=middle)).least_exhaust_way_mm
    assert left is not None
    return left * MM / INCH


def judge(middle: float) -> str:
    return name_faults(build(throw=1, lap=0.375, lead=1 / 32, port=PORT, bridge=BRIDGE, middle=middle))


ROWS = (
    Row(
        id="EXH-RULE",
        source="dole-1914",
        locator="p. 62",
        kind="rule",
        figures=(
            Figure(
                what="exhaust way of low-1887, fig. 58", theirs=0.875, ours=lambda: way(1.25), unit="in", within=1e-6
            ),
            Figure(
                what="exhaust way with the port just as wide as the rule asks (1 in)",
                theirs=PORT,
                ours=lambda: way(1.0),
                unit="in",
                within=1e-6,
            ),
            Figure(what="found where the rule is kept", theirs="sound", ours=lambda: judge(1.0)),
            Figure(
                what="found where a quarter of the way is missing", theirs="exhaust-choked", ours=lambda: judge(0.84)
            ),
        ),
        note="The way left at full travel should be no less than the steam port. The program calls the exhaust choked "
        "below 85 % of that, since small engines fall a little short without harm.",
    ),
)
