"""Sarkar, Theory of Machines: greatest piston speed."""

from __future__ import annotations

from functools import cache
from math import degrees, pi, radians

from lapwright.engine.cylinder import Slider
from lapwright.motion.solve import find_zero
from lapwright.motion.travel import trace_piston
from tests.published.figure import Figure, Row

STEP = 1e-4


def speed(angle: float) -> float:
    """Piston speed [m/s] at a crank angle [rad] at 200 turns a minute, out of the piston's places."""
    piston = trace_piston(Slider(0.3, 1.0, 0.0))
    moved = piston.share_of_stroke("head", angle + STEP) - piston.share_of_stroke("head", angle - STEP)
    return piston.stroke * moved / (2 * STEP) * 200 * 2 * pi / 60


@cache
def fastest() -> float:
    """Crank angle [rad] of the greatest speed."""
    return find_zero(lambda angle: speed(angle + STEP) - speed(angle - STEP), radians(60), radians(90)) or 0.0


ROWS = (
    Row(
        id="SAR-1",
        source="sarkar",
        locator="illustration 1, p. 160",
        kind="check",
        figures=(
            Figure(
                what="crank angle at the greatest piston speed",
                theirs=74.96,
                ours=lambda: degrees(fastest()),
                unit="deg",
                within=0.005,
                explained=0.45,
                places=2,
            ),
            Figure(
                what="greatest piston speed",
                theirs=6.56,
                printed=7.0,
                ours=lambda: speed(fastest()),
                unit="m/s",
                within=0.005,
                places=2,
            ),
        ),
        note="The angle is that of the two-term series, 74.96 deg; without the approximation it is 74.53 deg. The "
        "speed as re-keyed, 7.0, has lost the 2 under the second term; right is 6.56 (6.54 by the two terms).",
    ),
)
