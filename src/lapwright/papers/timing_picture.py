"""How far each port is open through a turn: steam above the line, exhaust below it, as found and after the cure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import degrees, radians

from lapwright.engine.cylinder import ENDS, Cylinder
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import (
    CylinderMotion,
    Movement,
    describe_motion,
    exhaust_opening,
    set_moving,
    steam_opening,
)
from lapwright.motion.arcs import Arc, find_arcs
from lapwright.motion.regions import find_straight_region
from lapwright.papers.drawing import Drawing, Hatch, Line, Point, Shape, Text, measure_text
from lapwright.papers.flags import Flag, stand_flags
from lapwright.papers.lettering import END_NAMES, EVENT_NAMES, NEVER, show_angle

Opening = Callable[[Cylinder, str, float], float | None]

LEFT, RIGHT = 18.0, 5.0
HALF, LABEL_ROW, TITLE_ROW = 12.0, 5.0, 5.5
PANEL = 2 * HALF + 4 * LABEL_ROW + TITLE_ROW
STEP = 2
SIZE = 3.7
#: Height of the row that holds the bar of a straight way [mm].
BAR = 4.4


@dataclass(frozen=True, slots=True)
class State:
    """One state of the cylinder: what it is called, its movement and answers, and how its curves are drawn."""

    name: str
    moving: Movement
    motion: CylinderMotion
    layer: str
    hatched: bool


def draw_timing(found: Sizes, cured: Sizes | None, *, width: float) -> Drawing | None:
    """Draw the openings of both ports against the crank angle, `width` wide [mm]; None where none can be known.

    As found is dashed and the state after the cure full and hatched; without a cure, as found is full and hatched.
    A single-acting cylinder gets its head end only.
    """
    states = _list_states(found, cured)
    greatest = max((_find_greatest(state.motion) for state in states), default=0.0)
    if greatest <= 0:
        return None
    ends = [end for end in ENDS if end == "head" or states[-1].moving.cylinder.double_acting]
    foot = 19.0 + sum(_measure_strip(state) for state in states)
    chart = _Chart(states, width, greatest)
    top = foot + PANEL * len(ends)
    # They end above the words of the strips, which stand across all of the turn.
    shapes = [*chart.draw_dead_centres(foot, top), *chart.draw_legend(top + 6.0)]
    for count, end in enumerate(reversed(ends)):
        shapes += chart.draw_panel(end, foot + PANEL * count)
    shapes += [*chart.draw_straight(foot - LABEL_ROW), *chart.draw_scales(10.5)]
    return Drawing(width, top + 11.0, "Port openings against crank angle", tuple(shapes))


def _list_states(found: Sizes, cured: Sizes | None) -> list[State]:
    known = [("as found", found)] if cured is None else [("as found", found), ("after the cure", cured)]
    states = []
    for name, sizes in known:
        moving, last = set_moving(sizes), sizes is known[-1][1]
        if moving.valve is not None:
            states.append(State(name, moving, describe_motion(sizes), "curve" if last else "found", last))
    return states


def _find_greatest(motion: CylinderMotion) -> float:
    """The greatest opening of all ports [mm]."""
    ends = motion.ends.values()
    steam, exhaust = [e.greatest_steam_opening_mm for e in ends], [e.greatest_exhaust_opening_mm for e in ends]
    return max(opening or 0.0 for opening in (*steam, *exhaust))


class _Chart:
    """The chart in the making; `greatest` is the opening [mm] that fills half a panel."""

    def __init__(self, states: list[State], width: float, greatest: float) -> None:
        self.states, self.width, self.greatest = states, width, greatest

    def _across(self, deg: float) -> float:
        return LEFT + (self.width - LEFT - RIGHT) * deg / 360

    def draw_panel(self, end: str, bottom: float) -> list[Shape]:
        zero = bottom + 2 * LABEL_ROW + HALF
        shapes: list[Shape] = self._draw_grid(zero)
        for state in self.states:
            shapes += self._draw_curve(state, (end, steam_opening), zero=zero, height=HALF)
            shapes += self._draw_curve(state, (end, exhaust_opening), zero=zero, height=-HALF)
        return [
            *shapes,
            Line(((self._across(0), zero), (self._across(360), zero)), "thin"),
            Text((0.0, zero + HALF + 2 * LABEL_ROW), END_NAMES[end].capitalize(), SIZE - 0.1, "start", bold=True),
            Text((LEFT - 1.5, zero + 1.2), "steam", SIZE, "end"),
            Text((LEFT - 1.5, zero - 3.9), "exhaust", SIZE, "end"),
            *stand_flags(
                self._list_flags(end, ("admission", "cut_off")), foot=zero, row=zero + HALF + 1.4, step=LABEL_ROW
            ),
            *stand_flags(
                self._list_flags(end, ("release", "compression")), foot=zero, row=zero - HALF - 4.4, step=-LABEL_ROW
            ),
        ]

    def _draw_grid(self, zero: float) -> list[Shape]:
        shapes: list[Shape] = []
        tick = _pick_tick(self.greatest)
        for sign in (1, -1):
            y = zero + sign * HALF * tick / self.greatest
            shapes.append(Line(((self._across(0), y), (self._across(360), y)), "grid"))
            shapes.append(Text((LEFT - 1.5, y - 1.2), f"{tick:g} mm", SIZE * 0.9, "end"))
        for deg in range(0, 361, 30):
            x = self._across(deg)
            shapes.append(Line(((x, zero - HALF), (x, zero + HALF)), "grid"))
        return shapes

    def _draw_curve(self, state: State, way: tuple[str, Opening], *, zero: float, height: float) -> list[Shape]:
        end, opening = way
        valve, cylinder = state.moving.valve, state.moving.cylinder
        curve: list[Point] = []
        for deg in _list_angles(state.motion, end):
            share = None if valve is None else opening(cylinder, end, valve.position(radians(deg)))
            if share is None:
                return []
            curve.append((self._across(deg), zero + height * share * 1e3 / self.greatest))
        line = Line(tuple(curve), state.layer)
        if not state.hatched:
            return [line]
        ring = ((self._across(0), zero), *curve, (self._across(360), zero))
        return [Hatch((ring,), 45.0 if height > 0 else 135.0, 2.0), line]

    def _list_flags(self, end: str, events: tuple[str, str]) -> list[Flag]:
        """What to write at each event: its angle after the cure, and what it was where the cure moves it."""
        flags: list[Flag] = []
        for event in events:
            now = self.states[-1].motion.ends[end].events[event].crank_deg
            was = self.states[0].motion.ends[end].events[event].crank_deg
            before = ", ".join(show_angle(deg) for deg in was or ()) or NEVER
            moved = was is not None and now is not None and before != ", ".join(show_angle(deg) for deg in now)
            note = f" (was {before})" if moved and (now is None or len(now) <= 1) else ""
            flags += [
                Flag(self._across(deg), f"{EVENT_NAMES[event]} {show_angle(deg)}{note}", self._room)
                for deg in now or ()
            ]
        return flags

    @property
    def _room(self) -> tuple[float, float]:
        return LEFT, self.width

    def draw_dead_centres(self, low: float, high: float) -> list[Shape]:
        shapes: list[Shape] = []
        for end in ENDS:
            centre = self.states[-1].moving.dead_centre(end)
            if centre is None:
                continue
            x = self._across(degrees(centre) % 360)
            words = f"{END_NAMES[end]} dead centre"
            half = measure_text(words, SIZE) / 2
            anchor = "start" if x - half < LEFT - 9.0 else "end" if x + half > self.width else "middle"
            shapes += [Line(((x, low), (x, high)), "centre"), Text((x, high + 1.0), words, SIZE, anchor)]
        return shapes

    def draw_legend(self, y: float) -> list[Shape]:
        shapes, x = list[Shape](), LEFT
        for state in self.states:
            shapes += [Line(((x, y + 1.2), (x + 12.0, y + 1.2)), state.layer)]
            shapes += [Text((x + 14.0, y), state.name, SIZE, "start")]
            x += 45.0
        return shapes

    def draw_straight(self, top: float) -> list[Shape]:
        """A strip to each state: the parts of the turn in which live steam has a straight way to exhaust."""
        shapes: list[Shape] = []
        y = top
        for state in self.states:
            straight = state.motion.chest_to_exhaust_deg
            total = NEVER if straight == 0 else show_angle(straight)
            words = f"Live steam straight to exhaust, {state.name}: {total}"
            shapes.append(Text((self.width - RIGHT, y - LABEL_ROW), words, SIZE, "end"))
            y -= _measure_strip(state)
            for arc in _find_straight(state.moving):
                shapes += self._draw_bar(arc, y)
        return shapes

    def _draw_bar(self, arc: Arc, y: float) -> list[Shape]:
        start, stop = degrees(arc.start), degrees(arc.start + arc.sweep)
        pieces = [(start, min(stop, 360.0)), *([(0.0, stop - 360.0)] if stop > 360.0 else [])]
        shapes: list[Shape] = []
        for low, high in pieces:
            x0, x1 = self._across(low), self._across(high)
            ring = ((x0, y), (x1, y), (x1, y + 3.0), (x0, y + 3.0))
            shapes += [Hatch((ring,), 45.0, 0.9), Hatch((ring,), 135.0, 0.9), Line(ring, "thin", closed=True)]
        return shapes

    def draw_scales(self, y: float) -> list[Shape]:
        """Crank angle, and below it where the piston stands, in percent of its stroke from the head end."""
        shapes: list[Shape] = [Text((0.0, y - 4.0), "crank", SIZE, "start")]
        for deg in range(0, 361, 30):
            x = self._across(deg)
            shapes += [Line(((x, y), (x, y - 1.2)), "thin"), Text((x, y - 4.5), f"{deg}°", SIZE)]
        piston = self.states[-1].moving.piston
        if piston is None:
            return shapes
        shapes.append(Text((0.0, y - 9.5), "piston", SIZE, "start"))
        for percent in (0, 25, 50, 75, 100):
            # At a dead centre the way out and the way back are one place, but for rounding.
            angles = {round(degrees(angle), 1) % 360 for angle in piston.find_angles("head", percent / 100)}
            ticks = sorted(angles | ({360.0} if 0.0 in angles else set()))
            shapes += [Text((self._across(deg), y - 9.5), f"{percent} %", SIZE) for deg in ticks]
        return shapes


def _list_angles(motion: CylinderMotion, end: str) -> list[float]:
    """Even steps through the turn and the events themselves, where the curves have their corners [deg]."""
    corners = [deg for times in motion.ends[end].events.values() for deg in times.crank_deg or ()]
    return sorted({*map(float, range(0, 361, STEP)), *corners})


def _measure_strip(state: State) -> float:
    """Height of one state's strip [mm]: its words, and a bar below them where there is one to draw."""
    return LABEL_ROW + (BAR if _find_straight(state.moving) else 0.0)


def _find_straight(moving: Movement) -> tuple[Arc, ...]:
    straight = find_straight_region(moving.cylinder)
    return () if straight is None or moving.valve is None else find_arcs(moving.valve, straight)


def _pick_tick(greatest: float) -> float:
    """The largest of 1, 2, 5 times a power of ten that is no larger than the greatest opening.

    Example:
    >>> _pick_tick(2.4), _pick_tick(0.9)
    (2.0, 0.5)
    """
    power = 10.0 ** int(f"{greatest:e}".split("e")[1])
    return max(step * power for step in (1.0, 2.0, 5.0) if step * power <= greatest * (1 + 1e-9))
