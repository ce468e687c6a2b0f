"""The events of many engines at once: the same closed form as for one, over arrays."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from lapwright.motion.linkage import find_crossing, slide_limits, slide_position

Floats = NDArray[np.float64]

#: The rows of the answers, in this order.
EVENT_ROWS = tuple(
    f"{end}.{event}" for end in ("head", "crank") for event in ("admission", "cut_off", "release", "compression")
)
#: Engines worked on at a time: few enough that every intermediate array stays in the processor's cache.
BATCH = 2048


@dataclass(frozen=True, slots=True, kw_only=True)
class EngineArrays:
    """Many engines' sizes, each a float or an array with one entry an engine; lengths in m, angles in rad.

    The laps are those of `find_laps`, in m. `hand` is +1 for admission over the outside edges with a direct drive,
    -1 for admission over the inside edges; a reversing rocker changes its sign again.
    """

    stroke: Floats | float
    connecting_rod: Floats | float
    cylinder_offset: Floats | float
    throw: Floats | float
    eccentric_rod: Floats | float
    eccentric_angle: Floats | float
    valve_line_offset: Floats | float
    valve_offset: Floats | float
    head_steam_lap: Floats | float
    head_exhaust_lap: Floats | float
    crank_steam_lap: Floats | float
    crank_exhaust_lap: Floats | float
    hand: Floats | float = 1.0
    rocker: Floats | float = 1.0


@dataclass(frozen=True, slots=True)
class EventArrays:
    """Events of many engines, shape (8, engines), rows as `EVENT_ROWS`; NaN where an event never happens.

    `crank_deg` in degrees of crank turn, 0 to 360; `stroke_share` as shares of the true travel, 0 to 1, counted as
    conventions say: from the dead centre at which that end's working stroke begins.
    """

    crank_deg: Floats
    stroke_share: Floats

    @property
    def happens(self) -> NDArray[np.bool_]:
        """Mask of the events that happen; the others lie beyond the valve's travel."""
        return ~np.isnan(self.crank_deg)


def find_events_of_many(engines: EngineArrays) -> EventArrays:
    """Return every engine's eight events from its laps.

    Only the valve's working edges count: an event that a valve's far end makes by over-running the port is
    left to `describe_motion`, which looks at one engine whole.

    Source: exact geometry; the same algebra as for one engine (`find_crossing`)
    """
    given = {field.name: np.asarray(getattr(engines, field.name), dtype=np.float64) for field in fields(engines)}
    count = int(np.broadcast_shapes((1,), *(value.shape for value in given.values()))[0])
    crank_deg, stroke_share = np.empty((8, count)), np.empty((8, count))
    with np.errstate(invalid="ignore"):
        for start in range(0, count, BATCH):
            part = slice(start, min(start + BATCH, count))
            batch = {name: value[part] if value.size > 1 else value for name, value in given.items()}
            _work_batch(batch, crank_deg[:, part], stroke_share[:, part])
    return EventArrays(crank_deg, stroke_share)


def _work_batch(engine: dict[str, Floats], crank_deg: Floats, stroke_share: Floats) -> None:
    throw, rod, offset = engine["throw"], engine["eccentric_rod"], engine["valve_line_offset"]
    near, far = slide_limits(throw, rod, offset, root=np.sqrt)
    middle, hand, rocker = (near + far) / 2, engine["hand"], engine["rocker"]
    ahead = np.cos(engine["eccentric_angle"]), np.sin(engine["eccentric_angle"])
    piston = _Piston(engine)
    # The valve position at which each pair of events happens, and the row of the one on the way to the crank end.
    edges = (
        (-hand * engine["head_steam_lap"], 0, 1),
        (hand * engine["head_exhaust_lap"], 3, 2),
        (hand * engine["crank_steam_lap"], 5, 4),
        (-hand * engine["crank_exhaust_lap"], 6, 7),
    )
    swap = hand * rocker < 0
    any_swap = swap.any()
    for position, nearing_row, leaving_row in edges:
        place = middle + rocker * (position - engine["valve_offset"])
        c1, s1, c2, s2 = find_crossing(throw, rod, offset, position=place, root=np.sqrt)
        if any_swap:
            c1, c2, s1, s2 = (
                np.where(swap, c2, c1),
                np.where(swap, c1, c2),
                np.where(swap, s2, s1),
                np.where(swap, s1, s2),
            )
        for cosine, sine, row in ((c1, s1, nearing_row), (c2, s2, leaving_row)):
            crank_cosine = cosine * ahead[0] + sine * ahead[1]
            crank_sine = sine * ahead[0] - cosine * ahead[1]
            _write_angle(crank_cosine, crank_sine, crank_deg[row])
            piston.write_share(crank_cosine, crank_sine, row=row, out=stroke_share[row])


def _write_angle(cosine: Floats, sine: Floats, out: Floats) -> None:
    np.arctan2(sine, cosine, out=out)
    np.multiply(out, 180 / np.pi, out=out)
    # Nothing or a whole turn is added to every angle: quicker than picking out those below 0.
    np.add(out, (out < 0) * 360.0, out=out)


class _Piston:
    """The pistons of one batch: where each has got to at a crank direction."""

    def __init__(self, engine: dict[str, Floats]) -> None:
        self.throw, self.rod, self.offset = engine["stroke"] / 2, engine["connecting_rod"], engine["cylinder_offset"]
        self.low, self.high = slide_limits(self.throw, self.rod, self.offset, root=np.sqrt)
        self.scale = 1 / (self.high - self.low)

    def write_share(self, cosine: Floats, sine: Floats, *, row: int, out: Floats) -> None:
        place = slide_position(self.throw, self.rod, self.offset, cosine=cosine, sine=sine, root=np.sqrt)
        gone = self.high - place if row < 4 else place - self.low
        np.multiply(gone, self.scale, out=out)
