"""The torque on the crankshaft through a turn: running, with its mean and the friction, and at rest, with the arcs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import degrees
from typing import TYPE_CHECKING, TypeVar

from lapwright.motion.travel import TURN
from lapwright.papers.drawing import Drawing, Hatch, Line, Shape, Text
from lapwright.papers.lettering import show_number
from lapwright.papers.run_lettering import list_ticks, pick_torque_unit, show_torque

if TYPE_CHECKING:
    from lapwright.cycle.engine_run import EngineRun
    from lapwright.cycle.starting import Starting

#: The names of the levels stand at the right of the chart [mm].
LEFT, RIGHT = 18.0, 33.0
SIZE = 3.7
ROW = 5.0
PLOT, SCALE = 34.0, 6.0
#: Height of a bar that shows arcs, and of a bar with its words [mm].
BAR = 3.4
STRIP = ROW + BAR + 1.6
#: What is kept below the bars for the meaning of their hatching [mm].
KEY = 6.5
Arcs = Sequence[tuple[float, float]]
Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True)
class _Curve:
    """A torque [N m] over the crank angle [deg], how it is drawn and what is written to it."""

    points: list[tuple[float, float]]
    layer: str
    words: str


def draw_torque(found: EngineRun, cured: EngineRun | None, *, width: float) -> Drawing:
    """Draw a running engine's torque through the turn, `width` wide [mm], with its mean and what friction takes.

    As found is dashed and the state after the cure full, or as found is full where there is no cure. Both lines belong
    to the last of them.
    """
    states = _name_states(found, cured)
    drawn = [_pair(run.angles, run.torque) for _, run, _ in states]
    greatest = max(abs(torque) for points in drawn for _, torque in points)
    curves = [
        _Curve(points, layer, f"{name}, mean {show_torque(_find_mean(run), greatest)}")
        for points, (name, run, layer) in zip(drawn, states, strict=True)
    ]
    last = found if cured is None else cured
    levels = [("friction", last.friction_power / last.conditions.speed), ("mean", _find_mean(last))]
    chart = _Chart(curves, levels, width=width, strips=2.0)
    return chart.finish("Torque through the turn, running", [])


def draw_starting(found: Starting, cured: Starting | None, *, width: float) -> Drawing:
    """Draw the torque at rest all round the turn, `width` wide [mm], and below it the arcs from which it starts.

    The curves are the torque that is there for certain, whatever pressure a closed end has kept. A bar to each state is
    hatched crosswise where the engine starts by itself, one way where that depends on what a closed end has kept, and
    empty where it does not start.
    """
    states = _name_states(found, cured)
    curves = [_Curve(_pair(state.angles, state.worst), layer, name) for name, state, layer in states]
    levels = [("friction", states[-1][1].friction)]
    chart = _Chart(curves, levels, width=width, strips=STRIP * len(states) + KEY)
    shapes: list[Shape] = []
    y = chart.strips
    for name, state, _ in states:
        share = show_number(100 * state.forward.share, 0)
        shapes.append(Text((LEFT, y - ROW + 0.2), f"Starts by itself, {name}: {share} % of the turn", SIZE, "start"))
        y -= STRIP
        shapes += chart.draw_bar(state.forward.starts, state.forward.never, y)
    return chart.finish("Torque at rest", [*shapes, *chart.draw_key(0.6)])


def _name_states(found: Answer, cured: Answer | None) -> list[tuple[str, Answer, str]]:
    """Each state with its name and how its curve is drawn."""
    if cured is None:
        return [("as found", found, "curve")]
    return [("as found", found, "found"), ("after the cure", cured, "curve")]


def _find_mean(run: EngineRun) -> float:
    """The mean torque before friction [N m], which is the mean of what is drawn."""
    return run.indicated_power / run.conditions.speed


def _pair(angles: Iterable[float], torque: Iterable[float]) -> list[tuple[float, float]]:
    """A curve over the whole turn: its first place again at the end."""
    points = [(degrees(float(angle)), float(value)) for angle, value in zip(angles, torque, strict=True)]
    return [*points, (points[0][0] + 360.0, points[0][1])]


class _Chart:
    """The chart in the making; `strips` is the room kept below it for bars [mm]."""

    def __init__(self, curves: list[_Curve], levels: list[tuple[str, float]], *, width: float, strips: float) -> None:
        self.curves, self.levels, self.width, self.strips = curves, levels, width, strips
        values = [0.0, *(level for _, level in levels), *(y for curve in curves for _, y in curve.points)]
        self.low, self.high = min(values), max(*values, 1e-9)
        self.bottom, self.greatest = strips + SCALE, max(self.high, -self.low)

    def _across(self, deg: float) -> float:
        return LEFT + (self.width - LEFT - RIGHT) * deg / 360

    def _up(self, torque: float) -> float:
        return self.bottom + PLOT * (torque - self.low) / (self.high - self.low)

    def finish(self, title: str, shapes: list[Shape]) -> Drawing:
        """Put the drawing together."""
        top = self.bottom + PLOT
        height = top + 2 * ROW + 4.0
        head: list[Shape] = [Text((0.0, height - ROW), title, SIZE + 0.1, "start", bold=True)]
        x = LEFT
        for curve in self.curves:
            head.append(Line(((x, top + 4.2), (x + 12.0, top + 4.2)), curve.layer))
            head.append(Text((x + 14.0, top + 3.0), curve.words, SIZE, "start"))
            x += (self.width - LEFT) / 2
        lines = [Line(tuple((self._across(deg), self._up(y)) for deg, y in c.points), c.layer) for c in self.curves]
        drawn = (*self._draw_grid(), *self._draw_levels(), *lines, *shapes, *head)
        return Drawing(self.width, height, f"{title}, against crank angle", drawn)

    def _draw_grid(self) -> Iterator[Shape]:
        left, right, top = LEFT, self._across(360), self.bottom + PLOT
        factor, unit = pick_torque_unit(self.greatest)
        for deg in range(0, 361, 30):
            x = self._across(deg)
            yield Line(((x, self.bottom), (x, top)), "grid")
            yield Text((x, self.bottom - 4.6), f"{deg}°", SIZE)
        yield Text((0.0, self.bottom - 4.6), "crank", SIZE, "start")
        for tick in list_ticks(self.low * factor, self.high * factor, most=5):
            y = self._up(tick / factor)
            yield Line(((left, y), (right, y)), "thin" if tick == 0 else "grid")
            yield Text((left - 1.5, y - 1.2), f"{tick:g}".replace("-", "−"), SIZE, "end")
        yield Text((left - 1.5, top + 3.0), unit, SIZE, "end")

    def _draw_levels(self) -> Iterator[Shape]:
        """Each level across the chart, its name at the right; a name too near to the one below moves up."""
        right, floor = self._across(360), -ROW
        for name, level in sorted(self.levels, key=lambda each: each[1]):
            y = self._up(level)
            floor = max(y - 1.2, floor + ROW)
            yield Line(((LEFT, y), (right + 1.5, y)), "centre")
            yield Text((right + 2.5, floor), f"{name} {show_torque(level, self.greatest)}", SIZE, "start")

    def draw_bar(self, starts: Arcs, never: Arcs, y: float) -> list[Shape]:
        """One state's turn as a bar: hatched where it starts, less so where it may, empty where it never does."""
        shapes: list[Shape] = []
        edges = sorted({0.0, TURN, *(edge % TURN for arcs in (starts, never) for arc in arcs for edge in arc)})
        for low, high in pairwise(edges):
            middle = (low + high) / 2
            kind = "starts" if _covers(starts, middle) else "never" if _covers(never, middle) else "may"
            shapes += _hatch_box(kind, (self._across(degrees(low)), self._across(degrees(high))), y)
        return shapes

    def draw_key(self, y: float) -> list[Shape]:
        """What the bars' hatching means."""
        shapes: list[Shape] = []
        words = {"starts": "starts by itself", "may": "if a closed end helps", "never": "does not start"}
        for place, (kind, name) in enumerate(words.items()):
            x = LEFT + place * (self.width - LEFT) / 3
            shapes += [*_hatch_box(kind, (x, x + 9.0), y), Text((x + 11.0, y + 0.4), name, SIZE, "start")]
        return shapes


def _covers(arcs: Arcs, angle: float) -> bool:
    """Whether an angle [rad] lies on one of the arcs; equal ends are a whole turn."""
    return any((angle - start) % TURN < ((stop - start) % TURN or TURN) for start, stop in arcs)


def _hatch_box(kind: str, across: tuple[float, float], y: float) -> list[Shape]:
    (x0, x1), top = across, y + BAR
    ring = ((x0, y), (x1, y), (x1, top), (x0, top))
    angles = {"starts": (45.0, 135.0), "may": (45.0,), "never": ()}[kind]
    spacing = 0.9 if kind == "starts" else 1.8
    return [*(Hatch((ring,), angle, spacing) for angle in angles), Line(ring, "thin", closed=True)]
