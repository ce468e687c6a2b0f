"""What moves of a whole engine, part by part, each drawn about the point by which it is moved."""

from __future__ import annotations

from lapwright.papers.drawing import Line, Point, Shape
from lapwright.papers.engine_plan import CROSSHEAD, PIN, SHAFT, SMALL_PIN, SPINDLE, Plan
from lapwright.papers.metal import Ring, box, circle, cut, solid, taper


def draw_piston(plan: Plan) -> list[Shape]:
    """Draw the piston with its rings, its rod and the crosshead; about the pin in the crosshead (or the piston)."""
    m, half, middle = plan.m, plan.bore / 2 - 0.08, -plan.reach
    left, right = middle - plan.piston / 2, middle + plan.piston / 2
    shapes: list[Shape] = []
    if plan.piston_rod is not None:
        rod = plan.piston_rod / 2
        shapes += solid(box((left - 0.3 * m, -rod), (-0.4 * m, rod)))
        for low, high in ((rod, half), (-half, -rod)):
            shapes += cut(box((left, low), (right, high)), angle=135, spacing=1.3)
        shapes += solid(box((left - 0.7 * m, -rod - 0.35 * m), (left, rod + 0.35 * m)), layer="thin")
        shapes += _draw_crosshead(plan)
    else:
        shapes += _draw_trunk(plan, (left, right), half)
    for share in (0.3, 0.7) if plan.piston_rod is not None else (0.12, 0.24):
        x = left + share * plan.piston
        for side in (1, -1):
            shapes.append(
                Line(box((x - 0.2 * m, side * half), (x + 0.2 * m, side * (half - 0.45 * m))), "fill", closed=True)
            )
    return shapes


def _draw_trunk(plan: Plan, ends: tuple[float, float], half: float) -> list[Shape]:
    """An open piston with its pin inside, for a cylinder that works on one side only."""
    m, (left, right) = plan.m, ends
    ring: Ring = (
        (left, -half), (left, half), (right, half), (right, half - 0.8 * m), (left + 1.2 * m, half - 0.8 * m),
        (left + 1.2 * m, -half + 0.8 * m), (right, -half + 0.8 * m), (right, -half),
    )  # fmt: skip
    return [*cut(ring, angle=135, spacing=1.3), *solid(circle((0.0, 0.0), 10 * m * SMALL_PIN), layer="thin")]


def _draw_crosshead(plan: Plan) -> list[Shape]:
    """A block on the rod's end with a slipper above and below, in which the small end's pin sits."""
    m, size, half = plan.m, 10 * plan.m * CROSSHEAD, plan.bars
    rod, core = (plan.piston_rod or 0.0) / 2, half - 0.5 * m
    neck = box((-size - 0.2 * m, -rod - 0.3 * m), (-size * 0.6, rod + 0.3 * m))
    shapes = [*solid(neck, layer="thin"), *solid(box((-size * 0.68, -core), (size * 0.68, core)))]
    for side in (1, -1):
        low, high = side * core, side * half
        shapes += cut(box((-size * 0.85, min(low, high)), (size * 0.85, max(low, high))), angle=45, spacing=0.9)
    return shapes


def draw_rod(plan: Plan) -> list[Shape]:
    """Draw the connecting rod about its small end's pin, along x to the crank pin."""
    m, length = plan.m, plan.rod
    small, big = 10 * m * (SMALL_PIN + 0.055), 10 * m * (PIN + 0.07)
    shapes = solid(taper((small * 0.6, 0.0), (length - big * 0.6, 0.0), radii=(0.5 * m, 0.75 * m)))
    shapes += solid(circle((0.0, 0.0), small))
    shapes += solid(circle((length, 0.0), big))
    shapes.append(Line(((length, big), (length, -big)), "thin"))
    for side in (1, -1):
        bolt = box((length - 0.75 * m, side * big * 0.86 - 0.25 * m), (length + 0.75 * m, side * big * 0.86 + 0.25 * m))
        shapes += solid(bolt, layer="thin")
    shapes += solid(circle((0.0, 0.0), 10 * m * SMALL_PIN), layer="thin")
    shapes += solid(circle((length, 0.0), 10 * m * PIN), layer="thin")
    return [*shapes, Line(((-small, 0.0), (length + big, 0.0)), "centre")]


def draw_crank(plan: Plan) -> list[Shape]:
    """Draw the crank about the shaft, its pin to the left, with the weight that balances it."""
    m, throw = plan.m, plan.throw
    hub, eye = 10 * m * (SHAFT + 0.09), 10 * m * (PIN + 0.055)
    reach = min(plan.swing * 0.92, throw + eye)
    weight: Ring = tuple(p for p in circle((0.0, 0.0), reach) if p[0] >= reach * 0.30)
    # The circle begins at the right, so its two halves are put back in order round the weight.
    upper, lower = [p for p in weight if p[1] >= 0], [p for p in weight if p[1] < 0]
    ring = (*lower, *upper, (-0.2 * hub, hub * 0.98), (-0.2 * hub, -hub * 0.98))
    shapes = solid(ring)
    shapes += solid(taper((0.0, 0.0), (-throw, 0.0), radii=(hub, eye)))
    shapes += solid(circle((0.0, 0.0), 10 * m * SHAFT))
    shapes += _draw_key(plan)
    return [*shapes, *solid(circle((-throw, 0.0), 10 * m * PIN), layer="thin")]


def _draw_key(plan: Plan) -> list[Shape]:
    m, rim = plan.m, 10 * plan.m * SHAFT
    return [Line(box((rim - 0.35 * m, -0.3 * m), (rim + 0.35 * m, 0.3 * m)), "fill", closed=True)]


def draw_eccentric(plan: Plan) -> list[Shape]:
    """Draw the eccentric's sheave about the shaft, its largest throw to the left, with the screw that holds it."""
    gear = plan.moving.cylinder.gear
    assert gear is not None
    m, throw, radius = plan.m, gear.slider.throw * plan.unit, plan.eccentric
    shaft = 10 * m * SHAFT
    shapes = solid(circle((-throw, 0.0), radius))
    shapes += solid(circle((0.0, 0.0), shaft))
    tip = -throw - radius + 0.15 * m
    screw = box((tip, -0.28 * m), (-shaft, 0.28 * m))
    shapes += [Line(ring, "hidden") for ring in ((screw[0], screw[3]), (screw[1], screw[2]))]
    shapes.append(Line(circle((-throw, 0.0), 0.22 * m, points=12), "fill", closed=True))
    return [*shapes, Line(((-throw - radius, 0.0), (-shaft, 0.0)), "centre")]


def draw_eccentric_rod(plan: Plan) -> list[Shape]:
    """Draw the eccentric's rod with its strap about the pin at the valve's end, along x to the eccentric's centre."""
    gear = plan.moving.cylinder.gear
    assert gear is not None
    m, length = plan.m, gear.slider.rod * plan.unit
    inner, outer = plan.eccentric + 0.06 * m, plan.eccentric + 0.75 * m
    centre: Point = (length, 0.0)
    shapes: list[Shape] = []
    for side in (1, -1):
        y = side * (outer + 0.15 * m)
        lug = box((length - 0.6 * m, min(y, y - side * 0.75 * m)), (length + 0.6 * m, max(y, y - side * 0.75 * m)))
        shapes += solid(lug, layer="thin")
    shapes += solid(taper((0.0, 0.0), (length - outer - 0.05 * m, 0.0), radii=(0.42 * m, 0.55 * m)))
    shapes += [
        Line((*circle(centre, outer), (length + outer, 0.0), (length + inner, 0.0), *reversed(circle(centre, inner))),
             "paper", closed=True),
        Line(circle(centre, outer), closed=True),
        Line(circle(centre, inner), "thin", closed=True),
        Line(((length, inner), (length, outer)), "thin"),
        Line(((length, -inner), (length, -outer)), "thin"),
    ]  # fmt: skip
    shapes += solid(circle((0.0, 0.0), 0.85 * m))
    return [*shapes, *solid(circle((0.0, 0.0), 0.42 * m), layer="thin")]


def draw_rocker(plan: Plan) -> list[Shape]:
    """Draw the rocker about its pivot, upright, with slotted ends."""
    m, arm = plan.m, plan.arm
    shapes: list[Shape] = []
    for side in (1, -1):
        shapes += solid(taper((0.0, 0.0), (0.0, side * arm), radii=(0.75 * m, 0.7 * m)))
    for side in (1, -1):
        slot = taper((0.0, side * (arm - 0.25 * m)), (0.0, side * (arm + 0.25 * m)), radii=(0.45 * m, 0.45 * m))
        shapes.append(Line(slot, "thin", closed=True))
    return [*shapes, *solid(circle((0.0, 0.0), 1.0 * m)), *solid(circle((0.0, 0.0), 0.5 * m), layer="thin")]


def draw_valve(plan: Plan) -> list[Shape]:
    """Draw the valve with its spindle about its own centre on the valve line."""
    chest, m = plan.chest, plan.m
    assert chest is not None
    half, end = SPINDLE * 5 * m, plan.spindle_end
    left, right = measure_valve(plan) or (-chest.radius, chest.radius)
    tail = left - _measure_tail(plan)
    shapes: list[Shape] = list(solid(box((tail, -half), (end - (0.5 * m if plan.has_gear else 0.0), half))))
    if measure_valve(plan) is not None:
        shapes += _draw_spool(plan, left, right) if chest.is_piston else _draw_slide(plan, left, right)
    if plan.has_gear:
        shapes += solid(box((end - 1.5 * m, -0.75 * m), (end - 0.5 * m, 0.75 * m)), layer="thin")
        shapes += solid(circle((end, 0.0), 0.95 * m, points=24))
        shapes += solid(circle((end, 0.0), 0.42 * m, points=24), layer="thin")
    return shapes


def _measure_tail(plan: Plan) -> float:
    """How far the spindle stands out at the head end: room for a nut, but clear of the chest's wall."""
    chest, valve, outer = plan.chest, plan.moving.valve, plan.moving.cylinder.valve["head"].outer
    assert chest is not None
    reach = (outer or 0.0) + (0.0 if valve is None else max(valve.high, 0.0))
    return min(1.1 * plan.m, max(chest.centre - chest.walls[0] - reach * plan.unit - 0.1 * plan.m, 0.6 * plan.m))


def measure_valve(plan: Plan) -> tuple[float, float] | None:
    """Return how far the valve reaches to the left and to the right of its centre; None where it is not known."""
    head, crank = (plan.moving.cylinder.valve[end].outer for end in ("head", "crank"))
    return None if head is None or crank is None else (-head * plan.unit, crank * plan.unit)


def measure_cavity(plan: Plan) -> tuple[float, float] | None:
    """Return how far the valve's cavity reaches to both sides of its centre; None where it is not known."""
    head, crank = (plan.moving.cylinder.valve[end].cavity for end in ("head", "crank"))
    return None if head is None or crank is None else (-head * plan.unit, crank * plan.unit)


def outline_cavity(plan: Plan) -> Ring | None:
    """Return the space under a slide valve, or between the lands of a piston valve, about the valve's centre."""
    cavity, chest = measure_cavity(plan), plan.chest
    if cavity is None or chest is None or measure_valve(plan) is None:
        return None
    (x0, x1), radius = cavity, chest.radius
    if chest.is_piston:
        return box((x0, -radius), (x1, radius))
    roof, bevel = -0.62 * plan.m, min(0.35 * plan.m, (x1 - x0) / 4)
    return (
        (x0, -radius),
        (x0, roof - bevel),
        (x0 + bevel, roof),
        (x1 - bevel, roof),
        (x1, roof - bevel),
        (x1, -radius),
    )


def _draw_slide(plan: Plan, left: float, right: float) -> list[Shape]:
    """A slide valve with its spindle's nuts on both sides; where the cavity is not known it is only hinted at."""
    chest, m = plan.chest, plan.m
    assert chest is not None
    radius, cavity = chest.radius, outline_cavity(plan)
    if cavity is None:
        ring = box((left, -radius), (right, radius))
        x0, x1 = chest.ports["head"][1] - chest.centre, chest.ports["crank"][0] - chest.centre
        hint: Ring = ((x0, -radius), (x0, -0.62 * m), (x1, -0.62 * m), (x1, -radius))
        shapes = [*cut(ring, angle=135, spacing=1.1), Line(hint, "hidden")]
    else:
        ring = ((left, -radius), (left, radius), (right, radius), (right, -radius), *reversed(cavity))
        shapes = cut(ring, angle=135, spacing=1.1)
    half = SPINDLE * 5 * m
    shapes += solid(box((left, -half), (right, half)), layer="hidden")
    for x in (left - 0.6 * m, right):
        shapes += solid(box((x, -1.0 * m), (x + 0.6 * m, 1.0 * m)), layer="thin")
    return [*shapes, Line(((0.0, radius + 0.5 * m), (0.0, -0.5 * m)), "centre")]


def _draw_spool(plan: Plan, left: float, right: float) -> list[Shape]:
    """A piston valve: two lands with rings, and a thin waist between."""
    chest, m = plan.chest, plan.m
    assert chest is not None
    radius, half = chest.radius - 0.04, SPINDLE * 5 * m
    cavity = measure_cavity(plan)
    x0, x1 = cavity if cavity is not None else (left * 0.6, right * 0.6)
    waist = max(half + 0.25 * m, 0.42 * radius)
    shapes: list[Shape] = []
    for side in (1, -1):
        ring = ((left, side * half), (left, side * radius), (x0, side * radius), (x0, side * waist),
                (x1, side * waist), (x1, side * radius), (right, side * radius), (right, side * half))  # fmt: skip
        shapes += cut(ring, angle=135 if side > 0 else 45, spacing=1.1)
        for low, high in ((left, x0), (x1, right)):
            x = (low + high) / 2
            groove = box((x - 0.12 * m, side * radius), (x + 0.12 * m, side * (radius - 0.4 * m)))
            shapes.append(Line(groove, "fill", closed=True))
    for x in (left - 0.6 * m, right):
        shapes += solid(box((x, -0.95 * m), (x + 0.6 * m, 0.95 * m)), layer="thin")
    return shapes
