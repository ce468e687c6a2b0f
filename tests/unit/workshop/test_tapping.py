"""Tapping drills: what is wanted in a metal, what the drawers hold, and what it leaves."""

from __future__ import annotations

import pytest

from lapwright.errors import NotOneOf, OutOfRange
from lapwright.tables.naming import find_thread
from lapwright.tables.threads import list_threads
from lapwright.workshop.drawers import DRAWERS, find_neighbours, open_drawers
from lapwright.workshop.tapping import TARGETS, advise_tapping
from lapwright.workshop.tapping_hole import BREAKS, customary_basis, list_hole, tell_hole, weigh_hole


def test_4_ba_in_brass_takes_the_handbooks_drill() -> None:
    advice = advise_tapping(find_thread("4 BA"), metal="brass", drawers="metric")
    # By hand: 75 % of the depth of 0.79 mm off 3.60 is 3.0075; 3.00 leaves 0.60 / 0.79 = 75.9 %, 3.10 leaves 63.3 %.
    assert 1e3 * advice.ideal == pytest.approx(3.0075)
    assert (advice.under.drill.name, advice.over.drill.name) == ("3 mm", "3.1 mm")
    assert advice.under.engagement == pytest.approx(0.7595, abs=1e-4)
    assert advice.over.engagement == pytest.approx(0.6329, abs=1e-4)
    assert advice.advised.drill.name == "3 mm"
    assert advice.listed.diameter == pytest.approx(3e-3)
    # Drilled 0.02 to 0.08 mm over: (0.60 - 0.08) / 0.79 and (0.60 - 0.02) / 0.79.
    assert advice.advised.really == pytest.approx((0.6582, 0.7342), abs=1e-4)


def test_60_degree_threads_are_aimed_at_on_the_american_basis_and_told_on_both() -> None:
    advice = advise_tapping(find_thread("M4"), metal="steel", drawers="metric")
    # 70 % of 1.299038 x 0.7 mm off 4 mm.
    assert advice.basis == "american"
    assert 1e3 * advice.ideal == pytest.approx(4 - 0.7 * 1.299038 * 0.7, abs=1e-6)
    assert advice.advised.drill.name == "3.4 mm"
    assert advice.listed.engagement == pytest.approx(0.924, abs=1e-3)
    assert advice.listed.american == pytest.approx(0.770, abs=1e-3)
    assert any("6/5" in note for note in advice.notes)


def test_a_share_that_is_asked_for_is_of_the_forms_own_depth() -> None:
    advice = advise_tapping(find_thread("M4"), engagement=0.75, drawers="metric")
    assert (advice.basis, advice.wanted) == ("own", (0.75, 0.75))
    assert 1e3 * advice.ideal == pytest.approx(4 - 0.75 * 1.082532 * 0.7, abs=1e-6)


@pytest.mark.parametrize("drawers", DRAWERS)
@pytest.mark.parametrize("metal", [None, *TARGETS])
def test_no_advised_drill_lies_under_the_core(metal: str | None, drawers: str) -> None:
    for thread in list_threads():
        advice = advise_tapping(thread, metal=metal, drawers=drawers)
        if advice.advised is None:
            assert advice.notes[0].startswith("None of these drills")
        else:
            assert advice.advised.diameter > thread.minor - 4e-6
            assert advice.advised.drill.series in DRAWERS[drawers]
            assert 0.5 <= advice.advised.share <= BREAKS[advice.basis]


@pytest.mark.parametrize("drawers", DRAWERS)
@pytest.mark.parametrize("metal", [None, *TARGETS])
def test_a_drill_that_leaves_what_is_wanted_goes_before_one_that_does_not(metal: str | None, drawers: str) -> None:
    for thread in list_threads():
        advice = advise_tapping(thread, metal=metal, drawers=drawers)
        low, high = advice.wanted
        inside = [
            hole
            for hole in (advice.under, advice.over)
            if hole and low <= hole.share <= min(high, BREAKS[advice.basis])
        ]
        told = [note for note in advice.notes if note.startswith("None of these drills")]
        if inside:
            assert low - 0.005 <= advice.advised.share <= high + 0.005
            assert not told
        elif not advice.advised or not low - 0.005 <= advice.advised.share <= high + 0.005:
            assert told


def test_between_two_drills_outside_what_is_wanted_the_sheet_says_which_of_all_would_do() -> None:
    advice = advise_tapping(find_thread("5/32 x 40"), metal="gunmetal", drawers="number-letter")
    # By hand: (3.969 - 3.264) / 0.8132 = 86.7 %, (3.969 - 3.454) / 0.8132 = 63.3 %; 3.40 mm leaves 69.9 %.
    assert advice.advised.drill.name == "No 30"
    assert advice.of_all.drill.name == "3.4 mm"
    assert advice.notes[0] == (
        "None of these drills (number-letter) leaves 70 to 80 % of thread: No 30 leaves 87 %, No 29 leaves 63 %; of "
        "all drills, 3.4 mm leaves 70 %."
    )
    assert advise_tapping(find_thread("5/32 x 40"), metal="gunmetal", drawers="metric").of_all is None


def test_a_drill_that_breaks_the_tap_is_not_advised() -> None:
    advice = advise_tapping(find_thread("1/4 x 40"), metal="brass", drawers="fraction")
    # (6.35 - 5.556) / 0.8132 = 97.6 %; (6.35 - 5.953) / 0.8132 = 48.8 %.
    assert advice.advised is None
    assert [hole.fault for hole in (advice.under, advice.over)] == ["the tap breaks", "too shallow"]
    assert advice.of_all.drill.name == "5.7 mm"
    assert "7/32 in leaves 98 % (the tap breaks), 15/64 in leaves 49 % (too shallow)" in advice.notes[0]


def test_a_share_that_is_asked_for_is_obeyed_and_warned_of() -> None:
    advice = advise_tapping(find_thread("1/4 x 40"), engagement=0.98, drawers="fraction")
    assert advice.advised.drill.name == "7/32"
    assert any("has no room and breaks" in note for note in advice.notes)


def test_what_is_really_left_is_called_enough_where_it_is() -> None:
    # 5/32 x 40: (3.969 - 3.40 - 0.08) / 0.8132 = 60.1 %; 16 BA loses 0.08 of 0.228 mm.
    large = advise_tapping(find_thread("5/32 x 40"), metal="gunmetal", drawers="metric")
    assert large.advised.verdict == "enough"
    assert any("what is really left is less, and enough" in note for note in large.notes)
    small = advise_tapping(find_thread("16 BA"), metal="brass")
    assert small.advised.verdict == "enough if it runs true"
    assert not any("really left" in note for note in small.notes)
    assert weigh_hole(find_thread("4 BA"), 3.3e-3).verdict == "little"


def test_a_hole_without_a_drill_is_told() -> None:
    advice = advise_tapping(find_thread("G2"))
    assert advice.advised is None
    assert "26 mm is under the minor diameter" in advice.notes[0]
    assert "bored to size" in advice.notes[1]
    assert advice.over is None


@pytest.mark.parametrize(
    ("name", "hole", "told"),
    [
        ("8 BA", 1.397e-3, "under the minor diameter (1.68 mm)"),
        ("4 BA", 2.819e-3, "has no room and breaks"),
        ("4 BA", 2.87e-3, "little room for the tap"),
        ("4 BA", 3.0e-3, ""),
        ("4 BA", 3.3e-3, "too shallow"),
        ("M4", 3.3e-3, ""),
        ("M4", 3.2e-3, "under the minor diameter"),
        ("M4.5", 3.7e-3, "82 % on the American basis"),
    ],
)
def test_holes_that_break_taps_or_hold_nothing_are_warned_of(name: str, hole: float, told: str) -> None:
    thread = find_thread(name)
    notes = list(tell_hole(thread, weigh_hole(thread, hole)))
    assert len(notes) == bool(told)
    assert told in "".join(notes)


def test_no_listed_drill_lies_under_the_core() -> None:
    for thread in list_threads():
        hole = list_hole(thread)
        assert hole is not None
        assert hole.diameter > thread.minor, thread.name


def test_lists_that_disagree_are_told() -> None:
    notes = advise_tapping(find_thread("8 BA")).notes
    assert any("154 % depth" in note and "not followed" in note for note in notes)
    brass = advise_tapping(find_thread("1/4 x 26 brass")).notes
    assert any("5.098 mm" in note and "core diameter" in note for note in brass)
    bsf = advise_tapping(find_thread("1/4 BSF")).notes
    assert any("0.201 in" in note and "core diameter" in note for note in bsf)


def test_what_rests_on_memory_says_so() -> None:
    advice = advise_tapping(find_thread("3 BA"), metal="brass")
    assert any("metal wants" in source and "from memory" in source for source in advice.sources)
    assert list_hole(find_thread("3 BA")).from_memory
    assert not list_hole(find_thread("4 BA")).from_memory


@pytest.mark.parametrize("engagement", [-0.1, 0.0, 0.05, 1.01, 7.0])
def test_shares_that_no_tap_cuts_are_refused(engagement: float) -> None:
    with pytest.raises(OutOfRange):
        advise_tapping(find_thread("M4"), engagement=engagement)


def test_unknown_metals_and_drawers_are_refused() -> None:
    with pytest.raises(NotOneOf, match="steel"):
        advise_tapping(find_thread("M4"), metal="wood")
    with pytest.raises(NotOneOf, match="number-letter"):
        advise_tapping(find_thread("M4"), drawers="mine")


def test_of_many_words_the_nearest_stands_first() -> None:
    with pytest.raises(NotOneOf, match='write "brass" or "cast iron"'):
        advise_tapping(find_thread("M4"), metal="bras")


def test_the_basis_goes_by_the_flank_angle() -> None:
    assert [customary_basis(find_thread(name)) for name in ("4 BA", "1/4 BSW", "M4", "1/4-20 UNC")] == [
        *("own", "own", "american", "american")
    ]


def test_drawers_hold_their_series_from_thin_to_thick() -> None:
    for drawers, series in DRAWERS.items():
        drills = open_drawers(drawers)
        assert {drill.series for drill in drills} == set(series)
        assert list(drills) == sorted(drills, key=lambda drill: drill.diameter)


def test_numbers_and_letters_may_be_asked_for_alone() -> None:
    both = {drill.name for drill in open_drawers("number-letter")}
    numbers, letters = ({drill.name for drill in open_drawers(name)} for name in ("number", "letter"))
    assert (len(numbers), len(letters)) == (80, 26)
    assert numbers | letters == both


def test_the_ends_of_a_drawer() -> None:
    assert find_neighbours(1e-5, drawers="metric")[0] is None
    assert find_neighbours(1.0, drawers="metric")[1] is None
