"""The authority that motion is held against: pins and edges as points in a plane, and a general root finder.

Nothing here comes from the package but the sizes. The cylinder line runs along x towards the head end; the shaft is at
the origin; a pin at an angle stands at (cos, sin) times its throw; a rod end is where a circle about the pin meets
the line. Whether a port is open is asked of the edges, one state at a time.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq, minimize_scalar

from lapwright.engine.sizes import Sizes

Floats = NDArray[np.float64]
SIDE = {"head": 1.0, "crank": -1.0}


def rod_end(throw: float, rod: float, line: float, angle: Floats | float) -> Floats:
    """Where along a line a rod's far end stands, its near end on a pin at an angle."""
    pin_x, pin_y = throw * np.cos(angle), throw * np.sin(angle)
    return pin_x + np.sqrt(rod**2 - (line - pin_y) ** 2)


def turning_points(place: Callable[[float], float], around: float) -> tuple[float, float]:
    """The angles at which a place is greatest (sought around the first guess) and least (half a turn on)."""
    top = minimize_scalar(
        lambda angle: -place(angle), bounds=(around - 1.5, around + 1.5), options={"xatol": 1e-12}, method="bounded"
    )
    bottom = minimize_scalar(
        place, bounds=(around + np.pi - 1.5, around + np.pi + 1.5), options={"xatol": 1e-12}, method="bounded"
    )
    return float(top.x), float(bottom.x)


@dataclass(frozen=True)
class Layout:
    """One cylinder's parts as coordinates, worked out from its sizes by hand."""

    sizes: Sizes

    def piston(self, angle: Floats | float) -> Floats:
        number = self.sizes.number
        return rod_end(number("stroke") / 2, number("connecting_rod"), number("cylinder_offset"), angle)

    def eccentric_rod_end(self, angle: Floats | float) -> Floats:
        number = self.sizes.number
        sheave = np.asarray(angle) + number("valve_drive.eccentric_angle")
        throw, rod = number("valve_drive.throw"), number("valve_drive.eccentric_rod")
        return rod_end(throw, rod, number("valve_drive.valve_line_offset"), sheave)

    @cached_property
    def piston_turns(self) -> tuple[float, float]:
        return turning_points(lambda angle: float(self.piston(angle)), 0.0)

    @cached_property
    def valve_turns(self) -> tuple[float, float]:
        start = -self.sizes.number("valve_drive.eccentric_angle")
        return turning_points(lambda angle: float(self.eccentric_rod_end(angle)), start)

    def valve(self, angle: Floats | float) -> Floats:
        """Where the valve's centre stands, from the port-face centre, positive towards the head end."""
        far, near = (float(self.eccentric_rod_end(turn)) for turn in self.valve_turns)
        swing = self.eccentric_rod_end(angle) - (far + near) / 2
        if self.sizes.rocker == "reversing":
            swing = -swing
        return swing + self.sizes.number("valve_drive.valve_offset")

    @cached_property
    def face(self) -> list[float]:
        """The face's six edges from its centre, positive towards the head end, from the head end on."""
        known = self.sizes.numbers
        if "port_face.edges.0" in known:
            read = [known[f"port_face.edges.{i}"] for i in range(6)]
        else:
            port, bridge, middle = (known[f"port_face.{name}"] for name in ("steam_port", "bridge", "exhaust_port"))
            read = [0, port, port + bridge, port + bridge + middle, port + 2 * bridge + middle]
            read.append(2 * port + 2 * bridge + middle)
        return [(read[0] + read[5]) / 2 - edge for edge in read]

    @cached_property
    def bars(self) -> list[float]:
        """The valve's four edges from its centre, positive towards the head end, from the head end on."""
        known = self.sizes.numbers
        if "valve.edges.0" in known:
            read = [known[f"valve.edges.{i}"] for i in range(4)]
            return [(read[0] + read[3]) / 2 - edge for edge in read]
        length, cavity = known["valve.length"], known["valve.cavity"]
        return [length / 2, cavity / 2, -cavity / 2, -length / 2]

    def port(self, end: str) -> tuple[float, float]:
        """The end's steam port as (lower, upper) edge."""
        return (self.face[1], self.face[0]) if end == "head" else (self.face[5], self.face[4])

    def outside_gaps(self, end: str, angle: Floats | float) -> tuple[Floats, Floats]:
        """How far the port reaches past the valve's head end, and past its crank end; either above zero is open."""
        low, high = self.port(end)
        valve = self.valve(angle)
        return high - (valve + self.bars[0]), (valve + self.bars[3]) - low

    def cavity_gaps(self, end: str, angle: Floats | float) -> tuple[Floats, Floats]:
        """How far the cavity reaches past the port's two edges; both above zero is open."""
        low, high = self.port(end)
        valve = self.valve(angle)
        return valve + self.bars[1] - low, high - (valve + self.bars[2])

    def is_open(self, end: str, to: str, angle: Floats | float) -> NDArray[np.bool_]:
        """Whether the end's port is open "to steam" or "to exhaust"."""
        outside = (to == "steam") == (self.sizes.admission == "outside")
        if outside:
            one, other = self.outside_gaps(end, angle)
            return np.asarray((one > 0) | (other > 0))
        one, other = self.cavity_gaps(end, angle)
        return np.asarray((one > 0) & (other > 0))

    def straight_way(self, angle: Floats | float) -> NDArray[np.bool_]:
        """Whether live steam can reach the exhaust, through a port open to both or past the valve's end."""
        valve = self.valve(angle)
        through = [self.is_open(end, "steam", angle) & self.is_open(end, "exhaust", angle) for end in SIDE]
        past = (valve + self.bars[0] < self.face[2]) | (valve + self.bars[3] > self.face[3])
        return np.asarray(through[0] | through[1] | past)

    def changes(self, end: str, to: str) -> tuple[list[float], list[float]]:
        """The crank angles [deg] at which the end's port opens to a side, and at which it shuts, by root finding."""
        gaps = self.outside_gaps if (to == "steam") == (self.sizes.admission == "outside") else self.cavity_gaps
        top, bottom = self.valve_turns
        halves = (bottom - 2 * np.pi, top), (top, bottom)
        roots = []
        for which in (0, 1):

            def gap(angle: float, which: int = which) -> float:
                return float(gaps(end, angle)[which])

            for low, high in halves:
                if gap(low) * gap(high) < 0:
                    roots.append(float(brentq(gap, low, high, xtol=1e-14, rtol=1e-15)))
        return self._sort_changes(end, to, sorted(root % (2 * np.pi) for root in roots))

    def _sort_changes(self, end: str, to: str, roots: list[float]) -> tuple[list[float], list[float]]:
        opens, shuts = [], []
        for i, root in enumerate(roots):
            before = roots[i - 1] - (2 * np.pi if i == 0 else 0)
            after = roots[(i + 1) % len(roots)] + (2 * np.pi if i == len(roots) - 1 else 0)
            was, is_now = (bool(self.is_open(end, to, (root + side) / 2)) for side in (before, after))
            if was != is_now:
                (opens if is_now else shuts).append(float(np.degrees(root)))
        return opens, shuts

    def share_of_stroke(self, end: str, angle: float) -> float:
        """The piston's distance from the end's dead centre as a share of its true travel."""
        far, near = (float(self.piston(turn)) for turn in self.piston_turns)
        place = float(self.piston(angle))
        return ((far - place) if end == "head" else (place - near)) / (far - near)
