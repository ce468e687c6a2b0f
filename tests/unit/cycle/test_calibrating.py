from collections.abc import Mapping
from dataclasses import replace
from math import exp, log
from random import Random

import pytest

from lapwright.cycle.bench_prediction import TWO_SIDED
from lapwright.cycle.calibrating import USUAL_SPREAD, Calibration, calibrate, list_priors
from lapwright.cycle.calibration_verdicts import list_informed, list_traded, tell_verdicts
from lapwright.engine.bench_test import FITTED, BenchTest
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Doubt
from lapwright.errors import CannotRun
from tests.unit.cycle.bench import bring_engine, decay, measure, run_down, steady

TRUTH = {"friction_pressure": 40_000.0, "ring_gap": 14e-6, "valve_face_gap": 5e-6, "gland_gap": 9e-6}


def know(engine: Engine, **figures: tuple[float, float]) -> Engine:
    """The engine with some figures in its record, each with its doubt."""
    running = replace(
        engine.running,
        **{key: value for key, (value, _) in figures.items()},
        doubts={**engine.running.doubts, **{key: Doubt(doubt, doubt) for key, (_, doubt) in figures.items()}},
    )
    return replace(engine, running=running)


def tell(calibration: Calibration, *, weighed: bool = True) -> dict[str, str]:
    told: dict[str, str] = {}
    for verdict in tell_verdicts(calibration, wheel_is_weighed=weighed):
        told[verdict.code] = f"{told.get(verdict.code, '')} {verdict.sentence}".strip()
    return told


def check_found(calibration: Calibration, truth: Mapping[str, float], *, within: float = 0.02) -> None:
    """Every figure that the tests tell well has come back, and every other lies within its interval."""
    assert calibration.settled
    for estimate in calibration.estimates:
        assert estimate.low <= truth[estimate.key] <= estimate.high, estimate.key
        if estimate.kept < 0.1:
            assert estimate.value == pytest.approx(truth[estimate.key], rel=within), estimate.key


@pytest.mark.parametrize(("name", "slow", "fast"), [("sandpiper", 60, 120), ("plover", 80, 150), ("tern", 60, 120)])
def test_what_was_put_in_comes_back(name: str, slow: float, fast: float) -> None:
    # The spindle's gland was looked at with soapy water, so that the fall of pressure tells of the valve face.
    engine = know(bring_engine(name), gland_gap=(9e-6, 0.5e-6))
    tests = [
        steady(1, 0.5, slow, air=True),
        steady(2, 1.5, slow, air=True),
        steady(3, 1.0, fast, air=True),
        run_down(4, 400.0),
        decay(5, 1.0, 0.5),
    ]
    calibration = calibrate(measure(engine, tests, TRUTH))
    check_found(calibration, TRUTH)
    assert calibration.find("friction_pressure").kept < 0.1
    assert calibration.find("ring_gap").kept < 0.1
    assert {estimate.key for estimate in list_informed(calibration)} >= {"friction_pressure", "ring_gap"}
    assert not calibration.contradictions
    assert "cannot-tell-apart" not in tell(calibration)


def test_steam_tells_of_friction_as_air_does() -> None:
    engine = replace(bring_engine("sandpiper"), fluid="steam")
    calibration = calibrate(measure(engine, [steady(1, 1.0, 200.0), run_down(2, 400.0)], TRUTH))
    assert calibration.find("friction_pressure").value == pytest.approx(40_000, rel=0.02)
    assert calibration.find("valve_face_gap").kept > 0.9


def test_a_dragged_cylinder_rubs_as_well() -> None:
    tests = [steady(1, 1.5, 120.0, dead="B"), steady(2, 1.0, 120.0, dead="A")]
    calibration = calibrate(measure(bring_engine("tern"), tests, TRUTH))
    assert calibration.find("friction_pressure").value == pytest.approx(40_000, rel=0.02)


def test_one_pressure_and_speed_say_that_friction_and_leaks_cannot_be_told_apart() -> None:
    for name in ("sandpiper", "plover", "merganser"):
        calibration = calibrate(measure(bring_engine(name), [steady(1, 1.0, 150.0)], TRUTH))
        told = tell(calibration)
        assert "Friction and leaks cannot be told apart by pressure and speed alone" in told["cannot-tell-apart"]
        assert "try-run-down" in told
        assert "try-air-taken" in told
        assert "Test 1 says" not in told.get("says-most", "")
        assert "the valve face gap and the gland gap" in told["says-nothing"]
        assert calibration.find("gland_gap").value == pytest.approx(5e-6, rel=0.02)


def test_a_run_down_alone_says_nothing_of_any_leak() -> None:
    calibration = calibrate(measure(bring_engine("sandpiper"), [run_down(1, 300.0)], TRUTH))
    told = tell(calibration)
    assert told["says-nothing"] == (
        "The tests say nothing of the ring gap, the valve face gap and the gland gap: they stay as they were taken."
    )
    assert {"try-pressure-fall", "try-air-taken"} <= set(told)
    assert "cannot-tell-apart" not in told
    assert [estimate.key for estimate in list_informed(calibration)] == ["friction_pressure"]
    assert calibration.find("friction_pressure").mostly_from == 1


def test_a_fall_of_pressure_tells_valve_face_and_gland_only_together() -> None:
    calibration = calibrate(measure(bring_engine("sandpiper"), [decay(1, 1.0, 0.5)], TRUTH))
    check_found(calibration, TRUTH)
    assert list_traded(calibration) == (("valve_face_gap", "gland_gap"),)
    told = tell(calibration)
    assert "The valve face gap and the gland gap cannot be told apart" in told["cannot-tell-apart"]
    assert "soapy water" in told["try-soapy-water"]
    assert calibration.correlations[2, 3] < -0.8
    known = calibrate(measure(know(bring_engine("sandpiper"), gland_gap=(9e-6, 0.3e-6)), [decay(1, 1.0, 0.5)], TRUTH))
    assert list_traded(known) == ()
    assert known.find("valve_face_gap").value == pytest.approx(5e-6, rel=0.05)


def test_the_test_that_says_the_most_is_named() -> None:
    tests = [steady(1, 1.0, 150.0), decay(2, 1.0, 0.5)]
    calibration = calibrate(measure(bring_engine("sandpiper"), tests, TRUTH))
    assert "Test 2 says the most (pressure fall)" in tell(calibration)["says-most"]
    assert calibration.find("friction_pressure").mostly_from == 1
    assert calibration.find("gland_gap").mostly_from == 2


def test_a_test_that_contradicts_the_rest_is_named_and_no_other() -> None:
    tests = [steady(1, 1.0, 150.0), steady(2, 0.5, 150.0), run_down(3, 400.0), decay(4, 1.0, 0.5)]
    engine = measure(bring_engine("sandpiper"), tests, TRUTH)
    slip = replace(engine.bench_tests[2], run_down_time=2 * (engine.bench_tests[2].run_down_time or 0.0))
    spoilt = replace(engine, bench_tests=(*engine.bench_tests[:2], slip, engine.bench_tests[3]))
    assert not calibrate(engine).contradictions
    calibration = calibrate(spoilt)
    assert calibration.contradictions == ((2,),)
    told = tell(calibration)
    assert told["contradicts"] == (
        "The run-down of test 3 contradicts the rest: measure it again before you trust the fit."
    )
    assert "does-not-fit" not in told


def test_of_two_tests_that_contradict_each_other_neither_is_called_the_wrong_one() -> None:
    engine = measure(bring_engine("sandpiper"), [run_down(1, 400.0), run_down(2, 200.0)], TRUTH)
    first, second = engine.bench_tests
    doubled = replace(first, run_down_time=2 * (first.run_down_time or 0.0))
    calibration = calibrate(replace(engine, bench_tests=(doubled, second)))
    assert calibration.contradictions == ((0, 1),)
    assert "the run-down of test 1 and the run-down of test 2 contradict each other" in (
        tell(calibration)["contradicts"].lower()
    )


def test_what_no_friction_and_no_leak_explains_is_said() -> None:
    engine = bring_engine("sandpiper")
    impossible = replace(steady(1, 1.0, 150.0), load_torque=2.0)
    calibration = calibrate(replace(engine, bench_tests=(impossible,)))
    told = tell(calibration)
    assert "the torque of test 1" in told["does-not-fit"]
    backwards = replace(bring_engine("curlew"), bench_tests=(replace(steady(1, 2.0, 150.0), load_torque=0.1),))
    assert "would not run as in test 1" in tell(calibrate(backwards))["would-not-run"]


def test_friction_far_from_what_is_usual_is_remarked_on() -> None:
    stiff = {**TRUTH, "friction_pressure": 1.6e5}
    calibration = calibrate(measure(bring_engine("sandpiper"), [run_down(1, 400.0)], stiff))
    assert "Friction comes out very large for a small engine" in tell(calibration)["unusual"]
    own = know(bring_engine("sandpiper"), friction_pressure=(2e4, 0.3e4))
    tests = [run_down(1, 400.0), run_down(2, 200.0), steady(3, 1.0, 150.0)]
    told = tell(calibrate(measure(own, tests, TRUTH)))
    assert "very large for what the record says of it" in told["unusual"]
    assert "contradicts" not in told


def test_an_unweighed_flywheel_makes_a_run_down_count_for_little() -> None:
    engine = measure(bring_engine("sandpiper"), [run_down(1, 400.0)], TRUTH)
    silent = replace(engine, running=replace(engine.running, flywheel_inertia=None))
    calibration = calibrate(silent)
    assert calibration.find("friction_pressure").kept > 0.5
    assert "wheel-not-weighed" in tell(calibration, weighed=False)
    assert "wheel-not-weighed" not in tell(calibration)


def test_what_is_known_before_is_the_records_own_or_what_is_usual() -> None:
    engine = know(bring_engine("sandpiper"), friction_pressure=(20_000.0, 5_000.0))
    engine = replace(engine, running=replace(engine.running, ring_gap=6e-6, gland_gap=0.0))
    friction, ring, face, gland = list_priors(engine)
    assert (friction.value, friction.is_own) == (20_000, True)
    assert friction.spread == pytest.approx(log(25 / 15) / (2 * TWO_SIDED))
    assert (ring.value, ring.spread, ring.is_own) == (6e-6, USUAL_SPREAD["ring_gap"], True)
    assert (face.value, face.spread, face.is_own) == (2e-6, USUAL_SPREAD["valve_face_gap"], False)
    assert (gland.value, gland.spread) == (0.0, 0.0)
    low, high = face.interval
    assert (low, high) == (pytest.approx(0.5e-6, rel=0.02), pytest.approx(8e-6, rel=0.02))


def test_what_came_from_these_tests_is_not_counted_as_known_before_them() -> None:
    engine = know(bring_engine("sandpiper"), friction_pressure=(20_000.0, 500.0), ring_gap=(9e-6, 1e-6))
    first, ring, *_ = list_priors(replace(engine, from_tests=("friction_pressure",)))
    assert (first.value, first.is_own) == (25_000, False)
    assert (ring.value, ring.is_own) == (9e-6, True)


def test_a_gap_that_is_nothing_in_the_record_stays_so() -> None:
    engine = bring_engine("sandpiper")
    tight = replace(engine, running=replace(engine.running, gland_gap=0.0))
    calibration = calibrate(measure(tight, [decay(1, 1.0, 0.5)], {**TRUTH, "gland_gap": 0.0}))
    gland = calibration.find("gland_gap")
    assert (gland.value, gland.low, gland.high) == (0.0, 0.0, 0.0)
    assert len(calibration.fitted) == 3
    assert calibration.find("valve_face_gap").value == pytest.approx(5e-6, rel=0.02)
    assert tell(calibration)["left-at-nothing"] == "The gland gap is nothing in the record, and left so."


def test_an_engine_without_tests_or_without_sizes_is_refused_in_a_sentence() -> None:
    with pytest.raises(CannotRun, match="bench_test"):
        calibrate(bring_engine("sandpiper"))
    with pytest.raises(CannotRun, match=r"valve\.cavity"):
        calibrate(replace(bring_engine("knot"), bench_tests=(run_down(1, 300.0),)))


def test_a_test_that_cannot_be_worked_out_is_named() -> None:
    impossible = replace(steady(7, 1.0, 150.0), supply_pressure=-2e4)
    with pytest.raises(CannotRun, match="test 7"):
        calibrate(replace(bring_engine("sandpiper"), bench_tests=(impossible,)))


def list_hits(tests: list[BenchTest], *, cases: int, seed: str) -> list[bool]:
    """Whether each figure's interval held the truth, for engines as they are usual and tests as they come out."""
    rng, hits = Random(seed), []
    engine = bring_engine("sandpiper")
    for _ in range(cases):
        truth = {p.key: p.value * exp(rng.gauss(0.0, p.spread)) for p in list_priors(engine)}
        calibration = calibrate(measure(engine, tests, truth, rng))
        hits += [e.low <= truth[e.key] <= e.high for e in calibration.estimates if e.kept < 0.95]
    return hits


def test_intervals_of_95_per_cent_hold_the_truth_in_about_95_cases_of_100() -> None:
    hits = list_hits([run_down(1, 400.0), decay(2, 1.0, 0.5)], cases=70, seed="still")
    assert len(hits) > 150
    assert 0.91 <= sum(hits) / len(hits) <= 0.99


@pytest.mark.slow
def test_so_do_those_of_an_engine_that_ran() -> None:
    hits = list_hits([steady(1, 1.0, 150.0, air=True), run_down(2, 400.0)], cases=12, seed="running")
    assert len(hits) >= 20
    assert 0.85 <= sum(hits) / len(hits) <= 1.0


def test_the_keys_of_what_is_fitted_are_the_records() -> None:
    calibration = calibrate(measure(bring_engine("sandpiper"), [run_down(1, 300.0)], TRUTH))
    assert tuple(estimate.key for estimate in calibration.estimates) == FITTED


@pytest.mark.parametrize(
    "tests",
    [
        [steady(1, 2.955, 5573.7, fluid="air"), steady(2, 0.03085, 19.742, fluid="steam")],
        [steady(1, 12.0, 45_000.0), run_down(2, 45_000.0)],
        [replace(steady(1, 0.02, 2.0), load_power=1e3), decay(2, 9.0, 0.001)],
        [replace(run_down(1, 1.0), run_down_time=8e4), replace(run_down(2, 5e4), run_down_time=0.05)],
        [replace(steady(1, 1.0, 150.0), air_flow=5.0), replace(steady(2, 1.0, 150.0), air_flow=1e-7)],
    ],
)
def test_tests_that_cannot_be_true_end_in_finite_figures_and_words(tests: list[BenchTest]) -> None:
    calibration = calibrate(replace(bring_engine("plover"), bench_tests=tuple(tests)))
    for estimate in calibration.estimates:
        assert 0 < estimate.low <= estimate.value <= estimate.high < 1e6
    assert set(tell(calibration)) & {"not-settled", "would-not-run", "does-not-fit", "contradicts"}
