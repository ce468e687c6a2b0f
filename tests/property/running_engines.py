"""Sound engines and what is done to them, run on air and on steam to see which way things go."""

from __future__ import annotations

from functools import cache
from math import pi, radians
from random import Random

from lapwright.cycle.answers import CylinderRun
from lapwright.cycle.conditions import ATMOSPHERE, SHOP, Conditions
from lapwright.cycle.engine_run import EngineRun, Plant, run_engine
from lapwright.cycle.plant_setup import choose_speed, prepare_plant
from lapwright.engine.engine import Engine
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes
from tests.property.engines import random_sound_engine

RPM = 2 * pi / 60
ANGLE, LENGTH, CAVITY, OFFSET = (
    "valve_drive.eccentric_angle",
    "valve.length",
    "valve.cavity",
    "valve_drive.valve_offset",
)
PORT, PORT_LENGTH = "port_face.steam_port", "port_face.port_length"
FLUIDS = ("air", "steam")
#: Sound engines, bores 9 to 42 mm, with and without lap.
SEEDS = (0, 1, 2, 3)


@cache
def sound_engine(seed: int) -> Sizes:
    """One of the sound engines; the same seed gives the same engine."""
    return random_sound_engine(Random(seed), scale=(0.5, 1.0, 1.5, 0.7)[seed % 4])


def add(sizes: Sizes, key: str, share: float) -> Sizes:
    """Make a size of the valve or its drive larger by a share of the port's width."""
    return sizes.replacing({key: sizes.number(key) + share * sizes.number(PORT)})


def turn_eccentric(sizes: Sizes, degrees: float) -> Sizes:
    """Turn the eccentric on its shaft, forwards where positive."""
    return sizes.replacing({ANGLE: sizes.number(ANGLE) + radians(degrees)})


def shorten_past_ports(sizes: Sizes, share: float) -> Sizes:
    """Make the lands narrower than the ports by a share of the port: live steam finds a straight way to exhaust."""
    port = sizes.number(PORT)
    land = (sizes.number(LENGTH) - sizes.number(CAVITY)) / 2
    return add(sizes, LENGTH, -2 * (land / port - 1 + share))


def prepare(*cylinders: Sizes, fluid: str, running: Running | None = None, dead: tuple[str, ...] = ()) -> Plant:
    engine = Engine(name="Dipper", cylinders=cylinders, running=running or Running())
    return prepare_plant(engine, fluid=fluid, dead=dead)


def conditions(
    sizes: Sizes,
    fluid: str,
    *,
    gauge: float = 2.0,
    back: float = 0.0,
    faster: float = 1.0,
    temperature: float | None = None,
    ideal: bool = False,
) -> Conditions:
    """Supply and back pressure in bar above the atmosphere, at the engine's easy speed or so many times that."""
    return Conditions(
        fluid=fluid,
        supply=ATMOSPHERE + gauge * 1e5,
        exhaust=ATMOSPHERE + back * 1e5,
        speed=faster * choose_speed(prepare(sizes, fluid=fluid)),
        supply_temperature=SHOP if fluid == "air" else temperature,
        dryness=0.98 if fluid == "steam" and temperature is None else 1.0,
        ideal=ideal,
    )


def run(sizes: Sizes, on: Conditions, running: Running | None = None) -> EngineRun:
    """Run an engine of one cylinder."""
    return run_engine(prepare(sizes, fluid=on.fluid, running=running), on)


def run_one(sizes: Sizes, on: Conditions, running: Running | None = None) -> CylinderRun:
    """Run it and return its cylinder."""
    return run(sizes, on, running).cylinders[0]


def mean(cylinder: CylinderRun) -> float:
    """Mean effective pressure of both ends [Pa]."""
    return cylinder.work / cylinder.swept


def lost(cylinder: CylinderRun, name: str) -> float:
    """One of the losses, as a share of the full cards."""
    return sum(end.losses[name] for end in cylinder.ends.values()) / sum(end.full for end in cylinder.ends.values())


def used(cylinder: CylinderRun, name: str) -> float:
    """One of the uses, as a share of what is supplied."""
    return cylinder.uses[name] / cylinder.supplied


def per_work(cylinder: CylinderRun) -> float:
    """What is supplied, over the work it does [kg/J]."""
    return cylinder.supplied / cylinder.work
