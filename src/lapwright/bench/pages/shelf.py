"""The shelf: every engine of the workshop, new ones, and those that come and go as archives."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import read_form, show, workshop_of
from lapwright.bench.refusals import find_status, wants_page
from lapwright.errors import BadInput
from lapwright.papers.svg import svg_text

#: What the address may say of an engine that was just put away.
_AWAY = re.compile(r"put-away/[^/\\\x00-\x1f]{1,120}\.toml")


@dataclass(frozen=True, slots=True)
class _Refused:
    """A name that cannot be: as it was written, for a copy of that engine or for a new one, and why."""

    name: str
    error: BadInput
    engine: str = ""


def shelf(request: Request) -> Response:
    """Show what stands on the shelf."""
    return _show_shelf(request)


def _show_shelf(request: Request, refused: _Refused | None = None) -> Response:
    workshop = workshop_of(request)
    entries = [
        {
            "id": entry.id,
            "name": entry.name,
            "size": " × ".join(size for size in (entry.bore, entry.stroke) if size),
            "fluid": entry.fluid,
            "valve": entry.valve,
            "cylinders": entry.cylinders,
            "errors": entry.errors,
            "warnings": entry.problems - entry.errors,
            "open_jobs": entry.open_jobs,
            "last_run": entry.last_run,
            "changed": entry.changed,
            "svg": "" if entry.drawing is None else svg_text(entry.drawing),
        }
        for entry in workshop.list_shelf()
    ]
    away = request.query_params.get("away", "")
    away = away if _AWAY.fullmatch(away) else ""
    return show(
        request,
        "shelf.html",
        status=200 if refused is None else find_status(refused.error),
        shelf=entries,
        folder=workshop.folder.name,
        away=away,
        refused=refused,
        # It is the shelf also where the copy of an engine was asked for.
        here="",
        engine_id="",
        engine_name="",
    )


async def begin(request: Request) -> Response:
    """Start the record of a new engine."""
    name = str((await read_form(request)).get("name", ""))
    return await run_in_threadpool(_name_engine, request, name, workshop_of(request).create)


async def copy(request: Request) -> Response:
    """Copy an engine's record under another name."""
    name, engine = str((await read_form(request)).get("name", "")), request.path_params["id"]
    act = partial(workshop_of(request).copy, engine)
    return await run_in_threadpool(partial(_name_engine, request, name, act, engine=engine))


def _name_engine(request: Request, name: str, act: Callable[[str], str], *, engine: str = "") -> Response:
    """Put an engine of that name on the shelf; a name that cannot be stays in its field."""
    try:
        return _go_measure(act(name))
    except BadInput as error:
        if not wants_page(request.scope):
            raise
        return _show_shelf(request, _Refused(name, error, engine))


async def bring_in(request: Request) -> Response:
    """Take an archive or a record from elsewhere."""
    file = (await read_form(request, files=1)).get("file")
    if not isinstance(file, UploadFile) or not file.filename:
        raise BadInput("no file was chosen", "choose an archive or a record")
    data = await file.read()
    return _go_measure(await run_in_threadpool(workshop_of(request).bring_in, file.filename, data))


def take_along(request: Request) -> Response:
    """Hand out an engine with its log and photographs as one archive."""
    name, data = workshop_of(request).export(request.path_params["id"])
    headers = {"content-disposition": f"attachment; filename*=utf-8''{quote(name)}"}
    return Response(data, media_type="application/zip", headers=headers)


def ask_put_away(request: Request) -> Response:
    """Ask whether an engine is really to leave the shelf, and tell what becomes of it."""
    name = workshop_of(request).open_engine(request.path_params["id"]).written.get("engine.name", "")
    return show(request, "put_away.html", engine_name=name or request.path_params["id"])


async def put_away(request: Request) -> Response:
    """Take an engine off the shelf; its record is kept, and so is its log."""
    kept = await run_in_threadpool(workshop_of(request).put_away, request.path_params["id"])
    return RedirectResponse(f"/?away={quote(kept)}", 303)


def _go_measure(engine_id: str) -> Response:
    return RedirectResponse(f"/engine/{quote(engine_id)}/measure", 303)


ROUTES: list[BaseRoute] = [
    Route("/", shelf),
    Route("/new", begin, methods=["POST"]),
    Route("/bring-in", bring_in, methods=["POST"]),
    Route("/engine/{id}/copy", copy, methods=["POST"]),
    Route("/engine/{id}/archive", take_along),
    Route("/engine/{id}/put-away", ask_put_away),
    Route("/engine/{id}/put-away", put_away, methods=["POST"]),
]
