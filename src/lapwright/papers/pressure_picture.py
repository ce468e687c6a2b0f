"""The pressure card of a cylinder's end: pressure over the stroke, as found and after the cure, its corners named."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import cos, pi, radians, sin
from typing import TYPE_CHECKING

from lapwright.motion.travel import TURN
from lapwright.papers.drawing import Drawing, Line, Point, Shape, Text, clear_behind
from lapwright.papers.flags import Flag, stand_flags
from lapwright.papers.lettering import END_NAMES, EVENT_NAMES, NEVER, show_number
from lapwright.papers.run_lettering import BAR, list_ticks, show_pressure
from lapwright.quantities.pressure import ATMOSPHERE, PSI

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
        levels = [(0.0, "atmosphere", (99, 50, 1)), (supply, f"supply {show_number(supply, 2)} bar", (1, 50, 99))]
        if abs(exhaust) >= ALIKE:
            levels.append((exhaust, f"exhaust {show_number(exhaust, 2)} bar", (50, 30, 1)))
        shapes: list[Shape] = []
        for bar, words, places in levels:
            y = self._up(bar)
            line = Line(((LEFT, y), (self.width - RIGHT, y)), "centre" if bar else "thin")
            text = self._name_level(words, places, y=y + 1.7 if bar > 0 else y - 3.9)
            shapes += [clear_behind(text), line, text]
        return shapes

    def _name_level(self, words: str, places: Sequence[int], *, y: float) -> Text:
        """A level's name at the first of some places of the stroke [%] where no line crosses it, or else the first."""
        texts = []
        for percent in places:
            x = self._across(percent)
            anchor = "middle" if 10 < percent < 90 else "start" if x < self.width / 2 else "end"
            texts.append(Text((x, y), words, SIZE, anchor))
        free = [text for text in texts if not any(_crosses(line, clear_behind(text).points) for line in self._busy)]
        return (free or texts)[0]

    @cached_property
    def _busy(self) -> list[Sequence[Point]]:
        """The cards and the staffs of their corners, which no other words may cover."""
        staffs = []
        for events, foot in ((UPPER, self.top), (LOWER, self.bottom)):
            corners = (point for event in events for _, point in self._name_corners(event))
            staffs += [((x, y), (x, foot)) for x, y in corners]
        return [*self._curves, *staffs]

    @cached_property
    def _curves(self) -> list[tuple[Point, ...]]:
        """Each state's card on the paper."""
        return [tuple(self._place(*point) for point in trace_card(turn.run, self.end)) for _, turn in self.states]

    def draw_curves(self) -> list[Shape]:
        return [Line(curve, self._layer(place), closed=True) for place, curve in enumerate(self._curves)]

    def _layer(self, place: int) -> str:
        """How the line of a state looks: the last one is full."""
        return "curve" if place == len(self.states) - 1 else "found"

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
        for place, (name, turn) in enumerate(self.states):
            y -= ROW
            mean = show_pressure(turn.run.ends[self.end].mean_effective_pressure)
            shapes.append(Line(((0.5, y + 1.2), (12.0, y + 1.2)), self._layer(place)))
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


def _crosses(line: Sequence[Point], box: Sequence[Point]) -> bool:
    """Whether a line goes through a box given by its corners, as far as steps of a twelfth of each piece can tell."""
    (left, bottom), (right, top) = min(box), max(box)
    return any(
        left < x0 + (x1 - x0) * step / 12 < right and bottom < y0 + (y1 - y0) * step / 12 < top
        for (x0, y0), (x1, y1) in pairwise(line)
        for step in range(13)
    )


def _draw_dot(point: Point) -> Line:
    x, y = point
    corners = (2 * pi * number / 12 for number in range(12))
    return Line(tuple((x + DOT * cos(angle), y + DOT * sin(angle)) for angle in corners), "fill", closed=True)


def _gauge(pressure: float) -> float:
    """A pressure [Pa, absolute] in bar above the atmosphere."""
    return (pressure - ATMOSPHERE) / BAR


def _numbers(values: Iterable[float]) -> list[float]:
    return [float(value) for value in values]
