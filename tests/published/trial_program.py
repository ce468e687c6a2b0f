"""A trial program's engine: what it made of it, beside this program's run."""

from __future__ import annotations

from math import pi

from lapwright.cycle.answers import CylinderRun
from lapwright.cycle.starting import find_starting
from lapwright.engine.running import Running
from tests.published.figure import Figure, Row
from tests.published.running import (
    mean_pressure,
    on_air,
    on_steam,
    prepare,
    run,
    run_one,
    small_engine,
    trial_on_air,
    trial_on_steam,
)

SOURCE = "trial-program"
NOTE = (
    "19 by 19 mm, rod 4.76 mm, connecting rod 45 mm, clearance 8 %, cut-off about 83 %, 600 turns a minute. What it "
    "used for the valve was not kept; here the port is 2 by 8 mm, the throw 3.5, the lap 1.5, the lead 0.05 and the "
    "exhaust lap 0.4 mm, which cuts off at 84 and 78 %. Four sizes were chosen; the band is theirs, 2 % wide to both "
    "sides unless it says otherwise."
)
#: Consumption and mean pressure with a ring gap [micrometres], against those without, in per cent.
GAPS = {5: (0.8, -0.06), 10: (6.0, -0.5), 20: (49.0, -3.1)}


def on_air_cylinder() -> CylinderRun:
    return trial_on_air().cylinders[0]


def on_steam_cylinder() -> CylinderRun:
    return trial_on_steam().cylinders[0]


def with_coefficient(coefficient: float, *, steam: bool) -> float:
    """Mean pressure [bar] with another discharge coefficient."""
    conditions = on_steam(3.0, 600) if steam else on_air(2.0, 600)
    cylinder = run_one(conditions, small_engine(), running=Running(discharge_coefficient=coefficient))
    return mean_pressure(cylinder) / 1e5


def with_gap(gap: float) -> CylinderRun:
    running = Running(ring_gap=gap * 1e-6, valve_face_gap=0.0, gland_gap=0.0, wall_heat="none")
    return run_one(on_air(2.0, 600, ideal=False), small_engine(), running=running)


def more_air(gap: float) -> float:
    return 100 * (with_gap(gap).supplied / on_air_cylinder().supplied - 1)


def more_pressure(gap: float) -> float:
    return 100 * (mean_pressure(with_gap(gap)) / mean_pressure(on_air_cylinder()) - 1)


def twin_swing() -> float:
    twin = run(on_air(2.0, 600), small_engine(), small_engine(name="B", phase=pi / 2))
    return twin.swing / sum(cylinder.work for cylinder in twin.cylinders)


def greatest_start() -> float:
    """Greatest torque at rest [mN m]."""
    return float(find_starting(prepare(small_engine()), on_air(2.0, 600)).best.max()) * 1e3


def band(what: str, theirs: float, ours: object, *, share: float, unit: str = "", places: int = 2) -> Figure:
    """A figure to come near: within a share of theirs."""
    assert callable(ours)
    limits = (theirs * (1 - share), theirs * (1 + share))
    return Figure(what=f"{what} (theirs {theirs:g})", theirs=limits, ours=ours, unit=unit, places=places)


ROWS = (
    Row(
        id="TRIAL-AIR",
        source=SOURCE,
        locator="air of 2 bar and 20 degC, without leaks and wall heat",
        kind="trial",
        figures=(
            band(
                "work of a kilogram of air",
                65.31,
                lambda: on_air_cylinder().work / on_air_cylinder().supplied / 1e3,
                share=0.02,
                unit="kJ/kg",
            ),
            band("exhaust, mixed", 228.14, lambda: on_air_cylinder().exhaust_temperature, share=0.005, unit="K"),
            Figure(
                what="work of a kilogram over its loss of heat",
                theirs=1.0,
                ours=lambda: (
                    on_air_cylinder().work
                    / on_air_cylinder().supplied
                    / (1004.675 * (293.15 - on_air_cylinder().exhaust_temperature))
                ),
                within=0.001,
                places=4,
            ),
            band("free air", 14.31, lambda: trial_on_air().free_air * 6e4, share=0.02, unit="l/min"),
            band(
                "mean pressure, discharge coefficient 0.55",
                1.81,
                lambda: with_coefficient(0.55, steam=False),
                share=0.02,
                unit="bar",
                places=3,
            ),
            band(
                "mean pressure, discharge coefficient 0.85",
                1.83,
                lambda: with_coefficient(0.85, steam=False),
                share=0.02,
                unit="bar",
                places=3,
            ),
            band(
                "energy of the flywheel's swing over work of a turn",
                0.161,
                lambda: trial_on_air().swing / on_air_cylinder().work,
                share=0.03,
                places=4,
            ),
            band("the same, two at right angles", 0.045, twin_swing, share=0.03, places=4),
            band("greatest torque at rest", 551, greatest_start, share=0.005, unit="mN m", places=1),
        ),
        note=NOTE,
    ),
    Row(
        id="TRIAL-STEAM",
        source=SOURCE,
        locator="steam of 3 bar and dryness 0.98, without leaks and wall heat",
        kind="trial",
        figures=(
            band(
                "steam",
                22.9,
                lambda: on_steam_cylinder().supplied / on_steam_cylinder().work * 3.6e6,
                share=0.02,
                unit="kg/kWh",
            ),
            band(
                "mean pressure, discharge coefficient 0.55",
                2.822,
                lambda: with_coefficient(0.55, steam=True),
                share=0.02,
                unit="bar",
                places=3,
            ),
            band(
                "mean pressure, discharge coefficient 0.85",
                2.829,
                lambda: with_coefficient(0.85, steam=True),
                share=0.02,
                unit="bar",
                places=3,
            ),
        ),
        note=NOTE,
    ),
    Row(
        id="TRIAL-LEAK",
        source=SOURCE,
        locator="the same on air, the piston leaking",
        kind="trial",
        figures=tuple(
            Figure(
                what=f"{what}, ring gap of {gap} micrometres",
                theirs=printed,
                ours=lambda gap=gap, ours=ours: ours(gap),  # type: ignore[misc]
                unit="%",
                within=0.05,
                explained=0.1 + 0.3 * abs(printed),
                places=2,
            )
            for gap, both in GAPS.items()
            for what, printed, ours in zip(("more air", "mean pressure"), both, (more_air, more_pressure), strict=True)
        ),
        note="Theirs leaks along 5 mm, ours along a quarter of the bore, 4.75 mm; the valve is set otherwise besides.",
    ),
)
