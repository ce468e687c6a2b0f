"""Runs to draw: cards made of ruled lines and hyperbolas, whose areas and corners are known from a formula."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, cos, degrees, log, pi

import numpy as np

from lapwright.cycle.answers import CylinderRun, EndRun
from lapwright.cycle.comparing import Showing
from lapwright.cycle.conditions import ATMOSPHERE, Conditions
from lapwright.cycle.engine_run import EngineRun
from lapwright.cycle.layout import Floats
from lapwright.cycle.starting import Direction, Starting
from lapwright.engine.sizes import Assumed
from lapwright.motion.answers import CylinderMotion, EndMotion, EventTimes, Laps

BAR, TURN = 1e5, 2 * pi
CLEARANCE, SWEPT = 0.08, 6e-6
CONDITIONS = Conditions(fluid="air", supply=ATMOSPHERE + 2 * BAR, exhaust=ATMOSPHERE, speed=10 * pi)


@dataclass(frozen=True)
class RuledCard:
    """Full pressure to cut-off, a hyperbola to the end of the stroke, exhaust to compression, a hyperbola to admission.

    Shares of the stroke, 0 to 1; the piston moves as with an endless rod.
    """

    cut_off: float
    compression: float
    supply: float = CONDITIONS.supply
    exhaust: float = CONDITIONS.exhaust

    def pressure(self, share: float, *, outward: bool) -> float:
        """Pressure [Pa, absolute] with the piston at a share of its stroke."""
        if outward:
            return self.supply * min((self.cut_off + CLEARANCE) / (share + CLEARANCE), 1.0)
        return self.exhaust * max((self.compression + CLEARANCE) / (share + CLEARANCE), 1.0)

    @property
    def mean(self) -> float:
        """Mean effective pressure [Pa] by the formula for hyperbolas."""
        k, c, x = CLEARANCE, self.cut_off, self.compression
        forward = self.supply * (c + (c + k) * log((1 + k) / (c + k)))
        back = self.exhaust * (1 - x + (x + k) * log((x + k) / k))
        return forward - back

    def run_end(self, angles: Floats) -> EndRun:
        """The card over the angles from its own dead centre [rad]."""
        shares = (1 - np.cos(angles)) / 2
        outward = np.mod(angles, TURN) < pi
        pressures = np.array([self.pressure(s, outward=bool(o)) for s, o in zip(shares, outward, strict=True)])
        flat = np.zeros(len(angles))
        return EndRun(
            mean_effective_pressure=self.mean, work=self.mean * SWEPT, full=0.0, losses={},
            volumes=SWEPT * (shares + CLEARANCE), pressures=pressures, temperatures=flat, dryness=flat, condensed=0.0,
            swept=SWEPT, clearance=CLEARANCE,
        )  # fmt: skip

    def time_end(self, start: float) -> EndMotion:
        """Its events, with the dead centre at an angle [deg]."""
        shares = {"admission": 0.0, "cut_off": self.cut_off, "release": 1.0, "compression": self.compression}
        events = {}
        for event, share in shares.items():
            gone = degrees(acos(1 - 2 * share))
            angle = (start + (gone if event in ("cut_off", "release") else 360 - gone)) % 360
            events[event] = EventTimes((angle,), (100 * share,))
        return EndMotion(events, 0.0, 1.0, 1.0)


def run_cylinder(card: RuledCard, *, name: str = "A", double_acting: bool = True) -> CylinderRun:
    """A cylinder with the same card at both ends."""
    angles = np.linspace(0.0, TURN, 361)[1:]
    ends = {"head": card.run_end(angles)}
    if double_acting:
        ends["crank"] = card.run_end(angles + pi)
    return CylinderRun(
        name=name, conditions=CONDITIONS, ends=ends, angles=angles, shares=np.full(360, TURN / 360),
        torque=np.zeros(360), supplied=1e-6, uses={"worked": 0.9e-6, "rings": 0.1e-6}, heat=0.0, wall_temperature=None,
        exhaust_temperature=280.0, exhaust_dryness=1.0, valve=None, settled=True, turns=5, change=0.0,
    )  # fmt: skip


def move_cylinder(card: RuledCard, *, name: str = "A") -> CylinderMotion:
    """What its valve does."""
    nothing: dict[str, float | None] = {"head": None, "crank": None}
    laps = {"head": Laps(None, None), "crank": Laps(None, None)}
    ends = {"head": card.time_end(0.0), "crank": card.time_end(180.0)}
    return CylinderMotion(name, nothing, laps, ends, None, None, None, None, nothing)


def run_engine(card: RuledCard, *, indicated: float = 20.0, friction: float = 3.0) -> EngineRun:
    """An engine of one cylinder; its torque swings about the mean twice a turn."""
    angles = np.linspace(0.0, TURN, 720, endpoint=False)
    speed = CONDITIONS.speed
    return EngineRun(
        conditions=CONDITIONS, cylinders=(run_cylinder(card),), indicated_power=indicated, friction_power=friction,
        brake_power=indicated - friction, mean_torque=(indicated - friction) / speed, angles=angles,
        torque=indicated / speed * (1 - np.cos(2 * angles)), supplied=3e-4, swing=0.1, unevenness=0.1,
        assumed=(
            Assumed("running.ring_gap", "4 µm", "not given", ("run",)),
            Assumed("cylinder.A.clearance_head", "8 %", "not given", ("run",)),
        ),
    )  # fmt: skip


def show_engine(card: RuledCard, *, indicated: float = 20.0, least: float | None = 0.3 * BAR) -> Showing:
    """How that engine does; `least` is the gauge pressure that turns it over [Pa]."""
    return Showing(
        run=run_engine(card, indicated=indicated),
        least_pressure=None if least is None else ATMOSPHERE + least,
        starting=rest_engine((0.0, 0.75 * TURN), (0.75 * TURN, TURN)),
    )


def rest_engine(starts: tuple[float, float], never: tuple[float, float]) -> Starting:
    """An engine at rest that starts from one arc and never from another [rad]."""
    angles = np.linspace(0.0, TURN, 720, endpoint=False)
    way = Direction(starts=(starts,), never=(never,), carries=(), least_pressure=None, best_angle=1.0)
    torque = np.array([0.5 * cos(angle) for angle in angles])
    return Starting(
        conditions=CONDITIONS, angles=angles, worst=torque, best=torque + 0.1, friction=0.1, forward=way, backward=way,
        assumed=(),
    )  # fmt: skip
