"""Random sound engines of many kinds, drawn as a plan from which one size at a time can be put wrong.

A *sound* engine is one that a setter would leave alone: the valve matches its ports or has lap with the eccentric
advanced to suit, leads lie between nothing and 0.08 of the throw, the exhaust edges stand on the ports' edges, the
travel opens 0.85 to 1.3 of the port, nothing is choked, bared or struck. The lines may be a little off the shaft, the
rocker may reverse, the valve may stand central or at equal leads, face and valve may be given by widths or by edges.

Proportions: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import asin, degrees, pi
from random import Random

from lapwright.engine.cylinder import ENDS
from lapwright.engine.engine import PURPOSES, Engine, Target
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import set_moving
from lapwright.motion.solve import find_zero

STEADY, AIR, ECONOMICAL = PURPOSES
#: kind, admission, rocker.
KINDS = (
    ("slide", "outside", "none"),
    ("slide", "outside", "none"),
    ("slide", "outside", "reversing"),
    ("piston", "outside", "none"),
    ("piston", "inside", "none"),
    ("piston", "inside", "reversing"),
)
#: How far before or after dead centre one end of a sound engine with a central valve may open [deg].
LATEST, EARLIEST = 2.5, 10.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """One cylinder as it would stand on a drawing. Lengths in m, angles in rad.

    `cavity_shift` and `bridge_shift` put the cavity, or all between the outer edges of the ports, off the middle
    towards the head end. `room` is left between valve and chest wall at the end of the travel; None: not measured.
    """

    throw: float
    rod: float
    port: float
    bridge: float
    exhaust: float
    length: float
    cavity: float
    stroke: float
    connecting_rod: float
    angle: float = pi / 2
    offset: float = 0.0
    line_offset: float = 0.0
    valve_line_offset: float = 0.0
    cavity_shift: float = 0.0
    bridge_shift: float = 0.0
    room: float | None = None
    arrangement: tuple[str, str, str] = KINDS[0]
    double: bool = True
    edged_face: bool = False
    edged_valve: bool = False
    spindle: tuple[float, float] | None = None
    purpose: str | None = None
    target: Target = field(default_factory=Target)

    @property
    def outside(self) -> bool:
        return self.arrangement[1] == "outside"

    @property
    def outer(self) -> float:
        """From the face's centre to the outer edge of a steam port."""
        return self.exhaust / 2 + self.bridge + self.port

    @property
    def lap(self) -> float:
        """Steam lap, the mean of the two ends."""
        return self.length / 2 - self.outer if self.outside else self.outer - self.port - self.cavity / 2

    @property
    def exhaust_lap(self) -> float:
        """Exhaust lap, the mean of the two ends."""
        return self.outer - self.port - self.cavity / 2 if self.outside else self.length / 2 - self.outer

    def with_laps(self, *, steam: float | None = None, exhaust: float | None = None) -> Plan:
        """The same with a valve of other laps."""
        over = steam if self.outside else exhaust
        under = exhaust if self.outside else steam
        length = self.length if over is None else 2 * (self.outer + over)
        cavity = self.cavity if under is None else 2 * (self.outer - self.port - under)
        return replace(self, length=length, cavity=cavity)

    def sizes(self, name: str = "A") -> Sizes:
        """The plan as sizes of a record."""
        kind, admission, rocker = self.arrangement
        numbers = {
            "crank_phase": 0.0,
            "bore": self.stroke,
            "stroke": self.stroke,
            "connecting_rod": self.connecting_rod,
            "cylinder_offset": self.line_offset,
            "valve_drive.throw": self.throw,
            "valve_drive.eccentric_rod": self.rod,
            "valve_drive.eccentric_angle": self.angle % (2 * pi),
            "valve_drive.valve_line_offset": self.valve_line_offset,
            "valve_drive.valve_offset": self.offset,
            **self._face(),
            **self._valve(),
        }
        if self.double:
            numbers["piston_rod"] = 0.15 * self.stroke
        if self.room is not None:
            reach = self.length / 2 + self.throw * 1.02 + self.room
            numbers["port_face.chest_head"] = reach + max(self.offset, 0.0)
            numbers["port_face.chest_crank"] = reach + max(-self.offset, 0.0)
        if self.spindle is not None:
            numbers["valve_drive.spindle_thread"], numbers["valve_drive.spindle_step"] = self.spindle
        return Sizes(name, numbers, kind=kind, admission=admission, rocker=rocker)

    def _face(self) -> dict[str, float]:
        if not self.edged_face and self.bridge_shift == 0:
            return {
                "port_face.steam_port": self.port,
                "port_face.bridge": self.bridge,
                "port_face.exhaust_port": self.exhaust,
            }
        half, shift, datum = self.exhaust / 2, self.bridge_shift, 3e-3 + self.outer
        inner = half + self.bridge
        places = (-self.outer, -inner - shift, -half - shift, half - shift, inner - shift, self.outer)
        return {f"port_face.edges.{i}": datum + place for i, place in enumerate(places)}

    def _valve(self) -> dict[str, float]:
        if not self.edged_valve and self.cavity_shift == 0:
            return {"valve.length": self.length, "valve.cavity": self.cavity}
        half, hole, shift = self.length / 2, self.cavity / 2, self.cavity_shift
        places = (0.0, half - hole - shift, half + hole - shift, 2 * half)
        return {f"valve.edges.{i}": place for i, place in enumerate(places)}

    def engine(self) -> Engine:
        """The plan as an engine of one cylinder."""
        return Engine(name="Wren", cylinders=(self.sizes(),), purpose=self.purpose, target=self.target)


def find_leads(plan: Plan) -> dict[str, float]:
    """The lead at each end [m], not cut off where the port is fully open."""
    moving = set_moving(plan.sizes())
    assert moving.valve is not None
    hand = 1 if plan.outside else -1
    places = {end: moving.valve.position(moving.dead_centre(end) or 0.0) for end in ENDS}
    shift = 0.0 if plan.outside else plan.cavity_shift
    slant = {end: sign * (plan.bridge_shift - shift) * (not plan.outside) for end, sign in ENDS.items()}
    return {end: -sign * hand * places[end] - plan.lap - slant[end] for end, sign in ENDS.items()}


def set_eccentric(plan: Plan, lead: float) -> Plan:
    """The plan with its eccentric turned to a mean lead [m] for the running direction."""
    _, admission, rocker = plan.arrangement
    turned = (admission == "inside") != (rocker == "reversing")

    def at(advance: float) -> Plan:
        return replace(plan, angle=pi / 2 + advance + (pi if turned else 0.0))

    def over(advance: float) -> float:
        return sum(find_leads(at(advance)).values()) / 2 - lead

    guess = asin(max(-1.0, min((plan.lap + lead) / plan.throw, 0.99)))
    advance = find_zero(over, guess - 0.4, min(guess + 0.4, pi / 2))
    assert advance is not None
    # A square eccentric is square to the last digit, not to rounding.
    return at(0.0 if abs(advance) < 1e-12 else advance)


def place_valve(plan: Plan) -> Plan:
    """The plan with its valve moved along the spindle to equal leads."""
    leads = find_leads(plan)
    hand = 1 if plan.outside else -1
    return replace(plan, offset=plan.offset + hand * (leads["head"] - leads["crank"]) / 2)


def opens_before(plan: Plan, lead: float) -> float:
    """How far before dead centre a port with a lead [m] opens [deg], for a long rod."""
    return degrees(asin((plan.lap + lead) / plan.throw) - asin(plan.lap / plan.throw))


def draw_lines(rng: Random, throw: float, stroke: float) -> dict[str, float]:
    """Lines a little off the shaft's centre, in one engine of three."""
    if rng.random() < 2 / 3:
        return {}
    return {"line_offset": rng.uniform(-0.05, 0.05) * stroke, "valve_line_offset": rng.uniform(-0.4, 0.4) * throw}


def draw_sound_plan(
    rng: Random,
    *,
    square: bool | None = None,
    outside: bool | None = None,
    double: bool | None = None,
    throw: float | None = None,
    lead_share: float | None = None,
    share: float | None = None,
    rod: tuple[float, float] = (12.0, 30.0),
) -> Plan:
    """Draw one sound cylinder.

    Parameters
    ----------
    rng: seeded by the caller
    square: True for no lap and an eccentric without advance, False for lap; either where not given
    outside: whether steam is admitted over the outer edges; either where not given
    double: whether both ends work; one engine in eight is single-acting where not given
    throw: half the valve's travel [m], 1 to 20 mm where not given
    lead_share: mean lead as a share of the throw, 0 to 0.08 where not given
    share: greatest opening as a share of the port, 0.85 to 1.3 where not given
    rod: range of the eccentric rod's length in throws
    """
    square = rng.random() < 0.5 if square is None else square
    throw = 1e-3 * 20 ** rng.random() if throw is None else throw
    kinds = [kind for kind in KINDS if outside is None or (kind[1] == "outside") == outside]
    lap = 0.0 if square else throw * rng.uniform(0.12, 0.5)
    share = rng.uniform(0.85, 1.3) if share is None else share
    port = (throw - lap) / share
    arrangement = rng.choice(kinds)
    over = lap if arrangement[1] == "outside" else 0.0
    bridge = max(rng.uniform(0.8, 1.4) * port, 1.1 * throw - over - port + 0.2 * port)
    covered = throw * 1.06 - bridge + (lap - over)
    stroke = throw * rng.uniform(6, 12)
    plan = Plan(
        throw=throw,
        rod=throw * rng.uniform(*rod),
        port=port,
        bridge=bridge,
        exhaust=max(rng.uniform(1.5, 2.2) * port, covered + rng.uniform(1.0, 1.4) * port),
        length=0.0,
        cavity=0.0,
        stroke=stroke,
        connecting_rod=stroke * rng.uniform(1.8, 3.0),
        arrangement=arrangement,
        double=rng.random() < 7 / 8 if double is None else double,
        edged_face=rng.random() < 0.3,
        edged_valve=rng.random() < 0.3,
        room=rng.choice([None, rng.uniform(0.1, 1.0) * port + 0.2e-3]),
        spindle=rng.choice([None, (0.05 * throw, 0.5)]),
        purpose=rng.choice([None, STEADY, AIR]),
        **draw_lines(rng, throw, stroke),
    )
    free = rng.uniform(0.0 if square else -0.012, 0.012) * throw
    plan = plan.with_laps(steam=lap, exhaust=free)
    wanted = 0.0 if square else rng.uniform(0.0, 0.08)
    lead = throw * (wanted if lead_share is None else lead_share)
    return settle(rng, set_eccentric(plan, lead))


def settle(rng: Random, plan: Plan) -> Plan:
    """Leave the valve central where the leads bear it, in half of the engines, or move it to equal leads."""
    opens = [opens_before(plan, lead) for lead in find_leads(plan).values()]
    bears = min(opens) > -LATEST and max(opens) < EARLIEST
    return plan if bears and rng.random() < 0.5 else place_valve(plan)
