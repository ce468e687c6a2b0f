"""The starting dial: the turn of the crank as a ring, with the arcs from which the engine starts by itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, radians, sin

from lapwright.papers.drawing import Drawing, Hatch, Line, Point, Shape, Text, draw_arrow
from lapwright.papers.lettering import show_number

Arcs = Sequence[tuple[float, float]]
#: Paper, letters and rings [mm].
WIDTH, SIZE, ROW = 92.0, 3.7, 5.0
_OUTER, _RING, _GAP = 31.0, 7.0, 2.0
_CENTRE = (46.0, 51.0)
_HEIGHT = 115.0
#: Degrees between the corners of what is drawn round.
_STEP = 4.0
_KINDS = {"starts": "starts by itself", "may": "if a closed end helps", "never": "does not start"}


@dataclass(frozen=True, slots=True, kw_only=True)
class DialWay:
    """One way round: its name, and arcs (start, stop) of the crank as its angle grows [deg]."""

    name: str
    starts: Arcs
    never: Arcs


def draw_starting_dial(ways: Sequence[DialWay], *, clockwise: bool, best: float) -> Drawing:
    """Draw the dial, a ring to each way round, the first outermost; the crank's dead centres at top and bottom.

    Parameters
    ----------
    ways: one or two
    clockwise: whether the crank's angle grows clockwise as it is seen
    best: where the engine pulls hardest from rest the first way round [deg]
    """
    dial = _Dial(1 if clockwise else -1)
    shapes: list[Shape] = [Text((0.0, _HEIGHT - ROW), "Starting dial", SIZE + 0.1, "start", bold=True)]
    for place, way in enumerate(ways):
        outer = _OUTER - place * (_RING + _GAP)
        shapes += dial.draw_ring(way, outer)
        words = f"{'outer' if place == 0 else 'inner'} ring: {way.name}" if len(ways) > 1 else way.name
        shapes.append(Text((0.0, _HEIGHT - ROW * (place + 2)), words, SIZE, "start"))
    words = f"crank: where it pulls most, {show_number(best, 0)}°"
    shapes.append(Text((0.0, _HEIGHT - ROW * (len(ways) + 2)), words, SIZE, "start"))
    shapes += [*dial.draw_scale(), *dial.draw_crank(best, _OUTER - len(ways) * (_RING + _GAP)), *_draw_key()]
    return Drawing(WIDTH, _HEIGHT, "Starting dial: from where it starts by itself", tuple(shapes))


class _Dial:
    """The dial in the making; `hand` is 1 where angles grow clockwise, else -1."""

    def __init__(self, hand: int) -> None:
        self.hand = hand

    def _at(self, angle: float, radius: float) -> Point:
        turned = radians(angle) * self.hand
        return _CENTRE[0] + radius * sin(turned), _CENTRE[1] + radius * cos(turned)

    def _arc(self, start: float, stop: float, radius: float) -> list[Point]:
        steps = max(1, round((stop - start) / _STEP))
        return [self._at(start + (stop - start) * n / steps, radius) for n in range(steps + 1)]

    def draw_ring(self, way: DialWay, outer: float) -> list[Shape]:
        """A ring, hatched crosswise where it starts, one way where a closed end must help, empty where it does not."""
        inner = outer - _RING
        edges = sorted({0.0, 360.0, *(edge % 360 for arcs in (way.starts, way.never) for arc in arcs for edge in arc)})
        shapes: list[Shape] = []
        for start, stop in pairwise(edges):
            middle = (start + stop) / 2
            kind = "starts" if _covers(way.starts, middle) else "never" if _covers(way.never, middle) else "may"
            shapes += _fill((*self._arc(start, stop, outer), *reversed(self._arc(start, stop, inner))), kind)
            if start > 0:
                shapes.append(Line((self._at(start, inner), self._at(start, outer)), "thin"))
        rims = (tuple(self._arc(0.0, 360.0, radius)) for radius in (inner, outer))
        return [*shapes, *(Line(rim, "outline", closed=True) for rim in rims)]

    def draw_scale(self) -> Iterator[Shape]:
        """The angles round the dial, and which way they grow."""
        for angle in range(0, 360, 30):
            yield Line((self._at(angle, _OUTER), self._at(angle, _OUTER + 1.2)), "thin")
            x, y = self._at(angle, _OUTER + 4.6)
            yield Text((x, y - 1.2), f"{angle}°", SIZE)
        yield Text((_CENTRE[0], _CENTRE[1] + _OUTER + 7.2), "head-end dead centre", SIZE)
        yield Text((_CENTRE[0], _CENTRE[1] - _OUTER - 10.0), "crank-end dead centre", SIZE)
        path = self._arc(38.0, 52.0, _OUTER + 8.6)
        yield Line(tuple(path), "thin")
        yield draw_arrow(path[-1], path[-2])

    def draw_crank(self, best: float, room: float) -> Iterator[Shape]:
        """The crank where it pulls hardest."""
        tip, pin = self._at(best, room - 1.0), self._at(best, room - 3.0)
        yield Line((_CENTRE, tip), "flow")
        for (x, y), radius in ((_CENTRE, 2.2), (pin, 1.2)):
            corners = (radians(30.0 * number) for number in range(12))
            yield Line(tuple((x + radius * cos(turn), y + radius * sin(turn)) for turn in corners), "fill", closed=True)


def _fill(ring: tuple[Point, ...], kind: str) -> list[Shape]:
    angles = {"starts": (45.0, 135.0), "may": (45.0,), "never": ()}[kind]
    return [Hatch((ring,), angle, 0.9 if kind == "starts" else 1.8) for angle in angles]


def _covers(arcs: Arcs, angle: float) -> bool:
    """Whether an angle [deg] lies on one of the arcs; equal ends are a whole turn."""
    return any((angle - start) % 360 < ((stop - start) % 360 or 360) for start, stop in arcs)


def _draw_key() -> list[Shape]:
    shapes: list[Shape] = []
    for place, (kind, words) in enumerate(_KINDS.items()):
        x = (0.0, 27.0, 63.5)[place]
        ring = ((x, 0.6), (x + 6.0, 0.6), (x + 6.0, 4.0), (x, 4.0))
        shapes += [*_fill(ring, kind), Line(ring, "thin", closed=True)]
        shapes.append(Text((x + 7.0, 1.0), words, SIZE * 0.8, "start"))
    return shapes
