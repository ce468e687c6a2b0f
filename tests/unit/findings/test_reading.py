"""Laps and leads taken apart: what the eccentric answers for, and what the valve's place on its spindle."""

from math import asin, degrees, pi, radians

import pytest

from lapwright.engine.sizes import Sizes
from lapwright.findings.reading import Reading, wrap
from tests.unit.findings.engines import MATCHED, MM, read, read_lapped

ANGLE, OFFSET = "valve_drive.eccentric_angle", "valve_drive.valve_offset"
ARRANGED = [
    ("outside", "none"),
    ("outside", "reversing"),
    ("inside", "none"),
    ("inside", "reversing"),
]


@pytest.mark.parametrize(("admission", "rocker"), ARRANGED)
def test_where_the_eccentric_stands_for_each_admission_and_rocker(admission: str, rocker: str) -> None:
    """90 deg + advance ahead of the crank; or less than 90 deg behind it where one of the two turns it round.

    Source: travelling-engineers, Q 40-41; bourne-1865, Q 520
    """
    reading = read_lapped(0.6 * MM, 0.1 * MM, admission=admission, rocker=rocker)
    angle = degrees(reading.sizes.numbers[ANGLE])
    advance = degrees(asin(0.35))
    if (admission == "inside") == (rocker == "reversing"):
        assert angle == pytest.approx(90 + advance)
    else:
        assert 360 - angle == pytest.approx(90 - advance)
    assert reading.advance == pytest.approx(radians(advance))
    assert reading.direction == 1
    for end in ("head", "crank"):
        assert reading.lead_at(end) == pytest.approx(0.1 * MM, abs=1e-9)


@pytest.mark.parametrize(("admission", "rocker"), ARRANGED)
def test_the_mirrored_eccentric_stands_for_the_other_direction(admission: str, rocker: str) -> None:
    reading = read_lapped(0.6 * MM, 0.1 * MM, admission=admission, rocker=rocker)
    mirrored = reading.changed({ANGLE: -reading.sizes.numbers[ANGLE] % (2 * pi)})
    assert mirrored.direction == -1


def test_equal_leads_are_made_by_moving_the_valve_half_their_difference() -> None:
    """Towards the end with the greater lead, with admission outside; only the eccentric changes the sum.

    Source: rohan-1899, "Setting a plain slide valve"; ahrons, p. 104
    """
    reading = read_lapped(0.5 * MM, 0.125 * MM).changed({OFFSET: -0.0625 * MM})
    head, crank = (reading.lead_at(end) or 0.0 for end in ("head", "crank"))
    assert (head, crank) == (pytest.approx(0.1875 * MM, abs=1e-8), pytest.approx(0.0625 * MM, abs=1e-8))
    equal = reading.equal_lead_offset
    assert equal is not None
    assert equal - reading.offset == pytest.approx((head - crank) / 2)
    level = reading.changed({OFFSET: equal})
    assert level.lead_at("head") == pytest.approx(level.lead_at("crank") or 0.0)
    assert level.lead == pytest.approx(reading.lead)
    assert level.lead == pytest.approx(0.125 * MM, abs=1e-8)


def test_inside_admission_moves_the_valve_the_other_way() -> None:
    reading = read_lapped(0.5 * MM, 0.125 * MM, admission="inside").changed({OFFSET: -0.0625 * MM})
    head, crank = (reading.lead_at(end) or 0.0 for end in ("head", "crank"))
    assert head < crank
    assert (reading.equal_lead_offset or 0.0) - reading.offset == pytest.approx((crank - head) / 2)


def test_the_eccentric_changes_both_leads_alike() -> None:
    before, after = read_lapped(0.5 * MM, 0.0), read_lapped(0.5 * MM, 0.2 * MM)
    for end in ("head", "crank"):
        assert (after.lead_at(end) or 0.0) - (before.lead_at(end) or 0.0) == pytest.approx(0.2 * MM, abs=1e-8)


def test_the_slant_of_a_short_rod_is_felt_as_unequal_leads() -> None:
    """At the dead centres of a square eccentric the rod draws the valve towards the shaft by throw^2 / 2 rod."""
    reading = read({"valve_drive.eccentric_rod": 10 * MM})
    slant = 10 * MM - (10**2 - 2**2) ** 0.5 * MM
    assert reading.equal_lead_offset == pytest.approx(slant)
    assert reading.lead_at("head") == pytest.approx(slant)
    assert reading.lead_at("crank") == pytest.approx(-slant)
    assert reading.lead == pytest.approx(0, abs=1e-12)
    assert reading.offset_error == 0


def test_the_error_of_the_valves_place_is_counted_from_the_range_between_central_and_equal_leads() -> None:
    equal = read().equal_lead_offset
    assert equal is not None
    assert read({OFFSET: equal / 2}).offset_error == 0
    assert read({OFFSET: equal + 0.3 * MM}).offset_error == pytest.approx(0.3 * MM)
    assert read({OFFSET: -0.3 * MM}).offset_error == pytest.approx(-0.3 * MM)


@pytest.mark.parametrize("lead", [-0.4, 0.0, 0.15])
def test_the_advance_that_is_solved_gives_the_lead(lead: float) -> None:
    reading = read({"valve.length": 13 * MM, "cylinder_offset": 1 * MM, "valve_drive.valve_line_offset": 1.5 * MM})
    advance = reading.solve_advance(lead * MM)
    assert advance is not None
    assert reading.changed(reading.turned_to(advance)).lead == pytest.approx(lead * MM, abs=1e-12)


def test_no_advance_opens_a_port_beyond_the_throw() -> None:
    assert read({"valve.length": 16 * MM}).solve_advance(0.0) is None


def test_what_is_not_known_is_none() -> None:
    for key in ("valve_drive.throw", "valve_drive.eccentric_angle", "valve.length", "port_face.steam_port"):
        numbers = {name: value for name, value in MATCHED.items() if name != key}
        reading = Reading(Sizes("A", numbers))
        assert reading.lead is None
        assert reading.lead_at("head") is None
        assert reading.equal_lead_offset is None
    assert Reading(Sizes("A", {})).advance is None
    assert Reading(Sizes("A", {})).turns


def test_a_rod_shorter_than_its_throw_cannot_turn() -> None:
    assert read().turns
    assert not read({"valve_drive.eccentric_rod": 1.9 * MM}).turns
    assert not read({"valve_drive.eccentric_rod": 3 * MM, "valve_drive.valve_line_offset": -1.1 * MM}).turns
    assert not read({"connecting_rod": 8 * MM}).turns


def test_a_single_acting_cylinder_has_one_end() -> None:
    numbers = {name: value for name, value in MATCHED.items() if name != "piston_rod"}
    assert Reading(Sizes("A", numbers)).ends == ("head",)
    assert read().ends == ("head", "crank")


def test_angles_are_wrapped_to_half_a_turn() -> None:
    assert wrap(3 * pi / 2) == pytest.approx(-pi / 2)
    assert wrap(-3 * pi / 2) == pytest.approx(pi / 2)
