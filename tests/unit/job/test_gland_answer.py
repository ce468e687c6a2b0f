"""A gland's answer: texts as people write them in, figures and their names out."""

from __future__ import annotations

import json

import pytest

from lapwright.errors import BadInput
from lapwright.job.lookup.gland_answer import GlandAsked, answer_gland, list_gland


def ask(**words: str) -> dict[str, object]:
    asked = {"rod": "4 mm", "bore": "8 mm", "depth": "10 mm", **words}
    return list_gland(answer_gland(GlandAsked(**asked)))


def test_the_names_and_figures_of_json() -> None:
    told = ask(fluid="steam", pressure="3 bar", nut="3/8 x 32", oil="none")
    assert {
        "answer": "packing",
        "section_mm": 2.0,
        "rings": 4,
        # pi x 6 = 18.850
        "cut_length_mm": 18.85,
        "total_length_mm": 120.0,
        "wound_length_mm": 75.821,
        "winding": "clockwise",
        "joint": "butt",
        "stagger_deg": 90,
        "packing": "2 mm",
        "packing_fit": "fits",
        "strands_percent": 100.0,
        "spacer_mm": 0.0,
        "nut": "3/8 x 32 ME",
        # 25.4 / 32 / 8 = 0.0992, / 6 = 0.1323
        "nut_eighth_turn_mm": 0.099,
        "nut_flat_mm": 0.132,
        "pressure_kpa": 300.0,
        "holding_kpa": 300.0,
        "temperature_degc": 143.7,
        # By hand in the test of the plan.
        "seating_pressure_kpa": 969.6,
        "gland_thrust_n": 36.55,
        "friction_n": 4.645,
        "friction_twice_n": 9.29,
    }.items() <= told.items()


def test_inches_and_tolerances_are_read() -> None:
    told = ask(rod="5/32 ± 0.001 in", bore="5/16 in", depth="0.4 in")
    # (0.3125 - 0.15625)/2 = 0.078125 in = 1.984 mm, out by half a thou: 0.0127 mm.
    assert told["section_mm"] == 1.984
    assert told["section_doubt_mm"] == 0.013
    assert ask()["section_doubt_mm"] is None


def test_only_rod_and_bore_are_needed() -> None:
    told = list_gland(answer_gland(GlandAsked(rod="4 mm", bore="8 mm")))
    assert told["rings"] == 4
    assert told["depth_mm"] is told["pressure_kpa"] is told["temperature_degc"] is told["nut_flat_mm"] is None
    assert told["holding_kpa"] == 100.0


def test_everything_goes_into_json_without_a_loss() -> None:
    told = ask(fluid="air", oil="none", material="NBR")
    assert json.loads(json.dumps(told, allow_nan=False)) == told
    assert told["asked"]["verdict"] == "suits"
    assert told["material"]["name"] == "graphite yarn"
    assert told["answer"] == "O-ring"
    assert any("Counterbore" in step for step in told["steps"])
    assert any("Wind the packing" in step for step in told["packing_steps"])
    assert (told["orings"][0]["way"], told["orings"][0]["tolerance_taken"]) == ("bush", True)
    assert told["orings"][0]["code"] == "0041-16"
    assert {"squeeze_percent", "squeeze_least_percent", "squeeze_most_percent", "fill_percent", "fits", "how"} <= set(
        told["orings"][0]
    )


def test_an_absolute_pressure_and_a_given_temperature_are_used() -> None:
    assert ask(fluid="steam", pressure="4.01325 bar abs")["pressure_kpa"] == pytest.approx(300.0, abs=0.001)
    assert ask(fluid="steam", pressure="3 bar", temperature="200 degC")["temperature_degc"] == 200.0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ({"rod": "8 mm", "bore": "4 mm"}, "a rod of 8.00 mm does not go into a box of 4.00 mm"),
        ({"rod": "-4 mm"}, '"-4 mm" is no size of a gland: write what was measured, above nothing'),
        ({"bore": "0 mm"}, '"0 mm" is no size of a gland'),
        ({"depth": "-1 mm"}, '"-1 mm" is no size of a gland'),
        ({"rod": "4"}, '4 has no unit: write "4 in" or "4 mm"'),
        ({"rod": "4 bar"}, 'unit "bar" is not known here: use one of mm'),
        ({"pressure": "3 mm"}, 'unit "mm" is not known here: use one of bar'),
        ({"pressure": "-0.5 bar"}, "is below the atmosphere: write gauge pressure"),
        ({"depth": "2 mm"}, "three rings need a depth of 7.00 mm"),
        ({"bore": "4.2 mm"}, "too little to pack"),
        ({"nut": "1/4 x 41"}, 'the nearest: "1/4 x 40 ME"'),
        ({"nut": "7AB"}, "7 BA"),
        ({"nut_hand": "up"}, 'write "right" or "left"'),
        ({"material": "rubber"}, '"rubber" is not a word for this'),
        ({"fluid": "gas"}, 'write "air" or "steam" or "water"'),
        ({"oil": "olive"}, 'write "mineral" or "none"'),
        ({"joint": "bevel"}, 'write "butt" or "skive"'),
        ({"fluid": "steam", "pressure": "500 bar"}, "is no pressure at which water boils"),
    ],
)
def test_what_cannot_be_used_is_refused_with_what_to_write(words: dict[str, str], said: str) -> None:
    with pytest.raises(BadInput) as refused:
        ask(**words)
    assert said in str(refused.value)


def test_a_nut_that_does_not_go_over_the_rod_is_refused() -> None:
    with pytest.raises(BadInput, match="does not even go over a rod of"):
        ask(rod="1/8 in", bore="1/4 in", nut="M3")
    with pytest.raises(BadInput, match="no larger than the bore of the box"):
        ask(nut="5/16 x 32")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ({"oil": "steam oil"}, {"oil": "mineral"}),
        ({"nut_hand": "left-hand"}, {"nut_hand": "left", "winding": "anticlockwise"}),
        ({"nut_hand": "LH"}, {"nut_hand": "left"}),
        ({"fluid": "Steam"}, {"fluid": "steam"}),
        ({"fluid": "compressed air"}, {"fluid": "air"}),
        ({"joint": "Butt joint"}, {"joint": "butt"}),
        ({"joint": "scarf"}, {"joint": "skive"}),
        ({"joint": "45°"}, {"joint": "skive"}),
    ],
)
def test_words_are_taken_as_people_write_them(words: dict[str, str], told: dict[str, str]) -> None:
    assert told.items() <= ask(**words).items()
