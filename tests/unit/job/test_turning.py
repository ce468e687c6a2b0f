"""Turning an engine over: figures as everywhere else, the other way round, and every end's state."""

from __future__ import annotations

from math import radians

import pytest

from lapwright.engine.cylinder import ENDS
from lapwright.errors import NotThere
from lapwright.job.turn.turning import STATES, choose_conditions_of, reverse_sizes, show_turn, turn_over, turn_sizes
from lapwright.motion.answers import describe_motion, exhaust_opening, steam_opening
from tests.unit.papers.matters import NAMES, cylinder, examine_demo, visit_of


@pytest.mark.parametrize("name", NAMES)
def test_a_turn_tells_what_the_timing_tells(name: str) -> None:
    visit = examine_demo(name)
    for sizes in visit.cylinders:
        turn = turn_over(visit, sizes.name)
        shown = show_turn(turn)
        assert turn.motion == visit.motions[sizes.name]
        for end in turn.ends:
            told = {
                event: sorted(one["deg"] for one in shown["events"] if (one["end"], one["event"]) == (end, event))
                for event in turn.motion.ends[end].events
            }
            assert told == {
                event: sorted(times.crank_deg or ()) for event, times in turn.motion.ends[end].events.items()
            }
            assert shown["lead"][end] == turn.motion.ends[end].lead_mm
        assert shown["card"] is None


@pytest.mark.parametrize("name", ["tern", "merganser", "dunlin"])
def test_an_end_is_open_to_what_its_openings_say(name: str) -> None:
    visit = examine_demo(name)
    turn = turn_over(visit, visit.cylinders[0].name)
    valve, known = turn.moving.valve, turn.moving.cylinder
    assert valve is not None
    for deg in range(0, 360, 3):
        angle = radians(deg + 0.37)
        for end in ENDS:
            steam = (steam_opening(known, end, valve.position(angle)) or 0.0) > 0
            exhaust = (exhaust_opening(known, end, valve.position(angle)) or 0.0) > 0
            assert turn.find_state(end, angle) == STATES[steam + 2 * exhaust]


def test_figures_travel_as_whole_numbers_that_are_fine_enough() -> None:
    visit = examine_demo("tern")
    turn = turn_over(visit, "A", with_card=True)
    shown = show_turn(turn)
    assert turn.trace.valve is not None
    assert turn.card is not None
    assert len(shown["angles"]) == len(shown["valve"]) == len(shown["steam"]["head"]) >= 360
    for sent, known in zip(shown["valve"], turn.trace.valve, strict=True):
        assert sent * 1e-7 == pytest.approx(known, abs=6e-8)
    assert all(isinstance(value, int) for value in shown["card"]["pressures"]["head"])
    assert len(shown["card"]["pressures"]["head"]) == len(shown["angles"])


def test_the_card_is_that_of_the_run_the_findings_are_weighed_on() -> None:
    """On half as many steps, so within a percent."""
    visit = examine_demo("sandpiper")
    card = turn_over(visit, "A", with_card=True).card
    assert card is not None
    assert visit.ground is not None
    run = visit.ground.found.run.cylinders[0]
    for end in ENDS:
        assert card.means[end] == pytest.approx(run.ends[end].mean_effective_pressure, rel=0.01)


@pytest.mark.parametrize("name", ["tern", "merganser"])
def test_turned_back_twice_it_is_the_same_engine(name: str) -> None:
    sizes = examine_demo(name).cylinders[-1]
    once = reverse_sizes(sizes)
    again = reverse_sizes(once)
    assert {key: value % 6.283185307179586 for key, value in again.numbers.items()} == pytest.approx(
        {key: value % 6.283185307179586 for key, value in sizes.numbers.items()}
    )


def test_the_other_way_round_every_event_is_its_mirror_image() -> None:
    """What opens the port going forwards shuts it going backwards, at the same place of the crank."""
    visit = examine_demo("tern")
    forwards, backwards = (turn_over(visit, "B", backwards=way).motion for way in (False, True))
    for end in ENDS:
        for opens, shuts in (("admission", "cut_off"), ("release", "compression")):
            (one,) = forwards.ends[end].events[opens].crank_deg or ()
            (other,) = backwards.ends[end].events[shuts].crank_deg or ()
            assert (one + other) % 360 == pytest.approx(0.0, abs=1e-9) or (one + other) % 360 == pytest.approx(360.0)
    assert turn_over(visit, "B", backwards=True).phase == pytest.approx(radians(270))


def test_what_cannot_be_run_moves_all_the_same_and_says_why() -> None:
    turn = turn_over(examine_demo("knot"), "A", with_card=True)
    assert turn.card is None
    assert "valve.cavity" in turn.no_card
    assert turn.trace.valve is not None
    assert show_turn(turn)["exhaust"] == {}
    assert show_turn(turn)["unknown"] == ["compression", "release"]


def test_pressures_that_do_not_go_together_are_a_reason_not_a_crash() -> None:
    visit = examine_demo("merganser")
    turn = turn_sizes(visit, visit.cylinders[0], conditions=choose_conditions_of(visit, supply=-5e4))
    assert turn.card is None
    assert turn.no_card


def test_a_single_acting_cylinder_has_one_end() -> None:
    visit = visit_of(cylinder(piston_rod=None))
    turn = turn_over(visit, "A")
    assert turn.ends == ("head",)
    assert turn.motion == describe_motion(visit.cylinders[0])


def test_a_cylinder_that_is_none_is_told_with_those_that_are() -> None:
    with pytest.raises(NotThere, match="its cylinders: A, B"):
        turn_over(examine_demo("tern"), "C")
