"""An engine as found beside the same engine with something put right: what it gains."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.cycle.conditions import Conditions
from lapwright.cycle.engine_run import EngineRun, Plant, run_engine
from lapwright.cycle.plant_setup import choose_conditions, prepare_plant
from lapwright.cycle.settling import find_least_pressure
from lapwright.cycle.starting import Starting, find_starting
from lapwright.engine.assume import assume_missing
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Sizes
from lapwright.motion.travel import TURN
from lapwright.quantities.pressure import ATMOSPHERE

Changes = Mapping[str, Mapping[str, float]]

#: Less than these is not told: change of the least pressure [Pa] and as a share, of power, of consumption, of the
#: arc from which it starts.
_TOLD_PRESSURE, _TOLD_SHARE, _TOLD_POWER, _TOLD_USE, _TOLD_ARC = 500.0, 0.02, 0.01, 0.02, 0.03


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """How an engine does: its turn at a given pressure and speed, the least pressure, from where it starts.

    `least_pressure` [Pa, absolute] just turns it over, None where nothing does.
    """

    run: EngineRun
    least_pressure: float | None
    starting: Starting

    @property
    def starting_share(self) -> float:
        """The part of the turn from which it moves off by itself, 0 to 1."""
        return self.starting.forward.share

    @property
    def starting_pressure(self) -> float | None:
        """What moves it from any angle [Pa, absolute]; None where nothing does."""
        return self.starting.forward.least_pressure

    @property
    def runs(self) -> bool:
        """Whether it turns over at the pressure it is given."""
        return self.least_pressure is not None and self.least_pressure <= self.run.conditions.supply

    @property
    def use_for_work(self) -> float | None:
        """Air or steam for the work on the pistons [kg/J]; None where there is none."""
        return self.run.supplied / self.run.indicated_power if self.run.indicated_power > 0 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What repairs are compared on: the engine, what it is run on, and how it does as found."""

    engine: Engine
    cylinders: tuple[Sizes, ...]
    conditions: Conditions
    found: Showing

    def show_changed(self, changes: Changes) -> Showing:
        """Return how the engine does with some sizes changed: record keys in SI units, by cylinder."""
        changed = tuple(sizes.replacing(changes.get(sizes.name, {})) for sizes in self.cylinders)
        plant = prepare_plant(self.engine, fluid=self.conditions.fluid, cylinders=changed)
        return show_running(plant, self.conditions)


def lay_ground(engine: Engine) -> Ground:
    """Run an engine as found, on what its record speaks of or on air, at an easy speed.

    Raises
    ------
    CannotRun: sizes are missing for which nothing can fairly be taken, or pressures that do not go together
    """
    fluid = engine.fluid or "air"
    cylinders = tuple(assume_missing(sizes) for sizes in engine.cylinders)
    plant = prepare_plant(engine, fluid=fluid, cylinders=cylinders)
    conditions = choose_conditions(engine, plant, fluid=fluid)
    return Ground(engine=engine, cylinders=cylinders, conditions=conditions, found=show_running(plant, conditions))


def show_running(plant: Plant, conditions: Conditions) -> Showing:
    """Return how an engine does under conditions."""
    return Showing(
        run=run_engine(plant, conditions),
        least_pressure=find_least_pressure(plant, conditions),
        starting=find_starting(plant, conditions),
    )


def tell_gain(before: Showing, after: Showing) -> str:
    """Say in one line what an engine gains: pressure to turn over, power, air or steam, starting."""
    parts = [*_tell_pressure(before, after), *_tell_power(before, after), *_tell_use(before, after)]
    share, was = after.starting_share, before.starting_share
    if abs(share - was) >= _TOLD_ARC:
        parts.append(f"starts by itself from {100 * share:.0f} % of the turn instead of {100 * was:.0f}")
    needs, needed = after.starting_pressure, before.starting_pressure
    if needs is not None and needed is not None and abs(needs - needed) >= _TOLD_PRESSURE:
        parts.append(f"starts from any angle at {_bar(needs)} bar instead of {_bar(needed)}")
    return "; ".join(parts) if parts else "runs as it did, as far as can be worked out"


def _tell_pressure(before: Showing, after: Showing) -> list[str]:
    was, now = before.least_pressure, after.least_pressure
    exhaust = after.run.conditions.exhaust
    if now is None:
        return [] if was is None else ["does not turn over any more"]
    if was is None:
        return [f"turns over at {_bar(now)} bar, which it did at no pressure"]
    if abs(now - was) < max(_TOLD_PRESSURE, _TOLD_SHARE * (was - exhaust)):
        return []
    return [f"turns over at {_bar(now)} bar instead of {_bar(was)}"]


def _tell_power(before: Showing, after: Showing) -> list[str]:
    was, now = before.run.brake_power, after.run.brake_power
    conditions = after.run.conditions
    at = f"at {_bar(conditions.supply)} bar and {conditions.speed * 60 / TURN:.0f} rpm"
    if now <= 0:
        return [] if was <= 0 else [f"has no power left {at}"]
    if was <= 0:
        return [f"gives {now:.2g} W {at}, where it gave none"]
    change = now / was - 1
    if abs(change) < _TOLD_POWER:
        return []
    return [f"{100 * abs(change):.0f} % {'more' if change > 0 else 'less'} power {at}"]


def _tell_use(before: Showing, after: Showing) -> list[str]:
    was, now = before.use_for_work, after.use_for_work
    if was is None or now is None:
        return []
    change = now / was - 1
    if abs(change) < _TOLD_USE:
        return []
    return [f"{100 * abs(change):.0f} % {'more' if change > 0 else 'less'} {after.run.conditions.fluid} for the work"]


def _bar(absolute: float) -> str:
    return f"{(absolute - ATMOSPHERE) / 1e5:.2f}"
