"""What moves the valve: eccentric, rod, fork, spindle and valve, seen from the side with the crank at dead centre.

The eccentric is drawn large and its rod broken short, since a throw is a small part of a rod.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, sin

from lapwright.papers.drawing import Drawing, Line, Point, Shape, Text, draw_arrow
from lapwright.papers.measure_marks import ROW, SMALL, WIDTH, Marker, Room, Subject, box, circle, fit_sheet, solid

#: The shaft's centre, the sizes round it, and the places along the valve line [mm of paper].
_SHAFT: Point = (96.0, 0.0)
_THROW, _SHEAVE, _BORE, _CRANK, _ARC = 8.5, 13.5, 3.6, 20.0, 16.5
_FORK, _VALVE, _NUT = 44.0, 17.0, 3.2
_FARTHEST = 17.0
#: How far a valve off its middle is drawn off it, for each of its throws.
_ASIDE = 14.0
_LEFT: Room = (1.0, 62.0)
_RIGHT: Room = (58.0, WIDTH - 1.0)


@dataclass(frozen=True, slots=True)
class _Places:
    """Where everything stands on paper [mm]; the shaft is at (`_SHAFT`)."""

    line: float
    eccentric: Point
    start: float
    stop: float
    valve: float
    top: float
    foot: float
    rod: float

    @property
    def below(self) -> float:
        """Height of the words below the eccentric rod's."""
        return self.rod - 1.9 * ROW


def draw_drive(subject: Subject, *, rocker: bool = False) -> Drawing:
    """Draw the eccentric and all that leads from it to the valve.

    Parameters
    ----------
    subject: one cylinder
    rocker: whether a rocker turns the motion round
    """
    places = _lay_out(subject)
    marker = Marker(subject)
    shapes = [*_draw_sheave(places), *_draw_rod(places), *_draw_spindle(places, rocker=rocker)]
    shapes += [*_mark_shaft(marker, places), *_mark_valve(marker, places), *_name_parts(places)]
    return fit_sheet(shapes, about="Eccentric, eccentric rod, spindle and valve from the side")


def _lay_out(subject: Subject) -> _Places:
    throw = subject.size("valve_drive.throw", 0.0) or 0.003
    turn = subject.turn
    angle = subject.numbers.get("valve_drive.eccentric_angle", radians(100.0))
    # The crank points to the head end, at the left; angles grow as the engine turns.
    start, stop = pi, pi - turn * (angle % (2 * pi) if angle >= 0 else angle)
    eccentric = (_SHAFT[0] + _THROW * cos(stop), _SHAFT[1] + _THROW * sin(stop))
    aside = subject.numbers.get("valve_drive.valve_line_offset", 0.0) / throw * _THROW * turn
    line = max(-_FARTHEST, min(aside, _FARTHEST))
    off = subject.numbers.get("valve_drive.valve_offset", 0.0) / throw * _ASIDE
    valve = _VALVE - max(-4.0, min(off, 4.0))
    top = max(_SHEAVE + eccentric[1], line + 9.0, _CRANK * 0.75) + 4.0
    reached = -_ARC if turn < 0 or start - stop > pi else 0.0
    foot = min(eccentric[1] - _SHEAVE, line - 13.0, -_CRANK * 0.5, reached) - 5.0
    return _Places(line, eccentric, start, stop, valve, top, foot, foot if turn > 0 else foot - ROW)


def _draw_sheave(p: _Places) -> list[Shape]:
    """Shaft, sheave and strap; the crank's line, the eccentric's line."""
    x, y = _SHAFT
    along = (p.eccentric[0] + 7.0 * cos(p.stop), p.eccentric[1] + 7.0 * sin(p.stop))
    rings = [(p.eccentric, _SHEAVE + 2.2), (p.eccentric, _SHEAVE), (_SHAFT, _BORE)]
    shapes: list[Shape] = []
    for centre, radius in rings:
        shapes += [Line(circle(centre, radius), layer, closed=True) for layer in ("paper", "outline")]
    return [
        *shapes,
        Line(((x - _CRANK - 5.0, y), (x + _SHEAVE + 5.0, y)), "centre"),
        Line(((x, y - 7.0), (x, y + 7.0)), "centre"),
        Line(((x, y), (x - _CRANK, y)), "flow"),
        draw_arrow((x - _CRANK, y), (x, y)),
        Line(((x, y), along), "centre"),
        Line(circle(p.eccentric, 0.6), "fill", closed=True),
        Line(circle(_SHAFT, 0.6), "fill", closed=True),
    ]


def _draw_rod(p: _Places) -> list[Shape]:
    """The eccentric rod from the strap to the fork's pin, broken in its middle."""
    (x1, y1), (x0, y0) = p.eccentric, (_FORK, p.line)
    length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    end = length - _SHEAVE - 2.2

    def at(along: float, aside: float) -> Point:
        return x0 + ux * along - uy * aside, y0 + uy * along + ux * aside

    middle = end * 0.45
    shapes: list[Shape] = [Line((at(0, 1.3), at(end, 1.8))), Line((at(0, -1.3), at(end, -1.8)))]
    gap = (at(middle - 1.0, 3.0), at(middle + 2.0, 3.0), at(middle + 1.0, -3.0), at(middle - 2.0, -3.0))
    shapes.append(Line(gap, "paper", closed=True))
    return [*shapes, Line((gap[0], gap[3]), "thin"), Line((gap[1], gap[2]), "thin")]


def _draw_spindle(p: _Places, *, rocker: bool) -> list[Shape]:
    """Fork, spindle with its thread, nut, and the valve on its face."""
    y, face = p.line, p.line - 6.0
    centre = _VALVE
    fork = [Line(((_FORK + 3.0, y + 2.6), (_FORK - 5.0, y + 2.6), (_FORK - 5.0, y - 2.6), (_FORK + 3.0, y - 2.6)))]
    spindle = [Line(((4.0, y + 1.0), (_FORK - 5.0, y + 1.0))), Line(((4.0, y - 1.0), (_FORK - 5.0, y - 1.0)))]
    ridges = [Line(((x, y - 1.0), (x + 0.6, y + 1.0)), "thin") for x in (_VALVE + 9.0 + 1.2 * i for i in range(6))]
    v = p.valve
    body = [
        (v - 8.0, face), (v - 8.0, face + 9.0), (v + 8.0, face + 9.0),
        (v + 8.0, face), (v + 4.0, face), (v + 4.0, face + 3.4), (v - 4.0, face + 3.4), (v - 4.0, face),
    ]  # fmt: skip
    ports = [centre - 12.0, centre - 6.6, centre - 4.4, centre - 2.2, centre + 2.2, centre + 4.4, centre + 6.6]
    blocks = [(ports[0], ports[1]), (ports[2], ports[3]), (ports[4], ports[5]), (ports[6], centre + 12.0)]
    shapes: list[Shape] = [*fork]
    for x0, x1 in blocks:
        shapes += solid(box((x0, face - 4.0), (x1, face)))
    shapes += solid(tuple(body), angle=135.0, spacing=1.3)
    shapes += [Line(box((4.0, y - 1.0), (v + 18.0, y + 1.0)), "paper", closed=True), *spindle, *ridges]
    shapes += solid(box((v - _NUT, y - 2.2), (v + _NUT, y + 2.2)), angle=45.0, spacing=1.1)
    shapes += [Line(((1.0, y), (_FORK + 5.0, y)), "centre")]
    shapes += [Line(circle((_FORK, y), 1.6), layer, closed=True) for layer in ("paper", "outline")]
    return [*shapes, *(_draw_rocker(p) if rocker else [])]


def _draw_rocker(p: _Places) -> list[Shape]:
    """A lever on a fixed pin between rod and fork."""
    x, y = _FORK, p.line
    lever = box((x - 1.4, y - 8.0), (x + 1.4, y + 2.0))
    pins = [circle((x, y), 1.0), circle((x, y - 4.0), 1.0), circle((x, y - 8.0), 1.0)]
    shapes: list[Shape] = [Line(lever, "paper", closed=True), Line(lever, closed=True)]
    return [*shapes, *(Line(pin, layer, closed=True) for pin in pins for layer in ("paper", "outline"))]


def _mark_shaft(marker: Marker, p: _Places) -> list[Shape]:
    x, y = _SHAFT
    turn = marker.subject.turn
    low = p.foot
    middle = p.start + (p.stop - p.start) * 0.3
    on = (x + _ARC * cos(middle), y + _ARC * sin(middle))
    ends = (
        (_FORK, p.line),
        p.eccentric,
    )
    offset: list[Shape] = marker.point_out("valve_drive.valve_line_offset", (x, y), (x + 4.0, p.below), room=_RIGHT)
    if abs(p.line) > 0.3:
        offset = [
            Line(((_FORK + 5.0, p.line), (WIDTH - 2.0, p.line)), "centre"),
            *marker.upright(
                "valve_drive.valve_line_offset",
                ((x + 4.0, y), (x + 4.0, p.line)),
                WIDTH - 3.0,
                base=p.below,
                room=_RIGHT,
            ),
        ]
    return [
        *marker.turn("valve_drive.eccentric_angle", _SHAFT, _ARC, angles=(p.start, p.stop)),
        *marker.point_out("valve_drive.eccentric_angle", on, (x - 14.0, p.top + 1.0 if turn > 0 else low), room=_RIGHT),
        *_mark_throw(marker, p, base=p.top + 1.0 + ROW if turn > 0 else p.top + 1.0),
        *offset,
        *marker.across("valve_drive.eccentric_rod", ends, p.rod, room=_RIGHT),
    ]


def _mark_throw(marker: Marker, p: _Places, *, base: float) -> list[Shape]:
    """The throw, beside the line from shaft to eccentric."""
    path, (x, y) = marker.subject.path("valve_drive.throw"), _SHAFT
    layer = "dimension" if marker.subject.knows("valve_drive.throw") else "wanted"
    nx, ny = -sin(p.stop) * 2.6, cos(p.stop) * 2.6
    side = -1.0 if nx < 0 else 1.0
    a, b = (x + side * nx, y + side * ny), (p.eccentric[0] + side * nx, p.eccentric[1] + side * ny)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    return [
        Line(((x, y), (x + 1.4 * side * nx, y + 1.4 * side * ny)), layer, key=path),
        Line((p.eccentric, (p.eccentric[0] + 1.4 * side * nx, p.eccentric[1] + 1.4 * side * ny)), layer, key=path),
        Line((a, b), layer, key=path),
        draw_arrow(a, b, key=path),
        draw_arrow(b, a, key=path),
        *marker.point_out("valve_drive.throw", middle, (x + 12.0, base), room=_RIGHT),
    ]


def _mark_valve(marker: Marker, p: _Places) -> list[Shape]:
    y, face = p.line, p.line - 10.0
    low, up = p.foot, p.top + 1.0
    offset = marker.across(
        "valve_drive.valve_offset", ((p.valve, face - 1.0), (_VALVE, face - 1.0)), min(face - 5.0, low), room=_LEFT
    )
    centres: list[Shape] = [
        Line(((_VALVE, face - 2.0), (_VALVE, face + 3.0)), "centre"),
        Line(((p.valve, face - 2.0), (p.valve, y + 5.0)), "centre"),
    ]
    thread = (p.valve + 11.5, y + 1.0)
    return [
        *centres,
        *offset,
        *marker.point_out("valve_drive.spindle_thread", thread, (26.0, up + ROW), room=_LEFT),
        *marker.point_out("valve_drive.spindle_step", (_FORK - 4.0, y + 2.6), (34.0, up), room=(1.0, 50.0)),
        *marker.point_out("valve_drive.rocker", (_FORK, y - 1.6), (34.0, p.below), room=(1.0, 56.0)),
    ]


def _name_parts(p: _Places) -> list[Shape]:
    y = p.below - ROW
    return [
        Text((1.0, y), "← head end", SMALL, "start"),
        Text((WIDTH - 1.0, y), "the rod is drawn short", SMALL, "end"),
        Text((_FORK + 4.0, p.line + 3.6), "fork", SMALL, "start"),
        Text((p.valve - 3.0, p.line + 4.4), "valve", SMALL, "end"),
        Text((_SHAFT[0] - _CRANK + 0.5, -4.0), "crank", SMALL, "end"),
    ]
