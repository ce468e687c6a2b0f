"""A whole engine's section as SVG whose parts can be moved one by one, and the figures by which a page moves them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any
from xml.sax.saxutils import quoteattr

from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import set_moving
from lapwright.papers.drawing import Hatch, Line, Point, Shape
from lapwright.papers.engine_parts import draw_valve, outline_cavity
from lapwright.papers.engine_picture import MOVING, EnginePicture, Space
from lapwright.papers.engine_plan import end_spindle
from lapwright.papers.lettering import clean_text
from lapwright.papers.metal import circle
from lapwright.papers.svg import FONTS, group_layers

#: Patterns by which a space tells what it is open to, besides colour and word; the page colours their classes.
_PATTERNS = (
    ("steam", 3.2, '<circle cx="0.8" cy="0.8" r="0.55"/><circle cx="2.4" cy="2.4" r="0.55"/>'),
    ("exhaust", 3.0, '<path d="M0 1.5H3" stroke-width="0.5"/>'),
    ("both", 3.2, '<path d="M0 0L3.2 3.2M0 3.2L3.2 0" stroke-width="0.5"/>'),
)
#: Between the lines of a valve's hatching [mm].
_HATCHED = 1.1


@dataclass(frozen=True, slots=True)
class View:
    """What of a picture is shown: its left and upper edge on the paper (y downwards), width and height [mm], parts."""

    left: float
    top: float
    width: float
    height: float
    parts: tuple[str, ...] = MOVING

    def shows(self, points: Iterable[Point], height: float) -> bool:
        """Whether anything of a shape on paper of that height [mm] may lie within."""
        xs, ys = zip(*points, strict=True)
        right, bottom = self.left + self.width, self.top + self.height
        return not (max(xs) < self.left or min(xs) > right or height - max(ys) > bottom or height - min(ys) < self.top)


def view_whole(picture: EnginePicture) -> View:
    """Return the view of the whole engine."""
    return View(0.0, 0.0, picture.width, picture.height)


def view_valve(picture: EnginePicture) -> View | None:
    """Return the view of the valve on its face, from wall to wall of the chest; None where there is no face."""
    chest, (x, y), m = picture.plan.chest, picture.origin, picture.plan.m
    if chest is None:
        return None
    left, right = x + chest.walls[0] - 1.4 * m, x + chest.walls[1] + 1.4 * m
    top = picture.height - (y + chest.line + chest.radius + 1.6 * m)
    bottom = picture.height - (y + chest.face - 1.6 * m)
    return View(left, top, right - left, bottom - top, ("valve",))


def moving_svg(picture: EnginePicture, view: View, *, key: str) -> str:
    """Write a picture as one SVG element with a group for every part, placed as at crank angle 0.

    A part's group has `data-part`, a space has `data-holds`; a page moves the one and marks the other.

    Parameters
    ----------
    picture: from `draw_engine_picture`
    view: what of it is shown
    key: tells the names inside apart where a page shows several
    """
    box = " ".join(f"{value:.3f}" for value in (view.left, view.top, view.width, view.height))
    height, stands = picture.height, picture.place_parts(0.0)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img" '
        f'aria-label={quoteattr(clean_text(picture.about))} font-family={quoteattr(FONTS)} fill="none" '
        'stroke-linejoin="round">',
        *_write_definitions(picture, key),
        '<g class="still">',
        *group_layers(_crop(picture.back, view, height), height=height),
        *(_write_space(space, key, height) for space in picture.spaces if not space.carried_by),
        *group_layers((Line(s.ring, closed=True) for s in picture.spaces if not s.carried_by), height=height),
        "</g>",
    ]
    for space in picture.spaces:
        if space.carried_by == "piston" and "piston" in view.parts:
            lines.append(f'<g clip-path="url(#{key}-bore)"><g data-part="piston">{_write_space(space, key)}</g></g>')
    for part in picture.parts:
        if part.name in view.parts:
            (x, y), turned = stands[part.name].at, stands[part.name].turned
            place = f'transform="translate({x:.3f} {height - y:.3f}) rotate({turned:.3f})"'
            inner = write_valve(picture, key=key) if part.name == "valve" else "\n".join(group_layers(part.shapes))
            lines.append(f'<g class="part" data-part="{part.name}" {place}>\n{inner}\n</g>')
            if part.name == "valve":
                lines.append(f'<g class="ghost" data-part="valve-found" {place}>{_write_ghost(picture)}</g>')
            if part.name == "eccentric":
                lines.append(f'<g class="ghost" data-part="eccentric-found" {place}>{_write_sheave(picture)}</g>')
    front = group_layers(_crop(picture.front, view, height), height=height) if "crank" in view.parts else []
    return "\n".join([*lines, '<g class="still">', *front, "</g>", "</svg>"])


def write_valve(picture: EnginePicture, sizes: Sizes | None = None, *, key: str) -> str:
    """Write the inside of the valve's group, with other sizes of the valve or its setting where they are given.

    Parameters
    ----------
    picture: of the engine as found
    sizes: of the valve as it is tried
    key: as in `moving_svg`
    """
    plan = picture.plan
    if sizes is not None and plan.chest is not None:
        tried = replace(plan, moving=set_moving(sizes))
        plan = replace(tried, spindle_end=end_spindle(tried, plan.chest))
    cavity = outline_cavity(plan)
    space = "" if cavity is None else _write_space(Space("cavity", cavity, "middle", "valve"), key)
    return "\n".join([space, *_group_hatched(draw_valve(plan), key)])


def _group_hatched(shapes: Iterable[Shape], key: str) -> list[str]:
    """Shapes as groups, hatched by a pattern: far less to write than lines, at every move of a slider."""
    parts: list[str] = []
    for is_hatch, run in groupby(shapes, key=lambda shape: isinstance(shape, Hatch)):
        if not is_hatch:
            parts += group_layers(run)
            continue
        for shape in run:
            assert isinstance(shape, Hatch)
            lean = "rising" if shape.angle < 90 else "falling"
            parts += [f'<polygon points="{_points(ring, 0.0)}" fill="url(#{key}-{lean})"/>' for ring in shape.rings]
    return parts


def _write_ghost(picture: EnginePicture) -> str:
    """The valve's outline as it was found; hidden until something else is tried."""
    rings = [shape for shape in draw_valve(picture.plan) if isinstance(shape, Hatch)]
    return "\n".join(group_layers(Line(ring, "found", closed=True) for hatch in rings for ring in hatch.rings))


def _write_sheave(picture: EnginePicture) -> str:
    """The eccentric's largest throw as it was found."""
    plan = picture.plan
    gear = plan.moving.cylinder.gear
    assert gear is not None
    centre, m = (-gear.slider.throw * plan.unit, 0.0), plan.m
    line = Line(((0.0, 0.0), (centre[0] - plan.eccentric - 1.4 * m, 0.0)), "found")
    return "\n".join(group_layers([line, Line(circle(centre, plan.eccentric), "found", closed=True)]))


def list_places(picture: EnginePicture) -> dict[str, Any]:
    """Return the figures by which a page moves the parts: all in mm of paper, y downwards, `unit` to a mm of engine."""
    plan, (x, y), height = picture.plan, picture.origin, picture.height
    chest, gear, valve = plan.chest, plan.moving.cylinder.gear, plan.moving.valve
    places: dict[str, Any] = {
        "unit": plan.unit / 1e3,
        "up": plan.up,
        "x": x,
        "y": height - y,
        "throw": plan.throw,
        "line": height - y - plan.line,
        "chest": None if chest is None else [x + chest.centre, height - y - chest.line],
        "gear": None,
    }
    if chest is not None and gear is not None and valve is not None:
        places["gear"] = {
            "throw": gear.slider.throw * plan.unit,
            "shaft": height - y - plan.shaft,
            "line": height - y - plan.rod_line,
            "middle": valve.middle * plan.unit,
            "sign": gear.sign,
            "pivot": height - y - chest.line - plan.arm,
            "arm": plan.arm,
        }
    return places


def _write_definitions(picture: EnginePicture, key: str) -> list[str]:
    bore = next(space.ring for space in picture.spaces if space.name == "bore")
    lines = ["<defs>", f'<clipPath id="{key}-bore"><polygon points="{_points(bore, picture.height)}"/></clipPath>']
    for name, size, inner in _PATTERNS:
        lines.append(
            f'<pattern id="{key}-{name}" class="ground ground-{name}" width="{size}" height="{size}" '
            f'patternUnits="userSpaceOnUse"><rect width="{size}" height="{size}"/>{inner}</pattern>'
        )
    for name, angle in (("rising", -45), ("falling", 45)):
        lines.append(
            f'<pattern id="{key}-{name}" width="{_HATCHED}" height="{_HATCHED}" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate({angle})"><path class="hatch" d="M0 {_HATCHED / 2}H{_HATCHED}" '
            'stroke-width="0.18"/></pattern>'
        )
    return [*lines, "</defs>"]


def _write_space(space: Space, key: str, height: float = 0.0) -> str:
    """A blank ground and, over it, the space once for each thing that it may be open to: the page shows one of them."""
    points = _points(space.ring, height)
    grounds = "".join(
        f'<polygon class="is-{name}" points="{points}" fill="url(#{key}-{name})"/>' for name, *_ in _PATTERNS
    )
    return f'<g class="space" data-holds="{space.holds}"><polygon class="paper" points="{points}"/>{grounds}</g>'


def _points(ring: Iterable[Point], height: float) -> str:
    return " ".join(f"{x:.3f},{height - y:.3f}" for x, y in ring)


def _crop(shapes: Iterable[Shape], view: View, height: float) -> list[Shape]:
    return [shape for shape in shapes if not isinstance(shape, Line) or view.shows(shape.points, height)]
