"""The valve on its port face in section, true to scale along the valve line, at any place of its travel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import log10

from lapwright.engine.cylinder import ENDS, Cylinder
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import Movement, exhaust_opening, find_laps, set_moving, steam_opening
from lapwright.papers.drawing import Dimension, Drawing, Hatch, Line, Point, Shape, Text, draw_arrow, measure_text
from lapwright.papers.lettering import NOT_KNOWN, show_number

#: Scales a workshop drawing uses, largest first.
SCALES = (50.0, 20.0, 10.0, 8.0, 5.0, 4.0, 3.0, 2.0, 1.0, 0.5, 0.25, 0.2, 0.1)
FACE_DEPTH = 10.0
VALVE_HEIGHT = 12.5
CAVITY_HEIGHT = 7.5
WALL = 4.0
ROW = 6.0


@dataclass(frozen=True, slots=True)
class Frame:
    """What the pictures of one cylinder share, so that they compare.

    `scale` is mm of paper to a mm of engine, `reach` how far the picture goes from the port-face centre [mm of engine],
    `width` the paper's width [mm] and `size` the letter size [mm].
    """

    scale: float
    reach: float
    width: float
    size: float

    @property
    def centre(self) -> float:
        """Where the port-face centre stands on the paper [mm]."""
        return self.width / 2

    def place(self, position: float) -> float:
        """Return where a place on the valve line [m, positive towards the head end] stands on the paper [mm]."""
        return self.centre - self.scale * position * 1e3


def fit_frame(sizes: Iterable[Sizes], *, width: float, margin: float, size: float = 4.0) -> Frame | None:
    """Return the largest usual scale at which face and valve of all the cylinders fit; None where nothing is known.

    Parameters
    ----------
    sizes: the cylinder as found and after the cure
    width: width of the paper [mm]
    margin: paper kept free at each side for words [mm]
    size: letter size [mm]
    """
    reaches = [reach for each in sizes for reach in _list_reaches(set_moving(each))]
    if not reaches or max(reaches) <= 0:
        return None
    reach = max(reaches) * 1e3 * 1.08
    room = (width - 2 * margin) / (2 * reach)
    scale = next((scale for scale in SCALES if scale <= room), 10.0 ** (int(log10(room)) - 1))
    return Frame(scale, reach, width, size)


def _list_reaches(moving: Movement) -> Iterator[float]:
    cylinder, valve = moving.cylinder, moving.valve
    travel = 0.0 if valve is None else max(abs(valve.low), abs(valve.high))
    for end in ENDS:
        if cylinder.face is not None:
            yield cylinder.face[end].outer * 1.25
        outer = cylinder.valve[end].outer
        if outer is not None:
            yield outer + travel


def show_scale(scale: float) -> str:
    """Return a scale [mm of paper to a mm] as a drawing names it.

    Example:
    >>> show_scale(5.0), show_scale(0.5)
    ('5 : 1', '1 : 2')
    """
    return f"{scale:g} : 1" if scale >= 1 else f"1 : {1 / scale:g}"


def draw_section(sizes: Sizes, frame: Frame, *, stand: str, title: str) -> Drawing:
    """Draw the valve on its face at mid-travel with dimensions, or at a dead centre with what is open.

    Parameters
    ----------
    sizes: the cylinder; whatever of it is not known is left out of the picture and said so
    frame: scale and paper, from `fit_frame`
    stand: "middle", or the end ("head" or "crank") at whose dead centre the valve is drawn
    title: heading of the picture
    """
    moving = set_moving(sizes)
    position = _find_stand(moving, stand)
    rows = 3 if stand == "middle" else 2
    floor = 7.0 + ROW * rows
    top = floor + FACE_DEPTH + VALVE_HEIGHT + (ROW if stand == "middle" else 0.0) + 3.0
    height = top + frame.size + 2.0
    section = _Section(moving, frame, position=position or 0.0, floor=floor)
    shapes: list[Shape] = [Text((0.0, height - frame.size), title, frame.size + 0.2, "start", bold=True)]
    shapes += section.draw_face()
    shapes += section.draw_valve(known=position is not None)
    shapes += section.draw_chest()
    shapes += (
        section.dimension_middle() if stand == "middle" else section.label_openings(stand, known=position is not None)
    )
    shapes += section.draw_foot()
    return Drawing(frame.width, height, f"{title}, section along the valve line", tuple(shapes))


def _find_stand(moving: Movement, stand: str) -> float | None:
    if moving.valve is None:
        return moving.cylinder.gear.valve_offset if moving.cylinder.gear else (0.0 if stand == "middle" else None)
    if stand == "middle":
        return (moving.valve.low + moving.valve.high) / 2
    angle = moving.dead_centre(stand)
    return None if angle is None else moving.valve.position(angle)


class _Section:
    """One picture in the making: the face's surface lies `floor` plus the face's depth above the paper's lower edge."""

    def __init__(self, moving: Movement, frame: Frame, *, position: float, floor: float) -> None:
        self.cylinder: Cylinder = moving.cylinder
        self.frame, self.position, self.floor = frame, position, floor
        self.surface = floor + FACE_DEPTH

    def draw_face(self) -> list[Shape]:
        face, frame = self.cylinder.face, self.frame
        if face is None:
            words = "port face not known"
            return [
                Line(((4.0, self.surface), (frame.width - 4.0, self.surface)), "hidden"),
                Text((frame.centre, self.surface - 6.0), words, frame.size),
            ]
        head, crank = face["head"], face["crank"]
        cuts = [
            frame.place(x) for x in (head.outer, head.inner, head.middle, -crank.middle, -crank.inner, -crank.outer)
        ]
        blocks = [
            (frame.centre - self._measure_face("head"), cuts[0]),
            (cuts[1], cuts[2]),
            (cuts[3], cuts[4]),
            (cuts[5], frame.centre + self._measure_face("crank")),
        ]
        # Broken off below and at both sides: only the worked faces get a full line.
        rings = [((x0, self.floor), (x0, self.surface), (x1, self.surface), (x1, self.floor)) for x0, x1 in blocks]
        sides = [rings[0][1:], rings[1], rings[2], rings[3][:3]]
        return [*(Hatch((ring,), 45.0, 1.7) for ring in rings), *(Line(side) for side in sides)]

    def _measure_face(self, end: str) -> float:
        """How far the face is drawn from its centre towards an end [mm]: as far as the picture or the chest's wall."""
        wall, reach = self._find_wall(end), self.frame.scale * self.frame.reach
        return reach if wall is None else max(reach, wall + WALL)

    def _find_wall(self, end: str) -> float | None:
        """How far the chest's wall stands from the centre [mm of paper], None where it is not known or out of sight."""
        wall = self.cylinder.chest[end]
        if wall is None or wall * 1e3 * self.frame.scale + WALL > self.frame.centre - 1.0:
            return None
        return wall * 1e3 * self.frame.scale

    def draw_valve(self, *, known: bool) -> list[Shape]:
        head, crank = self.cylinder.valve["head"], self.cylinder.valve["crank"]
        if head.outer is None or crank.outer is None or not known:
            words = "valve length not known" if head.outer is None else "where the valve stands is not known"
            return [Text((self.frame.centre, self.surface + 5.0), words, self.frame.size)]
        left, right = self._at(head.outer), self._at(-crank.outer)
        y0, y1 = self.surface, self.surface + VALVE_HEIGHT
        if head.cavity is None or crank.cavity is None:
            words = "cavity not known"
            box = ((left, y0), (left, y1), (right, y1), (right, y0))
            centre = (left + right) / 2
            return [Line(box, "outline", closed=True), Text((centre, y0 + 5.0), words, self.frame.size)]
        inner_left, inner_right, roof = self._at(head.cavity), self._at(-crank.cavity), y0 + CAVITY_HEIGHT
        ring = (
            (left, y0),
            (left, y1),
            (right, y1),
            (right, y0),
            (inner_right, y0),
            (inner_right, roof),
            (inner_left, roof),
            (inner_left, y0),
        )
        return [Hatch((ring,), 135.0, 1.2), Line(ring, "outline", closed=True), *self._draw_axis(left, right)]

    def _draw_axis(self, left: float, right: float) -> list[Shape]:
        """The valve's own centre as a short centre line; a piston valve also gets its axis, being drawn in half."""
        x, top = self._at(0.0), self.surface + VALVE_HEIGHT
        # Not below the cavity's roof: its length is written there.
        across = Line(((x, self.surface + CAVITY_HEIGHT), (x, top + 2.5)), "centre")
        if self.cylinder.kind != "piston":
            return [across]
        return [across, Line(((left - 4.0, top), (right + 4.0, top)), "centre")]

    def _at(self, along: float) -> float:
        """Where a place on the valve [m from its centre, positive towards the head end] stands on the paper."""
        return self.frame.place(self.position + along)

    def draw_chest(self) -> list[Shape]:
        shapes: list[Shape] = []
        for end, towards in ENDS.items():
            wall = self._find_wall(end)
            if wall is None:
                continue
            inner, outer = self.frame.centre - towards * wall, self.frame.centre - towards * (wall + WALL)
            y0, y1 = self.surface, self.surface + VALVE_HEIGHT
            ring = ((inner, y0), (inner, y1), (outer, y1), (outer, y0))
            shapes += [Hatch((ring,), 45.0, 1.7), Line(((inner, y0), (inner, y1)))]
        return shapes

    def dimension_middle(self) -> list[Shape]:
        shapes: list[Shape] = []
        head, crank, top = self.cylinder.valve["head"], self.cylinder.valve["crank"], self.surface + VALVE_HEIGHT
        if head.outer is not None and crank.outer is not None:
            across = (head.outer, -crank.outer)
            shapes.append(self._measure(across, base=top, y=top + ROW - 2.0))
        if head.cavity is not None and crank.cavity is not None and head.outer is not None:
            across = (head.cavity, -crank.cavity)
            shapes.append(self._measure(across, base=self.surface - 0.8, y=self.surface + 2.2))
        return [*shapes, *self._dimension_face(), *self._dimension_laps()]

    def _measure(self, across: tuple[float, float], *, base: float, y: float) -> Dimension:
        """A dimension between two places on the valve, larger first."""
        left, right = self._at(across[0]), self._at(across[1])
        words = show_number((across[0] - across[1]) * 1e3, 2)
        return _dimension((left, base), (right, base), y=y, words=words, size=self.frame.size)

    def _dimension_face(self) -> list[Shape]:
        face = self.cylinder.face
        if face is None:
            return []
        head, crank = face["head"], face["crank"]
        edges = [head.outer, head.inner, head.middle, -crank.middle, -crank.inner, -crank.outer]
        y, base, size = self.floor - 5.0, self.floor, self.frame.size
        xs = [self.frame.place(edge) for edge in edges]
        words = [show_number((a - b) * 1e3, 2) for a, b in pairwise(edges)]
        narrowest = min((b - a) / measure_text(w, 1.0) for a, b, w in zip(xs, xs[1:], words, strict=False))
        fitted = max(2.4, min(size, narrowest * 0.86))
        return [Dimension((a, base), (b, base), y, w, size=fitted) for a, b, w in zip(xs, xs[1:], words, strict=False)]

    def _dimension_laps(self) -> list[Shape]:
        """Both laps of both ends: below the face, each from the port's edge to the valve's, named out at the side."""
        shapes: list[Shape] = []
        if self.cylinder.face is None:
            return shapes
        for end, towards in ENDS.items():
            laps, side, valve = find_laps(self.cylinder, end), self.cylinder.face[end], self.cylinder.valve[end]
            outside = self.cylinder.admission == "outside"
            outer = laps.steam if outside else laps.exhaust
            inner = laps.exhaust if outside else laps.steam
            names = ("steam lap", "exhaust lap") if outside else ("exhaust lap", "steam lap")
            pairs = ((side.outer, valve.outer, outer, names[0]), (side.inner, valve.cavity, inner, names[1]))
            for row, (port, edge, lap, name) in enumerate(pairs):
                if edge is not None and lap is not None:
                    y = self.floor - 5.0 - ROW * (row + 1)
                    shapes.append(self._measure_lap(towards, (port, edge), y=y, words=f"{name} {show_number(lap, 2)}"))
        return shapes

    def _measure_lap(self, towards: int, places: tuple[float, float], *, y: float, words: str) -> Dimension:
        port, edge = self.frame.place(towards * places[0]), self._at(towards * places[1])
        points = sorted([(port, self.floor - 5.0), (edge, self.surface)])
        # As far out as the picture reaches, but never so far that the words leave the paper.
        frame, side = self.frame, "left" if towards > 0 else "right"
        ends = min(frame.scale * frame.reach, frame.centre - 1.0 - measure_text("exhaust lap −0.00", frame.size))
        room = points[0][0] if side == "left" else frame.width - points[1][0]
        reach = max(room - (frame.centre - ends), 5.5)
        size = min(frame.size, (room - reach - 1.0) / measure_text(words, 1.0))
        return Dimension(points[0], points[1], y, words, side, reach, size)

    def label_openings(self, stand: str, *, known: bool) -> list[Shape]:
        """At a dead centre: an arrow through each open port, and in words how far the port is open to steam."""
        shapes: list[Shape] = self._name_ports()
        for end in ENDS if known else ():
            shapes += self._draw_flow(end)
        opening, lap = steam_opening(self.cylinder, stand, self.position), find_laps(self.cylinder, stand).steam
        words = f"port open to steam: {NOT_KNOWN}"
        if known and opening is not None and lap is not None:
            towards = ENDS[stand] * (1 if self.cylinder.admission == "outside" else -1)
            short = lap + towards * self.position * 1e3
            words = f"open to steam by {show_number(opening * 1e3, 2)} mm"
            if opening < 5e-6 and short < 0.005:
                words = "just about to open"
            elif opening <= 0:
                words = f"still shut to steam, by {show_number(short, 2)} mm"
        size = self.frame.size
        return [*shapes, Text((self.frame.centre, self.floor - 2.6 - 2 * size), words, size, bold=True)]

    def _name_ports(self) -> list[Shape]:
        """What each port leads to, below its mouth; left out where the ports stand too close for words."""
        face = self.cylinder.face
        if face is None:
            return []
        middle = "exhaust" if self.cylinder.admission == "outside" else "steam"
        places = {end: self.frame.place(ENDS[end] * (face[end].inner + face[end].outer) / 2) for end in ENDS}
        between = (self.frame.place((face["head"].middle - face["crank"].middle) / 2), middle)
        named = [(places["head"], "head"), between, (places["crank"], "crank")]
        size = self.frame.size * 0.9
        if (places["crank"] - places["head"]) / 2 < measure_text(middle, size):
            return []
        return [Text((x, self.floor - 1.0 - size), words, size) for x, words in named]

    def _draw_flow(self, end: str) -> list[Shape]:
        """In the port a filled arrow for steam going in, an open one for exhaust coming out."""
        face, shapes = self.cylinder.face, list[Shape]()
        if face is None:
            return shapes
        steam = steam_opening(self.cylinder, end, self.position) or 0.0
        exhaust = exhaust_opening(self.cylinder, end, self.position) or 0.0
        ways = [filled for opening, filled in ((steam, True), (exhaust, False)) if opening > 1e-6]
        side, low, high = face[end], self.floor + 1.0, self.surface - 1.5
        for turn, filled in enumerate(ways, start=1):
            x = self.frame.place(ENDS[end] * (side.inner + side.width * turn / (len(ways) + 1)))
            tip, tail = ((x, low), (x, high)) if filled else ((x, high), (x, low))
            shapes += _draw_stream(tip, tail, filled=filled)
        return shapes

    def draw_foot(self) -> list[Shape]:
        """Which end is which, and the scale with a bar to lay a rule on."""
        frame, y, size = self.frame, 1.2, self.frame.size
        bar = _find_bar(frame)
        words = f"{bar:g} mm at {show_scale(frame.scale)}"
        length, lettered = bar * frame.scale, measure_text(words, size * 0.85)
        x0 = frame.centre + (lettered - length) / 2
        x1, right = x0 + length, frame.width
        return [
            Text((5.0, y), "head end", size, "start"),
            draw_arrow((0.5, y + 1.2), (4.0, y + 1.2)),
            Text((right - 5.0, y), "crank end", size, "end"),
            draw_arrow((right - 0.5, y + 1.2), (right - 4.0, y + 1.2)),
            Line(((x0, y + 2.2), (x0, y + 0.2), (x1, y + 0.2), (x1, y + 2.2)), "thin"),
            Text((x0 - 1.5, y), words, size * 0.85, "end"),
        ]


def _draw_stream(tip: Point, tail: Point, *, filled: bool) -> list[Shape]:
    head = draw_arrow(tip, tail)
    if filled:
        return [Line((tail, tip), "flow"), head]
    return [Line((tail, tip), "flow"), Line(head.points, "paper", closed=True), Line(head.points, "thin", closed=True)]


def _dimension(left: Point, right: Point, *, y: float, words: str, size: float) -> Dimension:
    """A dimension with its words inside if they fit there, else at its right."""
    fits = right[0] - left[0] >= measure_text(words, size) * 0.95
    return Dimension(left, right, y, words, "inside" if fits else "right", size=size)


def _find_bar(frame: Frame) -> float:
    """A round length that makes a bar of 8 to 20 mm of paper."""
    wanted = 8.0 / frame.scale
    power = 10.0 ** int(f"{wanted:e}".split("e")[1])
    return next(step * power for step in (1, 2, 5, 10) if step * power >= wanted)
