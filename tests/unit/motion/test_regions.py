"""Where the valve must stand for a port to be open, by whole millimetres."""

from math import inf

import pytest

from lapwright.engine.cylinder import Cylinder, assemble_cylinder
from lapwright.engine.sizes import Sizes
from lapwright.motion.regions import (
    cavity_opening,
    find_bare_middle_region,
    find_exhaust_region,
    find_steam_region,
    find_straight_region,
    meet_regions,
    merge_stretches,
    middle_way,
    outer_opening,
)

FACE = {"port_face.steam_port": 2.0, "port_face.bridge": 3.0, "port_face.exhaust_port": 4.0}


def cylinder(length: float, cavity: float, admission: str = "outside") -> Cylinder:
    """Ports from 5 to 7 on either side of the centre, middle port from -2 to 2, whole lengths for easy sums."""
    return assemble_cylinder(Sizes("A", {**FACE, "valve.length": length, "valve.cavity": cavity}, admission=admission))


def test_stretches_that_touch_or_overlap_become_one_and_empty_ones_go() -> None:
    assert merge_stretches(((3.0, 5.0), (0.0, 1.0), (1.0, 2.0), (4.0, 4.0))) == ((0.0, 2.0), (3.0, 5.0))
    assert merge_stretches(((0.0, 9.0), (2.0, 3.0))) == ((0.0, 9.0),)


def test_regions_meet_where_both_hold() -> None:
    assert meet_regions(((0.0, 2.0), (4.0, 6.0)), ((1.0, 5.0),)) == ((1.0, 2.0), (4.0, 5.0))
    assert meet_regions(((0.0, 1.0),), ((2.0, 3.0),)) == ()


def test_steam_enters_past_the_near_edge_and_again_past_the_far_edge() -> None:
    valve = cylinder(16.0, 10.0)
    assert find_steam_region(valve, "head") == ((-inf, -1.0), (13.0, inf))
    assert find_steam_region(valve, "crank") == ((-inf, -13.0), (1.0, inf))


def test_exhaust_leaves_while_the_cavity_reaches_the_port() -> None:
    valve = cylinder(16.0, 8.0)
    assert find_exhaust_region(valve, "head") == ((1.0, 11.0),)
    assert find_exhaust_region(valve, "crank") == ((-11.0, -1.0),)


def test_inside_admission_exchanges_the_two_spaces() -> None:
    outside, inside = cylinder(16.0, 8.0), cylinder(16.0, 8.0, "inside")
    for end in ("head", "crank"):
        assert find_steam_region(inside, end) == find_exhaust_region(outside, end)
        assert find_exhaust_region(inside, end) == find_steam_region(outside, end)


def test_the_middle_port_is_bare_where_the_valve_has_run_past_it() -> None:
    assert find_bare_middle_region(cylinder(16.0, 10.0)) == ((-inf, -6.0), (6.0, inf))


@pytest.mark.parametrize(
    ("length", "cavity", "straight"),
    [
        # Covering laps: only far past its ports does the valve let steam by.
        (16.0, 8.0, ((-inf, -6.0), (6.0, inf))),
        # Shorter than the ports and hollow past the bridges: open at mid-travel through both ports.
        (13.0, 11.0, ((-inf, -4.5), (-0.5, 0.5), (4.5, inf))),
        # Matched edge to edge: steam shuts just as exhaust opens.
        (14.0, 10.0, ((-inf, -5.0), (5.0, inf))),
    ],
)
def test_the_straight_way_to_exhaust(length: float, cavity: float, straight: object) -> None:
    assert find_straight_region(cylinder(length, cavity)) == straight


def test_openings_grow_from_the_edge_to_the_width_of_the_port() -> None:
    valve = cylinder(16.0, 8.0)
    assert [outer_opening(valve, "head", place) for place in (0.0, -1.0, -2.0, -3.0, -9.0)] == [0, 0, 1, 2, 2]
    assert [outer_opening(valve, "crank", place) for place in (0.0, 1.0, 2.0, 3.0)] == [0, 0, 1, 2]
    assert [cavity_opening(valve, "head", place) for place in (0.0, 1.0, 2.0, 3.0, 10.0)] == [0, 0, 1, 2, 1]


def test_a_valve_narrower_than_its_port_leaves_it_open_on_both_sides() -> None:
    """A valve 1 mm long over a 2 mm port: 1 mm is open, on one side or shared between the two."""
    short = cylinder(1.0, 0.5)
    assert outer_opening(short, "head", 6.0) == 1.0
    assert outer_opening(short, "head", 5.5) == 1.0
    assert outer_opening(short, "head", 0.0) == 2.0


def test_the_way_through_the_middle_port_narrows_as_the_valve_goes_off_centre() -> None:
    valve = cylinder(16.0, 10.0)
    assert [middle_way(valve, place) for place in (0.0, 3.0, 4.0, -5.0, 8.0)] == [4, 4, 3, 2, 0]


def test_nothing_is_said_of_what_is_not_known() -> None:
    no_cavity = assemble_cylinder(Sizes("A", {**FACE, "valve.length": 16.0}))
    assert find_steam_region(no_cavity, "head") == ((-inf, -1.0), (13.0, inf))
    assert find_exhaust_region(no_cavity, "head") is None
    assert find_straight_region(no_cavity) is None
    assert cavity_opening(no_cavity, "head", 0.0) is None
    assert middle_way(no_cavity, 0.0) is None
    no_face = assemble_cylinder(Sizes("A", {"valve.length": 16.0, "valve.cavity": 10.0}))
    assert find_steam_region(no_face, "head") is None
    assert find_bare_middle_region(no_face) is None
    assert outer_opening(no_face, "head", 0.0) is None
