"""A trial answers what was asked: the settled speed, the run after a cure, or why there is none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.errors import CannotRun
from lapwright.job.run.stand import Asked
from lapwright.job.run.trial import pick_cures, try_engine
from tests.unit.job.trials import run, visit


@pytest.mark.parametrize("fluid", ["air", "steam"])
def test_a_settled_engine_gives_just_what_the_load_takes(fluid: str) -> None:
    torque = run("tern", Asked(fluid=fluid, load="300 mN m"))
    assert torque.run.mean_torque == pytest.approx(0.300, rel=2e-3)
    power = run("tern", Asked(fluid=fluid, load="20 W"))
    assert power.run.brake_power == pytest.approx(20.0, rel=2e-3)


def test_more_load_is_less_speed() -> None:
    speeds = [run("sandpiper", Asked(load=load)).run.conditions.speed for load in ("0 W", "30 mN m", "60 mN m")]
    assert speeds[0] > speeds[1] > speeds[2] > 0


def test_a_load_that_stalls_it_says_what_would_not() -> None:
    with pytest.raises(
        CannotRun, match=r"a load of 5\.00 N m stalls it: turning slowly it gives \d{3} mN m at 2\.00 bar"
    ):
        run("tern", Asked(load="5 N m"))
    with pytest.raises(CannotRun, match=r"at no speed does it give 5000 W at 2\.00 bar"):
        run("tern", Asked(load="5 kW"))
    with pytest.raises(CannotRun, match=r"at 3\.00 bar it does not turn over, even without a load"):
        run("curlew", Asked(load="1 mN m"))


def test_a_load_that_only_the_cure_carries_is_told_with_the_speed_after_it() -> None:
    with pytest.raises(CannotRun, match=r"the engine as found .*: after the cure it settles at \d+ rpm"):
        run("curlew", Asked(load="1 N m", compare="best"))
    with pytest.raises(CannotRun, match=r"the engine after the cure cannot be run: a load of 50\.0 N m stalls it"):
        run("curlew", Asked(load="50 N m", compare="best"))


def test_an_engine_with_nothing_to_hold_it_runs_away() -> None:
    light = visit("tern")
    wide = tuple(sizes.replacing({"port_face.port_length": 0.5}) for sizes in light.engine.cylinders)
    with pytest.raises(CannotRun, match="run away"):
        try_engine(
            replace(light, engine=replace(light.engine, cylinders=wide)),
            Asked(load="0 W", ideal=True, pressure="10 bar"),
        )


def test_a_cure_is_run_in_every_cylinder_that_has_it() -> None:
    trial = run("tern", Asked(compare="best"))
    after = trial.after
    assert after is not None
    assert [cure.cylinder for cure in after.cures] == ["A", "B"]
    assert {cure.code for cure in after.cures} == {"shorten-valve"}
    assert after.run.brake_power > trial.run.brake_power
    assert after.least_pressure < trial.least_pressure
    assert after.motions["A"].ends["head"].lead_mm > trial.motions["A"].ends["head"].lead_mm
    assert "more power" in trial.tell_gain()
    assert after.run.conditions == trial.run.conditions


@pytest.mark.parametrize("name", ["curlew", "dunlin", "merganser", "plover", "tern"])
def test_every_cure_that_is_named_can_be_run(name: str) -> None:
    for code in {cure.code for cure in visit(name).cures}:
        after = run(name, Asked(compare=code)).after
        assert after is not None
        assert {cure.code for cure in after.cures} == {code}
        assert after.run.settled


def test_under_a_load_the_cured_engine_settles_by_itself() -> None:
    trial = run("tern", Asked(compare="best", load="500 mN m"))
    assert trial.after is not None
    assert trial.after.run.conditions.speed > 1.2 * trial.run.conditions.speed


def test_a_cure_of_no_such_name_is_told_with_those_there_are() -> None:
    with pytest.raises(
        CannotRun, match=r'after "polish" cannot be run: it has no cure of that name: its cures are shor'
    ):
        pick_cures(visit("tern"), "polish")
    with pytest.raises(CannotRun, match="none is known for it"):
        pick_cures(visit("sandpiper"), "best")


def test_a_dragged_cylinder_takes_power_and_no_air() -> None:
    whole, half = run("tern", Asked()), run("tern", Asked(dead=("B",)))
    dragged = half.run.cylinders[1]
    assert dragged.work < 0
    assert half.run.supplied == pytest.approx(whole.run.supplied / 2, rel=0.01)
    assert half.run.brake_power < whole.run.brake_power / 2
    assert half.run.friction_power == whole.run.friction_power
    assert half.least_pressure > whole.least_pressure


def test_without_friction_there_is_no_least_pressure_to_speak_of() -> None:
    assert run("tern", Asked(ideal=True)).least_pressure is None


def test_superheated_steam_is_not_tried_where_it_would_be_water() -> None:
    trial = run("curlew", Asked(temperature="160 degC"))
    assert trial.least_pressure is None
    assert trial.run.indicated_power < 0
