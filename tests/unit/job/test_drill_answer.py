"""Texts in, answers out, for drills; and their shape as JSON."""

from __future__ import annotations

import json

import pytest

from lapwright.errors import BadInput, NotOneOf
from lapwright.job.lookup.drill_answer import DrillUse, ThreadDrills, answer_drill, list_drill
from lapwright.tables.drills import list_drills
from lapwright.workshop.drawers import name_drill


def _use(text: str) -> DrillUse:
    answer = answer_drill(text)
    assert isinstance(answer, DrillUse)
    return answer


@pytest.mark.parametrize(
    ("text", "name", "millimetres"),
    [
        # ASME B94.11M: No 30 is 0.1285 in, letter F 0.257 in.
        ("No 30", "Drill No 30", 3.2639),
        ("#30", "Drill No 30", 3.2639),
        ("no.30 drill", "Drill No 30", 3.2639),
        ("F", "Drill F", 6.5278),
        ("letter f", "Drill F", 6.5278),
        ("3.1 mm", "Drill 3.1 mm", 3.1),
        ("1/8 in", "Drill 1/8 in", 3.175),
        ('1/4"', "Drill letter E, 1/4 in", 6.35),
        ("3.15 mm", "Hole of 3.150 mm", 3.15),
    ],
)
def test_a_drill_is_read_by_its_shank(text: str, name: str, millimetres: float) -> None:
    use = _use(text)
    assert 1e3 * use.diameter == pytest.approx(millimetres, abs=1e-4)
    assert use.name == name.replace("Drill F", "Drill letter F")


@pytest.mark.parametrize("drill", list_drills(), ids=name_drill)
def test_every_drill_is_found_by_its_name(drill) -> None:
    assert drill in _use(name_drill(drill)).drills


@pytest.mark.parametrize("text", ["4BA", "No 5-40 UNC", "M4", "1/4 x 40", "1/4-20", "5-40", "#4 BA", "G1/8", "1/8 BSW"])
def test_a_thread_is_not_taken_for_a_drill(text: str) -> None:
    assert isinstance(answer_drill(text), ThreadDrills)


def test_what_3_mm_is_good_for() -> None:
    use = _use("3 mm")
    assert use.tapping[0][0].name == "4 BA"  # the handbooks' own drill stands first
    # ISO 273: M2.5 close 2.7, medium 2.9, free 3.1; a hole between two is called by the smaller.
    assert ("M2.5", "medium") in [(thread.name, fit) for thread, fit in use.clearing]
    assert ("M2.5", "close") in [(thread.name, fit) for thread, fit in _use("2.8 mm").clearing]
    assert ("M2.5", "free") in [(thread.name, fit) for thread, fit in _use("3.1 mm").clearing]


def test_the_neighbours_of_no_30() -> None:
    found = list_drill(_use("No 30"))["neighbours"]
    assert [(each["under"], each["over"]) for each in found] == [
        ("3.2 mm", "3.3 mm"),
        ("No 31", "No 29"),
        ("1/8 in", "9/64 in"),
    ]


def test_advice_follows_metal_share_and_drawers() -> None:
    brass = list_drill(answer_drill("M4", metal="brass", drawers="metric"))
    steel = list_drill(answer_drill("M4", metal="steel", drawers="metric"))
    assert brass["advised"]["diameter_mm"] < steel["advised"]["diameter_mm"]
    asked = list_drill(answer_drill("M4", engagement="75 %", drawers="number-letter"))
    assert (asked["wanted_percent"], asked["wanted_basis"]) == ([75.0, 75.0], "own")
    assert asked["advised"]["drill"].startswith("No ")
    assert asked["listed"]["diameter_mm"] == 3.3
    json.dumps(asked, allow_nan=False)


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("7/64", "7/64 in"),
        ("7/64 in", "7/64 in"),
        ("1/8 drill", "1/8 in"),
        ("#30", "No 30"),
        ("no 30 drill", "No 30"),
        ("letter F", "letter F"),
        ("f", "letter F"),
    ],
)
def test_a_drill_goes_by_what_is_stamped_on_it(written: str, name: str) -> None:
    assert _use(written).name.endswith(name)


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("30", 'write "No 30", "30 mm" or "30 in"'),
        ("100", 'write "100 in" or "100 mm"'),
        ("-3 mm", '"-3 mm" is no size of a drill'),
        ("-3", '"-3" is no size of a drill'),
        ("3.1 kg", 'unit "kg" is not known here: of a drill, write it like "3.1 mm"'),
    ],
)
def test_what_could_be_a_size_is_asked_back_as_one(written: str, said: str) -> None:
    with pytest.raises(BadInput) as refused:
        answer_drill(written)
    assert said in str(refused.value)


def test_a_grade_of_metal_is_tapped_as_its_metal() -> None:
    by_grade, by_name = (list_drill(answer_drill("4 BA", metal=metal)) for metal in ("LG2", "gunmetal"))
    assert by_grade == by_name
    with pytest.raises(NotOneOf, match="others of the reference page"):
        answer_drill("4 BA", metal="cheese")


def test_a_bare_share_is_asked_back_in_percent() -> None:
    for written, better in (("0.7", "70 %"), ("70", "70 %"), ("3/4", "75 %")):
        with pytest.raises(BadInput, match=better):
            answer_drill("M4", engagement=written)


@pytest.mark.parametrize(
    "text",
    ["No 0", "No 81", "#999", "-3 mm", "0 mm", "3.1", "7/65", "3 kg", "", " ", "7AB", "M3.1", "1/4 x 41", "1/0 in"],
)
def test_what_is_no_drill_and_no_thread_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(BadInput) as refused:
        answer_drill(text)
    assert len(str(refused.value)) > 20
