"""Small shapes that machine parts are drawn with: cut and uncut metal, boxes, circles, rods, centre lines, studs."""

from __future__ import annotations

from collections.abc import Iterable
from math import asin, atan2, cos, hypot, pi, sin

from lapwright.papers.drawing import Hatch, Line, Point, Shape

Ring = tuple[Point, ...]


def box(one: Point, other: Point) -> Ring:
    """Return a rectangle's corners from two that lie opposite each other.

    Example:
    >>> box((0.0, 0.0), (2.0, 1.0))
    ((0.0, 0.0), (0.0, 1.0), (2.0, 1.0), (2.0, 0.0))
    """
    (left, bottom), (right, top) = one, other
    return ((left, bottom), (left, top), (right, top), (right, bottom))


def circle(centre: Point, radius: float, *, points: int = 48) -> Ring:
    """Return a circle as a ring of points.

    Parameters
    ----------
    centre: its middle
    radius: of the circle [mm]
    points: how many [-]
    """
    turns = (2 * pi * number / points for number in range(points))
    return tuple((centre[0] + radius * cos(turn), centre[1] + radius * sin(turn)) for turn in turns)


def taper(one: Point, other: Point, *, radii: tuple[float, float]) -> Ring:
    """Return two circles with the straight lines that touch both: a web or the outside of a rod.

    Parameters
    ----------
    one, other: centres, apart by more than the radii differ
    radii: of the two circles [mm]
    """
    away = atan2(other[1] - one[1], other[0] - one[0])
    length = hypot(other[0] - one[0], other[1] - one[1])
    lean = asin(max(-1.0, min(1.0, (radii[0] - radii[1]) / length))) if length > 0 else 0.0
    points: list[Point] = []
    for centre, radius, middle, half in (
        (one, radii[0], away + pi, pi / 2 + lean),
        (other, radii[1], away, pi / 2 - lean),
    ):
        turns = (middle - half + 2 * half * step / 20 for step in range(21))
        points += [(centre[0] + radius * cos(turn), centre[1] + radius * sin(turn)) for turn in turns]
    return tuple(points)


def cut(ring: Ring, *, angle: float = 45.0, spacing: float = 1.5, holes: Iterable[Ring] = ()) -> list[Shape]:
    """Draw metal that the section goes through: hatched, on a ground of its own.

    Parameters
    ----------
    ring: its outline
    angle: of the hatching [deg]
    spacing: of its lines [mm]
    holes: further outlines within
    """
    rings = (ring, *holes)
    lines: list[Shape] = [Line(each, "outline", closed=True) for each in rings]
    return [Line(ring, "paper", closed=True), Hatch(rings, angle, spacing), *lines]


def solid(ring: Ring, *, layer: str = "outline") -> list[Shape]:
    """Draw a part that is not cut: rods, shafts, pins and screws are shown whole in a section."""
    return [Line(ring, "paper", closed=True), Line(ring, layer, closed=True)]


def cross(centre: Point, reach: float) -> list[Shape]:
    """Draw the two centre lines of a round part.

    Parameters
    ----------
    centre: its middle
    reach: how far the lines go from there [mm]
    """
    x, y = centre
    return [
        Line(((x - reach, y), (x + reach, y)), "centre"),
        Line(((x, y - reach), (x, y + reach)), "centre"),
    ]


def stud(at: Point, *, towards: int, length: float, width: float) -> list[Shape]:
    """Draw a stud's nut lying on a flange whose face looks along x.

    Parameters
    ----------
    at: where the stud's middle meets the flange
    towards: +1 where the face looks to the right, -1 to the left [-]
    length: of the nut along the stud [mm]
    width: of the nut across [mm]
    """
    x, y = at
    far, tip = x + towards * length, x + towards * (length + 0.35 * width)
    nut = box((min(x, far), y - width / 2), (max(x, far), y + width / 2))
    end = box((min(far, tip), y - width / 4), (max(far, tip), y + width / 4))
    across: list[Shape] = [
        Line(((min(x, far), y + side * width / 6), (max(x, far), y + side * width / 6)), "hatch") for side in (1, -1)
    ]
    return [*solid(end, layer="thin"), *solid(nut, layer="thin"), *across]
