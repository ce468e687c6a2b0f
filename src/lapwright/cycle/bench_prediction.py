"""What a bench test ought to have shown, were friction and leaks such and such; and how far it was from that."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import isfinite, log, sqrt
from typing import Any

from lapwright.cycle.conditions import Conditions, Setup
from lapwright.cycle.engine_run import Plant, run_engine
from lapwright.cycle.packing import measure_gaps
from lapwright.cycle.plant_setup import choose_conditions, prepare_plant
from lapwright.engine.bench_test import DECAY, RUN_DOWN, STEADY, BenchTest
from lapwright.engine.engine import Engine
from lapwright.errors import CannotRun
from lapwright.medium import air
from lapwright.motion.travel import TURN
from lapwright.quantities.pressure import ATMOSPHERE

#: The four kinds of reading that a test can give.
TORQUE, AIR_FLOW, RUN_DOWN_TIME, DECAY_TIME = "torque", "air flow", "run-down", "decay"
#: How well a run, a flow and a time can agree at best, as standard deviations in shares (common practice, no source).
LEAST_SCATTER = {TORQUE: 0.03, AIR_FLOW: 0.05, RUN_DOWN_TIME: 0.05, DECAY_TIME: 0.05}
#: The same of a flywheel that nobody weighed.
UNWEIGHED = 0.5
#: A doubt is the half-width of a 95 % interval: so many standard deviations.
TWO_SIDED = 1.96
#: The share by which pressure and speed are shifted to see what their doubts do.
_SHIFT = 0.02

#: Friction and leaks by their fields of the running engine, in SI.
Guess = Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rig:
    """A bench test ready to be worked out: the engine as it stood, and what it was run on, None where it did not run.

    `swept` [m3] is what a turn sweeps; `chest` has the shapes of the gaps by which the chests leak, as `measure_chest`
    gives them; `wheel_scatter` [-] is the standard deviation of the flywheel's inertia as a share of it.
    """

    test: BenchTest
    plant: Plant
    conditions: Conditions | None
    swept: float
    chest: Mapping[str, float]
    wheel_scatter: float


@dataclass(frozen=True, slots=True)
class Outcome:
    """What an engine does that runs steadily: torque on its pistons [N m], free air taken [m3/s]."""

    torque: float
    air: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading of a test beside what was worked out for it: a torque [N m], a flow [m3/s] or a time [s].

    Of a torque `predicted` is what the pistons give, which is `indicated`, less friction, and `measured` is the load.
    `scatter` is a standard deviation: of a torque [N m], of the others as a share [-].
    """

    number: int
    kind: str
    predicted: float
    measured: float
    scatter: float
    indicated: float = 0.0

    @property
    def off(self) -> float:
        """How far off it is, in standard deviations."""
        if self.kind == TORQUE:
            return (self.predicted - self.measured) / self.scatter
        return log(max(self.predicted, 1e-30) / self.measured) / self.scatter


def set_up(engine: Engine, test: BenchTest) -> Rig:
    """Make a bench test ready to be worked out.

    Raises
    ------
    CannotRun: sizes are missing for which nothing can fairly be taken
    """
    fluid = (test.fluid or engine.fluid or "air") if test.has(STEADY) else "air"
    plant = prepare_plant(engine, fluid=fluid, dead=(test.dead,) if test.dead else ())
    conditions = None
    if test.supply_pressure is not None and test.speed is not None:
        behind = test.exhaust_pressure if test.exhaust_pressure is not None else engine.exhaust_pressure
        stood = replace(engine, supply_pressure=test.supply_pressure, exhaust_pressure=behind)
        conditions = choose_conditions(stood, plant, fluid=fluid, speed=test.speed)
    weighed = engine.running.flywheel_inertia
    doubt = engine.running.doubts.get("flywheel_inertia")
    scatter = UNWEIGHED if weighed is None else 0.0
    if weighed and doubt is not None:
        scatter = (doubt.plus + doubt.minus) / (2 * TWO_SIDED * weighed)
    return Rig(
        test=test,
        plant=plant,
        conditions=conditions,
        swept=plant.swept,
        chest=measure_chest(plant),
        wheel_scatter=scatter,
    )


def run_rig(rig: Rig, guess: Guess, *, conditions: Conditions | None = None) -> Outcome:
    """Run the engine as in the test, at other conditions if they are given.

    Raises
    ------
    CannotRun: what cannot be worked out, in a sentence
    """
    under = conditions or rig.conditions
    if under is None:
        return Outcome(0.0, 0.0)
    run = run_engine(_fit_plant(rig.plant, guess), under, quick=True)
    outcome = Outcome(run.indicated_power / under.speed, run.free_air)
    if not (isfinite(outcome.torque) and isfinite(outcome.air)):
        raise CannotRun("the engine", "no turn comes out of it", "check pressure, speed and sizes")
    return outcome


def _fit_plant(plant: Plant, guess: Guess) -> Plant:
    changes: dict[str, Any] = dict(guess)
    changed = tuple(Setup(setup.sizes, replace(setup.running, **changes)) for setup in plant.setups)
    return replace(plant, setups=changed)


def list_scatter(rig: Rig, guess: Guess) -> dict[str, float]:
    """Return by kind of reading how far it may be out, one standard deviation as a share [-], and of a torque [N m].

    The doubts of pressure and speed are carried through runs beside the one that was measured; what a reading cannot
    be better than stands in `LEAST_SCATTER`.
    """
    scatter = dict(LEAST_SCATTER)
    if rig.conditions is not None:
        torque, flow = _scatter_steady(rig, guess, rig.conditions)
        scatter[TORQUE] = torque
        scatter[AIR_FLOW] = max(scatter[AIR_FLOW], sqrt(flow**2 + _share(rig.test, "air_flow") ** 2))
    if rig.test.has(RUN_DOWN):
        own = (rig.wheel_scatter, _share(rig.test, "run_down_from"), _share(rig.test, "run_down_time"))
        scatter[RUN_DOWN_TIME] = max(scatter[RUN_DOWN_TIME], _add_up(*own))
    if rig.test.has(DECAY):
        scatter[DECAY_TIME] = max(scatter[DECAY_TIME], _scatter_decay(rig.test))
    return scatter


def _share(test: BenchTest, name: str) -> float:
    """A figure's standard deviation as a share of it."""
    doubt, value = test.doubts.get(name), getattr(test, name)
    return (doubt.plus + doubt.minus) / (2 * TWO_SIDED * abs(value)) if doubt is not None and value else 0.0


def _add_up(*parts: float) -> float:
    return sqrt(sum(part**2 for part in parts))


def _scatter_steady(rig: Rig, guess: Guess, conditions: Conditions) -> tuple[float, float]:
    """Standard deviations of the torque [N m] and, as a share, of the flow."""
    test, base = rig.test, run_rig(rig, guess)
    load = _share(test, "load_torque") * (test.load_torque or 0.0)
    load += _share(test, "load_power") * (test.load_power or 0.0) / conditions.speed
    torques, flows = [load], []
    above = conditions.supply - conditions.exhaust
    shifted = {
        "supply_pressure": (conditions.at_supply(conditions.supply + _SHIFT * above), above),
        "speed": (conditions.at_speed(conditions.speed * (1 + _SHIFT)), conditions.speed),
    }
    for name, (other, size) in shifted.items():
        doubt = test.doubts.get(name)
        if doubt is None:
            continue
        steps = (doubt.plus + doubt.minus) / (2 * TWO_SIDED) / (_SHIFT * size)
        moved = run_rig(rig, guess, conditions=other)
        torques.append((moved.torque - base.torque) * steps)
        flows.append((moved.air / base.air - 1) * steps if base.air > 0 else 0.0)
    least = LEAST_SCATTER[TORQUE] * max(abs(base.torque), _find_friction_torque(rig, guess))
    return max(_add_up(*torques), least), _add_up(*flows)


def _scatter_decay(test: BenchTest) -> float:
    start, stop = test.decay_from or 0.0, test.decay_to or 0.0
    parts = [_share(test, "decay_time"), _share(test, "decay_volume")]
    time = find_fall_time(start + ATMOSPHERE, stop + ATMOSPHERE, volume=1.0, leak=1.0)
    for name, pressure, other in (("decay_from", start, stop), ("decay_to", stop, start)):
        moved = (1 + _SHIFT) * pressure
        ends = (max(moved, other), min(moved, other))
        changed = find_fall_time(ends[0] + ATMOSPHERE, ends[1] + ATMOSPHERE, volume=1.0, leak=1.0)
        parts.append((changed / time - 1) * _share(test, name) / _SHIFT)
    return _add_up(*parts)


def read_rig(rig: Rig, guess: Guess, *, outcome: Outcome, scatter: Mapping[str, float]) -> tuple[Reading, ...]:
    """Return a test's readings beside what was worked out for them.

    Parameters
    ----------
    rig: the test
    guess: friction and leaks that were taken
    outcome: what a run with them gave
    scatter: as `list_scatter` tells
    """
    test, number = rig.test, rig.test.number
    readings: list[Reading] = []
    pairs: dict[str, tuple[float, float | None]] = {}
    if rig.conditions is not None:
        load = (test.load_torque or 0.0) + (test.load_power or 0.0) / rig.conditions.speed
        left = outcome.torque - _find_friction_torque(rig, guess)
        torque = Reading(
            number=number,
            kind=TORQUE,
            predicted=left,
            measured=load,
            scatter=scatter[TORQUE],
            indicated=outcome.torque,
        )
        readings.append(torque)
        pairs[AIR_FLOW] = outcome.air, test.air_flow
    if test.has(RUN_DOWN):
        pairs[RUN_DOWN_TIME] = _find_run_down(rig, guess), test.run_down_time
    if test.has(DECAY):
        pairs[DECAY_TIME] = _find_decay(rig, guess), test.decay_time
    for kind, (predicted, measured) in pairs.items():
        if measured is not None:
            reading = Reading(number=number, kind=kind, predicted=predicted, measured=measured, scatter=scatter[kind])
            readings.append(reading)
    return tuple(readings)


def _find_friction_torque(rig: Rig, guess: Guess) -> float:
    return guess["friction_pressure"] * rig.swept / TURN


def _find_run_down(rig: Rig, guess: Guess) -> float:
    """How long the flywheel turns against friction alone [s]: its momentum over the torque."""
    friction = _find_friction_torque(rig, guess)
    return rig.plant.inertia * (rig.test.run_down_from or 0.0) / friction if friction > 0 else 1e9


def _find_decay(rig: Rig, guess: Guess) -> float:
    test = rig.test
    return find_fall_time(
        (test.decay_from or 0.0) + ATMOSPHERE,
        (test.decay_to or 0.0) + ATMOSPHERE,
        volume=test.decay_volume or 0.0,
        leak=find_chest_leak(rig.chest, guess),
    )


def measure_chest(plant: Plant) -> dict[str, float]:
    """Return by the gap's key how wide the chests' leaks are for their length [-], the dead ones left out."""
    live = [setup for setup in plant.setups if setup.sizes.name not in plant.dead]
    names = {"valve_face_gap": "valve face", "gland_gap": "spindle gland"}
    gaps = [measure_gaps(setup) for setup in live]
    return {key: sum(own[name].width / own[name].along for own in gaps) for key, name in names.items()}


def find_chest_leak(chest: Mapping[str, float], guess: Guess) -> float:
    """Return how readily the chests leak air past valve face and spindle [any, in m3/(Pa s)].

    It is the sum of width x height cubed / (24 x viscosity x length) of their gaps.

    Parameters
    ----------
    chest: width over length of the gaps, as `measure_chest` gives them [-]
    guess: their heights among others [m]

    Source: from memory (smooth flow between parallel walls)
    """
    return sum(shape * guess[key] ** 3 for key, shape in chest.items()) / (24 * air.VISCOSITY)


def find_fall_time(start: float, stop: float, *, volume: float, leak: float) -> float:
    """Return how long shut-in air takes to fall from one pressure to another through thin gaps [s].

    The air shut in is p V / (R T). Through a thin gap it leaves as K (p2 - pa2) / (R T), with the squares of both
    pressures, where K is the `leak`. At one temperature R T drops out, and

        V dp/dt = -K (p2 - pa2),

    which, parted by fractions 1 / (p2 - pa2) = [1 / (p - pa) - 1 / (p + pa)] / (2 pa), gives

        t = V / (2 K pa) x ln[(p0 - pa) (p1 + pa) / ((p0 + pa) (p1 - pa))].

    Parameters
    ----------
    start, stop: absolute pressures [Pa], both above the atmosphere's, the first the higher
    volume: what is shut in [any, in m3]
    leak: as `find_chest_leak` gives it [any, in m3/(Pa s)]; nothing leaks at 0, and the time is a milliard seconds

    Holds for: gaps so thin that the flow is smooth, and air that keeps the warmth of the metal

    Source: from memory (smooth flow between parallel walls); the law of an ideal gas

    Example:
    >>> round(find_fall_time(3e5, 2e5, volume=25e-6, leak=1e-12), 1)
    51.0
    """
    if leak <= 0:
        return 1e9
    shop = ATMOSPHERE
    ratio = (start - shop) * (stop + shop) / ((start + shop) * (stop - shop))
    return volume / (2 * leak * shop) * log(ratio)
