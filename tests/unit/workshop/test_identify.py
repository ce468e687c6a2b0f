"""What is this thread: ranked by distance, with what would tell the first two apart."""

from __future__ import annotations

from math import hypot

import pytest

from lapwright.tables.naming import find_thread
from lapwright.workshop.identify import FAR, MOST, Measured, count_until_apart, identify_thread


def _measure(diameter: float, pitch: float | None = None, *, is_hole: bool = False, doubt: float = 0.03) -> Measured:
    """A thread as measured, all in mm; the pitch to 3 %."""
    return Measured(
        diameter=1e-3 * diameter,
        diameter_doubt=1e-3 * doubt,
        pitch=None if pitch is None else 1e-3 * pitch,
        pitch_doubt=None if pitch is None else 0.03e-3 * pitch,
        is_hole=is_hole,
    )


def _names(measured: Measured) -> list[str]:
    return [candidate.thread.name for candidate in identify_thread(measured).candidates]


def test_a_worn_4_ba_screw_is_known() -> None:
    found = identify_thread(_measure(3.55, 0.66))
    first, second = found.candidates[:2]
    assert first.thread.name == "4 BA"
    # By hand: 0.05 mm under; two deviations are hypot(0.03, 0.2 x 0.66) = 0.1354 mm; the pitch agrees.
    assert first.distance == pytest.approx(0.05 / (hypot(0.03, 0.132) / 2), abs=1e-3)
    assert second.distance > FAR


def test_a_screw_over_its_size_is_further_off_than_one_under() -> None:
    over, under = (identify_thread(_measure(3.6 + off, 0.66)).candidates[0] for off in (0.06, -0.06))
    assert over.thread.name == under.thread.name == "4 BA"
    # 0.06 / 0.015 against 0.06 / 0.0677.
    assert over.distance == pytest.approx(4.0, abs=1e-6)
    assert under.distance < 1


def test_threads_to_the_inch_part_neighbours() -> None:
    # 1/4 in: 20 to the inch or 26.
    assert _names(_measure(6.3, 25.4 / 20))[:2] == ["1/4 BSW", "1/4-20 UNC"]
    assert _names(_measure(6.3, 25.4 / 26))[0] == "1/4 BSF"
    assert _names(_measure(6.3, 25.4 / 40))[0] == "1/4 x 40 ME"


def test_0_ba_and_m6_are_told_apart_by_their_flanks_only() -> None:
    found = identify_thread(_measure(5.95, 1.0))
    assert [candidate.thread.name for candidate in found.candidates[:2]] == ["0 BA", "M6"]
    assert found.notes == ("0 BA and M6 fit about equally well.",)
    assert len(found.tell_apart) == 1
    assert "47.5" in found.tell_apart[0]


def test_what_tells_two_pitches_apart_is_counted_out() -> None:
    found = identify_thread(_measure(3.55))
    assert _names(_measure(3.55))[:2] == ["4 BA", "No 6-32 UNC"]
    # 0.66 against 0.79375 mm: 0.79375 / 0.13375 = 5.9 threads of 4 BA, 3.9 mm, and one fewer of the other.
    assert "along 3.9 mm. 4 BA has 6 there, No 6-32 UNC one fewer" in found.tell_apart[0]
    assert "Without a pitch" in found.notes[0]


@pytest.mark.parametrize(
    ("first", "second", "count"),
    # 38.48 against 40 to the inch: 25.4 threads; 1.00 against 0.9769 mm: 42.3; equal pitches never.
    [(0.66e-3, 0.635e-3, 25.4), (1e-3, 25.4e-3 / 26, 42.333), (1e-3, 1e-3, None)],
)
def test_threads_until_two_pitches_are_one_apart(first: float, second: float, count: float | None) -> None:
    apart = count_until_apart(first, second)
    if count is None:
        assert apart is None
    else:
        assert apart == pytest.approx((count, count * first), rel=1e-3)
        # Over that length the other has one thread more or fewer.
        assert abs(apart[1] / second - apart[0]) == pytest.approx(1.0, rel=1e-9)


def test_pitches_that_are_too_near_to_count_are_told_so() -> None:
    # 0 BA (1.00) and 1/4 x 26 (0.977) part by one thread only over 42 mm; M1 and its like sooner.
    found = identify_thread(_measure(6.1, 1.0, doubt=0.3))
    assert {"0 BA", "M6"} <= {candidate.thread.name for candidate in found.candidates}
    assert len(found.candidates) <= MOST


def test_a_hole_is_known_by_its_bore() -> None:
    # A 4 BA hole drilled 3.0: 0.19 mm over its minor diameter.
    assert _names(_measure(3.0, 0.66, is_hole=True))[0] == "4 BA"
    assert _names(_measure(4.95, 1.0, is_hole=True))[:2] == ["M6", "0 BA"]
    # The same figure over the crests of a screw is another thread.
    assert _names(_measure(3.0, 0.5))[0] == "M3"


def test_what_no_thread_has_is_told() -> None:
    found = identify_thread(_measure(99.0))
    assert found.notes[0].startswith("No thread of the tables fits")
    assert len(found.candidates) == 2
    assert found.tell_apart == ()


def test_a_thin_screw_is_called_worn() -> None:
    found = identify_thread(_measure(5.76, 1.0))
    assert any("worn" in note for note in found.notes)


def test_a_screw_far_under_with_the_right_pitch_is_its_own_thread_worn() -> None:
    found = identify_thread(_measure(3.4, 25.4 / 38))
    first = found.candidates[0]
    # 0.20 mm under is 0.132 + 0.03 as made and measured, and 0.038 of the 0.231 mm that wear may take.
    assert (first.thread.name, first.worn) == ("4 BA", True)
    assert first.distance > FAR
    assert found.notes[0].startswith("4 BA, if the screw is worn or was cut undersize: 0.20 mm under.")
    assert found.tell_apart


@pytest.mark.parametrize(
    ("diameter", "pitch", "worn"),
    # 4 BA: as made and measured to 3.438 mm, worn to 3.207 mm; the pitch within 3 %.
    [(3.44, 0.66, False), (3.43, 0.66, True), (3.21, 0.66, True), (3.2, 0.66, False), (3.3, 0.63, False)],
)
def test_where_a_worn_screw_begins_and_ends(diameter: float, pitch: float, worn: bool) -> None:
    candidates = identify_thread(_measure(diameter, pitch)).candidates
    assert worn == any(candidate.worn for candidate in candidates if candidate.thread.name == "4 BA")


def test_a_screw_wears_smaller_and_a_hole_larger() -> None:
    over = identify_thread(_measure(3.66, 0.66))
    assert not any(candidate.worn for candidate in over.candidates)
    assert "does not wear thicker" in over.notes[0]
    wide = identify_thread(_measure(3.1, 0.66, is_hole=True))
    assert (wide.candidates[0].thread.name, wide.candidates[0].worn) == ("4 BA", True)
    assert "if the hole is worn or was drilled large: 0.29 mm over" in wide.notes[0]
    narrow = identify_thread(_measure(2.76, 0.66, is_hole=True))
    assert not any(candidate.worn for candidate in narrow.candidates)
    assert "does not wear narrower" in narrow.notes[0]


def test_a_worn_thread_stands_before_one_that_does_not_fit_and_behind_one_that_does() -> None:
    # 3.25 mm is nearer to No 5 (3.175 mm), but a screw does not wear thicker.
    first = identify_thread(_measure(3.25, 0.66)).candidates[0]
    assert (first.thread.name, first.worn) == ("4 BA", True)
    candidates = identify_thread(_measure(3.45, 0.635)).candidates
    assert (candidates[0].thread.name, candidates[0].worn) == ("No 6-40 UNF", False)


def test_twins_are_told_once() -> None:
    names = _names(_measure(6.35, 25.4 / 26))
    assert "1/4 BSF" in names
    assert "1/4 x 26 brass" not in names
    assert find_thread("1/4 BSF").twins == ("1/4 x 26 brass",)


def test_a_measurement_without_any_doubt_is_taken_at_the_finest() -> None:
    found = identify_thread(Measured(diameter=3.6e-3, diameter_doubt=0.0, pitch=0.66e-3, pitch_doubt=0.0))
    assert found.candidates[0].thread.name == "4 BA"
    assert found.candidates[0].distance == 0
