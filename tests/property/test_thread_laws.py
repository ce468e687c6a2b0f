"""Laws of threads and drills, over every thread of the tables."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.tables.threads import list_threads
from lapwright.workshop.drawers import DRAWERS, find_neighbours, open_drawers
from lapwright.workshop.forms import find_hole, measure_engagement
from lapwright.workshop.identify import PITCH_SHARE, Measured, identify_thread
from lapwright.workshop.matching import match_threads
from lapwright.workshop.tapping import advise_tapping
from lapwright.workshop.tapping_hole import customary_basis

THREADS = list_threads()
threads = st.sampled_from(THREADS)
shares = st.floats(0.0, 1.0)


@given(thread=threads, share=shares, customary=st.booleans())
def test_find_hole_undoes_measure_engagement(thread, share: float, *, customary: bool) -> None:
    basis = customary_basis(thread) if customary else "own"
    hole = find_hole(thread, share, basis=basis)
    assert measure_engagement(thread, hole, basis=basis) == pytest.approx(share, abs=1e-9)


@given(threads, shares, shares)
def test_a_larger_hole_leaves_less_thread(thread, one: float, other: float) -> None:
    small, large = sorted(thread.minor + part * (thread.major - thread.minor) for part in (one, other))
    assert measure_engagement(thread, small) >= measure_engagement(thread, large)


@given(threads, st.floats(0.0, 1.0))
def test_a_hole_as_wide_as_the_screw_leaves_nothing_and_the_core_leaves_all(thread, more: float) -> None:
    assert measure_engagement(thread, thread.major * (1 + more)) == 0
    assert measure_engagement(thread, thread.minor) == pytest.approx(1.0, abs=4e-3)


@given(threads, st.floats(0.1, 1.0), st.sampled_from(list(DRAWERS)))
def test_the_drills_next_to_the_ideal_lie_on_either_side(thread, share: float, drawers: str) -> None:
    advice = advise_tapping(thread, engagement=share, drawers=drawers)
    if advice.under is not None:
        assert advice.under.engagement >= share - 2e-2
    if advice.over is not None:
        assert advice.over.diameter > advice.ideal
    if advice.under and advice.over:
        between = [d for d in open_drawers(drawers) if advice.under.diameter < d.diameter < advice.over.diameter]
        assert between == []


@given(st.floats(0.2e-3, 27e-3), st.sampled_from(list(DRAWERS)))
def test_neighbours_are_neighbours(diameter: float, drawers: str) -> None:
    under, over = find_neighbours(diameter, drawers=drawers)
    drills = open_drawers(drawers)
    if under and over:
        assert drills.index(over) == drills.index(under) + 1
    assert under is None or under.diameter <= diameter + 2.1e-6
    assert over is None or over.diameter > diameter


@given(thread=threads, is_hole=st.booleans())
def test_every_thread_is_known_by_its_own_sizes(thread, *, is_hole: bool) -> None:
    diameter = thread.minor if is_hole else thread.major
    found = identify_thread(
        Measured(
            diameter=diameter,
            diameter_doubt=3e-5,
            pitch=thread.pitch,
            pitch_doubt=PITCH_SHARE * thread.pitch,
            is_hole=is_hole,
        )
    )
    # Another thread of the same diameter and pitch may stand beside it: the flanks part them, not the caliper.
    even = [each.thread for each in found.candidates if each.distance == pytest.approx(0.0, abs=1e-9)]
    assert thread.name in {name for each in even for name in (each.name, *each.twins)}
    assert found.candidates[0].distance == pytest.approx(0.0, abs=1e-9)


@given(threads, st.floats(-0.15, 0.0), st.floats(-0.01, 0.01))
def test_a_screw_within_its_limits_is_among_the_likely(thread, thin: float, pitch_error: float) -> None:
    found = identify_thread(
        Measured(
            diameter=thread.major + thin * thread.pitch,
            diameter_doubt=3e-5,
            pitch=thread.pitch * (1 + pitch_error),
            pitch_doubt=PITCH_SHARE * thread.pitch,
        )
    )
    distances = [candidate.distance for candidate in found.candidates]
    assert distances == sorted(distances)
    assert distances[0] < 2
    assert thread.name in {n for each in found.candidates for n in (each.thread.name, *each.thread.twins)}


@given(threads)
def test_a_screw_fits_its_own_hole(thread) -> None:
    match = match_threads(thread, thread)
    assert match.verdict == "own"
    assert match.play > 0
    assert match.turns == inf
    # The two minors of a 60 degree thread are not the same; the hole's is the deeper one to reach.
    assert match.depth == pytest.approx(1.0, abs=1e-9)


@given(threads, threads)
def test_a_screw_much_thicker_never_enters_and_one_that_enters_has_thread_to_hold_by(screw, hole) -> None:
    match = match_threads(screw, hole)
    if screw.major > hole.major + 0.5 * hole.pitch:
        assert not match.enters
    if match.enters and match.verdict != "own":
        assert match.depth >= 0.25
        assert match.play >= 0
    assert (match.turns == inf) == (abs(screw.pitch - hole.pitch) < 1e-9 * hole.pitch)
