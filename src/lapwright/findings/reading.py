"""One cylinder as the judge sees it: laps, leads and ways taken apart into what each size is answerable for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import asin, cos, pi, sin

from lapwright.engine.cylinder import ENDS, Cylinder, assemble_cylinder
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import CylinderMotion, Movement, describe_motion, set_moving
from lapwright.motion.linkage import slide_position
from lapwright.motion.solve import find_zero


@dataclass(frozen=True)
class Reading:
    """What can be read off one cylinder's sizes. Lengths in m, angles in rad; None where a size is missing.

    The leads at the two ends are taken apart: their mean hangs on lap and eccentric alone, their difference on where
    the valve stands on its spindle and on the slant of the eccentric rod.
    """

    sizes: Sizes

    @cached_property
    def moving(self) -> Movement:
        """Piston and valve set moving."""
        return set_moving(self.sizes)

    @cached_property
    def motion(self) -> CylinderMotion:
        """Everything that motion tells."""
        return describe_motion(self.sizes)

    @property
    def cylinder(self) -> Cylinder:
        """The geometry."""
        return self.moving.cylinder

    @cached_property
    def turns(self) -> bool:
        """Whether the engine could be turned over with these sizes."""
        return assemble_cylinder(self.sizes).can_turn

    @property
    def outside(self) -> bool:
        """Whether steam is admitted over the valve's outer edges."""
        return self.sizes.admission == "outside"

    @property
    def hand(self) -> int:
        """+1 where the valve moving to the crank end opens the head-end port to steam, -1 otherwise."""
        return 1 if self.outside else -1

    @cached_property
    def ends(self) -> tuple[str, ...]:
        """The ends that do work."""
        return tuple(ENDS) if self.cylinder.double_acting else ("head",)

    @cached_property
    def throw(self) -> float | None:
        """Half the valve's travel."""
        return None if self.moving.valve is None else self.moving.valve.travel / 2

    @cached_property
    def port(self) -> float | None:
        """Width of the wider steam port."""
        face = self.cylinder.face
        return None if face is None else max(face[end].width for end in self.ends)

    @cached_property
    def steam_laps(self) -> dict[str, float] | None:
        """Steam lap of each end."""
        return self._laps("steam")

    @cached_property
    def exhaust_laps(self) -> dict[str, float] | None:
        """Exhaust lap of each end."""
        return self._laps("exhaust")

    def _laps(self, which: str) -> dict[str, float] | None:
        laps = {end: getattr(self.motion.laps_mm[end], which) for end in ENDS}
        return None if None in laps.values() else {end: lap * 1e-3 for end, lap in laps.items()}

    @cached_property
    def lap(self) -> float | None:
        """Mean steam lap of the two ends."""
        return None if self.steam_laps is None else sum(self.steam_laps.values()) / 2

    @cached_property
    def exhaust_lap(self) -> float | None:
        """Mean exhaust lap of the two ends."""
        return None if self.exhaust_laps is None else sum(self.exhaust_laps.values()) / 2

    @cached_property
    def advance(self) -> float | None:
        """Angle of advance, -pi to pi, with the half turn for inside admission or a rocker taken out."""
        gear = self.cylinder.gear
        if gear is None:
            return None
        turned = self.hand * gear.sign < 0
        return wrap(gear.angle - pi / 2 - (pi if turned else 0.0))

    @cached_property
    def direction(self) -> float:
        """The direction in which the eccentric stands right: 1 as the record turns, -1 for the other way round."""
        return -1.0 if self.advance is not None and abs(self.advance) > 2 * pi / 3 else 1.0

    def reach(self, advance: float | None = None) -> float | None:
        """Return how far, on the mean of the ends, the valve has moved off centre at dead centre towards opening.

        With an advance given [rad], for the eccentric turned to it.
        """
        heights = self._heights(advance)
        return None if heights is None else self.hand * (heights["crank"] - heights["head"]) / 2

    def _heights(self, advance: float | None) -> dict[str, float] | None:
        """The valve's place at each dead centre, measured from half-way of its travel."""
        valve = self.moving.valve
        centres = {end: self.moving.dead_centre(end) for end in ENDS}
        if valve is None or self.advance is None or None in centres.values():
            return None
        gear, slider = valve.gear, valve.gear.slider
        turned = gear.angle if advance is None else gear.angle + advance - self.advance
        heights = {}
        for end, centre in centres.items():
            angle = (centre or 0.0) + turned
            place = slide_position(slider.throw, slider.rod, slider.offset, cosine=cos(angle), sine=sin(angle))
            heights[end] = float(gear.sign * (place - valve.middle))
        return heights

    @cached_property
    def lead(self) -> float | None:
        """Mean lead of the two ends, not cut off where the port is fully open."""
        reach = self.reach()
        return None if reach is None or self.lap is None else reach - self.lap

    @cached_property
    def equal_lead_offset(self) -> float | None:
        """Valve offset that makes the leads at the two ends equal."""
        heights, laps = self._heights(None), self.steam_laps
        if heights is None or laps is None:
            return None
        return -(heights["head"] + heights["crank"]) / 2 + self.hand * (laps["crank"] - laps["head"]) / 2

    @cached_property
    def offset(self) -> float:
        """Valve offset as it is."""
        return self.sizes.number("valve_drive.valve_offset")

    @cached_property
    def offset_error(self) -> float | None:
        """How far the valve stands outside the range from central to equal leads; positive towards the head end."""
        equal = self.equal_lead_offset
        if equal is None:
            return None
        low, high = min(0.0, equal), max(0.0, equal)
        return max(self.offset - high, 0.0) + min(self.offset - low, 0.0)

    def lead_at(self, end: str) -> float | None:
        """Return one end's lead, not cut off where the port is fully open."""
        heights, laps = self._heights(None), self.steam_laps
        if heights is None or laps is None:
            return None
        return -ENDS[end] * self.hand * (self.offset + heights[end]) - laps[end]

    def solve_advance(self, lead: float, lap: float | None = None) -> float | None:
        """Return the angle of advance [rad] that gives a mean lead [m] with a lap [m], or None where none does."""
        lap = self.lap if lap is None else lap
        if lap is None or self.throw is None:
            return None
        wanted = lap + lead
        if abs(wanted) >= self.throw:
            return None
        guess = asin(wanted / self.throw)

        def short(advance: float) -> float:
            return (self.reach(advance) or 0.0) - wanted

        low, high = max(guess - 0.35, -1.55), min(guess + 0.35, 1.55)
        return find_zero(short, low, high)

    def changed(self, changes: dict[str, float]) -> Reading:
        """Return the reading after some sizes were changed."""
        return Reading(self.sizes.replacing(changes))

    def turned_to(self, advance: float) -> dict[str, float]:
        """Return the change of record keys that gives the eccentric an angle of advance [rad]."""
        angle = self.sizes.numbers["valve_drive.eccentric_angle"] + advance - (self.advance or 0.0)
        return {"valve_drive.eccentric_angle": angle % (2 * pi)}


def wrap(angle: float) -> float:
    """Return an angle [rad] between -pi and pi."""
    return (angle + pi) % (2 * pi) - pi
