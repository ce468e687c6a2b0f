from dataclasses import replace
from math import log, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from lapwright.cycle.bench_prediction import (
    AIR_FLOW,
    DECAY_TIME,
    RUN_DOWN_TIME,
    TORQUE,
    TWO_SIDED,
    Outcome,
    find_chest_leak,
    find_fall_time,
    list_scatter,
    read_rig,
    run_rig,
    set_up,
)
from lapwright.cycle.leak_lines import GAPS, Line, draw_lines
from lapwright.engine.bench_test import BenchTest
from lapwright.engine.sizes import Doubt
from tests.unit.cycle.bench import RPM, bring_engine, decay, run_down, steady

ATMOSPHERE = 101_325.0
GUESS = {"friction_pressure": 30_000.0, "ring_gap": 6e-6, "valve_face_gap": 3e-6, "gland_gap": 7e-6}
pressures = st.floats(2e3, 8e5)


@given(pressures, pressures, st.floats(1e-6, 1e-3), st.floats(1e-14, 1e-10))
def test_a_fall_of_pressure_takes_what_its_integral_says(a: float, b: float, volume: float, leak: float) -> None:
    start, stop = ATMOSPHERE + max(a, b) * 1.01, ATMOSPHERE + min(a, b)
    time, _ = quad(lambda p: volume / (leak * (p**2 - ATMOSPHERE**2)), stop, start, epsabs=0.0, epsrel=1e-10)
    assert find_fall_time(start, stop, volume=volume, leak=leak) == pytest.approx(time, rel=1e-7)


def test_a_vessel_marched_down_in_time_arrives_when_it_is_said_to() -> None:
    volume, leak, start, stop = 25e-6, 2e-12, 3e5, 1.5e5
    time = find_fall_time(start, stop, volume=volume, leak=leak)
    marched = solve_ivp(
        lambda _, p: -leak / volume * (p**2 - ATMOSPHERE**2), (0.0, time), [start], method="DOP853", rtol=1e-10
    )
    assert marched.y[0, -1] == pytest.approx(stop, rel=1e-7)


def test_falls_one_after_the_other_add_up_and_grow_with_the_volume_over_the_leak() -> None:
    whole = find_fall_time(4e5, 1.5e5, volume=1e-5, leak=1e-12)
    parts = find_fall_time(4e5, 2e5, volume=1e-5, leak=1e-12) + find_fall_time(2e5, 1.5e5, volume=1e-5, leak=1e-12)
    assert parts == pytest.approx(whole, rel=1e-12)
    assert find_fall_time(4e5, 1.5e5, volume=3e-5, leak=2e-12) == pytest.approx(1.5 * whole, rel=1e-12)
    assert find_fall_time(4e5, 1.5e5, volume=1e-5, leak=0.0) > 1e8


def test_the_chest_leaks_past_its_valve_and_spindle_alone() -> None:
    rig = set_up(bring_engine("sandpiper"), decay(1, 1.0, 0.5))
    # Face: round the cavity, 8.4 by 11 mm, under a land of (12.5 - 8.4) / 2 mm. Spindle: 0.8 of the 4 mm rod, packed
    # over 2.5 of its diameters.
    face = 2 * (11e-3 + 8.4e-3) * 3e-6**3 / 2.05e-3
    spindle = pi * 3.2e-3 * 7e-6**3 / 8e-3
    expected = (face + spindle) / (24 * 1.82e-5)
    assert find_chest_leak(rig.chest, GUESS) == pytest.approx(expected, rel=1e-9)
    assert find_chest_leak(rig.chest, {**GUESS, "ring_gap": 1e-4}) == pytest.approx(expected, rel=1e-9)


def test_the_chest_of_a_cylinder_whose_pipes_are_off_does_not_leak() -> None:
    engine = bring_engine("tern")
    both = find_chest_leak(set_up(engine, decay(1, 1.0, 0.5)).chest, GUESS)
    one = find_chest_leak(set_up(engine, decay(1, 1.0, 0.5, dead="B")).chest, GUESS)
    assert one == pytest.approx(both / 2, rel=5e-3)  # the two valves are not quite alike


def read(test: BenchTest, name: str = "sandpiper", outcome: Outcome | None = None):
    rig = set_up(bring_engine(name), test)
    found = outcome or run_rig(rig, GUESS)
    return {r.kind: r for r in read_rig(rig, GUESS, outcome=found, scatter=list_scatter(rig, GUESS))}


def test_it_runs_down_as_long_as_friction_needs_to_use_up_its_momentum() -> None:
    reading = read(run_down(1, 300.0))[RUN_DOWN_TIME]
    area = pi / 4 * 0.020**2
    swept = (2 * area - pi / 4 * 0.004**2) * 0.024
    assert reading.predicted == pytest.approx(7e-4 * 300 * RPM / (30_000 * swept / (2 * pi)), rel=1e-12)
    assert reading.off == pytest.approx(log(reading.predicted / 1.0) / 0.05)


def test_a_torque_is_what_the_pistons_give_less_friction_less_the_load() -> None:
    swept = set_up(bring_engine("sandpiper"), run_down(1, 300.0)).plant.swept
    friction = 30_000 * swept / (2 * pi)
    given_outcome = Outcome(torque=0.2, air=7e-5)
    light = read(steady(1, 0.6, 200.0), outcome=given_outcome)[TORQUE]
    assert (light.predicted, light.measured) == (pytest.approx(0.2 - friction), 0.0)
    loaded = read(replace(steady(1, 0.6, 200.0), load_torque=0.05), outcome=given_outcome)[TORQUE]
    power = read(replace(steady(1, 0.6, 200.0), load_power=0.05 * 200 * RPM), outcome=given_outcome)[TORQUE]
    assert loaded.measured == power.measured == pytest.approx(0.05)
    assert loaded.off == pytest.approx((0.2 - friction - 0.05) / loaded.scatter)


def test_a_test_of_two_kinds_has_the_readings_of_both() -> None:
    test = replace(steady(1, 0.6, 200.0, air=True), run_down_from=20.0, run_down_time=1.0)
    assert set(read(test)) == {TORQUE, AIR_FLOW, RUN_DOWN_TIME}
    assert set(read(decay(1, 1.0, 0.5))) == {DECAY_TIME}


def test_nothing_counts_as_closer_than_the_least_scatter() -> None:
    readings = read(replace(steady(1, 0.6, 200.0, air=True), run_down_from=20.0, run_down_time=1.0))
    assert readings[TORQUE].scatter == pytest.approx(0.03 * readings[TORQUE].indicated, rel=1e-6)
    assert readings[AIR_FLOW].scatter == readings[RUN_DOWN_TIME].scatter == 0.05


def test_doubts_are_half_widths_of_95_per_cent_and_add_as_squares() -> None:
    doubts = {"run_down_from": Doubt(2.0, 2.0), "run_down_time": Doubt(0.2, 0.2)}
    test = BenchTest(number=1, run_down_from=20.0, run_down_time=1.0, doubts=doubts)
    assert read(test)[RUN_DOWN_TIME].scatter == pytest.approx(sqrt(0.1**2 + 0.2**2) / TWO_SIDED)
    fall = replace(decay(1, 1.0, 0.5), doubts={"decay_time": Doubt(0.2, 0.2), "decay_volume": Doubt(0.0, 5e-6)})
    assert read(fall)[DECAY_TIME].scatter == pytest.approx(sqrt(0.2**2 + 0.1**2) / TWO_SIDED)


def test_the_doubt_of_a_pressure_is_felt_as_far_as_the_pressure_is() -> None:
    blurred = {"supply_pressure": Doubt(1e4, 1e4)}
    scatter = read(replace(steady(1, 0.6, 200.0), doubts=blurred))[TORQUE].scatter
    rig = set_up(bring_engine("sandpiper"), steady(1, 0.7, 200.0))
    lower = set_up(bring_engine("sandpiper"), steady(1, 0.5, 200.0))
    swing = (run_rig(rig, GUESS).torque - run_rig(lower, GUESS).torque) / 2
    assert scatter == pytest.approx(swing / TWO_SIDED, rel=0.05)
    ends = replace(decay(1, 1.0, 0.5), doubts={"decay_to": Doubt(1e4, 1e4)})
    lower, higher = (
        find_fall_time(ATMOSPHERE + 1e5, ATMOSPHERE + stop, volume=1.0, leak=1.0) for stop in (4.9e4, 5.1e4)
    )
    slope = (lower / higher - 1) / 2e3
    assert read(ends)[DECAY_TIME].scatter == pytest.approx(slope * 1e4 / TWO_SIDED, rel=0.1)


def test_a_flywheel_that_nobody_weighed_leaves_a_run_down_half_in_doubt() -> None:
    engine = bring_engine("sandpiper")
    silent = replace(engine, running=replace(engine.running, flywheel_inertia=None))
    assert list_scatter(set_up(silent, run_down(1, 300.0)), GUESS)[RUN_DOWN_TIME] == 0.5
    about = replace(engine.running, doubts={"flywheel_inertia": Doubt(2.1e-4, 2.1e-4)})
    rough = set_up(replace(engine, running=about), run_down(1, 300.0))
    assert list_scatter(rough, GUESS)[RUN_DOWN_TIME] == pytest.approx(0.3 / TWO_SIDED)


def test_an_engine_on_steam_is_shut_in_and_run_down_on_air() -> None:
    engine = replace(bring_engine("sandpiper"), fluid="steam")
    assert set_up(engine, decay(1, 1.0, 0.5)).conditions is None
    rig = set_up(engine, steady(1, 1.0, 200.0))
    assert rig.conditions is not None
    assert rig.conditions.fluid == "steam"
    assert set_up(engine, steady(1, 1.0, 200.0, fluid="air")).conditions.fluid == "air"


def test_lines_between_runs_say_what_a_run_would_have_given() -> None:
    rig = set_up(bring_engine("sandpiper"), steady(1, 1.0, 150.0))
    lines = draw_lines(rig, GUESS)
    for factor in (0.3, 0.8, 1.25, 1.9, 3.5):
        for keys in (("ring_gap",), GAPS):
            guess = {**GUESS, **{key: GUESS[key] * factor for key in keys}}
            run, line = run_rig(rig, guess), lines.read(guess)
            assert line.torque == pytest.approx(run.torque, rel=5e-3)
            assert line.air == pytest.approx(run.air, rel=0.03)


def test_a_gap_that_is_nothing_has_no_line_and_stays_nothing() -> None:
    rig = set_up(bring_engine("sandpiper"), steady(1, 1.0, 150.0))
    lines = draw_lines(rig, {**GUESS, "gland_gap": 0.0})
    assert set(lines.torque) == set(lines.air) == {"ring_gap", "valve_face_gap"}


@given(st.floats(-3, 3))
def test_a_line_goes_through_its_points_and_no_farther_than_its_ends(place: float) -> None:
    line = Line((-1.0, 0.0, 2.0), (1.0, 2.0, 4.0), (1.0, 1.0, 1.0))
    assert line.read(place) == pytest.approx(min(max(place, -1.0), 2.0) + 2.0)
