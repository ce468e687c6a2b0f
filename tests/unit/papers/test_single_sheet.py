"""Drawings on a sheet of their own: inside the rule, true to scale still, and none where too little is known."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from lapwright.papers.card import WIDTHS
from lapwright.papers.drawing import Line, Text, measure_text
from lapwright.papers.single_sheet import HEIGHTS, SHEETS, draw_sheet, sheet_bytes
from lapwright.papers.svg import svg_text
from lapwright.papers.valve_picture import fit_frame
from tests.unit.papers.matters import card_of, examine_demo

TERN = card_of(examine_demo("tern"))


@pytest.mark.parametrize("paper", WIDTHS)
@pytest.mark.parametrize("kind", SHEETS)
@pytest.mark.parametrize("engine", ["tern", "merganser", "turnstone", "dunlin"])
def test_everything_stands_within_the_rule_of_a_whole_sheet(engine: str, kind: str, paper: str) -> None:
    matter = card_of(examine_demo(engine))
    for name in matter.before:
        sheet = draw_sheet(matter, kind, name, paper=paper)
        if sheet is None:
            assert kind == "run"
            continue
        assert (sheet.width, sheet.height) == (WIDTHS[paper], HEIGHTS[paper])
        points = [point for shape in sheet.shapes if isinstance(shape, Line) for point in shape.points]
        assert all(8.0 <= x <= sheet.width - 8.0 and 8.0 <= y <= sheet.height - 8.0 for x, y in points)
        strip = [shape for shape in sheet.shapes if isinstance(shape, Text) and shape.at[1] < 23.0]
        left = sum(measure_text(text.words, text.size) for text in strip if text.at[1] > 15.0)
        assert left < sheet.width - 26.0, "name and title do not meet"


def test_the_title_strip_says_whose_sheet_it_is_and_from_which_record() -> None:
    sheet = draw_sheet(TERN, "valve", "B", paper="a4")
    assert sheet is not None
    assert sheet.about == "Tern: The valve on its face, cylinder B"
    words = [shape.words for shape in sheet.shapes if isinstance(shape, Text)]
    assert any(TERN.record_digest[:12] in each and "tern.toml" in each for each in words)


def test_a_length_measures_the_same_on_the_sheet_as_its_scale_says() -> None:
    sheet = draw_sheet(TERN, "valve", "A", paper="a4")
    frame = fit_frame([TERN.sizes["A"]], width=184.0, margin=30.0)
    assert sheet is not None
    assert frame is not None
    valve = TERN.sizes["A"].number("valve.length") * 1e3 * frame.scale
    svg = svg_text(sheet)
    assert f"at {frame.scale:g} : 1" in svg
    lines = [line.points for line in sheet.shapes if isinstance(line, Line) and line.layer == "outline"]
    widths = [max(x for x, _ in points) - min(x for x, _ in points) for points in lines]
    assert any(width == pytest.approx(valve, abs=0.01) for width in widths)


def test_a_sheet_is_one_page_of_pdf_and_comes_out_the_same_twice() -> None:
    sheet = draw_sheet(TERN, "run", "A", paper="letter")
    assert sheet is not None
    data = sheet_bytes(sheet)
    reader = PdfReader(io.BytesIO(data))
    assert len(reader.pages) == 1
    box = reader.pages[0].mediabox
    assert [float(box.width), float(box.height)] == pytest.approx([612.0, 792.0], abs=0.1)
    assert "Starts by itself" in re.sub(r"\s+", " ", reader.pages[0].extract_text())
    assert sheet_bytes(sheet) == data
