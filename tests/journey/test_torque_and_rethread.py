"""The commands torque and rethread as a stranger runs them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.journey.program import list_files, run

pytestmark = pytest.mark.journey


def test_a_person_at_the_bench_asks_how_tight_and_what_holds(tmp_path: Path) -> None:
    answer = run("torque", "4BA", "--screw", "brass", "--in", "gunmetal", "--engagement", "4 mm", folder=tmp_path)
    assert (answer.status, answer.err) == (0, "")
    assert "4 BA brass screw in gunmetal" in answer.out
    assert "Source:" in answer.out
    held = run("torque", "4BA", "--grub", "--shaft", "5 mm", "--hold", "0.05 N m", folder=tmp_path)
    assert held.status == 0
    assert "Enough?" in held.out
    assert list_files(tmp_path) == set()


def test_a_worn_hole_is_told_what_it_can_be_cut_to(tmp_path: Path) -> None:
    answer = run("rethread", "4BA", "3BA", "--depth", "5 mm", "--wall", "3 mm", folder=tmp_path)
    assert (answer.status, answer.err) == (0, "")
    assert "57 % of the thread in the worst place, 84 % on the mean" in answer.out
    assert "Caution: Clamp the work" in answer.out


def test_a_recalled_drill_a_grade_and_the_basis_of_percentages_are_told(tmp_path: Path) -> None:
    answer = run("rethread", "4BA", "--in", "LG2", folder=tmp_path).out
    assert answer.startswith("4 BA hole, worn, in gunmetal\n")
    assert "2 BA (4.70 mm): drill 4.00 mm (from memory), 72 %" in answer
    assert "Percentages are of the full depth of each form itself." in answer
    assert "Percentages are" not in run("rethread", "4BA", "3BA", folder=tmp_path).out
    hot = run("rethread", "8BA", "--keep-screw", "--wall", "4 mm", "--temperature", "150 C", folder=tmp_path)
    assert "retaining compound that stands 150 degC" in hot.out


def test_json_has_the_agreed_names(tmp_path: Path) -> None:
    told = json.loads(run("rethread", "4BA", "3BA", "--json", folder=tmp_path).out)
    assert told["worst_engagement_percent"] == pytest.approx(57, abs=0.5)
    assert told["mean_engagement_percent"] == pytest.approx(84, abs=0.5)
    assert told["cleans_up"] is False
    assert told["tapping_drill_mm"] == pytest.approx(3.4)
    assert told["percent_basis"] == "own"
    listed = json.loads(run("rethread", "4BA", "--stripped", "--json", folder=tmp_path).out)
    assert listed["choices"][0]["to"] == "2 BA"
    torque = json.loads(run("torque", "M4", "--grub", "--engagement", "2.4 mm", "--json", folder=tmp_path).out)
    assert torque["torque_nm"] == 2.2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("torque", "7AB"), "7 BA"),
        (("torque", "4BA", "--engagement", "4"), "has no unit"),
        (("torque", "4BA", "--engagement", "-4 mm"), "not more than nothing"),
        (("torque", "4BA", "--in", "cheese"), "brass"),
        (("torque", "4BA", "--hold", "5 mm"), "unit"),
        (("torque", "16BA", "--grub"), "grub screws"),
        (("rethread", "1/4 x 41"), "1/4 x 40"),
        (("rethread", "4BA", "M3.1"), "M3"),
        (("rethread", "4BA", "10BA"), "write 3 BA or 2 BA"),
        (("rethread", "4BA", "--wall", "0 mm"), "not more than nothing"),
    ],
)
def test_what_cannot_be_is_said_in_a_sentence(words: tuple[str, ...], said: str, tmp_path: Path) -> None:
    answer = run(*words, folder=tmp_path)
    assert answer.status == 2
    assert answer.out == ""
    assert said in answer.err
