"""The starting dial: arcs stand where the crank stands, whichever way the engine turns."""

from __future__ import annotations

from math import atan2, degrees

import pytest

from lapwright.papers.drawing import Drawing, Hatch, Line, Point
from lapwright.papers.starting_dial import DialWay, draw_starting_dial

QUARTER = DialWay(name="forward", starts=((60.0, 120.0),), never=((120.0, 60.0),))
CENTRE: Point = (46.0, 51.0)


def find_hatched(drawing: Drawing) -> set[int]:
    """The angles, clockwise from the top, at which something round the shaft is hatched [whole deg]."""
    rings = [ring for shape in drawing.shapes if isinstance(shape, Hatch) for ring in shape.rings]
    corners = [(x - CENTRE[0], y - CENTRE[1]) for ring in rings for x, y in ring if y > 12.0]
    return {round(degrees(atan2(x, y))) % 360 for x, y in corners}


@pytest.mark.parametrize(("clockwise", "low", "high"), [(True, 60, 120), (False, 240, 300)])
def test_an_arc_stands_at_the_angles_of_the_crank(clockwise: bool, low: int, high: int) -> None:
    hatched = find_hatched(draw_starting_dial([QUARTER], clockwise=clockwise, best=90.0))
    assert min(hatched) == low
    assert max(hatched) == high


def test_the_crank_points_to_where_it_pulls_most() -> None:
    drawing = draw_starting_dial([QUARTER], clockwise=True, best=90.0)
    (crank,) = [shape for shape in drawing.shapes if isinstance(shape, Line) and shape.layer == "flow"]
    assert crank.points[0] == CENTRE
    assert crank.points[1][0] > CENTRE[0]
    assert crank.points[1][1] == pytest.approx(CENTRE[1])


def test_everything_keeps_within_the_paper() -> None:
    ways = [QUARTER, DialWay(name="the other way round", starts=(), never=())]
    drawing = draw_starting_dial(ways, clockwise=True, best=12.0)
    points = [point for shape in drawing.shapes if isinstance(shape, Line) for point in shape.points]
    assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in points)
