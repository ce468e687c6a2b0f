"""One cure tried before it is done: its figures moved by hand, the engine before and after, and the choice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import read_form, reply, show, workshop_of
from lapwright.bench.picture import show_picture
from lapwright.errors import CannotSave
from lapwright.job.cure.choosing import Choice, accept_cure, find_cure, list_choices
from lapwright.job.in_words import write_size
from lapwright.job.shelf.workshop import Workshop
from lapwright.job.visit import Visit
from lapwright.papers.measure_terms import call_size

if TYPE_CHECKING:
    from lapwright.cures import Cure
    from lapwright.job.cure.cure_trial import Figure, ReadFigures
    from lapwright.job.log.draft import FieldProblem

#: Width of a pressure card [mm of paper]: as on the job card.
_WIDTH = 92.0


def cure(request: Request) -> Response:
    """Show a cure with what can be moved about it; the page fetches what comes of it."""
    asked = dict(request.query_params)
    return _show_cure(request, _read_asked(workshop_of(request), request.path_params["id"], asked), asked)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A cure as it was asked for: what can be moved about it, what was read of its figures, and the choice of it."""

    visit: Visit
    cure: Cure
    figures: tuple[Figure, ...]
    read: ReadFigures
    choice: Choice | None


def _read_asked(workshop: Workshop, engine: str, sent: Mapping[str, str]) -> _Asked:
    # What runs an engine is loaded with the first engine that is run.
    from lapwright.job.cure.cure_trial import list_figures_of, read_figures

    visit = workshop.visit(engine)
    found = find_cure(visit, sent.get("cylinder", ""), sent.get("code", ""))
    choice = _read_choice(workshop, engine, found)
    figures = list_figures_of(visit, found, now={} if choice is None else choice.changes)
    return _Asked(visit, found, figures, read_figures(figures, sent), choice)


def _show_cure(request: Request, asked: _Asked, sent: Mapping[str, str], *, status: int = 200) -> Response:
    from lapwright.job.cure.cure_trial import list_figures_of, list_namesakes

    visit, found = asked.visit, asked.cure
    kept = {} if asked.choice is None else asked.choice.changes
    others = list_namesakes(visit, found)
    problems = {problem.field: problem for problem in asked.read.problems}
    figures = list_figures_of(visit, found, now={**kept, **asked.read.figures})
    written = any(figure.key in sent for figure in figures)
    return show(
        request,
        "cure.html",
        status=status,
        engine_name=visit.engine.name,
        here="findings",
        cure=found,
        many=len(visit.cylinders) > 1,
        others=others,
        together=bool(others) and ("together" in sent or not written),
        figures=[_tell_figure(each, problems.get(each.key), sent.get(each.key, "")) for each in figures],
        chosen=[(call_size(key), write_size(key, value)) for key, value in kept.items()],
        is_chosen=asked.choice is not None,
    )


def tried(request: Request) -> Response:
    """Answer with what comes of a cure with the figures asked for, or with what is amiss in which of them."""
    from lapwright.job.cure.cure_trial import draw_trial, list_rows, try_cure

    sent = dict(request.query_params)
    asked = _read_asked(workshop_of(request), request.path_params["id"], sent)
    if asked.read.problems:
        return reply({"error": _tell_problems(asked.read.problems)}, 400)
    trial = try_cure(asked.visit, asked.cure, asked.read.figures, together="together" in sent)
    header, rows = list_rows(trial)
    pictures = [show_picture(drawing) for drawing in draw_trial(trial, width=_WIDTH)]
    return show(request, "cure_tried.html", trial=trial, header=header, rows=rows, pictures=pictures)


def _tell_problems(problems: tuple[FieldProblem, ...]) -> dict[str, Any]:
    fields = [{"field": each.field, "message": each.message, "instead": each.instead} for each in problems]
    return {"code": "bad-figure", "message": problems[0].message, "instead": problems[0].instead, "fields": fields}


async def accept(request: Request) -> Response:
    """Note a cure, with its figures, as the job to be done; with a figure that cannot be, the page comes again."""
    form = await read_form(request)
    sent = {name: str(value) for name, value in form.items()}
    return await run_in_threadpool(_accept, request, sent)


def _accept(request: Request, sent: Mapping[str, str]) -> Response:
    from lapwright.job.cure.cure_trial import try_cure

    workshop, engine = workshop_of(request), request.path_params["id"]
    asked = _read_asked(workshop, engine, sent)
    if asked.read.problems:
        if "text/html" not in request.headers.get("accept", ""):
            return reply({"error": _tell_problems(asked.read.problems)}, 400)
        return _show_cure(request, asked, sent, status=400)
    trial = try_cure(asked.visit, asked.cure, asked.read.figures, together="together" in sent)
    for each in (trial.cure, *trial.others):
        accept_cure(workshop, engine, each, now=datetime.now())
    return RedirectResponse(f"/engine/{quote(engine)}/findings#cures", 303)


def _read_choice(workshop: Workshop, engine: str, found: Cure) -> Choice | None:
    """The choice of this cure; None where another one was chosen, or none."""
    try:
        choice = list_choices(workshop, engine).get(found.cylinder)
    except CannotSave:
        return None
    return choice if choice is not None and choice.code == found.code else None


def _tell_figure(figure: Figure, problem: FieldProblem | None, written: str) -> dict[str, Any]:
    places = figure.places
    names = ("now", "low", "high", "own")
    shown = {name: f"{getattr(figure, name):.{places}f}" for name in names}
    return {
        "key": figure.key,
        "name": call_size(figure.key),
        "unit": figure.unit,
        "found": "" if figure.found is None else f"{figure.found:.{places}f}",
        "step": f"{figure.step:.{places}f}",
        "written": written if problem else shown["now"],
        "problem": problem,
        **shown,
    }


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/findings/cure", cure),
    Route("/engine/{id}/findings/cure/tried", tried),
    Route("/engine/{id}/findings/cure/accept", accept, methods=["POST"]),
]
