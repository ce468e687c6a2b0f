"""The cylinder cut open, its piston at the head-end dead centre, with everything on it that is measured."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

from lapwright.papers.drawing import Drawing, Line, Point, Shape, Text, draw_arrow
from lapwright.papers.measure_marks import ROW, SMALL, WIDTH, Marker, Subject, box, circle, fit_sheet, solid

_LEFT, _RIGHT = 15.0, 4.0
_TALLEST = 27.0
#: Longer than this [strokes] a connecting rod is drawn shortened, so that the cylinder stays large enough to read.
_LONGEST_ROD = 4.0
#: What a rod, or a gap, is taken as where it is not known [bores, strokes].
_USUAL_ROD, _USUAL_GAP = 1 / 6, 0.05


@dataclass(frozen=True, slots=True)
class _Places:
    """Where everything stands on the paper [mm]; the cylinder line is at y = 0."""

    face: float
    head: float
    crank: float
    piston: float
    travel: float
    half: float
    wall: float
    rod: float
    cross: float
    pin: float
    shaft: Point
    radius: float

    @property
    def cover(self) -> float:
        """Thickness of a cover."""
        return self.wall

    @property
    def out(self) -> float:
        """How far the cylinder's outside stands from its line."""
        return self.half + self.wall


def draw_cylinder(subject: Subject) -> Drawing:
    """Draw the cylinder, its rods and its crank; what is not known is drawn at a usual proportion and asked for.

    Parameters
    ----------
    subject: one cylinder
    """
    places = _lay_out(subject)
    marker = Marker(subject)
    shapes = [*_draw_crank(subject, places), *_draw_parts(places), *_name_parts(places)]
    shapes += [*_mark_inside(marker, places), *_mark_rods(marker, places), *_mark_crank(marker, places)]
    return fit_sheet(shapes, about="Cylinder in section, with piston, rods and crank")


def _lay_out(subject: Subject) -> _Places:
    usual = subject.numbers.get("bore") or subject.numbers.get("stroke") or 0.02
    bore = subject.size("bore", subject.size("stroke", usual))
    stroke = subject.size("stroke", bore)
    long = min(subject.size("connecting_rod", 2.25 * stroke), _LONGEST_ROD * stroke)
    gaps = [_find_gap(subject, end, stroke) for end in ("head", "crank")]
    thick, wall, gland = 0.3 * bore, 0.14 * bore, 0.45 * bore
    inside = gaps[0] + thick + stroke + gaps[1]
    neck = gland + stroke + 0.25 * bore
    total = wall + inside + wall + neck + long + 1.35 * stroke
    scale = min((WIDTH - _LEFT - _RIGHT) / total, _TALLEST / (bore + 2 * wall))
    head = _LEFT + scale * wall
    crank = head + scale * inside
    cross = crank + scale * (wall + neck) - scale * stroke * 0.25
    pin = cross + scale * long
    aside = subject.numbers.get("cylinder_offset", 0.0) * scale * subject.turn
    radius = scale * stroke / 2
    return _Places(
        face=head + scale * gaps[0],
        head=head,
        crank=crank,
        piston=scale * thick,
        travel=scale * stroke,
        half=scale * bore / 2,
        wall=scale * wall,
        rod=scale * min(subject.size("piston_rod", _USUAL_ROD * bore), 0.8 * bore) / 2,
        cross=cross,
        pin=pin,
        shaft=(pin + radius, -max(-1.2 * radius, min(aside, 1.2 * radius))),
        radius=radius,
    )


def _find_gap(subject: Subject, end: str, stroke: float) -> float:
    """The gap at an end [m]; one that is given as a share of the swept volume is drawn as that share of the stroke."""
    share = subject.numbers.get(f"clearance_{end}_share")
    gap = subject.size(f"clearance_{end}", _USUAL_GAP * stroke) if share is None else share * stroke
    return min(max(gap, 0.02 * stroke), 0.4 * stroke)


def _draw_parts(p: _Places) -> list[Shape]:
    shapes: list[Shape] = []
    end = p.crank + p.cover
    for side in (1, -1):
        shapes += solid(box((p.head, side * p.half), (p.crank, side * p.out)))
        shapes += solid(box((p.crank, side * p.rod), (end, side * p.out)), angle=135.0)
        shapes += solid(
            box((end, side * p.rod), (end + 1.9 * p.wall, side * (p.rod + 0.3 * p.half + 0.8))), angle=135.0
        )
    shapes += solid(box((p.head - p.cover, -p.out), (p.head, p.out)), angle=135.0)
    ghost = p.face + p.travel
    shapes.append(Line(box((ghost, -p.half), (ghost + p.piston, p.half)), "hidden", closed=True))
    shapes += solid(box((p.face, -p.half), (p.face + p.piston, p.half)), angle=135.0, spacing=1.2)
    start = p.face + p.piston
    for side in (1, -1):
        shapes.append(Line(((start, side * p.rod), (p.cross - 2.0, side * p.rod))))
    shapes.append(Line(((_LEFT - 3.0, 0.0), (p.cross + 4.0, 0.0)), "centre"))
    return shapes


def _draw_crank(subject: Subject, p: _Places) -> list[Shape]:
    """The crank at its dead centre, the circle of its pin, and the connecting rod on it."""
    x, y = p.shaft
    pin = (p.pin, 0.0) if abs(y) < 0.05 else _meet(p)
    shaft, end = max(0.3 * p.radius, 1.6), max(0.16 * p.radius, 1.3)
    rod = [Line(_bar((p.cross, 0.0), pin, widths=(1.0, 1.5)), "paper", closed=True)]
    rod += [Line(_bar((p.cross, 0.0), pin, widths=(1.0, 1.5)), closed=True)]
    web = _bar(p.shaft, pin, widths=(1.5 * shaft, end * 1.6))
    eyes = [(pin, end), (pin, 0.45 * end)]
    block = box((p.cross - 2.2, -2.4), (p.cross + 2.2, 2.4))
    start = pi if subject.turn > 0 else -pi
    swing = tuple(
        (x + (p.radius + 2.5) * cos(start - subject.turn * a), y + (p.radius + 2.5) * sin(start - subject.turn * a))
        for a in (0.5 + 0.07 * i for i in range(12))
    )
    return [
        Line(circle(p.shaft, p.radius), "centre", closed=True),
        Line(((x - 1.3 * p.radius, y), (min(x + 1.3 * p.radius, WIDTH - 1.0), y)), "centre"),
        Line(((x, y - 1.25 * p.radius), (x, y + 1.25 * p.radius)), "centre"),
        Line(web, "paper", closed=True),
        Line(web, "thin", closed=True),
        *(Line(circle(p.shaft, shaft), layer, closed=True) for layer in ("paper", "outline")),
        Line(block, "paper", closed=True),
        Line(block, closed=True),
        *rod,
        Line(circle((p.cross, 0.0), 1.0), "paper", closed=True),
        Line(circle((p.cross, 0.0), 1.0), closed=True),
        *(Line(circle(at, size), layer, closed=True) for at, size in eyes for layer in ("paper", "outline")),
        Line(swing, "thin", key="engine.rotation"),
        draw_arrow(swing[-1], swing[-2], key="engine.rotation"),
    ]


def _meet(p: _Places) -> Point:
    """Where the crank pin stands at the dead centre of a line that misses the shaft: in one line with rod and shaft."""
    dx, dy = p.shaft[0] - p.cross, p.shaft[1]
    length = (dx * dx + dy * dy) ** 0.5
    return p.shaft[0] - dx / length * p.radius, p.shaft[1] - dy / length * p.radius


def _bar(one: Point, other: Point, *, widths: tuple[float, float]) -> tuple[Point, ...]:
    """A tapered bar between two points."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    nx, ny = -dy / length, dx / length
    a, b = widths[0] / 2, widths[1] / 2
    return (
        (one[0] + nx * a, one[1] + ny * a),
        (other[0] + nx * b, other[1] + ny * b),
        (other[0] - nx * b, other[1] - ny * b),
        (one[0] - nx * a, one[1] - ny * a),
    )


def _name_parts(p: _Places) -> list[Shape]:
    """The parts that have no size of their own here, and which end is which."""
    foot = _find_foot(p) - 3 * ROW
    return [
        Text((1.0, foot), "← head end", SMALL, "start"),
        Text((WIDTH - 1.0, foot), "crank end →", SMALL, "end"),
        Text(((p.cross + p.pin) / 2 - 4.0, 2.6), "crosshead", SMALL, "start")
        if p.pin - p.cross > 30
        else Text((p.cross + 3.0, 2.6), "crosshead", SMALL, "start"),
    ]


def _find_foot(p: _Places) -> float:
    return min(-p.out, p.shaft[1] - p.radius - 1.0)


def _mark_inside(marker: Marker, p: _Places) -> list[Shape]:
    far = p.face + p.travel
    top, foot = p.out, _find_foot(p)
    stroke = ((p.face, -p.half), (far, -p.half))
    crank = ((far + p.piston, p.half), (p.crank, p.half))
    return [
        *marker.across("clearance_crank", crank, top + 3.5, room=(1.0, 70.0)),
        *marker.across("clearance_head", ((p.head, p.half), (p.face, p.half)), top + 3.5 + ROW, room=(1.0, 70.0)),
        *marker.across("stroke", stroke, foot - 3.0, room=(10.0, 58.0)),
        *marker.upright(
            "bore", ((p.head, -p.half), (p.head, p.half)), 8.0, base=foot - 3.0 - 1.75 * ROW, room=(1.0, 58.0)
        ),
    ]


def _mark_rods(marker: Marker, p: _Places) -> list[Shape]:
    foot = _find_foot(p)
    x = (p.crank + p.cover + 1.9 * p.wall + p.cross) / 2
    pin = _meet(p)
    return [
        *marker.upright("piston_rod", ((x, -p.rod), (x, p.rod)), x, base=p.rod + 6.2, room=(x - 3.0, WIDTH - 1.0)),
        *marker.across(
            "connecting_rod", ((p.cross, -1.0), (pin[0], pin[1] - 1.5)), foot - 3.0, room=(60.0, WIDTH - 1.0)
        ),
    ]


def _mark_crank(marker: Marker, p: _Places) -> list[Shape]:
    foot, top = _find_foot(p), max(p.out, p.shaft[1] + p.radius + 3.0)
    (x, y), pin = p.shaft, _meet(p)
    right: tuple[float, float] = (70.0, WIDTH - 1.0)
    offset = marker.point_out("cylinder_offset", (x, y), (x - 8.0, foot - 3.0 - 1.75 * ROW), room=(60.0, WIDTH - 1.0))
    if abs(y) > 0.3:
        side = min(x + p.radius + 2.5, WIDTH - 2.0)
        offset = [
            Line(((p.pin, 0.0), (side, 0.0)), "centre"),
            *marker.upright(
                "cylinder_offset", ((x, y), (x, 0.0)), side, base=foot - 3.0 - 1.75 * ROW, room=(60.0, WIDTH - 1.0)
            ),
        ]
    return [
        *offset,
        *_lay_phase(marker, p),
        *marker.point_out("crank_phase", pin, (pin[0], top + 4.7 + ROW), room=right),
        *marker.point_out(".engine.rotation", (x, y + p.radius + 2.5), (x, top + 4.7), room=right),
    ]


def _lay_phase(marker: Marker, p: _Places) -> list[Shape]:
    """Where the first cylinder's crank stands, for a cylinder whose crank leads it."""
    phase = marker.subject.numbers.get("crank_phase", 0.0)
    if abs(phase) < 1e-3:
        return []
    turn = marker.subject.turn
    ahead = pi + turn * phase
    x, y = p.shaft
    first = (x + 0.95 * p.radius * cos(ahead), y + 0.95 * p.radius * sin(ahead))
    arc = marker.turn("crank_phase", p.shaft, 0.62 * p.radius, angles=(ahead, pi))
    return [Line(((x, y), first), "hidden"), *arc]
