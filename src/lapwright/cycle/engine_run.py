"""The whole engine at a steady speed: cylinders on one shaft, friction, power, air or steam, flywheel."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from lapwright.cycle.answers import CylinderRun
from lapwright.cycle.cards import swept_volume
from lapwright.cycle.conditions import SHOP, Conditions, Setup
from lapwright.cycle.cylinder_run import run_cylinder
from lapwright.cycle.layout import Floats
from lapwright.engine.sizes import Assumed
from lapwright.medium import air
from lapwright.motion.travel import TURN
from lapwright.quantities.pressure import ATMOSPHERE

#: Points of the torque over a turn of the shaft.
POINTS = 720
#: Density of free air [kg/m3]: 20 degC, one atmosphere.
FREE_AIR = ATMOSPHERE / (air.GAS_CONSTANT * SHOP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """An engine ready to be run: its cylinders, how each crank leads the first [rad], and what was assumed.

    `dead` names the cylinders that are only dragged, their pipes off.
    """

    name: str
    setups: tuple[Setup, ...]
    phases: Mapping[str, float]
    assumed: tuple[Assumed, ...]
    dead: tuple[str, ...] = ()

    @property
    def swept(self) -> float:
        """Volume swept by all working ends in a turn [m3]."""
        return sum(sum_swept(setup) for setup in self.setups)

    @property
    def inertia(self) -> float:
        """Of the flywheel [kg m2]."""
        return self.setups[0].running.flywheel_inertia or 0.0

    def friction_torque(self, *, ideal: bool = False) -> float:
        """Return the torque that the engine's own friction takes [N m]: its mean pressure over all it sweeps."""
        pressure = self.setups[0].running.friction_pressure or 0.0
        return 0.0 if ideal else pressure * self.swept / TURN


def sum_swept(setup: Setup) -> float:
    """Return what a cylinder's working ends sweep in a turn [m3], without an offset line's small addition."""
    sizes = setup.sizes
    return swept_volume(sizes.number("bore"), sizes.number("stroke"), rod=sizes.numbers.get("piston_rod"))


@dataclass(frozen=True, slots=True, kw_only=True)
class EngineRun:
    """One engine's steady turn.

    Powers [W]; torques [N m]: `torque` over `angles` [rad] of the first crank, without friction, `mean_torque` what is
    left for the load. `supplied` [kg/s]. `swing` [J] is how much energy the flywheel takes up and gives back within a
    turn, `unevenness` [-] what that does to the speed, greatest less least as a share of the mean.
    """

    conditions: Conditions
    cylinders: tuple[CylinderRun, ...]
    indicated_power: float
    friction_power: float
    brake_power: float
    mean_torque: float
    angles: Floats
    torque: Floats
    supplied: float
    swing: float
    unevenness: float | None
    assumed: tuple[Assumed, ...]

    @property
    def settled(self) -> bool:
        """Whether every cylinder's turn repeats."""
        return all(cylinder.settled for cylinder in self.cylinders)

    @property
    def turns(self) -> int:
        """Turns that the slowest cylinder took to repeat."""
        return max(cylinder.turns for cylinder in self.cylinders)

    @property
    def free_air(self) -> float:
        """Air taken, as it was before it was compressed [m3/s]."""
        return self.supplied / FREE_AIR

    @property
    def losses(self) -> dict[str, float]:
        """From a full card at all ends down to the load [W]: what is lost on the way, by cause."""
        turns = self.conditions.speed / TURN
        sums: dict[str, float] = {}
        for cylinder in self.cylinders:
            for end in cylinder.ends.values():
                for name, joules in end.losses.items():
                    sums[name] = sums.get(name, 0.0) + joules * turns
        return {**sums, "friction": self.friction_power}

    @property
    def full_power(self) -> float:
        """Power of full cards at all ends [W]."""
        joules = sum(end.full for cylinder in self.cylinders for end in cylinder.ends.values())
        return joules * self.conditions.speed / TURN

    @property
    def uses(self) -> dict[str, float]:
        """Where the air or steam goes, by use [kg/s]; dead cylinders only move the shop's air about."""
        turns = self.conditions.speed / TURN
        sums: dict[str, float] = {}
        for cylinder in self.cylinders:
            if cylinder.conditions.supply > cylinder.conditions.exhaust:
                for name, mass in cylinder.uses.items():
                    sums[name] = sums.get(name, 0.0) + mass * turns
        return sums


def run_engine(plant: Plant, conditions: Conditions, *, quick: bool = False) -> EngineRun:
    """Run an engine at a steady speed.

    Parameters
    ----------
    plant: the engine ready to be run
    conditions: what it is run on
    quick: whether fewer steps will do, as within a search

    Raises
    ------
    CannotRun: what cannot be worked out, in a sentence
    """
    runs = []
    for setup in plant.setups:
        dead = setup.sizes.name in plant.dead
        runs.append(run_cylinder(setup, conditions.dead() if dead else conditions, quick=quick))
    turns = conditions.speed / TURN
    indicated = sum(run.work for run in runs) * turns
    friction = plant.friction_torque(ideal=conditions.ideal) * conditions.speed
    angles = np.linspace(0.0, TURN, POINTS, endpoint=False)
    torque = np.zeros(POINTS)
    for run in runs:
        torque += _lay_torque(run, angles + plant.phases[run.name])
    swing = _find_swing(torque)
    energy = plant.inertia * conditions.speed**2
    return EngineRun(
        conditions=conditions,
        cylinders=tuple(runs),
        indicated_power=indicated,
        friction_power=friction,
        brake_power=indicated - friction,
        mean_torque=(indicated - friction) / conditions.speed,
        angles=angles,
        torque=torque,
        supplied=sum(run.supplied for run in runs if run.name not in plant.dead) * turns,
        swing=swing,
        unevenness=swing / energy if energy > 0 else None,
        assumed=plant.assumed,
    )


def _lay_torque(run: CylinderRun, own_angles: Floats) -> Floats:
    """A cylinder's torque at angles of its own crank, between the stages in straight lines."""
    return np.asarray(np.interp(own_angles % TURN, run.angles, run.torque, period=TURN))


def _find_swing(torque: Floats) -> float:
    """Greatest less least of the energy above the mean within a turn [J].

    Source: definition (energy stored: the area above the mean line of the turning moment)
    """
    stored = np.cumsum(torque - torque.mean()) * (TURN / len(torque))
    return float(stored.max() - stored.min())
