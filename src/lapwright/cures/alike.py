"""Cylinders that differ: set the one as the other."""

from __future__ import annotations

from math import degrees

from lapwright.cures.action import OPENING_UP
from lapwright.cures.cure import Cure
from lapwright.cures.ready import list_ready
from lapwright.engine.sizes import Sizes
from lapwright.findings.cylinders import compare_cylinders
from lapwright.findings.edges import set_exhaust_laps, set_steam_laps
from lapwright.findings.reading import Reading

ANGLE, OFFSET = "valve_drive.eccentric_angle", "valve_drive.valve_offset"


def cure_difference(model: Sizes, other: Sizes) -> list[Cure]:
    """Return ways to time a cylinder as the first one is timed, the least work first."""
    first, own = Reading(model), Reading(other)
    setting = {key: model.numbers[key] for key in (ANGLE, OFFSET) if key in model.numbers and key in other.numbers}
    valve = dict(setting)
    if first.steam_laps is not None and first.exhaust_laps is not None and own.steam_laps is not None:
        level = own.changed(set_steam_laps(own, first.steam_laps))
        valve |= {**set_steam_laps(own, first.steam_laps), **set_exhaust_laps(level, first.exhaust_laps)}
    cures = []
    for changes, work in ((setting, "minutes"), (valve, "a new part")):
        after = own.changed(changes)
        if changes and not compare_cylinders((first, after)):
            cures.append(_describe(model, after, changes=changes, work=work))
    return cures[:1]


def _describe(model: Sizes, after: Reading, *, changes: dict[str, float], work: str) -> Cure:
    angle, offset = after.sizes.numbers.get(ANGLE, 0.0), after.offset
    new = work == "a new part"
    steps = [
        f"Set the eccentric {degrees(angle):.1f} deg ahead of its own crank, as in cylinder {model.name}.",
        f"Set the valve {offset * 1e3:+.2f} mm from the middle of its travel (towards the head end is +).",
        "Measure both leads on both cylinders and make them alike.",
    ]
    if new:
        steps.insert(0, f"Make a valve with the laps of cylinder {model.name}'s.")
    return Cure(
        code="set-alike" if not new else "new-valve-alike",
        cylinder=after.sizes.name,
        title=f"Time the cylinder as cylinder {model.name} is timed",
        answers=("cylinders-differ",),
        work=work,
        steps=tuple(steps),
        set={"eccentric_angle_deg": degrees(angle), "valve_offset_mm": offset * 1e3},
        changes=changes,
        after=after.motion,
        before_you_start=(OPENING_UP,),
        have_ready=list_ready(("turn-eccentric", "new-valve" if new else "move-on-spindle"), after.sizes),
    )
