"""What stands on a card and in which order, before it is set in type."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from lapwright.engine.sizes import Sizes
from lapwright.papers import CardMatter
from lapwright.papers.blocks import Block, Cautions, Heading, Paragraph, Pictures, Points, Remark, Steps, Table, Ticks
from lapwright.papers.contents import MARKS, list_blocks
from lapwright.papers.title import list_title
from lapwright.record.problem import Problem
from tests.unit.papers.matters import NAMES, card_of, cylinder, examine_demo, visit_of, with_engine, without


def blocks_of(matter: CardMatter) -> list[Block]:
    return list_blocks(matter, width=178.0)


def parts(blocks: list[Block]) -> list[str]:
    return [block.words for block in blocks if isinstance(block, Heading) and block.level == 1]


def within(blocks: list[Block], part: str) -> list[Block]:
    """The blocks of one part."""
    start = next(i for i, b in enumerate(blocks) if isinstance(b, Heading) and b.words == part) + 1
    rest = (i for i, b in enumerate(blocks) if i >= start and isinstance(b, Heading) and b.level == 1)
    return blocks[start : next(rest, len(blocks))]


def lines(blocks: list[Block]) -> Iterator[str]:
    for block in blocks:
        match block:
            case Heading() | Paragraph():
                yield block.words
            case Steps() | Cautions() | Points():
                yield from block.lines
            case Remark():
                yield from (block.title, *(words for _, words in block.lines))
            case Table():
                yield from (cell for row in block.rows for cell in row)
            case Ticks():
                yield from (block.name, *(cell for row in block.rows for cell in row))


@pytest.mark.parametrize("name", NAMES)
def test_a_card_goes_from_what_is_wrong_to_what_it_rests_on(name: str) -> None:
    matter = card_of(examine_demo(name))
    found = parts(blocks_of(matter))
    order = [
        "What was found",
        "To have ready",
        "What to do",
        "Parts to put right",
        "Painting",
        "Cylinder",
        "How it runs",
        "Setting the valve",
        "Other ways out",
        "Assumed",
        "Not known",
        "What the figures of the parts rest on",
    ]
    places = [next(i for i, start in enumerate(order) if words.startswith(start)) for words in found[:-1]]
    assert places == sorted(places)
    assert ("What to do" in found) == bool(matter.cures)
    assert ("Assumed, not measured" in found) == bool(matter.assumed)
    assert ("Not known" in found) == bool(matter.not_known)
    assert ("Parts to put right" in found) == bool(matter.part_cures)
    assert ("Painting" in found) == bool(matter.finish)
    assert ("To have ready" in found) == bool(matter.have_ready)


@pytest.mark.parametrize("name", NAMES)
def test_no_work_is_told_before_its_cautions_and_none_is_lost(name: str) -> None:
    matter = card_of(examine_demo(name))
    blocks = blocks_of(matter)
    first_steps = next((i for i, block in enumerate(blocks) if isinstance(block, Steps)), len(blocks))
    first_caution = next((i for i, block in enumerate(blocks) if isinstance(block, Cautions)), len(blocks))
    assert first_caution < first_steps
    told = list(lines(blocks))
    assert set(matter.cautions) <= set(told)
    for name in matter.before:
        cure = next((cure for cure in matter.cures if cure.cylinder == name), None)
        before = list(lines(blocks[:first_steps]))
        assert cure is None or set(cure.before_you_start) <= set(before)


@pytest.mark.parametrize("name", NAMES)
def test_every_finding_and_every_figure_to_set_is_told(name: str) -> None:
    matter = card_of(examine_demo(name))
    blocks = blocks_of(matter)
    remarks = [block for block in within(blocks, "What was found") if isinstance(block, Remark)]
    findings = (*matter.findings, *matter.part_findings)
    for remark, finding in zip(remarks, findings, strict=True):
        assert remark.title.endswith(finding.title)
        assert remark.mark == ("OR INSTEAD" if finding.instead_of else MARKS[finding.severity])
        assert all(words.endswith(".") for label, words in remark.lines if label != "Doubt")
    if matter.cures:
        tables = [block for block in within(blocks, "What to do") if isinstance(block, Table)]
        chosen = {cure.cylinder: cure for cure in reversed(matter.cures)}
        assert sum(len(table.rows) for table in tables) >= sum(len(cure.set) for cure in chosen.values())
        for table in tables:
            assert all(len(row) == len(table.header) for row in table.rows)
            assert all(row[column] == "" for row in table.rows for column in table.blanks)


def test_cylinders_with_the_same_work_are_told_of_once() -> None:
    visit = examine_demo("tern")
    first = visit.engine.cylinders[0]
    alike = tuple(replace(first, name=name) for name in "ABC")
    blocks = blocks_of(card_of(with_engine(visit, replace(visit.engine, cylinders=alike))))
    work = within(blocks, "What to do")
    assert sum(isinstance(block, Steps) for block in work) == 1
    assert any(words.startswith("Cylinders A, B and C: ") for words in lines(work))
    for name in "ABC":
        assert f"Valve, over its outer edges ({name})" in lines(work)
    assert sum(isinstance(block, Steps) for block in within(blocks, "Setting the valve")) < 3 * 5


def test_what_is_not_known_is_neither_drawn_nor_set() -> None:
    blocks = blocks_of(card_of(visit_of(cylinder(**dict.fromkeys(("steam_port", "bridge", "exhaust_port", "length"))))))
    assert "Port face and valve are not known well enough to draw." in lines(blocks)
    assert "What to do" not in parts(blocks)
    events = next(block for block in blocks if isinstance(block, Table))
    assert {row[1] for row in events.rows if "admission" in row[0]} == {"not known"}
    assert any("port_face.steam_port" in words for words in lines(within(blocks, "Not known")))


def test_no_caution_is_lost_where_there_is_nothing_to_do() -> None:
    for sizes in (Sizes("A", {}), cylinder(throw=None)):
        matter = card_of(visit_of(sizes))
        assert set(matter.cautions) <= set(lines(blocks_of(matter)))
        unset = replace(matter, setting={"A": ()})
        assert set(matter.cautions) <= set(lines(blocks_of(unset)))


def test_a_note_on_the_record_says_where_and_what_to_write() -> None:
    whole = Problem("no-format", "warning", 0, "", "the format is not given", "write format = 1 at the top")
    line = Problem("no-phase", "warning", 7, "cylinder.1", "the phase is not given")
    blocks = blocks_of(replace(card_of(examine_demo("knot")), problems=(whole, line)))
    assert list(lines(within(blocks, "Notes on the record"))) == [
        "the whole record: the format is not given: write format = 1 at the top",
        "line 7: the phase is not given",
    ]


def test_pictures_side_by_side_have_room_for_it() -> None:
    for block in blocks_of(card_of(examine_demo("tern"))):
        if isinstance(block, Pictures):
            assert sum(drawing.width for drawing in block.drawings) <= 178.0
            assert len({drawing.height for drawing in block.drawings}) == 1


def test_the_title_block_says_what_the_record_says_and_leaves_a_blank_to_sign() -> None:
    rows = dict(list_title(card_of(examine_demo("tern"))))
    assert rows["On"] == "air, 2 bar gauge"
    assert rows["Runs"] == "clockwise"
    assert rows["Cylinders"] == "2"
    assert rows["Done by"] == ""
    bare = dict(list_title(card_of(visit_of(cylinder()))))
    assert bare["Runs"] == "direction not given"
    assert bare["On"] == "air or steam"
    steam = dict(list_title(card_of(visit_of(cylinder(), fluid="steam", rotation="either"))))
    assert (steam["On"], steam["Runs"]) == ("steam", "either way")


def test_a_single_acting_engine_is_told_of_one_end() -> None:
    blocks = blocks_of(card_of(without(examine_demo("sandpiper"), "piston_rod")))
    events = next(block for block in blocks if isinstance(block, Table) and block.header[0] == "")
    assert not any(row[0].startswith("Crank end") for row in events.rows)
    assert not any(
        "Lead at the crank end" in words or "each end" in words for words in lines(blocks) if "Lead" in words
    )


def test_every_step_and_figure_of_a_part_and_all_to_have_ready_is_told_behind_its_cautions() -> None:
    matter = card_of(examine_demo("turnstone"))
    blocks = blocks_of(matter)
    told = list(lines(within(blocks, "Parts to put right")))
    assert len(matter.part_cures) == 4
    for cure in matter.part_cures:
        assert {*cure.steps, *cure.notes, *cure.before_you_start} <= set(told)
        assert {cell for figure in cure.figures for cell in figure} <= set(told)
        assert max(told.index(line) for line in cure.before_you_start) < told.index(cure.steps[0])
    ready = list(lines(within(blocks, "To have ready")))
    for item in matter.have_ready:
        assert item.name in ready
        assert ", ".join(item.purposes) in ready
    assert set(matter.finish.steps) <= set(lines(within(blocks, "Painting")))
    resting = list(lines(within(blocks, "What the figures of the parts rest on")))
    assert {source for cure in matter.part_cures for source in cure.sources} <= set(resting)
