"""What engines are run on in the tests: random cases with a seed, and strategies for anything a record can hold."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import exp, log
from random import Random

from hypothesis import strategies as st

from lapwright.cycle.conditions import ATMOSPHERE, Conditions, Setup
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes
from lapwright.medium.if97 import saturation_temperature
from tests.property.cycle_runs import RPM
from tests.property.engines import ARRANGEMENTS, any_engines, random_sound_engine, sound_engines

MICRON = 1e-6


@dataclass(frozen=True)
class Case:
    """A cylinder, how it runs, and what on; `wall` [K] is held where it is not None."""

    setup: Setup
    conditions: Conditions
    wall: float | None = None


def give_clearance(sizes: Sizes, head: float, crank: float) -> Sizes:
    """The same cylinder with clearances as shares of the swept volumes, passages included."""
    return sizes.replacing({"clearance_head_share": head, "clearance_crank_share": crank})


def random_case(rng: Random, fluid: str) -> Case:
    """An engine that runs, well or badly: any speed, lap, lead and clearance, leaking or not, heated or not."""
    arrangement = ARRANGEMENTS[0] if rng.random() < 0.6 else rng.choice(ARRANGEMENTS)
    sizes = random_sound_engine(
        rng, scale=rng.uniform(0.5, 2.0), lead_share=rng.uniform(-0.15, 0.25), arrangement=arrangement
    )
    sizes = _missetting(rng, give_clearance(sizes, rng.uniform(0.03, 0.30), rng.uniform(0.03, 0.30)))
    supply = ATMOSPHERE + 1e5 * rng.uniform(0.5, 5.0)
    boiling = saturation_temperature(supply)
    heated, leaking = rng.random() < 0.5, rng.random() < 0.6
    hot = None if rng.random() < 0.7 else boiling + rng.uniform(1.0, 80.0)
    conditions = Conditions(
        fluid=fluid,
        supply=supply,
        exhaust=ATMOSPHERE * rng.uniform(0.9, 1.3),
        speed=RPM * exp(rng.uniform(log(60), log(3000))),
        supply_temperature=hot if fluid == "steam" else rng.uniform(280.0, 350.0),
        dryness=rng.uniform(0.85, 1.0),
    )
    usual = 300.0 if fluid == "air" else boiling - rng.uniform(-5.0, 40.0)
    return Case(Setup(sizes, _random_running(rng, leaking, heated)), conditions, usual if heated else None)


def _missetting(rng: Random, sizes: Sizes) -> Sizes:
    """The valve a little off along its spindle, the eccentric a little turned."""
    changes = {
        "valve_drive.eccentric_angle": sizes.numbers["valve_drive.eccentric_angle"] + rng.uniform(-0.15, 0.15),
        "valve_drive.valve_offset": sizes.numbers["valve_drive.valve_offset"]
        + rng.uniform(-0.15, 0.15) * sizes.numbers["port_face.steam_port"],
    }
    return sizes.replacing(changes)


def _random_running(rng: Random, leaking: bool, heated: bool) -> Running:
    gaps = [rng.choice((0.0, rng.uniform(1.0, 10.0))) * MICRON * leaking for _ in range(3)]
    # Bores are not known before the cylinder: a quarter of the runs is throttled by what a small engine has.
    bores = [rng.uniform(2e-3, 8e-3) if rng.random() < 0.25 else None for _ in range(3)]
    return Running(
        discharge_coefficient=rng.uniform(0.55, 0.85),
        ring_gap=gaps[0],
        valve_face_gap=gaps[1],
        gland_gap=gaps[2],
        wall_heat="usual" if heated else "none",
        passage_bore=bores[0],
        supply_bore=bores[1],
        exhaust_bore=bores[2],
    )


def _logarithmic(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(log(low), log(high)).map(exp)


#: Nothing, or from a hundredth of a micron to a gap that a feeler gauge finds.
_gaps = st.just(0.0) | _logarithmic(0.01 * MICRON, 100 * MICRON)
_bores = st.none() | _logarithmic(0.3e-3, 20e-3)

runnings = st.builds(
    Running,
    discharge_coefficient=st.floats(0.3, 1.0),
    ring_gap=_gaps,
    valve_face_gap=_gaps,
    gland_gap=_gaps,
    wall_heat=st.sampled_from(("usual", "none")),
    passage_bore=_bores,
    supply_bore=_bores,
    exhaust_bore=_bores,
)


def _join_conditions(
    fluid: str, ratio: float, back: float, speed: float, heat: float, dryness: float, ideal: bool
) -> Conditions:
    exhaust = ATMOSPHERE * back
    supply = exhaust * ratio
    warm = 280.0 + heat if fluid == "air" else saturation_temperature(supply) + heat
    hot = warm if fluid == "air" or heat > 0.0 else None
    return Conditions(
        fluid=fluid,
        supply=supply,
        exhaust=exhaust,
        speed=speed * RPM,
        supply_temperature=hot,
        dryness=dryness,
        ideal=ideal,
    )


#: Anything that can be asked for: 1.02 to 12 times the exhaust's pressure, 5 to 5000 rpm.
conditions = st.builds(
    _join_conditions,
    st.sampled_from(("air", "steam")),
    _logarithmic(1.02, 12.0),
    st.floats(0.6, 2.0),
    _logarithmic(5.0, 5000.0),
    st.just(0.0) | st.floats(0.0, 100.0),
    st.floats(0.5, 1.0),
    st.booleans(),
)


def _single_acting(sizes: Sizes, single: bool) -> Sizes:
    if not single:
        return sizes
    return replace(sizes, numbers={key: value for key, value in sizes.numbers.items() if key != "piston_rod"})


_cleared = st.builds(give_clearance, any_engines() | sound_engines(), st.floats(0.005, 0.4), st.floats(0.005, 0.4))
engines = st.builds(_single_acting, _cleared, st.sampled_from((False, False, False, True)))
setups = st.builds(Setup, engines, runnings)
