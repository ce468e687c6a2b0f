"""Which screw goes into which hole: the geometry re-derived by hand for pairs that the trade knows."""

from __future__ import annotations

from math import inf, radians, sin, tan

import pytest

from lapwright.tables.naming import find_thread
from lapwright.workshop.matching import list_near, match_threads


def _match(screw: str, hole: str):
    return match_threads(find_thread(screw), find_thread(hole))


def test_m6_in_0_ba_by_hand() -> None:
    """The play where the straight flanks end, from the drawn sizes of both.

    M6 screw: effective 5.350, slope tan 30; 0 BA hole: bore 4.80, effective 5.400, slope tan 23.75, crest rounded by
    2 x 0.18083 (1 - sin 23.75) = 0.216 mm of diameter, so its flanks run from 5.016 on.
    """
    inner = 4.80 + 2 * 0.180834 * (1 - sin(radians(23.75)))
    slopes = tan(radians(30)), tan(radians(23.75))
    drawn = (inner - 5.350) * slopes[0] - (inner - 5.400) * slopes[1]
    slack = 0.11 * 1.0 + 0.025 + (0.025 + 0.03) / 2
    match = _match("M6", "0 BA")
    assert 1e3 * match.play == pytest.approx(drawn + slack * sum(slopes) / 2, abs=1e-4)
    assert (match.verdict, match.turns, match.wanted) == ("goes", inf, 6)
    assert "60 against 47.5 degrees" in match.sentence


def test_0_ba_in_m6_goes_only_just() -> None:
    match = _match("0 BA", "M6")
    assert match.play < 0.02e-3
    assert "only just" in match.sentence


def test_a_difference_in_pitch_uses_the_play_up() -> None:
    match = _match("2 BA", "3/16 x 32")
    # 0.81 against 0.79375 mm: every turn takes 0.01625 mm.
    assert match.verdict == "binds"
    assert match.turns == pytest.approx(match.play / 0.01625e-3, rel=1e-9)
    assert match.turns < match.wanted == pytest.approx(4.70 / 0.81)
    assert "binds after" in match.sentence
    assert "Do not force it" in match.sentence


@pytest.mark.parametrize(
    ("screw", "hole", "verdict"),
    [
        ("4 BA", "4 BA", "own"),
        ("1/4 x 26 brass", "1/4 BSF", "own"),
        ("M5", "2 BA", "too thick"),
        ("1/4 x 40", "1/4 BSF", "too thick"),  # by its root: nothing of the flanks is reached
        ("1/4-20 UNC", "1/4 BSW", "goes"),
        ("1/4 BSW", "1/4-20 UNC", "goes"),
        ("No 5-40 UNC", "1/8 BSW", "goes"),
        ("3/16 BSW", "M5", "jams"),
        ("1/4 BSF", "1/4 x 40", "jams"),
        ("M3", "M3.5", "slips"),
        ("M3", "M10", "slips"),
    ],
)
def test_pairs_of_the_trade(screw: str, hole: str, verdict: str) -> None:
    match = _match(screw, hole)
    assert match.verdict == verdict
    assert match.enters == (verdict in {"own", "goes", "binds"})
    assert match.sentence.startswith(f"{find_thread(screw).name} screw in {find_thread(hole).name} hole: ")
    assert match.sentence.endswith(".")


def test_a_screw_with_little_thread_in_common_is_loose() -> None:
    match = _match("2 BA", "M5")
    # (4.70 - 4.134) of (5.00 - 4.134).
    assert match.depth == pytest.approx(0.566 / 0.866, abs=1e-3)
    assert "loosely" in match.sentence


def test_near_relations_are_listed_without_the_thread_itself_and_its_twins() -> None:
    near = list_near(find_thread("0 BA"))
    assert {("0 BA", "M6"), ("M6", "0 BA")} <= {(match.screw.name, match.hole.name) for match in near}
    assert all(match.enters and match.verdict != "own" for match in near)
    assert all("0 BA" in (match.screw.name, match.hole.name) for match in near)
    bsf = [match for match in list_near(find_thread("1/4 BSF")) if "brass" in match.screw.name + match.hole.name]
    assert bsf == []
