"""What `fit` answers, from text to figures, and what it refuses."""

from __future__ import annotations

import json

import pytest

from lapwright.errors import BadInput
from lapwright.job.fit_answer import answer_fit, list_fit


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


@pytest.mark.parametrize("clearance", ["6 mm", "-7 mm", "2"])
def test_a_clearance_as_large_as_the_size_is_refused(clearance: str) -> None:
    with pytest.raises(BadInput):
        answer_fit("6 mm", clearance=clearance)
