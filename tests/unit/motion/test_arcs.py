"""Parts of a turn from stretches of the valve's travel."""

from math import degrees, inf, pi

import pytest

from lapwright.engine.cylinder import Slider, ValveGear
from lapwright.motion.arcs import Arc, find_arcs, sum_arcs
from lapwright.motion.travel import TURN, ValveTravel, trace_valve


def valve(offset: float = 0.0, sign: int = 1) -> ValveTravel:
    """A valve driven by an eccentric in line with the crank, throw 1, rod without end: it moves as the cosine."""
    return trace_valve(ValveGear(Slider(1.0, 1e7, 0.0), 0.0, offset, sign))


def in_degrees(arcs: tuple[Arc, ...]) -> list[tuple[float, float]]:
    return [(round(degrees(arc.start), 3), round(degrees(arc.stop), 3)) for arc in arcs]


def test_a_stretch_at_the_head_end_lasts_about_the_dead_centre() -> None:
    assert in_degrees(find_arcs(valve(), ((0.5, inf),))) == [(300.0, 60.0)]


def test_a_stretch_at_the_crank_end_lasts_about_half_a_turn_on() -> None:
    assert in_degrees(find_arcs(valve(), ((-inf, -0.5),))) == [(120.0, 240.0)]


def test_a_stretch_within_the_travel_is_passed_twice() -> None:
    assert in_degrees(find_arcs(valve(), ((-0.5, 0.5),))) == [(60.0, 120.0), (240.0, 300.0)]


def test_a_stretch_round_the_whole_travel_is_a_turn_without_beginning() -> None:
    (arc,) = find_arcs(valve(), ((-2.0, 2.0),))
    assert arc.whole
    assert arc.holds(1.0)


@pytest.mark.parametrize("stretch", [(1.5, 3.0), (-3.0, -1.5), (1.0, inf), (-inf, -1.0)])
def test_a_stretch_out_of_reach_gives_nothing(stretch: tuple[float, float]) -> None:
    assert find_arcs(valve(), (stretch,)) == ()


def test_a_rocker_that_reverses_takes_the_valve_the_other_way() -> None:
    assert in_degrees(find_arcs(valve(sign=-1), ((0.5, inf),))) == [(120.0, 240.0)]


def test_an_offset_moves_the_whole_travel() -> None:
    assert in_degrees(find_arcs(valve(offset=0.5), ((1.0, inf),))) == [(300.0, 60.0)]


def test_arcs_add_up_and_hold_what_lies_in_them() -> None:
    arcs = find_arcs(valve(), ((-0.5, 0.5), (0.75, inf)))
    assert [arc.start for arc in arcs] == sorted(arc.start for arc in arcs)
    assert degrees(sum_arcs(arcs)) == pytest.approx(60 + 60 + 2 * 41.40962, abs=1e-4)
    across = Arc(TURN - 0.5, 1.0)
    assert across.stop == pytest.approx(0.5)
    assert across.holds(0.0)
    assert not across.holds(pi)
