"""Openings, ways and straight passages against looking at the valve ten thousand times a turn."""

import numpy as np
import pytest
from hypothesis import given, settings

from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import describe_motion, exhaust_opening, set_moving, steam_opening
from tests.property.coordinates import SIDE, Floats, Layout
from tests.property.engines import any_engines, sound_engines

LOOKS = 10_000
#: Looked at half-way between steps, so that no look falls on a dead centre.
ANGLES: Floats = (np.arange(LOOKS) + 0.5) * 2 * np.pi / LOOKS
STEP_DEG = 360 / LOOKS


def covered(low: Floats | float, high: Floats | float, *, over: tuple[float, float]) -> Floats:
    """How much of a port (lower, upper edge) a stretch covers."""
    return np.clip(np.minimum(high, over[1]) - np.maximum(low, over[0]), 0, None)


def openings(layout: Layout, end: str) -> tuple[Floats, Floats]:
    """How far the end's port is open outside the valve, and how far to the cavity, at every look."""
    valve, port = layout.valve(ANGLES), layout.port(end)
    outside = port[1] - port[0] - covered(valve + layout.bars[3], valve + layout.bars[0], over=port)
    return outside, covered(valve + layout.bars[2], valve + layout.bars[1], over=port)


def middle_ways(layout: Layout) -> Floats:
    """How much of the middle port lies under the cavity at every look."""
    valve = layout.valve(ANGLES)
    return covered(valve + layout.bars[2], valve + layout.bars[1], over=(layout.face[3], layout.face[2]))


def fastest_step(sizes: Sizes) -> float:
    """The most that the valve can move from one look to the next [mm]."""
    return 2 * np.pi / LOOKS * 1.5 * sizes.numbers["valve_drive.throw"] * 1e3


@settings(max_examples=100, deadline=None)
@given(any_engines())
def test_the_sum_of_the_straight_ways_to_exhaust(sizes: Sizes) -> None:
    looked = np.count_nonzero(Layout(sizes).straight_way(ANGLES)) * STEP_DEG
    # Up to twelve edges pass in a turn, each between two looks.
    assert describe_motion(sizes).chest_to_exhaust_deg == pytest.approx(looked, abs=12 * STEP_DEG)


@settings(max_examples=50, deadline=None)
@given(sound_engines())
def test_a_sound_engine_has_no_straight_way(sizes: Sizes) -> None:
    # With no lap at all one edge takes over from the other at the same angle, give or take a rounding.
    assert describe_motion(sizes).chest_to_exhaust_deg == pytest.approx(0, abs=1e-6)


@settings(max_examples=100, deadline=None)
@given(any_engines())
def test_the_parts_of_a_turn_for_which_each_port_is_open(sizes: Sizes) -> None:
    layout, motion = Layout(sizes), describe_motion(sizes)
    for end in SIDE:
        for side, opening, closing in (("steam", "admission", "cut_off"), ("exhaust", "release", "compression")):
            looked = np.count_nonzero(layout.is_open(end, side, ANGLES)) * STEP_DEG
            opens, shuts = (motion.ends[end].events[event].crank_deg or () for event in (opening, closing))
            assert len(opens) == len(shuts)
            sums = (sum(shuts) - sum(opens)) % 360
            if opens:
                assert abs((sums - looked + 180) % 360 - 180) < 4 * STEP_DEG
            else:
                assert min(looked, 360 - looked) < STEP_DEG * LOOKS * 1e-3


@settings(max_examples=100, deadline=None)
@given(any_engines())
def test_the_openings_all_round_the_turn(sizes: Sizes) -> None:
    layout, moving = Layout(sizes), set_moving(sizes)
    assert moving.valve is not None
    for end in SIDE:
        outside, cavity = openings(layout, end)
        steam, exhaust = (outside, cavity) if sizes.admission == "outside" else (cavity, outside)
        for look in range(0, LOOKS, 250):
            place = moving.valve.position(float(ANGLES[look]))
            assert steam_opening(moving.cylinder, end, place) == pytest.approx(steam[look], abs=1e-12)
            assert exhaust_opening(moving.cylinder, end, place) == pytest.approx(exhaust[look], abs=1e-12)


@settings(max_examples=100, deadline=None)
@given(any_engines())
def test_the_greatest_openings(sizes: Sizes) -> None:
    layout, motion = Layout(sizes), describe_motion(sizes)
    for end in SIDE:
        outside, cavity = (1e3 * float(opening.max()) for opening in openings(layout, end))
        steam, exhaust = (outside, cavity) if sizes.admission == "outside" else (cavity, outside)
        found = motion.ends[end]
        assert found.greatest_steam_opening_mm == pytest.approx(steam, abs=fastest_step(sizes))
        assert found.greatest_exhaust_opening_mm == pytest.approx(exhaust, abs=fastest_step(sizes))


@settings(max_examples=100, deadline=None)
@given(any_engines())
def test_the_narrowest_way_through_the_middle_port(sizes: Sizes) -> None:
    layout, motion = Layout(sizes), describe_motion(sizes)
    open_to_cavity = np.logical_or.reduce([openings(layout, end)[1] > 0 for end in SIDE])
    ways = middle_ways(layout)[open_to_cavity]
    found = motion.least_exhaust_way_mm if sizes.admission == "outside" else motion.least_inlet_way_mm
    if ways.size == 0:
        assert found is None
    else:
        assert found == pytest.approx(1e3 * float(ways.min()), abs=fastest_step(sizes))


@settings(max_examples=50, deadline=None)
@given(sound_engines())
def test_the_room_left_in_the_chest(sizes: Sizes) -> None:
    layout, motion = Layout(sizes), describe_motion(sizes)
    valve = layout.valve(ANGLES)
    reach = {"head": float(valve.max()) + layout.bars[0], "crank": -(float(valve.min()) + layout.bars[3])}
    for end, farthest in reach.items():
        wall = sizes.numbers[f"port_face.chest_{end}"]
        assert motion.chest_room_mm[end] == pytest.approx(1e3 * (wall - farthest), abs=fastest_step(sizes))


def test_a_valve_run_past_its_port_uncovers_it_twice_a_turn() -> None:
    """A short valve on a long throw: the far end of the valve opens the same port once more."""
    numbers = {
        "port_face.steam_port": 0.002,
        "port_face.bridge": 0.001,
        "port_face.exhaust_port": 0.002,
        "valve.length": 0.006,
        "valve.cavity": 0.002,
        "valve_drive.throw": 0.009,
        "valve_drive.eccentric_rod": 0.12,
        "valve_drive.eccentric_angle": 1.6,
        "stroke": 0.02,
        "connecting_rod": 0.05,
    }
    motion, layout = describe_motion(Sizes("A", numbers)), Layout(Sizes("A", numbers))
    head = motion.ends["head"].events
    opens, shuts = layout.changes("head", "steam")
    assert len(opens) == 2
    assert head["admission"].crank_deg == pytest.approx(sorted(opens))
    assert head["cut_off"].crank_deg == pytest.approx(sorted(shuts))
    looked = np.count_nonzero(layout.straight_way(ANGLES)) * STEP_DEG
    assert looked > 90
    assert motion.chest_to_exhaust_deg == pytest.approx(looked, abs=12 * STEP_DEG)
