"""The authority that the cycle is held against: its equations written afresh, and a solver that chooses its steps.

The equations are in `cycle_equations`; here a case is prepared for them and gone through. The solver (LSODA) starts
afresh at every edge that passes another and is held to a tight tolerance; work and mass used are unknowns like the
rest, so it watches over them too. What is taken alike on both sides are the modelling figures: how long a
gap is, how large a chest, how strongly a wall exchanges heat.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np
import seuif97
from scipy.integrate import odeint
from scipy.optimize import brentq

from lapwright.cycle import balance, packing
from lapwright.cycle.conditions import ATMOSPHERE, SHOP, Conditions, Setup
from lapwright.medium import air
from tests.property import cycle_equations as eq
from tests.property.coordinates import Layout
from tests.property.cycle_equations import AIR_K, AIR_R, CHEST, CRANK, HEAD, PIPE, ROOM, Floats, find_rates

VISCOSITY = {"air": air.VISCOSITY, "steam": packing.STEAM_VISCOSITY}
#: Figures taken alike on both sides, in the order in which the equations want them.
FIGURES = (
    packing.HOT_WATER_VISCOSITY, balance.WATER, balance.WATER, packing.WETTED, balance.DAMP, balance.FULLY_DRY,
    packing.DRY_WALL, packing.WET_WALL,
)  # fmt: skip


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
        running, number, whole = self.setup.running, self.setup.sizes.number, np.zeros(eq.WHOLE)
        coefficient = running.discharge_coefficient or 1.0
        whole[eq.STEAM] = float(self.conditions.fluid == "steam")
        whole[eq.VISCOUS] = VISCOSITY[self.conditions.fluid]
        whole[eq.PER_WIDTH] = coefficient * number("port_face.port_length")
        whole[eq.INSIDE] = float(self.setup.sizes.admission == "inside")
        whole[eq.SPEED], whole[eq.BACK] = self.conditions.speed, self.conditions.exhaust
        bores = (running.passage_bore, running.supply_bore, running.exhaust_bore)
        for place, bore in zip((eq.PASSAGE, eq.SUPPLY_AREA, eq.EXHAUST_AREA), bores, strict=True):
            whole[place] = coefficient * pi / 4 * (bore or 0.0) ** 2
        whole[eq.WALL] = self.wall or 0.0
        whole[eq.WATER_VISCOUS :] = FIGURES
        whole[eq.FLAT], whole[eq.PER_VOLUME] = pi / 2 * number("bore") ** 2, 4 / number("bore")
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
        for space, row in ((CHEST, supply), (eq.BOILER, supply), (PIPE, away), (eq.OPEN_AIR, away), (ROOM, room)):
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
        scales = np.vstack((contents, (work, self.fixed[CHEST, eq.RHO] * self.ends[1] * self.crank[4])))
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
