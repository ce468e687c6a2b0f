"""The sentences that several faults share."""

from math import radians

import pytest

from lapwright.engine.sizes import Sizes
from lapwright.findings.reading import Reading
from lapwright.findings.words import late_by, say_leads, say_opening
from tests.unit.findings.engines import MATCHED, MM, read, read_lapped

ANGLE, OFFSET, ROD = (f"valve_drive.{name}" for name in ("eccentric_angle", "valve_offset", "eccentric_rod"))


def test_ends_that_open_within_a_degree_are_said_together_and_others_apart() -> None:
    assert say_opening(read({ANGLE: radians(80), ROD: 1e4})) == "each end opens late by 10 deg"
    assert say_opening(read({ANGLE: radians(96), ROD: 1e4})) == "each end opens 6.0 deg before dead centre"
    assert say_opening(read({ROD: 1e4})) == "each end opens at dead centre"
    apart = say_opening(read({ANGLE: radians(80), ROD: 20 * MM}))
    assert apart.startswith("the head end opens late by ")
    assert " and the crank end opens late by " in apart


def test_an_end_that_never_opens_is_said_so() -> None:
    assert say_opening(read({"valve.length": 17 * MM})) == "no port ever opens to steam"
    one = say_opening(read({OFFSET: 1.9 * MM, "valve.length": 12.4 * MM}))
    assert one.endswith("the head end never opens to steam")


def test_one_working_end_is_spoken_of_alone() -> None:
    numbers = {key: value for key, value in MATCHED.items() if key != "piston_rod"}
    single = Reading(Sizes("A", {**numbers, ANGLE: radians(80), ROD: 1e4}))
    assert say_opening(single) == "the head end opens late by 10 deg"
    assert say_leads(single) == "lead -0.35 mm at the head end"


def test_lateness_is_counted_from_the_dead_centre_of_the_event() -> None:
    """Release of the head end belongs to the crank end's dead centre, where its stroke ends."""
    reading = read_lapped(0.6 * MM, 0.1 * MM)
    assert late_by(reading, "head") == pytest.approx(-3.03, abs=0.01)
    assert late_by(reading, "head", "release") == pytest.approx(-20.49, abs=0.01)
    assert late_by(reading, "crank", "release") == pytest.approx(-20.49, abs=0.01)
    assert late_by(read({"valve.length": 17 * MM}), "head") is None


def test_leads_are_said_with_their_sign_and_nothing_without_one() -> None:
    assert say_leads(read({ROD: 1e4})) == "lead 0.00 mm at the head end and 0.00 mm at the crank end"
    assert say_leads(read_lapped(0.5 * MM, 0.1 * MM)) == "lead +0.10 mm at the head end and +0.10 mm at the crank end"
