"""The crank angles at which a turn is worked out: evenly spread, with every port event on a step's edge."""

from __future__ import annotations

import numpy as np

from lapwright.cycle.layout import GAMMA, Floats
from lapwright.motion.travel import TURN

#: After a port opens steps end at these shares of a usual one: the pressures rush together there, and at low speed a
#: thousandth of the mean pressure was lost on usual steps.
_GENTLE = (1 / 16, 1 / 4, 1 / 2, 3 / 4, 1, 3 / 2, 2)


def lay_mesh(corners: list[float], starts: list[float], *, steps: int) -> Floats:
    """Return the edges of a turn's steps [rad], rising from 0 to 2 pi.

    Parameters
    ----------
    corners: crank angles where an opening has a corner [rad]
    starts: crank angles at which a port opens [rad]
    steps: usual steps in a turn; those that the corners add come on top
    """
    usual = TURN / steps
    fixed = np.array([0.0, TURN, *corners, *((start + share * usual) % TURN for start in starts for share in _GENTLE)])
    fixed = np.unique(fixed)
    fixed = fixed[np.concatenate(([True], np.diff(fixed) > 1e-9))]
    fixed[-1] = TURN
    even = np.arange(1, steps) * usual
    after = np.searchsorted(fixed, even)
    free = np.minimum(even - fixed[after - 1], fixed[after] - even) > 0.2 * usual
    return np.asarray(np.sort(np.concatenate((fixed, even[free]))))


def place_stages(edges: Floats) -> tuple[Floats, Floats]:
    """Return the angles of all stages [rad], two a step, and the width of the step each belongs to [rad]."""
    widths = np.diff(edges)
    angles = np.empty(2 * len(widths))
    angles[0::2] = edges[:-1] + GAMMA * widths
    angles[1::2] = edges[1:]
    return angles, np.repeat(widths, 2)
