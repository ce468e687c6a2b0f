"""The limits of hole and shaft for a size, and how a clearance stands, laid out as a sheet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lapwright.job.lookup.sheet import GAP, Row, Sheet
from lapwright.quantities import show_mm, show_number

if TYPE_CHECKING:
    from lapwright.job.lookup.fit_answer import FitAnswer
    from lapwright.workshop.clearances import ClearanceVerdict
    from lapwright.workshop.fit_measured import MeasuredPair
    from lapwright.workshop.fits import FitLimits


def lay_fit(answer: FitAnswer) -> Sheet:
    """Lay out a size: every fit in mm and in inches, what it is for, and a clearance if one was given.

    Parameters
    ----------
    answer: what is shown
    """
    shown = str(answer.size)
    both = shown if shown.endswith(" mm") else f"{shown} ({show_mm(answer.size.si, 3)})"
    title = f"{answer.fits[0].fit} for {both}" if len(answer.fits) == 1 else f"Fits for {both}"
    rows: list[Row] = [*_list_limits(answer), GAP, *_list_purposes(answer.fits)]
    found = [] if answer.verdict is None else [*_list_clearance(answer.verdict, answer.giving)]
    if answer.pair is not None:
        # What was measured is asked about; the limits only show against what.
        title = f"A hole of {show_mm(answer.pair.hole, 3)} with a pin of {show_mm(answer.pair.pin, 3)}"
        rows = [*_list_pair(answer.pair), *found, GAP, *rows]
    elif found:
        rows += [GAP, *found]
    return Sheet(title=title, rows=tuple(rows), notes=answer.notes, sources=answer.sources)


def _list_pair(pair: MeasuredPair) -> Iterator[Row]:
    yield "hole", f"{show_mm(pair.hole, 3)}: {pair.hole_sentence}"
    yield "pin", f"{show_mm(pair.pin, 3)}: {pair.pin_sentence}"


def _list_limits(answer: FitAnswer) -> Iterator[Row]:
    inch_first = answer.size.unit not in ("mm", "cm", "m", "µm")
    yield "", ("hole", "shaft", "clearance")
    for limits in answer.fits:
        lines = _show_mm(limits), _show_inch(limits)
        first, second = reversed(lines) if inch_first else lines
        yield limits.fit, first
        yield "", second


def _list_purposes(fits: tuple[FitLimits, ...]) -> Iterator[Row]:
    for limits in fits:
        yield limits.fit, f"{limits.kind}: {limits.purpose}"


def _list_clearance(verdict: ClearanceVerdict, giving: tuple[str, ...]) -> Iterator[Row]:
    yield "bearing", verdict.sentence
    yield "fits", f"{', '.join(giving)}, likeliest first" if giving else "none of the table gives that clearance"
    for number, rule in enumerate(verdict.rules):
        mark = " (used here, from memory)" if rule.is_used else ""
        yield "rules" if number == 0 else "", f"{show_mm(rule.clearance, 3)}  {rule.words}{mark}"


def _show_mm(limits: FitLimits) -> tuple[str, ...]:
    sizes = (_show_pair(pair, scale=1e3, places=3) for pair in (limits.hole, limits.shaft))
    return (*sizes, _show_clearance(limits, unit="mm", scale=1e3, places=3))


def _show_inch(limits: FitLimits) -> tuple[str, ...]:
    inches = 1 / 0.0254
    sizes = (_show_pair(pair, scale=inches, places=4) for pair in (limits.hole, limits.shaft))
    return (*sizes, _show_clearance(limits, unit="thou", scale=1000 * inches, places=1))


def _show_pair(pair: tuple[float, float], *, scale: float, places: int) -> str:
    return " to ".join(show_number(scale * size, places) for size in pair)


def _show_clearance(limits: FitLimits, *, unit: str, scale: float, places: int) -> str:
    """Metal too much is called tight, and a fit that may fall either way says so at both ends."""
    least, most = (show_number(abs(scale * size), places) for size in (limits.least_clearance, limits.most_clearance))
    if limits.least_clearance >= 0:
        return f"{least} to {most} {unit}"
    if limits.most_clearance <= 0:
        return f"{most} to {least} {unit} tight"
    return f"{least} tight to {most} {unit} loose"
