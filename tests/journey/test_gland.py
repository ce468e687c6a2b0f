"""`lapwright gland` as a stranger meets it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.journey.program import list_files, run

pytestmark = pytest.mark.journey


def test_rod_and_bore_are_enough(tmp_path: Path) -> None:
    answer = run("gland", "--rod", "4 mm", "--bore", "8 mm", folder=tmp_path)
    assert answer.status == 0, answer.err
    assert "4 rings" in answer.out
    assert "clockwise" in answer.out
    assert "asbestos" in answer.out
    assert list_files(tmp_path) == set()


def test_json_has_its_names(tmp_path: Path) -> None:
    words = ("--rod", "2 in", "--bore", "4 in", "--depth", "6 in", "--nut-hand", "left", "--pressure", "30 psi")
    answer = run("gland", *words, "--fluid", "air", "--json", folder=tmp_path)
    assert answer.status == 0, answer.err
    told = json.loads(answer.out)
    # The book's own example: a 1 in section, 9.42 in of packing to a ring.
    assert told["section_mm"] == 25.4
    assert told["cut_length_mm"] / 25.4 == pytest.approx(9.42, abs=0.005)
    assert told["winding"] == "anticlockwise"
    assert told["friction_twice_n"] == pytest.approx(2 * told["friction_n"], abs=0.002)
    assert {"rings", "total_length_mm", "seating_pressure_kpa", "steps", "cautions", "have_ready"} <= told.keys()


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--rod", "8 mm", "--bore", "4 mm"), "a rod of 8.00 mm does not go into a box of 4.00 mm"),
        (("--rod", "-4 mm", "--bore", "8 mm"), "is no size of a gland"),
        (("--rod", "4", "--bore", "8 mm"), 'write "4 in" or "4 mm"'),
        (("--rod", "4 bar", "--bore", "8 mm"), "use one of mm"),
        (("--rod", "4 mm", "--bore", "8 mm", "--nut", "1/4 x 41"), "1/4 x 40"),
        (("--rod", "4 mm", "--bore", "8 mm", "--material", "rubber"), "graphite yarn"),
        (("--rod", "4 mm", "--bore", "8 mm", "--nut-hand", "up"), "left"),
        (("--rod", "4 mm"), "--bore"),
    ],
)
def test_bad_input_is_answered_with_a_sentence_and_status_2(tmp_path: Path, words: tuple[str, ...], said: str) -> None:
    answer = run("gland", *words, folder=tmp_path)
    assert answer.status == 2
    assert answer.out == ""
    assert said in answer.err
