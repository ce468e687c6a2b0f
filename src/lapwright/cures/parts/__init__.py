"""What to do about each kind of fault of a gland, a screw, a pin or a cover."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts import cover, gland, grip, pin, renew, thread
from lapwright.engine.engine import Engine
from lapwright.findings.finding import Finding
from lapwright.findings.parts.names import tell_apart

if TYPE_CHECKING:
    from lapwright.cycle.part_loads import PartLoads

Loads = Mapping[str, "PartLoads"]
Remedy = Callable[[Finding, Engine, Loads], PartCure | None]


def _first_of(*remedies: Remedy) -> Remedy:
    """The first remedy that knows what to do about the part that is found."""

    def cure(finding: Finding, engine: Engine, loads: Loads) -> PartCure | None:
        return next((made for remedy in remedies if (made := remedy(finding, engine, loads)) is not None), None)

    return cure


def _mend_thread(finding: Finding, engine: Engine, loads: Loads) -> PartCure | None:
    """A hole that is sound gets its own screw back; only one that is worn is cut."""
    fastener = thread.find_fastener(finding, engine)
    if fastener is not None and fastener.state in (None, "sound"):
        return _first_of(renew.cure, cover.cure)(finding, engine, loads)
    return thread.cure(finding, engine, loads)


def _mend_drawn(finding: Finding, engine: Engine, loads: Loads) -> PartCure | None:
    """A screw in a hole that is cut anew comes with the new thread; else only the screw is renewed."""
    fastener = thread.find_fastener(finding, engine)
    is_cut = fastener is not None and fastener.state in ("worn", "stripped")
    return _first_of(cover.cure, *((thread.cure,) if is_cut else ()), renew.cure)(finding, engine, loads)


_REMEDIES: Mapping[str, Remedy] = {
    "gland-leaks": gland.cure,
    "packing-unsuitable": _first_of(cover.cure, gland.cure),
    "thread-worn": _mend_thread,
    "screw-will-not-hold": grip.cure,
    "thread-as-bearing": pin.cure,
    "pin-worn": pin.cure,
    "stud-overloaded": _mend_drawn,
}
#: In which order the work is done: what is cut and made first, what closes the engine last.
ORDER = ("rethread", "make-pin", "secure-screw", "renew-screw", "pack-gland", "draw-up-cover")


def find_part_cures(engine: Engine, findings: tuple[Finding, ...], loads: Loads) -> tuple[PartCure, ...]:
    """Return the way out of each finding of a part, in the order of the work; one work that answers two stands once.

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
    return tuple(sorted(cures.values(), key=lambda cure: ORDER.index(cure.code)))


def _add_answer(cure: PartCure, finding: Finding) -> PartCure:
    return replace(cure, answers=tuple(dict.fromkeys((*cure.answers, finding.code))))
