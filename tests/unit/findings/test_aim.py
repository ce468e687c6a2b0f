"""What counts as right, where the record says it and where it is silent."""

from math import asin, degrees

import pytest

from lapwright.engine.engine import PURPOSES, Engine, Target
from lapwright.findings.aim import Aim, choose_aim, describe_aim, early_by, lap_slack
from tests.unit.findings.engines import MM

STEADY, AIR, ECONOMICAL = PURPOSES


def aim(purpose: str = STEADY, **target: object) -> Aim:
    return Aim(purpose, True, Target(**target))  # type: ignore[arg-type]


def test_a_silent_record_is_judged_for_steady_running_and_says_so() -> None:
    chosen = choose_aim(Engine(name="Wren", cylinders=()))
    assert (chosen.purpose, chosen.purpose_given) == (STEADY, False)
    assert "taken as usual" in describe_aim(chosen)[0]
    given = choose_aim(Engine(name="Wren", cylinders=(), purpose=AIR))
    assert "taken as usual" not in describe_aim(given)[0]


def test_a_target_is_said_in_figures() -> None:
    told = describe_aim(aim(lead=0.1 * MM, lap=1.5 * MM, cut_off=0.75, equal="cut-off"))
    assert "Lead wanted: 0.10 mm at each end." in told
    assert "Steam lap wanted: 1.50 mm." in told
    assert "Cut-off wanted: 75 % of the stroke." in told
    assert "The ends should have equal cut-off." in told


def test_a_port_opens_before_dead_centre_by_the_angle_of_its_lead() -> None:
    """Without lap the eccentric moves the lead on by asin(lead / throw)."""
    assert early_by(2 * MM, lap=0.0, lead=0.2 * MM) == pytest.approx(degrees(asin(0.1)))
    assert early_by(2 * MM, lap=1 * MM, lead=0.0) == 0
    assert early_by(2 * MM, lap=1 * MM, lead=-0.5 * MM) == pytest.approx(degrees(asin(0.25)) - 30)
    assert early_by(2 * MM, lap=2 * MM, lead=0.0) == -90


def test_a_valve_without_lap_is_given_no_lead_unless_it_is_asked_for() -> None:
    assert aim().lead(2 * MM, 0.0) == 0
    assert aim().lead(2 * MM, 1 * MM) == pytest.approx(0.08 * MM)
    assert aim(AIR).lead(2 * MM, 1 * MM) == 0
    assert aim(lead=0.3 * MM).lead(2 * MM, 0.0) == 0.3 * MM


def test_late_begins_where_rule_and_feeler_can_tell() -> None:
    slack = lap_slack(2 * MM)
    assert not aim().is_late(2 * MM, -0.9 * slack)
    assert aim().is_late(2 * MM, -1.1 * slack)


def test_early_begins_at_the_angle_that_is_usual_for_the_purpose() -> None:
    lead = {deg: 2 * MM * deg / 57.3 for deg in (7, 9, 11, 13)}
    assert [aim().is_early(2 * MM, lap=0.0, lead=lead[deg]) for deg in lead] == [False, True, True, True]
    assert [aim(ECONOMICAL).is_early(2 * MM, lap=0.0, lead=lead[deg]) for deg in lead] == [False, False, False, True]


def test_a_lead_that_is_asked_for_is_held_on_both_sides() -> None:
    wanted = aim(lead=0.2 * MM)
    assert wanted.is_late(2 * MM, 0.14 * MM)
    assert not wanted.is_late(2 * MM, 0.17 * MM)
    assert not wanted.is_early(2 * MM, lap=0.0, lead=0.23 * MM)
    assert wanted.is_early(2 * MM, lap=0.0, lead=0.25 * MM)


def test_only_economy_asks_for_a_cut_off_by_itself() -> None:
    assert aim().cut_off is None
    assert aim(ECONOMICAL).cut_off == 0.74
    assert aim(ECONOMICAL, cut_off=0.6).cut_off == 0.6
