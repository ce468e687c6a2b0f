"""What a run tells of a cylinder: frozen results in SI units, absolute pressures, angles in rad of its own crank."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.cycle.conditions import Conditions
from lapwright.cycle.layout import Floats

#: What a full card loses on its way to the card that is drawn, in the order in which it is told.
LOSSES = (
    "late admission", "wire-drawing", "blow-through", "cut-off", "early release", "back pressure", "cushioning",
    "early admission",
)  # fmt: skip
#: Where the air or steam goes.
USES = ("worked", "blow-through", "rings", "valve face", "piston-rod gland", "spindle gland")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EndRun:
    """One end's turn.

    `mean_effective_pressure` [Pa]; `work` [J a turn]; `full` is the work of a card at full pressure all the stroke,
    from which `losses` [J] lead to `work`. The card is `volumes` [m3, clearance included] and `pressures` [Pa] over
    `angles`, `temperatures` [K] and `dryness` [-] with them. `condensed` [kg a turn] is what the wall turns to water.
    """

    mean_effective_pressure: float
    work: float
    full: float
    losses: Mapping[str, float]
    volumes: Floats
    pressures: Floats
    temperatures: Floats
    dryness: Floats
    condensed: float
    swept: float
    clearance: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ValveLoad:
    """What presses a flat valve on its face, and what that costs.

    `force` [N] over the angles, negative where the valve would lift; `lifts` are the arcs (start, stop) [rad] where it
    does; `friction` [N] is the greatest on its face, `eccentric_torque` [N m] the greatest that it puts on the
    eccentric, `work` [J a turn] what it takes.
    """

    force: Floats
    lifts: tuple[tuple[float, float], ...]
    friction: float
    eccentric_torque: float
    work: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CylinderRun:
    """One cylinder's turn once it repeats.

    `ends` holds the ends that work; `angles` [rad] and `shares` [rad] are the places and weights of all arrays;
    `torque` [N m] is on the crankshaft, without friction. `supplied` [kg a turn] is split in `uses`. `heat` [J a turn]
    is what the wall gives to the shop. `change` says by what share the last turn still differed from the one before.
    """

    name: str
    conditions: Conditions
    ends: Mapping[str, EndRun]
    angles: Floats
    shares: Floats
    torque: Floats
    supplied: float
    uses: Mapping[str, float]
    heat: float
    wall_temperature: float | None
    exhaust_temperature: float
    exhaust_dryness: float
    valve: ValveLoad | None
    settled: bool
    turns: int
    change: float

    @property
    def work(self) -> float:
        """Work on the pistons [J a turn]."""
        return sum(end.work for end in self.ends.values())

    @property
    def swept(self) -> float:
        """Volume swept by both ends in a turn [m3]."""
        return sum(end.swept for end in self.ends.values())

    @property
    def condensed(self) -> float:
        """Water that the walls make of steam [kg a turn]."""
        return sum(end.condensed for end in self.ends.values())
