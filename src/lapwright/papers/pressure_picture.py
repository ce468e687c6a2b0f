"""The pressure card of a cylinder's end: pressure over the stroke, as found and after the cure, its corners named."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, pi, radians, sin
from typing import TYPE_CHECKING

from lapwright.papers.drawing import Drawing, Line, Point, Shape, Text, clear_behind
from lapwright.papers.flags import Flag, stand_flags
from lapwright.papers.lettering import END_NAMES, EVENT_NAMES, NEVER, show_number
from lapwright.papers.run_lettering import ATMOSPHERE, BAR, PSI, TURN, list_ticks, show_pressure

if TYPE_CHECKING:
    from lapwright.cycle.answers import CylinderRun
    from lapwright.motion.answers import CylinderMotion

LEFT, RIGHT = 10.0, 9.0
SIZE = 3.7
ROW = 5.0
#: Height from the lowest to the highest pressure, and the room kept for words above and below that [mm].
PLOT, HEADROOM, FOOTROOM = 38.0, 6.0, 5.0
#: Where the strip of the stroke's percentages and the lower flags end [mm].
SCALE, FLAGS = 6.0, 2 * ROW
DOT = 0.75
#: An exhaust nearer to the atmosphere than this has no line of its own [bar].
ALIKE = 0.02
UPPER, LOWER = ("cut_off", "release"), ("admission", "compression")


@dataclass(frozen=True, slots=True)
class Turn:
    """A cylinder's turn in one state: what its valve does, and what the pressures do."""

    run: CylinderRun
    motion: CylinderMotion


@dataclass(frozen=True, slots=True, kw_only=True)
class PressureScale:
    """What the cards of one engine share, so that they compare; all in bar above the atmosphere.

    `low` and `high` bound every card, `supply` and `exhaust` are what the engine is run on.
    """

    low: float
    high: float
    supply: float
    exhaust: float


def fit_scale(runs: Iterable[CylinderRun]) -> PressureScale:
    """Return the scale on which the cards of all these turns find room.

    Parameters
    ----------
    runs: every cylinder as found and after the cure; at least one
    """
    known = list(runs)
    gauges = [_gauge(pressure) for run in known for end in run.ends.values() for pressure in _numbers(end.pressures)]
    supply = max(_gauge(run.conditions.supply) for run in known)
    exhaust = min(_gauge(run.conditions.exhaust) for run in known)
    return PressureScale(low=min(0.0, exhaust, *gauges), high=max(supply, 0.1, *gauges), supply=supply, exhaust=exhaust)


def draw_pressure_card(found: Turn, cured: Turn | None, *, end: str, scale: PressureScale, width: float) -> Drawing:
    """Draw one end's card: as found dashed and after the cure full, or as found full where there is no cure.

    The head end's stroke runs from left to right and the crank end's from right to left, as the piston does, so that
    the two cards of a cylinder stand side by side like its ends.

    Parameters
    ----------
    found, cured: the states; both have this end
    end: "head" or "crank"
    scale: from `fit_scale`
    width: of the picture [mm]
    """
    states = [("as found", found)] if cured is None else [("as found", found), ("after the cure", cured)]
    card = _Card(states, end, scale=scale, width=width)
    shapes = [*card.draw_grid(), *card.draw_levels(), *card.draw_curves(), *card.draw_corners(), *card.draw_head()]
    return Drawing(width, card.height, f"Pressure card, {END_NAMES[end]}", tuple(shapes))


class _Card:
    """One card in the making."""

    def __init__(self, states: list[tuple[str, Turn]], end: str, *, scale: PressureScale, width: float) -> None:
        self.states, self.end, self.scale, self.width = states, end, scale, width
        self.bottom = SCALE + FLAGS
        self.top = self.bottom + FOOTROOM + PLOT + HEADROOM

    @property
    def height(self) -> float:
        return self.top + FLAGS + ROW * (len(self.states) + 1) + 2.0

    def _across(self, percent: float) -> float:
        share = percent / 100 if self.end == "head" else 1 - percent / 100
        return LEFT + (self.width - LEFT - RIGHT) * share

    def _up(self, bar: float) -> float:
        scale = self.scale
        return self.bottom + FOOTROOM + PLOT * (bar - scale.low) / (scale.high - scale.low)

    @property
    def _room(self) -> tuple[float, float]:
        return 0.0, self.width

    def draw_grid(self) -> list[Shape]:
        """Quiet lines at round pressures and quarters of the stroke, with bar at the left and psi at the right."""
        x0, x1, scale = LEFT, self.width - RIGHT, self.scale
        shapes: list[Shape] = []
        for percent in (0, 25, 50, 75, 100):
            x = self._across(percent)
            words = "50 % of stroke" if percent == 50 else str(percent)
            shapes.append(Line(((x, self.bottom), (x, self.top)), "grid"))
            shapes.append(Text((x, self.bottom - FLAGS - SCALE + 1.2), words, SIZE))
        for bar in list_ticks(scale.low, scale.high, most=6):
            y = self._up(bar)
            shapes.append(Line(((x0, y), (x1, y)), "grid"))
            shapes.append(Text((x0 - 1.5, y - 1.2), f"{bar:g}".replace("-", "−"), SIZE, "end"))
        psi = BAR / PSI
        for tick in list_ticks(scale.low * psi, scale.high * psi, most=5):
            y = self._up(tick / psi)
            shapes.append(Line(((x1, y), (x1 + 1.2, y)), "thin"))
            shapes.append(Text((x1 + 2.0, y - 1.2), f"{tick:g}".replace("-", "−"), SIZE, "start"))
        shapes.append(Text((x0 - 1.5, self.top - 1.0), "bar", SIZE, "end"))
        shapes.append(Text((x1 + 2.0, self.top - 1.0), "psi", SIZE, "start"))
        return shapes

    def draw_levels(self) -> list[Shape]:
        """The atmosphere, the supply and, where it is another, the exhaust, each with its name."""
        supply, exhaust = self.scale.supply, self.scale.exhaust
        shapes = self._draw_level(0.0, ("atmosphere", 99.0), layer="thin", above=False)
        shapes += self._draw_level(supply, (f"supply {show_number(supply, 2)} bar", 1.0), layer="centre", above=True)
        if abs(exhaust) >= ALIKE:
            words = f"exhaust {show_number(exhaust, 2)} bar"
            shapes += self._draw_level(exhaust, (words, 50.0), layer="centre", above=exhaust > 0)
        return shapes

    def _draw_level(self, bar: float, words: tuple[str, float], *, layer: str, above: bool) -> list[Shape]:
        """A level, and its name at a place of the stroke [%]."""
        y, x = self._up(bar), self._across(words[1])
        place = (x - LEFT) / (self.width - LEFT - RIGHT)
        anchor = "start" if place < 0.1 else "end" if place > 0.9 else "middle"
        text = Text((x, y + 1.7 if above else y - 3.9), words[0], SIZE, anchor)
        line = Line(((LEFT, y), (self.width - RIGHT, y)), layer)
        return [clear_behind(text), line, text]

    def draw_curves(self) -> list[Shape]:
        shapes: list[Shape] = []
        for _, turn in self.states:
            layer = "curve" if turn is self.states[-1][1] else "found"
            curve = tuple(self._place(*point) for point in trace_card(turn.run, self.end))
            shapes.append(Line(curve, layer, closed=True))
        return shapes

    def _place(self, percent: float, bar: float) -> Point:
        return self._across(percent), self._up(bar)

    def draw_corners(self) -> list[Shape]:
        """A dot at each event of the last state, and from it a staff to its flag, above or below the card."""
        shapes: list[Shape] = []
        for events, foot, row, step in (
            (UPPER, self.top, self.top + 1.4, ROW),
            (LOWER, self.bottom, self.bottom - 4.4, -ROW),
        ):
            flags: list[Flag] = []
            for event in events:
                for words, point in self._name_corners(event):
                    flags.append(Flag(point[0], words, self._room))
                    shapes += [Line((point, (point[0], foot)), "dimension"), _draw_dot(point)]
            shapes += stand_flags(flags, foot=foot, row=row, step=step)
        return shapes

    def _name_corners(self, event: str) -> list[tuple[str, Point]]:
        """An event's words and place, as often as it happens; with what it was where the cure moves it."""
        now, was = self.states[-1][1], self.states[0][1]
        shown, before = _show_shares(now, self.end, event), _show_shares(was, self.end, event)
        moved = before != shown and len(shown) == 1
        note = f" (was {', '.join(before) or NEVER})" if moved else ""
        places = find_corners(now, self.end, event)
        return [
            (f"{EVENT_NAMES[event]} {share}{note}", self._place(*place))
            for share, place in zip(shown, places, strict=True)
        ]

    def draw_head(self) -> list[Shape]:
        """Which end it is, and to each state's line its mean effective pressure."""
        y = self.height - ROW
        title = f"{END_NAMES[self.end].capitalize()}: mean effective pressure"
        shapes: list[Shape] = [Text((0.0, y), title, SIZE + 0.1, "start", bold=True)]
        for name, turn in self.states:
            y -= ROW
            layer = "curve" if turn is self.states[-1][1] else "found"
            mean = show_pressure(turn.run.ends[self.end].mean_effective_pressure)
            shapes.append(Line(((0.5, y + 1.2), (12.0, y + 1.2)), layer))
            shapes += [Text((14.0, y), name, SIZE, "start"), Text((self.width - 1.0, y), mean, SIZE, "end")]
        return shapes


def trace_card(run: CylinderRun, end: str) -> tuple[Point, ...]:
    """Return an end's card in the order of the turn: places of the piston [% of stroke] and pressures [bar gauge]."""
    part = run.ends[end]
    return tuple(
        (100 * (volume / part.swept - part.clearance), _gauge(pressure))
        for volume, pressure in zip(_numbers(part.volumes), _numbers(part.pressures), strict=True)
    )


def find_corners(turn: Turn, end: str, event: str) -> tuple[Point, ...]:
    """Return where on the card an event lies [% of stroke, bar gauge], as often as it happens in a turn."""
    angles, card = _numbers(turn.run.angles), trace_card(turn.run, end)
    return tuple(
        _read_between(angles, card, radians(deg)) for deg in turn.motion.ends[end].events[event].crank_deg or ()
    )


def _show_shares(turn: Turn, end: str, event: str) -> list[str]:
    times = turn.motion.ends[end].events[event]
    return [f"{show_number(share, 0)} %" for share in times.stroke_percent or ()]


def _read_between(angles: Sequence[float], card: Sequence[Point], angle: float) -> Point:
    """The card at an angle [rad], in a straight line between the places on both sides of it."""
    at = bisect_left(angles, angle % TURN) % len(angles)
    (x0, y0), (x1, y1) = card[at - 1], card[at]
    gap = (angles[at] - angles[at - 1]) % TURN
    share = ((angle - angles[at - 1]) % TURN) / gap if gap > 0 else 1.0
    return x0 + share * (x1 - x0), y0 + share * (y1 - y0)


def _draw_dot(point: Point) -> Line:
    x, y = point
    corners = (2 * pi * number / 12 for number in range(12))
    return Line(tuple((x + DOT * cos(angle), y + DOT * sin(angle)) for angle in corners), "fill", closed=True)


def _gauge(pressure: float) -> float:
    """A pressure [Pa, absolute] in bar above the atmosphere."""
    return (pressure - ATMOSPHERE) / BAR


def _numbers(values: Iterable[float]) -> list[float]:
    return [float(value) for value in values]
