"""The authority that the cycle is held against: its equations written afresh, and a solver that chooses its steps.

Nothing here comes from the kernels of `lapwright.cycle`: piston, valve and ports are pins and edges in a plane, the
laws are those of `cycle_laws`. The solver (LSODA) starts afresh at every edge that passes another and is held to a
tight tolerance; work and mass used are unknowns like the rest, so it watches over them too. What is taken alike on
both sides are the modelling figures: how long a gap is, how large a chest.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, pi, sin, sqrt

import numpy as np
import seuif97
from scipy.integrate import odeint
from scipy.optimize import brentq

from lapwright.cycle import packing
from lapwright.cycle.conditions import ATMOSPHERE, SHOP, Conditions, Setup
from lapwright.medium.compiling import compiled
from tests.property.coordinates import Layout
from tests.property.cycle_laws import (
    AIR_K,
    AIR_R,
    GAP_FROM,
    GAP_TO,
    RHO,
    VISCOSITY,
    WATER_H,
    Floats,
    H,
    P,
    T,
    X,
    find_steam,
    give_heat,
    through_gap,
    through_opening,
)

HEAD, CRANK, CHEST, PIPE, BOILER, OPEN_AIR, ROOM = range(7)
#: What a case holds throughout: is it steam, viscosity, opening area to a width, passage's area (0: as the port), is
#: steam let in inside, speed, areas of the supply and the exhaust pipe, exhaust pressure; then the wall, its flat area
#: and what it has to a volume.
(
    STEAM, VISCOUS, PER_WIDTH, PASSAGE, INSIDE, SPEED, SUPPLY_AREA, EXHAUST_AREA, BACK, WALL, FLAT, PER_VOLUME,
) = range(12)  # fmt: skip
WHOLE = 12


# --- where everything stands ---


@compiled
def _rod_end(link: Floats, angle: float) -> float:
    throw, rod, line = link[0], link[1], link[2]
    return throw * cos(angle) + sqrt(rod**2 - (line - throw * sin(angle)) ** 2)


@compiled
def _rod_end_speed(link: Floats, angle: float) -> float:
    throw, rod, line = link[0], link[1], link[2]
    across = line - throw * sin(angle)
    return -throw * sin(angle) + across * throw * cos(angle) / sqrt(rod**2 - across**2)


@compiled
def _overlap(low: float, high: float, other_low: float, other_high: float) -> float:
    return max(0.0, min(high, other_high) - max(low, other_low))


@compiled
def _both(one: float, other: float) -> float:
    """One opening behind another: losses of pressure add, each as the square of flow over opening."""
    return 0.0 if one == 0.0 or other == 0.0 else one * other / hypot(one, other)


@compiled
def open_ways(angle: float, gear: Floats, edges: Floats, whole: Floats) -> Floats:
    """Areas [m2], coefficient and all: steam to the ends, exhaust from the ends, straight through, the two pipes."""
    face, bars = edges[:6], edges[6:]
    valve = gear[4] * (_rod_end(gear, angle + gear[3]) - gear[5]) + gear[6]
    low, high, cavity_low, cavity_high = valve + bars[3], valve + bars[0], valve + bars[2], valve + bars[1]
    middle = whole[PER_WIDTH] * _overlap(cavity_low, cavity_high, face[3], face[2])
    areas = np.zeros(7)
    for end in range(2):
        port_low, port_high = face[1 + 4 * end], face[4 * end]
        outer = whole[PER_WIDTH] * (port_high - port_low - _overlap(low, high, port_low, port_high))
        under = _both(whole[PER_WIDTH] * _overlap(cavity_low, cavity_high, port_low, port_high), middle)
        steam, exhaust = (under, outer) if whole[INSIDE] != 0.0 else (outer, under)
        if whole[PASSAGE] > 0.0:
            steam, exhaust = _both(steam, whole[PASSAGE]), _both(exhaust, whole[PASSAGE])
        areas[end], areas[2 + end] = steam, exhaust
    areas[4] = whole[PER_WIDTH] * (face[2] - face[3] - _overlap(low, high, face[3], face[2]))
    areas[5], areas[6] = whole[SUPPLY_AREA], whole[EXHAUST_AREA]
    return areas


@compiled
def find_volumes(angle: float, crank: Floats, ends: Floats) -> tuple[Floats, Floats]:
    """Volumes of the four spaces [m3] and how they grow [m3/rad]."""
    gone, quick = crank[3] - _rod_end(crank, angle), -_rod_end_speed(crank, angle)
    volumes, growth = np.zeros(4), np.zeros(4)
    volumes[HEAD], growth[HEAD] = ends[0] + ends[1] * gone, ends[1] * quick
    volumes[CRANK], growth[CRANK] = ends[2] + ends[3] * (crank[4] - gone), -ends[3] * quick
    volumes[CHEST], volumes[PIPE] = ends[4], ends[5]
    return volumes, growth


# --- the equations ---


@compiled
def fill_spaces(state: Floats, volumes: Floats, fixed: Floats, scales: Floats, memory: Floats) -> Floats:
    """What is in every space, from mass and energy where those change."""
    spaces = fixed.copy()
    for space in range(4):
        if scales[space, 0] == 0.0:
            continue
        m, energy = state[2 * space] * scales[space, 0], state[2 * space + 1] * scales[space, 1]
        u, v, row = energy / m, volumes[space] / m, spaces[space]
        if memory[space, 0] > 0.0:
            find_steam(u, v, memory[space], row)
            continue
        row[T] = u * (AIR_K - 1.0) / AIR_R
        row[P], row[RHO], row[H], row[X] = AIR_R * row[T] / v, 1.0 / v, AIR_K * u, 1.0
    return spaces


@compiled
def pass_openings(spaces: Floats, areas: Floats, gains: Floats, steam: float) -> float:
    """Add what flows through the openings to the spaces' gains; return what the ports let in [kg/s]."""
    froms, tos = (CHEST, CHEST, HEAD, CRANK, CHEST, BOILER, PIPE), (HEAD, CRANK, PIPE, PIPE, PIPE, CHEST, OPEN_AIR)
    let_in = 0.0
    for n in range(7):
        if areas[n] <= 0.0:
            continue
        up, down, sign = froms[n], tos[n], 1.0
        if spaces[up, P] < spaces[down, P]:
            up, down, sign = down, up, -1.0
        flow = through_opening(areas[n], spaces[up], spaces[down, P], steam)
        gains[up, 0] -= flow
        gains[down, 0] += flow
        gains[up, 1] -= flow * spaces[up, H]
        gains[down, 1] += flow * spaces[up, H]
        if n < 2:
            let_in += sign * flow
    return let_in


@compiled
def pass_gaps(spaces: Floats, gaps: Floats, gains: Floats, whole: Floats) -> None:
    """Add what leaks to the spaces' gains."""
    for n in range(gaps.shape[0]):
        up, down = int(gaps[n, GAP_FROM]), int(gaps[n, GAP_TO])
        if spaces[up, P] < spaces[down, P]:
            up, down = down, up
        gas, water = through_gap(gaps[n], spaces[up], spaces[down, P], whole[VISCOUS], whole[STEAM])
        carried = gas * spaces[up, H] + water * spaces[up, WATER_H]
        gains[up, 0] -= gas + water
        gains[down, 0] += gas + water
        gains[up, 1] -= carried
        gains[down, 1] += carried


@compiled
def find_rates(
    angle: float, state: Floats, crank: Floats, gear: Floats, edges: Floats, ends: Floats, gaps: Floats,
    fixed: Floats, scales: Floats, whole: Floats, memory: Floats,
) -> Floats:  # fmt: skip
    """How everything sought changes with the angle: the spaces' masses and energies, works, steam let in and drawn."""
    volumes, growth = find_volumes(angle, crank, ends)
    spaces = fill_spaces(state, volumes, fixed, scales, memory)
    gains = np.zeros((7, 2))
    let_in = pass_openings(spaces, open_ways(angle, gear, edges, whole), gains, whole[STEAM])
    pass_gaps(spaces, gaps, gains, whole)
    rates = np.zeros(12)
    for space in range(4):
        if scales[space, 0] == 0.0:
            continue
        if space <= CRANK:
            gains[space, 1] -= spaces[space, P] * growth[space] * whole[SPEED]
            rates[8 + space] = (spaces[space, P] - whole[BACK]) * growth[space] / scales[4, 0]
            if whole[WALL] > 0.0:
                area = whole[FLAT] + whole[PER_VOLUME] * volumes[space]
                gains[space, 1] += give_heat(spaces[space], area, whole[WALL], whole[STEAM])
        rates[2 * space] = gains[space, 0] / scales[space, 0] / whole[SPEED]
        rates[2 * space + 1] = gains[space, 1] / scales[space, 1] / whole[SPEED]
    rates[10] = let_in / scales[4, 1] / whole[SPEED]
    rates[11] = -gains[BOILER if scales[CHEST, 0] != 0.0 else CHEST, 0] / scales[4, 1] / whole[SPEED]
    return rates


# --- one case ---


@dataclass(frozen=True)
class Turned:
    """What came of a turn: work [J] by end, mass let in through the ports and mass drawn from the supply [kg]."""

    work: dict[str, float]
    let_in: float
    drawn: float
    #: By what share the contents differ from a turn ago.
    change: float


@dataclass
class Authority:
    """One cylinder as the authority sees it; `wall` [K], None for walls that take no heat."""

    setup: Setup
    conditions: Conditions
    wall: float | None

    def __post_init__(self) -> None:
        self.layout = Layout(self.setup.sizes)
        self.crank, self.gear = self._crank(), self._gear()
        self.edges = np.array([*self.layout.face, *self.layout.bars])
        self.ends, self.whole, self.gaps = self._ends(), self._whole(), self._gaps()
        self.fixed = self._fixed()
        self.corners = self._corners()

    def _crank(self) -> Floats:
        number, (top, bottom) = self.setup.sizes.number, self.layout.piston_turns
        far, near = float(self.layout.piston(top)), float(self.layout.piston(bottom))
        line = number("cylinder_offset")
        return np.array([number("stroke") / 2, number("connecting_rod"), line, far, far - near])

    def _gear(self) -> Floats:
        number = self.setup.sizes.number
        far, near = (float(self.layout.eccentric_rod_end(turn)) for turn in self.layout.valve_turns)
        sign = -1.0 if self.setup.sizes.rocker == "reversing" else 1.0
        drive = [number(f"valve_drive.{name}") for name in ("throw", "eccentric_rod", "valve_line_offset")]
        angle, offset = number("valve_drive.eccentric_angle"), number("valve_drive.valve_offset")
        return np.array([*drive, angle, sign, (far + near) / 2, offset])

    def _ends(self) -> Floats:
        number, stroke = self.setup.sizes.number, float(self.crank[4])
        head = pi / 4 * number("bore") ** 2
        crank = head - pi / 4 * number("piston_rod") ** 2
        spaces = [packing.CHEST_VOLUMES * head * stroke, packing.PIPE_VOLUMES * head * stroke]
        clear = [number(f"clearance_{end}_share") * stroke for end in ("head", "crank")]
        return np.array([clear[0] * head, head, clear[1] * crank, crank, *spaces])

    def _whole(self) -> Floats:
        running, number, whole = self.setup.running, self.setup.sizes.number, np.zeros(WHOLE)
        coefficient = running.discharge_coefficient or 1.0
        whole[STEAM] = float(self.conditions.fluid == "steam")
        whole[VISCOUS] = VISCOSITY[self.conditions.fluid]
        whole[PER_WIDTH] = coefficient * number("port_face.port_length")
        whole[INSIDE] = float(self.setup.sizes.admission == "inside")
        whole[SPEED], whole[BACK] = self.conditions.speed, self.conditions.exhaust
        bores = (running.passage_bore, running.supply_bore, running.exhaust_bore)
        for place, bore in zip((PASSAGE, SUPPLY_AREA, EXHAUST_AREA), bores, strict=True):
            whole[place] = coefficient * pi / 4 * (bore or 0.0) ** 2
        whole[WALL] = self.wall or 0.0
        whole[FLAT], whole[PER_VOLUME] = pi / 2 * number("bore") ** 2, 4 / number("bore")
        return whole

    def _gaps(self) -> Floats:
        """From, to, width x height^3 / length, and coefficient x width x height of every gap."""
        running, number, bars = self.setup.running, self.setup.sizes.number, self.layout.bars
        bore, rod = number("bore"), number("piston_rod")
        spindle = packing.SPINDLE_RODS * rod
        cavity, over_all = bars[1] - bars[2], bars[0] - bars[3]
        round_ports, land = 2 * (number("port_face.port_length") + cavity), (over_all - cavity) / 2
        kinds = (
            (HEAD, CRANK, pi * bore, running.ring_gap, packing.RING_BORES * bore),
            (CHEST, PIPE, round_ports, running.valve_face_gap, land),
            (CRANK, ROOM, pi * rod, running.gland_gap, packing.PACKING_RODS * rod),
            (CHEST, ROOM, pi * spindle, running.gland_gap, packing.PACKING_RODS * spindle),
        )
        coefficient = running.discharge_coefficient or 1.0
        rows = [
            (start, end, width * height**3 / along, coefficient * width * height)
            for start, end, width, height, along in kinds
            if height and not self.conditions.ideal
        ]
        return np.array(rows).reshape(len(rows), 4)

    def _fixed(self) -> Floats:
        told, rows = self.conditions, np.zeros((7, 7))
        if told.fluid == "air":
            warm = told.supply_temperature or SHOP
            supply, away, room = (
                _air_row(p, t) for p, t in ((told.supply, warm), (told.exhaust, warm), (ATMOSPHERE, SHOP))
            )
        else:
            supply = _steam_row(told.supply, told.dryness, told.supply_temperature)
            away, room = _steam_row(told.exhaust, 1.0, None), _steam_row(ATMOSPHERE, 1.0, None)
        for space, row in ((CHEST, supply), (BOILER, supply), (PIPE, away), (OPEN_AIR, away), (ROOM, room)):
            rows[space] = row
        return rows

    def _corners(self) -> list[float]:
        """The angles at which an edge of the valve passes an edge of the face, by root finding."""
        top, bottom = self.layout.valve_turns
        roots = {0.0, 2 * pi}
        for bar in self.layout.bars:
            for edge in self.layout.face:

                def gap(angle: float, bar: float = bar, edge: float = edge) -> float:
                    return float(self.layout.valve(angle)) + bar - edge

                for low, high in ((bottom - 2 * pi, top), (top, bottom)):
                    if gap(low) * gap(high) < 0:
                        roots.add(float(brentq(gap, low, high, xtol=1e-13)) % (2 * pi))
        return sorted(roots)

    def turn(self, contents: Floats, *, turns: int, tolerance: float = 1e-8) -> Turned:
        """Go through turns until the contents repeat, no more than so many, and tell of the last.

        `contents` are mass [kg] and energy [J] of the four spaces at the start, nothing where a space never changes.
        """
        work = (self.conditions.supply - self.conditions.exhaust) * self.ends[1] * self.crank[4]
        scales = np.vstack((contents, (work, self.fixed[CHEST, RHO] * self.ends[1] * self.crank[4])))
        memory = np.zeros((4, 3))
        memory[:, :2] = self.conditions.exhaust, 400.0
        if self.conditions.fluid == "air":
            memory[:] = 0.0
        state, change = np.ones(8), 1.0
        for _ in range(turns):
            after = self._turn_once(state, scales, memory, tolerance)
            held = np.repeat(scales[:4, 0] > 0.0, 2)
            change = float(np.abs(after[:8] / state - 1.0)[held].max())
            state = after[:8]
            if change < 1e-5:
                break
        done = after[8:]
        works = {"head": done[0] * work, "crank": done[1] * work}
        return Turned(works, done[2] * scales[4, 1], done[3] * scales[4, 1], change)

    def _turn_once(self, state: Floats, scales: Floats, memory: Floats, tolerance: float) -> Floats:
        everything = np.concatenate((state, np.zeros(4)))
        given = (
            self.crank, self.gear, self.edges, self.ends, self.gaps, self.fixed, scales, self.whole, memory,
        )  # fmt: skip
        for start, stop in zip(self.corners[:-1], self.corners[1:], strict=True):
            if stop - start < 1e-12:
                continue
            everything = odeint(
                find_rates, everything, (start, stop), given,
                tfirst=True, rtol=tolerance, atol=tolerance * 1e-2, mxstep=100_000, hmax=0.05,
            )[-1]  # fmt: skip
        return everything


def _air_row(p: float, t: float) -> Floats:
    return np.array([p, p / (AIR_R * t), AIR_K / (AIR_K - 1) * AIR_R * t, t, 1.0, 0.0, 0.0])


def _steam_row(p: float, x: float, t: float | None) -> Floats:
    """Steam by an independent program, which takes MPa and degrees Celsius and tells kJ."""
    mega = p / 1e6
    water_u, dry_u = (seuif97.px(mega, share, 7) * 1e3 for share in (0.0, 1.0))
    boiling, water_h = seuif97.px(mega, 0.0, 1) + 273.15, seuif97.px(mega, 0.0, 4) * 1e3
    if t is None:
        v, h = seuif97.px(mega, x, 3), seuif97.px(mega, x, 4) * 1e3
        return np.array([p, 1 / v, h, boiling, x, water_h, boiling])
    v, u, h = (seuif97.pt(mega, t - 273.15, asked) for asked in (3, 7, 4))
    return np.array([p, 1 / v, h * 1e3, t, 1 + (u * 1e3 - dry_u) / (dry_u - water_u), water_h, boiling])
