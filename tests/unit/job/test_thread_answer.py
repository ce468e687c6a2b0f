"""Texts in, answers out, for threads; and their shape as JSON."""

from __future__ import annotations

import json

import pytest

from lapwright.errors import BadInput
from lapwright.job.lookup.thread_answer import (
    answer_against,
    answer_measured,
    answer_thread,
    list_against,
    list_measured,
    list_thread,
)
from lapwright.tables.threads import list_threads


# Ten-second values, mm (inch threads in inches): BS 93 after Machinery's Handbook, 31st edition, p. 2115; BS 84;
# ISO 228-1; ISO 724; ISO 898-1; ASME B1.1.
@pytest.mark.parametrize(
    ("name", "key", "value", "unit"),
    [
        ("0 BA", "major_mm", 6.00, 1),
        ("0 BA", "pitch_mm", 1.00, 1),
        ("0 BA", "minor_mm", 4.80, 1),
        ("2BA", "major_mm", 4.70, 1),
        ("2BA", "pitch_mm", 0.81, 1),
        ("2BA", "effective_mm", 4.215, 1),
        ("4BA", "minor_mm", 2.81, 1),
        ("4BA", "form_angle_deg", 47.5, 1),
        ("4BA", "tapping_drill_mm", 3.0, 1),
        ("1/4 BSW", "effective_mm", 0.2180, 25.4),
        ("1/4 BSW", "minor_mm", 0.1860, 25.4),
        ("1/4 BSW", "form_angle_deg", 55, 1),
        ("1/4 BSF", "minor_mm", 0.2007, 25.4),
        ("1/4 x 40", "minor_mm", 0.2180, 25.4),
        ("G1/8", "minor_mm", 8.566, 1),
        ("M4", "effective_mm", 3.545, 1),
        ("M4", "minor_mm", 3.242, 1),
        ("M4", "form_angle_deg", 60, 1),
        ("M3", "stress_area_mm2", 5.03, 1),
        ("M4", "stress_area_mm2", 8.78, 1),
        ("M5", "stress_area_mm2", 14.2, 1),
        ("M6", "stress_area_mm2", 20.1, 1),
        ("No 5-40", "minor_mm", 0.0979, 25.4),
        ("1/4-20 UNC", "stress_area_mm2", 0.0318, 645.16),
        ("4BA", "spanner_mm", 6.3, 1),
    ],
)
def test_ten_second_values(name: str, key: str, value: float, unit: float) -> None:
    places = len(f"{value}".partition(".")[2])
    assert list_thread(answer_thread(name))[key] / unit == pytest.approx(value, abs=0.51 * 10**-places)


@pytest.mark.parametrize("thread", list_threads(), ids=lambda thread: thread.name)
def test_every_thread_makes_a_whole_answer(thread) -> None:
    found = json.loads(json.dumps(list_thread(answer_thread(thread.name)), allow_nan=False))
    assert thread.name in {found["thread"], *found["twins"]}
    assert 0 < found["minor_mm"] < found["effective_mm"] < found["major_mm"]
    assert 50 < found["engagement_percent"] < 100
    assert found["source"]
    assert found["drill_source"]


def test_percentages_of_m4_on_both_bases() -> None:
    found = list_thread(answer_thread("M4"))
    assert found["engagement_percent"] == pytest.approx(92.4, abs=0.05)
    assert found["engagement_american_percent"] == pytest.approx(77.0, abs=0.05)
    assert list_thread(answer_thread("4BA"))["engagement_american_percent"] is None


def test_a_name_that_fits_two_forms_names_the_other() -> None:
    assert any("1/4 BSW" in note for note in answer_thread("1/4-20").notes)
    assert not any("may also mean" in note for note in answer_thread("1/4 BSW").notes)


@pytest.mark.parametrize("pitch", ["0.66 mm", "0.66 ± 0.02 mm", "38 tpi", "38.5 ± 1 tpi", "12 threads in 7.9 mm"])
def test_a_pitch_may_be_given_in_any_way(pitch: str) -> None:
    found = list_measured(answer_measured("3.55 mm", pitch=pitch))
    assert found["candidates"][0]["thread"] == "4 BA"
    assert found["measured"]["pitch_mm"] == pytest.approx(0.66, abs=0.01)


def test_doubts_are_taken_as_they_are_given() -> None:
    found = list_measured(answer_measured("3.55 +0.03 -0.01 mm", pitch="40 ± 2 tpi"))["measured"]
    assert found["major_mm"] == pytest.approx(3.56)
    assert found["diameter_doubt_mm"] == pytest.approx(0.02)
    # Two in forty is a twentieth of 0.635 mm.
    assert found["pitch_doubt_mm"] == pytest.approx(0.635 / 20, abs=1e-5)
    counted = list_measured(answer_measured("3.55 mm", pitch="12 threads over 8 ± 0.1 mm"))["measured"]
    assert counted["pitch_mm"] == pytest.approx(8 / 12, abs=1e-5)
    assert counted["pitch_doubt_mm"] == pytest.approx(0.1 / 12, abs=1e-5)


def test_a_pitch_that_is_only_about_right_is_told_how_to_be_written() -> None:
    with pytest.raises(BadInput, match=r'"38 ± 2 tpi".* gets a ±'):
        answer_measured("3.55 mm", pitch="about 38 tpi")


def test_a_hole_is_measured_by_its_bore() -> None:
    found = list_measured(answer_measured("3 mm", pitch="0.66 mm", is_hole=True))
    assert found["measured"]["bore_mm"] == 3
    assert found["candidates"][0]["thread"] == "4 BA"


def test_two_threads_are_held_against_each_other_both_ways() -> None:
    found = list_against(answer_against("0BA", "M6"))
    assert [(pair["screw"], pair["hole"]) for pair in found["pairs"]] == [("0 BA", "M6"), ("M6", "0 BA")]
    assert found["pairs"][0]["turns_before_it_binds"] is None
    json.dumps(found, allow_nan=False)


@pytest.mark.parametrize(
    ("measured", "pitch"),
    [
        ("3.55", None),
        ("-3.55 mm", None),
        ("0 mm", None),
        ("3.55 kg", None),
        ("3.55 mm", "0.66"),
        ("3.55 mm", "0 tpi"),
        ("3.55 mm", "-0.66 mm"),
        ("3.55 mm", "3.55 mm"),
        ("3.55 mm", "0 threads in 8 mm"),
        ("3.55 mm", "12 threads in 8"),
        ("3.55 mm", "12 threads in -8 mm"),
        ("3.55 mm", "nan mm"),
        ("3.55 mm", ""),
    ],
)
def test_what_cannot_be_a_measured_thread_is_refused_in_a_sentence(measured: str, pitch: str | None) -> None:
    with pytest.raises(BadInput) as refused:
        answer_measured(measured, pitch=pitch)
    assert len(str(refused.value)) > 20
