"""The JSON of a run: its figures agree with each other and with plain sums done here, and none is ever not a number."""

from __future__ import annotations

import json
from math import pi
from typing import Any

import pytest

from lapwright.job.run.results import list_run
from lapwright.job.run.stand import Asked
from tests.unit.job.trials import RUNNERS, run, visit


def results(name: str, asked: Asked | None = None) -> dict[str, Any]:
    """What is printed for a demo engine."""
    return list_run(run(name, asked or Asked()), visit(name).record)


def turns_per_second(told: dict[str, Any]) -> float:
    return float(told["speed_rpm"]) / 60


@pytest.mark.parametrize("fluid", ["air", "steam"])
@pytest.mark.parametrize("name", RUNNERS)
def test_losses_and_uses_add_up_to_the_whole(name: str, fluid: str) -> None:
    told = results(name, Asked(fluid=fluid))
    losses = dict(told["losses_w"])
    full, brake = losses.pop("full"), losses.pop("brake")
    assert full - sum(losses.values()) == pytest.approx(brake, abs=1e-9 * full)
    assert brake == pytest.approx(told["indicated_power_w"] - told["friction_power_w"])
    taken = told["free_air_l_per_min"] if fluid == "air" else told["steam_g_per_min"]
    grams = sum(cylinder["mass_per_turn_mg"] for cylinder in told["cylinders"]) * told["speed_rpm"] / 1e3
    assert sum(told["uses_g_per_min"].values()) == pytest.approx(grams)
    # Free air at 20 degC and one atmosphere: 1.204 g to the litre.
    assert taken == pytest.approx(grams / 1.2041 if fluid == "air" else grams, rel=1e-3)


@pytest.mark.parametrize("name", RUNNERS)
def test_powers_torques_and_cards_tell_of_the_same_work(name: str) -> None:
    told = results(name)
    per_turn = sum(end["work_j_per_turn"] for c in told["cylinders"] for end in c["ends"].values())
    assert told["indicated_power_w"] == pytest.approx(per_turn * turns_per_second(told))
    omega = 2 * pi * turns_per_second(told)
    assert told["mean_torque_mnm"] == pytest.approx(1e3 * told["brake_power_w"] / omega)
    mean = sum(told["torque"]["torque_mnm"]) / len(told["torque"]["torque_mnm"])
    greatest = max(abs(torque) for torque in told["torque"]["torque_mnm"])
    # The torque is laid on even angles by straight lines, the work is summed on the run's own.
    assert mean * 2 * pi / 1e3 == pytest.approx(per_turn, abs=0.01 * greatest / 1e3 * 2 * pi)
    for cylinder in told["cylinders"]:
        for end in cylinder["ends"].values():
            full = told["supply_pressure_kpa"] - told["exhaust_pressure_kpa"]
            swept = max(end["card"]["volume_mm3"]) - min(end["card"]["volume_mm3"])
            assert area(end["card"]) == pytest.approx(end["work_j_per_turn"], abs=0.01 * full * swept * 1e-6)
            assert end["mean_effective_pressure_kpa"] == pytest.approx(
                end["work_j_per_turn"] / swept * 1e6, rel=2e-3, abs=0.1
            )


def area(card: dict[str, list[float]]) -> float:
    """Area of a pressure card [J], by trapezia."""
    volumes, pressures = card["volume_mm3"], card["pressure_kpa"]
    pairs = zip(volumes, pressures, [*volumes[1:], volumes[0]], [*pressures[1:], pressures[0]], strict=True)
    return sum((after - before) * (p + q) / 2 for before, p, after, q in pairs) * 1e-6


def test_the_rule_of_the_swept_volume_is_the_handbooks() -> None:
    """pi/4 (2 D2 - d2) S n (pg + pa) / pa, worked by hand for both cylinders of the Tern at 300 rpm and 2 bar."""
    told = results("tern", Asked(speed="300 rpm", pressure="2 bar"))
    bore, rod, stroke = 1.905, 0.3175, 1.905  # cm
    litres = 2 * pi / 4 * (2 * bore**2 - rod**2) * stroke / 1e3
    assert told["free_air_by_rule_l_per_min"] == pytest.approx(litres * 300 * 3.01325 / 1.01325, rel=1e-6)
    half = results("tern", Asked(speed="300 rpm", pressure="2 bar", dead=("B",)))
    assert half["free_air_by_rule_l_per_min"] == pytest.approx(told["free_air_by_rule_l_per_min"] / 2)


def test_what_one_fluid_does_not_have_is_null() -> None:
    air, steam = results("tern", Asked(fluid="air")), results("tern", Asked(fluid="steam"))
    assert air["steam_g_per_min"] is air["steam_dryness"] is air["cylinders"][0]["exhaust_dryness"] is None
    assert steam["free_air_l_per_min"] is steam["free_air_by_rule_l_per_min"] is steam["supply_temperature_c"] is None
    assert air["cylinders"][0]["condensed_mg_per_turn"] == 0
    assert steam["cylinders"][0]["condensed_mg_per_turn"] > 0
    assert results("merganser")["cylinders"][0]["valve"] is None


@pytest.mark.parametrize(
    "asked",
    [
        Asked(speed="5 rpm"),
        Asked(speed="50000 rpm"),
        Asked(speed="50000 rpm", fluid="steam"),
        Asked(pressure="0 bar"),
        Asked(pressure="0 bar", exhaust="-0.9 bar", fluid="steam"),
        Asked(pressure="100 bar", fluid="steam"),
        Asked(ideal=True, dead=("A",)),
    ],
    ids=["slow", "fast", "fast on steam", "nothing", "into a vacuum", "a hundred bar", "ideal and half dead"],
)
def test_at_the_ends_of_what_can_be_asked_every_figure_is_a_number_or_null(asked: Asked) -> None:
    text = json.dumps(results("tern", asked), allow_nan=False)
    assert "null" in text


def test_after_a_cure_the_same_is_told_and_the_gain_is_the_difference() -> None:
    told = results("dunlin", Asked(compare="best"))
    after, gain = told["after"], told["gain"]
    assert after.keys() == told.keys() - {"after", "gain", "problems"}
    assert told["cures"] == []
    assert after["cures"][0]["code"] == "new-valve"
    assert gain["brake_power_percent"] == pytest.approx(100 * (after["brake_power_w"] / told["brake_power_w"] - 1))
    air = after["free_air_l_per_min"] / told["free_air_l_per_min"]
    assert gain["consumption_percent"] == pytest.approx(100 * (air - 1))
    assert gain["consumption_percent"] < -20
    assert gain["least_pressure_kpa"] == {"before": told["least_pressure_kpa"], "after": after["least_pressure_kpa"]}


def test_there_is_no_percentage_of_nothing() -> None:
    gain = results("curlew", Asked(compare="best"))["gain"]
    assert gain["brake_power_percent"] is gain["consumption_for_work_percent"] is None
    assert gain["least_pressure_kpa"]["before"] is None
    assert gain["least_pressure_kpa"]["after"] > 0


def test_a_load_is_told_only_where_the_speed_was_found_from_it() -> None:
    assert results("tern", Asked(load="300 mN m"))["load_torque_mnm"] == pytest.approx(300)
    assert results("tern")["load_torque_mnm"] is results("tern")["load_power_w"] is None
