"""Before and after: what the work on an engine came to, on one page and as its dossier."""

from __future__ import annotations

from datetime import datetime
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.in_step import word_jobs_anew
from lapwright.bench.page import show, workshop_of
from lapwright.bench.pages.log_view import name_engine
from lapwright.job.log.before_after import compare_then_and_now
from lapwright.job.log.dossier import make_dossier
from lapwright.job.log.tally import add_up_log, list_shots
from lapwright.papers.svg import svg_text


def before_after(request: Request) -> Response:
    """Show an engine as it was beside the engine as it is."""
    workshop, engine = workshop_of(request), request.path_params["id"]
    word_jobs_anew(request)
    told, tally = compare_then_and_now(workshop, engine), add_up_log(workshop, engine)
    return show(
        request,
        "before_after.html",
        told=told,
        tally=tally,
        svg=svg_text,
        found=list_shots(tally, "found"),
        done=list_shots(tally, "done"),
        here="log",
        **name_engine(request, engine),
    )


def dossier(request: Request) -> Response:
    """Hand out an engine's dossier."""
    word_jobs_anew(request)
    name, data = make_dossier(workshop_of(request), request.path_params["id"], now=datetime.now())
    headers = {"content-disposition": f"inline; filename*=utf-8''{quote(name, safe='')}"}
    return Response(data, media_type="application/pdf", headers=headers)


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/before-after", before_after),
    Route("/engine/{id}/dossier.pdf", dossier),
]
