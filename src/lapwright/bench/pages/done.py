"""The work of a chosen cure done: its sizes as they were made go into the record, and its jobs are closed."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import read_form, show, workshop_of
from lapwright.bench.pages.log_view import name_engine
from lapwright.job.cure.done_work import DoneWork, judge_sizes, leave_unmeasured, list_done_work, reopen, write_as_made
from lapwright.job.log.draft import FieldProblem


def done(request: Request) -> Response:
    """Ask what the work came to, cylinder by cylinder."""
    query = request.query_params
    work = list_done_work(workshop_of(request), request.path_params["id"], query.get("code", ""))
    return _show(request, work, query.getlist("cylinder"))


def _show(
    request: Request,
    work: tuple[DoneWork, ...],
    ticked: list[str],
    *,
    written: Mapping[str, str] | None = None,
    problems: tuple[FieldProblem, ...] = (),
    digest: str = "",
) -> Response:
    """The page, with everybody's work ticked where it is not said whose."""
    engine = request.path_params["id"]
    names = [each.choice.cylinder for each in work]
    return show(
        request,
        "done.html",
        status=400 if problems else 200,
        here="findings",
        work=work,
        code=work[0].choice.code,
        ticked=[name for name in names if name in ticked] or ([] if problems else names),
        written={size.path: size.wanted for each in work for size in each.sizes} | dict(written or {}),
        problems={problem.field: problem for problem in problems},
        digest=digest or workshop_of(request).open_engine(engine).digest,
        **name_engine(request, engine),
    )


async def keep(request: Request) -> Response:
    """Write the sizes as they were made, or that they are not measured yet."""
    return await run_in_threadpool(_keep, request, await read_form(request))


def _keep(request: Request, form: FormData) -> Response:
    workshop, engine = workshop_of(request), request.path_params["id"]
    sent = {name: str(value) for name, value in form.items()}
    work = list_done_work(workshop, engine, sent.get("code", ""))
    ticked = [str(name) for name in form.getlist("cylinder")]
    asked = tuple(each for each in work if each.choice.cylinder in ticked)
    digest = sent.get("digest", "")
    if sent.get("measured") == "no":
        leave_unmeasured(workshop, asked, now=datetime.now())
        return _go_back(engine)
    problems = judge_sizes(asked, sent)
    if not asked:
        problems = (FieldProblem("cylinder", "nothing is ticked", "say on which cylinder the work is done"),)
    if problems:
        return _show(request, work, ticked, written=sent, problems=problems, digest=digest)
    write_as_made(workshop, engine, asked, written=sent, digest=digest, now=datetime.now())
    # What was done is told at the top of the page.
    return RedirectResponse(f"/engine/{quote(engine)}/findings?made=1#made", 303)


async def take_back(request: Request) -> Response:
    """Take back that some work was done."""
    form = await read_form(request)

    def act() -> Response:
        workshop, engine = workshop_of(request), request.path_params["id"]
        for each in list_done_work(workshop, engine, str(form.get("code", ""))):
            if not each.is_open and each.choice.cylinder in form.getlist("cylinder"):
                reopen(workshop, each, now=datetime.now())
        return _go_back(engine)

    return await run_in_threadpool(act)


def _go_back(engine: str) -> Response:
    return RedirectResponse(f"/engine/{quote(engine)}/findings#cures", 303)


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/findings/done", done),
    Route("/engine/{id}/findings/done", keep, methods=["POST"]),
    Route("/engine/{id}/findings/reopen", take_back, methods=["POST"]),
]
