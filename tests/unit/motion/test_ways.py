"""Openings for many angles at once: the same as one at a time, with corners exactly where they are said to be."""

from math import pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.engine.cylinder import ENDS, assemble_cylinder
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import exhaust_opening, set_moving, steam_opening
from lapwright.motion.regions import find_straight_region, middle_way
from lapwright.motion.ways import Openings, find_corners, measure_openings, place_piston, place_valve
from tests.property.coordinates import Floats, Layout
from tests.property.engines import any_engines

FACE = {"port_face.steam_port": 2.0, "port_face.bridge": 3.0, "port_face.exhaust_port": 4.0}
#: A corner turns the slope by at least this share of the valve's greatest speed; what is rounder is no corner.
TURNED = 1e-3

shares = st.lists(st.floats(-1.0, 1.0), min_size=1, max_size=20)


def reach(sizes: Sizes) -> float:
    """Half of how far the valve can be thought away from the face's centre [m]: past every edge."""
    layout = Layout(sizes)
    return float(layout.face[0] - layout.face[5] + layout.bars[0] - layout.bars[3])


@settings(max_examples=150)
@given(any_engines(), shares)
def test_openings_are_those_of_one_position_at_a_time(sizes: Sizes, places: list[float]) -> None:
    cylinder, positions = assemble_cylinder(sizes), reach(sizes) * np.array(places)
    ways = measure_openings(cylinder, positions)
    assert ways is not None
    for n, position in enumerate(positions):
        for end in ENDS:
            assert ways.steam[end][n] == pytest.approx(steam_opening(cylinder, end, position), abs=1e-15)
            assert ways.exhaust[end][n] == pytest.approx(exhaust_opening(cylinder, end, position), abs=1e-15)
        assert ways.middle[n] == pytest.approx(middle_way(cylinder, position), abs=1e-15)


@settings(max_examples=150)
@given(any_engines(), shares)
def test_the_middle_port_is_bare_by_what_the_valve_leaves_of_it(sizes: Sizes, places: list[float]) -> None:
    layout, positions = Layout(sizes), reach(sizes) * np.array(places)
    ways = measure_openings(assemble_cylinder(sizes), positions)
    assert ways is not None
    low, high = layout.face[3], layout.face[2]
    covered = np.minimum(positions + layout.bars[0], high) - np.maximum(positions + layout.bars[3], low)
    assert ways.straight == pytest.approx(high - low - np.clip(covered, 0.0, None), abs=1e-15)


@settings(max_examples=100)
@given(any_engines(), shares)
def test_where_the_middle_port_is_bare_steam_goes_straight_through(sizes: Sizes, places: list[float]) -> None:
    cylinder, positions = assemble_cylinder(sizes), reach(sizes) * np.array(places)
    ways, region = measure_openings(cylinder, positions), find_straight_region(cylinder)
    assert ways is not None
    assert region is not None
    for position in positions[ways.straight > 1e-9]:
        assert any(low <= position <= high for low, high in region)


def test_openings_by_whole_millimetres() -> None:
    """Ports from 5 to 7 either side, middle port from -2 to 2; the valve reaches 8 each way, its cavity 4."""
    valve = assemble_cylinder(Sizes("A", {**FACE, "valve.length": 16.0, "valve.cavity": 8.0}))
    ways = measure_openings(valve, np.array([-12.0, -4.0, -2.0, 0.0, 1.5, 3.0, 11.0]))
    assert ways is not None
    assert list(ways.steam["head"]) == [2.0, 2.0, 1.0, 0.0, 0.0, 0.0, 0.0]
    assert list(ways.steam["crank"]) == [0.0, 0.0, 0.0, 0.0, 0.5, 2.0, 2.0]
    assert list(ways.exhaust["head"]) == [0.0, 0.0, 0.0, 0.0, 0.5, 2.0, 0.0]
    assert list(ways.exhaust["crank"]) == [0.0, 2.0, 1.0, 0.0, 0.0, 0.0, 0.0]
    assert list(ways.straight) == [4.0, 0.0, 0.0, 0.0, 0.0, 0.0, 4.0]
    assert list(ways.middle) == [0.0, 2.0, 4.0, 4.0, 4.0, 3.0, 0.0]


def test_inside_admission_exchanges_steam_and_exhaust_and_leaves_the_middle_port() -> None:
    sizes = Sizes("A", {**FACE, "valve.length": 16.0, "valve.cavity": 8.0})
    inner = Sizes("A", sizes.numbers, kind="piston", admission="inside")
    places = np.linspace(-15.0, 15.0, 61)
    outside, inside = (measure_openings(assemble_cylinder(each), places) for each in (sizes, inner))
    assert outside is not None
    assert inside is not None
    for end in ENDS:
        assert np.array_equal(outside.steam[end], inside.exhaust[end])
        assert np.array_equal(outside.exhaust[end], inside.steam[end])
    assert np.array_equal(outside.straight, inside.straight)
    assert np.array_equal(outside.middle, inside.middle)


@pytest.mark.parametrize("left_out", ["port_face.bridge", "valve.length", "valve.cavity"])
def test_without_a_size_the_openings_are_not_known(left_out: str) -> None:
    known = {**FACE, "valve.length": 16.0, "valve.cavity": 8.0, "valve_drive.throw": 1.0}
    known |= {"valve_drive.eccentric_rod": 30.0, "valve_drive.eccentric_angle": 1.6}
    sizes = Sizes("A", {key: value for key, value in known.items() if key != left_out})
    assert measure_openings(assemble_cylinder(sizes), np.zeros(1)) is None
    assert find_corners(set_moving(sizes)) is None


@settings(max_examples=100)
@given(any_engines(), st.lists(st.floats(0.0, 2 * pi), min_size=1, max_size=20))
def test_piston_and_valve_stand_where_pins_and_rods_put_them(sizes: Sizes, angles: list[float]) -> None:
    layout, moving, turned = Layout(sizes), set_moving(sizes), np.array(angles)
    assert moving.piston is not None
    assert moving.valve is not None
    stroke, throw = sizes.numbers["stroke"], sizes.numbers["valve_drive.throw"]
    gone, _ = place_piston(moving.piston, turned)
    far = float(layout.piston(layout.piston_turns[0]))
    assert gone == pytest.approx(far - layout.piston(turned), abs=1e-12 * stroke)
    assert place_valve(moving.valve, turned) == pytest.approx(layout.valve(turned), abs=1e-12 * throw)


@settings(max_examples=100)
@given(any_engines(), st.lists(st.floats(0.0, 2 * pi), min_size=1, max_size=20))
def test_the_speed_is_the_derivative_of_the_place(sizes: Sizes, angles: list[float]) -> None:
    moving, turned, nudge = set_moving(sizes), np.array(angles), 1e-4
    assert moving.piston is not None
    ahead, behind = (place_piston(moving.piston, turned + step)[0] for step in (nudge, -nudge))
    _, speed = place_piston(moving.piston, turned)
    assert speed == pytest.approx((ahead - behind) / (2 * nudge), abs=1e-7 * sizes.numbers["stroke"])


def stack(ways: Openings) -> Floats:
    """Every opening as one row."""
    return np.array([*ways.steam.values(), *ways.exhaust.values(), ways.straight, ways.middle])


def find_turns(sizes: Sizes, places: Floats, nudge: float) -> Floats:
    """By how much the slope of any opening against the valve's place changes across each place: a second difference."""
    cylinder = assemble_cylinder(sizes)
    below, here, above = (measure_openings(cylinder, places + step) for step in (-nudge, 0.0, nudge))
    assert below is not None
    assert here is not None
    assert above is not None
    return np.asarray(np.abs(stack(above) - 2 * stack(here) + stack(below)).max(axis=0) / nudge)


@settings(max_examples=100)
@given(any_engines())
def test_every_corner_turns_the_slope_of_an_opening(sizes: Sizes) -> None:
    found, moving = find_corners(set_moving(sizes)), set_moving(sizes)
    assert found is not None
    assert moving.valve is not None
    corners, starts = found
    assert corners == sorted(corners)
    assert all(0.0 <= angle <= 2 * pi for angle in [*corners, *starts])
    turns = find_turns(sizes, place_valve(moving.valve, np.array(corners)), 1e-7 * moving.valve.travel)
    # Most corners are seen; one that lies behind a port already wide open, or covered, makes nothing turn.
    assert np.count_nonzero(turns > 0.5) >= len(set(starts))


@settings(max_examples=100)
@given(any_engines())
def test_between_the_corners_no_slope_turns(sizes: Sizes) -> None:
    """Looked for over the whole travel: wherever an opening's slope against the place turns, there is a corner."""
    moving = set_moving(sizes)
    found = find_corners(moving)
    assert found is not None
    assert moving.valve is not None
    valve = moving.valve
    step = valve.travel / 5000
    places = np.arange(valve.low + step, valve.high - step, step)
    turned = places[find_turns(sizes, places, step) > TURNED]
    known = place_valve(valve, np.array(found[0]))
    for place in turned:
        assert np.abs(known - place).min() < 1.01 * step


@settings(max_examples=100)
@given(any_engines())
def test_a_port_starts_to_open_where_it_is_said_to(sizes: Sizes) -> None:
    moving = set_moving(sizes)
    found, layout = find_corners(moving), Layout(sizes)
    assert found is not None
    assert moving.valve is not None
    sought = [opens for end in ENDS for to in ("steam", "exhaust") for opens in layout.changes(end, to)[0]]
    assert len(found[1]) == len(sought)
    assert np.degrees(found[1]) % 360 == pytest.approx(sorted(sought), abs=1e-5)
    ways = measure_openings(moving.cylinder, place_valve(moving.valve, np.array(found[1])))
    assert ways is not None
    least = np.min([*ways.steam.values(), *ways.exhaust.values()], axis=0)
    assert least == pytest.approx(0.0, abs=1e-15 + 1e-12 * moving.valve.travel)
