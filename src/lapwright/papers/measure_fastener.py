"""A screw in its hole, cut along the screw, with everything on it that is measured.

A grub screw stands over the shaft that it bears on, a screw of a cover has the cover beside it, seen from outside.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

from lapwright.papers.drawing import Drawing, Line, Point, Shape, Text
from lapwright.papers.lettering import clip_text
from lapwright.papers.measure_marks import ROW, SIZE, SMALL, WIDTH, Marker, Subject, box, circle, fit_sheet, solid

_DEEPEST, _THICKEST = 17.0, 9.0
_COVER = 13.0
_USUAL_COUNT, _MOST_COUNT = 6, 24
#: What a usual thread is as a share of its engagement, of the wall beside it, and of the shaft below it [-].
_TO_ENGAGEMENT, _TO_WALL, _TO_SHAFT = 0.75, 1.0, 0.5


@dataclass(frozen=True, slots=True)
class _Places:
    """Where everything stands on paper [mm]; the mouth of the screw's hole is at y = 0."""

    screw: float
    depth: float
    wall: float
    shaft: float
    is_grub: bool
    headed: bool
    count: int

    @property
    def axis(self) -> float:
        """Where the screw's axis stands: a cover has its place beside it."""
        return 66.0 if self.is_grub else 58.0

    @property
    def edge(self) -> float:
        """Where the metal beside the hole ends."""
        return self.axis + self.screw + self.wall

    @property
    def left(self) -> float:
        """Where it ends at the other side, which has no size."""
        return self.axis - self.screw - max(self.wall, 9.0)

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
    marks = (_mark_grub, _mark_shaft) if places.is_grub else (_mark_depth, _mark_cover)
    for mark in marks:
        shapes += mark(marker, places)
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
    left, right = p.left, p.edge
    inner, outer = p.axis - p.screw, p.axis + p.screw
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
    return tuple((p.axis + p.shaft * cos(a), -p.depth - p.shaft + p.shaft * sin(a)) for a in angles)


def _draw_screw(p: _Places) -> list[Shape]:
    shapes: list[Shape] = []
    top = p.top if p.is_grub else 5.5
    shank = box((p.axis - p.screw, -p.depth), (p.axis + p.screw, top + (0.0 if p.headed else 6.0)))
    shapes += [Line(shank, "paper", closed=True), Line(shank, closed=True)]
    y = -p.depth + 0.6
    while y < (top if p.is_grub else 0.0):
        shapes.append(Line(((p.axis - p.screw, y), (p.axis + p.screw, y + 0.7)), "thin"))
        y += 1.4
    if not p.is_grub:
        head = box((p.axis - 1.8 * p.screw, 5.5), (p.axis + 1.8 * p.screw, 9.5))
        shapes += [Line(head, "paper", closed=True), Line(head, closed=True)]
    return [*shapes, Line(((p.axis, p.foot - 1.0), (p.axis, p.top + 3.0)), "centre")]


def _mark_screw(marker: Marker, p: _Places) -> list[Shape]:
    """What is said of the screw itself: two lists above it, each led to its head by one line."""
    low = p.top + (10.0 if p.is_grub else 6.0)
    rows = tuple(low + place * ROW for place in (3, 2, 1, 0))
    # How many there are of a screw in a cover is told at the cover.
    first, own = ("count", "kind", "screw_material", "screw"), 0 if p.is_grub else 1
    apart, on = max(0.5 * p.screw, 1.2), p.top - (0.6 if p.is_grub else 2.5)
    left, right = (1.0, p.axis - 5.0), (p.axis + 5.0, WIDTH - 1.0)
    return [
        *marker.list_beside(first[own:], (p.axis - apart, on), rows=rows[own:], room=left),
        *marker.list_beside(("holds", "thread_is", "torque"), (p.axis + apart, on), rows=rows[1:], room=right),
    ]


def _mark_hole(marker: Marker, p: _Places) -> list[Shape]:
    """The thread in the hole, and the metal round it; both at the left."""
    middle = -p.depth / 2
    first = min(middle + ROW / 2, -5.5)
    flank, inside = (p.axis - p.screw, middle), (p.left + 2.0, -0.8 * p.depth)
    low = min(p.foot - 3.0, first - 2.3 * ROW)
    return [
        *marker.list_beside(
            ("thread", "state"), flank, rows=(first, first - ROW), room=(1.0, p.left - 4.0), spine=p.left - 2.0
        ),
        *marker.lead("hole_material", (inside, (inside[0], low), (inside[0] - 1.5, low)), room=(1.0, inside[0] - 2.5)),
    ]


def _mark_grub(marker: Marker, p: _Places) -> list[Shape]:
    """How deep a grub screw holds and how much metal is beside it, at the right."""
    depth, wall = ((p.edge, -p.depth), (p.edge, 0.0)), ((p.axis + p.screw, 0.0), (p.edge, 0.0))
    x, middle = p.edge + 3.5, -p.depth / 2
    return [
        *marker.across("wall", wall, 3.0, room=(p.axis + p.screw + 1.0, WIDTH - 1.0)),
        *marker.upright("engagement", depth, x, base=middle - 0.33 * SIZE, room=(x + 2.0, WIDTH - 1.0)),
    ]


def _mark_shaft(marker: Marker, p: _Places) -> list[Shape]:
    """A grub screw's point, and the shaft it bears on."""
    reach = min(0.7 * p.shaft, 8.0)
    on = (p.axis + reach, -p.depth - p.shaft + (p.shaft**2 - reach**2) ** 0.5)
    first = min(p.foot - 3.0, -p.depth / 2 - 2.8 * ROW)
    second = first - ROW
    point, seat = (p.axis - 1.0, -p.depth + 0.4), (p.axis + 1.0, -p.depth - 0.3)
    left, right = (1.0, p.axis - 5.0), (p.axis + 12.0, WIDTH - 1.0)
    return [
        *marker.lead("point", (point, (point[0], second), (left[1] + 1.0, second)), room=left),
        *marker.lead("shaft", (on, (on[0], first), (right[0] - 1.0, first)), room=right),
        *marker.lead("seat", (seat, (seat[0], second), (right[0] - 1.0, second)), room=right),
    ]


def _mark_depth(marker: Marker, p: _Places) -> list[Shape]:
    """The wall below, and how deep the thread holds, at the right, its words below."""
    low, x = p.foot - 2.0, p.edge + 3.5
    depth, wall = ((p.edge, -p.depth), (p.edge, 0.0)), ((p.axis + p.screw, -p.depth - 4.0), (p.edge, -p.depth - 4.0))
    base = min(low - 2.4 * ROW, -p.depth / 2 - 4.5 * ROW)
    return [
        *marker.across("wall", wall, low, room=(p.left + 4.0, p.edge + 2.5)),
        *marker.upright("engagement", depth, x, base=base, room=(p.axis - 14.0, 88.0)),
    ]


def _mark_cover(marker: Marker, p: _Places) -> list[Shape]:
    """What is screwed down, seen from outside: the ring of screws, and the joint below it."""
    x, y = centre = (105.0, -_COVER + 4.0)
    low = y - _COVER - 3.5
    holes = [
        circle((x + 0.78 * _COVER * cos(a), y + 0.78 * _COVER * sin(a)), 1.3)
        for a in (pi / 2 + 2 * pi * i / p.count for i in range(p.count))
    ]
    top, joint = (x, y + 0.78 * _COVER), ((x - _COVER, y), (x + _COVER, y))
    gasket = (p.left + 1.5, 0.45)
    return [
        Line(circle(centre, _COVER), closed=True),
        *(Line(hole, "thin", closed=True) for hole in holes),
        Line(((x - _COVER - 1.0, y), (x + _COVER + 1.0, y)), "centre"),
        *marker.point_out("count", top, (x, y + _COVER + 3.0), room=(p.edge + 6.0, WIDTH - 1.0)),
        *marker.across("joint_outside", joint, low, room=(p.edge + 6.0, WIDTH - 1.0)),
        *marker.lead("gasket", (gasket, (p.left - 2.0, 0.45)), room=(1.0, p.left - 3.0)),
        Text((x, y - 1.2), clip_text(marker.subject.find("holds"), 12), SMALL),
    ]
