"""The slider-crank and its inverse, by figures that can be checked on paper."""

from math import atan2, cos, degrees, hypot, sin, sqrt

import numpy as np
import pytest

from lapwright.motion.linkage import find_crossing, slide_limits, slide_position


def test_the_slide_stands_one_leg_of_a_three_four_five_triangle_away_at_a_right_angle() -> None:
    assert slide_position(3.0, 5.0, 0.0, cosine=0.0, sine=1.0) == 4.0


def test_on_an_offset_line_crank_and_rod_lie_straight_at_the_ends_of_the_travel() -> None:
    near, far = slide_limits(3.0, 10.0, 2.0)
    assert hypot(near, 2.0) == pytest.approx(7.0)
    assert hypot(far, 2.0) == pytest.approx(13.0)


def test_a_positive_offset_lies_on_the_side_of_the_pin_at_90_deg() -> None:
    """With the line through the pin's own height the rod lies along the line."""
    assert slide_position(3.0, 10.0, 3.0, cosine=0.0, sine=1.0) == 10.0
    assert slide_position(3.0, 10.0, -3.0, cosine=0.0, sine=-1.0) == 10.0


@pytest.mark.parametrize("rod_to_crank", [3.0, 4.0, 5.0, 6.0, 7.0, 7.5, 8.0])
def test_half_stroke_stands_at_the_angle_whose_cosine_is_the_crank_over_twice_the_rod(rod_to_crank: float) -> None:
    cosine, sine, _, _ = find_crossing(1.0, rod_to_crank, 0.0, position=rod_to_crank)
    assert cosine == pytest.approx(1 / (2 * rod_to_crank))
    assert sine > 0


@pytest.mark.parametrize("offset", [-2.0, 0.0, 1.5])
@pytest.mark.parametrize("share", [1e-9, 0.01, 0.3, 0.5, 0.99, 1 - 1e-9])
def test_a_crossing_leads_back_to_the_place_it_was_asked_for(offset: float, share: float) -> None:
    near, far = slide_limits(3.0, 10.0, offset)
    place = near + share * (far - near)
    c1, s1, c2, s2 = find_crossing(3.0, 10.0, offset, position=place)
    for cosine, sine in ((c1, s1), (c2, s2)):
        assert hypot(cosine, sine) == pytest.approx(1)
        assert slide_position(3.0, 10.0, offset, cosine=cosine, sine=sine) == pytest.approx(place, rel=1e-12)


def test_the_first_crossing_is_the_one_on_the_way_towards_the_shaft() -> None:
    for offset in (-2.0, 0.0, 2.0):
        c1, s1, c2, s2 = find_crossing(3.0, 10.0, offset, position=9.8)
        before, after = (_place(offset, atan2(s1, c1) + step) for step in (-1e-4, 1e-4))
        assert before > 9.8 > after
        before, after = (_place(offset, atan2(s2, c2) + step) for step in (-1e-4, 1e-4))
        assert before < 9.8 < after


def test_arrays_give_what_floats_give() -> None:
    places = np.linspace(7.5, 12.5, 11)
    many = find_crossing(3.0, 10.0, 0.5, position=places, root=np.sqrt)
    for i, place in enumerate(places):
        assert [float(row[i]) for row in many] == pytest.approx(find_crossing(3.0, 10.0, 0.5, position=float(place)))


def test_near_the_end_of_the_travel_the_angle_keeps_its_digits() -> None:
    """A ten-thousand-millionth short of the end: the angle is the root of twice that over 1 + crank / rod."""
    short = 1e-10
    _, far = slide_limits(1.0, 20.0, 0.0)
    c1, s1, _, _ = find_crossing(1.0, 20.0, 0.0, position=far - short)
    expected = sqrt(2 * short / (1 + 1 / 20.0))
    # The place itself, next to 21, is known only to 4e-15: a share of 4e-5 of the gap, half of it in the angle.
    assert degrees(atan2(s1, c1)) == pytest.approx(degrees(expected), rel=4e-5)


def _place(offset: float, angle: float) -> float:
    found: float = slide_position(3.0, 10.0, offset, cosine=cos(angle), sine=sin(angle))
    return found
