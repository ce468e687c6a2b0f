"""How open every way past the valve is, over many crank angles at once; and at which angles that has a corner."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.engine.cylinder import ENDS, OTHER_END, Cylinder, FaceSide
from lapwright.motion.answers import Movement
from lapwright.motion.arcs import find_arcs
from lapwright.motion.linkage import slide_position
from lapwright.motion.many import Floats
from lapwright.motion.regions import find_exhaust_region, find_steam_region
from lapwright.motion.travel import TURN, PistonTravel, ValveTravel


@dataclass(frozen=True, slots=True)
class Openings:
    """Free widths [m] along the valve line, one entry a crank angle.

    `steam` and `exhaust` are the two ends' ports, `straight` the middle port laid bare to the space outside the valve,
    `middle` what is free of the middle port under the cavity.
    """

    steam: dict[str, Floats]
    exhaust: dict[str, Floats]
    straight: Floats
    middle: Floats


@dataclass(frozen=True, slots=True)
class Trace:
    """One turn of a cylinder, entry by entry over `angles` [rad, 0 to 2 pi] of its own crank, the last one left out.

    `place` is how far the crosshead pin stands from the shaft [m] and `gone` how far the piston is from the head-end
    dead centre [m]; `valve` is where the valve's centre stands [m]. `steam`, `exhaust` and `straight` are openings [m]
    as in `Openings`. What is not known is None.
    """

    angles: Floats
    place: Floats | None
    gone: Floats | None
    valve: Floats | None
    steam: dict[str, Floats] | None
    exhaust: dict[str, Floats] | None
    straight: Floats | None


def trace_turn(moving: Movement, *, points: int = 360) -> Trace:
    """Follow a cylinder through one turn, at even angles and besides at every angle where an opening has a corner.

    Between two entries every opening is all but a straight line, and it is nothing exactly where its event is.

    Parameters
    ----------
    moving: the cylinder
    points: how many even angles [-]

    Source: exact geometry
    """
    even: Floats = np.arange(points, dtype=np.float64) * (TURN / points)
    extra = [angle % TURN for angle in _list_known_corners(moving)]
    angles: Floats = np.unique(np.concatenate((even, np.array(extra, dtype=np.float64))))
    place, gone = None, None
    if moving.piston is not None:
        gone, _ = place_piston(moving.piston, angles)
        place = moving.piston.high - gone
    if moving.valve is None:
        return Trace(angles, place, gone, None, None, None, None)
    valve, cylinder = place_valve(moving.valve, angles), moving.cylinder
    ways = measure_openings(cylinder, valve)
    if ways is not None:
        return Trace(angles, place, gone, valve, ways.steam, ways.exhaust, ways.straight)
    over, under = _measure_over(cylinder, valve), _measure_under(cylinder, valve)
    steam, exhaust = (over, under) if cylinder.admission == "outside" else (under, over)
    return Trace(angles, place, gone, valve, steam, exhaust, None)


def _list_known_corners(moving: Movement) -> list[float]:
    """Every corner where all sizes are known, or else at least the events that are [rad]."""
    corners = find_corners(moving)
    if corners is not None:
        return corners[0]
    known: list[float] = []
    for end in ENDS if moving.valve is not None else ():
        for region in (find_steam_region(moving.cylinder, end), find_exhaust_region(moving.cylinder, end)):
            if region is not None and moving.valve is not None:
                known += [a for arc in find_arcs(moving.valve, region) if not arc.whole for a in (arc.start, arc.stop)]
    return known


def _measure_over(cylinder: Cylinder, positions: Floats) -> dict[str, Floats] | None:
    """How far each port lies outside the valve; None where its length is not known."""
    face, outers = cylinder.face, {end: cylinder.valve[end].outer for end in ENDS}
    if face is None or None in outers.values():
        return None
    near = {end: outer for end, outer in outers.items() if outer is not None}
    return {end: _outer(face[end], ENDS[end] * positions, near=near[end], far=near[OTHER_END[end]]) for end in ENDS}


def _measure_under(cylinder: Cylinder, positions: Floats) -> dict[str, Floats] | None:
    """How far each port lies under the cavity; None where its width is not known."""
    face, cavities = cylinder.face, {end: cylinder.valve[end].cavity for end in ENDS}
    if face is None or None in cavities.values():
        return None
    near = {end: cavity for end, cavity in cavities.items() if cavity is not None}
    return {end: _cavity(face[end], ENDS[end] * positions, near=near[end], far=near[OTHER_END[end]]) for end in ENDS}


def place_piston(piston: PistonTravel, angles: Floats) -> tuple[Floats, Floats]:
    """Return how far the piston has gone from the head-end dead centre [m], and how fast it goes [m/rad].

    Source: exact geometry (slider-crank and its derivative)
    """
    crank = piston.slider
    cosine, sine = np.cos(angles), np.sin(angles)
    place = slide_position(crank.throw, crank.rod, crank.offset, cosine=cosine, sine=sine, root=np.sqrt)
    across = crank.throw * sine - crank.offset
    speed = -crank.throw * sine - across * crank.throw * cosine / (place - crank.throw * cosine)
    return piston.high - place, -speed


def place_valve(valve: ValveTravel, angles: Floats) -> Floats:
    """Return where the valve's centre stands [m], positive towards the head end.

    Source: exact geometry (slider-crank)
    """
    slider, turned = valve.gear.slider, angles + valve.gear.angle
    cosine, sine = np.cos(turned), np.sin(turned)
    place = slide_position(slider.throw, slider.rod, slider.offset, cosine=cosine, sine=sine, root=np.sqrt)
    return np.asarray(valve.gear.sign * (place - valve.middle) + valve.gear.valve_offset)


def measure_openings(cylinder: Cylinder, positions: Floats) -> Openings | None:
    """Return how open every way is with the valve at the positions [m]; None where a size is not known.

    Source: exact geometry; the same edges as `outer_opening`, `cavity_opening` and `middle_way`
    """
    sides = _known_sides(cylinder)
    if sides is None:
        return None
    face, outers, cavities = sides
    outer, under = _measure_over(cylinder, positions), _measure_under(cylinder, positions)
    assert outer is not None
    assert under is not None
    whole = face["head"].middle + face["crank"].middle
    bare = [_between(face[end].middle - sign * positions - outers[end], whole) for end, sign in ENDS.items()]
    straight = bare[0] + bare[1]
    low = np.minimum(face["head"].middle, positions + cavities["head"])
    middle = np.maximum(low + np.minimum(face["crank"].middle, cavities["crank"] - positions), 0.0)
    outside = cylinder.admission == "outside"
    return Openings(outer if outside else under, under if outside else outer, np.minimum(straight, whole), middle)


def find_corners(moving: Movement) -> tuple[list[float], list[float]] | None:
    """Return the crank angles [rad, 0 to 2 pi] at which any opening has a corner, and those at which a port opens.

    None where a size is not known.

    Source: exact geometry; every angle is one crossing in closed form
    """
    cylinder, valve = moving.cylinder, moving.valve
    sides = _known_sides(cylinder)
    if sides is None or valve is None:
        return None
    face, outers, cavities = sides
    places: set[float] = set()
    for end, sign in ENDS.items():
        side, beyond = face[end], -face[OTHER_END[end]].middle
        for near, far in ((outers[end], outers[OTHER_END[end]]), (cavities[end], cavities[OTHER_END[end]])):
            edges = [side.outer - near, side.inner - near, side.inner + far, side.outer + far]
            edges += [side.middle - near, beyond - near]
            places |= {sign * edge for edge in edges}
    corners = [angle for place in places if valve.low < place < valve.high for angle in valve.find_angles(place)]
    starts: list[float] = []
    for end in ENDS:
        for region in (find_steam_region(cylinder, end), find_exhaust_region(cylinder, end)):
            if region is not None:
                starts += [arc.start for arc in find_arcs(valve, region) if not arc.whole]
    return sorted(corners), sorted(starts)


def _known_sides(cylinder: Cylinder) -> tuple[dict[str, FaceSide], dict[str, float], dict[str, float]] | None:
    outers = {end: outer for end in ENDS if (outer := cylinder.valve[end].outer) is not None}
    cavities = {end: cavity for end in ENDS if (cavity := cylinder.valve[end].cavity) is not None}
    if cylinder.face is None or len(outers) < len(ENDS) or len(cavities) < len(ENDS):
        return None
    return cylinder.face, outers, cavities


def _between(widths: Floats, most: float) -> Floats:
    """From nothing to the most; a slider waits for it, and numpy's own clip takes twice as long."""
    return np.minimum(np.maximum(widths, 0.0), most)


def _outer(side: FaceSide, towards: Floats, *, near: float, far: float) -> Floats:
    past_near = _between(side.outer - towards - near, side.width)
    past_far = _between(towards - far - side.inner, side.width)
    return np.asarray(np.minimum(past_near + past_far, side.width))


def _cavity(side: FaceSide, towards: Floats, *, near: float, far: float) -> Floats:
    free = np.minimum(side.outer, towards + near) - np.maximum(side.inner, towards - far)
    return np.asarray(np.maximum(free, 0.0))
