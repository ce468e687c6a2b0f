"""Where everything of a whole engine stands in its section: the record's sizes to scale, the rest in usual proportions.

The head end lies to the left and the shaft at x = 0. The valve gear works beside the cylinder and its line runs through
the same shaft; so that both can be seen it is drawn above, with the shaft shown twice.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt

from lapwright.engine.assume import assume_missing
from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import Movement, set_moving

#: Usual proportions in bores; none has a source, and none bears on any answer (common practice, no source).
WALL, COVER, FLANGE = 0.10, 0.12, 0.16
PISTON, TRUNK = 0.26, 0.75
SHAFT, PIN, SMALL_PIN = 0.13, 0.085, 0.065
BOX, NUT = 0.24, 0.12
CROSSHEAD = 0.22
#: How far the slide bars stand from the cylinder line at least, and half the rod's height between them.
BARS, ROD = 0.15, 0.065
TUNNEL, ROOF = 0.09, 0.12
VALVE_HEIGHT = 0.30
SPINDLE = 0.10
#: Clearance at a dead centre where no gap is given, in strokes.
GAP = 0.03


@dataclass(frozen=True, slots=True)
class Taken:
    """A size that the picture wants and nobody gave: its record key, or a part's name, and what was taken for it."""

    key: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chest:
    """The steam chest over its port face; x runs to the right, so the crank end has the larger x.

    `ports` are the left and right edges of each end's steam port and `middle` those of the middle port, `face` is the
    height of the face (for a piston valve the lower side of its bore), `line` that of the valve line, `radius` half the
    height of the valve; `walls` are the inner sides of the chest and `roof` its inside above.
    """

    centre: float
    ports: dict[str, tuple[float, float]]
    middle: tuple[float, float]
    face: float
    line: float
    radius: float
    walls: tuple[float, float]
    roof: float
    is_piston: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """One engine's section in mm of paper, `unit` of them to a metre of engine; the crank's shaft is at (0, 0).

    `up` is +1 where the crank pin stands above the shaft at 90 deg of crank angle, -1 where below. `m` is a tenth of
    the bore, by which walls and pins are drawn. `reach` is from crosshead pin (or gudgeon pin) to the piston's middle,
    `inside` the inner faces of the covers, `line` the height of the cylinder line, `swing` the crank's outermost reach.
    `empty` names the glands that are drawn without packing.
    """

    unit: float
    up: int
    m: float
    bore: float
    throw: float
    rod: float
    low: float
    high: float
    line: float
    piston: float
    piston_rod: float | None
    reach: float
    inside: tuple[float, float]
    swing: float
    bed: float
    moving: Movement
    chest: Chest | None
    shaft: float
    rod_line: float
    spindle_end: float
    empty: frozenset[str] = frozenset()

    @property
    def bars(self) -> float:
        """How far the slide bars stand from the cylinder line: the connecting rod swings clear of their ends."""
        m, aside = self.m, min(self.throw + abs(self.line), 0.9 * self.rod)
        slope = aside / sqrt(self.rod**2 - aside**2)
        return max(10 * m * BARS, min((10 * m * CROSSHEAD + 0.4 * m) * slope + 10 * m * ROD, 4.5 * m))

    @property
    def is_double(self) -> bool:
        """Whether the crank end is closed, with a piston rod through its gland."""
        return self.piston_rod is not None

    @property
    def has_gear(self) -> bool:
        """Whether there is an eccentric to draw."""
        return self.moving.valve is not None and self.chest is not None

    @property
    def eccentric(self) -> float:
        """Radius of the eccentric's sheave: it must clear the shaft on its thin side."""
        gear = self.moving.cylinder.gear
        return (0.0 if gear is None else gear.slider.throw * self.unit) + (SHAFT + 0.055) * 10 * self.m

    @property
    def arm(self) -> float:
        """Length of a rocker's arm; nothing where there is no rocker."""
        gear, valve = self.moving.cylinder.gear, self.moving.valve
        if gear is None or valve is None or gear.sign > 0:
            return 0.0
        return max(1.3 * valve.travel * self.unit, 4.5 * self.m)


def fill_for_picture(sizes: Sizes) -> tuple[Sizes, tuple[Taken, ...]]:
    """Return the cylinder with what a picture cannot do without, as far as it can fairly be taken, and what was taken.

    Parameters
    ----------
    sizes: as the record tells, or with what was assumed for the timing already filled in
    """
    taken: list[Taken] = []
    known = sizes.numbers
    for key, other in (("bore", "stroke"), ("stroke", "bore")):
        if key not in known and other in known:
            sizes = replace(sizes, numbers={**sizes.numbers, key: known[other]})
            taken.append(Taken(key, f"not given: drawn as large as the {other}"))
    before = dict(sizes.numbers)
    sizes = assume_missing(sizes)
    added = [key for key in sizes.numbers if key not in before]
    taken += [Taken(key, sizes.assumed[key]) for key in added if key in sizes.assumed]
    return sizes, tuple(taken)


def list_wanted(sizes: Sizes) -> tuple[str, ...]:
    """Return the record keys without which a part of the picture has to be left out, in the order of their weight."""
    moving = set_moving(sizes)
    known = sizes.numbers
    wanted = [key for key in ("bore", "stroke", "connecting_rod") if key not in known]
    if moving.cylinder.face is None:
        wanted.append("port_face.steam_port")
    if moving.cylinder.valve["head"].outer is None:
        wanted.append("valve.length")
    if moving.cylinder.valve["head"].cavity is None:
        wanted.append("valve.cavity")
    gear = ("valve_drive.throw", "valve_drive.eccentric_rod", "valve_drive.eccentric_angle")
    return (*wanted, *(key for key in gear if key not in known))


def lay_plan(sizes: Sizes, *, unit: float, clockwise: bool) -> Plan | None:
    """Return where everything stands; None where bore, stroke or rod are not known, or the engine cannot be turned.

    Parameters
    ----------
    sizes: of one cylinder, from `fill_for_picture`
    unit: mm of paper to a metre of engine [mm/m]
    clockwise: which way it turns as it is drawn
    """
    moving, bore = set_moving(sizes), sizes.numbers.get("bore")
    if bore is None or bore <= 0 or moving.piston is None or not moving.cylinder.can_turn or moving.piston.stroke <= 0:
        return None
    m, up = bore * unit / 10, 1 if clockwise else -1
    crank, low, high = moving.piston.slider, moving.piston.low * unit, moving.piston.high * unit
    rod_known = sizes.numbers.get("piston_rod")
    piston = (PISTON if rod_known is not None else TRUNK) * 10 * m
    swing = crank.throw * unit + 10 * m * (PIN + 0.13)
    plan = Plan(
        unit=unit,
        up=up,
        m=m,
        bore=bore * unit,
        throw=crank.throw * unit,
        rod=crank.rod * unit,
        low=low,
        high=high,
        line=up * crank.offset * unit,
        piston=piston,
        piston_rod=None if rod_known is None else min(rod_known * unit, 6 * m),
        reach=0.0,
        inside=(0.0, 0.0),
        swing=swing,
        bed=0.0,
        moving=moving,
        chest=None,
        shaft=0.0,
        rod_line=0.0,
        spindle_end=0.0,
    )
    bottom = plan.line - plan.bore / 2 - (WALL + FLANGE) * 10 * m - 0.5 * m
    plan = replace(plan, bed=min(bottom, -swing - 0.6 * m))
    return _place_gear(_place_cylinder(plan, sizes), sizes)


def _place_cylinder(plan: Plan, sizes: Sizes) -> Plan:
    """As near to the shaft as gland and crosshead allow, or as far from it as the valve's spindle wants."""
    gaps = [_find_gap(plan, sizes, end) for end in ENDS]
    stroke, m = plan.high - plan.low, plan.m
    if plan.is_double:
        reach = stroke + plan.piston / 2 + gaps[1] + 10 * m * (COVER + BOX + NUT + CROSSHEAD) + 0.8 * m
    else:
        reach = plan.piston * 0.1
    plan = _place_inside(plan, reach, gaps)
    short = _measure_shortage(plan)
    return _place_inside(plan, reach + short, gaps) if short > 0 and plan.is_double else plan


def _place_inside(plan: Plan, reach: float, gaps: list[float]) -> Plan:
    left = -(plan.high + reach + plan.piston / 2 + gaps[0])
    right = -(plan.low + reach - plan.piston / 2 - gaps[1])
    return replace(plan, reach=reach, inside=(left, right))


def _find_gap(plan: Plan, sizes: Sizes, end: str) -> float:
    gap = sizes.numbers.get(f"clearance_{end}")
    return GAP * (plan.high - plan.low) if gap is None else max(gap, 0.0) * plan.unit


def _measure_shortage(plan: Plan) -> float:
    """How much farther from the shaft the cylinder's middle has to be for the spindle to reach the eccentric's rod."""
    gear, valve = plan.moving.cylinder.gear, plan.moving.valve
    walls = find_walls(plan)
    if gear is None or valve is None or walls is None:
        return 0.0
    far = (valve.middle + valve.travel / 2) * plan.unit
    needed = far + walls[1] + 10 * plan.m * (WALL + BOX + NUT) + 3.2 * plan.m
    return needed + sum(plan.inside) / 2


def find_walls(plan: Plan) -> tuple[float, float] | None:
    """Return how far the chest's inner walls stand from the face's centre, head end and crank end; None without a face.

    Parameters
    ----------
    plan: where the rest stands
    """
    cylinder, valve = plan.moving.cylinder, plan.moving.valve
    if cylinder.face is None:
        return None
    travel = 0.0 if valve is None else max(abs(valve.low), abs(valve.high))
    walls = []
    for end in ENDS:
        outer = cylinder.valve[end].outer
        reaches = [cylinder.face[end].outer * plan.unit + 1.2 * plan.m]
        if outer is not None:
            reaches.append((outer + travel) * plan.unit + 1.5 * plan.m)
        given = cylinder.chest[end]
        walls.append(max(reaches) if given is None else max(given * plan.unit, 0.5 * plan.m))
    return walls[0], walls[1]


def _place_gear(plan: Plan, sizes: Sizes) -> Plan:
    walls, face = find_walls(plan), plan.moving.cylinder.face
    if walls is None or face is None:
        return plan
    m, is_piston = plan.m, plan.moving.cylinder.kind == "piston"
    radius = _find_radius(plan, sizes) if is_piston else VALVE_HEIGHT * 5 * m
    offset = plan.up * sizes.number("valve_drive.valve_line_offset") * plan.unit
    floor = plan.line + plan.bore / 2 + 10 * m * (WALL + TUNNEL + ROOF)
    # The eccentric's strap has to clear the crank below it; a rocker's upper end stands at the eccentric rod's line.
    strap = plan.eccentric + (0.0 if plan.moving.cylinder.gear is None else plan.eccentric * 0.35) + 1.2 * m
    line = max(floor + radius, plan.swing + strap + offset - 2 * plan.arm)
    centre = sum(plan.inside) / 2
    if not plan.is_double:
        centre = min(centre, -_reach_of_rod(plan) - walls[1] - 10 * m * (WALL + BOX + NUT) - 3.2 * m)
    ports = {
        "head": (centre - face["head"].outer * plan.unit, centre - face["head"].inner * plan.unit),
        "crank": (centre + face["crank"].inner * plan.unit, centre + face["crank"].outer * plan.unit),
    }
    chest = Chest(
        centre=centre,
        ports=ports,
        middle=(centre - face["head"].middle * plan.unit, centre + face["crank"].middle * plan.unit),
        face=line - radius,
        line=line,
        radius=radius,
        walls=(centre - walls[0], centre + walls[1]),
        roof=line + radius + (0.0 if is_piston else 1.0 * m),
        is_piston=is_piston,
    )
    rod_line = line + 2 * plan.arm
    return replace(plan, chest=chest, rod_line=rod_line, shaft=rod_line - offset, spindle_end=end_spindle(plan, chest))


def _reach_of_rod(plan: Plan) -> float:
    """How far from the shaft the eccentric rod's end comes at most."""
    valve = plan.moving.valve
    return 0.0 if valve is None else (valve.middle + valve.travel / 2) * plan.unit


def _find_radius(plan: Plan, sizes: Sizes) -> float:
    """Half a piston valve's diameter: its ports go round it."""
    length = sizes.numbers.get("port_face.port_length")
    wanted = 0.22 * plan.bore if length is None else length * plan.unit / (2 * 3.14159)
    return min(max(wanted, 0.14 * plan.bore), 0.40 * plan.bore)


def end_spindle(plan: Plan, chest: Chest) -> float:
    """Return how far the pin of the eccentric rod (or of the rocker) stands from the valve's centre, to the right."""
    valve, gear = plan.moving.valve, plan.moving.cylinder.gear
    if valve is None or gear is None:
        return chest.walls[1] - chest.centre + 10 * plan.m * (WALL + BOX + NUT)
    return -valve.middle * plan.unit + gear.valve_offset * plan.unit - chest.centre
