"""A screw in its hole, cut along the screw, with everything on it that is measured.

A grub screw stands over the shaft that it bears on, a screw of a cover has the cover beside it, seen from outside.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

from lapwright.papers.drawing import Drawing, Line, Point, Shape, Text
from lapwright.papers.lettering import clip_text
from lapwright.papers.measure_marks import ROW, SMALL, WIDTH, Marker, Room, Subject, box, circle, fit_sheet, solid

_AXIS = 40.0
_DEEPEST, _THICKEST = 17.0, 9.0
_LEFT: Room = (1.0, 57.0)
_RIGHT: Room = (62.0, WIDTH - 1.0)
_COVER = 15.0
_USUAL_COUNT, _MOST_COUNT = 6, 24
#: What a usual thread is as a share of its engagement, of the wall beside it, and of the shaft below it [-].
_TO_ENGAGEMENT, _TO_WALL, _TO_SHAFT = 0.75, 1.0, 0.5


@dataclass(frozen=True, slots=True)
class _Places:
    """Where everything stands on paper [mm]; the screw's axis is at `_AXIS`, the mouth of its hole at y = 0."""

    screw: float
    depth: float
    wall: float
    shaft: float
    is_grub: bool
    headed: bool
    count: int

    @property
    def edge(self) -> float:
        """Where the metal beside the hole ends."""
        return _AXIS + self.screw + self.wall

    @property
    def top(self) -> float:
        """The highest of the screw."""
        return 2.0 if self.is_grub else 11.0

    @property
    def foot(self) -> float:
        """The lowest of what is drawn."""
        return -self.depth - (min(self.shaft, 6.0) + 3.0 if self.is_grub else 5.0)


def draw_fastener(subject: Subject) -> Drawing:
    """Draw a screw in its hole; what is not known is drawn at a usual proportion and asked for.

    Parameters
    ----------
    subject: one fastener; its numbers by the keys of its table [m], and under `thread` the diameter over the crests
    """
    places, marker = _lay_out(subject), Marker(subject)
    shapes = [*_draw_hole(places), *_draw_screw(places)]
    shapes += [*_mark_screw(marker, places), *_mark_hole(marker, places)]
    shapes += _mark_shaft(marker, places) if places.is_grub else _mark_cover(marker, places)
    return fit_sheet(shapes, about="Screw in its hole, in section")


def _lay_out(subject: Subject) -> _Places:
    kind, holds = subject.find("kind"), subject.find("holds")
    depth = subject.size("engagement", subject.size("thread", 0.0025) / _TO_ENGAGEMENT)
    thread = subject.size("thread", _TO_ENGAGEMENT * depth)
    scale = min(_DEEPEST / depth, _THICKEST / thread)
    count = int(subject.size("count", _USUAL_COUNT))
    return _Places(
        screw=scale * thread / 2,
        depth=max(scale * depth, 4.0),
        wall=max(1.5, min(scale * subject.size("wall", _TO_WALL * thread), 14.0)),
        shaft=max(3.0, min(scale * subject.size("shaft", thread / _TO_SHAFT) / 2, 30.0)),
        is_grub=kind == "grub screw" or (not kind and holds in ("eccentric", "crank", "flywheel")),
        headed=kind != "stud",
        count=min(count, _MOST_COUNT),
    )


def _draw_hole(p: _Places) -> list[Shape]:
    """The metal round the hole; below a grub screw its shaft, above another what it holds."""
    left, right = _AXIS - p.screw - max(p.wall, 9.0), p.edge
    inner, outer = _AXIS - p.screw, _AXIS + p.screw
    if p.is_grub:
        sides = [*solid(box((left, -p.depth), (inner, 0.0))), *solid(box((outer, -p.depth), (right, 0.0)))]
        return [Line(_curve_shaft(p)), *sides]
    low = -p.depth - 4.0
    blind = (
        (left, 0.0), (left, low), (right, low), (right, 0.0),
        (outer, 0.0), (outer, -p.depth), (inner, -p.depth), (inner, 0.0),
    )  # fmt: skip
    shapes = solid(blind)
    for x0, x1 in ((left, inner - 0.5), (outer + 0.5, right)):
        shapes += [*solid(box((x0, 0.9), (x1, 5.5)), angle=135.0, spacing=1.3)]
        shapes.append(Line(box((x0, 0.0), (x1, 0.9)), "fill", closed=True))
    return shapes


def _curve_shaft(p: _Places) -> tuple[Point, ...]:
    """The top of the shaft below a grub screw; of a thick one not all of it has room."""
    reach = min(pi / 2, (2 * (-p.depth - p.foot) / p.shaft) ** 0.5)
    angles = [pi / 2 - reach + 2 * reach * i / 24 for i in range(25)]
    return tuple((_AXIS + p.shaft * cos(a), -p.depth - p.shaft + p.shaft * sin(a)) for a in angles)


def _draw_screw(p: _Places) -> list[Shape]:
    shapes: list[Shape] = []
    top = p.top if p.is_grub else 5.5
    shank = box((_AXIS - p.screw, -p.depth), (_AXIS + p.screw, top + (0.0 if p.headed else 6.0)))
    shapes += [Line(shank, "paper", closed=True), Line(shank, closed=True)]
    y = -p.depth + 0.6
    while y < (top if p.is_grub else 0.0):
        shapes.append(Line(((_AXIS - p.screw, y), (_AXIS + p.screw, y + 0.7)), "thin"))
        y += 1.4
    if not p.is_grub:
        head = box((_AXIS - 1.8 * p.screw, 5.5), (_AXIS + 1.8 * p.screw, 9.5))
        shapes += [Line(head, "paper", closed=True), Line(head, closed=True)]
    return [*shapes, Line(((_AXIS, p.foot - 1.0), (_AXIS, p.top + 3.0)), "centre")]


def _mark_screw(marker: Marker, p: _Places) -> list[Shape]:
    top = p.top + 5.0
    on = (_AXIS - 0.5 * p.screw, p.top - (0.6 if p.is_grub else 2.5))
    other = (_AXIS + 0.5 * p.screw, on[1])
    return [
        *marker.point_out("screw", on, (22.0, top), room=_LEFT),
        *marker.point_out("screw_material", on, (18.0, top + ROW), room=_LEFT),
        *marker.point_out("kind", on, (14.0, top + 2 * ROW), room=_LEFT),
        *marker.point_out("torque", other, (74.0, top), room=_RIGHT),
        *marker.point_out("thread_is", other, (78.0, top + ROW), room=_RIGHT),
        *marker.point_out("holds", other, (82.0, top + 2 * ROW), room=_RIGHT),
    ]


def _mark_hole(marker: Marker, p: _Places) -> list[Shape]:
    low = p.foot - 3.0
    flank = _AXIS - p.screw
    depth = ((_AXIS - p.screw, -p.depth), (_AXIS - p.screw, 0.0))
    wall = ((_AXIS + p.screw, -p.depth), (p.edge, -p.depth))
    return [
        *marker.upright("engagement", depth, 12.0, base=low - 0.8 * ROW, room=_LEFT),
        *marker.across("wall", wall, low, room=(_AXIS, 90.0)),
        *marker.point_out("thread", (flank, -0.7 * p.depth), (20.0, low - 1.8 * ROW), room=_LEFT),
        *marker.point_out("state", (flank, -0.4 * p.depth), (20.0, low - 2.8 * ROW), room=_LEFT),
        *marker.point_out("hole_material", (p.edge - 0.8, -0.8 * p.depth), (80.0, low - 1.8 * ROW), room=_RIGHT),
    ]


def _mark_shaft(marker: Marker, p: _Places) -> list[Shape]:
    """A grub screw's point, and the shaft it bears on."""
    low, reach = p.foot - 3.0, min(p.shaft, 9.0)
    on = (_AXIS + 0.7 * reach, -p.depth - p.shaft + (p.shaft**2 - (0.7 * reach) ** 2) ** 0.5)
    return [
        *marker.point_out("point", (_AXIS, -p.depth + 0.4), (90.0, -0.2 * p.depth), room=(72.0, WIDTH - 1.0)),
        *marker.point_out(
            "seat", (_AXIS + 0.4, -p.depth - 0.2), (92.0, -0.2 * p.depth - ROW), room=(72.0, WIDTH - 1.0)
        ),
        *marker.point_out("shaft", on, (90.0, low - 2.8 * ROW), room=_RIGHT),
        *marker.point_out("count", (_AXIS, p.top - 0.6), (95.0, p.top + 1.5), room=(72.0, WIDTH - 1.0)),
    ]


def _mark_cover(marker: Marker, p: _Places) -> list[Shape]:
    """What is screwed down, seen from outside: the ring of screws, and the joint below it."""
    centre = (100.0, -_COVER + 6.0)
    x, y = centre
    low = min(p.foot - 3.0 - 3.8 * ROW, y - _COVER - 4.0)
    holes = [
        circle((x + 0.78 * _COVER * cos(a), y + 0.78 * _COVER * sin(a)), 1.3)
        for a in (pi / 2 + 2 * pi * i / p.count for i in range(p.count))
    ]
    joint = ((x - _COVER, y), (x + _COVER, y))
    return [
        Line(circle(centre, _COVER), closed=True),
        *(Line(hole, "thin", closed=True) for hole in holes),
        Line(((x - _COVER - 2.0, y), (x + _COVER + 2.0, y)), "centre"),
        *marker.point_out("count", (x, y + 0.78 * _COVER), (x - 14.0, p.top + 0.5), room=(66.0, WIDTH - 1.0)),
        *marker.across("joint_outside", joint, low, room=_RIGHT),
        *marker.point_out("gasket", (p.edge - 2.0, 0.4), (30.0, low - SMALL), room=_LEFT),
        Text((x, y - 1.2), clip_text(marker.subject.find("holds"), 12), SMALL),
    ]
