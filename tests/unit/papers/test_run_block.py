"""How an engine runs, as it stands on the card: true figures, room to write, and no more said than is known."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.papers import CardMatter, RunSheet
from lapwright.papers.blocks import Block, Cautions, Heading, Paragraph, Pictures, Points, Table
from lapwright.papers.contents import list_blocks
from lapwright.papers.run_block import lay_runs
from tests.unit.papers.matters import card_of, cylinder, examine_demo, visit_of, without
from tests.unit.papers.runs import BAR, RuledCard, move_cylinder, show_engine

FOUND, CURED = RuledCard(cut_off=0.3, compression=0.25), RuledCard(cut_off=0.75, compression=0.1)


def matter_with(sheet: RunSheet) -> CardMatter:
    """The Merganser's card with a run whose figures are known."""
    matter = card_of(examine_demo("merganser"))
    cure = replace(matter.cures[0], after=move_cylinder(CURED))
    return replace(matter, before={"A": move_cylinder(FOUND)}, cures=(cure,), runs=sheet)


def laid(matter: CardMatter) -> list[Block]:
    return list(lay_runs(matter, width=178.0))


def rows(blocks: list[Block]) -> dict[str, tuple[str, ...]]:
    (table,) = [block for block in blocks if isinstance(block, Table)]
    return {row[0]: row[1:] for row in table.rows}


def sentences(blocks: list[Block]) -> str:
    return " ".join(block.words for block in blocks if isinstance(block, Paragraph))


def test_the_figures_are_those_of_the_run_with_a_blank_to_write_in() -> None:
    sheet = RunSheet(before=show_engine(FOUND, least=0.8 * BAR), after=show_engine(CURED, indicated=30.0))
    blocks = laid(matter_with(sheet))
    (table,) = [block for block in blocks if isinstance(block, Table)]
    assert table.header == ("", "as found", "after the cure", "as tried")
    assert table.blanks == (3,)
    told = rows(blocks)
    assert told["Turns over slowly at"] == ("0.80 bar (11.6 psi)", "0.30 bar (4.4 psi)", "")
    assert told["Starts by itself from"] == ("75 % of the turn", "75 % of the turn", "")
    assert told["Starts from any angle at"] == ("never", "never", "")
    assert told["Power at 300 rpm"] == ("17.0 W", "27.0 W", "")
    # 0.3 g/s of air at 20 degC and one atmosphere, 1.204 kg/m3.
    assert told["Free air for it"] == ("14.9 L/min", "14.9 L/min", "")
    assert told["Leaked, or straight to exhaust"] == ("10 %", "10 %", "–")
    means = " / ".join([f"{FOUND.mean / BAR:.2f}"] * 2), " / ".join([f"{CURED.mean / BAR:.2f}"] * 2)
    assert told["Mean effective pressure, head / crank"] == (f"{means[0]} bar", f"{means[1]} bar", "–")


def test_what_was_taken_is_said_there_and_why_further_down() -> None:
    matter = matter_with(RunSheet(before=show_engine(FOUND), gain="turns over at 0.3 bar instead of 0.8"))
    told = sentences(laid(matter))
    assert "Worked out on air at 2.00 bar (29.0 psi) and 300 rpm, exhausting to the open air; not measured." in told
    assert "Turns over at 0.3 bar instead of 0.8." in told
    assert "Taken, since not given: ring gap 4 µm and clearance head 8 %." in told
    points = [line for block in list_blocks(matter, width=178.0) if isinstance(block, Points) for line in block.lines]
    assert "ring gap 4 µm, not given" in points


def test_an_engine_that_does_not_turn_over_is_not_said_to_use_air() -> None:
    sheet = RunSheet(before=show_engine(FOUND, indicated=2.0, least=None), after=show_engine(CURED))
    blocks = laid(matter_with(sheet))
    assert rows(blocks)["Power at 300 rpm"][0] == "none"
    assert rows(blocks)["Free air for it"][0] == "–"
    assert rows(blocks)["Turns over slowly at"][0] == "never"
    assert "As found it does not keep turning on this" in sentences(blocks)
    assert "After the cure it does not" not in sentences(blocks)


def test_without_a_cure_there_is_one_state() -> None:
    matter = replace(matter_with(RunSheet(before=show_engine(FOUND))), cures=())
    blocks = laid(matter)
    assert [block.words for block in blocks if isinstance(block, Heading)] == ["How it runs"]
    assert all(len(row) == 2 for row in rows(blocks).values())
    drawn = [drawing for block in blocks if isinstance(block, Pictures) for drawing in block.drawings]
    assert len(drawn) == 3
    assert not any(getattr(shape, "layer", "") == "found" for drawing in drawn for shape in drawing.shapes)


def test_cautions_stand_before_the_figures() -> None:
    matter = matter_with(RunSheet(before=show_engine(FOUND), cautions=("Mind the steam.",)))
    kinds = [type(block) for block in laid(matter)]
    assert kinds.index(Cautions) < kinds.index(Table)


def test_a_twin_gets_a_pair_of_cards_to_each_cylinder() -> None:
    blocks = laid(card_of(examine_demo("tern")))
    assert [block.words for block in blocks if isinstance(block, Heading) and block.level == 2] == [
        "Cylinder A",
        "Cylinder B",
    ]
    pairs = [block for block in blocks if isinstance(block, Pictures) and len(block.drawings) == 2]
    assert len(pairs) == 2
    assert {drawing.about for pair in pairs for drawing in pair.drawings} == {
        "Pressure card, head end",
        "Pressure card, crank end",
    }
    assert any(words.startswith("Mean effective pressure B") for words in rows(blocks))


def test_a_single_acting_cylinder_has_one_card() -> None:
    blocks = laid(card_of(without(examine_demo("sandpiper"), "piston_rod")))
    about = [drawing.about for block in blocks if isinstance(block, Pictures) for drawing in block.drawings]
    assert about[0] == "Pressure card, head end"
    assert "Pressure card, crank end" not in about
    assert "Mean effective pressure, head end" in rows(blocks)


@pytest.mark.parametrize("lost", ["cavity", "stroke", "throw"])
def test_where_no_run_can_be_worked_out_the_card_is_as_it_was_and_one_line_says_why(lost: str) -> None:
    matter = card_of(visit_of(cylinder(**{lost: None})))
    assert laid(matter) == []
    (line,) = [because for figure, because in matter.not_known if figure == "How it runs"]
    assert lost in line
