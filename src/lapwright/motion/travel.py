"""How one engine's piston and valve move: positions at a crank angle, dead centres, and angles at a valve position."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atan2, cos, pi, sin, sqrt

from lapwright.engine.cylinder import Slider, ValveGear
from lapwright.motion.linkage import find_crossing, slide_limits, slide_position

TURN = 2 * pi
#: One turn a minute [rad/s].
RPM = TURN / 60


def root_within(square: float) -> float:
    """Return the square root of an area [m²]; a hair below nothing counts as nothing.

    At the very end of a travel rounding may go past it.
    """
    return sqrt(square) if square > 0 else 0.0


@dataclass(frozen=True, slots=True)
class PistonTravel:
    """The piston's movement. Angles in rad from the crank's pointing along the line to the head end."""

    slider: Slider
    low: float
    high: float

    @property
    def stroke(self) -> float:
        """True travel of the piston [m]."""
        return self.high - self.low

    def dead_centre(self, end: str) -> float:
        """Return the crank angle [rad] at which the piston turns round at an end.

        Source: exact geometry (crank and rod in one line)
        """
        crank = self.slider
        if end == "head":
            return asin(crank.offset / (crank.rod + crank.throw))
        return pi + asin(crank.offset / (crank.rod - crank.throw))

    def share_of_stroke(self, end: str, angle: float) -> float:
        """Return the piston's distance from an end's dead centre at a crank angle [rad], as a share of its travel."""
        crank = self.slider
        place = slide_position(crank.throw, crank.rod, crank.offset, cosine=cos(angle), sine=sin(angle))
        gone = (self.high - place) if end == "head" else (place - self.low)
        return float(gone / self.stroke)

    def find_angles(self, end: str, share: float) -> tuple[float, float]:
        """Return the crank angles [rad] at which the piston has gone a share of its travel: outward, then back."""
        crank = self.slider
        place = self.high - share * self.stroke if end == "head" else self.low + share * self.stroke
        c1, s1, c2, s2 = find_crossing(crank.throw, crank.rod, crank.offset, position=place, root=root_within)
        nearing, leaving = atan2(s1, c1) % TURN, atan2(s2, c2) % TURN
        return (nearing, leaving) if end == "head" else (leaving, nearing)


def trace_piston(slider: Slider) -> PistonTravel:
    """Return the movement of a piston on its crank."""
    low, high = slide_limits(slider.throw, slider.rod, slider.offset)
    return PistonTravel(slider, low, high)


@dataclass(frozen=True, slots=True)
class ValveTravel:
    """The valve's movement: position in m from the port-face centre, positive towards the head end."""

    gear: ValveGear
    middle: float
    low: float
    high: float

    @property
    def travel(self) -> float:
        """Full travel of the valve [m]."""
        return self.high - self.low

    def position(self, angle: float) -> float:
        """Return where the valve's centre stands at a crank angle [rad]."""
        slider, turned = self.gear.slider, angle + self.gear.angle
        place = slide_position(slider.throw, slider.rod, slider.offset, cosine=cos(turned), sine=sin(turned))
        return float(self.gear.sign * (place - self.middle) + self.gear.valve_offset)

    def find_angles(self, position: float) -> tuple[float, float]:
        """Return the crank angles [rad, 0 to 2 pi] at which the valve passes a position.

        The first is the one at which it moves towards the crank end, the second towards the head end.
        The position must lie strictly within the travel.

        Source: exact geometry (law of cosines on shaft, eccentric centre and rod end)
        """
        slider, sign = self.gear.slider, self.gear.sign
        place = self.middle + sign * (position - self.gear.valve_offset)
        c1, s1, c2, s2 = find_crossing(slider.throw, slider.rod, slider.offset, position=place, root=root_within)
        nearing = (atan2(s1, c1) - self.gear.angle) % TURN
        leaving = (atan2(s2, c2) - self.gear.angle) % TURN
        return (nearing, leaving) if sign > 0 else (leaving, nearing)


def trace_valve(gear: ValveGear) -> ValveTravel:
    """Return the movement of a valve on its gear, with the offset where the record puts it: at mid-travel."""
    near, far = slide_limits(gear.slider.throw, gear.slider.rod, gear.slider.offset)
    half = (far - near) / 2
    return ValveTravel(gear, (near + far) / 2, gear.valve_offset - half, gear.valve_offset + half)
