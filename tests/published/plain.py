"""The engine on which the books' statements of effects are tried, and how its events shift."""

from __future__ import annotations

from math import asin

from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import EVENTS
from tests.published.card_events import read_card_event
from tests.published.engines import build, say_shifts

#: Half-travel 1, lap 0.4, lead 0.05, exhaust lap 0.1, infinite rods; so its angle of advance is [rad]:
ADVANCE = asin(0.45)
EXHAUST = ("release", "compression")
ALL_EARLIER = "admission earlier, cut-off earlier, release earlier, compression earlier"


def plain(**changes: float) -> Sizes:
    """The plain engine with changes as for `build`; the eccentric stays where it is unless it is turned."""
    return build(**{"throw": 1.0, "lap": 0.4, "advance": ADVANCE, "exhaust_lap": 0.1, "port": 1.0, **changes})  # type: ignore[arg-type]


def shift(events: tuple[str, ...] = EVENTS, **changes: float) -> str:
    """How the events shift when the plain engine is changed so, in words."""
    return say_shifts(plain(), plain(**changes), events)


def shift_on_card(events: tuple[str, ...] = EVENTS, **changes: float) -> str:
    """How they shift on the card, the engine run before and after."""
    return say_shifts(plain(), plain(**changes), events, read=read_card_event)
