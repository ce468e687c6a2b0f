"""`lapwright thread` and `lapwright drill` as a stranger runs them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.journey.program import list_files, run

pytestmark = pytest.mark.journey


def test_a_thread_is_told_on_one_sheet(tmp_path: Path) -> None:
    answer = run("thread", "4BA", folder=tmp_path)
    assert answer.status == 0
    for told in (
        "4 BA thread",
        "47.5 degrees",
        "3.600 mm (0.1417 in)",
        "0.660 mm (38.5 to the inch)",
        "3.205 mm",
        "2.810 mm",
        "7.10 mm²",
        "6.30 mm (0.248 in)",
        "3.00 mm (0.1181 in): 76 % of the full depth",
        "(from memory)",
        "Another list",
        "BS 93",
    ):
        assert told in answer.out, told
    assert max(map(len, answer.out.splitlines())) <= 80
    assert list_files(tmp_path) == set()


def test_a_thread_that_rests_on_memory_says_so_beside_its_sizes(tmp_path: Path) -> None:
    told = "(in part from memory, see below)"
    assert told in run("thread", "1/8 x 60", folder=tmp_path).out
    assert told not in run("thread", "1/8 x 40", folder=tmp_path).out


def test_a_thread_as_json_has_the_promised_fields(tmp_path: Path) -> None:
    found = json.loads(run("thread", "4BA", "--json", folder=tmp_path).out)
    promised = ("thread", "form_angle_deg", "major_mm", "pitch_mm", "effective_mm", "minor_mm", "tapping_drill_mm")
    assert [found[key] for key in promised] == ["4 BA", 47.5, 3.6, 0.66, 3.205, 2.81, 3.0]
    assert found["engagement_percent"] == pytest.approx(75.9, abs=0.1)
    assert "BS 93" in found["source"]


def test_a_measured_thread_is_named(tmp_path: Path) -> None:
    for pitch in ("0.66 mm", "38 tpi", "12 threads in 7.9 mm"):
        answer = run("thread", "--measured", "3.55 mm", "--pitch", pitch, folder=tmp_path)
        assert answer.status == 0
        assert "1. 4 BA" in answer.out
        assert "To tell 4 BA from" in answer.out
    found = json.loads(
        run("thread", "--measured", "3 mm", "--pitch", "0.66 mm", "--hole", "--json", folder=tmp_path).out
    )
    assert found["candidates"][0]["thread"] == "4 BA"


def test_a_measured_thread_is_told_in_a_machinists_words(tmp_path: Path) -> None:
    worn = " ".join(run("thread", "--measured", "3.4 mm", "--pitch", "38 tpi", folder=tmp_path).out.split())
    assert "1. 4 BA 3.60 mm x 0.660 mm: if it is worn or undersize, 0.20 mm under" in worn
    hole = ("thread", "--measured", "3.1 mm", "--pitch", "38 tpi", "--hole")
    assert "if it is worn or drilled large, 0.29 mm over" in " ".join(run(*hole, folder=tmp_path).out.split())
    thin = " ".join(run("thread", "--measured", "2.45 mm", "--pitch", "0.5 ± 0.02 mm", folder=tmp_path).out.split())
    assert "perhaps, 1.1 times what doubt and tolerance allow" in thin
    assert (
        "fits well (0.050 mm thinner, pitch"
        in run("thread", "--measured", "3.55 mm", "--pitch", "0.655 mm", folder=tmp_path).out
    )
    assert "deviation" not in worn + thin


def test_two_threads_are_compared(tmp_path: Path) -> None:
    answer = run("thread", "0BA", "--against", "M6", folder=tmp_path)
    assert answer.status == 0
    assert "0 BA screw in M6 hole:" in answer.out
    assert "M6 screw in 0 BA hole:" in answer.out
    assert "flanks differ" in answer.out


def test_drills_for_a_thread_and_threads_for_a_drill(tmp_path: Path) -> None:
    answer = run("drill", "4BA", "--in", "brass", "--drawers", "metric", folder=tmp_path)
    assert answer.status == 0
    for told in (
        "Tap with    3.00 mm",
        "As drilled  66 to 73 % is really left, enough",
        "close:  3.70 mm",
        "eye protection",
    ):
        assert told in answer.out, told
    assert "70 to 80 % of the full depth, reckoned on the drill's size (from memory)" in " ".join(answer.out.split())
    none = " ".join(run("drill", "1/4 x 40", "--in", "brass", "--drawers", "fraction", folder=tmp_path).out.split())
    assert "Tap with none of these drills of all drills 5.70 mm (0.2244 in): 80 % of the full depth Wanted" in none
    assert "7/32 in, 5.556 mm (0.2188 in): 98 % of the full depth, the tap breaks" in none
    both = " ".join(run("drill", "M4", "--engagement", "75 %", folder=tmp_path).out.split())
    assert "on the American basis" in both
    shank = run("drill", "No 30", folder=tmp_path).out
    assert "3.264 mm (0.1285 in)" in shank
    assert "1/8 in, 3.175 mm" in shank
    found = json.loads(run("drill", "3.1 mm", "--json", folder=tmp_path).out)
    assert found["diameter_mm"] == 3.1


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("thread", "7AB"), "7 BA"),
        (("thread", "1/4 x 41"), "1/4 x 40"),
        (("thread", "M3.1"), "M3"),
        (("thread",), "lapwright thread 4BA"),
        (("thread", "--pitch", "1 mm"), "--measured"),
        (("thread", "4BA", "--measured", "3 mm"), "one or the other"),
        (("thread", "4BA", "--against", "7AB"), "7 BA"),
        (("thread", "--measured", "-3 mm"), "not more than nothing"),
        (("thread", "--measured", "3 psi"), "psi"),
        (("thread", "--measured", "3 mm", "--pitch", "4 mm"), "no smaller than the thread"),
        (("drill", "7AB"), "7 BA"),
        (("drill", "No 81"), "No 1 to No 80"),
        (("drill", "3.1"), "3.1 mm"),
        (("drill", "4BA", "--in", "wood"), "steel"),
        (("drill", "4BA", "--drawers", "mine"), "number-letter"),
        (("drill", "4BA", "--engagement", "0.7"), "70 %"),
        (("drill", "4BA", "--engagement", "200 %"), "70 %"),
    ],
)
def test_bad_input_is_a_sentence_with_the_nearest_choice(words: tuple[str, ...], told: str, tmp_path: Path) -> None:
    answer = run(*words, folder=tmp_path)
    assert answer.status == 2
    assert told in answer.err
    assert answer.out == ""
    as_json = run(*words, "--json", folder=tmp_path)
    assert (as_json.status, as_json.out) == (2, "")
