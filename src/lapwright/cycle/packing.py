"""From an engine's sizes to the flat arrays that the kernels march through."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from lapwright.cycle import layout as at
from lapwright.cycle.balance import WATER
from lapwright.cycle.conditions import LEAST_CLEARANCE, SHOP, Conditions, Setup
from lapwright.cycle.layout import Floats
from lapwright.cycle.mesh import lay_mesh, place_stages
from lapwright.cycle.spaces import fill_spaces
from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import Sizes
from lapwright.errors import CannotRun
from lapwright.medium import air
from lapwright.motion.answers import Movement, set_moving
from lapwright.motion.ways import find_corners, measure_openings, place_piston, place_valve

#: Passages from port to cylinder end, in strokes, where only the gap at dead centre is known.
PASSAGE_STROKES = 0.6
#: Chest and exhaust pipe, in swept volumes, where a bore restricts them.
CHEST_VOLUMES, PIPE_VOLUMES = 1.5, 1.5
#: Heat passed on by a dry and by a wet wall [W/m2K], and lost by bare metal to the shop [W/m2K] (babcock-1919).
DRY_WALL, WET_WALL, BARE_METAL = 150.0, 5000.0, 17.0
#: Outside surface over inside surface of a cylinder with covers and chest.
OUTSIDE_TO_INSIDE = 2.0
#: Lengths of the gaps along the leak: ring in bores, packing in rod diameters; the spindle in rods.
RING_BORES, PACKING_RODS, SPINDLE_RODS = 0.25, 2.5, 0.8
STEAM_VISCOSITY, HOT_WATER_VISCOSITY = 1.4e-5, 1.9e-4
#: Share of a gap that is filled with water where the steam is wet.
WETTED = 0.1
_MOST_TURNS = 60


@dataclass(frozen=True, slots=True)
class Pack:
    """One cylinder as the kernels take it, with the geometry that the answers need.

    `edges` [rad] are the steps' ends, `angles` [rad] the stages' places and `positions` [m] the valve's there; `swept`
    [m3] is per end, and `clearance` a share of it.
    """

    cell: Floats
    turn: Floats
    edges: Floats
    angles: Floats
    moving: Movement
    swept: dict[str, float]
    clearance: dict[str, float]
    positions: Floats


def pack_cylinder(setup: Setup, conditions: Conditions, *, steps: int, tolerance: float) -> Pack:
    """Pack a cylinder for a march.

    Parameters
    ----------
    setup: the cylinder with everything filled in that a run needs
    conditions: what it is run on
    steps: usual steps in a turn; those that the port events add come on top
    tolerance: by what share a turn may differ from the one before when it counts as repeated [-]

    Raises
    ------
    CannotRun: a size is not known, or the gear cannot turn
    """
    sizes = setup.sizes
    moving = set_moving(sizes)
    corners = find_corners(moving)
    if moving.piston is None or moving.valve is None or corners is None or not moving.cylinder.can_turn:
        raise CannotRun(sizes.name, "its sizes do not make a cylinder that turns")
    edges = lay_mesh(*corners, steps=steps)
    angles, widths = place_stages(edges)
    positions = place_valve(moving.valve, angles)
    turn = np.empty((len(angles), at.TURN))
    turn[:, at.STEP] = widths
    swept = {end: (moving.cylinder.area[end] or 0.0) * moving.piston.stroke for end in ENDS}
    clearance = {end: find_clearance(sizes, end, swept[end]) if swept[end] else 0.0 for end in ENDS}
    _fill_volumes(turn, moving, angles, clearance=clearance)
    _fill_openings(turn, setup, moving, positions=positions)
    cell = np.zeros(at.CELL)
    _fill_pipes(cell, setup)
    if not conditions.ideal:
        _fill_gaps(cell, setup, fluid=conditions.fluid)
    _fill_whole(cell, setup, conditions, tolerance=tolerance)
    cell[at.FREE_CRANK] = float(moving.cylinder.double_acting)
    fill_spaces(cell, conditions)
    _fill_contents(cell, turn, swept)
    return Pack(cell, turn, edges, angles, moving, swept, clearance, positions)


def find_clearance(sizes: Sizes, end: str, swept: float) -> float:
    """Return an end's clearance as a share [-] of its swept volume [m3], passages included."""
    share = sizes.numbers.get(f"clearance_{end}_share")
    if share is None:
        stroke = sizes.number("stroke")
        port = sizes.number("port_face.port_length") * _port_width(sizes, end)
        share = sizes.number(f"clearance_{end}") / stroke + port * PASSAGE_STROKES * stroke / swept
    return max(share, LEAST_CLEARANCE)


def _port_width(sizes: Sizes, end: str) -> float:
    if "port_face.edges.0" in sizes.numbers:
        first, second = (0, 1) if end == "head" else (4, 5)
        return sizes.number(f"port_face.edges.{second}") - sizes.number(f"port_face.edges.{first}")
    return sizes.number("port_face.steam_port")


def _fill_volumes(turn: Floats, moving: Movement, angles: Floats, *, clearance: dict[str, float]) -> None:
    assert moving.piston is not None
    gone, speed = place_piston(moving.piston, angles)
    stroke = moving.piston.stroke
    head, crank = moving.cylinder.area["head"] or 0.0, moving.cylinder.area["crank"] or 0.0
    turn[:, at.VOLUME_HEAD] = head * (clearance["head"] * stroke + gone)
    turn[:, at.SWELL_HEAD] = head * speed
    turn[:, at.VOLUME_CRANK] = crank * (clearance["crank"] * stroke + stroke - gone)
    turn[:, at.SWELL_CRANK] = -crank * speed


def _fill_openings(turn: Floats, setup: Setup, moving: Movement, *, positions: Floats) -> None:
    sizes, running = setup.sizes, setup.running
    ways = measure_openings(moving.cylinder, positions)
    assert ways is not None
    coefficient = running.discharge_coefficient or 1.0
    length = coefficient * sizes.number("port_face.port_length")
    passage = None if running.passage_bore is None else coefficient * pi / 4 * running.passage_bore**2
    middle = length * ways.middle
    outside = moving.cylinder.admission == "outside"
    for n, end in enumerate(ENDS):
        if end == "crank" and not moving.cylinder.double_acting:
            turn[:, at.OPEN_STEAM_CRANK] = turn[:, at.OPEN_EXHAUST_CRANK] = 0.0
            continue
        steam, exhaust = length * ways.steam[end], length * ways.exhaust[end]
        # What goes through the cavity has the middle port still before it.
        exhaust = in_series(exhaust, middle) if outside else exhaust
        steam = steam if outside else in_series(steam, middle)
        if passage is not None:
            steam, exhaust = in_series(steam, passage), in_series(exhaust, passage)
        turn[:, at.OPEN_STEAM_HEAD + n], turn[:, at.OPEN_EXHAUST_HEAD + n] = steam, exhaust
    turn[:, at.OPEN_STRAIGHT] = length * ways.straight


def in_series(one: Floats, other: Floats | float) -> Floats:
    """Return the opening [m2] that passes as much as two openings one behind the other.

    Source: definition (equal pressure losses add, each as the square of flow over opening)

    Example:
    >>> float(in_series(np.array([3.0]), 4.0)[0])
    2.4
    """
    with np.errstate(invalid="ignore", divide="ignore"):
        both = one * other / np.sqrt(one * one + other * other)
    return np.asarray(np.where(np.isfinite(both), both, 0.0))


def _fill_pipes(cell: Floats, setup: Setup) -> None:
    coefficient = setup.running.discharge_coefficient or 1.0
    for way, bore in ((at.WAY_SUPPLY, setup.running.supply_bore), (at.WAY_AWAY, setup.running.exhaust_bore)):
        cell[at.OPEN + way] = 0.0 if bore is None else coefficient * pi / 4 * bore**2


@dataclass(frozen=True, slots=True)
class Gap:
    """A leak as a thin gap: width across the flow, height, and length along the flow [m]."""

    width: float
    height: float
    along: float

    @property
    def cube(self) -> float:
        """What of its shape governs slow flow through it: width x height cubed over length [m3]."""
        return self.width * self.height**3 / self.along if self.width and self.height else 0.0


def measure_gaps(setup: Setup) -> dict[str, Gap]:
    """Return every leak of a cylinder by its name, in the order in which the kernels take them."""
    sizes, running = setup.sizes, setup.running
    bore, rod = sizes.number("bore"), sizes.number("piston_rod")
    port = sizes.number("port_face.port_length")
    spindle = SPINDLE_RODS * (rod or bore / 6)
    cavity, outer = valve_reach(sizes)
    land = max((outer - cavity) / 2, 1e-4)
    gland = running.gland_gap or 0.0
    return {
        "rings": Gap(pi * bore, running.ring_gap or 0.0, RING_BORES * bore),
        "valve face": Gap(2 * (port + cavity), running.valve_face_gap or 0.0, land),
        "piston-rod gland": Gap(pi * rod, gland, PACKING_RODS * rod),
        "spindle gland": Gap(pi * spindle, gland, PACKING_RODS * spindle),
    }


def _fill_gaps(cell: Floats, setup: Setup, *, fluid: str) -> None:
    coefficient = setup.running.discharge_coefficient or 1.0
    viscosity = air.VISCOSITY if fluid == "air" else STEAM_VISCOSITY
    for n, gap in enumerate(measure_gaps(setup).values()):
        if not gap.cube:
            continue
        here = at.GAPS + at.GAP * n
        cell[here + at.GAP_GAS] = gap.cube / (24 * viscosity)
        cell[here + at.GAP_AREA] = coefficient * gap.width * gap.height
        if fluid == "steam":
            cell[here + at.GAP_WATER] = WATER * gap.cube / (12 * HOT_WATER_VISCOSITY)
            cell[here + at.GAP_WET] = WETTED
        cell[at.OPEN + at.FIRST_GAP + n] = 1.0


def valve_reach(sizes: Sizes) -> tuple[float, float]:
    """Length of the cavity and length over the outer edges [m]."""
    known = sizes.numbers
    if "valve.edges.0" in known:
        return known["valve.edges.2"] - known["valve.edges.1"], known["valve.edges.3"] - known["valve.edges.0"]
    return known["valve.cavity"], known["valve.length"]


def _fill_whole(cell: Floats, setup: Setup, conditions: Conditions, *, tolerance: float) -> None:
    sizes, running = setup.sizes, setup.running
    cell[at.STEAM] = float(conditions.fluid == "steam")
    cell[at.SPEED] = conditions.speed
    cell[at.FREE_HEAD] = 1.0
    cell[at.FREE_CHEST] = float(running.supply_bore is not None)
    cell[at.FREE_PIPE] = float(running.exhaust_bore is not None)
    cell[at.GAS_EXPONENT], cell[at.GAS_R] = air.EXPONENT, air.GAS_CONSTANT
    cell[at.TOLERANCE], cell[at.MOST_TURNS] = tolerance, _MOST_TURNS
    cell[at.SHOP_TEMPERATURE] = SHOP
    if running.wall_heat != "none" and not conditions.ideal:
        bore, stroke = sizes.number("bore"), sizes.number("stroke")
        flat = pi / 2 * bore**2
        cell[at.HEATED] = 1.0
        cell[at.WALL_HEAD] = cell[at.WALL_CRANK] = flat
        cell[at.WALL_PER_VOLUME] = 4 / bore
        cell[at.DRY_HEAT], cell[at.WET_HEAT] = DRY_WALL, WET_WALL
        cell[at.LOSS] = BARE_METAL * OUTSIDE_TO_INSIDE * (flat + pi * bore * stroke)


def _fill_contents(cell: Floats, turn: Floats, swept: dict[str, float]) -> None:
    """Volumes at the turn's start, and the masses that fill them."""
    volumes = (
        turn[-1, at.VOLUME_HEAD],
        turn[-1, at.VOLUME_CRANK],
        CHEST_VOLUMES * swept["head"],
        PIPE_VOLUMES * swept["head"],
    )
    for space, volume in enumerate(volumes):
        if not cell[at.FREE_HEAD + space]:
            continue
        here = space * at.ROW
        cell[here + at.VOLUME] = volume
        cell[here + at.MASS] = volume * cell[here + at.DENSITY]
        inner = cell[here + at.ENTHALPY] - cell[here + at.P] / cell[here + at.DENSITY]
        cell[here + at.ENERGY] = cell[here + at.MASS] * inner
