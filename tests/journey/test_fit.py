"""`lapwright fit`, run as a stranger runs it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.journey.program import list_files, run

pytestmark = pytest.mark.journey


def test_a_size_is_answered_on_the_terminal_and_as_json(tmp_path: Path) -> None:
    text = run("fit", "6 mm", folder=tmp_path)
    assert (text.status, text.err) == (0, "")
    assert "H7/p6  6.000 to 6.012" in text.out
    answer = run("fit", "6 mm", "H7/g6", "--json", folder=tmp_path)
    listed = json.loads(answer.out)
    assert listed["fits"][0]["shaft_mm"] == [5.988, 5.996]
    assert list_files(tmp_path) == set()


def test_a_worn_fork_is_measured_and_judged(tmp_path: Path) -> None:
    text = run("fit", "4.02 mm", "--pin", "3.98 mm", folder=tmp_path)
    assert (text.status, text.err) == (0, "")
    assert "0.040 mm on 4.00 mm is at the limit" in " ".join(text.out.split())
    listed = json.loads(run("fit", "4.02 mm", "--pin", "3.98 mm", "--json", folder=tmp_path).out)
    assert listed["measured"]["pin_inside"] == ["f7"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["6 mm", "H7/g5"], 'the nearest is "H7/g6"'),
        (["32 mm"], "it goes up to 30 mm"),
        # A figure under nothing is not taken for an option.
        (["-6 mm"], '"-6 mm" is no size for a fit'),
        (["-.25 in"], "is no size for a fit"),
        (["6"], "has no unit"),
        (["4.02 mm", "--pin", "2 mm"], "is none for a hole of 4.02 mm"),
        (["wide"], "cannot be read as a length"),
    ],
)
def test_bad_input_is_one_sentence_and_status_2(words: list[str], told: str, tmp_path: Path) -> None:
    answer = run("fit", *words, folder=tmp_path)
    assert answer.status == 2
    assert answer.out == ""
    assert told in answer.err
    assert len(answer.err.splitlines()) == 1


def test_an_unknown_option_is_still_told(tmp_path: Path) -> None:
    answer = run("fit", "6 mm", "--loose", folder=tmp_path)
    assert answer.status == 2
    assert "--loose" in answer.err
