"""Piston and valve at the very ends of their travel, where rounding may go past them."""

from math import pi
from random import Random

import pytest

from lapwright.motion.answers import set_moving
from lapwright.motion.travel import TURN, root_within
from tests.property.engines import random_engine


@pytest.mark.parametrize("seed", range(50))
def test_the_ends_of_the_stroke_are_reached_at_the_dead_centres(seed: int) -> None:
    piston = set_moving(random_engine(Random(seed))).piston
    assert piston is not None
    for end, other in (("head", "crank"), ("crank", "head")):
        for share, centre in ((0.0, piston.dead_centre(end)), (1.0, piston.dead_centre(other))):
            for found in piston.find_angles(end, share):
                # Next to a dead centre the angle goes as the root of the place: half of its digits are left.
                assert abs((found - centre + pi) % TURN - pi) < 1e-6


@pytest.mark.parametrize("seed", range(50))
def test_the_valve_stands_where_the_angle_of_a_place_was_sought(seed: int) -> None:
    valve = set_moving(random_engine(Random(seed))).valve
    assert valve is not None
    assert valve.high - valve.low == pytest.approx(valve.travel)
    for share in (0.001, 0.5, 0.999):
        place = valve.low + share * valve.travel
        towards_crank, towards_head = valve.find_angles(place)
        assert valve.position(towards_crank) == pytest.approx(place, abs=1e-12)
        assert valve.position(towards_crank + 1e-4) < place < valve.position(towards_head + 1e-4)


def test_a_hair_below_nothing_is_nothing() -> None:
    assert root_within(-1e-20) == 0.0
    assert root_within(4.0) == 2.0
