"""Port face and valve: both in section along the valve line, the valve lifted off, and below them seen from above."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from lapwright.engine.cylinder import Cylinder, FaceSide, ValveSide, assemble_cylinder
from lapwright.engine.sizes import FACE_EDGES, VALVE_EDGES, Sizes
from lapwright.papers.drawing import Drawing, Line, Point, Shape, Text, draw_arrow
from lapwright.papers.measure_marks import ROW, WIDTH, Marker, Subject, box, fit_sheet, place_words, solid

_CENTRE = WIDTH / 2
_HALF = 45.0
_FACE, _VALVE, _CAVITY, _WALL = 8.0, 10.0, 6.0, 4.0
#: Where the valve's lower side stands above the face.
_LIFT = 11.0
_TALLEST = 15.0


@dataclass(frozen=True, slots=True)
class _Places:
    """Half lengths on paper [mm] from the centre; the head end is at the left. The port face is at y = 0."""

    face: dict[str, FaceSide]
    valve: dict[str, ValveSide]
    chest: dict[str, float]
    port_length: float
    width: float
    is_piston: bool

    def ports(self) -> tuple[float, ...]:
        """The six edges of the ports from left to right."""
        head, crank = self.face["head"], self.face["crank"]
        left = (_CENTRE - head.outer, _CENTRE - head.inner, _CENTRE - head.middle)
        return (*left, _CENTRE + crank.middle, _CENTRE + crank.inner, _CENTRE + crank.outer)

    def edges(self) -> tuple[float, ...]:
        """The four edges of the valve from left to right."""
        head, crank = self.valve["head"], self.valve["crank"]
        return (
            _CENTRE - (head.outer or 0.0),
            _CENTRE - (head.cavity or 0.0),
            _CENTRE + (crank.cavity or 0.0),
            _CENTRE + (crank.outer or 0.0),
        )


def draw_face(subject: Subject, sizes: Sizes) -> Drawing:
    """Draw port face and valve; what is not known is drawn at a usual proportion and asked for.

    Parameters
    ----------
    subject: one cylinder
    sizes: the same cylinder
    """
    places = _lay_out(subject, sizes)
    marker = Marker(subject)
    shapes = [*_draw_valve(places), *_draw_base(places), *_draw_plan(places)]
    shapes += [*_mark_valve(marker, places), *_mark_face(marker, places), *_mark_plan(marker, places)]
    shapes += [*_mark_words(marker, places, outside=sizes.admission == "outside"), *_name_ends(places)]
    return fit_sheet(shapes, about="Port face and valve in section along the valve line, and seen from above")


def _lay_out(subject: Subject, sizes: Sizes) -> _Places:
    known = assemble_cylinder(sizes)
    face = known.face or _guess_face(subject, known)
    valve = _guess_valve(known, face)
    edges = [side.outer for side in face.values()] + [side.outer or 0.0 for side in valve.values()]
    wall = 1.35 * max(edges)
    chest = {end: subject.size(f"port_face.chest_{end}", wall) for end in face}
    scale = _HALF / max(*chest.values(), *edges)
    tall = max(subject.size("port_face.port_length", 0.0), subject.size("valve.width", 0.0)) or 1.6 * max(edges)
    across = min(scale, _TALLEST / tall)
    length = subject.size("port_face.port_length", subject.size("valve.width", tall / 0.75) * 0.75)
    return _Places(
        face={e: FaceSide(s.inner * scale, s.outer * scale, s.middle * scale) for e, s in face.items()},
        valve={e: ValveSide(scale * (s.outer or 0), scale * (s.cavity or 0)) for e, s in valve.items()},
        chest={end: scale * value for end, value in chest.items()},
        port_length=across * length,
        width=across * min(subject.size("valve.width", length / 0.75), 1.6 * tall),
        is_piston=sizes.kind == "piston",
    )


def _guess_face(subject: Subject, known: Cylinder) -> dict[str, FaceSide]:
    """A usual face: the bridge like the port, the exhaust port twice as wide; the valve says how large it is."""
    outer = known.valve["head"].outer
    port = subject.size("port_face.steam_port", (outer or 0.007) / 3.6)
    middle = subject.size("port_face.exhaust_port", 2 * port) / 2
    inner = middle + subject.size("port_face.bridge", port)
    side = FaceSide(inner, inner + port, middle)
    return {"head": side, "crank": side}


def _guess_valve(known: Cylinder, face: dict[str, FaceSide]) -> dict[str, ValveSide]:
    """What is not known of the valve covers the ports with a little lap."""
    guessed = {}
    for end, side in known.valve.items():
        port = face[end]
        outer = side.outer or max(port.outer + 0.25 * port.width, 1.2 * (side.cavity or 0.0))
        guessed[end] = ValveSide(outer, side.cavity or min(port.inner, 0.8 * outer))
    return guessed


def _draw_valve(p: _Places) -> list[Shape]:
    """The valve cut through; a piston valve is drawn in half, down from its axis."""
    a, b, c, d = p.edges()
    y0, y1, roof = _LIFT, _LIFT + _VALVE, _LIFT + _CAVITY
    ring = ((a, y0), (a, y1), (d, y1), (d, y0), (c, y0), (c, roof), (b, roof), (b, y0))
    middle = (a + d) / 2
    axis = [Line(((a - 4.0, y1), (d + 4.0, y1)), "centre")] if p.is_piston else []
    return [*solid(ring, angle=135.0, spacing=1.3), Line(((middle, y0 - 1.0), (middle, y1 + 1.5)), "centre"), *axis]


def _draw_base(p: _Places) -> list[Shape]:
    """The face with its ports, and the walls of the steam chest."""
    a, b, c, d, e, f = p.ports()
    left, right = _CENTRE - p.chest["head"], _CENTRE + p.chest["crank"]
    shapes: list[Shape] = []
    for x0, x1 in ((left - _WALL, a), (b, c), (d, e), (f, right + _WALL)):
        if x1 - x0 > 0.01:
            shapes += solid(box((x0, -_FACE), (x1, 0.0)))
    for x0, x1 in ((left - _WALL, left), (right, right + _WALL)):
        shapes += solid(box((x0, 0.0), (x1, _LIFT + _VALVE)))
    shapes.append(Line(((_CENTRE, -_FACE - 1.5), (_CENTRE, _LIFT - 2.0)), "centre"))
    return shapes


def _find_plan(p: _Places) -> float:
    """Height of the middle of what is seen from above: below the rows of dimensions."""
    return -_FACE - 3.5 - 3.2 * ROW - max(p.width, p.port_length) / 2 - 2.0


def _draw_plan(p: _Places) -> list[Shape]:
    y, half = _find_plan(p), p.port_length / 2
    ports = p.ports()
    shapes: list[Shape] = [
        Line(box((x0, y - half), (x1, y + half)), closed=True) for x0, x1 in zip(ports[::2], ports[1::2], strict=True)
    ]
    a, _, _, d = p.edges()
    if not p.is_piston:
        shapes.append(Line(box((a, y - p.width / 2), (d, y + p.width / 2)), "hidden", closed=True))
    shapes.append(Line(((_CENTRE - _HALF - 3.0, y), (_CENTRE + _HALF + 3.0, y)), "centre"))
    return shapes


def _mark_valve(marker: Marker, p: _Places) -> list[Shape]:
    a, b, c, d = p.edges()
    top = _LIFT + _VALVE
    if marker.subject.knows("valve.edges.0"):
        return _mark_edges(marker, VALVE_EDGES, [(x, top if x in (a, d) else _LIFT) for x in (a, b, c, d)], y=top + 4.0)
    cavity = marker.across("valve.cavity", ((b, _LIFT + 0.5), (c, _LIFT + 0.5)), _LIFT - 2.4)
    return [*marker.across("valve.length", ((a, top), (d, top)), top + 3.5), *cavity]


def _mark_face(marker: Marker, p: _Places) -> list[Shape]:
    a, b, c, d, e, _ = p.ports()
    low = -_FACE
    rows = [low - 3.5 - ROW * i for i in range(3)]
    shapes = _mark_chest(marker, p, rows[2])
    if marker.subject.knows("port_face.edges.0"):
        return [*shapes, *_mark_edges(marker, FACE_EDGES, [(x, low) for x in p.ports()], y=rows[0] - 3.0)]
    left, right = (1.0, _CENTRE - 4.0), (_CENTRE + 4.0, WIDTH - 1.0)
    return [
        *shapes,
        *marker.across("port_face.steam_port", ((a, low), (b, low)), rows[0], room=left),
        *marker.across("port_face.bridge", ((d, low), (e, low)), rows[0], room=right),
        *marker.across("port_face.exhaust_port", ((c, low), (d, low)), rows[1]),
    ]


def _mark_chest(marker: Marker, p: _Places, y: float) -> list[Shape]:
    """How far each wall of the chest stands from the centre of the face."""
    left, right, low = _CENTRE - p.chest["head"], _CENTRE + p.chest["crank"], -_FACE
    rooms = ((1.0, _CENTRE - 1.0), (_CENTRE + 1.0, WIDTH - 1.0))
    return [
        *marker.across("port_face.chest_head", ((left, low), (_CENTRE, low)), y, room=rooms[0]),
        *marker.across("port_face.chest_crank", ((_CENTRE, low), (right, low)), y, room=rooms[1]),
    ]


def _mark_edges(marker: Marker, keys: Iterable[str], points: list[Point], *, y: float) -> list[Shape]:
    """Edges read from a datum: each with its number and its figure, side by side in a row, by turns high and low."""
    each = (WIDTH - 2.0) / len(points) * 2
    shapes: list[Shape] = []
    for number, (key, on) in enumerate(zip(keys, points, strict=True)):
        middle = 1.0 + (WIDTH - 2.0) / len(points) * (number + 0.5)
        room = (max(1.0, middle - each / 2 + 0.8), min(WIDTH - 1.0, middle + each / 2 - 0.8))
        drop = ROW * 0.95 * (number % 2) * (1 if y > 0 else -1)
        shapes += marker.point_out(key, on, (middle, y + drop), room=room)
    return shapes


def _mark_plan(marker: Marker, p: _Places) -> list[Shape]:
    y, (a, *_), ports = _find_plan(p), p.edges(), p.ports()
    half, width = p.port_length / 2, p.width / 2
    base = y - max(half, width) - 7.0
    right = _CENTRE + _HALF + 6.0
    left = _CENTRE - _HALF - 6.0
    # A piston valve is as wide as its bore, and nothing hangs on it.
    on_valve = (
        []
        if p.is_piston
        else marker.upright("valve.width", ((a, y - width), (a, y + width)), left, base=base, room=(1.0, _CENTRE - 1.0))
    )
    return [
        *on_valve,
        *marker.upright(
            "port_face.port_length",
            ((ports[5], y - half), (ports[5], y + half)),
            right,
            base=base,
            room=(_CENTRE + 1.0, WIDTH - 1.0),
        ),
    ]


def _mark_words(marker: Marker, p: _Places, *, outside: bool) -> list[Shape]:
    """What sort of valve it is, and by which of its edges the steam goes in, with arrows along its way."""
    a, b, c, d = p.edges()
    top = _LIFT + _VALVE + (4.0 + 2.2 * ROW if marker.subject.knows("valve.edges.0") else 3.5 + 1.1 * ROW) + 1.5
    key = marker.subject.path("valve.admission")
    ports = p.ports()
    flow = []
    for edge, port in (
        (a if outside else b, (ports[0] + ports[1]) / 2),
        (d if outside else c, (ports[4] + ports[5]) / 2),
    ):
        from_x = edge + (4.0 if (edge < _CENTRE) != outside else -4.0)
        start = (from_x, 5.0)
        flow += [Line((start, (port, 0.5)), "thin", key=key), draw_arrow((port, 0.5), start, key=key)]
    edge = a - 2.0 if outside else (a + b) / 2
    on = (max(edge, _CENTRE - p.chest["head"] + 1.0), _LIFT + 4.0) if outside else (b + 1.0, _LIFT + _CAVITY - 1.5)
    return [
        *flow,
        *marker.point_out("valve.kind", ((c + d) / 2, _LIFT + _VALVE - 1.5), (80.0, top), room=(62.0, WIDTH - 1.0)),
        *marker.point_out("valve.admission", on, (30.0, top), room=(1.0, 60.0)),
    ]


def _name_ends(p: _Places) -> list[Shape]:
    y = _LIFT
    below = (
        "the valve's bore unrolled, the ports in it"
        if p.is_piston
        else "the face seen from above, the valve over it dashed"
    )
    return [
        Text((0.5, y), "← head", 2.7, "start"),
        Text((WIDTH - 0.5, y), "crank →", 2.7, "end"),
        place_words(below, (_CENTRE, -_FACE - 3.5 - 3.2 * ROW), size=3.0),
    ]
