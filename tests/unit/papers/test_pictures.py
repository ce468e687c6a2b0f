"""The drawings: true to scale, all on the sheet, and no figure that is none."""

from __future__ import annotations

import os
import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.engine.sizes import NUMBER_KEYS, Sizes
from lapwright.papers.drawing import Drawing, Line
from lapwright.papers.svg import svg_text
from lapwright.papers.timing_picture import draw_timing
from lapwright.papers.valve_picture import draw_section, fit_frame
from tests.property.engines import any_engines
from tests.unit.papers.matters import NAMES, examine_demo, list_texts, span_of

KEPT = Path(__file__).parents[2] / "snapshot" / "papers"
WIDTH = 178.0


def draw_all(name: str) -> dict[str, Drawing]:
    """Every picture of a demo engine's first cylinder."""
    visit = examine_demo(name)
    sizes = visit.cylinders[0]
    cured = sizes.replacing(visit.cures[0].changes) if visit.cures else None
    frame = fit_frame([sizes], width=WIDTH, margin=30.0)
    assert frame is not None
    drawings = {stand: draw_section(sizes, frame, stand=stand, title="t") for stand in ("middle", "head", "crank")}
    chart = draw_timing(sizes, cured, width=WIDTH)
    assert chart is not None
    return {**drawings, "timing": chart}


def outlines(svg: str) -> list[list[tuple[float, float]]]:
    """The points of every line and ring."""
    rings = re.findall(r'points="([^"]*)"', svg)
    return [[(float(x), float(y)) for x, y in (pair.split(",") for pair in ring.split())] for ring in rings]


def lies_on_its_paper(drawing: Drawing) -> None:
    svg = svg_text(drawing)
    assert "nan" not in svg.lower()
    assert "inf" not in svg.lower()
    for ring in outlines(svg):
        for x, y in ring:
            assert -0.5 <= x <= drawing.width + 0.5
            assert -0.5 <= y <= drawing.height + 0.5
    for text in list_texts(drawing):
        left, right = span_of(text)
        # The room that words are given is a fifth more than they take (a lap's 16 letters: 34.6 mm for 27 mm).
        spare = 0.12 * (right - left)
        assert left >= -spare, text
        assert right <= drawing.width + spare, text
        assert 0 <= text.at[1] <= drawing.height - 0.7 * text.size, text


@pytest.mark.parametrize("name", NAMES)
def test_all_of_a_picture_lies_on_its_paper(name: str) -> None:
    for drawing in draw_all(name).values():
        lies_on_its_paper(drawing)


@settings(max_examples=60, deadline=None)
@given(found=any_engines(), cured=any_engines(), lost=st.sets(st.sampled_from(NUMBER_KEYS), max_size=3))
def test_pictures_of_any_engine_lie_on_their_paper(found: Sizes, cured: Sizes, lost: set[str]) -> None:
    states = [replace(s, numbers={k: v for k, v in s.numbers.items() if k not in lost}) for s in (found, cured)]
    whole, half = fit_frame(states, width=WIDTH, margin=30.0), fit_frame(states, width=86.0, margin=3.0, size=3.7)
    for stand, frame in (("middle", whole), ("head", half), ("crank", half)):
        if frame is not None:
            lies_on_its_paper(draw_section(states[0], frame, stand=stand, title="t"))
    chart = draw_timing(states[0], states[1], width=WIDTH)
    if chart is not None:
        lies_on_its_paper(chart)


def test_the_valve_is_drawn_to_the_scale_that_is_said() -> None:
    """The Sandpiper's valve is 12.5 mm long, its ports are 2.0 mm and its cavity 8.4 mm."""
    sizes = examine_demo("sandpiper").cylinders[0]
    frame = fit_frame([sizes], width=WIDTH, margin=30.0)
    assert frame is not None
    svg = svg_text(draw_section(sizes, frame, stand="middle", title="t"))
    spans = {round(max(x for x, _ in ring) - min(x for x, _ in ring), 2) for ring in outlines(svg)}
    for length in (12.5, 2.0, 8.4):
        assert any(span == pytest.approx(length * frame.scale, abs=0.011) for span in spans), length
    assert f"{frame.scale:g} : 1" in svg


@pytest.mark.parametrize("name", NAMES)
def test_no_dead_centre_runs_into_the_words_of_the_straight_way(name: str) -> None:
    chart = draw_all(name)["timing"]
    words = [text for text in list_texts(chart) if text.words.startswith("Live steam")]
    centres = [shape for shape in chart.shapes if isinstance(shape, Line) and shape.layer == "centre"]
    assert words
    assert centres
    assert min(y for line in centres for _, y in line.points) > max(text.at[1] + text.size for text in words)


@pytest.mark.parametrize("name", ["sandpiper", "merganser"])
def test_pictures_are_as_they_were_last_looked_at(name: str) -> None:
    """`UPDATE_SNAPSHOTS=1` draws them anew; look at them then."""
    for title, drawing in draw_all(name).items():
        kept, svg = KEPT / f"{name}-{title}.svg", svg_text(drawing)
        if os.environ.get("UPDATE_SNAPSHOTS"):
            kept.write_text(svg, encoding="utf-8")
        assert svg == kept.read_text(encoding="utf-8"), kept.name
