"""What is told of one cylinder, on a small engine with easy sums."""

from math import asin, degrees, pi

import pytest

from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import describe_motion, find_lead, set_moving

#: Bore and stroke 20 mm; ports 2, bridges 2, exhaust port 4 mm; valve matched to them, throw 3 mm, eccentric square.
TERN = {
    "bore": 0.020,
    "stroke": 0.020,
    "connecting_rod": 0.045,
    "piston_rod": 0.004,
    "port_face.steam_port": 0.002,
    "port_face.bridge": 0.002,
    "port_face.exhaust_port": 0.004,
    "port_face.chest_head": 0.011,
    "port_face.chest_crank": 0.011,
    "valve.length": 0.012,
    "valve.cavity": 0.008,
    "valve_drive.throw": 0.003,
    "valve_drive.eccentric_rod": 0.060,
    "valve_drive.eccentric_angle": pi / 2,
}


def tern(**changes: float) -> Sizes:
    keys = {"length": "valve.length", "cavity": "valve.cavity", "angle": "valve_drive.eccentric_angle"}
    return Sizes("A", {**TERN, **{keys[name]: value for name, value in changes.items()}})


def test_piston_areas_with_and_without_a_rod() -> None:
    areas = describe_motion(tern()).piston_area_mm2
    assert areas["head"] == pytest.approx(100 * pi)
    assert areas["crank"] == pytest.approx(96 * pi)
    open_end = describe_motion(Sizes("A", {"bore": 0.020})).piston_area_mm2
    assert open_end == {"head": pytest.approx(100 * pi), "crank": 0.0}


def test_a_valve_two_millimetres_longer_has_a_millimetre_of_lap_and_that_much_negative_lead() -> None:
    """Square eccentric: the valve stands at mid-travel at dead centre, but for the slant of its rod (3²/120 mm)."""
    slant = 60 - (60**2 - 3**2) ** 0.5
    motion = describe_motion(tern(length=0.014))
    assert motion.laps_mm["head"].steam == pytest.approx(1.0)
    assert motion.laps_mm["head"].exhaust == pytest.approx(0.0)
    assert motion.ends["head"].lead_mm == pytest.approx(-1.0 + slant)
    assert motion.ends["crank"].lead_mm == pytest.approx(-1.0 - slant)


def test_lead_is_never_more_than_the_port() -> None:
    assert find_lead(set_moving(tern(angle=pi - 0.1)), "head") == pytest.approx(2.0)


def test_a_throw_of_three_opens_a_port_of_two_and_leaves_a_way_of_three() -> None:
    motion = describe_motion(tern())
    assert motion.valve_travel_mm == pytest.approx(6.0)
    for answers in motion.ends.values():
        assert answers.greatest_steam_opening_mm == pytest.approx(2.0)
        assert answers.greatest_exhaust_opening_mm == pytest.approx(2.0)
    # At full travel the valve's wall, 4 mm from the centre, stands 1 mm past it: half of the port and 1 mm are free.
    assert motion.least_exhaust_way_mm == pytest.approx(3.0)
    assert motion.least_inlet_way_mm is None


def test_room_in_the_chest_is_wall_less_half_the_valve_less_the_throw() -> None:
    assert describe_motion(tern()).chest_room_mm == {"head": pytest.approx(2.0), "crank": pytest.approx(2.0)}
    assert describe_motion(tern(length=0.017)).chest_room_mm["head"] == pytest.approx(-0.5)


def test_a_port_that_never_opens_has_no_events_and_no_opening() -> None:
    head = describe_motion(tern(length=0.019)).ends["head"]
    assert head.events["admission"].crank_deg == ()
    assert head.events["cut_off"].stroke_percent == ()
    assert head.greatest_steam_opening_mm == 0
    assert len(head.events["release"].crank_deg or ()) == 1


def test_a_port_that_never_shuts_has_no_events_but_an_opening() -> None:
    head = describe_motion(tern(cavity=0.0145)).ends["head"]
    assert head.events["release"].crank_deg == ()
    assert head.greatest_exhaust_opening_mm == pytest.approx(2.0)


def test_a_hollow_short_valve_blows_straight_through_at_mid_travel() -> None:
    """Edges short by 0.5 mm each way and the cavity just matched: at each end open to both for 0.5 mm of travel."""
    motion = describe_motion(tern(length=0.011))
    width = 2 * degrees(asin(0.5 / 3))
    assert motion.chest_to_exhaust_deg == pytest.approx(2 * width, rel=1e-3)


def test_an_angle_a_hair_below_a_full_turn_is_nought() -> None:
    """Matched valve, long rods: admission falls on the dead centre itself, and shows as 0, not as 360."""
    long_rods = {"connecting_rod": 1e4, "valve_drive.eccentric_rod": 1e4}
    motion = describe_motion(tern().replacing(long_rods))
    (admission,) = motion.ends["head"].events["admission"].crank_deg or ()
    assert 0 <= admission < 360
    assert min(admission, 360 - admission) < 1e-4


def test_an_empty_record_gives_answers_that_say_nothing() -> None:
    motion = describe_motion(Sizes("A", {}))
    assert motion.valve_travel_mm is None
    assert motion.chest_to_exhaust_deg is None
    assert motion.least_exhaust_way_mm is None
    for end in ("head", "crank"):
        assert motion.laps_mm[end].steam is None
        assert motion.ends[end].lead_mm is None
        assert all(times.crank_deg is None for times in motion.ends[end].events.values())


def test_on_an_offset_line_the_dead_centres_need_the_rod() -> None:
    offset = {"cylinder_offset": 0.002, "stroke": 0.020, "connecting_rod": 0.045}
    moving = set_moving(Sizes("A", offset))
    assert moving.dead_centre("head") == pytest.approx(asin(2 / 55))
    assert moving.dead_centre("crank") == pytest.approx(pi + asin(2 / 35))
    assert set_moving(Sizes("A", {"cylinder_offset": 0.002})).dead_centre("head") is None
    assert set_moving(Sizes("A", {})).dead_centre("crank") == pi
