"""What is taken for a run where the record is silent."""

from dataclasses import fields, replace
from math import pi

import pytest

from lapwright.engine.engine import FLUIDS, Engine
from lapwright.engine.running import Running, assume_running
from lapwright.engine.sizes import Doubt

SILENT = Engine(name="Tern", cylinders=())
WHOLE = Running(
    discharge_coefficient=0.6,
    friction_pressure=1e4,
    ring_gap=1e-6,
    valve_face_gap=1e-6,
    gland_gap=1e-6,
    wall_heat="none",
    supply_temperature=450.0,
    steam_dryness=0.9,
    load_power=5.0,
    flywheel_inertia=1e-3,
    supply_bore=4e-3,
    exhaust_bore=5e-3,
    passage_bore=3e-3,
    valve_friction=0.1,
    doubts={"ring_gap": Doubt(1e-6, 1e-6)},
)


def assume(engine: Engine, fluid: str) -> tuple[Running, dict[str, str]]:
    running, assumed = assume_running(engine, fluid=fluid, stroke=0.020)
    return running, {item.key: item.value for item in assumed}


@pytest.mark.parametrize("fluid", FLUIDS)
def test_what_is_given_is_taken_as_it_is_and_nothing_is_told(fluid: str) -> None:
    running, told = assume(replace(SILENT, running=WHOLE), fluid)
    assert running == WHOLE
    assert told == {}


def test_air_is_taken_from_the_room_and_has_no_dryness() -> None:
    running, told = assume(SILENT, "air")
    assert (running.supply_temperature, running.steam_dryness) == (293.15, None)
    assert told["running.supply_temperature"] == "20 degC"
    assert "running.steam_dryness" not in told


def test_steam_is_taken_as_wet_unless_its_temperature_is_given() -> None:
    running, told = assume(SILENT, "steam")
    assert (running.supply_temperature, running.steam_dryness) == (None, 0.98)
    assert told["running.steam_dryness"] == "0.98"
    hot, hot_told = assume(replace(SILENT, running=Running(supply_temperature=450.0)), "steam")
    assert (hot.supply_temperature, hot.steam_dryness) == (450.0, None)
    assert not {"running.steam_dryness", "running.supply_temperature"} & hot_told.keys()


def test_the_warmth_of_the_air_is_not_taken_for_that_of_steam() -> None:
    on_air = replace(SILENT, fluid="air", running=Running(supply_temperature=290.0))
    assert assume(on_air, "air")[0].supply_temperature == 290.0
    assert assume(on_air, "steam")[0].supply_temperature is None
    assert assume(on_air, "steam")[0].steam_dryness == 0.98


@pytest.mark.parametrize("load", [Running(load_torque=0.1), Running(load_power=5.0)])
def test_a_load_is_not_taken_beside_the_one_that_is_given(load: Running) -> None:
    running, told = assume(replace(SILENT, running=load), "air")
    assert (running.load_torque, running.load_power) == (load.load_torque, load.load_power)
    assert "running.load" not in told
    assert assume(SILENT, "air")[1]["running.load"] == "0 N m"


def test_the_flywheel_is_an_iron_disc_by_the_stroke() -> None:
    running, told = assume(SILENT, "air")
    mass = 7200 * pi * 0.040**2 * 0.010
    assert running.flywheel_inertia == pytest.approx(mass * 0.040**2 / 2)
    assert told["running.flywheel_inertia"] == "2.9 kg cm2"
    larger, _ = assume_running(SILENT, fluid="air", stroke=0.040)
    assert larger.flywheel_inertia == pytest.approx(32 * running.flywheel_inertia)


@pytest.mark.parametrize("fluid", FLUIDS)
def test_every_field_is_filled_or_has_its_reason_to_stay_empty(fluid: str) -> None:
    running, assumed = assume_running(SILENT, fluid=fluid, stroke=0.020)
    empty = {field.name for field in fields(Running) if getattr(running, field.name) is None}
    needless = {"steam_dryness"} if fluid == "air" else {"supply_temperature"}
    assert empty == {"load_power", "supply_bore", "exhaust_bore", "passage_bore", *needless}
    assert all(item.because and item.affects == ("run",) for item in assumed)
