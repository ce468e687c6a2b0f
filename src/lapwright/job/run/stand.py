"""An engine on the test stand: what is asked of it, what it is put on, and what was taken for want of better."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import pi

from lapwright.cycle.conditions import Conditions
from lapwright.cycle.engine_run import Plant
from lapwright.cycle.plant_setup import choose_conditions, prepare_plant
from lapwright.engine.engine import Engine
from lapwright.engine.running import Running
from lapwright.engine.sizes import Assumed, Sizes
from lapwright.errors import CannotRun
from lapwright.job.visit import Visit
from lapwright.quantities import (
    Pressure,
    Torque,
    read_dryness,
    read_load,
    read_pressure,
    read_speed,
    read_temperature,
    show_pressure_like,
)
from lapwright.quantities.pressure import ATMOSPHERE

#: What a run without leaks, wall heat and friction does not look at.
_LEFT_OUT = ("ring_gap", "valve_face_gap", "gland_gap", "wall_heat", "friction_pressure")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a person asks for, as it is written; what is None is left to the record.

    `dead` names the cylinders whose pipes are off; `compare` is the code of a cure, or "best".
    """

    fluid: str | None = None
    pressure: str | None = None
    exhaust: str | None = None
    temperature: str | None = None
    dryness: str | None = None
    speed: str | None = None
    load: str | None = None
    ideal: bool = False
    dead: tuple[str, ...] = ()
    compare: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """The engine ready to be run or started, and what it is put on.

    Pressures are shown in the unit of `like`. The load is a torque [N m] and a power [W], one of them nothing;
    `is_loaded` says that the speed is to be found from it.
    """

    plant: Plant
    conditions: Conditions
    like: Pressure
    load_torque: float
    load_power: float
    is_loaded: bool
    assumed: tuple[Assumed, ...] = ()

    def show(self, absolute: float) -> str:
        """Return an absolute pressure [Pa] as a gauge pressure in the unit that was used."""
        return show_pressure_like(absolute - ATMOSPHERE, self.like)


def prepare_stand(visit: Visit, asked: Asked, *, cylinders: tuple[Sizes, ...] | None = None) -> Stand:
    """Put an engine on the stand as it was asked for; what nobody said comes from its record, or is taken and told.

    Parameters
    ----------
    visit: the engine
    asked: what to put it on
    cylinders: other sizes, as after a cure; otherwise its own

    Raises
    ------
    BadInput: something asked for cannot be read
    CannotRun: what is asked for does not go together, or sizes are missing
    """
    if asked.speed is not None and asked.load is not None:
        raise CannotRun("the engine", "both a speed and a load are given", "give one: the run tells the other")
    fluid = asked.fluid or visit.engine.fluid or "air"
    engine = _write_over(visit.engine, asked, fluid=fluid)
    speed = None if asked.speed is None else read_speed(asked.speed).si
    plant = prepare_plant(engine, fluid=fluid, cylinders=cylinders or visit.cylinders, dead=asked.dead)
    if len(set(plant.dead)) == len(plant.setups):
        raise CannotRun("the engine", "no cylinder is left to drive it", "leave the pipes of one of them on")
    running = engine.running
    stand = Stand(
        plant=plant,
        conditions=replace(choose_conditions(engine, plant, fluid=fluid, speed=speed), ideal=asked.ideal),
        like=_find_unit(visit, asked),
        load_torque=running.load_torque or 0.0,
        load_power=running.load_power or 0.0,
        is_loaded=speed is None and (running.load_torque, running.load_power) != (None, None),
    )
    _check_pressures(stand)
    return replace(stand, assumed=tuple(_list_assumed(visit, engine, stand=stand, asked=asked)))


def _write_over(engine: Engine, asked: Asked, *, fluid: str) -> Engine:
    """The engine with what was asked for in place of what its record says."""
    running = engine.running
    if engine.fluid not in (None, fluid):
        # The record speaks of the other fluid's temperature.
        running = replace(running, supply_temperature=None)
    if asked.load is not None:
        load = read_load(asked.load)
        turns = isinstance(load, Torque)
        running = replace(running, load_torque=load.si if turns else None, load_power=None if turns else load.si)
    return replace(
        engine,
        fluid=fluid,
        supply_pressure=engine.supply_pressure if asked.pressure is None else read_pressure(asked.pressure).gauge,
        exhaust_pressure=engine.exhaust_pressure if asked.exhaust is None else read_pressure(asked.exhaust).gauge,
        running=_write_supply(running, asked, fluid=fluid),
    )


def _write_supply(running: Running, asked: Asked, *, fluid: str) -> Running:
    """How warm or how dry it comes: steam is either superheated or wet, so one puts the other out."""
    if asked.dryness is not None:
        if fluid == "air":
            raise CannotRun("the engine", "a dryness is given, which only steam has", "leave it out, or run on steam")
        if asked.temperature is not None:
            raise CannotRun(
                "the engine",
                "steam is given both as wet and as superheated",
                "give its dryness or its temperature, not both",
            )
        return replace(running, steam_dryness=read_dryness(asked.dryness).si, supply_temperature=None)
    if asked.temperature is not None:
        return replace(running, supply_temperature=read_temperature(asked.temperature).si, steam_dryness=None)
    return running


def _find_unit(visit: Visit, asked: Asked) -> Pressure:
    """A pressure in the unit that the person uses: the one asked for, else the record's, else bar."""
    written = visit.record.written
    words = (asked.pressure, asked.exhaust, written.get("engine.supply_pressure"), "1 bar")
    return read_pressure(next(text for text in words if text is not None))


def _check_pressures(stand: Stand) -> None:
    supply, exhaust = stand.conditions.supply, stand.conditions.exhaust
    if supply < exhaust:
        raise CannotRun(
            "the engine",
            f"its supply, {stand.show(supply)}, is below its exhaust, {stand.show(exhaust)}",
            "check both pressures",
        )


def _list_assumed(visit: Visit, engine: Engine, *, stand: Stand, asked: Asked) -> Iterator[Assumed]:
    """Everything nobody said that the answer rests on, what it is put on first."""
    conditions = stand.conditions
    given = visit.engine
    if asked.fluid is None and given.fluid is None:
        yield _tell("engine.fluid", conditions.fluid, "not given: every engine is tried on air first")
    if engine.supply_pressure is None:
        because = "not given: taken as what an air line on the bench is set to (common practice, no source)"
        yield _tell("engine.supply_pressure", stand.show(conditions.supply), because)
    if engine.exhaust_pressure is None:
        yield _tell("engine.exhaust_pressure", stand.show(conditions.exhaust), "not given: taken as into the open air")
    if asked.speed is None and not stand.is_loaded:
        because = "not given: taken as an easy speed for the stroke (common practice, no source)"
        yield _tell("speed", f"{conditions.speed * 30 / pi:.0f} rpm", because)
    yield from visit.assumed
    for number, sizes in enumerate(visit.cylinders):
        if number and "crank_phase" in sizes.assumed:
            yield _tell(f"cylinder.{sizes.name}.crank_phase", "0 deg", sizes.assumed["crank_phase"])
    flat = any(setup.sizes.kind == "slide" and setup.sizes.admission == "outside" for setup in stand.plant.setups)
    idle = {"load", *(() if flat else ("valve_friction",)), *(_LEFT_OUT if conditions.ideal else ())}
    yield from (assumed for assumed in stand.plant.assumed if assumed.key.removeprefix("running.") not in idle)


def _tell(key: str, value: str, because: str) -> Assumed:
    return Assumed(key, value, because, ("run",))
