"""Lineham, A Text-Book of Mechanical Engineering: port areas, and steam missing by Cotterill's rule."""

from __future__ import annotations

from lapwright.cycle.cards import steam_missing, steam_speed
from tests.published.figure import Figure, Row
from tests.published.power import FOOT, RPM

SOURCE = "lineham"
#: Piston speeds [ft/min] and cylinder over port area at 100 ft/s of steam.
RATIOS = {"locomotive": (1000, 6.0), "marine": (700, 8.571), "horizontal": (400, 15.0), "pumping": (130, 46.154)}


def steam_in_port(piston_speed: float, ratio: float) -> float:
    """Speed of steam [ft/s] in a port of that share of the cylinder."""
    return steam_speed(ratio, 1.0, piston_speed=piston_speed / 60 * FOOT) / FOOT


ROWS = (
    Row(
        id="LIN-681",
        source=SOURCE,
        locator="p. 681",
        kind="rule",
        figures=tuple(
            Figure(
                what=f"steam in the port of a {name} engine, piston at {speed} ft/min, {ratio:g} ports to the cylinder",
                theirs=100,
                ours=lambda speed=speed, ratio=ratio: steam_in_port(speed, ratio),  # type: ignore[misc]
                unit="ft/s",
                within=0.006,
                places=2,
            )
            for name, (speed, ratio) in RATIOS.items()
        ),
        note="The rule is 100 ft/s (after Rankine, it says); the ratios are worked out from it by hand. bourne-1865 "
        "keeps to two thirds of it.",
    ),
    Row(
        id="COTTERILL",
        source=SOURCE,
        locator="p. 884",
        kind="rule",
        figures=(
            Figure(
                what="steam missing over steam shown: 19 mm bore, 600 turns a minute, expanded twice",
                theirs=0.264817,
                ours=lambda: steam_missing(2.0, bore=0.748 * 0.0254, speed=600 * RPM),
                within=0.0000005,
                places=6,
            ),
        ),
        note="The rule worked out by hand with 7 for its coefficient. The page does not print its units: inches and "
        "turns a minute are from memory.",
    ),
)
