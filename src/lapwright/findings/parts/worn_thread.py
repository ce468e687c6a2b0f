"""Threads that are worn or stripped, and screws that are not the hole's own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.findings.finding import Finding
from lapwright.tables.naming import find_thread
from lapwright.workshop.matching import match_threads

CODE = "thread-worn"
#: What a fastener must not let go of.
VITAL = ("eccentric", "crank", "flywheel")


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every hole whose thread has gone, and every one with another screw in it."""
    for fastener in engine.fasteners:
        if is_worn(fastener):
            yield _tell(fastener)


def is_worn(fastener: Fastener) -> bool:
    """Say whether a fastener's hole wants a new thread: it is worn or stripped, or its screw is not its own."""
    return fastener.state in ("worn", "stripped") or _has_other_screw(fastener)


def _has_other_screw(fastener: Fastener) -> bool:
    thread, screw = fastener.thread, fastener.screw
    return bool(thread and screw) and screw != thread and screw not in find_thread(thread).twins


def _tell(fastener: Fastener) -> Finding:
    gone = fastener.state == "stripped"
    vital = fastener.holds in VITAL
    thread = f"{fastener.thread} thread" if fastener.thread else "thread"
    state = f"is {fastener.state}" if fastener.state in ("worn", "stripped") else "has a screw that is not its own"
    return Finding(
        code=CODE,
        cylinder=fastener.cylinder,
        end=None,
        severity="stops-it" if gone and vital else "spoils-it" if vital or gone else "worth-doing",
        size=None,
        unit="",
        title=f"The {thread} of the {fastener.name} {state}",
        because="; ".join(_list_evidence(fastener)),
        effect=_say_effect(fastener),
        check_next=(
            "wind a known good screw in by hand: it should turn in without play and pull up firm; rock it sideways and "
            "count the turns that hold"
        ),
        effects=("screw-will-not-hold",) if fastener.holds in VITAL else (),
        part=fastener.name,
    )


def _list_evidence(fastener: Fastener) -> Iterator[str]:
    if fastener.state in ("worn", "stripped"):
        yield f"its thread was found {fastener.state}"
    if fastener.thread and fastener.screw and _has_other_screw(fastener):
        match = match_threads(find_thread(fastener.screw), find_thread(fastener.thread))
        yield f"the screw in it is not its own: {match.sentence.rstrip('.')}"


def _say_effect(fastener: Fastener) -> str:
    if fastener.holds == "eccentric":
        return "the eccentric slips on its shaft, and every event of the valve with it"
    if fastener.holds in VITAL:
        return f"the {fastener.holds} works loose on its shaft"
    return "it cannot be drawn up: the joint leaks or the part shakes loose"
