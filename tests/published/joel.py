"""Joel, Basic Engineering Thermodynamics: cylinders for a power, and the steam they take."""

from __future__ import annotations

from math import pi

from lapwright.cycle.cards import ideal_mean_pressure, indicated_power, steam_shown, thermal_efficiency
from tests.published.figure import Figure, Row
from tests.published.power import HOUR, KILOWATT, RPM

SOURCE = "joel"


def brake_power() -> float:
    """Brake power [kW] of the bore, stroke and speed that example 11.1 comes to."""
    mean = 0.82 * ideal_mean_pressure(1.25e6, 0.3, back=0.13e6)
    return 0.78 * indicated_power(mean, bore=0.239, stroke=0.299, speed=301.1 * RPM, rod=0.0) / KILOWATT


def power() -> float:
    """Power [kW] of the bore and stroke that example 11.2 comes to, at four turns a second."""
    mean = 0.8 * ideal_mean_pressure(900e3, 0.4, back=140e3)
    return indicated_power(mean, bore=0.1893, stroke=0.2272, speed=8 * pi, rod=0.0) / KILOWATT


def steam() -> float:
    """Steam [kg/h]: half as much again as fills the cylinder up to cut-off."""
    filled = pi / 4 * 0.1893**2 * 0.2272 * 0.4
    return 1.5 * steam_shown(900e3, filled) * 8 * HOUR


ROWS = (
    Row(
        id="JOEL-1",
        source=SOURCE,
        locator="example 11.1, p. 326",
        kind="check",
        figures=(
            Figure(
                what="power of the cylinder it comes to, 239 by 299 mm at 301.1 turns a minute",
                theirs=60,
                ours=brake_power,
                unit="kW",
                within=0.5,
                places=2,
            ),
        ),
        note="The source goes from power to cylinder, ours back; a millimetre of bore is half a kilowatt.",
    ),
    Row(
        id="JOEL-2",
        source=SOURCE,
        locator="example 11.2, p. 328",
        kind="check",
        figures=(
            Figure(
                what="power of the cylinder it comes to, 189.3 by 227.2 mm at 4 turns a second",
                theirs=22.5,
                ours=power,
                unit="kW",
                within=0.05,
                places=2,
            ),
            Figure(what="steam", theirs=514.3, ours=steam, unit="kg/h", within=0.05, places=1, explained=0.6),
            Figure(
                what="heat turned into work",
                theirs=6.8,
                ours=lambda: 100 * thermal_efficiency(22.5e3, steam() / HOUR, supply=900e3, exhaust=140e3),
                unit="%",
                within=0.05,
                places=2,
            ),
        ),
        note="The steam's last figure hangs on the rounding of the bore, and on 0.2148 m3/kg for dry steam of 9 bar.",
    ),
)
