"""Bourne, A Catechism of the Steam Engine: what expansion gains, the divisor of horse-power, the speed of steam."""

from __future__ import annotations

from lapwright.cycle.cards import steam_speed
from lapwright.engine.engine import Engine
from lapwright.engine.running import assume_running
from tests.published.figure import Figure, Row
from tests.published.power import FOOT, INCH, horse_power, mean_factor

SOURCE = "bourne-1865"
EXPANSIONS = {2: 1.69, 3: 2.10, 4: 2.39, 5: 2.61, 6: 2.79, 7: 2.95, 8: 3.08}
FOOT_A_MINUTE = FOOT / 60


def efficacy(expansions: float) -> float:
    """Work of the steam against the same steam used without expansion."""
    return mean_factor(1 / expansions) * expansions


def valve_friction() -> float:
    running, _ = assume_running(Engine(name="Wren", cylinders=()), fluid="steam", stroke=0.02)
    return running.valve_friction or 0.0


def speed_in_port(piston_speed: float) -> float:
    """Speed of steam [ft/min] in a port made by the rule: piston area x piston speed / 4000."""
    area = 100 * INCH**2
    port = area * piston_speed / 4000
    return steam_speed(area, port, piston_speed=piston_speed * FOOT_A_MINUTE) / FOOT_A_MINUTE


def piston_speed_for(share: float) -> float:
    """Piston speed [ft/min] that a port of so much of the piston serves at 4000 ft/min of steam."""
    return 4000 / steam_speed(1.0, share, piston_speed=1.0)


ROWS = (
    Row(
        id="B-Q180",
        source=SOURCE,
        locator="Q180, fig. 32",
        kind="check",
        figures=(
            Figure(
                what="squares before cut-off at a quarter, of 20 divisions 10 high",
                theirs=50,
                ours=lambda: 200 * (mean_factor(0.25) - 0.25 * (efficacy(4) - 1)),
                unit="squares",
                within=1e-9,
            ),
            Figure(
                what="squares after it",
                theirs=69,
                ours=lambda: 50 * (efficacy(4) - 1),
                unit="squares",
                within=0.5,
                places=2,
            ),
        ),
    ),
    Row(
        id="B-Q182",
        source=SOURCE,
        locator="Q182",
        kind="check",
        figures=tuple(
            Figure(
                what=f"efficacy of {expansions} expansions",
                theirs=printed,
                ours=lambda expansions=expansions: efficacy(expansions),  # type: ignore[misc]
                within=0.005,
            )
            for expansions, printed in EXPANSIONS.items()
        ),
        note="The rule's words divide the length of the expansion by that of full pressure; its figures divide the "
        "whole stroke by it, which is right.",
    ),
    Row(
        id="B-HPCONST",
        source=SOURCE,
        locator="Q221",
        kind="check",
        figures=(
            Figure(
                what="divisor of diameter squared x pressure x piston speed, for one horse-power",
                theirs=42017,
                ours=lambda: 42**2 * 20 * 2 * 3.5 * 85 / horse_power(20, bore=42, stroke=42, rpm=85),
                within=0.5,
                places=0,
            ),
        ),
        note="Tried on 42 in by 3 1/2 ft at 85 turns a minute and 20 lb. The nominal horse-power of Q212-217 names a "
        "size and no power, and is not compared.",
    ),
    Row(
        id="B-Q320",
        source=SOURCE,
        locator="Q320",
        kind="rule",
        figures=(
            Figure(
                what="steam in a port made by the rule, piston at 240 ft/min",
                theirs=4000,
                ours=lambda: speed_in_port(240),
                unit="ft/min",
                within=1e-6,
                places=0,
            ),
            Figure(
                what="piston speed that a port of a tenth serves",
                theirs=400,
                ours=lambda: piston_speed_for(1 / 10),
                unit="ft/min",
                within=1e-6,
                places=0,
            ),
        ),
        note="The rule: port area = piston area x piston speed / 4000, in feet a minute; locomotives have 1/10 to 1/6.",
    ),
    Row(
        id="FRICTION-BOURNE",
        source=SOURCE,
        locator="Q55-57",
        kind="rule",
        figures=(
            Figure(
                what="friction of valve on port face, taken where none is given",
                theirs=(0.05, 0.107),
                ours=valve_friction,
            ),
        ),
        note="Morin's and Bourne's trials: 1/20 at best, 1/14 to 1/12 lubricated, 0.107 brass on greasy cast iron.",
    ),
)
