"""Sizes that nobody gave but that can fairly be taken for granted, each with its reason and what rests on it."""

from __future__ import annotations

from math import asin, degrees, pi

from lapwright.engine.cylinder import ENDS, assemble_cylinder
from lapwright.engine.sizes import FACE_EDGES, Assumed, Sizes

EVENTS = ("admission", "cut_off", "release", "compression")

#: Which answers of a cylinder rest on a size, as paths below `cylinders.<name>`.
_STROKE_SHARES = tuple(f"ends.{end}.events.{event}.stroke_percent" for end in ENDS for event in EVENTS)
_ANGLES = tuple(f"ends.{end}.events.{event}.crank_deg" for end in ENDS for event in EVENTS)
_LEADS = tuple(f"ends.{end}.lead_mm" for end in ENDS)
_OPENINGS = tuple(f"ends.{end}.greatest_{way}_opening_mm" for end in ENDS for way in ("steam", "exhaust"))
_EVERYTHING_TIMED = (*_ANGLES, *_STROKE_SHARES, *_LEADS, "chest_to_exhaust_deg")

AFFECTS = {
    "connecting_rod": _STROKE_SHARES,
    "cylinder_offset": (*_STROKE_SHARES, *_LEADS),
    "crank_phase": (),
    "valve_drive.eccentric_rod": (*_EVERYTHING_TIMED, "valve_travel_mm"),
    "valve_drive.eccentric_angle": (*_ANGLES, *_STROKE_SHARES, *_LEADS),
    "valve_drive.valve_line_offset": (*_EVERYTHING_TIMED, "valve_travel_mm"),
    "valve_drive.valve_offset": (*_EVERYTHING_TIMED, *_OPENINGS),
    "port_face.bridge": (*_EVERYTHING_TIMED, *_OPENINGS, "laps_mm", "least_exhaust_way_mm"),
    "port_face.exhaust_port": (*_EVERYTHING_TIMED, *_OPENINGS, "laps_mm", "least_exhaust_way_mm"),
}
#: Sizes that may be anything where they were not measured: no doubt can be named for what rests on them.
UNBOUNDED = ("valve_drive.eccentric_angle", "port_face.bridge", "port_face.exhaust_port")


def assume_missing(sizes: Sizes) -> Sizes:
    """Return the cylinder with every size filled in that can fairly be assumed; `assumed` says which and why.

    The rods only bend the timing a little, so a usual length serves; an eccentric whose angle nobody has read is
    taken as set right for its laps, so that no fault is laid to it. A port, a valve or a throw is never assumed.

    Source: low-1887, fig. 58 (bridge equal to the steam port, exhaust port twice as wide); langley-1911, p. 116 and
    bourne-1865, Q345 (connecting rod); eccentric rod: common practice, no source

    Example:
    >>> assume_missing(Sizes("A", {"stroke": 0.020})).numbers["connecting_rod"]
    0.045
    """
    for step in (_assume_rods, _assume_face, _assume_angle):
        sizes = step(sizes)
    return sizes


def list_assumed(sizes: Sizes) -> tuple[Assumed, ...]:
    """Return what was assumed of a cylinder as it is shown to the reader."""
    told = [
        Assumed(key, _show(key, sizes.numbers[key]), why, tuple(f"cylinders.{sizes.name}.{a}" for a in AFFECTS[key]))
        for key, why in sizes.assumed.items()
        if AFFECTS[key]
    ]
    if sizes.numbers and "piston_rod" not in sizes.numbers:
        reason = "not given: taken as single-acting, the crank end open to the air"
        told.append(Assumed("piston_rod", "none", reason, (f"cylinders.{sizes.name}.ends.crank",)))
    return tuple(told)


def list_unbounded(sizes: Sizes) -> tuple[str, ...]:
    """Return the sizes that were assumed and may be anything, so that what rests on them has no doubt to be told.

    Example:
    >>> list_unbounded(Sizes("A", {}, {}, {"valve_drive.eccentric_angle": "not given", "connecting_rod": "not given"}))
    ('valve_drive.eccentric_angle',)
    """
    return tuple(key for key in UNBOUNDED if key in sizes.assumed)


def _show(key: str, value: float) -> str:
    if key.endswith("_angle") or key == "crank_phase":
        return f"{degrees(value):.1f} deg"
    return f"{value * 1e3:.2f} mm"


def _fill(sizes: Sizes, values: dict[str, float], reasons: dict[str, str]) -> Sizes:
    filled = sizes.replacing(values)
    return Sizes(
        name=sizes.name,
        numbers=filled.numbers,
        doubts=sizes.doubts,
        assumed={**sizes.assumed, **reasons},
        kind=sizes.kind,
        admission=sizes.admission,
        rocker=sizes.rocker,
    )


def _assume_rods(sizes: Sizes) -> Sizes:
    """A usual rod is taken only where it reaches: a line far off the shaft has a rod of its own."""
    known = sizes.numbers
    if "connecting_rod" not in known and "stroke" in known:
        usual = 2.25 * known["stroke"]
        if usual > known["stroke"] + abs(sizes.number("cylinder_offset")):
            reason = "not given: taken as 2.25 strokes (common practice, no source)"
            sizes = _fill(sizes, {"connecting_rod": usual}, {"connecting_rod": reason})
    key = "valve_drive.eccentric_rod"
    if key not in known and "valve_drive.throw" in known:
        usual = 20 * known["valve_drive.throw"]
        if usual > 2 * known["valve_drive.throw"] + abs(sizes.number("valve_drive.valve_line_offset")):
            reason = "not given: taken as 20 throws (common practice, no source)"
            sizes = _fill(sizes, {key: usual}, {key: reason})
    return sizes


def _assume_face(sizes: Sizes) -> Sizes:
    port = sizes.numbers.get("port_face.steam_port")
    if port is None or all(key in sizes.numbers for key in FACE_EDGES):
        return sizes
    usual = {
        "port_face.bridge": (port, "not given: taken as wide as the steam port (as Low draws it, 1887, fig. 58)"),
        "port_face.exhaust_port": (
            2 * port,
            "not given: taken as twice the steam port (as Low draws it, 1887, fig. 58)",
        ),
    }
    for key, (value, reason) in usual.items():
        if key not in sizes.numbers:
            sizes = _fill(sizes, {key: value}, {key: reason})
    return sizes


def _assume_angle(sizes: Sizes) -> Sizes:
    """An eccentric that nobody has read stands where it opens the ports at the dead centres, if it can."""
    key = "valve_drive.eccentric_angle"
    throw = sizes.numbers.get("valve_drive.throw")
    cylinder = assemble_cylinder(sizes)
    if key in sizes.numbers or throw is None or cylinder.face is None:
        return sizes
    outside = cylinder.admission == "outside"
    laps = []
    for end in ENDS:
        side, valve = cylinder.face[end], cylinder.valve[end]
        edge = valve.outer if outside else valve.cavity
        if edge is None:
            return sizes
        laps.append(edge - side.outer if outside else side.inner - edge)
    lap = min(max(sum(laps) / 2, 0.0), 0.9 * throw)
    turned = (sizes.admission == "inside") != (sizes.rocker == "reversing")
    angle = (pi / 2 + asin(lap / throw) + (pi if turned else 0.0)) % (2 * pi)
    reason = "not given: taken as set for the lap, without lead, for the running direction"
    if lap == 0:
        reason = "not given: taken as square to the crank, for a valve without lap, for the running direction"
    return _fill(sizes, {key: angle}, {key: reason})
