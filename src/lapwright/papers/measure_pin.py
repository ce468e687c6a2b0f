"""A pin on which something turns, cut along the pin, with everything on it that is measured."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.papers.drawing import Drawing, Line, Point, Shape
from lapwright.papers.measure_marks import ROW, WIDTH, Marker, Subject, box, fit_sheet, solid

_START = 40.0
_LONGEST, _THICKEST, _CHEEK = 28.0, 9.0, 7.0


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
    """The lengths below, the shorter one first so that no line crosses; the diameters at either end."""
    low, far = -p.out - 3.0, -p.out - 3.0 - 1.3 * ROW
    (near, short), (wide, long) = sorted((("moving_part", p.part), ("plain_length", p.plain)), key=lambda each: each[1])
    one = ((_START, -p.out), (_START + short, -p.out))
    other = ((_START, low - 1.2), (_START + long, -p.out))
    return [
        *marker.across(near, one, low, room=(1.0, _START - 1.5)),
        *marker.across(wide, other, far, room=(22.0, 88.0)),
        *marker.upright(
            "hole", ((_START + 1.0, -p.hole), (_START + 1.0, p.hole)), 18.0, base=p.out + 3.0, room=(1.0, 27.0)
        ),
        *marker.upright(
            "diameter",
            ((p.end, -p.pin), (p.end, p.pin)),
            p.end + 9.0,
            base=-p.pin - 9.0,
            room=(p.end + 1.0, WIDTH - 1.0),
        ),
    ]


def _mark_words(marker: Marker, p: _Places) -> list[Shape]:
    """What is said of head, cheek, moving part and shank: each led to straight from above."""
    low = max(p.out + 4.5 + ROW, p.pin + 5.0 + 2 * ROW)
    head = (_START - _CHEEK - 1.8, 1.7 * p.pin - 0.8)
    held = (_START - _CHEEK / 2, p.out - 1.5)
    turning = (_START + 0.4 * p.part, (p.hole + p.out - 2.0) / 2)
    end = (p.end - 2.0, p.pin - 0.6)
    if marker.subject.is_fault("thread"):
        # What turns on a thread is shown where it does.
        return _lead_up(marker, "thread", (_START + (p.plain + p.part) / 2, 0.5 * p.pin), y=low + ROW)
    return [
        *_lead_up(marker, "kind", head, y=low + 3 * ROW),
        *_lead_up(marker, "shear", held, y=low + 2 * ROW),
        *marker.list_beside(("joint", "runs_in"), turning, rows=(low + ROW, low), room=(turning[0] + 3.0, WIDTH - 1.0)),
        *marker.list_beside(
            ("thread", "material"), end, rows=(p.pin + 4.5 + ROW, p.pin + 4.5), room=(end[0] + 3.0, WIDTH - 1.0)
        ),
    ]


def _lead_up(marker: Marker, key: str, on: Point, *, y: float) -> list[Shape]:
    """Lead straight up and then to words at the right; what lies further left goes higher, so that none cross."""
    x = on[0]
    return marker.lead(key, (on, (x, y), (x + 1.5, y)), room=(x + 2.5, WIDTH - 1.0))
