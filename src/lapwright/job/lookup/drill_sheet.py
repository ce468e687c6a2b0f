"""What to drill for a thread, and what a drill is good for, laid out as a sheet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lapwright.job.lookup.drill_answer import CAUTIONS, DrillUse, ThreadDrills, show_drill
from lapwright.job.lookup.sheet import Row, Sheet
from lapwright.quantities import show_inch, show_mm, show_share

if TYPE_CHECKING:
    from lapwright.workshop.clearance import Clearance
    from lapwright.workshop.tapping_hole import TappingHole


def lay_drill(answer: ThreadDrills | DrillUse) -> Sheet:
    """Lay out the drills for a thread, or what a drill is good for.

    Parameters
    ----------
    answer: what is shown
    """
    if isinstance(answer, DrillUse):
        title, rows = answer.name, (*_list_use(answer),)
    else:
        metal = f" in {answer.advice.metal}" if answer.advice.metal else ""
        title = f"Drills for {answer.advice.thread.name}{metal}"
        rows = (*_list_tapping(answer), *list_clearance(answer.clearance))
    return Sheet(title=title, rows=rows, notes=answer.notes, cautions=CAUTIONS, sources=answer.sources)


def _list_tapping(answer: ThreadDrills) -> Iterator[Row]:
    advice = answer.advice
    low, high = advice.wanted
    share = show_share(low) if low == high else f"{100 * low:.0f} to {show_share(high)}"
    if advice.advised is not None:
        yield "Tap with", show_tapping(advice.advised)
        yield "As drilled", _tell_really(advice.advised)
    else:
        yield "Tap with", "none of these drills"
        if advice.of_all is not None:
            yield "", f"of all drills {show_tapping(advice.of_all)}"
    memory = "" if low == high else " (from memory)"
    yield (
        "Wanted",
        f"{share} {_BASES[advice.basis]}, reckoned on the drill's size{memory}: a hole of {_show_both(advice.ideal)}",
    )
    for label, hole in (("Next under", advice.under), ("Next over", advice.over)):
        yield label, "none in these drawers" if hole is None else show_tapping(hole)
    if advice.listed is not None:
        yield "Listed", f"{show_tapping(advice.listed)} ({advice.listed.source})"


def _tell_really(hole: TappingHole) -> str:
    """What the drill leaves as it cuts, and whether that is enough."""
    least, most = hole.really
    left = f"{100 * least:.0f} to {show_share(most)} is really left"
    return f"{left}, {hole.verdict}: a drill cuts larger than itself (from memory)"


_BASES = {"own": "of the full depth", "american": "on the American basis"}


def show_tapping(hole: TappingHole) -> str:
    """Return a tapping hole in one line: the drill, its size both ways, and what it leaves.

    Parameters
    ----------
    hole: as weighed
    """
    drill = show_drill(hole.drill, hole.diameter)
    if hole.is_under_minor or hole.engagement == 0:
        return f"{drill}: {hole.fault}"
    american = "" if hole.american is None else f", {show_share(hole.american)} on the American basis"
    fault = f", {hole.fault}" if hole.fault else ""
    return f"{drill}: {show_share(hole.engagement)} of the full depth{american}{fault}"


def list_clearance(clearance: Clearance) -> Iterator[Row]:
    """Yield the rows of a sheet that tell the clearance holes.

    Parameters
    ----------
    clearance: of one thread
    """
    memory = " (from memory)" if clearance.from_memory else ""
    for number, hole in enumerate(clearance.holes):
        exact = hole.drill is not None and abs(hole.drill.diameter - hole.diameter) < 3e-6
        if exact:
            told = show_drill(hole.drill, hole.diameter)
        else:
            drill = (
                "no drill so large" if hole.drill is None else f"drill {show_drill(hole.drill, hole.drill.diameter)}"
            )
            told = f"{_show_both(hole.diameter)}, {drill}"
        yield "Clear with" if number == 0 else "", f"{hole.fit + ':':<8}{told}{memory}"


def _show_both(metres: float) -> str:
    return f"{show_mm(metres)} ({show_inch(metres, 4)})"


def _list_use(use: DrillUse) -> Iterator[Row]:
    yield "Size", f"{show_mm(use.diameter, 3)} ({show_inch(use.diameter, 4)})"
    for series, under, over in use.neighbours:
        sides = (("under", under), ("over", over))
        told = [f"{side} it {show_drill(drill, drill.diameter)}" for side, drill in sides if drill is not None]
        yield f"Next {_DRAWERS[series]}", "; ".join(told) or "none"
    for number, (thread, hole) in enumerate(use.tapping):
        american = "" if hole.american is None else f", {show_share(hole.american)} on the American basis"
        label = "Tapping drill for" if number == 0 else ""
        yield label, f"{thread.name}: {show_share(hole.engagement)} of the full depth{american}"
    if not use.tapping:
        yield "Tapping drill for", "no thread of the tables"
    by_fit: dict[str, list[str]] = {}
    for thread, fit in use.clearing:
        by_fit.setdefault(fit, []).append(thread.name)
    for number, (fit, names) in enumerate(by_fit.items()):
        yield "Clears" if number == 0 else "", f"{fit + ':':<8}{', '.join(names)}"
    if not by_fit:
        yield "Clears", "no thread of the tables"


_DRAWERS = {"metric": "metric", "number-letter": "number or letter", "fraction": "fraction"}
