"""A stuffing box cut open: rod, box, packing, gland and gland nut, with everything on it that is measured."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.papers.drawing import Drawing, Hatch, Line, Shape, Text
from lapwright.papers.measure_marks import ROW, SMALL, WIDTH, Marker, Room, Subject, box, fit_sheet, solid

_BOTTOM = 36.0
_DEEPEST, _TALLEST = 34.0, 17.0
_WALL, _NUT = 4.0, 3.0
_LEFT: Room = (1.0, 57.0)
_RIGHT: Room = (60.0, WIDTH - 1.0)
_USUAL_RINGS, _MOST_RINGS = 3, 12


@dataclass(frozen=True, slots=True)
class _Places:
    """Where everything stands on paper [mm]; the rod's centre line is at y = 0."""

    rod: float
    bore: float
    mouth: float
    section: float
    rings: int

    @property
    def out(self) -> float:
        """How far the outside of the nut stands from the rod's centre line."""
        return self.bore + _WALL + _NUT

    @property
    def packed(self) -> float:
        """Where the packing ends and the gland begins."""
        return min(_BOTTOM + self.rings * self.section, self.mouth - 2.0)


def draw_gland(subject: Subject) -> Drawing:
    """Draw a stuffing box; what is not known is drawn at a usual proportion and asked for.

    Parameters
    ----------
    subject: one gland; its numbers by the keys of its table [m]
    """
    places, marker = _lay_out(subject), Marker(subject)
    shapes = [*_draw_box(places), *_draw_inside(places, nothing=subject.find("packed_with") == "nothing")]
    shapes += [*_mark_sizes(marker, places), *_mark_words(marker, places)]
    return fit_sheet(shapes, about="Stuffing box in section, with rod, packing, gland and gland nut")


def _lay_out(subject: Subject) -> _Places:
    rod = subject.size("rod", subject.size("box_bore", 0.0064) / 2)
    bore = max(subject.size("box_bore", 2 * rod), 1.05 * rod)
    depth = subject.size("box_depth", 1.4 * bore)
    scale = min(_DEEPEST / depth, _TALLEST / bore)
    section = subject.size("packing_section", (bore - rod) / 2)
    rings = int(subject.size("rings", _USUAL_RINGS))
    return _Places(
        rod=scale * rod / 2,
        bore=scale * bore / 2,
        mouth=_BOTTOM + max(scale * depth, 6.0),
        section=max(scale * section, 0.6),
        rings=min(rings, _MOST_RINGS),
    )


def _draw_box(p: _Places) -> list[Shape]:
    """The box with its bottom, and the nut that draws the gland up."""
    shapes: list[Shape] = []
    for side in (1, -1):
        start, end = _BOTTOM - 5.0, p.mouth + 6.0
        wall = (
            (start, side * p.rod), (start, side * (p.bore + _WALL)), (p.mouth, side * (p.bore + _WALL)),
            (p.mouth, side * p.bore), (_BOTTOM, side * p.bore), (_BOTTOM, side * p.rod),
        )  # fmt: skip
        nut = (
            (p.mouth - 5.0, side * (p.bore + _WALL)), (p.mouth - 5.0, side * p.out), (end + 3.0, side * p.out),
            (end + 3.0, side * (p.rod + 0.5)), (end, side * (p.rod + 0.5)), (end, side * (p.bore + _WALL)),
        )  # fmt: skip
        shapes += [*solid(wall), *solid(nut, angle=135.0, spacing=1.3)]
    return shapes


def _draw_inside(p: _Places, *, nothing: bool) -> list[Shape]:
    """The rod, the rings of packing, and the gland that presses on them."""
    shapes: list[Shape] = []
    rings = 0 if nothing else p.rings
    for side in (1, -1):
        for number in range(rings):
            x0 = _BOTTOM + number * p.section
            x1 = min(x0 + p.section, p.mouth - 0.5)
            if x1 > x0:
                ring = box((x0, side * p.rod), (x1, side * p.bore))
                shapes += [Hatch((ring,), 45.0, 0.9), Hatch((ring,), 135.0, 0.9), Line(ring, "thin", closed=True)]
        gland = box((p.packed, side * (p.rod + 0.4)), (p.mouth + 6.0, side * (p.bore - 0.3)))
        shapes += solid(gland, angle=45.0, spacing=1.1)
    for side in (1, -1):
        shapes.append(Line(((_BOTTOM - 22.0, side * p.rod), (p.mouth + 28.0, side * p.rod))))
    return [*shapes, Line(((_BOTTOM - 25.0, 0.0), (p.mouth + 31.0, 0.0)), "centre")]


def _mark_sizes(marker: Marker, p: _Places) -> list[Shape]:
    top, low = p.out + 3.0, -p.out - 3.0
    ring = ((_BOTTOM, p.bore), (_BOTTOM + p.section, p.bore))
    left, right = _BOTTOM - 16.0, p.mouth + 21.0
    return [
        *marker.across("packing_section", ring, top, room=_LEFT),
        *marker.across("box_depth", ((_BOTTOM, -p.bore), (p.mouth, -p.bore)), low, room=(22.0, 80.0)),
        *marker.upright("box_bore", ((_BOTTOM, -p.bore), (_BOTTOM, p.bore)), left, base=low - 1.8 * ROW, room=_LEFT),
        *marker.upright("rod", ((right, -p.rod), (right, p.rod)), right, base=low - 1.8 * ROW, room=_RIGHT),
    ]


def _mark_words(marker: Marker, p: _Places) -> list[Shape]:
    top, low = p.out + 4.2, -p.out - 3.0
    across = (p.rod + p.bore) / 2
    packing = min(_BOTTOM + 0.5 * p.section, p.packed)
    last = max(_BOTTOM + 0.5, p.packed - 0.5 * p.section)
    nut = p.mouth + 7.0
    return [
        *marker.point_out("nut_thread", (p.mouth - 2.5, p.bore + _WALL), (nut, top), room=_RIGHT),
        *marker.point_out("nut_hand", (nut, p.out - 1.0), (nut + 12.0, top + ROW), room=_RIGHT),
        *marker.point_out("packed_with", (packing, across), (_BOTTOM - 6.0, top + ROW), room=_LEFT),
        *marker.point_out("rings", (last, across), (66.0, top + 2 * ROW), room=_RIGHT),
        *marker.point_out("on", (_BOTTOM - 20.0, p.rod), (14.0, top + 2 * ROW), room=_LEFT),
        *marker.point_out("oil", (_BOTTOM - 10.0, -p.rod), (_BOTTOM - 8.0, low - 2.8 * ROW), room=_LEFT),
        Text((p.mouth + 17.0, p.out - 4.0), "gland nut", SMALL, "start"),
        Text((WIDTH - 1.0, low - 2.8 * ROW), "gland and nut draw up from the right", SMALL - 0.5, "end"),
    ]
