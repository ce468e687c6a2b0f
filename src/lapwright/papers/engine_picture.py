"""A whole cylinder with its gear in section, to scale, in parts that move: piston, rods, crank, eccentric and valve."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from math import atan2, cos, degrees, radians, sin

from lapwright.engine.sizes import Sizes
from lapwright.motion.linkage import slide_position
from lapwright.papers.drawing import Drawing, Hatch, Line, Point, Shape, lay_hatch
from lapwright.papers.engine_block import draw_axes, draw_block, draw_pins, list_spaces
from lapwright.papers.engine_parts import (
    draw_crank,
    draw_eccentric,
    draw_eccentric_rod,
    draw_piston,
    draw_rocker,
    draw_rod,
    draw_valve,
    outline_cavity,
)
from lapwright.papers.engine_plan import COVER, Plan, Taken, fill_for_picture, lay_plan, list_wanted
from lapwright.papers.metal import Ring

#: Paper left free round the engine [mm].
_MARGIN = 3.0
#: The parts that move, from the back to the front.
MOVING = ("valve", "rocker", "eccentric", "eccentric-rod", "piston", "crank", "rod")


@dataclass(frozen=True, slots=True)
class Part:
    """A part that moves as one: its shapes about the point at which it is held, x to the right and y upwards [mm]."""

    name: str
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, slots=True)
class Space:
    """A space for steam: its outline, what it belongs to, and the part that carries it ("" where it stands still).

    `holds` is "head" or "crank" for what is open to an end of the cylinder, "outer" for the space round the valve and
    "middle" for what the middle port leads to.
    """

    name: str
    ring: Ring
    holds: str
    carried_by: str = ""


@dataclass(frozen=True, slots=True)
class Stand:
    """Where a part stands: the point at which it is held [mm of paper], and how far it is turned [deg, left-handed].

    Left-handed: positive turns clockwise as it is seen.
    """

    at: Point
    turned: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class EnginePicture:
    """One cylinder's section: the paper's size [mm], what stands still behind and in front, parts, spaces, its plan.

    `origin` is where the shaft stands on the paper. `taken` are sizes that nobody gave, `wanted` the record keys
    without which a part is left out.
    """

    width: float
    height: float
    about: str
    origin: Point
    plan: Plan
    back: tuple[Shape, ...]
    front: tuple[Shape, ...]
    parts: tuple[Part, ...]
    spaces: tuple[Space, ...]
    taken: tuple[Taken, ...]
    wanted: tuple[str, ...]

    def place_parts(self, angle: float) -> Mapping[str, Stand]:
        """Return where every part stands at an angle of this cylinder's own crank [rad]."""
        plan, (x, y) = self.plan, self.origin
        piston = plan.moving.piston
        assert piston is not None
        crank = piston.slider
        place = plan.unit * slide_position(crank.throw, crank.rod, crank.offset, cosine=cos(angle), sine=sin(angle))
        pin = -plan.throw * cos(angle), plan.up * plan.throw * sin(angle)
        lean = atan2(pin[1] - plan.line, pin[0] + place)
        stands = {
            "piston": Stand((x - place, y + plan.line)),
            "rod": Stand((x - place, y + plan.line), -degrees(lean)),
            "crank": Stand((x, y), plan.up * degrees(angle)),
        }
        return {**stands, **self._place_gear(angle)}

    def _place_gear(self, angle: float) -> Mapping[str, Stand]:
        plan, (x, y) = self.plan, self.origin
        chest, gear, valve = plan.chest, plan.moving.cylinder.gear, plan.moving.valve
        if chest is None:
            return {}
        if gear is None or valve is None:
            return {"valve": Stand((x + chest.centre, y + chest.line))}
        moved = valve.position(angle) * plan.unit
        slider, turned = gear.slider, angle + gear.angle
        centre = -slider.throw * plan.unit * cos(turned), plan.shaft + plan.up * slider.throw * plan.unit * sin(turned)
        # The rod's end goes with the valve, or against it where a rocker turns the motion round.
        end = -valve.middle * plan.unit - gear.sign * (moved - gear.valve_offset * plan.unit)
        lean = atan2(centre[1] - plan.rod_line, centre[0] - end)
        stands = {
            "valve": Stand((x + chest.centre - moved, y + chest.line)),
            "eccentric": Stand((x, y + plan.shaft), plan.up * degrees(turned)),
            "eccentric-rod": Stand((x + end, y + plan.rod_line), -degrees(lean)),
        }
        if plan.arm:
            pivot = x - valve.middle * plan.unit, y + chest.line + plan.arm
            swing = atan2(end + valve.middle * plan.unit, plan.arm)
            stands["rocker"] = Stand(pivot, degrees(swing))
        return stands


def draw_engine_picture(
    sizes: Sizes, *, width: float, clockwise: bool = True, empty: Collection[str] = ()
) -> EnginePicture | None:
    """Draw one cylinder with all its gear in section; None where bore and stroke are both not known, or it cannot turn.

    Parameters
    ----------
    sizes: of the cylinder, as the record tells
    width: of the paper [mm]
    clockwise: which way it turns as it is drawn, seen from the flywheel end
    empty: the glands in which there is no packing ("piston rod", "valve spindle")
    """
    filled, taken = fill_for_picture(sizes)
    true = lay_plan(filled, unit=1000.0, clockwise=clockwise)
    if true is None:
        return None
    left, _, right, _ = _measure(true)
    plan = lay_plan(filled, unit=1000.0 * (width - 2 * _MARGIN) / (right - left), clockwise=clockwise)
    assert plan is not None
    plan = replace(plan, empty=frozenset(empty))
    left, bottom, _, top = _measure(plan)
    origin = _MARGIN - left, _MARGIN - bottom
    return EnginePicture(
        width=width,
        height=top - bottom + 2 * _MARGIN,
        about=f"Section of cylinder {sizes.name} with its valve gear",
        origin=origin,
        plan=plan,
        back=move_shapes([*draw_block(plan), *draw_axes(plan)], Stand(origin)),
        front=move_shapes(draw_pins(plan), Stand(origin)),
        parts=tuple(_draw_parts(plan)),
        spaces=tuple(_draw_spaces(plan, origin)),
        taken=taken,
        wanted=list_wanted(filled),
    )


def draw_engine(sizes: Sizes, *, width: float, clockwise: bool = True, angle: float = 0.9) -> Drawing | None:
    """Draw one cylinder with all its gear in section, at rest at a crank angle.

    Parameters
    ----------
    sizes: of the cylinder, as the record tells
    width: of the paper [mm]
    clockwise: which way it turns as it is drawn, seen from the flywheel end
    angle: of its crank [rad]
    """
    picture = draw_engine_picture(sizes, width=width, clockwise=clockwise)
    if picture is None:
        return None
    stands, parts = picture.place_parts(angle), {part.name: part for part in picture.parts}
    shapes = list(picture.back)
    for space in picture.spaces:
        stand = stands.get(space.carried_by, Stand((0.0, 0.0)))
        if not space.carried_by:
            shapes += [Line(space.ring, "paper", closed=True), Line(space.ring, closed=True)]
        elif space.carried_by == "valve":
            shapes += move_shapes([Line(space.ring, "paper", closed=True)], stand)
    for name in MOVING:
        if name in parts:
            shapes += move_shapes(parts[name].shapes, stands[name])
    return Drawing(picture.width, picture.height, picture.about, (*shapes, *picture.front))


def move_shapes(shapes: tuple[Shape, ...] | list[Shape], stand: Stand) -> tuple[Shape, ...]:
    """Return shapes moved from the point about which they were drawn to where they stand; hatching turns with them."""
    moved: list[Shape] = []
    for shape in shapes:
        lines = lay_hatch(shape) if isinstance(shape, Hatch) else (shape,)
        moved += [_move_line(line, stand) for line in lines if isinstance(line, Line)]
    return tuple(moved)


def _move_line(line: Line, stand: Stand) -> Line:
    c, s, (x, y) = cos(radians(stand.turned)), sin(radians(stand.turned)), stand.at
    return Line(tuple((x + a * c + b * s, y + b * c - a * s) for a, b in line.points), line.layer, line.closed)


def _measure(plan: Plan) -> tuple[float, float, float, float]:
    """How far the whole reaches: left, bottom, right, top."""
    m = plan.m
    left = plan.inside[0] - 10 * m * COVER - 1.4 * m
    right, top = plan.swing + 1.2 * m, max(plan.swing, plan.line + plan.bore / 2 + 2.8 * m) + 0.8 * m
    if plan.chest is not None:
        chest = plan.chest
        left = min(left, chest.walls[0] - 2.4 * m, chest.centre - _reach_of_valve(plan))
        top = max(top, chest.roof + 3.4 * m)
        if plan.has_gear:
            strap = (
                plan.eccentric
                + 1.2 * m
                + (0.0 if (g := plan.moving.cylinder.gear) is None else g.slider.throw * plan.unit)
            )
            right, top = max(right, strap + 0.4 * m), max(top, plan.shaft + strap + 0.4 * m, plan.rod_line + 1.2 * m)
    return left, min(plan.bed - 1.4 * m, plan.line - plan.bore / 2 - 3.0 * m), right, top


def _reach_of_valve(plan: Plan) -> float:
    """How far the valve and its spindle's end come to the left of the face's centre."""
    outer, valve = plan.moving.cylinder.valve["head"].outer, plan.moving.valve
    return ((outer or 0.0) + (0.0 if valve is None else max(valve.high, 0.0))) * plan.unit + 1.6 * plan.m


def _draw_parts(plan: Plan) -> list[Part]:
    drawn = {"piston": draw_piston(plan), "rod": draw_rod(plan), "crank": draw_crank(plan)}
    if plan.chest is not None:
        drawn["valve"] = draw_valve(plan)
    if plan.has_gear:
        drawn["eccentric"], drawn["eccentric-rod"] = draw_eccentric(plan), draw_eccentric_rod(plan)
        if plan.arm:
            drawn["rocker"] = draw_rocker(plan)
    return [Part(name, tuple(drawn[name])) for name in MOVING if name in drawn]


def _draw_spaces(plan: Plan, origin: Point) -> list[Space]:
    x, y = origin
    spaces = []
    for name, ring in list_spaces(plan).items():
        holds = "head" if name == "bore" else name.split()[0]
        spaces.append(Space(name, tuple((a + x, b + y) for a, b in ring), holds))
    if plan.is_double:
        start, half = -plan.reach + plan.piston / 2, plan.bore / 2
        end = start + plan.inside[1] - plan.inside[0]
        spaces.append(Space("behind", ((start, -half), (start, half), (end, half), (end, -half)), "crank", "piston"))
    cavity = outline_cavity(plan)
    if cavity is not None:
        spaces.append(Space("cavity", cavity, "middle", "valve"))
    return spaces
