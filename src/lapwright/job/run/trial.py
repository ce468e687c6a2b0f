"""Trying an engine: the run that answers what was asked, and the run after a cure beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import pi

from lapwright.cures import Cure
from lapwright.cycle.comparing import Showing, show_running, tell_gain
from lapwright.cycle.engine_run import EngineRun, run_engine
from lapwright.cycle.settling import SLOWEST, settle_speed
from lapwright.errors import CannotRun
from lapwright.job.run.notes import tell_run, tell_taken_sound
from lapwright.job.run.stand import Asked, Stand, prepare_stand
from lapwright.job.showing import show_power, show_torque
from lapwright.job.visit import Visit
from lapwright.motion.answers import CylinderMotion

#: The word that takes each cylinder's first cure.
BEST = "best"


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One engine run once: how it was put on the stand, how it does, and what there is to say of it.

    `motions` are the events by cylinder that go with the run; `cures` what was done first, nothing for the engine as
    found; `after` the same trial once a cure that was asked for is done.
    """

    name: str
    stand: Stand
    showing: Showing
    motions: Mapping[str, CylinderMotion]
    notes: tuple[str, ...]
    cures: tuple[Cure, ...] = ()
    after: Trial | None = None

    @property
    def run(self) -> EngineRun:
        """The turn at the pressure and speed asked for."""
        return self.showing.run

    @property
    def least_pressure(self) -> float | None:
        """The lowest supply that turns it over slowly [Pa, absolute]; None where none does, or friction is left out."""
        return None if self.stand.conditions.ideal else self.showing.least_pressure

    def tell_gain(self) -> str:
        """Say in one line what the cure gains that the run is compared with; nothing without one."""
        return "" if self.after is None else tell_gain(self.showing, self.after.showing)


def try_engine(visit: Visit, asked: Asked) -> Trial:
    """Run an engine as it was asked for.

    Parameters
    ----------
    visit: the engine
    asked: what to run it on, and what to compare it with

    Raises
    ------
    BadInput: something asked for cannot be read
    CannotRun: no run can be worked out, or no such cure is known; the sentence says why
    """
    stand = prepare_stand(visit, asked)
    if asked.compare is None:
        return _try(visit, stand, called="the engine")
    cures = pick_cures(visit, asked.compare)
    try:
        found = _try(visit, stand, called="the engine as found")
    except CannotRun as error:
        after = _try_cured(visit, asked, cures)
        error.instead = f"after the cure it settles at {after.run.conditions.speed * 30 / pi:.0f} rpm"
        raise
    return replace(found, after=_try_cured(visit, asked, cures))


def pick_cures(visit: Visit, code: str) -> tuple[Cure, ...]:
    """Return the cures of a code, one to a cylinder; "best" takes each cylinder's first, whatever it is.

    Parameters
    ----------
    visit: the engine
    code: of the cure

    Raises
    ------
    CannotRun: there is none of that code
    """
    picked: dict[str, Cure] = {}
    for cure in visit.cures:
        if code in (BEST, cure.code):
            picked.setdefault(cure.cylinder, cure)
    if not picked:
        codes = tuple(dict.fromkeys(cure.code for cure in visit.cures))
        known = f"its cures are {', '.join(codes)}" if codes else "none is known for it"
        raise CannotRun(f'the engine after "{code}"', "it has no cure of that name", known)
    return tuple(picked.values())


def _try_cured(visit: Visit, asked: Asked, cures: tuple[Cure, ...]) -> Trial:
    done = {cure.cylinder: cure for cure in cures}
    sizes = tuple(s.replacing(done[s.name].changes) if s.name in done else s for s in visit.cylinders)
    stand = prepare_stand(visit, asked, cylinders=sizes)
    trial = _try(visit, stand, called="the engine after the cure")
    motions = {**visit.motions, **{cure.cylinder: cure.after for cure in cures}}
    return replace(trial, cures=cures, motions=motions)


def _try(visit: Visit, stand: Stand, *, called: str) -> Trial:
    if stand.is_loaded:
        torque, power = stand.load_torque, stand.load_power
        speed = settle_speed(stand.plant, stand.conditions, torque=torque, power=power, quick=False)
        if speed is None:
            raise CannotRun(called, _say_stalled(stand), "give it less to drive, or more pressure")
        stand = replace(stand, conditions=stand.conditions.at_speed(speed))
    showing = show_running(stand.plant, stand.conditions)
    return Trial(
        name=visit.engine.name,
        stand=stand,
        showing=showing,
        motions=visit.motions,
        notes=(*tell_run(stand, showing), *tell_taken_sound(visit.engine, stand)),
    )


def _say_stalled(stand: Stand) -> str:
    """Why a load is too much, and how much would not be."""
    pressure = stand.show(stand.conditions.supply)
    most = run_engine(stand.plant, stand.conditions.at_speed(SLOWEST)).mean_torque
    if most <= 0:
        return f"at {pressure} it does not turn over, even without a load"
    if stand.load_power:
        return f"at no speed does it give {show_power(stand.load_power)} at {pressure}"
    load, gives = show_torque(stand.load_torque), show_torque(most)
    return f"a load of {load} stalls it: turning slowly it gives {gives} at {pressure}"
