"""One cure tried before it is done: its figures moved by hand, the engine before and after, and the choice."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import read_form, show, workshop_of
from lapwright.bench.picture import show_picture
from lapwright.errors import CannotSave, LapwrightError
from lapwright.job.choosing import accept_cure, find_cure, list_choices
from lapwright.job.workshop import Workshop

if TYPE_CHECKING:
    from lapwright.cures import Cure
    from lapwright.job.cure_trial import Figure

#: Width of a pressure card [mm of paper]: as on the job card.
_WIDTH = 92.0


def cure(request: Request) -> Response:
    """Show a cure with what can be moved about it; the page fetches what comes of it."""
    # What runs an engine is loaded with the first engine that is run.
    from lapwright.job.cure_trial import list_figures_of, list_namesakes

    workshop, engine, asked = workshop_of(request), request.path_params["id"], request.query_params
    visit = workshop.visit(engine)
    chosen = find_cure(visit, asked.get("cylinder", ""), asked.get("code", ""))
    kept = _read_choice(workshop, engine, chosen)
    written = {
        figure.key: asked[figure.key] for figure in list_figures_of(visit, chosen, now={}) if figure.key in asked
    }
    now = {**kept, **_read_kindly(chosen, written)}
    others = list_namesakes(visit, chosen)
    return show(
        request,
        "cure.html",
        engine_name=visit.engine.name,
        here="findings",
        cure=chosen,
        many=len(visit.cylinders) > 1,
        others=others,
        together=bool(others) and ("together" in asked or not written),
        figures=[_tell_figure(figure) for figure in list_figures_of(visit, chosen, now=now)],
        is_chosen=bool(kept),
    )


def tried(request: Request) -> Response:
    """Answer with what comes of a cure with the figures asked for."""
    from lapwright.job.cure_trial import draw_trial, list_rows, read_figures, try_cure

    asked = request.query_params
    visit = workshop_of(request).visit(request.path_params["id"])
    chosen = find_cure(visit, asked.get("cylinder", ""), asked.get("code", ""))
    trial = try_cure(visit, chosen, read_figures(chosen, asked), together="together" in asked)
    header, rows = list_rows(trial)
    pictures = [show_picture(drawing) for drawing in draw_trial(trial, width=_WIDTH)]
    return show(request, "cure_tried.html", trial=trial, header=header, rows=rows, pictures=pictures)


async def accept(request: Request) -> Response:
    """Note a cure, with its figures, as the job to be done."""
    form = await read_form(request)
    sent = {name: str(value) for name, value in form.items()}
    workshop, engine = workshop_of(request), request.path_params["id"]
    await run_in_threadpool(_accept, workshop, engine, sent)
    return RedirectResponse(f"/engine/{quote(engine)}/findings#cures", 303)


def _accept(workshop: Workshop, engine: str, sent: Mapping[str, str]) -> None:
    from lapwright.job.cure_trial import read_figures, try_cure

    visit = workshop.visit(engine)
    chosen = find_cure(visit, sent.get("cylinder", ""), sent.get("code", ""))
    trial = try_cure(visit, chosen, read_figures(chosen, sent), together="together" in sent)
    for each in (trial.cure, *trial.others):
        accept_cure(workshop, engine, each, now=datetime.now())


def _read_choice(workshop: Workshop, engine: str, chosen: Cure) -> Mapping[str, float]:
    """The figures with which this cure was chosen; none where another one was, or none."""
    try:
        choice = list_choices(workshop, engine).get(chosen.cylinder)
    except CannotSave:
        return {}
    return choice.changes if choice is not None and choice.code == chosen.code else {}


def _read_kindly(chosen: Cure, written: Mapping[str, str]) -> Mapping[str, float]:
    """The figures of an address; what cannot be read there is the cure's own."""
    from lapwright.job.cure_trial import read_figures

    try:
        return read_figures(chosen, written)
    except LapwrightError:
        return {}


def _tell_figure(figure: Figure) -> dict[str, Any]:
    places = figure.places
    names = ("now", "low", "high", "own")
    return {
        "key": figure.key,
        "unit": figure.unit,
        "found": "" if figure.found is None else f"{figure.found:.{places}f}",
        "step": f"{figure.step:.{places}f}",
        **{name: f"{getattr(figure, name):.{places}f}" for name in names},
    }


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/findings/cure", cure),
    Route("/engine/{id}/findings/cure/tried", tried),
    Route("/engine/{id}/findings/cure/accept", accept, methods=["POST"]),
]
