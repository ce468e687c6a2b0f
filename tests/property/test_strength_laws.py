"""Laws of the strength of threads, of re-threading and of what a grub screw holds."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from lapwright.tables.materials import list_metals
from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop.holding import POINTS, Clamp, measure_grip, plan_holding
from lapwright.workshop.rethread_choice import Hole
from lapwright.workshop.rethread_plan import plan_rethread
from lapwright.workshop.rethread_steps import BUSH, DRILLED, FRESH, INSERT, STRAIGHT
from lapwright.workshop.rethreading import describe_rethread, list_successors
from lapwright.workshop.screws import COEFFICIENTS, SCREWS
from lapwright.workshop.strength import (
    USEFUL,
    hole_shear_area,
    hole_strip_force,
    screw_shear_area,
    screw_strip_force,
    stress_area,
)
from lapwright.workshop.tightening import find_tightening

THREADS = [row for row in list_threads() if row.series != "BSP"]
threads = st.sampled_from(THREADS)
metals = st.sampled_from(sorted(list_metals()))
shares = st.floats(0.05, 1.0)
#: Grub screws that the tables and their neighbours hold.
grubs = st.sampled_from([row for row in THREADS if 1.6e-3 <= row.major <= 10e-3])


def scale(row: ThreadRow, times: float) -> ThreadRow:
    """A thread of the same shape, larger or smaller."""
    return replace(
        row,
        major=row.major * times,
        pitch=row.pitch * times,
        effective=row.effective * times,
        minor=row.minor * times,
        minor_external=row.minor_external * times,
        tapping_drill=None if row.tapping_drill is None else row.tapping_drill * times,
    )


@given(threads, st.floats(0.2, 5.0))
def test_areas_grow_with_the_square_of_the_size(row: ThreadRow, times: float) -> None:
    large = scale(row, times)
    assert stress_area(large) == pytest.approx(times**2 * stress_area(row))
    for area in (hole_shear_area, screw_shear_area):
        assert area(large, times * 3e-3) == pytest.approx(times**2 * area(row, 3e-3))


@given(threads)
def test_a_screw_breaks_between_its_root_and_its_effective_diameter(row: ThreadRow) -> None:
    across = (stress_area(row) / 0.7853981634) ** 0.5
    assert row.minor_external * 0.98 < across < row.effective


@given(threads, shares, st.floats(1.0, 3.0))
def test_what_strips_a_thread_is_linear_in_its_length_as_far_as_it_is_counted(
    row: ThreadRow, share: float, times: float
) -> None:
    length = share * USEFUL * row.major
    assume(times * length <= USEFUL * row.major)
    for strip in (hole_strip_force, screw_strip_force):
        assert strip(row, times * length, shear=2e8) == pytest.approx(times * strip(row, length, shear=2e8))
        full = strip(row, USEFUL * row.major, shear=2e8)
        assert strip(row, 5 * row.major, shear=2e8) == full
        assert strip(row, length, shear=2e8, worn=True) == pytest.approx(strip(row, length, shear=2e8) / 2)


@given(threads, shares, shares)
def test_a_wider_bore_weakens_the_thread_of_the_screw(row: ThreadRow, first: float, second: float) -> None:
    narrow, wide = sorted(row.minor + share * (row.major - row.minor) for share in (first, second))
    assert screw_shear_area(row, 1e-3, bore=wide) <= screw_shear_area(row, 1e-3, bore=narrow) * (1 + 1e-12)


@given(threads, threads, st.booleans())
def test_the_worst_place_is_never_better_than_the_mean(old: ThreadRow, new: ThreadRow, stripped: bool) -> None:
    assume(new.major > old.major + 1e-6)
    up = describe_rethread(old, new, stripped=stripped)
    assert 0 <= up.worst <= up.mean <= 1
    assert 0 <= up.drilled_worst <= up.drilled_mean <= 1
    assert up.drilled_worst <= up.worst + 1e-12
    assert up.drilled_mean <= up.mean + 1e-12
    if up.cleans_up:
        assert up.drilled_worst == up.drilled_mean


@given(threads, threads, st.floats(1.0, 1.5), st.booleans())
def test_a_larger_new_thread_of_one_pitch_leaves_more(
    old: ThreadRow, new: ThreadRow, times: float, stripped: bool
) -> None:
    assume(new.major > old.major + 1e-6)
    grown = (times - 1) * new.major
    larger = replace(
        new,
        major=new.major + grown,
        effective=new.effective + grown,
        minor=new.minor + grown,
        minor_external=new.minor_external + grown,
    )
    small, large = (describe_rethread(old, row, stripped=stripped) for row in (new, larger))
    assert large.worst >= small.worst - 1e-12
    assert large.mean >= large.worst


@given(threads, threads)
def test_two_helices_meet_again_after_a_whole_number_of_turns_more_of_the_finer(old: ThreadRow, new: ThreadRow) -> None:
    assume(new.major > old.major + 1e-6)
    beat = describe_rethread(old, new).beat
    if beat is not None:
        assert abs(beat / old.pitch - beat / new.pitch) == pytest.approx(1.0)


@given(threads, st.floats(0.5e-3, 20e-3), st.booleans())
def test_successors_are_larger_once_each_and_those_with_too_little_wall_last(
    old: ThreadRow, wall: float, stripped: bool
) -> None:
    ups = list_successors(old, wall=wall, stripped=stripped)
    assert all(up.new.major > old.major for up in ups)
    assert len({up.new.name for up in ups}) == len(ups)
    allowed = [bool(up.wall_allows) for up in ups]
    assert allowed == sorted(allowed, reverse=True)


@given(threads, metals, st.floats(0.2e-3, 20e-3) | st.none(), st.floats(0.5e-3, 20e-3) | st.none(), st.booleans())
def test_every_hole_has_a_plan_that_keeps_to_its_wall(
    old: ThreadRow, metal: str, depth: float | None, wall: float | None, stripped: bool
) -> None:
    assume(old.major < 20e-3)
    plan = plan_rethread(Hole(thread=old, metal=metal, depth=depth, wall=wall, stripped=stripped))
    assert plan.choice in (STRAIGHT, DRILLED, INSERT, BUSH, FRESH)
    assert plan.steps
    assert plan.have_ready
    assert plan.sources
    if plan.rethread:
        assert plan.rethread.wall_allows is not False
        assert plan.rethread.cleans_up or plan.rethread.counted >= 0.5


@given(threads, metals, st.sampled_from(sorted(SCREWS)), st.sampled_from(sorted(COEFFICIENTS)), st.floats(0.1, 3.0))
def test_a_safe_torque_stays_under_everything_that_gives_way(
    row: ThreadRow, metal: str, screw: str, condition: str, diameters: float
) -> None:
    held = find_tightening(row, hole=metal, engagement=diameters * row.major, screw=screw, condition=condition)
    assert 0 < held.torque <= 0.75 * held.first.torque * (1 + 1e-12)
    assert all(held.torque <= limit.safe for limit in held.limits)
    assert held.needed_engagement == pytest.approx(2 * held.bare_engagement)
    worn = find_tightening(
        row, hole=metal, engagement=diameters * row.major, screw=screw, condition=condition, worn=True
    )
    assert worn.torque <= held.torque


@given(threads, metals, st.floats(0.1, 1.5))
def test_thrust_does_not_depend_on_what_is_between_the_threads_but_torque_does(
    row: ThreadRow, metal: str, diameters: float
) -> None:
    dry, oiled = (
        find_tightening(row, hole=metal, engagement=diameters * row.major, condition=condition)
        for condition in ("dry", "oiled")
    )
    assert oiled.thrust == pytest.approx(dry.thrust)
    assert oiled.torque == pytest.approx(0.75 * dry.torque)


@given(grubs, metals, st.floats(0.2, 1.5), st.sampled_from(sorted(POINTS)), st.floats(1.0, 4.0))
def test_what_a_grub_screw_holds_grows_with_the_shaft_and_never_beyond_its_full_seat(
    row: ThreadRow, metal: str, diameters: float, point: str, times: float
) -> None:
    clamp = Clamp(row=row, hub=metal, shaft=2 * row.major, engagement=diameters * row.major, point=point)
    grip, wide = measure_grip(clamp), measure_grip(replace(clamp, shaft=times * clamp.shaft))
    assert grip.seating <= grip.seat.torque
    assert grip.axial <= POINTS[point] * grip.seat.hold * (1 + 1e-12)
    assert wide.holds == pytest.approx(times * grip.holds)
    assert measure_grip(replace(clamp, worn=True)).holds <= grip.holds


@given(grubs, st.floats(0.001, 20.0))
def test_a_screw_is_enough_exactly_where_it_holds_four_times_a_reversing_torque(row: ThreadRow, torque: float) -> None:
    clamp = Clamp(row=row, hub="brass", shaft=2 * row.major, engagement=row.major)
    plan = plan_holding(clamp, torque=torque)
    assert plan.enough == (plan.grip.holds >= 4 * torque)
    if plan.larger:
        assert plan.larger.major > row.major
        assert measure_grip(replace(clamp, row=plan.larger)).holds >= 4 * torque
