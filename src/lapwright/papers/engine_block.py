"""What stands still of a whole engine in section: cylinder, covers, glands, chest, slide bars, bed and bearing."""

from __future__ import annotations

from lapwright.engine.cylinder import ENDS
from lapwright.papers.drawing import Line, Shape
from lapwright.papers.engine_plan import (
    BOX,
    COVER,
    CROSSHEAD,
    FLANGE,
    NUT,
    PIN,
    SHAFT,
    SPINDLE,
    TUNNEL,
    WALL,
    Plan,
)
from lapwright.papers.metal import Ring, box, circle, cross, cut, solid, stud

#: How much of a chest's wall, cover and flange is metal, in tenths of the bore.
_THICK = 1.0
#: How large each gland is drawn.
_GLANDS = {"piston rod": 1.0, "valve spindle": 0.75}


def draw_block(plan: Plan) -> list[Shape]:
    """Draw everything that does not move, without the spaces for steam, which are drawn over it."""
    return [*_draw_bed(plan), *_draw_cylinder(plan), *_draw_chest(plan), *_draw_bars(plan), *_draw_shafts(plan)]


def draw_axes(plan: Plan) -> list[Shape]:
    """Draw the centre lines: of the cylinder, of the valve, and through both views of the shaft."""
    m, right = plan.m, plan.swing + 0.8 * plan.m
    left = plan.inside[0] - 10 * m * COVER - 1.2 * m
    shapes: list[Shape] = [Line(((left, plan.line), (right, plan.line)), "centre")]
    bottom = -plan.swing - 0.4 * m
    if plan.chest is None:
        return [*shapes, Line(((0.0, bottom), (0.0, plan.swing + 0.8 * m)), "centre")]
    chest = plan.chest
    start = chest.walls[0] - 2.2 * m
    if not plan.has_gear:
        end = chest.walls[1] + 10 * m * (WALL + BOX + NUT) + 1.5 * m
        shapes.append(Line(((start, chest.line), (end, chest.line)), "centre"))
        return [*shapes, Line(((0.0, bottom), (0.0, plan.swing + 0.8 * m)), "centre")]
    pin = chest.centre + plan.spindle_end
    if plan.arm:
        shapes.append(Line(((start, chest.line), (pin + 3 * m, chest.line)), "centre"))
        start = pin - 3 * m
    reach = _strap(plan) + 0.8 * m
    shapes.append(Line(((start, plan.rod_line), (reach, plan.rod_line)), "centre"))
    if abs(plan.rod_line - plan.shaft) > 0.1 * m:
        shapes.append(Line(((-reach, plan.shaft), (reach, plan.shaft)), "centre"))
    if abs(plan.line) > 0.1 * m:
        shapes.append(Line(((-plan.swing, 0.0), (right, 0.0)), "centre"))
    return [*shapes, Line(((0.0, bottom), (0.0, plan.shaft + reach)), "centre")]


def _strap(plan: Plan) -> float:
    gear = plan.moving.cylinder.gear
    throw = 0.0 if gear is None else gear.slider.throw * plan.unit
    return plan.eccentric + throw + 1.1 * plan.m


def _draw_cylinder(plan: Plan) -> list[Shape]:
    m, (left, right) = plan.m, plan.inside
    inner, outer = plan.bore / 2, plan.bore / 2 + 10 * m * WALL
    lip = outer + 10 * m * FLANGE
    width = 1.1 * m
    low, y = plan.line - inner, plan.line
    skirt: Ring = (
        (left, low), (left, y - lip), (left + width, y - lip), (left + width, y - outer),
        (right - width, y - outer), (right - width, y - lip), (right, y - lip), (right, low),
    )  # fmt: skip
    shapes = cut(skirt, angle=45)
    shapes += cut(_outline_top(plan, outer=outer, lip=lip, width=width), angle=45)
    shapes += _draw_cover(plan, left, towards=-1, lip=lip)
    if plan.is_double:
        shapes += _draw_cover(plan, right, towards=1, lip=lip)
        shapes += _draw_gland(plan, (right + 10 * m * COVER, plan.line), (plan.piston_rod or m) / 2, on="piston rod")
    return shapes


def _outline_top(plan: Plan, *, outer: float, lip: float, width: float) -> Ring:
    """The cylinder's upper wall; with a chest above, one casting with the port face."""
    (left, right), y, inner = plan.inside, plan.line, plan.bore / 2
    if plan.chest is None:
        return (
            (left, y + inner), (left, y + lip), (left + width, y + lip), (left + width, y + outer),
            (right - width, y + outer), (right - width, y + lip), (right, y + lip), (right, y + inner),
        )  # fmt: skip
    chest, wall = plan.chest, 10 * plan.m * WALL
    x0, x1 = chest.walls[0] - wall, chest.walls[1] + wall
    top, shelf = chest.face, min(y + lip, chest.face)
    # Where the chest reaches beyond the cylinder its floor does so too; where it is shorter, the block steps up to it.
    step = min(shelf, chest.face - 0.8 * plan.m)
    left_side: Ring = ((left, step), (x0, step), (x0, top))
    right_side: Ring = ((x1, top), (x1, step), (right, step))
    return ((left, y + inner), *left_side, *right_side, (right, y + inner))


def _draw_cover(plan: Plan, x: float, *, towards: int, lip: float) -> list[Shape]:
    """A cover with its spigot's edge, held by studs; the crank end's has the piston rod going through."""
    m, y, hole = plan.m, plan.line, (plan.piston_rod or 0.0) / 2 if towards > 0 else 0.0
    far = x + towards * 10 * m * COVER
    edges = (min(x, far), max(x, far))
    shapes: list[Shape] = []
    tops = [y + lip] if plan.chest is None else [min(y + lip, plan.chest.face - 0.8 * m)]
    for low, high in ((y + hole, tops[0]), (y - lip, y - hole)) if hole else ((y - lip, tops[0]),):
        shapes += cut(box((edges[0], low), (edges[1], high)), angle=135)
    for side in (1, -1):
        at = y + side * (plan.bore / 2 + 10 * m * (WALL + FLANGE / 2))
        if at < tops[0] - 0.5 * m:
            shapes += stud((far, at), towards=towards, length=0.75 * m, width=1.1 * m)
    return shapes


def _draw_gland(plan: Plan, at: tuple[float, float], rod: float, *, on: str) -> list[Shape]:
    """A stuffing box with its packing, if there is any, and gland nut round a rod that leaves to the right."""
    m, (x, y) = plan.m * _GLANDS[on], at
    end, nut = x + 10 * m * BOX, x + 10 * m * (BOX + NUT)
    room, out = rod + 0.8 * m, rod + 1.7 * m
    shapes: list[Shape] = []
    for side in (1, -1):
        sleeve = _mirror(box((x, rod), (end, out)), side)
        bush = _mirror(
            ((x + 1.25 * m, rod), (x + 1.25 * m, room), (end, room), (end, out + 0.25 * m), (nut, out + 0.25 * m),
             (nut, rod)),
            side,
        )  # fmt: skip
        packing = _mirror(box((x, rod), (x + 1.25 * m, room)), side)
        for ring, angle, spacing in ((sleeve, 135.0, 1.5), (bush, 45.0, 1.2)):
            shapes += cut(_lift(ring, y), angle=angle, spacing=spacing)
        yarn = [] if on in plan.empty else _cross_hatch(_lift(packing, y))
        shapes += [Line(_lift(packing, y), "paper", closed=True), *yarn, Line(_lift(packing, y), "thin", closed=True)]
    return shapes


def _cross_hatch(ring: Ring) -> list[Shape]:
    """Packing: crossed lines, as yarn is drawn."""
    (x0, y0), _, (x1, y1), _ = ring
    low, high = min(y0, y1), max(y0, y1)
    steps = 3
    width = (x1 - x0) / steps
    shapes: list[Shape] = []
    for number in range(steps):
        a, b = x0 + number * width, x0 + (number + 1) * width
        shapes += [Line(((a, low), (b, high)), "hatch"), Line(((a, high), (b, low)), "hatch")]
    return shapes


def _mirror(ring: Ring, side: int) -> Ring:
    return tuple((x, side * y) for x, y in ring)


def _lift(ring: Ring, height: float) -> Ring:
    return tuple((x, y + height) for x, y in ring)


def _draw_chest(plan: Plan) -> list[Shape]:
    """The chest's walls and cover, and the spindle's gland."""
    chest = plan.chest
    if chest is None:
        return []
    m, wall = plan.m, 10 * plan.m * WALL
    left, right = chest.walls
    hole = SPINDLE * 5 * m
    shapes = cut(box((left - wall, chest.face), (left, chest.roof)), angle=45)
    for low, high in ((chest.face, chest.line - hole), (chest.line + hole, chest.roof)):
        shapes += cut(box((right, low), (right + wall, high)), angle=45)
    if chest.is_piston:
        shapes += _draw_upper_bore(plan)
    else:
        lid = chest.roof + 0.9 * m
        shapes += cut(box((left - wall - 0.4 * m, chest.roof), (right + wall + 0.4 * m, lid)), angle=135)
        shapes += _draw_inlet(plan, lid)
        for x in (left - wall / 2, right + wall / 2):
            shapes += solid(box((x - 0.5 * m, lid), (x + 0.5 * m, lid + 0.6 * m)), layer="thin")
    return [*shapes, *_draw_gland(plan, (right + wall, chest.line), hole, on="valve spindle")]


def _draw_inlet(plan: Plan, base: float) -> list[Shape]:
    """The pipe's stub through which the outer space is fed (or, with steam inside, emptied)."""
    m, chest = plan.m, plan.chest
    assert chest is not None
    x = chest.walls[0] + 0.28 * (chest.walls[1] - chest.walls[0])
    top = base + 1.5 * m
    shapes = cut(box((x - 1.3 * m, base), (x - 0.8 * m, top)), angle=135) + cut(
        box((x + 0.8 * m, base), (x + 1.3 * m, top)), angle=135
    )
    return [Line(box((x - 0.8 * m, chest.roof), (x + 0.8 * m, top)), "paper", closed=True), *shapes]


def _draw_upper_bore(plan: Plan) -> list[Shape]:
    """The upper half of a piston valve's bore, with the belts that go round it."""
    chest, m = plan.chest, plan.m
    assert chest is not None
    wall, depth = 10 * m * WALL, 10 * m * TUNNEL
    low, high = chest.line + chest.radius, chest.line + chest.radius + depth + 1.0 * m
    ring = box((chest.walls[0] - wall, low), (chest.walls[1] + wall, high))
    shapes = cut(ring, angle=45)
    x0, x1 = chest.middle
    middle = (x0 + x1) / 2
    half = min(0.8 * m, (x1 - x0) / 2)
    top = high + 1.2 * m
    shapes += cut(box((middle - half - 0.5 * m, high), (middle - half, top)), angle=135)
    shapes += cut(box((middle + half, high), (middle + half + 0.5 * m, top)), angle=135)
    return shapes


def _draw_bars(plan: Plan) -> list[Shape]:
    """The slide bars between which the crosshead runs, held by a pillar at each end."""
    if not plan.is_double:
        return []
    m, half = plan.m, plan.bars
    left = -plan.high - 10 * m * CROSSHEAD - 0.4 * m
    right = -plan.low + 10 * m * CROSSHEAD + 0.4 * m
    shapes: list[Shape] = []
    for x in (left, right - 1.0 * m):
        shapes += solid(box((x, plan.bed), (x + 1.0 * m, plan.line - half)), layer="thin")
        shapes += solid(box((x, plan.line + half), (x + 1.0 * m, plan.line + half + 1.0 * m)), layer="thin")
    for side in (1, -1):
        near, far = plan.line + side * half, plan.line + side * (half + 0.6 * m)
        shapes += solid(box((left, min(near, far)), (right, max(near, far))), layer="thin")
    return shapes


def _draw_bed(plan: Plan) -> list[Shape]:
    """The bed plate, the cylinder's foot and the bearing's pedestal."""
    m, bed = plan.m, plan.bed
    left, right = plan.inside[0] - 10 * m * COVER - 0.6 * m, plan.swing + 1.0 * m
    x0, x1 = plan.inside[0] + 1.8 * m, plan.inside[1] - 1.8 * m
    foot = plan.line - plan.bore / 2 - 10 * m * WALL
    pedestal: Ring = (
        (-3.0 * m, bed), (-2.1 * m, -0.3 * m), (-2.1 * m, 1.5 * m), (2.1 * m, 1.5 * m), (2.1 * m, -0.3 * m),
        (3.0 * m, bed),
    )  # fmt: skip
    return [
        *cut(box((left, bed - 1.1 * m), (right, bed)), angle=45, spacing=2.2),
        *(solid(box((x0, bed), (x1, foot)), layer="thin") if x1 > x0 else []),
        *solid(pedestal, layer="thin"),
        Line(((-2.1 * m, 0.0), (2.1 * m, 0.0)), "thin"),
    ]


def _draw_shafts(plan: Plan) -> list[Shape]:
    """Both views of the shaft stand behind what turns on it; the bearing's brasses round the lower one."""
    m = plan.m
    brass = circle((0.0, 0.0), 10 * m * SHAFT + 0.5 * m)
    return solid(brass, layer="thin")


def list_spaces(plan: Plan) -> dict[str, Ring]:
    """Return the spaces that stand still and hold steam or exhaust, by name, each as a ring.

    `head` and `crank` are the passages of the two ends, `bore` the whole inside of the cylinder, `outer` what is round
    the valve, `middle` what the middle port leads to.
    """
    spaces = {"bore": _find_bore(plan)}
    chest, m = plan.chest, plan.m
    if chest is None:
        return spaces
    base = plan.line + plan.bore / 2
    spaces["outer"] = box((chest.walls[0], chest.face), (chest.walls[1], chest.roof))
    floor = base + 0.9 * m
    # Never so wide that it would run into the passages beside it.
    half = 0.25 * (chest.ports["crank"][0] - chest.middle[1]), 0.25 * (chest.middle[0] - chest.ports["head"][1])
    x0, x1 = chest.middle[0] - max(half[1], 0.0), chest.middle[1] + max(half[0], 0.0)
    neck = chest.face - 0.8 * m
    low = min(floor, neck)
    spaces["middle"] = (
        (chest.middle[0], chest.face), (chest.middle[0], neck), (x0, neck), (x0, low), (x1, low), (x1, neck),
        (chest.middle[1], neck), (chest.middle[1], chest.face),
    )  # fmt: skip
    for end in ENDS if plan.is_double else ("head",):
        spaces[end] = _outline_passage(plan, end, base=base)
    if chest.is_piston:
        _add_belts(plan, spaces)
    else:
        inlet = chest.walls[0] + 0.28 * (chest.walls[1] - chest.walls[0])
        spaces["outer inlet"] = box((inlet - 0.8 * m, chest.roof), (inlet + 0.8 * m, chest.roof + 2.4 * m))
    return spaces


def _add_belts(plan: Plan, spaces: dict[str, Ring]) -> None:
    """The ports of a piston valve go round its bore: their upper halves."""
    chest, m = plan.chest, plan.m
    assert chest is not None
    low, depth = chest.line + chest.radius, 10 * m * TUNNEL
    for end in ENDS if plan.is_double else ("head",):
        x0, x1 = chest.ports[end]
        spaces[f"{end} belt"] = box((x0, low), (x1, low + depth))
    x0, x1 = chest.middle
    half = min(0.8 * m, (x1 - x0) / 2)
    centre, top = (x0 + x1) / 2, low + depth + 2.2 * m
    spaces["middle belt"] = (
        (x0, low), (x0, low + depth), (centre - half, low + depth), (centre - half, top), (centre + half, top),
        (centre + half, low + depth), (x1, low + depth), (x1, low),
    )  # fmt: skip


def _find_bore(plan: Plan) -> Ring:
    half = plan.bore / 2
    return box((plan.inside[0], plan.line - half), (plan.inside[1], plan.line + half))


def _outline_passage(plan: Plan, end: str, *, base: float) -> Ring:
    """The way from an end's port down, along the cylinder and into its bore; whichever of the two lies farther out."""
    chest, m = plan.chest, plan.m
    assert chest is not None
    (a0, a1), top = chest.ports[end], chest.face
    width = max(0.6 * m, min(a1 - a0, 1.2 * m))
    m0, m1 = (plan.inside[0], plan.inside[0] + width) if end == "head" else (plan.inside[1] - width, plan.inside[1])
    # A port mouth opens past the cover's face into the bore; the tunnel keeps a wall of metal above the bore.
    low = base + 0.9 * m
    high = min(low + 10 * m * TUNNEL, top - 0.5 * m)
    if a0 >= m0:
        return ((a0, top), (a0, high), (m0, high), (m0, base), (m1, base), (m1, low), (a1, low), (a1, top))
    return ((a1, top), (a1, high), (m1, high), (m1, base), (m0, base), (m0, low), (a0, low), (a0, top))


def draw_pins(plan: Plan) -> list[Shape]:
    """Small crosses on both centres of the shaft, over all that turns."""
    shapes = cross((0.0, 0.0), 10 * plan.m * PIN)
    return shapes + (cross((0.0, plan.shaft), 10 * plan.m * PIN) if plan.has_gear else [])
