"""A pin on which something turns, cut along the pin, with everything on it that is measured."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.papers.drawing import Drawing, Line, Shape
from lapwright.papers.measure_marks import ROW, WIDTH, Marker, Room, Subject, box, fit_sheet, solid

_START = 40.0
_LONGEST, _THICKEST, _CHEEK = 28.0, 9.0, 7.0
_LEFT: Room = (1.0, 58.0)
_RIGHT: Room = (61.0, WIDTH - 1.0)


@dataclass(frozen=True, slots=True)
class _Places:
    """Where everything stands on paper [mm]; the pin's centre line is at y = 0, its head at the left."""

    pin: float
    hole: float
    part: float
    plain: float
    end: float

    @property
    def out(self) -> float:
        """How far the cheeks reach from the pin's centre line."""
        return max(self.hole + 6.0, 9.0)


def draw_pin(subject: Subject) -> Drawing:
    """Draw a pin in its joint; what is not known is drawn at a usual proportion and asked for.

    Parameters
    ----------
    subject: one pin; its numbers by the keys of its table [m]
    """
    places, marker = _lay_out(subject), Marker(subject)
    shapes = _draw_joint(places, single=subject.find("shear") == "single")
    shapes += [*_mark_sizes(marker, places), *_mark_words(marker, places)]
    return fit_sheet(shapes, about="Pin in section, with the part that turns on it and what holds it")


def _lay_out(subject: Subject) -> _Places:
    part = subject.size("moving_part", 1.6 * subject.size("diameter", subject.size("hole", 0.0025)))
    pin = subject.size("diameter", subject.size("hole", part / 1.6))
    hole = max(subject.size("hole", pin), pin)
    scale = min(_LONGEST / part, _THICKEST / hole)
    half = scale * part
    plain = min(scale * subject.size("plain_length", 1.05 * part), half + 2 * _CHEEK)
    # What the hole is wider than the pin would not be seen at this scale.
    slack = max(scale * (hole - pin), 0.5)
    return _Places(scale * pin / 2, scale * pin / 2 + slack / 2, half, plain, _START + half + _CHEEK + 8.0)


def _draw_joint(p: _Places, *, single: bool) -> list[Shape]:
    shapes: list[Shape] = []
    right = _START + p.part
    for side in (1, -1):
        shapes += solid(box((_START - _CHEEK, side * p.pin), (_START, side * p.out)))
        shapes += solid(box((_START + 0.4, side * p.hole), (right - 0.4, side * (p.out - 2.0))), angle=135.0)
        if not single:
            shapes += solid(box((right, side * p.pin), (right + _CHEEK, side * p.out)))
    head = box((_START - _CHEEK - 3.5, -1.7 * p.pin), (_START - _CHEEK, 1.7 * p.pin))
    shapes += [Line(head, "paper", closed=True), Line(head, closed=True)]
    shank = box((_START - _CHEEK, -p.pin), (p.end, p.pin))
    shapes += [Line(shank, "paper", closed=True), Line(shank, closed=True)]
    x = _START + p.plain
    while x < p.end - 0.6:
        shapes.append(Line(((x, -p.pin), (x + 0.7, p.pin)), "thin"))
        x += 1.3
    return [*shapes, Line(((_START - _CHEEK - 8.0, 0.0), (p.end + 5.0, 0.0)), "centre")]


def _mark_sizes(marker: Marker, p: _Places) -> list[Shape]:
    top, low = p.out + 3.0, -p.out - 3.0
    right = _START + p.part
    return [
        *marker.across("moving_part", ((_START, p.out), (right, p.out)), top, room=(22.0, 88.0)),
        *marker.across("plain_length", ((_START, -p.out), (_START + p.plain, -p.out)), low, room=(22.0, 88.0)),
        *marker.upright(
            "hole", ((_START + 1.0, -p.hole), (_START + 1.0, p.hole)), 18.0, base=low - 1.8 * ROW, room=_LEFT
        ),
        *marker.upright("diameter", ((p.end, -p.pin), (p.end, p.pin)), p.end + 9.0, base=low - 1.8 * ROW, room=_RIGHT),
    ]


def _mark_words(marker: Marker, p: _Places) -> list[Shape]:
    top, low = p.out + 4.2, -p.out - 3.0
    right, turning = _START + p.part, (_START + 0.4 * p.part, (p.hole + p.out - 2.0) / 2)
    held = (_START - _CHEEK / 2, p.out - 1.5)
    return [
        *marker.point_out("joint", turning, (_START, top + ROW), room=_LEFT),
        *marker.point_out("runs_in", (right - 2.5, turning[1]), (right + 6.0, top + ROW), room=_RIGHT),
        *marker.point_out("shear", held, (20.0, top + 2 * ROW), room=_LEFT),
        *marker.point_out("thread", (p.end - 2.0, p.pin), (p.end + 6.0, p.pin + 5.0), room=(p.end - 1.0, WIDTH - 1.0)),
        *marker.point_out("kind", (_START - _CHEEK - 2.0, -p.pin), (20.0, low - 2.8 * ROW), room=_LEFT),
        *marker.point_out("material", (right + _CHEEK + 1.5, -p.pin + 0.6), (90.0, low - 2.8 * ROW), room=_RIGHT),
    ]
