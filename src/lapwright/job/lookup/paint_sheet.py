"""How a part is painted, laid out as a sheet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lapwright.job.lookup.sheet import GAP, Row, Sheet
from lapwright.quantities import show_number
from lapwright.workshop.heat import show_heat

if TYPE_CHECKING:
    from lapwright.job.lookup.paint_answer import PaintAnswer
    from lapwright.workshop.finish_plan import FinishPlan

_NOT_KNOWN = "not known"


def lay_paint(answer: PaintAnswer) -> Sheet:
    """Lay out a painting plan.

    Parameters
    ----------
    answer: what is shown
    """
    plan = answer.plan
    return Sheet(
        title=f"Painting {plan.metal} that runs at {show_heat(plan.temperature)}",
        rows=(*_list_rows(plan),),
        steps=plan.steps,
        notes=(*answer.taken, *plan.notes),
        background=plan.faults,
        cautions=plan.cautions,
        sources=plan.sources,
    )


def _list_rows(plan: FinishPlan) -> Iterator[Row]:
    yield "Paint with", plan.paint or "nothing"
    yield "Because", plan.why
    if plan.coats:
        yield GAP
        yield "", ("dry film", "wet film", "takes")
    for coat in plan.coats:
        yield coat.name, (_show_film(coat.dry_film), _show_film(coat.wet_film), _show_amount(coat.amount))
    if plan.coats:
        yield GAP
    yield from _list_once("Next coat", [(coat.paint, coat.recoat) for coat in plan.coats])
    yield from _list_once("Hardens", [(coat.paint, coat.cure) for coat in plan.coats])
    for number, item in enumerate(plan.have_ready):
        count = f"{item.count} of " if item.count > 1 else ""
        yield "Have ready" if number == 0 else "", f"{count}{item.name}" + (f", {item.amount}" if item.amount else "")


def _list_once(label: str, told: list[tuple[str, str]]) -> Iterator[Row]:
    for number, (paint, words) in enumerate(dict.fromkeys(told)):
        yield label if number == 0 else "", f"{paint}: {words}"


def _show_film(film: float | None) -> str:
    return _NOT_KNOWN if film is None else f"{show_number(1e6 * film, 0)} µm"


def _show_amount(amount: float | None) -> str:
    return _NOT_KNOWN if amount is None else f"{show_number(1e6 * amount, 1)} ml"
