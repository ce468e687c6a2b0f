"""Trying whether an engine starts by itself: what was asked, and the answer at rest."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import degrees

from lapwright.cycle.layout import Floats
from lapwright.cycle.starting import Direction, Starting, find_starting
from lapwright.job.run.stand import Asked, Stand, prepare_stand
from lapwright.job.visit import Visit
from lapwright.motion.arcs import share_of_turn

#: What nobody gave and an engine at rest does not ask for, by the key or how its last part begins.
_MOVING = ("speed", "supply_temperature", "steam_dryness")
_VOLUMES = ("clearance_", "passage_", "port_length")
_TURN = 360.0

Arcs = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Starting one way round, told in degrees of the first crank; each arc (start, stop) as the angle grows.

    From `starts` the engine moves off, from `never` it does not, from `perhaps` it hangs on what stands in a closed
    end; from `carries` it also gets over the next dead places. `torque` [N m] is what is sure at `best_angle` [deg];
    `least_pressure` [Pa, absolute] moves it from every angle, None where none does.
    """

    starts: Arcs
    perhaps: Arcs
    never: Arcs
    carries: Arcs
    best_angle: float
    torque: float
    least_pressure: float | None

    @property
    def share(self) -> float:
        """The part of the turn from which it surely moves off, 0 to 1."""
        return share_of_turn(self.starts, turn=_TURN)

    @property
    def dead_share(self) -> float:
        """The part of the turn from which it never does, 0 to 1."""
        return share_of_turn(self.never, turn=_TURN)


@dataclass(frozen=True, slots=True, kw_only=True)
class StartTrial:
    """One engine at rest: how it was put on the stand, the torque all round, and what there is to say of it."""

    name: str
    rotation: str | None
    stand: Stand
    starting: Starting
    forward: Way
    backward: Way
    notes: tuple[str, ...]


def try_starting(visit: Visit, asked: Asked) -> StartTrial:
    """Find out whether an engine starts by itself, as it was asked for.

    Parameters
    ----------
    visit: the engine
    asked: what to put it on; speed and load do not matter

    Raises
    ------
    BadInput: something asked for cannot be read
    CannotRun: it cannot be worked out; the sentence says why
    """
    stand = prepare_stand(visit, asked)
    stand = replace(stand, assumed=tuple(assumed for assumed in stand.assumed if _matters_at_rest(assumed.key)))
    starting = find_starting(stand.plant, stand.conditions)
    forward = _tell_way(starting.forward, starting.angles, sure=starting.worst)
    backward = _tell_way(starting.backward, starting.angles, sure=-starting.best)
    return StartTrial(
        name=visit.engine.name,
        rotation=visit.engine.rotation,
        stand=stand,
        starting=starting,
        forward=forward,
        backward=backward,
        notes=tuple(_tell(forward, backward, stand)),
    )


def _matters_at_rest(key: str) -> bool:
    if key.startswith("running."):
        return key == "running.friction_pressure"
    return key not in _MOVING and not key.rpartition(".")[2].startswith(_VOLUMES)


def _tell_way(direction: Direction, angles: Floats, *, sure: Floats) -> Way:
    starts, never, carries = (_in_degrees(arcs) for arcs in (direction.starts, direction.never, direction.carries))
    return Way(
        starts=starts,
        perhaps=find_between(starts, never),
        never=never,
        carries=carries,
        best_angle=degrees(direction.best_angle),
        torque=float(sure[int(abs(angles - direction.best_angle).argmin())]),
        least_pressure=direction.least_pressure,
    )


def _in_degrees(arcs: Arcs) -> Arcs:
    return tuple((degrees(start), degrees(stop)) for start, stop in arcs)


def find_between(*taken: Arcs) -> Arcs:
    """Return the arcs of a turn that lie between others, all in degrees.

    Example:
    >>> find_between(((10.0, 170.0),), ((200.0, 350.0),))
    ((170.0, 200.0), (350.0, 10.0))
    """
    arcs = sorted(arc for one in taken for arc in one)
    if not arcs:
        return ((0.0, _TURN),)
    following = [*arcs[1:], arcs[0]]
    between = ((stop % _TURN, start) for (_, stop), (start, _) in zip(arcs, following, strict=True))
    return tuple((start, stop) for start, stop in between if abs(start - stop) > 1e-6)


def _tell(forward: Way, backward: Way, stand: Stand) -> Iterator[str]:
    if backward.share > forward.share:
        yield "It starts better the other way round: look where its eccentric stands."
    elif forward.starts and not forward.carries:
        yield "Wherever it moves off, it comes to rest again before it is round."
    if stand.plant.dead:
        yield f"Cylinder {' and '.join(stand.plant.dead)} does not help: its pipes are off."
