"""What to do about each kind of fault of a gland, a screw, a pin or a cover."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts import cover, gland, grip, pin, thread
from lapwright.engine.engine import Engine
from lapwright.findings.finding import Finding
from lapwright.findings.parts.names import tell_apart

if TYPE_CHECKING:
    from lapwright.cycle.part_loads import PartLoads

Loads = Mapping[str, "PartLoads"]
_REMEDIES: Mapping[str, Callable[[Finding, Engine, Loads], PartCure | None]] = {
    "gland-leaks": gland.cure,
    "packing-unsuitable": lambda finding, engine, loads: (
        cover.cure(finding, engine, loads) or gland.cure(finding, engine, loads)
    ),
    "thread-worn": thread.cure,
    "screw-will-not-hold": grip.cure,
    "thread-as-bearing": pin.cure,
    "pin-worn": pin.cure,
    "stud-overloaded": cover.cure,
}


def find_part_cures(engine: Engine, findings: tuple[Finding, ...], loads: Loads) -> tuple[PartCure, ...]:
    """Return the way out of each finding of a part, in their order; one work that answers two stands once.

    Parameters
    ----------
    engine: the engine as its record tells of it
    findings: what `find_part_faults` found in it
    loads: what each cylinder's parts have to bear, empty where no run can be worked out
    """
    engine = tell_apart(engine)
    cures: dict[tuple[str, str, str], PartCure] = {}
    for finding in findings:
        cure = _REMEDIES[finding.code](finding, engine, loads)
        if cure is None:
            continue
        work = (cure.cylinder, cure.part, cure.code)
        cures[work] = _add_answer(cures[work], finding) if work in cures else cure
    return tuple(cures.values())


def _add_answer(cure: PartCure, finding: Finding) -> PartCure:
    return replace(cure, answers=tuple(dict.fromkeys((*cure.answers, finding.code))))
