"""Bolts used as pins: the moving part runs on thread, which is no bearing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Pin
from lapwright.engine.sizes import Assumed
from lapwright.findings.finding import Finding
from lapwright.findings.parts.taking import list_missing, say_taken
from lapwright.workshop.pins import ShankVerdict, judge_thread_in_bearing

CODE = "thread-as-bearing"
#: More of the moving part than this on thread spoils its running [-]; common practice, no source.
_MUCH = 0.1


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every pin with a thread whose plain shank is shorter than the part that turns on it."""
    for pin in engine.pins:
        judged = judge_shank(pin)
        if judged is not None and judged.thread_inside > 0:
            yield _tell(pin, judged)


def judge_shank(pin: Pin) -> ShankVerdict | None:
    """Judge the shank of a pin with a thread; None where it has none, or a length is not known."""
    # A screw is threaded to its head.
    plain = 0.0 if pin.plain_length is None and pin.kind == "screw" else pin.plain_length
    has_thread = pin.thread is not None or pin.kind in ("bolt", "screw", "shouldered pin")
    if pin.kind == "plain pin" or not has_thread or plain is None or pin.moving_part is None:
        return None
    return judge_thread_in_bearing(plain, pin.moving_part)


def list_taken(pin: Pin) -> tuple[Assumed, ...]:
    """Return what was taken for the shank of a screw that nobody measured."""
    return list_missing(pin, {"plain_length": ("0 mm", "threaded to the head, as screws are")})


def _tell(pin: Pin, judged: ShankVerdict) -> Finding:
    taken = list_taken(pin)
    what = pin.kind if pin.kind in ("bolt", "screw") else "pin"
    return Finding(
        code=CODE,
        cylinder=pin.cylinder,
        end=None,
        severity="spoils-it" if judged.thread_inside > _MUCH * judged.moving_part else "worth-doing",
        size=judged.thread_inside * 1e3,
        unit="mm",
        title=f"The part on the {pin.name} turns on the thread of a {what}",
        because=f"{judged.sentence.rstrip('.')}{say_taken(taken)}, counted from where the part begins",
        effect="; ".join(f"{reason[:1].lower()}{reason[1:].rstrip('.')}" for reason in judged.reasons[:2]),
        check_next="draw it out and look: bright crests, and a mark of each thread in the hole",
        rests_on=tuple(assumed.key for assumed in taken),
        part=pin.name,
    )
