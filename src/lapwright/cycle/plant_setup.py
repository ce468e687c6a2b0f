"""From an engine's record to a plant that can be run, or the sizes that are missing."""

from __future__ import annotations

from lapwright.cycle.conditions import Conditions, Setup, assume_for_run, find_missing
from lapwright.cycle.engine_run import Plant
from lapwright.engine.assume import assume_missing
from lapwright.engine.engine import Engine
from lapwright.engine.running import assume_running
from lapwright.engine.sizes import Assumed, Sizes
from lapwright.errors import CannotRun
from lapwright.motion.travel import RPM
from lapwright.quantities.pressure import ATMOSPHERE

#: Mean piston speed at which an engine is looked at where nobody says how fast it runs [m/s], and how it is rounded.
_EASY_PISTON, _ROUND_RPM = 0.2, 50.0
#: Supply pressure above the exhaust's where nobody gives one [Pa]: what an air line on the bench is set to.
USUAL_SUPPLY = 2e5


def prepare_plant(
    engine: Engine, *, fluid: str, cylinders: tuple[Sizes, ...] | None = None, dead: tuple[str, ...] = ()
) -> Plant:
    """Fill in all that a run needs.

    Parameters
    ----------
    engine: the engine as its record tells of it
    fluid: "air" or "steam"
    cylinders: other sizes to run it with, as after a cure; otherwise the engine's own
    dead: names of the cylinders that are only dragged

    Raises
    ------
    CannotRun: sizes are missing for which nothing can fairly be taken, or no cylinder has that name
    """
    own = tuple(assume_missing(sizes) for sizes in engine.cylinders) if cylinders is None else cylinders
    for sizes in own:
        missing = find_missing(sizes)
        if missing:
            listed = ", ".join(missing)
            raise CannotRun(f"cylinder {sizes.name}", f"not known: {listed}", "measure and write them into the record")
    names = [sizes.name for sizes in own]
    for name in dead:
        if name not in names:
            raise CannotRun(
                f"cylinder {name}", "the engine has none of that name", f"its cylinders: {', '.join(names)}"
            )
    running, assumed = assume_running(engine, fluid=fluid, stroke=own[0].number("stroke"))
    setups, taken = [], list(assumed)
    for number, sizes in enumerate(own):
        if number and "crank_phase" not in sizes.numbers:
            because = "not given: taken as in step with the first; torque, starting and the flywheel's swing hang on it"
            taken.append(Assumed(f"cylinder.{sizes.name}.crank_phase", "0 deg", because, ("run",)))
        filled, more = assume_for_run(sizes)
        taken += more
        setups.append(Setup(filled, running))
    phases = {sizes.name: sizes.number("crank_phase") for sizes in own}
    return Plant(name=engine.name, setups=tuple(setups), phases=phases, assumed=tuple(taken), dead=dead)


def choose_conditions(engine: Engine, plant: Plant, *, fluid: str, speed: float | None = None) -> Conditions:
    """Return the conditions that the record speaks of, at a speed [any, in rad/s] or an easy one for the stroke."""
    running = plant.setups[0].running
    exhaust = engine.exhaust_pressure or 0.0
    supply = engine.supply_pressure if engine.supply_pressure is not None else exhaust + USUAL_SUPPLY
    return Conditions(
        fluid=fluid,
        supply=supply + ATMOSPHERE,
        exhaust=exhaust + ATMOSPHERE,
        speed=choose_speed(plant) if speed is None else speed,
        supply_temperature=running.supply_temperature,
        dryness=running.steam_dryness if running.steam_dryness is not None else 1.0,
    )


def choose_speed(plant: Plant) -> float:
    """Return an easy speed [rad/s] for the stroke, in round figures.

    Source: common practice, no source (0.2 m/s mean piston speed)
    """
    stroke = plant.setups[0].sizes.number("stroke")
    rpm = 60 * _EASY_PISTON / (2 * stroke)
    step = _ROUND_RPM if rpm > _ROUND_RPM else 10.0
    return max(round(rpm / step), 1) * step * RPM
