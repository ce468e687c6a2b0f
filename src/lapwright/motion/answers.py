"""What motion tells of one cylinder: events, lead, openings and ways, end by end."""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees, pi

from lapwright.engine.cylinder import ENDS, Cylinder, assemble_cylinder
from lapwright.engine.sizes import Sizes
from lapwright.motion.arcs import Arc, find_arcs, sum_arcs
from lapwright.motion.regions import (
    Region,
    cavity_opening,
    find_cavity_region,
    find_exhaust_region,
    find_outer_region,
    find_steam_region,
    find_straight_region,
    meet_regions,
    middle_way,
    outer_opening,
)
from lapwright.motion.travel import PistonTravel, ValveTravel, trace_piston, trace_valve

EVENTS = ("admission", "cut_off", "release", "compression")


@dataclass(frozen=True, slots=True)
class EventTimes:
    """When an event happens: crank angles [deg, 0 to 360) and piston places [% of stroke], one each a turn.

    `crank_deg` is empty where the event never happens and None where it cannot be known;
    `stroke_percent` is None where the stroke or the connecting rod is not known.
    """

    crank_deg: tuple[float, ...] | None
    stroke_percent: tuple[float, ...] | None


@dataclass(frozen=True, slots=True)
class EndMotion:
    """The answers for one end of a cylinder; a figure is None where a size it needs is not known."""

    events: dict[str, EventTimes]
    lead_mm: float | None
    greatest_steam_opening_mm: float | None
    greatest_exhaust_opening_mm: float | None


@dataclass(frozen=True, slots=True)
class Laps:
    """Steam lap and exhaust lap of one end [mm]; negative: open with the valve central."""

    steam: float | None
    exhaust: float | None


@dataclass(frozen=True, slots=True)
class CylinderMotion:
    """The answers for one cylinder; lengths in mm, angles in degrees of crank turn."""

    name: str
    piston_area_mm2: dict[str, float | None]
    laps_mm: dict[str, Laps]
    ends: dict[str, EndMotion]
    chest_to_exhaust_deg: float | None
    least_exhaust_way_mm: float | None
    least_inlet_way_mm: float | None
    valve_travel_mm: float | None
    chest_room_mm: dict[str, float | None]


@dataclass(frozen=True, slots=True)
class Movement:
    """A cylinder with its piston and valve set moving: what every question about motion starts from."""

    cylinder: Cylinder
    piston: PistonTravel | None
    valve: ValveTravel | None

    def dead_centre(self, end: str) -> float | None:
        """Return an end's dead centre [rad]; with the line through the shaft it needs no rod."""
        if self.piston is not None:
            return self.piston.dead_centre(end)
        if self.cylinder.line_offset == 0:
            return 0.0 if end == "head" else pi
        return None


def set_moving(sizes: Sizes) -> Movement:
    """Put a cylinder together from its sizes and trace its piston and valve."""
    cylinder = assemble_cylinder(sizes)
    piston = None if cylinder.piston is None else trace_piston(cylinder.piston)
    valve = None if cylinder.gear is None else trace_valve(cylinder.gear)
    return Movement(cylinder, piston, valve)


def describe_motion(sizes: Sizes) -> CylinderMotion:
    """Answer everything that a cylinder's sizes tell about its valve's timing.

    Angles grow with the rotation from the crank's pointing along the cylinder line to the head end.

    Source: exact geometry
    """
    moving = set_moving(sizes)
    cylinder, valve = moving.cylinder, moving.valve
    straight = find_straight_region(cylinder)
    blow = None if straight is None or valve is None else degrees(sum_arcs(find_arcs(valve, straight)))
    outside = cylinder.admission == "outside"
    way = _least_way(moving)
    return CylinderMotion(
        name=sizes.name,
        piston_area_mm2={end: None if area is None else area * 1e6 for end, area in cylinder.area.items()},
        laps_mm={end: find_laps(cylinder, end) for end in ENDS},
        ends={end: _describe_end(moving, end) for end in ENDS},
        chest_to_exhaust_deg=blow,
        least_exhaust_way_mm=way if outside else None,
        least_inlet_way_mm=None if outside else way,
        valve_travel_mm=None if valve is None else valve.travel * 1e3,
        chest_room_mm={end: _chest_room(moving, end) for end in ENDS},
    )


def find_laps(cylinder: Cylinder, end: str) -> Laps:
    """Return one end's laps with the valve central on the port face [mm].

    Source: exact geometry; for admission over the inside edges the two laps change places
    """
    side, valve = None if cylinder.face is None else cylinder.face[end], cylinder.valve[end]
    over_outer = None if side is None or valve.outer is None else (valve.outer - side.outer) * 1e3
    over_inner = None if side is None or valve.cavity is None else (side.inner - valve.cavity) * 1e3
    return Laps(over_outer, over_inner) if cylinder.admission == "outside" else Laps(over_inner, over_outer)


def find_lead(moving: Movement, end: str) -> float | None:
    """Return how far the end's port is open to steam at its dead centre [mm]; negative: still to open by so much.

    Source: exact geometry
    """
    lap, centre = find_laps(moving.cylinder, end).steam, moving.dead_centre(end)
    if lap is None or centre is None or moving.valve is None or moving.cylinder.face is None:
        return None
    towards = ENDS[end] * moving.valve.position(centre) * 1e3
    open_by = -towards if moving.cylinder.admission == "outside" else towards
    return min(open_by - lap, moving.cylinder.face[end].width * 1e3)


def steam_opening(cylinder: Cylinder, end: str, position: float) -> float | None:
    """Return how far the end's port is open to steam [m] with the valve at a position [m]."""
    return (outer_opening if cylinder.admission == "outside" else cavity_opening)(cylinder, end, position)


def exhaust_opening(cylinder: Cylinder, end: str, position: float) -> float | None:
    """Return how far the end's port is open to exhaust [m] with the valve at a position [m]."""
    return (cavity_opening if cylinder.admission == "outside" else outer_opening)(cylinder, end, position)


def _describe_end(moving: Movement, end: str) -> EndMotion:
    cylinder = moving.cylinder
    steam, exhaust = find_steam_region(cylinder, end), find_exhaust_region(cylinder, end)
    steam_arcs, exhaust_arcs = _arcs(moving, steam), _arcs(moving, exhaust)
    events = {
        "admission": _time_arcs(moving, end, steam_arcs, starts=True),
        "cut_off": _time_arcs(moving, end, steam_arcs, starts=False),
        "release": _time_arcs(moving, end, exhaust_arcs, starts=True),
        "compression": _time_arcs(moving, end, exhaust_arcs, starts=False),
    }
    outside = cylinder.admission == "outside"
    outer, cavity = _greatest(moving, end, outer=True), _greatest(moving, end, outer=False)
    return EndMotion(events, find_lead(moving, end), outer if outside else cavity, cavity if outside else outer)


def _arcs(moving: Movement, region: Region | None) -> tuple[Arc, ...] | None:
    return None if region is None or moving.valve is None else find_arcs(moving.valve, region)


def _time_arcs(moving: Movement, end: str, arcs: tuple[Arc, ...] | None, *, starts: bool) -> EventTimes:
    if arcs is None:
        return EventTimes(None, None)
    angles = sorted(arc.start if starts else arc.stop for arc in arcs if not arc.whole)
    shares = None if moving.piston is None else [moving.piston.share_of_stroke(end, angle) for angle in angles]
    return EventTimes(
        tuple(_tidy_degrees(angle) for angle in angles),
        None if shares is None else tuple(100 * share for share in shares),
    )


def _tidy_degrees(angle: float) -> float:
    """Degrees from 0 to below 360; a hair below a full turn, left by rounding, is 0."""
    turned = degrees(angle)
    return 0.0 if turned >= 360 - 1e-9 else turned


def _greatest(moving: Movement, end: str, *, outer: bool) -> float | None:
    """Greatest opening over the travel [mm]: at an end of the travel or where the opening stops growing."""
    cylinder, valve = moving.cylinder, moving.valve
    region = (find_outer_region if outer else find_cavity_region)(cylinder, end)
    if region is None or valve is None or cylinder.face is None:
        return None
    width = cylinder.face[end].width
    edges = [edge + step for stretch in region for edge, step in zip(stretch, (width, -width), strict=True)]
    places = [valve.low, valve.high, *(min(max(place, valve.low), valve.high) for place in edges)]
    opening = outer_opening if outer else cavity_opening
    return max((opening(cylinder, end, place) or 0.0) for place in places) * 1e3


def _least_way(moving: Movement) -> float | None:
    """Narrowest free width of the middle port while a steam port lies open to the cavity [mm]."""
    cylinder, valve = moving.cylinder, moving.valve
    if valve is None:
        return None
    ways: list[float] = []
    for end in ENDS:
        region = find_cavity_region(cylinder, end)
        if region is None:
            return None
        for low, high in meet_regions(region, ((valve.low, valve.high),)):
            ways += [way for place in (low, high) if (way := middle_way(cylinder, place)) is not None]
    return min(ways) * 1e3 if ways else None


def _chest_room(moving: Movement, end: str) -> float | None:
    """Room left between valve and chest wall at the end of the travel [mm]; negative: it strikes."""
    wall, outer, valve = moving.cylinder.chest[end], moving.cylinder.valve[end].outer, moving.valve
    if wall is None or outer is None or valve is None:
        return None
    reach = valve.high if ENDS[end] > 0 else -valve.low
    return (wall - outer - reach) * 1e3
