"""Mass and energy close over a turn for anything a record can hold, and no card holds more than its two pressures."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings

from lapwright.cycle import layout as at
from lapwright.cycle.conditions import Conditions, Setup
from lapwright.cycle.march import FAR_OFF
from lapwright.engine.cylinder import ENDS
from tests.property.cycle_engines import MICRON, conditions, random_case, setups
from tests.property.cycle_runs import RPM, Run, settle, turn_once_more

#: What may be left over, as a share of all that passes and is held; the scheme leaves rounding alone.
LEFT_OVER = 1e-9
#: How far a space that fills or empties within one step may shoot past what it fills from or empties into.
OVERSHOOT = 0.05

SPACES = range(4)
WAYS = range(at.WAYS)


def leaves_and_enters(way: int) -> tuple[int, int]:
    return int(at.WAY_FROM[way]), int(at.WAY_TO[way])


def is_free(run: Run, space: int) -> bool:
    return bool(run.pack.cell[at.FREE_HEAD + space])


def ends_of(run: Run) -> list[str]:
    return [end for n, end in enumerate(ENDS) if is_free(run, n)]


def missed(run: Run) -> float:
    """By what share the worst stage of the last turn missed its balance; as good as always by nothing."""
    return float(run.pack.cell[at.TURN_MISSED])


def unthrottled(setup: Setup) -> Setup:
    """The same cylinder with wide pipes."""
    return replace(setup, running=replace(setup.running, supply_bore=None, exhaust_bore=None))


@settings(max_examples=60)
@given(setups, conditions)
def test_mass_and_energy_close_in_every_space(setup: Setup, told: Conditions) -> None:
    run, before = turn_once_more(settle(setup, told, tolerance=1e-4))
    if missed(run) >= FAR_OFF:
        assert not run.settled
        return
    for space in filter(lambda space: is_free(run, space), SPACES):
        mass, energy, passed, carried = 0.0, 0.0, 0.0, 0.0
        for way in WAYS:
            leaves, enters = leaves_and_enters(way)
            sign = (enters == space) - (leaves == space)
            mass += sign * run.mass_through(way)
            energy += sign * run.heat_through(way)
            passed += abs(sign) * run.add_up(np.abs(run.flow(way))) / told.speed
            carried += abs(sign) * run.add_up(np.abs(run.carried(way))) / told.speed
        if space <= at.CRANK:
            end = list(ENDS)[space]
            heat = run.out[:, at.OUT_HEAT + space] / told.speed
            work = run.pressure(end) * run.swelling(end)
            energy += run.add_up(heat) - run.add_up(work)
            carried += run.add_up(np.abs(heat)) + run.add_up(np.abs(work))
        here = space * at.ROW
        held = [(pack.cell[here + at.MASS], pack.cell[here + at.ENERGY]) for pack in (before, run.pack)]
        assert abs(mass - (held[1][0] - held[0][0])) <= LEFT_OVER * (passed + held[0][0])
        assert abs(energy - (held[1][1] - held[0][1])) <= LEFT_OVER * (carried + abs(held[0][1]))


@settings(max_examples=60)
@given(setups, conditions)
def test_everything_stays_finite_and_above_nothing(setup: Setup, told: Conditions) -> None:
    run = settle(setup, told, tolerance=1e-4)
    assert np.isfinite(run.out).all()
    assert np.isfinite(run.pack.cell).all()
    assert 1 <= run.turns <= run.pack.cell[at.MOST_TURNS]
    assert (run.out[:, at.OUT_P : at.OUT_P + 4] > 0).all()
    for n, _ in enumerate(ends_of(run)):
        assert (run.out[:, at.OUT_T + n] > 0).all()
        # An end that cannot drain fills with water, a little less of it than would be there without any pressure.
        assert (run.out[:, at.OUT_X + n] > -0.01).all() or not run.settled
    for space in filter(lambda space: is_free(run, space), SPACES):
        assert run.pack.cell[space * at.ROW + at.MASS] > 0


@settings(max_examples=60)
@given(setups, conditions)
def test_what_is_told_of_a_space_is_what_it_holds(setup: Setup, told: Conditions) -> None:
    """Pressure times volume and the mass inside make the energy inside: every stage was solved to the end."""
    run = settle(setup, told, tolerance=1e-4)
    cell, within = run.pack.cell, max(1e-6, 10 * missed(run))
    for space in filter(lambda space: is_free(run, space), SPACES):
        here = space * at.ROW
        inside = (cell[here + at.ENTHALPY] - cell[here + at.P] / cell[here + at.DENSITY]) * cell[here + at.MASS]
        content = 2.5 * cell[here + at.P] * cell[here + at.VOLUME]
        assert abs(inside - cell[here + at.ENERGY]) <= within * (content + abs(inside))
        assert abs(cell[here + at.DENSITY] * cell[here + at.VOLUME] / cell[here + at.MASS] - 1) <= within


@settings(max_examples=60)
@given(setups, conditions)
def test_no_mean_pressure_above_supply_less_exhaust(setup: Setup, told: Conditions) -> None:
    """A gland is left out: through it an end can empty into a shop at less than the exhaust's pressure.

    Leaks and heat are marched through to within a thousandth, and so it may be that much above.
    """
    tight = unthrottled(replace(setup, running=replace(setup.running, gland_gap=0.0)))
    for conditions_tried, beyond in ((told, 2e-3), (replace(told, ideal=True), 1e-6)):
        run = settle(tight, conditions_tried, tolerance=1e-6)
        if run.settled:
            for end in ends_of(run):
                assert run.mean_pressure(end) <= (told.supply - told.exhaust) * (1 + beyond)


@settings(max_examples=60)
@given(setups, conditions)
def test_only_the_piston_drives_a_card_beyond_its_bounds(setup: Setup, told: Conditions) -> None:
    """Without leaks and heat it rises above supply only as the piston nears, falls below exhaust only as it leaves."""
    run = settle(unthrottled(setup), replace(told, ideal=True), tolerance=1e-6)
    for end in ends_of(run):
        p, speed = run.pressure(end), run.swelling(end)
        leaving, nearing = (np.all([np.roll(sign * speed, n) > 0 for n in range(4)], axis=0) for sign in (1, -1))
        rising, falling = p > np.roll(p, 1), p < np.roll(p, 1)
        assert (p[leaving & rising] <= told.supply * (1 + OVERSHOOT)).all()
        assert (p[nearing & falling] >= told.exhaust * (1 - OVERSHOOT)).all()


@settings(max_examples=40)
@given(setups, conditions)
def test_nothing_flows_through_what_is_shut_nor_between_equal_pressures(setup: Setup, told: Conditions) -> None:
    run = settle(setup, replace(told, supply=told.exhaust), tolerance=1e-4)
    for way in WAYS:
        assert not run.flow(way)[run.opening(way) == 0].any()
    driven = settle(setup, told, tolerance=1e-4)
    for way in range(at.WAY_STEAM_HEAD, at.FIRST_GAP):
        leaves, enters = leaves_and_enters(way)
        if max(leaves, enters) < 4:
            drop = driven.out[:, at.OUT_P + leaves] - driven.out[:, at.OUT_P + enters]
            assert (driven.flow(way) * drop >= 0).all()


@pytest.mark.parametrize("seed", range(24))
def test_turns_of_an_engine_that_leaks_wet_steam_come_to_repeat(seed: int) -> None:
    """Film that leaks, dries up and comes back went by fits and starts while it was told from the step before."""
    rng = Random(1000 + seed)
    case = random_case(rng, "steam")
    gaps = {
        "ring_gap": rng.choice((4.0, 10.0, 20.0)) * MICRON,
        "valve_face_gap": rng.choice((0.0, 2.0, 10.0)) * MICRON,
        "gland_gap": 5.0 * MICRON,
    }
    leaking = Setup(case.setup.sizes, replace(case.setup.running, wall_heat="usual", **gaps))
    told = replace(case.conditions, supply_temperature=None, speed=rng.choice((20.0, 60.0, 300.0, 1500.0)) * RPM)
    assert settle(leaking, told, tolerance=1e-5).settled
