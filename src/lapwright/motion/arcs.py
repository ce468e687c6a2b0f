"""From valve positions to parts of a turn: when, in crank angle, the valve stands in a region."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.motion.regions import Region
from lapwright.motion.travel import TURN, ValveTravel


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a turn: it begins at `start` [rad, 0 to 2 pi] and lasts for `sweep` [rad].

    A whole turn has no beginning and no end: `whole` is true.
    """

    start: float
    sweep: float

    @property
    def whole(self) -> bool:
        """Whether the arc is the whole turn."""
        return self.sweep >= TURN

    @property
    def stop(self) -> float:
        """Crank angle at which the arc ends [rad, 0 to 2 pi]."""
        return (self.start + self.sweep) % TURN

    def holds(self, angle: float) -> bool:
        """Whether a crank angle [rad] lies within the arc."""
        return (angle - self.start) % TURN <= self.sweep


def find_arcs(valve: ValveTravel, region: Region) -> tuple[Arc, ...]:
    """Return the parts of a turn during which the valve stands in a region, by rising start angle.

    Source: exact geometry; every end of an arc is one crossing in closed form
    """
    arcs: list[Arc] = []
    for low, high in region:
        if low <= valve.low and high >= valve.high:
            return (Arc(0.0, TURN),)
        if high <= valve.low or low >= valve.high:
            continue
        if low <= valve.low:
            down, up = valve.find_angles(high)
            arcs.append(_join(down, up))
        elif high >= valve.high:
            down, up = valve.find_angles(low)
            arcs.append(_join(up, down))
        else:
            (low_down, low_up), (high_down, high_up) = valve.find_angles(low), valve.find_angles(high)
            arcs += [_join(low_up, high_up), _join(high_down, low_down)]
    return tuple(sorted(arcs, key=lambda arc: arc.start))


def _join(start: float, stop: float) -> Arc:
    return Arc(start, (stop - start) % TURN)


def sum_arcs(arcs: tuple[Arc, ...]) -> float:
    """Return how much of a turn the arcs last together [rad]."""
    return sum(arc.sweep for arc in arcs)


def share_of_turn(arcs: tuple[tuple[float, float], ...], *, turn: float = TURN) -> float:
    """Return how much of a turn arcs (start, stop) take up, 0 to 1; one that stops where it starts is a whole turn.

    Parameters
    ----------
    arcs: not overlapping, each as the angle grows
    turn: a whole turn in the unit of the arcs [any]

    Example:
    >>> share_of_turn(((350.0, 80.0),), turn=360.0), share_of_turn(((0.0, 360.0),), turn=360.0)
    (0.25, 1.0)
    """
    return sum((stop - start) % turn or turn for start, stop in arcs) / turn
