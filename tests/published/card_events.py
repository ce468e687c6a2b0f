"""The four events read off the card of a run, not from the gear: where what is shut in begins and ceases to change."""

from __future__ import annotations

from math import degrees, pi

import numpy as np
from numpy.typing import NDArray

from lapwright.engine.sizes import Sizes
from tests.published.running import on_air, run_one

#: A mass that changes by less than this share from one place to the next is shut in.
STILL = 1e-8
#: Turns a minute at which the large engines of the books are run.
EASY = 60.0


def read_card_event(sizes: Sizes, event: str, *, end: str = "head", rpm: float = EASY) -> float:
    """Return the crank angle [deg] of an event as the card shows it, the engine on air of 2 bar without leaks.

    Pressure x volume / temperature is the mass inside: it stands still from cut-off to release, and again from
    compression to admission.
    """
    run = run_one(on_air(2.0, rpm), sizes)
    card = run.ends[end]
    mass = card.pressures * card.volumes / card.temperatures
    arcs = find_still(mass / mass.max(), run.angles)
    assert len(arcs) == 2, f"shut {len(arcs)} times in a turn"
    outward = 0.0 if end == "head" else pi
    arcs.sort(key=lambda arc: (arc[0] - outward) % (2 * pi))
    (cut_off, release), (compression, admission) = arcs
    found = {"cut_off": cut_off, "release": release, "compression": compression, "admission": admission}
    return degrees(found[event])


def find_still(mass: NDArray[np.float64], angles: NDArray[np.float64]) -> list[tuple[float, float]]:
    """Return the arcs over which a mass stands still [rad]; those of a single step do not count."""
    still = np.abs(np.roll(mass, -1) - mass) < STILL
    # A turn repeats the one before to a millionth only, so nothing is said where they join.
    still[-1] = still[-2] and still[0]
    starts = np.flatnonzero(still & ~np.roll(still, 1))
    stops = np.flatnonzero(still & ~np.roll(still, -1))
    if stops[0] < starts[0]:
        stops = np.roll(stops, -1)
    last = (stops + 1) % len(angles)
    return [(float(angles[a]), float(angles[b])) for a, b in zip(starts, last, strict=True) if (b - a) % len(mass) > 2]
