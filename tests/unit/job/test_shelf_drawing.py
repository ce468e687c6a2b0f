"""The drawing on the shelf: true to the record, and none where there is nothing true to draw."""

from __future__ import annotations

import pytest

from lapwright.job.shelf.drawing import draw_for_shelf
from lapwright.papers.drawing import Drawing, Line
from lapwright.papers.svg import svg_text
from lapwright.record import change_record, drop_key, read_record
from lapwright.record.comparing import read_written
from tests.unit.record.records import HALF_KNOWN, TWIN


def draw(text: str) -> Drawing | None:
    engine = read_record(text.encode()).engine
    assert engine is not None
    return draw_for_shelf(engine)


def measure_bore(drawing: Drawing) -> float:
    """The piston's face is as high as the bore: the tallest of the boxes that are taller than they are wide by half."""
    boxes = [line.points for line in drawing.shapes if isinstance(line, Line) and line.closed and len(line.points) == 4]
    sides = [
        (max(x for x, _ in box) - min(x for x, _ in box), max(y for _, y in box) - min(y for _, y in box))
        for box in boxes
    ]
    return max(height for width, height in sides if 0.2 * height < width < 0.3 * height)


def test_a_known_engine_is_drawn_small_and_to_scale() -> None:
    drawing = draw(TWIN)
    assert drawing is not None
    assert drawing.width == 80.0
    assert svg_text(drawing).startswith("<svg")
    larger = draw(change_record(TWIN, {"cylinder.0.connecting_rod": "70 mm"}))
    assert larger is not None
    # A longer engine on the same paper is drawn smaller.
    assert measure_bore(larger) < measure_bore(drawing)


@pytest.mark.parametrize("missing", ["bore", "stroke"])
def test_what_can_fairly_be_taken_is(missing: str) -> None:
    assert draw(drop_key(TWIN, f"cylinder.0.{missing}")) is not None


def test_without_sizes_there_is_no_drawing() -> None:
    assert draw(drop_key(HALF_KNOWN, "cylinder.0.bore")) is None


def test_an_engine_that_cannot_turn_is_not_drawn() -> None:
    # Without the stroke nobody can say yet that the rod will never reach a line so far away.
    text = change_record(drop_key(TWIN, "cylinder.0.stroke"), {"cylinder.0.cylinder_offset": "500 mm"})
    assert draw(text) is None


def test_whatever_is_missing_the_rest_is_drawn() -> None:
    keys = [key for key in read_written(TWIN) if key.startswith("cylinder.0.") and "bore" not in key]
    for key in keys:
        assert draw(drop_key(TWIN, key)) is not None, key
    text = TWIN
    for key in keys:
        text = drop_key(text, key)
        draw(text)
