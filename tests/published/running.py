"""Engines that are run for the published figures: the trial program's, and the books', brought to running order."""

from __future__ import annotations

from functools import cache
from math import asin, pi, radians

import numpy as np

from lapwright.cycle.answers import CylinderRun
from lapwright.cycle.cards import steam_shown
from lapwright.cycle.conditions import ATMOSPHERE, SHOP, Conditions, Setup
from lapwright.cycle.engine_run import EngineRun, Plant, run_engine
from lapwright.cycle.plant_setup import prepare_plant
from lapwright.engine.engine import Engine
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes
from tests.published.engines import LONG, MM, read_event

BAR, RPM = 1e5, 2 * pi / 60


def small_engine(
    *,
    bore: float = 19.0,
    stroke: float = 19.0,
    rod: float | None = 4.76,
    connecting_rod: float = 45.0,
    port: float = 2.0,
    port_length: float = 8.0,
    throw: float = 3.5,
    lap: float = 1.5,
    lead: float = 0.05,
    exhaust_lap: float = 0.4,
    clearance: float = 0.08,
    advance: float | None = None,
    name: str = "A",
    phase: float = 0.0,
) -> Sizes:
    """The trial program's engine [mm], cut off at 84 and 78 % of the stroke; a changed size keeps the others.

    Throw, lap, lead and exhaust lap were not kept and are chosen here: the only four figures that were.
    """
    bridge, middle = 1.5 * port, 2 * (port + throw)
    inner = middle + 2 * bridge
    lengths = {
        "bore": bore,
        "stroke": stroke,
        "connecting_rod": connecting_rod,
        "port_face.steam_port": port,
        "port_face.bridge": bridge,
        "port_face.exhaust_port": middle,
        "port_face.port_length": port_length,
        "valve.length": inner + 2 * port + 2 * lap,
        "valve.cavity": inner - 2 * exhaust_lap,
        "valve_drive.throw": throw,
        "valve_drive.eccentric_rod": LONG * throw,
        "valve_drive.valve_offset": 0.0,
        **({} if rod is None else {"piston_rod": rod}),
    }
    numbers = {key: value * MM for key, value in lengths.items()}
    numbers |= {f"clearance_{end}_share": clearance for end in ("head", "crank")}
    numbers["crank_phase"] = phase
    numbers["valve_drive.eccentric_angle"] = pi / 2 + (asin((lap + lead) / throw) if advance is None else advance)
    return Sizes(name, numbers)


def on_air(gauge: float, rpm: float, *, ideal: bool = True) -> Conditions:
    """Air of so many bar above the atmosphere, as warm as the shop."""
    return Conditions(
        fluid="air",
        supply=ATMOSPHERE + gauge * BAR,
        exhaust=ATMOSPHERE,
        speed=rpm * RPM,
        supply_temperature=SHOP,
        ideal=ideal,
    )


def on_steam(
    gauge: float, rpm: float, *, ideal: bool = True, dryness: float = 0.98, exhaust: float = 0.0
) -> Conditions:
    """Wet steam of so many bar above the atmosphere, and its exhaust."""
    return Conditions(
        fluid="steam",
        supply=ATMOSPHERE + gauge * BAR,
        exhaust=ATMOSPHERE + exhaust * BAR,
        speed=rpm * RPM,
        dryness=dryness,
        ideal=ideal,
    )


def prepare(*cylinders: Sizes, fluid: str = "air", running: Running | None = None) -> Plant:
    """An engine of these cylinders, with everything filled in that a run needs."""
    engine = Engine(name="Wren", cylinders=cylinders, running=running or Running())
    return prepare_plant(engine, fluid=fluid)


def run(conditions: Conditions, *cylinders: Sizes, running: Running | None = None) -> EngineRun:
    """Run an engine of these cylinders."""
    return run_engine(prepare(*cylinders, fluid=conditions.fluid, running=running), conditions)


def run_one(conditions: Conditions, sizes: Sizes, *, running: Running | None = None) -> CylinderRun:
    """Run an engine of one cylinder."""
    return run(conditions, sizes, running=running).cylinders[0]


def mean_pressure(cylinder: CylinderRun) -> float:
    """Mean effective pressure of all ends together [Pa]."""
    return cylinder.work / cylinder.swept


def first_setup(sizes: Sizes, *, fluid: str = "air", running: Running | None = None) -> Setup:
    """One cylinder ready to be packed."""
    return prepare(sizes, fluid=fluid, running=running).setups[0]


@cache
def trial_on_air() -> EngineRun:
    """The trial program's engine on air of 2 bar, 600 turns a minute, without leaks and wall heat."""
    return run(on_air(2.0, 600), small_engine())


@cache
def trial_on_steam() -> EngineRun:
    """The same on steam of 3 bar and dryness 0.98."""
    return run(on_steam(3.0, 600), small_engine())


def missing_share(conditions: Conditions, sizes: Sizes) -> float:
    """Steam that the cards do not show from cut-off to compression, as a share of what the engine takes."""
    cylinder = run_one(conditions, sizes)
    shown = sum(
        _show_after(cylinder, end, read_event(sizes, "cut_off", end=end, angle=True))
        - _show_after(cylinder, end, read_event(sizes, "compression", end=end, angle=True))
        for end in cylinder.ends
    )
    return 1 - shown / cylinder.supplied


def _show_after(cylinder: CylinderRun, end: str, degrees: float) -> float:
    """Dry steam [kg] that an end's card shows just after a crank angle."""
    place = int(np.searchsorted(cylinder.angles, radians(degrees + 2) % (2 * pi)))
    card = cylinder.ends[end]
    return steam_shown(float(card.pressures[place]), float(card.volumes[place]))
