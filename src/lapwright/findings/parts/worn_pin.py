"""Pins that have worn loose in the part that turns on them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Pin
from lapwright.findings.finding import Finding
from lapwright.workshop.clearances import AT_LIMIT, WORN, ClearanceVerdict, judge_clearance

CODE = "pin-worn"
#: Where a pin rocks in a fork it knocks before it is worn out; a crank pin goes round in oil, and may stay.
_ROCKING = ("valve fork", "crosshead", "eccentric rod")


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every pin with more clearance than its bearing may have."""
    for pin in engine.pins:
        judged = judge_play(pin)
        if judged is None:
            continue
        if judged.verdict == WORN or (judged.verdict == AT_LIMIT and pin.joint in _ROCKING):
            yield _tell(pin, judged)


def judge_play(pin: Pin) -> ClearanceVerdict | None:
    """Judge the clearance of a pin in the part that turns on it; None where either has not been measured."""
    if pin.diameter is None or pin.hole is None:
        return None
    return judge_clearance(pin.hole - pin.diameter, diameter=pin.diameter)


def _tell(pin: Pin, judged: ClearanceVerdict) -> Finding:
    return Finding(
        code=CODE,
        cylinder=pin.cylinder,
        end=None,
        severity="spoils-it" if judged.verdict == WORN else "worth-doing",
        size=judged.measured * 1e3,
        unit="mm",
        title=f"The {pin.name} is worn loose",
        because=judged.sentence.rstrip("."),
        effect="it knocks at every dead centre, and what it moves comes late by that much",
        check_next="hold one part and rock the other along the motion; measure pin and hole where they are worn most",
        part=pin.name,
    )
