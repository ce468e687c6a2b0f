"""The papers of an engine: job card, report and drawings, to look at, to print and to take along."""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import show, workshop_of
from lapwright.errors import NotThere
from lapwright.job.paper_rack import SIZES, MadePaper, Missing, list_papers, make_paper

_SHUT = "default-src 'none'; frame-ancestors 'self'; base-uri 'none'; form-action 'none'"


def papers(request: Request) -> Response:
    """Show what papers there are, and one of them; the paper itself comes after the page."""
    record = workshop_of(request).open_engine(request.path_params["id"])
    engine = record.engine if record.is_sound else None
    rack = list_papers(tuple(sizes.name for sizes in engine.cylinders)) if engine else ()
    wanted, size = request.query_params.get("paper", "card"), request.query_params.get("size", SIZES[0])
    paper = next((each for each in rack if each.key == wanted), None)
    if engine and (paper is None or size not in SIZES):
        raise NotThere("such paper", "choose one of those that the page of papers lists")
    return show(
        request,
        "papers.html",
        engine_name=record.engine.name if record.engine else request.path_params["id"],
        problems=() if engine else record.problems,
        rack=rack,
        paper=paper,
        size=size,
        sizes=SIZES,
    )


def hand_out(request: Request) -> Response:
    """Hand out a paper as PDF, as a page or as a picture."""
    key, _, form = request.path_params["file"].rpartition(".")
    size = request.query_params.get("size", SIZES[0])
    made = make_paper(workshop_of(request), request.path_params["id"], key, form=form, size=size)
    if isinstance(made, MadePaper):
        return Response(made.data, media_type=made.media_type, headers=_head(made, save="save" in request.query_params))
    return _tell_missing(request, made, form)


def _tell_missing(request: Request, missing: Missing, form: str) -> Response:
    if form == "html":
        return show(request, "papers_missing.html", missing=missing)
    raise NotThere("drawing of this yet, for too little is known", "; ".join(missing.reasons))


def _head(made: MadePaper, *, save: bool) -> dict[str, str]:
    """The name of the file, and what the paper may load: nothing but the one style that a page carries."""
    way = "attachment" if save else "inline"
    policy = _SHUT
    if made.style:
        policy += f"; style-src 'sha256-{b64encode(sha256(made.style.encode()).digest()).decode()}'"
    return {
        "content-disposition": f"{way}; filename*=utf-8''{quote(made.file_name)}",
        "content-security-policy": policy,
    }


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/papers", papers),
    Route("/engine/{id}/papers/{file}", hand_out),
]
