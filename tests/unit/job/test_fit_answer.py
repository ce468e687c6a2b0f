"""What `fit` answers, from text to figures, and what it refuses."""

from __future__ import annotations

import json

import pytest

from lapwright.errors import BadInput
from lapwright.job.lookup.fit_answer import answer_fit, list_fit


def test_all_fits_of_a_size_by_their_stable_names() -> None:
    listed = list_fit(answer_fit("6 mm"))
    assert listed["size_mm"] == 6.0
    assert [fit["fit"] for fit in listed["fits"]] == ["H7/h6", "H7/g6", "H7/f7", "H8/f7", "H7/p6"]
    # ISO 286-2, over 3 up to 6 mm: H7 0 +12, g6 -12 -4 µm.
    close = listed["fits"][1]
    assert (close["hole_mm"], close["shaft_mm"]) == ([6.0, 6.012], [5.988, 5.996])
    assert (close["least_clearance_um"], close["most_clearance_um"]) == (4.0, 24.0)
    assert close["kind"] == "close running"
    assert "ISO 286" in close["source"]
    assert "clearance" not in listed
    json.dumps(listed, allow_nan=False)


def test_an_inch_size_is_laid_off_in_its_band() -> None:
    # 1/4 in is 6.35 mm, over 6 up to 10: H7 0 +15, p6 +15 +24 µm.
    listed = list_fit(answer_fit("1/4 in", "H7/p6"))
    assert listed["size_mm"] == 6.35
    assert listed["fits"][0]["hole_mm"] == [6.35, 6.365]
    assert listed["fits"][0]["shaft_mm"] == [6.365, 6.374]
    assert listed["fits"][0]["least_clearance_um"] == -24.0
    assert str(listed["fits"][0]["most_clearance_um"]) == "0.0"


def test_a_clearance_is_judged_and_the_fits_that_give_it_are_told() -> None:
    listed = list_fit(answer_fit("6 mm", clearance="15 µm"))["clearance"]
    assert listed["verdict"] == "fine"
    assert (listed["wanted_um"], listed["least_um"], listed["most_um"]) == (10.0, 5.0, 40.0)
    assert listed["given_by"] == ["H7/g6", "H7/h6", "H7/f7", "H8/f7"]
    assert [rule["is_used"] for rule in listed["rules"]] == [True, False, False, False, False]
    # 6 mm: 2 thou + 1 per inch = 50.8 + 6.0 µm.
    assert listed["rules"][-1]["clearance_um"] == pytest.approx(56.8)


def test_a_tolerance_of_the_size_is_left_aside_and_that_is_said() -> None:
    assert "left aside" in answer_fit("6 ± 0.1 mm", "H7/g6").notes[0]
    assert answer_fit("6 mm", "H7/g6").notes == ()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("6",), 'write "6 in" or "6 mm"'),
        (("0 mm",), '"0 mm" is no size for a fit'),
        (("-6 mm",), '"-6 mm" is no size for a fit: write it like "6 mm"'),
        (("30.01 mm",), "30.01 mm is not in the table of fits: it goes up to 30 mm"),
        (("1 1/4 in",), "1 1/4 in is not in the table of fits"),
        (("6 bar",), "use one of mm"),
        (("6 mm", "H7/g5"), 'the nearest is "H7/g6"'),
        (("6 mm", ""), "the table has H7/h6"),
    ],
)
def test_bad_input_is_a_sentence_with_what_to_write(words: tuple[str, ...], told: str) -> None:
    with pytest.raises(BadInput) as refused:
        answer_fit(*words)
    assert told in str(refused.value)


@pytest.mark.parametrize(
    ("fit", "clearance", "told"),
    # 4 mm: H7/f7 leaves 10 to 34 µm, H7/p6 0 to 20 µm tight.
    [
        ("H7/f7", "0.04 mm", "outside H7/f7, which leaves 0.010 mm to 0.034 mm: 0.006 mm too much."),
        ("H7/f7", "-0.01 mm", "outside H7/f7, which leaves 0.010 mm to 0.034 mm: 0.020 mm too little."),
        ("H7/f7", "0.034 mm", ""),
        ("H7/p6", "-0.01 mm", ""),
        (None, "0.2 mm", ""),
    ],
)
def test_a_clearance_outside_the_fit_that_was_asked_for_is_told(fit: str | None, clearance: str, told: str) -> None:
    notes = answer_fit("4 mm", fit, clearance=clearance).notes
    assert told in " ".join(notes)
    assert any("outside" in note for note in notes) == bool(told)


def test_a_measured_hole_and_pin_are_held_against_their_limits() -> None:
    listed = list_fit(answer_fit("4.02 mm", pin="3.98 mm"))
    # ISO 286-2, 4 mm: H8 up to 4.018, f7 3.978 to 3.990.
    assert listed["size_mm"] == 4.0
    assert listed["measured"] == {"hole_mm": 4.02, "pin_mm": 3.98, "hole_inside": [], "pin_inside": ["f7"]}
    assert (listed["clearance"]["clearance_um"], listed["clearance"]["verdict"]) == (40.0, "at the limit")
    assert listed["notes"][0].startswith("It is the hole that is outside its limits")
    assert "Taken as made to 4 mm" in listed["notes"][1]
    json.dumps(listed, allow_nan=False)


@pytest.mark.parametrize(
    ("hole", "pin", "size", "told"),
    [
        ("0.1875 in", "0.1860 in", 4.7625, "It is the pin that is outside"),
        ("4.05 mm", "3.95 mm", 4.0, "Both are outside"),
        ("4.017 mm", "3.979 mm", 4.0, "Both are inside limits"),
        ("3.18 mm", "3.16 mm", 3.175, "Taken as made to 1/8 in"),
        ("3.61 mm", "3.59 mm", 3.6, "Taken as made to 3.6 mm"),
        ("4.75 mm", "4.74 mm", 4.75, "No usual size lies between hole and pin: the limits are laid off from 4.75 mm"),
        ("4.000 mm", "4.015 mm", 4.0, "Taken as made to 4 mm"),
        ("30 mm", "29.99 mm", 30.0, "Taken as made to 30 mm"),
    ],
)
def test_the_size_they_were_made_to_and_which_is_worn(hole: str, pin: str, size: float, told: str) -> None:
    answer = answer_fit(hole, pin=pin)
    assert 1e3 * answer.size.si == pytest.approx(size)
    assert told in answer.notes[0]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ({"pin": "2 mm"}, "a pin of 2 mm is none for a hole of 4.02 mm"),
        ({"pin": "-3.98 mm"}, "is no size for a pin"),
        ({"pin": "3.98"}, "has no unit"),
        ({"pin": "3.98 mm", "clearance": "0.04 mm"}, "a pin and a clearance are both given"),
    ],
)
def test_a_pin_that_cannot_be_is_refused(words: dict[str, str], told: str) -> None:
    with pytest.raises(BadInput) as refused:
        answer_fit("4.02 mm", **words)
    assert told in str(refused.value)


@pytest.mark.parametrize("clearance", ["6 mm", "-7 mm", "2"])
def test_a_clearance_as_large_as_the_size_is_refused(clearance: str) -> None:
    with pytest.raises(BadInput):
        answer_fit("6 mm", clearance=clearance)
