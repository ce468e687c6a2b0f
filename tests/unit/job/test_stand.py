"""What is asked for goes before the record, the record before what is taken, and what is taken is told."""

from __future__ import annotations

from dataclasses import replace
from math import pi, radians

import pytest

from lapwright.cycle.conditions import ATMOSPHERE
from lapwright.engine.running import Running
from lapwright.errors import BadInput, CannotRun
from lapwright.job.run.stand import Asked, Stand, prepare_stand
from lapwright.job.visit import Visit
from tests.unit.job.trials import visit
from tests.unit.papers.matters import cylinder, visit_of, with_engine


def told(stand: Stand) -> dict[str, str]:
    """What was taken, by key."""
    return {assumed.key: assumed.value for assumed in stand.assumed}


def with_running(given: Visit, **fields: float) -> Visit:
    """The same engine with something said of its running."""
    return with_engine(given, replace(given.engine, running=replace(given.engine.running, **fields)))


def test_where_nothing_is_said_everything_taken_is_told() -> None:
    stand = prepare_stand(visit_of(cylinder()), Asked())
    assert stand.conditions.fluid == "air"
    assert stand.conditions.supply == pytest.approx(2e5 + ATMOSPHERE)
    assert stand.conditions.exhaust == pytest.approx(ATMOSPHERE)
    known = {"engine.fluid": "air", "engine.supply_pressure": "2.00 bar", "engine.exhaust_pressure": "0.00 bar"}
    assert known.items() <= told(stand).items()
    assert told(stand)["speed"] == f"{stand.conditions.speed * 30 / pi:.0f} rpm"
    assert told(stand)["running.ring_gap"] == "4 µm"
    assert all(assumed.because for assumed in stand.assumed)


def test_what_is_asked_for_is_neither_the_records_nor_assumed() -> None:
    asked = Asked(fluid="steam", pressure="30 psi", exhaust="1 psi", speed="600 rpm", dryness="0.9")
    stand = prepare_stand(visit("tern"), asked)
    conditions = stand.conditions
    assert conditions.supply - ATMOSPHERE == pytest.approx(30 * 6894.757, rel=1e-6)
    assert conditions.exhaust - ATMOSPHERE == pytest.approx(6894.757, rel=1e-6)
    assert conditions.speed == pytest.approx(20 * pi)
    assert (conditions.fluid, conditions.dryness) == ("steam", 0.9)
    assert (
        not {"engine.supply_pressure", "engine.exhaust_pressure", "speed", "running.steam_dryness"} & told(stand).keys()
    )


def test_pressures_are_shown_in_the_unit_that_was_used() -> None:
    assert prepare_stand(visit("dunlin"), Asked()).show(ATMOSPHERE + 206_843) == "30.0 psi"
    assert prepare_stand(visit("dunlin"), Asked(pressure="150 kPa")).show(ATMOSPHERE + 150_000) == "150 kPa"
    assert prepare_stand(visit("tern"), Asked()).show(ATMOSPHERE + 45_000) == "0.45 bar"


def test_the_exhaust_lifts_the_pressure_that_is_taken() -> None:
    stand = prepare_stand(visit_of(cylinder()), Asked(exhaust="1 bar"))
    assert stand.conditions.supply - stand.conditions.exhaust == pytest.approx(2e5)


def test_the_records_load_counts_where_neither_speed_nor_load_is_asked_for() -> None:
    loaded = with_running(visit("tern"), load_torque=0.03)
    stand = prepare_stand(loaded, Asked())
    assert stand.is_loaded
    assert stand.load_torque == 0.03
    assert "speed" not in told(stand)
    assert not prepare_stand(loaded, Asked(speed="300 rpm")).is_loaded
    asked = prepare_stand(loaded, Asked(load="5 W"))
    assert (asked.load_torque, asked.load_power) == (0.0, 5.0)


def test_a_load_is_never_among_what_was_taken() -> None:
    for asked in (Asked(), Asked(speed="300 rpm"), Asked(load="5 W")):
        assert "running.load" not in told(prepare_stand(visit("tern"), asked))


def test_steam_is_wet_or_superheated_and_one_puts_the_other_out() -> None:
    hot = prepare_stand(visit("merganser"), Asked(temperature="200 degC"))
    assert hot.conditions.supply_temperature == pytest.approx(473.15)
    assert "running.steam_dryness" not in told(hot)
    recorded = with_running(visit("merganser"), supply_temperature=450.0)
    wet = prepare_stand(recorded, Asked(dryness="95 %"))
    assert wet.conditions.supply_temperature is None
    assert wet.conditions.dryness == 0.95
    # The record speaks of steam; air of that warmth was not meant.
    cold = prepare_stand(recorded, Asked(fluid="air"))
    assert cold.conditions.supply_temperature == pytest.approx(293.15)


def test_an_ideal_run_takes_nothing_that_it_leaves_out() -> None:
    stand = prepare_stand(visit("merganser"), Asked(ideal=True))
    left_out = ("ring_gap", "valve_face_gap", "gland_gap", "wall_heat", "friction_pressure")
    assert not {f"running.{key}" for key in left_out} & told(stand).keys()
    assert "running.discharge_coefficient" in told(stand)


def test_a_valve_without_a_flat_face_takes_no_friction_of_it() -> None:
    assert "running.valve_friction" in told(prepare_stand(visit("tern"), Asked()))
    assert "running.valve_friction" not in told(prepare_stand(visit("merganser"), Asked()))


def test_a_crank_phase_that_nobody_gave_is_told() -> None:
    first, second = cylinder(), replace(cylinder(), name="B", assumed={"crank_phase": "not given: taken as 0"})
    assert told(prepare_stand(visit_of(first, second), Asked()))["cylinder.B.crank_phase"] == "0 deg"


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        (
            Asked(speed="300 rpm", load="5 W"),
            "the engine cannot be run: both a speed and a load are given: give one: the run tells the other",
        ),
        (
            Asked(dead=("A", "B")),
            "the engine cannot be run: no cylinder is left to drive it: leave the pipes of one of them on",
        ),
        (
            Asked(dryness="0.9"),
            "the engine cannot be run: a dryness is given, which only steam has: leave it out, or run on steam",
        ),
        (
            Asked(fluid="steam", dryness="0.9", temperature="200 C"),
            "the engine cannot be run: steam is given both as wet and as superheated: give its dryness or its "
            "temperature, not both",
        ),
        (
            Asked(pressure="10 psi", exhaust="1 bar"),
            "the engine cannot be run: its supply, 10.0 psi, is below its exhaust, 14.5 psi: check both pressures",
        ),
        (Asked(dead=("C",)), "cylinder C cannot be run: the engine has none of that name: its cylinders: A, B"),
    ],
)
def test_what_does_not_go_together_is_refused_in_a_sentence(asked: Asked, sentence: str) -> None:
    with pytest.raises(CannotRun) as caught:
        prepare_stand(visit("tern"), asked)
    assert str(caught.value) == sentence


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (Asked(speed="600"), 'write "600 rpm"'),
        (Asked(speed="0 rpm"), "not more than nothing"),
        (Asked(pressure="2"), 'write "2 bar" or "2 psi"'),
        (Asked(pressure=""), "cannot be read as a pressure"),
        (Asked(load="5"), 'write "5 mN m" or "5 W"'),
        (Asked(temperature="20"), "degC"),
        (Asked(fluid="steam", dryness="1.9"), "not between 0 and 1"),
    ],
)
def test_what_cannot_be_read_says_how_to_write_it(asked: Asked, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        prepare_stand(visit("tern"), asked)


def test_a_missing_size_is_named() -> None:
    with pytest.raises(CannotRun, match=r"not known: valve\.cavity"):
        prepare_stand(visit("knot"), Asked())


def test_other_sizes_run_in_place_of_the_engines_own() -> None:
    turned = tuple(sizes.replacing({"valve_drive.eccentric_angle": radians(100)}) for sizes in visit("tern").cylinders)
    stand = prepare_stand(visit("tern"), Asked(), cylinders=turned)
    assert stand.plant.setups[0].sizes.numbers["valve_drive.eccentric_angle"] == radians(100)


def test_nothing_said_of_the_running_is_nothing_given() -> None:
    assert visit_of(cylinder()).engine.running == Running()
