"""Marks on a picture to measure by: each size with its arrows and its words, tagged with its record key.

A size that is not known has dashed arrows and a question mark, so that the picture asks for it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from math import cos, hypot, pi, sin

from lapwright.papers.drawing import (
    Drawing,
    Hatch,
    Line,
    Point,
    Shape,
    Text,
    clear_behind,
    draw_arrow,
    measure_text,
)
from lapwright.papers.lettering import clip_text
from lapwright.papers.measure_terms import name_key

#: Width of the paper, letter size and smallest letter size [mm].
WIDTH, SIZE, SMALL, LEAST = 120.0, 4.2, 3.5, 2.6
#: Height of a row of dimensions [mm].
ROW = 7.2
#: Letters of a value that still stand on the picture.
_LONGEST = 26
#: After these a word goes on by itself.
_LEADS_ON = ("of", "in", "with", "round")
_EDGE = 1.0
#: Least width of a picture that is cut to what stands on it [mm].
_NARROWEST = 104.0
#: Radius of the ring round the place of a fault [mm].
_RING = 2.2
Room = tuple[float, float]
WHOLE: Room = (_EDGE, WIDTH - _EDGE)


@dataclass(frozen=True, slots=True)
class Telling:
    """What a picture of a fault tells of a part: keys that belong to it, those that are the fault, and other words.

    The fault stands out by bold words and a ring round its place. What is not known is left out.
    """

    named: tuple[str, ...] = ()
    fault: tuple[str, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Subject:
    """What is to be pictured: sizes known, by key below `prefix` [SI], and every text as written, by record path.

    `prefix` is the record path of the part, such as `cylinder.0`. `turn` is 1 for an engine that turns clockwise, else
    -1. `taken` holds what was assumed, as shown, by record path. `telling` is that of a fault, None where the picture
    is to measure by.
    """

    prefix: str
    numbers: Mapping[str, float] = field(default_factory=dict)
    written: Mapping[str, str] = field(default_factory=dict)
    turn: int = 1
    taken: Mapping[str, str] = field(default_factory=dict)
    telling: Telling | None = None

    def find(self, key: str) -> str:
        """Return a text as written, empty where nothing stands there."""
        return self.written.get(self.path(key), "").strip()

    def path(self, key: str) -> str:
        """Return the record path of a key of this part; one that starts with a dot belongs to the whole engine."""
        return key[1:] if key.startswith(".") else f"{self.prefix}.{key}"

    def knows(self, key: str) -> bool:
        """Whether a figure or a word stands there."""
        return bool(self.find(key))

    def shows(self, key: str) -> bool:
        """Whether a mark stands on the picture: of a fault only what belongs to it and is known."""
        told = self.telling
        return told is None or key in told.words or (key in (*told.named, *told.fault) and self.knows(key))

    def is_fault(self, key: str) -> bool:
        """Whether a mark is the fault itself."""
        return self.telling is not None and key in self.telling.fault

    def stands_out(self, key: str) -> bool:
        """Whether the words are bold: of a fault, or of what is still asked for."""
        return not self.knows(key) if self.telling is None else self.is_fault(key)

    def size(self, key: str, usual: float) -> float:
        """Return a size as it is drawn [SI]: its figure, or the usual one where it is not known or cannot be drawn."""
        value = self.numbers.get(key)
        return usual if value is None or value <= 0 else value

    def say(self, key: str) -> str:
        """Return the words of a mark: what the size is called and what was written, or a question mark."""
        if self.telling is not None and key in self.telling.words:
            return self.telling.words[key]
        name, taken = name_key(self.path(key)), self.taken.get(self.path(key), "")
        if self.knows(key):
            value = clip_text(self.find(key), _LONGEST)
            # A word is no size: "kind of screw: grub screw", but "screw of steel".
            is_plain = any(c.isdigit() for c in value) or name.rpartition(" ")[2] in _LEADS_ON
            return f"{name} {value}" if is_plain else f"{name}: {value}"
        return f"{name} ? ({taken})" if taken else f"{name} ?"


def fit_sheet(shapes: list[Shape], *, about: str) -> Drawing:
    """Put shapes that stand at any height on a sheet just high enough for them.

    Parameters
    ----------
    shapes: in their order, within the width of the paper
    about: what the drawing shows
    """
    heights = [y for shape in shapes for _, y in _list_points(shape)]
    low, high = min(heights) - 1.5, max(heights) + SIZE + 1.0
    # Words come last, each on a blank of its own, so that no line crosses them.
    words = [shape for shape in shapes if isinstance(shape, Text) or _is_touch(shape)]
    lines = [shape for shape in shapes if not isinstance(shape, Text) and not _is_touch(shape)]
    blanks = [clear_behind(shape) for shape in words if isinstance(shape, Text)]
    return Drawing(WIDTH, high - low, about, tuple(_shift(shape, 0.0, -low) for shape in (*lines, *blanks, *words)))


def crop_sheet(drawing: Drawing) -> Drawing:
    """Return a drawing without the paper left free at its sides, so that its letters are larger where it is shown.

    Parameters
    ----------
    drawing: whose words may also stand beyond its paper
    """
    reach = [x for shape in drawing.shapes for x in _list_widths(shape)]
    # A picture of few words is not blown up.
    spare = max(_EDGE, (_NARROWEST - (max(reach) - min(reach))) / 2)
    low, high = min(reach) - spare, max(reach) + spare
    return replace(drawing, width=high - low, shapes=tuple(_shift(shape, -low, 0.0) for shape in drawing.shapes))


def _list_widths(shape: Shape) -> tuple[float, ...]:
    if not isinstance(shape, Text):
        return tuple(x for x, _ in _list_points(shape))
    return tuple(x for x, _ in clear_behind(shape).points)


def _is_touch(shape: Shape) -> bool:
    return isinstance(shape, Line) and shape.layer == "touch"


def _list_points(shape: Shape) -> tuple[Point, ...]:
    match shape:
        case Line():
            return shape.points
        case Hatch():
            return tuple(point for ring in shape.rings for point in ring)
        case Text():
            return (shape.at,)
    return (shape.left, shape.right)


def _shift(shape: Shape, right: float, up: float) -> Shape:
    def move(point: Point) -> Point:
        return point[0] + right, point[1] + up

    match shape:
        case Line():
            return replace(shape, points=tuple(map(move, shape.points)))
        case Hatch():
            return replace(shape, rings=tuple(tuple(map(move, ring)) for ring in shape.rings))
        case Text():
            return replace(shape, at=move(shape.at))
    return replace(shape, left=move(shape.left), right=move(shape.right), y=shape.y + up)


class Marker:
    """Writes the marks of one subject."""

    def __init__(self, subject: Subject) -> None:
        self.subject = subject

    def _layer(self, key: str) -> str:
        if self.subject.telling is not None:
            return "thin" if self.subject.is_fault(key) else "dimension"
        return "dimension" if self.subject.knows(key) else "wanted"

    def write(self, key: str, at: Point, *, room: Room = WHOLE, anchor: str = "middle") -> list[Shape]:
        """Write a mark's words at a place, moved and made smaller as far as its room wants it."""
        words, path = self.subject.say(key), self.subject.path(key)
        text = place_words(words, at, room=self._open(room), anchor=anchor)
        # Plain words take a little less room than they are given.
        width = (0.93 if self.subject.knows(key) else 1.0) * measure_text(text.words, text.size)
        x0, x1 = text.at[0] - 1.0, text.at[0] + width + 1.0
        y0, y1 = text.at[1] - 1.3, text.at[1] + 0.78 * text.size + 0.3
        touch = Line(box((x0, y0), (x1, y1)), "touch", closed=True, key=path)
        return [touch, replace(text, key=path, bold=self.subject.stands_out(key))]

    def _open(self, room: Room) -> Room:
        """The room that words have: those of a fault may go on beyond the paper, which is cut to them."""
        if self.subject.telling is None:
            return room
        return (-WIDTH if room[0] <= _EDGE else room[0]), (2 * WIDTH if room[1] >= WIDTH - _EDGE else room[1])

    def spot(self, on: Point, keys: tuple[str, ...]) -> Line:
        """The dot at the place that words speak of; round the place of a fault there is a ring."""
        is_fault = any(self.subject.is_fault(key) for key in keys)
        radius, layer = (_RING, "curve") if is_fault else (0.55, "fill")
        return Line(circle(on, radius), layer, closed=True)

    def across(self, key: str, points: tuple[Point, Point], y: float, *, room: Room = WHOLE) -> list[Shape]:
        """Mark a size along x between two points of the part, its line at height y [mm], words beyond it."""
        if not self.subject.shows(key):
            return []
        (x0, y0), (x1, y1) = sorted(points)
        layer, path = self._layer(key), self.subject.path(key)
        above = y > max(y0, y1)
        reach = 1.2 if above else -1.2
        gap = 0.6 if above else -0.6
        shapes: list[Shape] = [
            Line(((x, start + gap), (x, y + reach)), layer, key=path) for x, start in ((x0, y0), (x1, y1))
        ]
        shapes += self._arrows(key, (x0, y), (x1, y))
        base = y + 1.2 if above else y - SIZE * 0.72 - 1.2
        return [*shapes, *self.write(key, ((x0 + x1) / 2, base), room=room)]

    def upright(
        self, key: str, points: tuple[Point, Point], x: float, *, base: float, room: Room = WHOLE
    ) -> list[Shape]:
        """Mark a size along y between two points of the part, its line at x [mm]; its words on a base line [mm]."""
        if not self.subject.shows(key):
            return []
        (xa, ya), (xb, yb) = sorted(points, key=lambda point: point[1])
        layer, path = self._layer(key), self.subject.path(key)
        shapes: list[Shape] = []
        for start, y in ((xa, ya), (xb, yb)):
            if abs(start - x) > 0.1:
                past = 1.2 if x > start else -1.2
                shapes.append(Line(((start + past / 2, y), (x + past, y)), layer, key=path))
        shapes += self._arrows(key, (x, ya), (x, yb))
        if base + SIZE < ya:
            shapes.append(Line(((x, ya), (x, base + SIZE)), layer, key=path))
        elif base - 1.0 > yb:
            shapes.append(Line(((x, yb), (x, base - 1.0)), layer, key=path))
        return [*shapes, *self.write(key, (x, base), room=room)]

    def _arrows(self, key: str, one: Point, other: Point) -> list[Shape]:
        """A dimension line with its heads: inside where there is room, else pointing at each other from outside."""
        layer, path = self._layer(key), self.subject.path(key)
        dx, dy = other[0] - one[0], other[1] - one[1]
        length = hypot(dx, dy)
        ux, uy = (dx / length, dy / length) if length > 1e-6 else (1.0, 0.0)
        outside = length < 7.0
        far = 5.0 if outside else 0.0
        start, stop = (one[0] - far * ux, one[1] - far * uy), (other[0] + far * ux, other[1] + far * uy)
        towards = 1.0 if outside else -1.0
        first = one[0] - towards * ux, one[1] - towards * uy
        second = other[0] + towards * ux, other[1] + towards * uy
        return [
            Line((start, stop), layer, key=path),
            draw_arrow(one, first, key=path),
            draw_arrow(other, second, key=path),
        ]

    def point_out(self, key: str, on: Point, at: Point, *, room: Room = WHOLE, anchor: str = "middle") -> list[Shape]:
        """Lead from words to the place of the part that they speak of."""
        if not self.subject.shows(key):
            return []
        words = self.write(key, at, room=room, anchor=anchor)
        left, right = (_list_points(words[0])[corner][0] for corner in (0, 2))
        near = min(max(on[0], left + 2.0), right - 2.0)
        end = (near, at[1] - 0.8 if on[1] < at[1] else at[1] + SIZE * 0.85)
        path = self.subject.path(key)
        return [
            Line((on, end), self._layer(key), key=path),
            replace(self.spot(on, (key,)), key=path),
            *words,
        ]

    def lead(self, key: str, way: tuple[Point, ...], *, room: Room, is_dotted: bool = True) -> list[Shape]:
        """Lead along a way to words that stand at its end, in the middle of its height, at the side it comes to them.

        `room` is where words may stand: left of the end of the way or right of it. A way of which all lead from one
        spot has its dot there once.
        """
        if not self.subject.shows(key):
            return []
        path, (x, y), room = self.subject.path(key), way[-1], self._open(room)
        is_left = x > room[1]
        text = place_words(self.subject.say(key), (room[1] if is_left else room[0], y), room=room, anchor="start")
        start = room[1] - measure_text(text.words, text.size) if is_left else room[0]
        base = y - 0.33 * text.size
        # Real letters are a little narrower than they are given room: they stand at the side where their line ends.
        at = (room[1] if is_left else room[0], base)
        words = replace(text, at=at, anchor="end" if is_left else "start", key=path, bold=self.subject.stands_out(key))
        corners = (start, base - 1.3), (start + measure_text(text.words, text.size), base + 0.78 * text.size + 0.3)
        dot = [replace(self.spot(way[0], (key,)), key=path)] if is_dotted else []
        return [Line(way, self._layer(key), key=path), *dot, Line(box(*corners), "touch", closed=True, key=path), words]

    def list_beside(
        self, keys: tuple[str, ...], on: Point, *, rows: tuple[float, ...], room: Room, spine: float = 0.0
    ) -> list[Shape]:
        """Write several marks of one place under each other, joined by one upright line that leads there.

        Parameters
        ----------
        keys: of the marks
        on: the place that all of them speak of
        rows: the height of each
        room: where their words may stand
        spine: x of the upright line [mm], that of the place if it is 0
        """
        keys = tuple(key for key in keys if self.subject.shows(key))
        if not keys:
            return []
        # Where some are left out, the others move up to their place.
        near = sorted(rows, key=lambda row: abs(row - on[1]))[: len(keys)]
        rows = tuple(row for row in rows if row in near)
        x = spine or on[0]
        heights = (*rows, on[1])
        shapes: list[Shape] = [
            Line(((x, min(heights)), (x, max(heights))), "dimension"),
            self.spot(on, keys),
        ]
        if x != on[0]:
            shapes.append(Line((on, (x, on[1])), "dimension"))
        end = room[1] + 1.0 if x > room[1] else room[0] - 1.0
        for key, y in zip(keys, rows, strict=True):
            shapes += self.lead(key, ((x, y), (end, y)), room=room, is_dotted=False)
        return shapes

    def turn(self, key: str, centre: Point, radius: float, *, angles: tuple[float, float]) -> list[Shape]:
        """Mark an angle by an arc with an arrow at its end; angles as on paper, from x towards y [rad]."""
        start, stop = angles
        steps = max(4, int(abs(stop - start) / 0.08))
        arc = tuple(
            (centre[0] + radius * cos(a), centre[1] + radius * sin(a))
            for a in (start + (stop - start) * i / steps for i in range(steps + 1))
        )
        path = self.subject.path(key)
        return [Line(arc, self._layer(key), key=path), draw_arrow(arc[-1], arc[-2], key=path)]


def place_words(words: str, at: Point, *, room: Room = WHOLE, anchor: str = "middle", size: float = SIZE) -> Text:
    """Return words near a place, kept inside their room: smaller where they are too long for it, and at last cut.

    Parameters
    ----------
    words: what to write
    at: where they are wanted, by their anchor [mm]
    room: from where to where they may stand [mm]
    anchor: which part of the words stands at the place: start, middle or end
    size: letter size [mm]
    """
    width = room[1] - room[0]
    size = max(LEAST, min(size, width / measure_text(words, 1.0)))
    words = clip_text(words, max(int(width / measure_text("x", size) + 1e-3), 2))
    long = measure_text(words, size)
    start = at[0] - long * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
    return Text((max(room[0], min(start, room[1] - long)), at[1]), words, size, "start")


def circle(centre: Point, radius: float) -> tuple[Point, ...]:
    """Return the points of a circle [mm of paper]."""
    count = 12 if radius < 1.5 else 48
    angles = (2 * pi * i / count for i in range(count))
    return tuple((centre[0] + radius * cos(a), centre[1] + radius * sin(a)) for a in angles)


def box(one: Point, other: Point) -> tuple[Point, ...]:
    """Return the corners of an upright rectangle between two that lie opposite [mm of paper]."""
    (x0, y0), (x1, y1) = one, other
    return ((x0, y0), (x0, y1), (x1, y1), (x1, y0))


def solid(ring: tuple[Point, ...], *, angle: float = 45.0, spacing: float = 1.7) -> list[Shape]:
    """Return a part that is cut through: its outline and its hatching.

    Parameters
    ----------
    ring: its corners
    angle: of the hatching [deg]
    spacing: of the hatching [mm]
    """
    return [Line(ring, "paper", closed=True), Hatch((ring,), angle, spacing), Line(ring, closed=True)]
