"""Pictures to measure by: every key has its place, all of it lies on the paper, and what is known is drawn to scale."""

from __future__ import annotations

import os
import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.engine.engine import Engine
from lapwright.engine.sizes import NUMBER_KEYS, Sizes
from lapwright.papers.drawing import Line, Point, Text
from lapwright.papers.measure_marks import WIDTH, Subject, fit_sheet
from lapwright.papers.measure_picture import NOT_PICTURED, MeasureView, draw_part
from lapwright.papers.measure_terms import TERMS, name_key, split_key
from lapwright.papers.svg import svg_text
from lapwright.record.keys import TABLES
from lapwright.record.syntax import load_tables
from lapwright.record.written import list_written
from tests.property.engines import any_engines
from tests.unit.papers.matters import NAMES, examine_demo, span_of

KEPT = Path(__file__).parents[2] / "snapshot" / "papers"
KEYS = [f"{table}.{key}".lstrip(".") for table, keys in TABLES.items() for key in keys]
PARTS = ("cylinder.0", "cylinder.0.gland.0", "fastener.0", "pin.0")


def draw_all(written: dict[str, str] | None = None) -> list[MeasureView]:
    """Every picture of an engine of which nothing is known, in both ways that a screw is drawn."""
    texts = [written or {}, {"fastener.0.kind": "grub screw"}]
    edges = {f"cylinder.0.{table}.edges.0": "0 mm" for table in ("port_face", "valve")}
    return [
        view for text in [*texts, edges] for part in PARTS for view in draw_part(part, None, written=text, taken={})
    ]


def lies_on_its_paper(view: MeasureView) -> None:
    drawing = view.drawing
    assert drawing.width == WIDTH
    svg = svg_text(drawing)
    assert "nan" not in svg.lower()
    for shape in drawing.shapes:
        points = shape.points if isinstance(shape, Line) else (shape.at,) if isinstance(shape, Text) else ()
        for x, y in points:
            assert -0.6 <= x <= drawing.width + 0.6, shape
            assert -0.6 <= y <= drawing.height + 0.6, shape
        if isinstance(shape, Text):
            left, right = span_of(shape)
            assert left >= -0.6, shape
            assert right <= drawing.width + 0.12 * (right - left), shape


def test_every_key_of_a_record_has_its_place_or_a_reason_for_none() -> None:
    pictured = {split_key(key)[0] for view in draw_all() for key in view.keys}
    for key in KEYS:
        table = key.partition(".")[0]
        assert (key in pictured) != (key in NOT_PICTURED or table in NOT_PICTURED), key


def test_every_key_has_a_term_and_no_term_is_left_over() -> None:
    assert set(TERMS) == set(KEYS)
    assert all(TERMS.values())


@pytest.mark.parametrize("name", NAMES)
def test_all_of_every_picture_of_the_demo_engines_lies_on_its_paper(name: str) -> None:
    visit = examine_demo(name)
    for number in range(len(visit.engine.cylinders)):
        for part in PARTS:
            path = part.replace("cylinder.0", f"cylinder.{number}")
            for view in draw_part(path, visit.engine, written=visit.record.written, taken={}):
                lies_on_its_paper(view)


@settings(max_examples=60, deadline=None)
@given(
    sizes=any_engines(),
    lost=st.sets(st.sampled_from(NUMBER_KEYS), max_size=12),
    text=st.text(max_size=60),
    rotation=st.sampled_from([None, "clockwise", "anticlockwise", "either"]),
)
def test_pictures_of_any_engine_lie_on_their_paper(
    sizes: Sizes, lost: set[str], text: str, rotation: str | None
) -> None:
    half_known = replace(sizes, numbers={key: value for key, value in sizes.numbers.items() if key not in lost})
    engine = Engine(name="Tern", cylinders=(half_known,), rotation=rotation)
    written = {f"cylinder.0.{key}": text for key in NUMBER_KEYS}
    for view in draw_part("cylinder.0", engine, written=written, taken={}):
        lies_on_its_paper(view)


def test_a_size_that_is_not_known_is_asked_for_and_dashed() -> None:
    view = draw_part("cylinder.0", None, written={}, taken={})[0]
    bore = [shape for shape in view.drawing.shapes if getattr(shape, "key", "") == "cylinder.0.bore"]
    assert [shape.words for shape in bore if isinstance(shape, Text)] == ["bore ?"]
    assert {shape.layer for shape in bore if isinstance(shape, Line)} == {"wanted", "fill", "touch"}


def test_what_was_taken_is_told_and_what_is_known_is_as_it_was_written() -> None:
    view = draw_part(
        "cylinder.0", None, written={"cylinder.0.bore": "3/4 in"}, taken={"cylinder.0.connecting_rod": "45.00 mm"}
    )[0]
    words = {shape.key: shape.words for shape in view.drawing.shapes if isinstance(shape, Text) and shape.key}
    assert words["cylinder.0.bore"] == "bore 3/4 in"
    assert words["cylinder.0.connecting_rod"] == "connecting rod ? (45.00 mm)"


def test_ports_and_valve_are_drawn_to_one_scale() -> None:
    """The Sandpiper's ports are 2.0 mm, its valve 12.5 mm and its cavity 8.4 mm."""
    visit = examine_demo("sandpiper")
    face = draw_part("cylinder.0", visit.engine, written=visit.record.written, taken={})[1]
    spans = {}
    for key in ("port_face.steam_port", "valve.length", "valve.cavity"):
        lines = [s for s in face.drawing.shapes if isinstance(s, Line) and s.key == f"cylinder.0.{key}"]
        upright = sorted({s.points[0][0] for s in lines if len(s.points) == 2 and s.points[0][0] == s.points[1][0]})
        spans[key] = upright[-1] - upright[0]
    scale = spans["valve.length"] / 12.5
    assert spans["port_face.steam_port"] == pytest.approx(2.0 * scale)
    assert spans["valve.cavity"] == pytest.approx(8.4 * scale)


def test_pictures_are_as_they_were_last_looked_at() -> None:
    """`UPDATE_SNAPSHOTS=1` draws them anew; look at them then."""
    visit = examine_demo("turnstone")
    for part in PARTS:
        for view in draw_part(part, visit.engine, written=visit.record.written, taken={}):
            kept, svg = KEPT / f"measure-{view.name}.svg", svg_text(view.drawing)
            if os.environ.get("UPDATE_SNAPSHOTS"):
                kept.write_text(svg, encoding="utf-8")
            assert svg == kept.read_text(encoding="utf-8"), kept.name


def test_words_stand_over_all_lines() -> None:
    for view in draw_all():
        kinds = [isinstance(shape, Text) for shape in view.drawing.shapes]
        last_line = max(
            i
            for i, shape in enumerate(view.drawing.shapes)
            if not isinstance(shape, Text) and getattr(shape, "layer", "") not in ("touch", "paper")
        )
        assert kinds.index(True) > last_line


@pytest.mark.parametrize("view", draw_all(), ids=lambda view: f"{view.name}-{view.part}")
def test_no_two_words_lie_on_each_other(view: MeasureView) -> None:
    texts = [shape for shape in view.drawing.shapes if isinstance(shape, Text)]
    for one in texts:
        for other in texts:
            if one is other or abs(one.at[1] - other.at[1]) >= 0.75 * min(one.size, other.size):
                continue
            (a, b), (c, d) = span_of(one), span_of(other)
            assert min(b, d) - max(a, c) < 0.6, (one.words, other.words)


def list_parts_of_turnstone() -> list[MeasureView]:
    visit = examine_demo("turnstone")
    parts = ("cylinder.0.gland.0", "cylinder.0.gland.1", "fastener.0", "fastener.1", "pin.0")
    return [view for part in parts for view in draw_part(part, visit.engine, written=visit.record.written, taken={})]


def list_leads(view: MeasureView) -> list[tuple[str, Point, Point]]:
    """Every straight piece of a line that leads to words or measures, with its key; hatching and parts have none."""
    lines = [shape for shape in view.drawing.shapes if isinstance(shape, Line)]
    lines = [line for line in lines if line.layer in ("dimension", "wanted")]
    return [(line.key, one, other) for line in lines for one, other in pairwise(line.points)]


def meet(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two straight pieces cross, not only touch."""

    def side(a: Point, b: Point, c: Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    (a, b), (c, d) = one, other
    return side(a, b, c) * side(a, b, d) < -1e-6 and side(c, d, a) * side(c, d, b) < -1e-6


@pytest.mark.parametrize(
    "view",
    [view for view in [*draw_all(), *list_parts_of_turnstone()] if view.name in ("gland", "fastener", "pin")],
    ids=lambda view: f"{view.name}-{view.part}",
)
def test_no_line_of_a_screw_a_pin_or_a_gland_runs_through_words_or_across_another(view: MeasureView) -> None:
    leads = list_leads(view)
    for text in (shape for shape in view.drawing.shapes if isinstance(shape, Text) and shape.key):
        (left, right), (low, high) = span_of(text), (text.at[1], text.at[1] + 0.6 * text.size)
        frame = [(left, low), (right, low), (right, high), (left, high), (left, low)]
        for key, one, other in leads:
            crossed = any(meet((one, other), side) for side in pairwise(frame))
            assert not crossed, (text.words, key, one, other)
    for i, (key, *one) in enumerate(leads):
        for other_key, *other in leads[i + 1 :]:
            assert key == other_key or not meet((one[0], one[1]), (other[0], other[1])), (key, other_key)


def test_every_mark_carries_its_key_into_the_page() -> None:
    view = draw_part("cylinder.0", None, written={}, taken={})[0]
    svg = svg_text(view.drawing)
    assert set(re.findall(r'data-key="([^"]+)"', svg)) == set(view.keys)
    assert '<g class="touch" pointer-events="all">' in svg


def test_a_crank_that_turns_the_other_way_is_drawn_so() -> None:
    """The valve line's side changes with the way of turning; the head end stays at the left."""
    places = []
    for turn in (1, -1):
        subject = Subject("cylinder.0", {"cylinder_offset": 0.004, "stroke": 0.02, "bore": 0.02}, turn=turn)
        engine = Engine(
            name="x",
            cylinders=(Sizes("A", subject.numbers),),
            rotation="clockwise" if turn > 0 else "anticlockwise",
        )
        view = draw_part("cylinder.0", engine, written={}, taken={})[0]
        marks = [s for s in view.drawing.shapes if isinstance(s, Line) and s.key == "engine.rotation"]
        arc = next(mark for mark in marks if len(mark.points) == 12)
        places.append([b[1] > a[1] for a, b in pairwise(arc.points)])
    assert all(places[0])
    assert not any(places[1])


def test_names_of_keys_count_edges_from_one() -> None:
    assert name_key("cylinder.1.port_face.edges.0") == "edge 1"
    assert name_key("fastener.12.thread") == "thread of the hole"


def test_a_sheet_is_as_high_as_its_shapes() -> None:
    sheet = fit_sheet([Line(((0.0, -20.0), (10.0, 5.0)))], about="a line")
    line = sheet.shapes[0]
    assert isinstance(line, Line)
    assert line.points[0][1] == pytest.approx(1.5)
    assert sheet.height > 25.0


def test_the_texts_of_a_record_that_are_numbers_are_written_too() -> None:
    text = "format = 1\n[[fastener]]\ncount = 6\n"
    loaded = load_tables(text)
    assert isinstance(loaded, tuple)
    view = draw_part("fastener.0", None, written=list_written(text, *loaded), taken={})[0]
    assert "how many 6" in [shape.words for shape in view.drawing.shapes if isinstance(shape, Text)]
