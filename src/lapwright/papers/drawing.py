"""A drawing of our own: lines, areas, text, hatching and dimensions in millimetres of paper, on named layers.

x grows to the right and y upwards. How a layer looks is the writer's business (`svg.py`). A shape may carry the record
key of the size that it shows, by which a page finds it again.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, radians, sin

Point = tuple[float, float]

#: Width of an average character as a share of the letter size; a little generous, so that text has room everywhere.
CHARACTER_WIDTH = 0.54
ARROW_LENGTH = 2.4
ARROW_HALF_WIDTH = 0.45


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points; closed, it is the outline of an area."""

    points: tuple[Point, ...]
    layer: str = "outline"
    closed: bool = False
    key: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """Words at a point on their base line; `anchor` says which part of them stands there: start, middle or end."""

    at: Point
    words: str
    size: float = 4.0
    anchor: str = "middle"
    bold: bool = False
    key: str = ""


@dataclass(frozen=True, slots=True)
class Hatch:
    """An area filled with parallel lines at an angle [deg] and spacing [mm]; a hole is a further ring of points."""

    rings: tuple[tuple[Point, ...], ...]
    angle: float = 45.0
    spacing: float = 1.6
    layer: str = "hatch"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length measured along x between two points, its dimension line at height `y`.

    `words` stand above the line's middle (`side` "inside") or at its left or right end, where the arrows then
    point at each other from outside. `reach` is how far beyond the measured points the line runs to those words [mm].
    """

    left: Point
    right: Point
    y: float
    words: str
    side: str = "inside"
    reach: float = 6.0
    size: float = 4.0
    key: str = ""


Shape = Line | Text | Hatch | Dimension


@dataclass(frozen=True, slots=True)
class Drawing:
    """A sheet of shapes: its width and height [mm of paper], what it shows in words, and the shapes in their order."""

    width: float
    height: float
    about: str
    shapes: tuple[Shape, ...]


def measure_text(words: str, size: float) -> float:
    """Return about how wide words will be [mm] at a letter size [mm].

    Example:
    >>> measure_text("lap", 4.0)
    6.48
    """
    return round(CHARACTER_WIDTH * size * len(words), 6)


def clear_behind(text: Text) -> Line:
    """Return the blank that keeps words readable where they stand across a line; it goes before them.

    Example:
    >>> clear_behind(Text((0.0, 0.0), "lap", 4.0, "start")).points[2]
    (6.48, 3.0)
    """
    width, size = measure_text(text.words, text.size), text.size
    x0 = text.at[0] - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
    y0, y1 = text.at[1] - 0.25 * size, text.at[1] + 0.75 * size
    return Line(((x0, y0), (x0, y1), (x0 + width, y1), (x0 + width, y0)), "paper", closed=True)


def draw_arrow(tip: Point, tail: Point, layer: str = "fill", *, key: str = "") -> Line:
    """Return an arrow head at `tip` that comes from the direction of `tail`; it has no shaft."""
    dx, dy = tip[0] - tail[0], tip[1] - tail[1]
    length = hypot(dx, dy) or 1.0
    ux, uy = dx / length, dy / length
    back = tip[0] - ARROW_LENGTH * ux, tip[1] - ARROW_LENGTH * uy
    across = -uy * ARROW_HALF_WIDTH, ux * ARROW_HALF_WIDTH
    one, other = (back[0] + across[0], back[1] + across[1]), (back[0] - across[0], back[1] - across[1])
    return Line((tip, one, other), layer, closed=True, key=key)


def lay_dimension(dimension: Dimension) -> tuple[Line | Text, ...]:
    """Take a dimension apart into extension lines, dimension line, arrow heads and words."""
    x0, x1, y, key = dimension.left[0], dimension.right[0], dimension.y, dimension.key
    extensions = tuple(_extend(point, y, key) for point in (dimension.left, dimension.right))
    words = _place_words(dimension)
    if dimension.side == "inside":
        line = Line(((x0, y), (x1, y)), "dimension", key=key)
        heads = draw_arrow((x0, y), (x1, y), key=key), draw_arrow((x1, y), (x0, y), key=key)
        return (*extensions, line, *heads, words)
    left_reach = dimension.reach if dimension.side == "left" else 2 * ARROW_LENGTH
    right_reach = dimension.reach if dimension.side == "right" else 2 * ARROW_LENGTH
    line = Line(((x0 - left_reach, y), (x1 + right_reach, y)), "dimension", key=key)
    heads = draw_arrow((x0, y), (x0 - 9, y), key=key), draw_arrow((x1, y), (x1 + 9, y), key=key)
    return (*extensions, line, *heads, words)


def _extend(point: Point, y: float, key: str) -> Line:
    """The extension line: it starts a little off the part and runs a little past the dimension line."""
    away = 1.0 if y > point[1] else -1.0
    return Line(((point[0], point[1] + 0.8 * away), (point[0], y + 1.2 * away)), "dimension", key=key)


def _place_words(dimension: Dimension) -> Text:
    x0, x1, y, size = dimension.left[0], dimension.right[0], dimension.y, dimension.size
    if dimension.side == "inside":
        return Text(((x0 + x1) / 2, y + 0.9), dimension.words, size, key=dimension.key)
    if dimension.side == "left":
        return Text((x0 - dimension.reach - 1.0, y - 0.33 * size), dimension.words, size, "end", key=dimension.key)
    return Text((x1 + dimension.reach + 1.0, y - 0.33 * size), dimension.words, size, "start", key=dimension.key)


def lay_hatch(hatch: Hatch) -> tuple[Line, ...]:
    """Take a hatched area apart into its lines, each clipped to the area (even-odd where rings overlap).

    Example:
    >>> square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    >>> [line.points for line in lay_hatch(Hatch((square,), angle=0.0, spacing=2.0))]
    [((0.0, 1.0), (4.0, 1.0)), ((0.0, 3.0), (4.0, 3.0))]
    """
    c, s = cos(radians(hatch.angle)), sin(radians(hatch.angle))
    turned = [[(x * c + y * s, y * c - x * s) for x, y in ring] for ring in hatch.rings]
    heights = [v for ring in turned for _, v in ring]
    if not heights:
        return ()
    lines: list[Line] = []
    # Rows are counted from the drawing's own origin, so that neighbouring areas of one part hatch alike.
    row, top = int(min(heights) // hatch.spacing), max(heights)
    while (v := (row + 0.5) * hatch.spacing) < top:
        cuts = sorted(cut for ring in turned for cut in _cut_ring(ring, v))
        for u0, u1 in zip(cuts[::2], cuts[1::2], strict=False):
            lines.append(Line(((u0 * c - v * s, u0 * s + v * c), (u1 * c - v * s, u1 * s + v * c)), hatch.layer))
        row += 1
    return tuple(lines)


def _cut_ring(ring: list[Point], v: float) -> list[float]:
    cuts = []
    for (u0, v0), (u1, v1) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (v0 <= v) != (v1 <= v):
            cuts.append(u0 + (u1 - u0) * (v - v0) / (v1 - v0))
    return cuts
