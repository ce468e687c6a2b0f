"""Event angles and stroke shares against a general root finder on coordinates written afresh."""

from math import radians, sqrt

import pytest
from hypothesis import given, settings

from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import EventTimes, describe_motion
from tests.property.coordinates import Layout
from tests.property.engines import any_engines, sound_engines

SIDES = {"steam": ("admission", "cut_off"), "exhaust": ("release", "compression")}
#: An event that the valve reaches only with the last millionth of its travel is left out: it may as well not happen.
GRAZE = 1e-6


def angular_gap(one: float, other: float) -> float:
    """How far two crank angles lie apart [deg]."""
    return abs((one - other + 180) % 360 - 180)


def steepness(layout: Layout, angle_deg: float) -> float:
    """How fast the valve moves at an angle, against its fastest: 0 where it turns round."""
    top, bottom = (float(layout.valve(turn)) for turn in layout.valve_turns)
    from_middle = (2 * float(layout.valve(radians(angle_deg))) - top - bottom) / (top - bottom)
    return sqrt(max(1 - from_middle**2, 0))


def assert_same_angles(layout: Layout, found: tuple[float, ...] | None, sought: list[float]) -> None:
    """Compare the angles that are no graze; a rounding of the valve's place weighs more where the valve is slow."""
    plain = [angle for angle in sought if steepness(layout, angle) > sqrt(2 * GRAZE)]
    ours = [angle for angle in found or () if steepness(layout, angle) > sqrt(2 * GRAZE)]
    assert len(ours) == len(plain)
    for angle in plain:
        nearest = min(angular_gap(angle, other) for other in ours)
        assert nearest < 1e-9 * max(1.0, 0.01 / steepness(layout, angle))


def assert_agrees(sizes: Sizes) -> None:
    layout, motion = Layout(sizes), describe_motion(sizes)
    for end, answers in motion.ends.items():
        for side, (opening, closing) in SIDES.items():
            opens, shuts = layout.changes(end, side)
            assert_same_angles(layout, answers.events[opening].crank_deg, opens)
            assert_same_angles(layout, answers.events[closing].crank_deg, shuts)
        for event in answers.events.values():
            assert_shares(layout, end, event)


def assert_shares(layout: Layout, end: str, event: EventTimes) -> None:
    for angle, percent in zip(event.crank_deg or (), event.stroke_percent or (), strict=True):
        assert percent == pytest.approx(100 * layout.share_of_stroke(end, radians(angle)), abs=1e-9)


@settings(max_examples=150, deadline=None)
@given(any_engines())
def test_any_engine_agrees_with_the_root_finder_to_a_thousand_millionth_of_a_degree(sizes: Sizes) -> None:
    assert_agrees(sizes)


@settings(max_examples=50, deadline=None)
@given(sound_engines())
def test_sound_engines_agree_too_and_have_one_of_each_event(sizes: Sizes) -> None:
    assert_agrees(sizes)
    for answers in describe_motion(sizes).ends.values():
        assert all(len(event.crank_deg or ()) == 1 for event in answers.events.values())


@settings(max_examples=100, deadline=None)
@given(any_engines())
def test_dead_centres_and_lead_agree(sizes: Sizes) -> None:
    layout, motion = Layout(sizes), describe_motion(sizes)
    for end, dead_centre in zip(("head", "crank"), layout.piston_turns, strict=True):
        steam_is_outside = sizes.admission == "outside"
        gaps = (layout.outside_gaps if steam_is_outside else layout.cavity_gaps)(end, dead_centre)
        low, high = layout.port(end)
        near = 0 if end == "head" else 1
        # For the cavity the gap that opens the port first is the one past its inner edge.
        gap = float(gaps[near])
        lead = motion.ends[end].lead_mm
        assert lead == pytest.approx(1e3 * min(gap, high - low), abs=1e-6 * 1e3 * (high - low))
