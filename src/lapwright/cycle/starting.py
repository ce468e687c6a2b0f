"""Whether an engine starts by itself, and from where: the torque at rest, all round the turn."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lapwright.cycle.conditions import Conditions, Setup
from lapwright.cycle.engine_run import Plant
from lapwright.cycle.layout import Floats
from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import Assumed
from lapwright.errors import CannotRun
from lapwright.motion.answers import set_moving
from lapwright.motion.arcs import share_of_turn
from lapwright.motion.travel import TURN
from lapwright.motion.ways import measure_openings, place_piston, place_valve
from lapwright.quantities.pressure import ATMOSPHERE

#: Places of the crank that are looked at.
POINTS = 720

Arcs = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Direction:
    """Starting one way round: arcs of the first crank's angle [rad], each (start, stop) as the angle grows.

    From `starts` it moves off whatever stands in a closed end; from `never` it does not whatever stands there; between
    them it depends on how long it has stood. `carries` is the part of `starts` from which it also gets over the next
    dead places and goes on turning. `least_pressure` [Pa, absolute] moves it from every angle; None where none does.
    """

    starts: Arcs
    never: Arcs
    carries: Arcs
    least_pressure: float | None
    best_angle: float

    @property
    def share(self) -> float:
        """The part of the turn from which it surely moves off, 0 to 1."""
        return share_of_turn(self.starts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Starting:
    """The torque at rest over `angles` [rad] of the first crank, friction left out [N m].

    A closed end may have leaked down to exhaust or up to supply pressure: `worst` takes of either what hinders turning
    forward, `best` what helps; `friction` is the torque to be overcome. Forward is the direction in which the record
    counts its angles.
    """

    conditions: Conditions
    angles: Floats
    worst: Floats
    best: Floats
    friction: float
    forward: Direction
    backward: Direction
    assumed: tuple[Assumed, ...]


@dataclass(frozen=True, slots=True)
class _Rest:
    """Torque at rest per pascal [m3]: of exhaust pressure all over, and of supply pressure above it, worst and best."""

    base: Floats
    worst: Floats
    best: Floats


def find_starting(plant: Plant, conditions: Conditions) -> Starting:
    """Find the torque at rest, the arcs from which the engine starts or never does, and the least pressure for it.

    An end open to the chest stands at supply pressure, open to exhaust at exhaust pressure, open to both between the
    two by its openings; a closed end is looked at both ways. Friction is the running engine's.

    Parameters
    ----------
    plant: the engine ready to be run
    conditions: what it is put on; their speed does not matter

    Raises
    ------
    CannotRun: a gear that cannot turn

    Source: exact geometry (statics of the slider-crank)
    """
    angles = np.linspace(0.0, TURN, POINTS, endpoint=False)
    above = conditions.supply - conditions.exhaust
    base, worst, best = np.zeros(POINTS), np.zeros(POINTS), np.zeros(POINTS)
    for setup in plant.setups:
        if setup.sizes.name not in plant.dead:
            rest = _find_rest(setup, angles + plant.phases[setup.sizes.name])
            base += rest.base * (conditions.exhaust - ATMOSPHERE)
            worst += rest.worst
            best += rest.best
    friction = plant.friction_torque(ideal=conditions.ideal)
    low, high = base + above * worst, base + above * best
    return Starting(
        conditions=conditions,
        angles=angles,
        worst=low,
        best=high,
        friction=friction,
        forward=_look(angles, low, high, friction=friction, least=_least(base, worst, conditions, friction=friction)),
        backward=_look(
            angles[::-1],
            -high[::-1],
            -low[::-1],
            friction=friction,
            least=_least(-base, -best, conditions, friction=friction),
            turned=True,
        ),
        assumed=plant.assumed,
    )


def _find_rest(setup: Setup, angles: Floats) -> _Rest:
    """One cylinder's part, at angles of its own crank."""
    moving = set_moving(setup.sizes)
    if moving.piston is None or moving.valve is None or not moving.cylinder.can_turn:
        raise CannotRun(f"cylinder {setup.sizes.name}", "its sizes do not make a cylinder that turns")
    ways = measure_openings(moving.cylinder, place_valve(moving.valve, angles))
    if ways is None:
        raise CannotRun(f"cylinder {setup.sizes.name}", "its valve or its port face is not known")
    _, speed = place_piston(moving.piston, angles)
    base, worst, best = np.zeros(len(angles)), np.zeros(len(angles)), np.zeros(len(angles))
    for end, sign in ENDS.items():
        area = moving.cylinder.area[end] or 0.0
        arm = sign * area * speed
        steam, exhaust = ways.steam[end] ** 2, ways.exhaust[end] ** 2
        with np.errstate(invalid="ignore"):
            share = steam / (steam + exhaust)
        shut = (steam == 0) & (exhaust == 0)
        base += arm
        worst += np.where(shut, np.minimum(arm, 0.0), arm * share)
        best += np.where(shut, np.maximum(arm, 0.0), arm * share)
    return _Rest(base, worst, best)


def _look(
    angles: Floats, low: Floats, high: Floats, *, friction: float, least: float | None, turned: bool = False
) -> Direction:
    """Read one direction off; `low` and `high` are the torques that turn it that way, in the order it meets them."""
    starts, moves = low > friction, high > friction
    carries = starts & _carry(low - friction)
    best = float(angles[int(np.argmax(low))])
    return Direction(
        starts=_find_arcs(angles, starts, turned),
        never=_find_arcs(angles, ~moves, turned),
        carries=_find_arcs(angles, carries, turned),
        least_pressure=least,
        best_angle=best,
    )


def _carry(spare: Floats) -> NDArray[np.bool_]:
    """Mark from where the work done, less friction, never falls below nothing over the turn that follows."""
    work = np.cumsum(np.concatenate((spare, spare)))
    count = len(spare)
    # The least of the work over the next turn, for every place: backwards, keeping what is lowest so far ahead.
    lowest = np.array([work[n : n + count].min() for n in range(count)])
    before = np.concatenate(([0.0], work[: count - 1]))
    return np.asarray(lowest >= before)


def _find_arcs(angles: Floats, marked: NDArray[np.bool_], turned: bool) -> Arcs:
    """Gather marked places into arcs, always told as the crank's angle grows."""
    if turned:
        angles, marked = angles[::-1], marked[::-1]
    if marked.all():
        return ((0.0, TURN),)
    step = TURN / len(angles)
    starts = np.flatnonzero(marked & ~np.roll(marked, 1))
    stops = np.flatnonzero(marked & ~np.roll(marked, -1))
    if len(starts) and stops[0] < starts[0]:
        stops = np.roll(stops, -1)
    return tuple((float(angles[a]), float(angles[b] + step) % TURN) for a, b in zip(starts, stops, strict=True))


def _least(base: Floats, rest: Floats, conditions: Conditions, *, friction: float) -> float | None:
    """The supply [Pa, absolute] that overcomes friction at every angle; None where some angle has no torque at all."""
    wanted = friction - base * (conditions.exhaust - ATMOSPHERE)
    if (rest <= 1e-12 * np.abs(rest).max()).any():
        return None
    return float(conditions.exhaust + max(np.max(wanted / rest), 0.0))
