"""`lapwright drill`: the drill before a tap, holes for a screw to pass, and what a drill is good for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson

if TYPE_CHECKING:
    from lapwright.job.drill_answer import DrillUse, ThreadDrills
    from lapwright.workshop.clearance import Clearance
    from lapwright.workshop.tapping_hole import TappingHole


def run(
    what: Annotated[
        str,
        typer.Argument(
            help='A thread (4BA, M4, "1/4 x 40"), or a drill ("3.1 mm", "No 30", 7/64, "letter F").', metavar="WHAT"
        ),
    ],
    *,
    metal: Annotated[
        str | None,
        typer.Option("--in", help='What is tapped: steel, brass, LG2, "cast iron", "thin plate"...', metavar="METAL"),
    ] = None,
    engagement: Annotated[
        str | None,
        typer.Option(help='Depth of thread wanted instead, of the full depth, like "70 %".', metavar="SHARE"),
    ] = None,
    drawers: Annotated[
        str,
        typer.Option(
            help="Drills to choose from: metric, number, letter, number-letter, fraction or all.", metavar="DRAWERS"
        ),
    ] = "all",
    json: AsJson = False,
) -> None:
    """Tell what to drill for a thread, to tap it and to clear it; or what a drill is good for."""
    from lapwright.job.drill_answer import DrillUse, answer_drill, list_drill

    answer = answer_drill(what, metal=metal, engagement=engagement, drawers=drawers)
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_drill(answer))
    elif isinstance(answer, DrillUse):
        print(write_use(answer))
    else:
        print(write_thread_drills(answer))


def write_thread_drills(answer: ThreadDrills) -> str:
    """Return the drills for a thread as a sheet."""
    from lapwright.cli.sheet import write_sheet
    from lapwright.job.drill_answer import CAUTIONS

    metal = f" in {answer.advice.metal}" if answer.advice.metal else ""
    return write_sheet(
        f"Drills for {answer.advice.thread.name}{metal}",
        (*_list_tapping(answer), *list_clearance(answer.clearance)),
        notes=answer.notes,
        cautions=CAUTIONS,
        sources=answer.sources,
    )


def _list_tapping(answer: ThreadDrills) -> Iterator[tuple[str, str]]:
    from lapwright.quantities import show_share

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
    from lapwright.quantities import show_share

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
    from lapwright.job.drill_answer import show_drill
    from lapwright.quantities import show_share

    drill = show_drill(hole.drill, hole.diameter)
    if hole.is_under_minor or hole.engagement == 0:
        return f"{drill}: {hole.fault}"
    american = "" if hole.american is None else f", {show_share(hole.american)} on the American basis"
    fault = f", {hole.fault}" if hole.fault else ""
    return f"{drill}: {show_share(hole.engagement)} of the full depth{american}{fault}"


def list_clearance(clearance: Clearance) -> Iterator[tuple[str, str]]:
    """Yield the rows of a sheet that tell the clearance holes.

    Parameters
    ----------
    clearance: of one thread
    """
    from lapwright.job.drill_answer import show_drill

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
    from lapwright.quantities import show_inch, show_mm

    return f"{show_mm(metres)} ({show_inch(metres, 4)})"


def write_use(use: DrillUse) -> str:
    """Return what a drill is good for as a sheet."""
    from lapwright.cli.sheet import write_sheet
    from lapwright.job.drill_answer import CAUTIONS

    return write_sheet(use.name, _list_use(use), notes=use.notes, cautions=CAUTIONS, sources=use.sources)


def _list_use(use: DrillUse) -> Iterator[tuple[str, str]]:
    from lapwright.job.drill_answer import show_drill
    from lapwright.quantities import show_inch, show_mm, show_share

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
