"""Laws that the motion of every engine obeys."""

from dataclasses import replace
from math import cos, pi, radians

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import NUMBER_KEYS, Sizes
from lapwright.motion.answers import EVENTS, CylinderMotion, describe_motion, set_moving, steam_opening
from tests.property.engines import ARRANGEMENTS, PLAIN, any_engines, other_end, sound_engines

ANGLES = ("crank_phase", "valve_drive.eccentric_angle")
LENGTHS = tuple(key for key in NUMBER_KEYS if key not in (*ANGLES, "valve_drive.spindle_step"))
OUTSIDE = tuple(arrangement for arrangement in ARRANGEMENTS if arrangement[1] == "outside")
#: Rods so long, against their throws, that their obliquity is a millionth of the throw.
LONG = 1e6


def one_of_each(motion: CylinderMotion, end: str) -> dict[str, float]:
    """The angle of each event [deg] where each happens just once."""
    angles = {event: times.crank_deg or () for event, times in motion.ends[end].events.items()}
    assume(all(len(found) == 1 for found in angles.values()))
    return {event: found[0] for event, found in angles.items()}


def later(one: float, other: float) -> float:
    """How much later the first crank angle is than the second [deg], between -180 and 180."""
    return (one - other + 180) % 360 - 180


def assert_same_events(one: CylinderMotion, other: CylinderMotion, *, within: float = 1e-9) -> None:
    for end in ENDS:
        for event in EVENTS:
            first, second = (motion.ends[end].events[event].crank_deg or () for motion in (one, other))
            assert len(first) == len(second)
            for angle in first:
                assert min(abs(later(angle, found)) for found in second) < within


def with_long_rods(sizes: Sizes) -> Sizes:
    numbers = sizes.numbers
    return sizes.replacing(
        {
            "connecting_rod": LONG * numbers["stroke"],
            "valve_drive.eccentric_rod": LONG * numbers["valve_drive.throw"],
            "valve_drive.valve_offset": 0.0,
        }
    )


@given(any_engines(), st.floats(0.01, 100.0))
def test_all_lengths_times_a_factor_leave_every_angle_alone(sizes: Sizes, factor: float) -> None:
    scaled = sizes.replacing({key: value * factor for key, value in sizes.numbers.items() if key in LENGTHS})
    one, other = describe_motion(sizes), describe_motion(scaled)
    assert_same_events(one, other, within=1e-6)
    assert one.chest_to_exhaust_deg == pytest.approx(other.chest_to_exhaust_deg, abs=1e-6)
    assert one.valve_travel_mm is not None
    assert other.valve_travel_mm == pytest.approx(one.valve_travel_mm * factor)


@given(sound_engines())
def test_the_four_periods_of_an_end_sum_to_a_turn(sizes: Sizes) -> None:
    motion = describe_motion(sizes)
    for end in ENDS:
        # Without lap, cut-off and release fall together, and rounding decides which comes first.
        assume((motion.laps_mm[end].steam or 0) > 1e-6)
        angles = one_of_each(motion, end)
        periods = [(angles[EVENTS[(i + 1) % 4]] - angles[EVENTS[i]]) % 360 for i in range(4)]
        assert sum(periods) == pytest.approx(360)


@given(any_engines(), st.floats(-90, 90))
def test_turning_the_eccentric_forward_makes_every_event_earlier_by_the_same_angle(sizes: Sizes, turn: float) -> None:
    key = "valve_drive.eccentric_angle"
    turned = describe_motion(sizes.replacing({key: sizes.numbers[key] + radians(turn)}))
    plain = describe_motion(sizes)
    for end in ENDS:
        before, after = one_of_each(plain, end), one_of_each(turned, end)
        for event in EVENTS:
            assert later(before[event], after[event]) == pytest.approx(turn, abs=1e-8)


@given(sound_engines())
def test_with_long_rods_piston_and_valve_move_as_the_cosine(sizes: Sizes) -> None:
    motion = describe_motion(with_long_rods(sizes))
    for end in ENDS:
        for times in motion.ends[end].events.values():
            for angle, percent in zip(times.crank_deg or (), times.stroke_percent or (), strict=True):
                towards = 1 if end == "head" else -1
                assert percent == pytest.approx(50 * (1 - towards * cos(radians(angle))), abs=1e-4)


@given(sound_engines())
def test_with_long_rods_the_crank_end_follows_the_head_end_by_half_a_turn(sizes: Sizes) -> None:
    motion = describe_motion(with_long_rods(sizes))
    head, crank = one_of_each(motion, "head"), one_of_each(motion, "crank")
    for event in EVENTS:
        assert abs(later(crank[event], head[event])) == pytest.approx(180, abs=1e-3)


@given(sound_engines(arrangements=OUTSIDE), st.floats(0.01, 0.3))
def test_more_steam_lap_moves_only_admission_and_cut_off(sizes: Sizes, share: float) -> None:
    more = share * (sizes.numbers["valve_drive.throw"] - (sizes.numbers["valve.length"] - _over_ports(sizes)) / 2)
    longer = describe_motion(sizes.replacing({"valve.length": sizes.numbers["valve.length"] + 2 * more}))
    plain = describe_motion(sizes)
    for end in ENDS:
        before, after = one_of_each(plain, end), one_of_each(longer, end)
        assert later(after["admission"], before["admission"]) > 0
        assert later(after["cut_off"], before["cut_off"]) < 0
        assert after["release"] == before["release"]
        assert after["compression"] == before["compression"]
        assert longer.ends[end].lead_mm == pytest.approx((plain.ends[end].lead_mm or 0) - 1e3 * more)


@given(sound_engines(arrangements=OUTSIDE), st.floats(0.01, 0.3))
def test_more_exhaust_lap_moves_only_release_and_compression(sizes: Sizes, share: float) -> None:
    more = share * sizes.numbers["valve_drive.throw"]
    shorter = describe_motion(sizes.replacing({"valve.cavity": sizes.numbers["valve.cavity"] - 2 * more}))
    plain = describe_motion(sizes)
    for end in ENDS:
        before, after = one_of_each(plain, end), one_of_each(shorter, end)
        assert later(after["release"], before["release"]) > 0
        assert later(after["compression"], before["compression"]) < 0
        assert after["admission"] == before["admission"]
        assert after["cut_off"] == before["cut_off"]


@given(any_engines())
def test_run_backwards_opening_and_closing_change_places(sizes: Sizes) -> None:
    """The same iron turned the other way: what was ahead is behind, and the offsets lie on the other side."""
    flipped = ("valve_drive.eccentric_angle", "cylinder_offset", "valve_drive.valve_line_offset")
    backwards = describe_motion(sizes.replacing({key: -sizes.numbers[key] for key in flipped}))
    forwards = describe_motion(sizes)
    pairs = {"admission": "cut_off", "cut_off": "admission", "release": "compression", "compression": "release"}
    for end in ENDS:
        for event, partner in pairs.items():
            there, back = forwards.ends[end].events[event], backwards.ends[end].events[partner]
            assert sorted(-angle % 360 for angle in there.crank_deg or ()) == pytest.approx(back.crank_deg, abs=1e-6)
        assert backwards.ends[end].lead_mm == pytest.approx(forwards.ends[end].lead_mm)
    assert backwards.chest_to_exhaust_deg == pytest.approx(forwards.chest_to_exhaust_deg, abs=1e-6)
    assert backwards.least_exhaust_way_mm == pytest.approx(forwards.least_exhaust_way_mm)


@given(any_engines(), st.floats(0, 2 * pi))
def test_the_phase_of_the_crank_changes_nothing_within_a_cylinder(sizes: Sizes, phase: float) -> None:
    assert describe_motion(sizes.replacing({"crank_phase": phase})) == describe_motion(sizes)


@given(sound_engines())
def test_lead_is_the_opening_at_dead_centre(sizes: Sizes) -> None:
    moving = set_moving(sizes)
    for end in ENDS:
        centre = moving.dead_centre(end)
        assert centre is not None
        assert moving.valve is not None
        opening = steam_opening(moving.cylinder, end, moving.valve.position(centre))
        assert opening is not None
        assert describe_motion(sizes).ends[end].lead_mm == pytest.approx(1e3 * opening)


@given(sound_engines(arrangements=(("piston", "inside", "none"), ("piston", "inside", "reversing"))))
def test_inside_admission_is_outside_admission_with_laps_exchanged_and_the_valve_moved_contrariwise(
    sizes: Sizes,
) -> None:
    """A reversing rocker moves the valve contrariwise whatever the rods; so does half a turn of the eccentric, but for
    the obliquity of its rod."""
    plain = describe_motion(sizes)
    exchanged = _exchange_laps(sizes)
    rocker = "none" if sizes.rocker == "reversing" else "reversing"
    offset = -sizes.numbers["valve_drive.valve_offset"]
    contrary = replace(exchanged.replacing({"valve_drive.valve_offset": offset}), rocker=rocker)
    assert_same_events(plain, describe_motion(contrary))
    half_turn = {"valve_drive.eccentric_angle": sizes.numbers["valve_drive.eccentric_angle"] + pi}
    turned = with_long_rods(exchanged).replacing(half_turn)
    assert_same_events(describe_motion(with_long_rods(sizes)), describe_motion(turned), within=1e-3)


@given(any_engines())
def test_the_two_shares_of_the_stroke_sum_to_one(sizes: Sizes) -> None:
    piston = set_moving(sizes).piston
    assert piston is not None
    for angle in (0.0, 1.0, 2.5, 4.0, 6.0):
        assert piston.share_of_stroke("head", angle) + piston.share_of_stroke("crank", angle) == pytest.approx(1)
    for end in ENDS:
        assert piston.share_of_stroke(end, piston.dead_centre(end)) == pytest.approx(0, abs=1e-12)
        assert piston.share_of_stroke(end, piston.dead_centre(other_end(end))) == pytest.approx(1)


@given(any_engines(), st.floats(0.001, 0.999))
def test_the_angle_of_a_place_in_the_stroke_leads_back_to_the_place(sizes: Sizes, share: float) -> None:
    piston = set_moving(sizes).piston
    assert piston is not None
    for end in ENDS:
        out, back = piston.find_angles(end, share)
        assert piston.share_of_stroke(end, out) == pytest.approx(share, abs=1e-10)
        assert piston.share_of_stroke(end, back) == pytest.approx(share, abs=1e-10)
        start, middle = piston.dead_centre(end), piston.dead_centre(other_end(end))
        assert (out - start) % (2 * pi) < (middle - start) % (2 * pi) < (back - start) % (2 * pi)


@given(sound_engines(), st.floats(-0.1, 0.1))
def test_widths_and_edges_from_any_datum_are_the_same_engine(sizes: Sizes, datum: float) -> None:
    numbers = dict(sizes.numbers)
    port, bridge, middle = (numbers.pop(f"port_face.{name}") for name in ("steam_port", "bridge", "exhaust_port"))
    length, cavity = numbers.pop("valve.length"), numbers.pop("valve.cavity")
    face, valve = (port, bridge, middle, bridge, port), ((length - cavity) / 2, cavity, (length - cavity) / 2)
    numbers.update({f"port_face.edges.{i}": datum + sum(face[:i]) for i in range(6)})
    numbers.update({f"valve.edges.{i}": sum(valve[:i]) for i in range(4)})
    assert_same_events(describe_motion(sizes), describe_motion(replace(sizes, numbers=numbers)))


@settings(max_examples=50)
@given(sound_engines(arrangements=(PLAIN,)))
def test_a_missing_size_leaves_unknown_only_what_rests_on_it(sizes: Sizes) -> None:
    without_rod = replace(sizes, numbers={k: v for k, v in sizes.numbers.items() if k != "connecting_rod"})
    whole, part = describe_motion(sizes), describe_motion(without_rod)
    for end in ENDS:
        for event in EVENTS:
            assert part.ends[end].events[event].crank_deg == whole.ends[end].events[event].crank_deg
            assert part.ends[end].events[event].stroke_percent is None
        assert part.ends[end].lead_mm == pytest.approx(whole.ends[end].lead_mm)
    without_throw = replace(sizes, numbers={k: v for k, v in sizes.numbers.items() if k != "valve_drive.throw"})
    still = describe_motion(without_throw)
    assert still.laps_mm == whole.laps_mm
    assert still.valve_travel_mm is None
    assert all(still.ends[end].events[event].crank_deg is None for end in ENDS for event in EVENTS)


def _over_ports(sizes: Sizes) -> float:
    numbers = sizes.numbers
    return (
        sum(numbers[f"port_face.{name}"] for name in ("steam_port", "bridge")) * 2 + numbers["port_face.exhaust_port"]
    )


def _exchange_laps(sizes: Sizes) -> Sizes:
    """The same laps on a valve that admits over its other edges."""
    numbers = sizes.numbers
    over_ports = _over_ports(sizes)
    over_bridges = over_ports - 2 * numbers["port_face.steam_port"]
    past_outer, past_inner = numbers["valve.length"] - over_ports, over_bridges - numbers["valve.cavity"]
    exchanged = {"valve.length": over_ports + past_inner, "valve.cavity": over_bridges - past_outer}
    return replace(sizes.replacing(exchanged), admission="outside")


def test_a_quarter_turn_of_lap_angle_by_hand() -> None:
    """Lap half the throw, eccentric at a right angle, long rods: open from 30 to 150 deg and no more."""
    sizes = Sizes(
        "A",
        {
            "stroke": 0.02,
            "connecting_rod": 0.02 * LONG,
            "port_face.steam_port": 0.002,
            "port_face.bridge": 0.002,
            "port_face.exhaust_port": 0.004,
            "valve.length": 0.014,
            "valve.cavity": 0.008,
            "valve_drive.throw": 0.002,
            "valve_drive.eccentric_rod": 0.002 * LONG,
            "valve_drive.eccentric_angle": pi / 2,
        },
    )
    events = describe_motion(sizes).ends["head"].events
    assert events["admission"].crank_deg == pytest.approx((30.0,), abs=1e-4)
    assert events["cut_off"].crank_deg == pytest.approx((150.0,), abs=1e-4)
    assert events["admission"].stroke_percent == pytest.approx((50 * (1 - cos(radians(30))),), abs=1e-4)
    assert events["release"].crank_deg == pytest.approx((180.0,), abs=1e-4)
    (compression,) = events["compression"].crank_deg or ()
    assert later(compression, 0.0) == pytest.approx(0, abs=1e-4)
