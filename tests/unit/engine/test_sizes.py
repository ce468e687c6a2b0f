"""Changing sizes, and what is assumed where none was given."""

from dataclasses import replace
from math import asin, pi
from random import Random

import pytest

from lapwright.engine.assume import assume_missing, list_assumed
from lapwright.engine.sizes import Doubt, Sizes
from lapwright.motion.answers import describe_motion
from tests.property.engines import ARRANGEMENTS, random_sound_engine


def without(sizes: Sizes, *keys: str) -> Sizes:
    return replace(sizes, numbers={key: value for key, value in sizes.numbers.items() if key not in keys})


def test_a_size_that_is_changed_is_no_longer_assumed_and_the_first_is_left_alone() -> None:
    before = Sizes("A", {"bore": 20.0, "stroke": 20.0}, {"bore": Doubt(0.1, 0.1)}, {"bore": "guessed", "stroke": "so"})
    after = before.replacing({"bore": 21.0})
    assert after.numbers == {"bore": 21.0, "stroke": 20.0}
    assert after.assumed == {"stroke": "so"}
    assert before.numbers["bore"] == 20.0
    assert before.number("piston_rod", 3.0) == 3.0


@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_an_eccentric_that_nobody_read_is_taken_as_opening_the_ports_at_dead_centre(
    arrangement: tuple[str, str, str],
) -> None:
    engine = random_sound_engine(Random(1), lap_share=0.5, lead_share=0.0, arrangement=arrangement)
    assumed = assume_missing(without(engine, "valve_drive.eccentric_angle"))
    for answers in describe_motion(assumed).ends.values():
        assert answers.lead_mm == pytest.approx(0.0, abs=1e-9)
    assert "valve_drive.eccentric_angle" in assumed.assumed


def test_rods_and_faces_that_nobody_measured_are_taken_as_usual() -> None:
    known = {"stroke": 0.020, "valve_drive.throw": 0.003, "port_face.steam_port": 0.002}
    assumed = assume_missing(Sizes("A", known))
    assert assumed.numbers["connecting_rod"] == pytest.approx(0.045)
    assert assumed.numbers["valve_drive.eccentric_rod"] == pytest.approx(0.060)
    assert assumed.numbers["port_face.bridge"] == pytest.approx(0.002)
    assert assumed.numbers["port_face.exhaust_port"] == pytest.approx(0.004)
    assert all(assumed.assumed.values())


def test_what_was_measured_is_never_assumed_and_a_port_valve_or_throw_never_made_up() -> None:
    engine = random_sound_engine(Random(2))
    assert assume_missing(engine) == engine
    for keys in (("valve.length",), ("valve_drive.throw",), ("port_face.steam_port",)):
        assert set(keys).isdisjoint(assume_missing(without(engine, *keys)).numbers)


def test_a_valve_with_lap_beyond_its_throw_still_gets_an_angle_that_exists() -> None:
    engine = random_sound_engine(Random(3), lap_share=0.5)
    long_valve = without(engine.replacing({"valve.length": 1.0}), "valve_drive.eccentric_angle")
    assert assume_missing(long_valve).numbers["valve_drive.eccentric_angle"] == pytest.approx(pi / 2 + asin(0.9))


def test_each_assumption_is_shown_with_its_unit_its_reason_and_what_rests_on_it() -> None:
    known = {"stroke": 0.020, "valve_drive.throw": 0.003, "port_face.steam_port": 0.002, "valve.length": 0.012}
    told = {item.key: item for item in list_assumed(assume_missing(Sizes("B", known)))}
    assert told["connecting_rod"].value == "45.00 mm"
    assert told["valve_drive.eccentric_angle"].value == "90.0 deg"
    assert told["piston_rod"].value == "none"
    assert all(path.startswith("cylinders.B.") for item in told.values() for path in item.affects)
    assert all(item.because for item in told.values())
