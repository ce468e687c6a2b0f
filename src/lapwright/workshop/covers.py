"""Covers and their studs: what pressure and joint ask of them, and what a torque makes of a stud."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi, sin, sqrt
from typing import TYPE_CHECKING, Final

from lapwright.errors import DoesNotFit, OutOfRange
from lapwright.quantities import show_mm
from lapwright.workshop.screws import find_coefficient, find_screw
from lapwright.workshop.strength import stress_area
from lapwright.workshop.tightening import thrust_from_torque, torque_from_thrust

if TYPE_CHECKING:
    from lapwright.tables.gaskets import GasketRow
    from lapwright.tables.threads import ThreadRow

#: Below this bore the old rules for the studs of a cover are refused [m].
OLD_RULES_FROM: Final = 0.100
#: The old rules spoke of no stud thinner than this [m].
_OLD_STUD_FROM: Final = 0.016
#: No narrower ring can be cut [m].
_NARROWEST: Final = 0.5e-3
#: The passes in which a cover is drawn down, as shares of the torque [-].
PASSES: Final = (1 / 3, 2 / 3, 1.0)
RING_SOURCE: Final = (
    "Loads of a joint: ASME Boiler and Pressure Vessel Code VIII-1, appendix 2 (factor m, seating stress y), on the "
    "whole width of the joint and with the pressure up to its outer edge: on the safe side."
)


@dataclass(frozen=True, slots=True)
class Joint:
    """A ring-shaped joint under a round cover: the bore it leaves free and the diameter over it [m]."""

    bore: float
    outside: float

    def __post_init__(self) -> None:
        """Refuse what is no ring."""
        if self.bore <= 0:
            raise OutOfRange(show_mm(self.bore), "is no bore", "measure it again")
        if self.outside <= self.bore:
            raise DoesNotFit(
                f"a joint {show_mm(self.outside)} over its outside leaves nothing round a bore of {show_mm(self.bore)}",
                "measure over the joint, not the bore",
            )

    @property
    def width(self) -> float:
        """Breadth of the ring [m]."""
        return (self.outside - self.bore) / 2

    @property
    def mean(self) -> float:
        """Mean diameter of the ring [m]."""
        return (self.outside + self.bore) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class JointLoads:
    """What a joint asks of all its studs together, in N.

    `pressure` pushes the cover off; `operating` holds it against that and keeps the joint tight; `seating` beds the
    joint before there is any pressure. `needed` is the larger of the last two, and `governs` says which. `half_width`
    is what would be needed by the code's own reckoning: half the width bedded, pressure up to the middle of the ring.
    """

    pressure: float
    operating: float
    seating: float
    half_width: float

    @property
    def governs(self) -> str:
        """What decides the load: "seating the joint" or "holding the pressure"."""
        return "seating the joint" if self.seating >= self.operating else "holding the pressure"

    @property
    def needed(self) -> float:
        """The load that all studs together have to give [N]."""
        return max(self.seating, self.operating)


@dataclass(frozen=True, slots=True, kw_only=True)
class StudLoad:
    """What one stud bears: its pull [N], the stress that makes in it [Pa], how much of its proof stress that is [-].

    `torque` [N m] is what gives it that pull. Past its proof stress a stud stays longer than it was.
    """

    thread: str
    metal: str
    condition: str
    pull: float
    stress: float
    proof: float
    torque: float
    sources: tuple[str, ...]

    @property
    def share(self) -> float:
        """The share of the proof stress that is used [-]."""
        return self.stress / self.proof

    @property
    def is_past_proof(self) -> bool:
        """Whether it is stretched for good."""
        return self.share > 1


@dataclass(frozen=True, slots=True)
class OldRule:
    """What the old rules of full-size engines give: least and greatest number and pitch of studs, circle [m]."""

    number: tuple[float, float]
    pitch: tuple[float, float]
    stud_circle: float


def find_joint_loads(joint: Joint, gasket: GasketRow, *, pressure: float) -> JointLoads:
    """Work out what a joint asks of its studs: to bed it, and to hold it under pressure.

    Seating pi b G y; pressure p pi/4 D^2; operating that and 2 b pi G m p. The whole width of the ring is taken for b
    and its outer diameter for D; the code takes half the width, and the mean diameter G for both.

    Parameters
    ----------
    joint: the ring
    gasket: what it is cut from; a row with both m and y
    pressure: at which it has to be tight, above the atmosphere [Pa]

    Raises
    ------
    DoesNotFit: the table has no m and y for that gasket
    OutOfRange: a pressure of less than nothing

    Source: asme-viii (appendix 2; that b is half the width of a narrow ring: from memory)
    """
    if gasket.m is None or gasket.y is None:
        raise DoesNotFit(f"no seating stress is in the table for {gasket.material}", "choose another joint")
    if pressure < 0:
        raise OutOfRange(f"{pressure / 1e5:g} bar", "is less than nothing", "give the pressure above the atmosphere")
    ring = pi * joint.mean
    push, mean_push = (pressure * pi / 4 * across**2 for across in (joint.outside, joint.mean))
    grip = 2 * joint.width * ring * gasket.m * pressure
    seating = joint.width * ring * gasket.y
    half = max(seating / 2, mean_push + grip / 2)
    return JointLoads(pressure=push, operating=push + grip, seating=seating, half_width=half)


def find_widest_joint(bore: float, gasket: GasketRow, *, pressure: float, load: float) -> Joint | None:
    """Find the widest joint round a bore that studs can bed and hold with a load; None where no joint is narrow enough.

    Parameters
    ----------
    bore: which the joint leaves free [m]
    gasket: what it is cut from; a row with both m and y
    pressure: at which it has to be tight, above the atmosphere [Pa]
    load: that all studs together can give [N]

    Raises
    ------
    DoesNotFit: the table has no m and y for that gasket
    OutOfRange: a pressure of less than nothing

    Source: asme-viii (appendix 2), as `find_joint_loads` has it
    """
    narrow, wide = _NARROWEST, bore
    if find_joint_loads(Joint(bore, bore + 2 * narrow), gasket, pressure=pressure).needed > load:
        return None
    # What is needed rises with the width: halving the range twenty times leaves a thousandth of a mm.
    for _ in range(20):
        middle = (narrow + wide) / 2
        needed = find_joint_loads(Joint(bore, bore + 2 * middle), gasket, pressure=pressure).needed
        narrow, wide = (middle, wide) if needed <= load else (narrow, middle)
    return Joint(bore, bore + 2 * narrow)


def load_stud(thread: ThreadRow, pull: float, *, metal: str = "steel", condition: str = "dry") -> StudLoad:
    """Work out what a pull makes of one stud, and the torque that gives it.

    Parameters
    ----------
    thread: of the stud
    pull: on one stud [N]
    metal: of the stud: one of `screws.SCREWS`
    condition: of its thread: one of `screws.COEFFICIENTS`

    Raises
    ------
    NotOneOf: a metal or a condition that is not known

    Source: iso-898-1 (stress area, proof stress); machinery-handbook (T = K d F)
    """
    screw = find_screw(metal)
    return StudLoad(
        thread=thread.name,
        metal=metal,
        condition=condition,
        pull=pull,
        stress=pull / stress_area(thread),
        proof=screw.proof,
        torque=torque_from_thrust(pull, thread.major, coefficient=find_coefficient(condition)),
        sources=(screw.source, _STUD_SOURCE),
    )


_STUD_SOURCE: Final = (
    "Stress on the mean of effective and minor diameter (ISO 898-1; BA and Whitworth by the same mean); torque "
    "T = K d F, K right to about a third."
)


def load_stud_by_torque(thread: ThreadRow, torque: float, *, metal: str = "steel", condition: str = "dry") -> StudLoad:
    """Work out what a torque has made of one stud: T / (K d) pulls it, and its stress area bears that.

    Parameters
    ----------
    thread: of the stud
    torque: what it was tightened with [N.m]
    metal: of the stud: one of `screws.SCREWS`
    condition: of its thread when it was tightened: one of `screws.COEFFICIENTS`

    Raises
    ------
    NotOneOf: a metal or a condition that is not known

    Source: machinery-handbook (T = K d F); iso-898-1 (stress area, proof stress)
    """
    pull = thrust_from_torque(torque, thread.major, coefficient=find_coefficient(condition))
    return load_stud(thread, pull, metal=metal, condition=condition)


def order_studs(count: int) -> tuple[int, ...]:
    """Return the order in which the studs of a cover are drawn down, counted round it from 1: always across.

    An even number goes by opposite pairs, each pair as far round from the last as may be; an odd one by the star that
    steps to the stud just short of opposite.

    Parameters
    ----------
    count: how many studs

    Raises
    ------
    OutOfRange: not one stud

    Source: common practice, no source

    Example:
    >>> order_studs(6), order_studs(5), order_studs(8)
    ((1, 4, 2, 5, 3, 6), (1, 3, 5, 2, 4), (1, 5, 3, 7, 2, 6, 4, 8))
    """
    if count < 1:
        raise OutOfRange(str(count), "is no number of studs", "count them")
    if count % 2:
        return tuple(1 + place * (count // 2) % count for place in range(count)) if count > 1 else (1,)
    half = count // 2
    return tuple(stud for first in _spread(half) for stud in (first + 1, first + 1 + half))


def _spread(count: int) -> list[int]:
    """Places on a ring, each as far as may be from all before it, and of those that are, from the last."""
    order = [0]
    while len(order) < count:
        left = [place for place in range(count) if place not in order]
        order.append(max(left, key=lambda place: (*_distances(place, order, count=count), -place)))
    return order


def _distances(place: int, taken: Sequence[int], *, count: int) -> tuple[int, int]:
    apart = [min((place - other) % count, (other - place) % count) for other in taken]
    return min(apart), apart[-1]


def find_chord(stud_circle: float, count: int) -> float:
    """Work out the distance between neighbouring holes, to be set on the dividers [m]: circle x sin(180 deg / number).

    Parameters
    ----------
    stud_circle: diameter of the circle through the holes [m]
    count: how many holes; with one there is no distance

    Raises
    ------
    OutOfRange: fewer than two holes, or a circle of nothing

    Source: exact geometry

    Example:
    >>> round(1e3 * find_chord(34e-3, 6), 2)
    17.0
    """
    if count < 2 or stud_circle <= 0:
        raise OutOfRange(f"{count} holes on {show_mm(stud_circle)}", "have no distance", "it takes two holes at least")
    return stud_circle * sin(pi / count)


def apply_old_rules(bore: float, stud: float) -> OldRule:
    """Work out what the rules of old books give for the studs of a cover; they are for full size, and refused below it.

    Number 0.01 D + 4 to 0.02 D + 4, pitch 20 to 30 times the root of d, circle D + 3 d, all in mm, no stud under 16 mm.

    Parameters
    ----------
    bore: of the cylinder [m], from 100 mm
    stud: diameter of a stud [m], from 16 mm

    Raises
    ------
    DoesNotFit: the bore or the stud is smaller than those rules are for

    Source: from memory (old text-books of machine design; one reprint has lost the sign of the root)
    """
    if bore < OLD_RULES_FROM or stud < _OLD_STUD_FROM:
        raise DoesNotFit(
            f"the old rules for studs are for full size, not a bore of {show_mm(bore)} and studs of {show_mm(stud)}",
            "under a bore of 100 mm or a stud of 16 mm work out the loads instead: by those rules a bore of 25 mm with "
            "studs of 3 mm would have three",
        )
    across, root = 1e3 * bore, sqrt(1e3 * stud)
    return OldRule((0.01 * across + 4, 0.02 * across + 4), (20e-3 * root, 30e-3 * root), bore + 3 * stud)
