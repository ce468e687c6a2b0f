"""Trying other sizes: every slider does to the engine what the same change of the record would."""

from __future__ import annotations

from math import radians

import pytest

from lapwright.errors import BadInput, NotOneOf
from lapwright.job.turn.trying import TRIED, list_knobs, try_sizes
from lapwright.job.turn.turning import show_turn
from lapwright.motion.answers import describe_motion
from tests.unit.papers.matters import NAMES, cylinder, examine_demo, visit_of


def figures(name: str, changes: dict[str, str | float]) -> dict[str, str]:
    return dict(try_sizes(examine_demo(name), "A", changes=changes, with_card=False).shown)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_changed_is_the_engine_as_found(name: str) -> None:
    visit = examine_demo(name)
    tried = try_sizes(visit, "A", changes={}, with_card=False)
    assert tried.turn.motion == visit.motions["A"]
    knobs = list_knobs(visit, "A")
    assert {knob.key: knob.found for knob in knobs} == pytest.approx(dict(tried.values))
    for knob in knobs:
        assert knob.low <= knob.found <= knob.high
        steps = (knob.found - knob.low) / knob.step
        assert steps == pytest.approx(round(steps), abs=1e-6), "the slider can be put back where it was"


@pytest.mark.parametrize("name", NAMES)
def test_no_slider_can_be_moved_to_where_nothing_is_answered(name: str) -> None:
    visit = examine_demo(name)
    for knob in list_knobs(visit, "A"):
        for value in (knob.low, knob.high):
            assert try_sizes(visit, "A", changes={knob.key: value}, with_card=False).turn.trace.place is not None


@pytest.mark.parametrize(
    ("name", "key", "record", "value"),
    [
        ("tern", "valve.length", "valve.length", 0.0131),
        ("merganser", "valve.cavity", "valve.cavity", 0.0240),
        ("curlew", "valve_drive.eccentric_angle", "valve_drive.eccentric_angle", radians(107)),
        ("plover", "valve_drive.valve_offset", "valve_drive.valve_offset", 0.0),
    ],
)
def test_a_slider_is_the_same_change_of_the_record(name: str, key: str, record: str, value: float) -> None:
    visit = examine_demo(name)
    tried = try_sizes(visit, "A", changes={key: value}, with_card=False)
    assert tried.turn.motion == describe_motion(visit.cylinders[0].replacing({record: value}))
    assert tried.turn.motion != visit.motions["A"]


def test_more_lap_is_a_longer_valve_or_a_narrower_cavity() -> None:
    assert figures("tern", {"steam_lap": "0.5 mm"})["valve.length"] == "13.00 mm"
    assert figures("tern", {"valve.length": "13 mm"})["steam_lap"] == "0.50 mm"
    inside = figures("merganser", {"steam_lap": "2.0 mm"})
    assert (inside["valve.length"], inside["valve.cavity"]) == ("36.00 mm", "24.00 mm")


def test_edges_are_cut_alike_at_both_ends() -> None:
    sizes = cylinder(length=None, cavity=None)
    edges = {"valve.edges.0": 0.0, "valve.edges.1": 0.0024, "valve.edges.2": 0.0095, "valve.edges.3": 0.012}
    visit = visit_of(sizes.replacing(edges))
    tried = try_sizes(visit, "A", changes={"valve.length": "11.6 mm"}, with_card=False)
    assert tried.turn.sizes.numbers["valve.edges.0"] == pytest.approx(0.0002)
    assert tried.turn.sizes.numbers["valve.edges.3"] == pytest.approx(0.0118)
    assert tried.turn.sizes.numbers["valve.edges.1"] == 0.0024


def test_pressure_and_speed_change_the_card_and_nothing_else() -> None:
    visit = examine_demo("tern")
    found, tried = (try_sizes(visit, "A", changes=changes) for changes in ({}, {"supply_pressure": "1 bar"}))
    assert found.turn.card is not None
    assert tried.turn.card is not None
    assert tried.turn.motion == found.turn.motion
    assert tried.turn.card.means["head"] < 0.6 * found.turn.card.means["head"]
    faster = try_sizes(visit, "A", changes={"speed": "900 rpm"}).turn.card
    assert faster is not None
    assert faster.means["head"] < found.turn.card.means["head"]


@pytest.mark.parametrize(
    ("changes", "backwards", "is_same"),
    [
        ({"valve.length": "12.2 mm", "speed": "700 rpm"}, False, True),
        ({"valve.length": "12.2 mm", "speed": "700 rpm"}, True, False),
        ({"valve.length": "12.3 mm"}, False, False),
        ({}, False, False),
    ],
)
def test_what_was_tried_last_is_taken_again_only_where_it_moves_alike(
    changes: dict[str, str | float], backwards: bool, is_same: bool
) -> None:
    visit = examine_demo("tern")
    last = try_sizes(visit, "A", changes={"valve.length": "12.2 mm"})
    afresh = try_sizes(visit, "A", changes=changes, backwards=backwards)
    tried = try_sizes(visit, "A", changes=changes, backwards=backwards, last=last)
    assert (tried.turn.trace is last.turn.trace) == is_same
    assert (tried.values, tried.shown, tried.points) == (afresh.values, afresh.shown, afresh.points)
    assert show_turn(tried.turn) == show_turn(afresh.turn)


def test_figures_come_back_in_the_unit_of_the_record() -> None:
    assert figures("dunlin", {"valve.length": "18 mm", "supply_pressure": "2 bar"})["valve.length"] == "0.709 in"
    assert figures("dunlin", {"supply_pressure": "2 bar"})["supply_pressure"] == "29.0 psi"
    assert figures("tern", {"valve_drive.eccentric_angle": "-10 deg"})["valve_drive.eccentric_angle"] == "350.0 deg"


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"valve.length": "7 mm"}, "leaves no metal beside a cavity of 8.00 mm"),
        ({"valve.length": "13"}, "13 has no unit"),
        ({"valve.cavity": "-1 mm"}, "-1"),
        ({"valve.length": float("nan")}, "is not a figure"),
        ({"valve.length": True and "x"}, "cannot be read"),
        ({"speed": 0.0}, "is not one that is tried here"),
        ({"supply_pressure": "90 bar"}, "is not one that is tried here"),
        ({"steam_lap": "-9 mm"}, "is no length of a valve"),
    ],
)
def test_what_no_valve_can_be_is_refused_in_a_sentence(changes: dict[str, str | float], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        try_sizes(examine_demo("tern"), "A", changes=changes)


def test_a_key_that_cannot_be_tried_is_refused() -> None:
    with pytest.raises(NotOneOf):
        try_sizes(examine_demo("tern"), "A", changes={"bore": "20 mm"})
    assert "bore" not in TRIED
