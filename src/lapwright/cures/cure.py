"""What a cure says: what to do, to which sizes, and what the cylinder does afterwards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from lapwright.motion.answers import CylinderMotion
from lapwright.workshop.item import Item

if TYPE_CHECKING:
    from lapwright.cycle.comparing import Showing

#: How much work a cure is, least first.
WORKS = ("minutes", "an evening", "a new part")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """One way out of one or more findings of one cylinder.

    `answers` names the findings it clears; `left` the faults that would still be found afterwards. `set` holds the
    sizes to set, by name with their unit (`valve_length_mm`, `eccentric_angle_deg`, `spindle_turns`, ...); `changes`
    the same as record keys of the cylinder, in SI. `before_you_start` holds the cautions for this work, `have_ready`
    what it wants. `run` is how the engine does after it, and `gain` says what that gains; None and empty where no run
    can be worked out.
    """

    code: str
    cylinder: str
    title: str
    answers: tuple[str, ...]
    work: str
    steps: tuple[str, ...]
    set: Mapping[str, float | tuple[float, ...]]
    changes: Mapping[str, float]
    after: CylinderMotion
    left: tuple[str, ...] = ()
    before_you_start: tuple[str, ...] = ()
    have_ready: tuple[Item, ...] = ()
    gain: str = ""
    run: Showing | None = field(default=None, compare=False)
