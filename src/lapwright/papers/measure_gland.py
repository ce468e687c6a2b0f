"""A stuffing box cut open: rod, box, packing, gland and gland nut, with everything on it that is measured."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.papers.drawing import Drawing, Hatch, Line, Shape, Text
from lapwright.papers.measure_marks import ROW, SMALL, WIDTH, Marker, Subject, box, fit_sheet, solid

_BOTTOM = 36.0
_DEEPEST, _TALLEST = 34.0, 17.0
_WALL, _NUT = 4.0, 3.0
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
    """The sizes along the rod above, one over the other; those across it at either side."""
    top, low = p.out + 3.0, -p.out - 3.0
    ring, depth = (
        ((_BOTTOM, p.bore), (_BOTTOM + p.section, p.bore)),
        # At the bottom of the box the line of the packing goes on as that of the depth.
        ((_BOTTOM, top + 1.2), (p.mouth, p.bore)),
    )
    left, right = _BOTTOM - 16.0, p.mouth + 16.0
    return [
        *marker.across("packing_section", ring, top, room=(1.0, _BOTTOM - 1.5)),
        *marker.across("box_depth", depth, top + 1.2 * ROW, room=(22.0, 82.0)),
        *marker.upright(
            "box_bore", ((_BOTTOM, -p.bore), (_BOTTOM, p.bore)), left, base=low - 0.8 * ROW, room=(1.0, 34.0)
        ),
        *marker.upright(
            "rod", ((right, -p.rod), (right, p.rod)), right, base=p.rod + 4.5, room=(right - 5.0, WIDTH - 1.0)
        ),
    ]


def _mark_words(marker: Marker, p: _Places) -> list[Shape]:
    """What is said of nut, packing and rod: a list each, led there by one line."""
    first = -p.out - 4.5
    nut, rod = p.mouth + 7.5, p.mouth + 24.0
    packing = min(_BOTTOM + 0.5 * p.section, p.packed), -(p.rod + p.bore) / 2
    rows = tuple(first - place * ROW for place in range(4))
    # What is said of the rod is led past there.
    end = rod - 4.0 if any(map(marker.subject.shows, ("on", "oil"))) else WIDTH - 1.0
    return [
        *marker.list_beside(
            ("nut_thread", "nut_hand"),
            (nut, p.out - 1.0),
            rows=(p.out + 4.0 + ROW, p.out + 4.0),
            room=(nut + 3.0, WIDTH - 1.0),
        ),
        *marker.list_beside(("packed_with", "rings"), packing, rows=rows[:2], room=(packing[0] + 3.0, end)),
        *marker.list_beside(("on", "oil"), (rod, -p.rod), rows=rows[2:], room=(12.0, rod - 3.0)),
        *_say_how(marker, rows[-1] - 6.0),
    ]


def _say_how(marker: Marker, y: float) -> list[Shape]:
    """Which way it goes together, for who measures it."""
    if marker.subject.telling is not None:
        return []
    return [
        Text((WIDTH - 1.0, y), "gland and nut draw up from the right", SMALL - 0.5, "end"),
    ]
