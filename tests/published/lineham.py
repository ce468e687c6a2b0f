"""Lineham, A Text-Book of Mechanical Engineering: port areas, and steam missing by Cotterill's rule."""

from __future__ import annotations

from lapwright.cycle.cards import steam_missing, steam_speed
from lapwright.engine.running import Running
from tests.published.figure import Figure, Row
from tests.published.large_engine import ASSUMED, card_factor
from tests.published.power import FOOT, RPM
from tests.published.running import missing_share, on_steam, run_one, small_engine

SOURCE = "lineham"
#: Piston speeds [ft/min] and cylinder over port area at 100 ft/s of steam.
RATIOS = {"locomotive": (1000, 6.0), "marine": (700, 8.571), "horizontal": (400, 15.0), "pumping": (130, 46.154)}


def steam_in_port(piston_speed: float, ratio: float) -> float:
    """Speed of steam [ft/s] in a port of that share of the cylinder."""
    return steam_speed(ratio, 1.0, piston_speed=piston_speed / 60 * FOOT) / FOOT


def valve_leak(rpm: float, gauge: float, *, wider: float = 0.0) -> float:
    """Steam past the valve's face [kg/s], the trial's engine on wet steam; its lands may be wider by a share."""
    sizes = small_engine()
    land = (sizes.number("valve.length") - sizes.number("valve.cavity")) / 2
    sizes = sizes.replacing({"valve.cavity": sizes.number("valve.cavity") - 2 * wider * land})
    running = Running(wall_heat="none", ring_gap=0.0, gland_gap=0.0)
    return run_one(on_steam(gauge, rpm, ideal=False), sizes, running=running).uses["valve face"] * rpm / 60


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
    Row(
        id="COTTERILL-SHARE",
        source=SOURCE,
        locator="p. 884, shares",
        kind="trial",
        figures=(
            Figure(
                what="steam that the card does not show, as a share of the supply",
                theirs=0.30,
                ours=lambda: missing_share(on_steam(3.0, 600, ideal=False), small_engine()),
                within=0.05,
                explained=0.20,
                places=2,
            ),
        ),
        note="0.25 to 0.60 in large engines, 0.30 on the average, of which 5 to 50 % leaks. Ours is the trial "
        "program's engine on steam of 3 bar, its rings and valve tight, its wet walls passing 5 kW/m2K, which is a "
        "judgement: the program promises less steam than such an engine is likely to use.",
    ),
    Row(
        id="LEAK-CAPPER",
        source=SOURCE,
        locator="appendix VI, Capper's trials",
        kind="trial",
        figures=(
            Figure(
                what="steam leaking past the valve at twice the speed, over that before",
                theirs=1,
                ours=lambda: valve_leak(1200, 3.0) / valve_leak(600, 3.0),
                within=0.001,
            ),
            Figure(
                what="the same at twice the drop of pressure",
                theirs=2,
                ours=lambda: valve_leak(600, 3.0) / valve_leak(600, 1.5),
                within=0.05,
                explained=0.15,
                places=2,
            ),
            Figure(
                what="the same with lands a quarter wider",
                theirs=0.8,
                ours=lambda: valve_leak(600, 3.0, wider=0.25) / valve_leak(600, 3.0),
                within=0.05,
                explained=0.1,
                places=2,
            ),
        ),
        note="Found on one engine: the leak does not ask for the speed, grows with the drop of pressure and falls with "
        "the lap. Of ours a part is steam, which grows with the square of the pressure; and a smaller cavity has a "
        "shorter way round it.",
    ),
    Row(
        id="LIN-DF",
        source=SOURCE,
        locator="p. 772",
        kind="trial",
        figures=(
            Figure(
                what="mean pressure of a run over that of the ideal card, 100 turns a minute",
                theirs=(0.85, 0.95),
                ours=lambda: card_factor(100),
            ),
        ),
        note=f"Good engines, after Unwin. Its highest economical expansion is no matter of a card. {ASSUMED}",
    ),
)
