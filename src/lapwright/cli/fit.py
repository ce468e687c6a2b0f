"""`lapwright fit`: the limits of hole and shaft for a size, and how a clearance stands."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from lapwright.cli.options import AsJson

if TYPE_CHECKING:
    from lapwright.job.fit_answer import FitAnswer
    from lapwright.workshop.clearances import ClearanceVerdict
    from lapwright.workshop.fit_measured import MeasuredPair
    from lapwright.workshop.fits import FitLimits

#: Width of a column of limits in the table.
_COLUMN = 21


def run(
    size: Annotated[str, typer.Argument(help='The nominal size, like "6 mm" or "1/4 in".', metavar="SIZE")],
    fit: Annotated[str | None, typer.Argument(help="A fit, like H7/g6; left out, all of them.", metavar="FIT")] = None,
    *,
    clearance: Annotated[
        str | None,
        typer.Option(help='A clearance, wanted or measured, like "0.02 mm": which fits give it.', metavar="LENGTH"),
    ] = None,
    pin: Annotated[
        str | None,
        typer.Option(help='A pin as measured, like "3.98 mm"; SIZE is then its hole as measured.', metavar="SIZE"),
    ] = None,
    json: AsJson = False,
) -> None:
    """Tell the limits of hole and shaft for a size, what each fit is for, and how a clearance stands."""
    from lapwright.job.fit_answer import answer_fit, list_fit

    answer = answer_fit(size, fit, clearance=clearance, pin=pin)
    if json:
        from lapwright.cli.as_json import print_json

        print_json(list_fit(answer))
        return
    print(write_fit(answer))


def write_fit(answer: FitAnswer) -> str:
    """Return the sheet of a size: every fit in mm and in inches, what it is for, and a clearance if one was given.

    Parameters
    ----------
    answer: what is shown
    """
    from lapwright.cli.sheet import write_sheet
    from lapwright.quantities import show_mm

    shown = str(answer.size)
    both = shown if shown.endswith(" mm") else f"{shown} ({show_mm(answer.size.si, 3)})"
    title = f"{answer.fits[0].fit} for {both}" if len(answer.fits) == 1 else f"Fits for {both}"
    rows = [*_list_limits(answer), ("", ""), *_list_purposes(answer.fits)]
    found = [] if answer.verdict is None else [*_list_clearance(answer.verdict, answer.giving)]
    if answer.pair is not None:
        # What was measured is asked about; the limits only show against what.
        title = f"A hole of {show_mm(answer.pair.hole, 3)} with a pin of {show_mm(answer.pair.pin, 3)}"
        rows = [*_list_pair(answer.pair), *found, ("", ""), *rows]
    elif found:
        rows += [("", ""), *found]
    return write_sheet(title, rows, notes=answer.notes, sources=answer.sources)


def _list_pair(pair: MeasuredPair) -> Iterator[tuple[str, str]]:
    from lapwright.quantities import show_mm

    yield "hole", f"{show_mm(pair.hole, 3)}: {pair.hole_sentence}"
    yield "pin", f"{show_mm(pair.pin, 3)}: {pair.pin_sentence}"


def _list_limits(answer: FitAnswer) -> Iterator[tuple[str, str]]:
    inch_first = answer.size.unit not in ("mm", "cm", "m", "µm")
    yield "", f"{'hole':<{_COLUMN}}{'shaft':<{_COLUMN}}clearance"
    for limits in answer.fits:
        lines = _show_mm(limits), _show_inch(limits)
        first, second = reversed(lines) if inch_first else lines
        yield limits.fit, first
        yield "", second


def _list_purposes(fits: tuple[FitLimits, ...]) -> Iterator[tuple[str, str]]:
    for limits in fits:
        yield limits.fit, f"{limits.kind}: {limits.purpose}"


def _list_clearance(verdict: ClearanceVerdict, giving: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    from lapwright.quantities import show_mm

    yield "bearing", verdict.sentence
    yield "fits", f"{', '.join(giving)}, likeliest first" if giving else "none of the table gives that clearance"
    for number, rule in enumerate(verdict.rules):
        mark = " (used here, from memory)" if rule.is_used else ""
        yield "rules" if number == 0 else "", f"{show_mm(rule.clearance, 3)}  {rule.words}{mark}"


def _show_mm(limits: FitLimits) -> str:
    sizes = (_show_pair(pair, scale=1e3, places=3) for pair in (limits.hole, limits.shaft))
    return _join(sizes, _show_clearance(limits, unit="mm", scale=1e3, places=3))


def _show_inch(limits: FitLimits) -> str:
    inches = 1 / 0.0254
    sizes = (_show_pair(pair, scale=inches, places=4) for pair in (limits.hole, limits.shaft))
    return _join(sizes, _show_clearance(limits, unit="thou", scale=1000 * inches, places=1))


def _join(sizes: Iterator[str], clearance: str) -> str:
    return "".join(f"{size:<{_COLUMN}}" for size in sizes) + clearance


def _show_pair(pair: tuple[float, float], *, scale: float, places: int) -> str:
    from lapwright.quantities import show_number

    return " to ".join(show_number(scale * size, places) for size in pair)


def _show_clearance(limits: FitLimits, *, unit: str, scale: float, places: int) -> str:
    """Metal too much is called tight, and a fit that may fall either way says so at both ends."""
    from lapwright.quantities import show_number

    least, most = (show_number(abs(scale * size), places) for size in (limits.least_clearance, limits.most_clearance))
    if limits.least_clearance >= 0:
        return f"{least} to {most} {unit}"
    if limits.most_clearance <= 0:
        return f"{most} to {least} {unit} tight"
    return f"{least} tight to {most} {unit} loose"
