"""How a size is measured: with what, how, and how closely that usually comes out."""

from __future__ import annotations

from dataclasses import dataclass

#: What all guidance rests on, to be said once where it is shown.
GUIDE_SOURCE = "common practice, no source"
TURN_CAUTION = (
    "Before you turn the engine over by hand: supply shut and disconnected, drain cocks open, nobody's fingers near "
    "crank, eccentric or flywheel."
)
OPEN_CAUTION = (
    "Before a cover or a gland is opened: no pressure anywhere, the engine cold, drain cocks open and seen to be clear."
)
PACKING_CAUTION = (
    "Old packing, lagging and sheet joints may hold asbestos: leave them wet and undisturbed, and follow your local "
    "rules, until you know."
)
PRESSURE_CAUTION = (
    "With air or steam on, keep clear of everything that turns, and stay within what boiler, hose and gauge are "
    "tested for; boiler and safety valve are the inspector's business."
)
TEST_CAUTION = (
    "A bench test runs under pressure: guards on, hair and sleeves tied back, drain cocks within reach, nobody in the "
    "plane of the flywheel."
)


@dataclass(frozen=True, slots=True)
class Guide:
    """How a size is measured: tool, way, usual accuracy, and what to be careful of (may be empty)."""

    tool: str
    way: str
    accuracy: str
    caution: str = ""
