"""The look-ups: what is said and what is taken, and the questions that an engine gives."""

from __future__ import annotations

import pytest

from lapwright.errors import NotOneOf, OutOfRange
from lapwright.job.lookup.lookups import LONGEST, LOOKUPS, TICKED, find_lookup
from lapwright.job.lookup.paint_answer import PaintAsked, answer_paint
from lapwright.job.lookup.paint_sheet import lay_paint
from lapwright.job.lookup.shortcuts import list_shortcuts
from lapwright.job.visit import examine
from tests.house.reading import TOP


def test_what_was_said_is_kept_without_blanks_and_without_what_is_taken_anyhow() -> None:
    said = {"q": " 4BA ", "hole": "brass", "screw": "brass", "engagement": "  ", "worn": TICKED, "of": "screw"}
    assert LOOKUPS["screw"].settle(said) == {"q": "4BA", "screw": "brass", "worn": TICKED}
    with pytest.raises(OutOfRange, match="is longer than anything that is asked here"):
        LOOKUPS["screw"].settle({"q": "4" * (LONGEST + 1)})


@pytest.mark.parametrize("name", LOOKUPS)
def test_nothing_is_answered_before_what_is_needed_was_said(name: str) -> None:
    lookup = LOOKUPS[name]
    needed = [field.name for field in lookup.fields if field.needed]
    assert needed
    assert lookup.ask({}) is None
    for said in lookup.examples:
        for field in needed:
            assert lookup.ask({each: text for each, text in said.items() if each != field}) is None


@pytest.mark.parametrize("name", LOOKUPS)
def test_what_is_taken_anyhow_may_as_well_be_said(name: str) -> None:
    lookup = LOOKUPS[name]
    usual = {field.name: field.usual for field in lookup.fields if field.usual}
    for said in lookup.examples:
        assert lookup.ask({**usual, **said}) == lookup.ask(said)


@pytest.mark.parametrize("name", LOOKUPS)
def test_every_word_that_is_offered_is_understood(name: str) -> None:
    lookup = LOOKUPS[name]
    for field in lookup.fields:
        for choice in field.choices:
            assert lookup.ask({**lookup.examples[0], field.name: choice}) is not None


def test_a_look_up_that_there_is_not_is_told_with_the_nearest() -> None:
    with pytest.raises(NotOneOf, match='"glands" is not a word for this: write "gland"'):
        find_lookup("glands")


def test_a_part_is_painted_as_the_room_unless_its_heat_is_said() -> None:
    cold, hot = (lay_paint(answer_paint(PaintAsked(temperature=heat))) for heat in (None, "150 degC"))
    assert "taken as the room, 20 degC" in cold.notes[0]
    assert dict(cold.rows)["Paint with"] == "long-oil alkyd gloss enamel"
    assert dict(hot.rows)["Paint with"] == "oil/styrene aluminium heat paint"
    assert not any("taken as the room" in note for note in hot.notes)
    scorching = lay_paint(answer_paint(PaintAsked(temperature="800 degC")))
    assert dict(scorching.rows)["Paint with"] == "nothing"
    assert scorching.cautions


def test_amounts_and_what_stays_bright_reach_the_plan() -> None:
    sheet = lay_paint(answer_paint(PaintAsked(surface="350 cm2", bright="flanges, glands and rods", seen="wrinkles")))
    rows = dict(sheet.rows)
    # 350 cm2 of a film of 40 um, of a paint that is 45 % solid, and three parts in ten for brush and pot.
    wet = 40 / 0.45
    assert rows["zinc phosphate metal primer (from memory)"] == (
        "40 µm",
        f"{wet:.0f} µm",
        f"{0.035 * wet * 1.3:.1f} ml",
    )
    assert sum("(flanges, glands, rods)" in step for step in sheet.steps) == 2
    assert sheet.background[0].startswith("Paint wrinkles")


def test_an_engine_gives_a_question_for_every_part_each_once_and_every_one_is_answered() -> None:
    shortcuts = list_shortcuts(examine(TOP / "examples" / "turnstone.toml").engine)
    asked = [(shortcut.of, tuple(shortcut.said.items())) for shortcut in shortcuts]
    assert len(set(asked)) == len(asked)
    assert {shortcut.of for shortcut in shortcuts} == {
        "gland",
        "grub",
        "rethread",
        "screw",
        "finish",
        "thread",
        "drill",
    }
    for shortcut in shortcuts:
        lookup = LOOKUPS[shortcut.of]
        assert set(shortcut.said) <= {field.name for field in lookup.fields}
        assert lookup.ask(lookup.settle(shortcut.said)) is not None
    # The paint is chosen for the steam that arrives, as on the card.
    paint = next(shortcut for shortcut in shortcuts if shortcut.of == "finish")
    assert paint.said["temperature"] == "143.7 degC"


def test_an_engine_without_parts_gives_none() -> None:
    assert list_shortcuts(examine(TOP / "examples" / "tern.toml").engine) == ()
