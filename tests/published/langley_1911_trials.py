"""Langley and Manly, Memoir on Mechanical Flight: light engines on the brake, and turns from a store of air."""

from __future__ import annotations

from functools import partial
from math import pi, sqrt

from lapwright.cycle.engine_run import EngineRun
from lapwright.engine.running import Running
from tests.published.figure import Figure, Row
from tests.published.power import FOOT, HORSE_POWER, POUND, PSI
from tests.published.running import mean_pressure, on_air, on_steam, run, run_one, small_engine

SOURCE = "langley-1911"
STROKE = 50.0
#: Length of the ports in bores: as this program takes it, and what it takes to come to the power of the old engine.
FREE, STARVED = 0.4, 0.15
ASSUMED = (
    "Assumed: double-acting, steam of dryness 0.98, piston rod 0.15 of the bore, rod and port width as on p. 116, "
    "travel 13 mm as of its engine no. 5, lap 4.45 mm for the cut-off, clearance 8 %, leaks, walls and friction as "
    "this program takes them."
)


def run_light_engine(
    pressure: float, rpm: float, *, bore: float, port_length: float = FREE, friction: float | None = None
) -> EngineRun:
    """One of the light engines' cylinders; pressure in lb on the sq in, port length in bores, friction [Pa]."""
    sizes = small_engine(
        bore=bore, stroke=STROKE, rod=0.15 * bore, connecting_rod=STROKE * 15 / 7, port=2.0,
        port_length=port_length * bore, throw=6.5, lap=4.45, lead=0.05, exhaust_lap=0.3,
    )  # fmt: skip
    conditions = on_steam(pressure * PSI / 1e5, rpm, ideal=False)
    return run(conditions, sizes, running=Running(friction_pressure=friction))


def brake(pressure: float, rpm: float, *, bore: float, cylinders: int = 1) -> float:
    return cylinders * run_light_engine(pressure, rpm, bore=bore).brake_power / HORSE_POWER


def indicated(pressure: float, rpm: float, *, bore: float, cylinders: int) -> float:
    return cylinders * run_light_engine(pressure, rpm, bore=bore).indicated_power / HORSE_POWER


def starved_brake() -> float:
    """Brake power [hp] with narrow ports and the quarter for friction that the source allows."""
    starved = run_light_engine(80, 1000, bore=24, port_length=STARVED)
    quarter = 0.25 * mean_pressure(starved.cylinders[0])
    run_again = run_light_engine(80, 1000, bore=24, port_length=STARVED, friction=quarter)
    return run_again.brake_power / HORSE_POWER


def swept(bore: float) -> float:
    return run_light_engine(90, 700, bore=bore).cylinders[0].ends["head"].swept * 1e6


def turns_from_store() -> float:
    """Turns that 18,329 ft lb give an engine of 60 cc a stroke on air of 100 lb, full pressure all the stroke."""
    bore = sqrt(60e3 / STROKE / (pi / 4))
    sizes = small_engine(
        bore=bore, stroke=STROKE, rod=0.0, connecting_rod=110.0, port=3.0, port_length=20.0, lap=0.0, lead=0.0,
        exhaust_lap=0.0,
    )  # fmt: skip
    work = run_one(on_air(100 * PSI / 1e5, 5), sizes).work
    return 18329 * FOOT * POUND * 9.80665 / work


ROWS = (
    Row(
        id="LAN-OLD4",
        source=SOURCE,
        locator="pp. 54-55",
        kind="trial",
        figures=(
            Figure(
                what="brake power, 24 by 50 mm, 80 lb, 1000 turns, cut-off 1/2, ports of 4 % of the piston",
                theirs=0.208,
                ours=partial(brake, 80, 1000, bore=24),
                unit="hp",
                within=0.0005,
                explained=0.17,
            ),
            Figure(
                what="the same with ports of 1.6 % and a quarter lost to friction",
                theirs=0.208,
                ours=starved_brake,
                unit="hp",
                within=0.0005,
                explained=0.03,
            ),
        ),
        note="The source blames ports that were too small, and gives no size of them: narrow ports do bring ours down "
        "to its figure. Its mean pressure of about 21 lb is half of what its own brake power wants (40 lb) and is not "
        f"compared. {ASSUMED}",
    ),
    Row(
        id="LAN-OLD4B",
        source=SOURCE,
        locator="p. 63",
        kind="trial",
        figures=tuple(
            Figure(
                what=f"indicated power of two, {pressure} lb, 700 turns",
                theirs=(0.4, 0.8),
                ours=partial(indicated, pressure, 700, bore=24, cylinders=2),
                unit="hp",
            )
            for pressure in (75, 105)
        ),
        note=f"Estimated by the source, at less than 700 turns a minute. {ASSUMED}",
    ),
    Row(
        id="LAN-6",
        source=SOURCE,
        locator="pp. 66-69 and 121",
        kind="trial",
        figures=(
            Figure(
                what="0.66 hp on the brake from two of 28 by 50 mm: ours at 60 lb, 700 turns, is less",
                theirs=(0.0, 0.66),
                ours=partial(brake, 60, 700, bore=28, cylinders=2),
                unit="hp",
            ),
            Figure(
                what="and ours at 90 lb is more, by no more than a fourth",
                theirs=(0.66, 0.825),
                ours=partial(brake, 90, 700, bore=28, cylinders=2),
                unit="hp",
            ),
            Figure(what="swept by one", theirs=30.8, ours=partial(swept, 28), unit="cc", within=0.05, places=2),
            Figure(
                what="more than the old ones",
                theirs=36,
                ours=lambda: 100 * (swept(28) / swept(24) - 1),
                unit="%",
                within=0.5,
                places=1,
            ),
        ),
        note=f"The source has 60 to 90 lb in the boiler. {ASSUMED}",
    ),
    Row(
        id="LAN-AIR",
        source=SOURCE,
        locator="p. 26",
        kind="trial",
        figures=(
            Figure(
                what="turns from a store of air worth 18,329 ft lb",
                theirs=302,
                ours=turns_from_store,
                within=0.5,
                explained=2,
                places=1,
            ),
        ),
        note="60 cc a stroke, both ends, full pressure all the stroke at 100 lb; the source rounds on the way (300.4 "
        "by its own figures).",
    ),
)
