"""Screws anywhere but in a cover that were drawn beyond what they bear."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.engine.sizes import Assumed
from lapwright.errors import BadInput
from lapwright.findings.finding import Finding
from lapwright.findings.parts.names import name_fasteners
from lapwright.findings.parts.taking import NO_SOURCE, list_missing, say_taken
from lapwright.tables.naming import find_thread
from lapwright.workshop.tightening import Tightening, find_tightening, say_torque

CODE = "stud-overloaded"
_METAL, _ENGAGED = "brass", 1.0


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every screw that was drawn beyond what gives way first."""
    for fastener in engine.fasteners:
        held = judge_drawn(fastener)
        if held is not None and fastener.torque is not None and fastener.torque > held.first.torque:
            yield _tell(fastener, held)


def judge_drawn(fastener: Fastener) -> Tightening | None:
    """Work out what a screw bears; None for a cover's, whose joint has its own say, or where too little is known."""
    if fastener.holds == "cover" or fastener.thread is None:
        return None
    row = find_thread(fastener.thread)
    try:
        return find_tightening(
            row,
            hole=fastener.hole_material or _METAL,
            engagement=fastener.engagement or _ENGAGED * row.major,
            screw=fastener.screw_material or "steel",
            condition=fastener.thread_is or "dry",
            worn=fastener.state == "worn",
            grub=fastener.kind == "grub screw",
        )
    except BadInput:
        return None


def list_taken(fastener: Fastener) -> tuple[Assumed, ...]:
    """Return what was taken for what nobody gave of a screw."""
    usual = {
        "hole_material": (_METAL, f"the usual metal ({NO_SOURCE})"),
        "engagement": ("one diameter of the screw", f"usual ({NO_SOURCE})"),
        "thread_is": ("dry", "dry, which pulls least for a torque"),
    }
    if fastener.kind != "grub screw":
        usual["screw_material"] = ("steel", "of class 4.6, the weaker")
    return list_missing(fastener, usual)


def _tell(fastener: Fastener, held: Tightening) -> Finding:
    name, verb = name_fasteners(fastener)
    first, taken = held.first, list_taken(fastener)
    torque = fastener.torque or 0.0
    return Finding(
        code=CODE,
        cylinder=fastener.cylinder,
        end=None,
        severity="spoils-it",
        size=100 * torque / first.torque,
        unit="%",
        title=f"The {name} {verb} drawn too tight",
        because=(
            f"{say_torque(torque)} was put on, and the {first.part} {first.how} at {say_torque(first.torque)}"
            f"{say_taken(taken)}; {say_torque(held.torque)} is what may be used"
        ),
        effect="what has stretched or begun to strip has lost its grip, and goes at the next pull",
        check_next=(
            "take one out: the threads of a stretched screw no longer match a new one's, and a stripped hole sheds dust"
        ),
        rests_on=tuple(assumed.key for assumed in taken),
        part=fastener.name,
    )
