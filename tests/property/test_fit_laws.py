"""Laws of fits, pins, bearings and covers."""

from __future__ import annotations

from itertools import pairwise
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.tables.gaskets import GasketRow, list_gaskets
from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop.bearing_loads import find_bearing_pressure
from lapwright.workshop.clearances import judge_clearance, list_clearances
from lapwright.workshop.covers import (
    Joint,
    find_chord,
    find_joint_loads,
    find_widest_joint,
    load_stud,
    load_stud_by_torque,
    order_studs,
)
from lapwright.workshop.fit_measured import judge_pair, name_nominal
from lapwright.workshop.fits import PURPOSES, choose_fits, find_fit, list_fits_of
from lapwright.workshop.pin_sizes import choose_shank_diameter
from lapwright.workshop.pins import (
    Span,
    find_bending_stress,
    find_shear_stress,
    judge_thread_in_bearing,
)

SIZES = st.floats(0.2e-3, 30e-3)
LENGTHS = st.floats(0.5e-3, 30e-3)
FORCES = st.floats(0.1, 5000)
FACTORS = st.floats(0.1, 10)
THREADS = st.sampled_from([row for row in list_threads() if row.major < 12e-3])
SHEETS = st.sampled_from([row for row in list_gaskets() if row.m is not None])
JOINTS = st.builds(lambda bore, width: Joint(bore, bore + 2 * width), LENGTHS, st.floats(0.5e-3, 10e-3))
PRESSURES = st.floats(0, 10e5)
SPANS = st.builds(
    lambda diameter, part, gap, cheek, planes: Span(
        diameter=diameter, moving_part=part, gap=gap, cheek=cheek, planes=planes
    ),
    LENGTHS,
    LENGTHS,
    st.floats(0, 3e-3),
    st.floats(0, 10e-3),
    st.sampled_from([1, 2]),
)


@given(SIZES, st.sampled_from(list(PURPOSES)))
def test_a_clearance_is_hole_less_shaft_at_both_ends(size: float, fit: str) -> None:
    limits = find_fit(size, fit)
    assert limits.hole[0] == size < limits.hole[1]
    assert limits.shaft[0] < limits.shaft[1]
    assert limits.least_clearance == pytest.approx(limits.hole[0] - limits.shaft[1], abs=1e-12)
    assert limits.most_clearance == pytest.approx(limits.hole[1] - limits.shaft[0], abs=1e-12)
    widths = limits.hole[1] - limits.hole[0] + limits.shaft[1] - limits.shaft[0]
    assert limits.most_clearance - limits.least_clearance == pytest.approx(widths, abs=1e-12)


@given(SIZES)
def test_fits_run_from_press_to_easy_running(size: float) -> None:
    fits = {limits.fit: limits for limits in list_fits_of(size)}
    order = [fits[name].least_clearance for name in ("H7/p6", "H7/h6", "H7/g6", "H7/f7")]
    assert order == sorted(order)
    assert fits["H8/f7"].most_clearance > fits["H7/f7"].most_clearance


@given(SIZES, SIZES, st.sampled_from(list(PURPOSES)))
def test_a_larger_size_never_has_closer_limits(one: float, other: float, fit: str) -> None:
    small, large = (find_fit(size, fit) for size in sorted((one, other)))
    assert large.hole[1] - large.hole[0] >= small.hole[1] - small.hole[0] - 1e-12


@given(SIZES, st.floats(-40e-6, 80e-6))
def test_a_chosen_fit_gives_the_clearance_and_no_other_does(size: float, clearance: float) -> None:
    chosen = {limits.fit for limits in choose_fits(size, clearance)}
    for limits in list_fits_of(size):
        assert (limits.least_clearance <= clearance <= limits.most_clearance) == (limits.fit in chosen)


@given(st.floats(0.5e-3, 50e-3), st.floats(-50e-6, 300e-6), st.floats(0, 100e-6))
def test_more_clearance_is_never_judged_tighter(diameter: float, clearance: float, more: float) -> None:
    order = ["press fit", "too tight", "fine", "at the limit", "worn"]
    one, other = (judge_clearance(found, diameter=diameter).verdict for found in (clearance, clearance + more))
    assert order.index(one) <= order.index(other)
    assert judge_clearance(list_clearances(diameter)[0].clearance, diameter=diameter).verdict == "fine"


@given(
    SIZES, st.sampled_from(["H7", "H8"]), st.sampled_from(["h6", "g6", "f7", "p6"]), st.floats(0, 1), st.floats(0, 1)
)
def test_what_is_made_inside_its_limits_is_found_inside_them(
    size: float, hole: str, pin: str, at: float, other: float
) -> None:
    holes = find_fit(size, "H7/f7" if hole == "H7" else "H8/f7").hole
    pins = find_fit(size, f"H7/{pin}").shaft
    pair = judge_pair(holes[0] + at * (holes[1] - holes[0]), pins[0] + other * (pins[1] - pins[0]), size=size)
    assert hole in pair.hole_inside
    assert pin in pair.pin_inside


@given(st.integers(2, 58), st.sampled_from(["g6", "f7"]), st.floats(0, 1), st.floats(0, 1))
def test_the_size_of_a_new_pair_lies_between_the_two(halves: int, pin: str, at: float, other: float) -> None:
    size = 0.5e-3 * halves
    hole, shaft = find_fit(size, f"H7/{pin}").hole, find_fit(size, f"H7/{pin}").shaft
    across, thick = hole[0] + at * (hole[1] - hole[0]), shaft[0] + other * (shaft[1] - shaft[0])
    assert name_nominal(across, thick) == f"{0.5 * halves:g} mm"


@given(FORCES, SPANS, FACTORS)
def test_stresses_and_pressures_are_linear_in_the_load(load: float, span: Span, factor: float) -> None:
    for stress in (
        lambda force: find_shear_stress(force, diameter=span.diameter, planes=span.planes),
        lambda force: find_bending_stress(force, span),
        lambda force: find_bearing_pressure(force, diameter=span.diameter, length=span.moving_part),
    ):
        assert stress(factor * load) == pytest.approx(factor * stress(load))


@given(FORCES, SPANS, FACTORS)
def test_everything_larger_by_a_factor_is_stressed_less_by_its_square(load: float, span: Span, factor: float) -> None:
    larger = Span(
        diameter=factor * span.diameter,
        moving_part=factor * span.moving_part,
        gap=factor * span.gap,
        cheek=factor * span.cheek,
        planes=span.planes,
    )
    assert find_bending_stress(load, larger) == pytest.approx(find_bending_stress(load, span) / factor**2)


@given(FORCES, LENGTHS)
def test_two_planes_halve_the_shear(load: float, diameter: float) -> None:
    double = find_shear_stress(load, diameter=diameter)
    assert find_shear_stress(load, diameter=diameter, planes=1) == pytest.approx(2 * double)


@given(LENGTHS, LENGTHS)
def test_only_a_shank_longer_than_the_part_is_right(plain: float, part: float) -> None:
    verdict = judge_thread_in_bearing(plain, part)
    assert verdict.thread_inside == pytest.approx(max(0.0, part - plain), abs=1.1e-6)
    if plain >= verdict.wanted[0]:
        assert plain > part
    assert bool(verdict.reasons) == (verdict.thread_inside > 0)


@given(st.floats(0.3e-3, 29e-3))
def test_a_reamed_hole_is_no_smaller_than_the_worn_one(hole: float) -> None:
    size = choose_shank_diameter(pin=None, hole=hole)
    assert find_fit(size, "H7/f7").hole[1] >= hole - 1e-9
    assert size - hole <= 0.5e-3 + 1e-9
    assert (2e3 * size) % 1 == pytest.approx(0, abs=1e-9)


@given(JOINTS, SHEETS, PRESSURES)
def test_what_governs_is_the_larger_load(joint: Joint, sheet: GasketRow, pressure: float) -> None:
    loads = find_joint_loads(joint, sheet, pressure=pressure)
    assert loads.needed == max(loads.seating, loads.operating)
    assert (loads.governs == "seating the joint") == (loads.seating >= loads.operating)
    assert loads.pressure <= loads.operating
    assert loads.pressure == pytest.approx(pressure * pi / 4 * joint.outside**2)
    # The code's half width never asks more than the whole.
    assert loads.half_width <= loads.needed * (1 + 1e-9)


@given(JOINTS, SHEETS, PRESSURES, FACTORS)
def test_loads_go_with_pressure_and_with_the_square_of_size(
    joint: Joint, sheet: GasketRow, pressure: float, factor: float
) -> None:
    base = find_joint_loads(joint, sheet, pressure=pressure)
    pressed = find_joint_loads(joint, sheet, pressure=factor * pressure)
    assert pressed.operating == pytest.approx(factor * base.operating)
    assert pressed.seating == base.seating
    larger = find_joint_loads(
        Joint(factor * joint.bore, factor * joint.outside),
        sheet,
        pressure=pressure,
    )
    assert larger.operating == pytest.approx(factor**2 * base.operating)
    assert larger.seating == pytest.approx(factor**2 * base.seating)


@given(LENGTHS, SHEETS, PRESSURES, st.floats(10, 20_000))
def test_the_widest_joint_is_bedded_and_a_wider_one_is_not(
    bore: float, sheet: GasketRow, pressure: float, load: float
) -> None:
    ring = find_widest_joint(bore, sheet, pressure=pressure, load=load)
    if ring is None:
        narrow = Joint(bore, bore + 1e-3)
        assert find_joint_loads(narrow, sheet, pressure=pressure).needed > load
        return
    assert find_joint_loads(ring, sheet, pressure=pressure).needed <= load
    if ring.width < 0.999 * bore:
        wider = Joint(bore, ring.outside + 0.2e-3)
        assert find_joint_loads(wider, sheet, pressure=pressure).needed > load


@given(THREADS, FORCES, st.sampled_from(["dry", "oiled"]), st.sampled_from(["steel", "brass"]))
def test_the_torque_of_a_pull_gives_that_pull(thread: ThreadRow, pull: float, condition: str, metal: str) -> None:
    stud = load_stud(thread, pull, metal=metal, condition=condition)
    back = load_stud_by_torque(thread, stud.torque, metal=metal, condition=condition)
    assert (back.pull, back.stress, back.share) == pytest.approx((stud.pull, stud.stress, stud.share))
    assert back.is_past_proof == (back.stress > back.proof)


@given(st.integers(1, 60))
def test_the_order_visits_each_stud_once(count: int) -> None:
    assert sorted(order_studs(count)) == list(range(1, count + 1))


@given(st.integers(1, 30))
def test_an_even_number_goes_by_opposite_pairs(half: int) -> None:
    order = order_studs(2 * half)
    for first, second in zip(order[::2], order[1::2], strict=True):
        assert abs(first - second) == half


@given(st.integers(2, 30))
def test_an_odd_number_steps_to_just_short_of_opposite(half: int) -> None:
    count = 2 * half + 1
    order = order_studs(count)
    assert all((after - before) % count == half for before, after in pairwise(order))


@given(LENGTHS, st.integers(2, 60))
def test_all_chords_together_are_shorter_than_the_circle(circle: float, count: int) -> None:
    chord = find_chord(circle, count)
    assert count * chord < pi * circle
    assert find_chord(circle, count + 1) < chord
