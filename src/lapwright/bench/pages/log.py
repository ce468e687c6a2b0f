"""The log: entries of one engine or of the whole workshop, written, looked through, changed, closed and taken out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast
from urllib.parse import quote, urlencode

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import read_form, reply, show, workshop_of
from lapwright.bench.pages.log_form import (
    MOST_FILES,
    list_photographs,
    list_texts,
    read_filled,
    read_number,
    read_seen,
    wants_page,
)
from lapwright.bench.pages.log_view import find_address, name_engine, show_clash, show_entry, show_log, show_one
from lapwright.bench.refusals import find_status
from lapwright.errors import LapwrightError, LogChanged, NotThere
from lapwright.job.cure.choosing import read_choice
from lapwright.job.log.desk import LogDesk, NewPhotograph, Written
from lapwright.job.log.draft import FieldProblem, read_entry_form
from lapwright.job.log.reading import tell_in_other_unit

if TYPE_CHECKING:
    from lapwright.logbook import Entry


def log(request: Request) -> Response:
    """Show the log, or its list of entries alone where a script asks for that."""
    is_part = request.query_params.get("part") == "list"
    return show_log(request, template="log_list.html" if is_part else "log.html")


def tell(request: Request) -> Response:
    """Read a reading back while it is typed."""
    read = tell_in_other_unit(request.query_params.get("value", ""))
    return reply({"said": read.said, "lacksUnit": read.lacks_unit})


async def write(request: Request) -> Response:
    """Write an entry, with its photographs where it brings some; or add photographs to one that stands."""
    form = await read_form(request, files=MOST_FILES)
    photographs = await list_photographs(form)
    act = _add_photographs if form.get("entry") else _write
    return await run_in_threadpool(act, request, form, photographs)


def edit(request: Request) -> Response:
    """Show an entry's form."""
    return show_entry(request, _find(request))


async def change(request: Request) -> Response:
    """Write an entry anew, unless somebody else has."""
    form = await read_form(request, files=MOST_FILES)
    return await run_in_threadpool(_change, request, form, await list_photographs(form))


async def done(request: Request) -> Response:
    """Say of an open job that it is done; of a cure that was chosen it is asked first what it came to."""
    form = await read_form(request)

    def close() -> Response:
        entry = _find(request)
        choice = read_choice(entry)
        if choice is not None and entry.job == "open":
            query = urlencode({"code": choice.code, "cylinder": choice.cylinder})
            return RedirectResponse(f"/engine/{quote(entry.engine)}/findings/done?{query}", 303)
        return _go_to(_desk(request).close_job(entry, seen=read_seen(form)), form)

    return await run_in_threadpool(close)


def ask_removal(request: Request) -> Response:
    """Ask whether an entry is to be taken out."""
    entry, whole = _find(request), "whole" in request.query_params
    back = "/log" if whole else find_address(entry.engine)
    name = name_engine(request, entry.engine)
    is_choice = entry.job == "open" and read_choice(entry) is not None
    shown = show_one(request, entry)
    context: dict[str, Any] = {"shown": shown, "whole": whole, "back": back, "is_choice": is_choice, "here": "log"}
    return show(request, "log_remove.html", **context, **name)


async def remove(request: Request) -> Response:
    """Take an entry out."""
    form = await read_form(request)

    def take_out() -> Entry:
        entry = _find(request)
        _desk(request).remove(entry, seen=read_seen(form))
        return entry

    entry = await run_in_threadpool(take_out)
    mark = quote(f"{entry.engine}/{entry.id}", safe="")
    return RedirectResponse(find_address(entry.engine, form, f"removed={mark}"), 303)


async def put_back(request: Request) -> Response:
    """Put an entry back that was taken out."""
    form = await read_form(request)
    engine, number = request.path_params["id"], read_number(request.path_params["entry"])
    return _go_to(await run_in_threadpool(_desk(request).put_back, engine, number), form)


def _write(request: Request, form: FormData, photographs: list[NewPhotograph]) -> Response:
    engine = str(request.path_params.get("id") or form.get("engine", ""))
    filled = read_filled(form)
    # A script sends the entry first, and its photographs one by one behind it.
    has_photographs = bool(photographs) or bool(form.get("photographs_follow"))
    read = read_entry_form(engine, filled, has_photographs=has_photographs)
    if read.draft is None:
        if not wants_page(request):
            return _tell_amiss(read.problems)
        return show_log(request, form=filled, problems=read.problems, status=400)
    try:
        written = _desk(request).write(read.draft, photographs)
    except LapwrightError as error:
        if not wants_page(request) or isinstance(error, NotThere):
            raise
        return show_log(request, form=filled, problems=_in_general(error), status=find_status(error))
    return _tell_written(request, written, form)


def _add_photographs(request: Request, form: FormData, photographs: list[NewPhotograph]) -> Response:
    entry = _desk(request).find(request.path_params.get("id", ""), read_number(str(form["entry"])))
    return _tell_written(request, _desk(request).add_photographs(entry, photographs), form)


def _change(request: Request, form: FormData, photographs: list[NewPhotograph]) -> Response:
    desk, entry, filled, seen = _desk(request), _find(request), read_filled(form), read_seen(form)
    off = list_texts(form, "take_off")
    stays = [kept for kept in entry.photographs if kept.digest not in off]
    has_photographs = bool(photographs or stays or form.get("photographs_follow"))
    read = read_entry_form(entry.engine, filled, has_photographs=has_photographs)
    if read.draft is None:
        if not wants_page(request):
            return _tell_amiss(read.problems)
        return show_entry(request, entry, form=filled, problems=read.problems, status=400, seen=seen)
    try:
        changed = desk.change(entry, read.draft, seen=seen)
    except LogChanged as error:
        return show_clash(request, _find(request), filled, error=error)
    except LapwrightError as error:
        if not wants_page(request):
            raise
        status = find_status(error)
        return show_entry(request, entry, form=filled, problems=_in_general(error), status=status, seen=seen)
    desk.take_off(changed, off)
    return _tell_written(request, desk.add_photographs(changed, photographs), form)


def _tell_written(request: Request, written: Written, form: FormData) -> Response:
    entry, refused = written.entry, written.refused
    if wants_page(request):
        return show_entry(request, entry, refused=refused, status=400) if refused else _go_to(entry, form)
    told = {"entry": entry.id, "version": entry.version, "refused": refused, "address": _find_mark(entry, form)}
    return reply(told, 400 if refused else 200)


def _tell_amiss(problems: tuple[FieldProblem, ...]) -> Response:
    told = [{"field": each.field, "message": each.message, "instead": each.instead} for each in problems]
    error = {"code": "bad-entry", "message": problems[0].message, "instead": problems[0].instead, "fields": told}
    return reply({"error": error}, 400)


def _in_general(error: LapwrightError) -> tuple[FieldProblem, ...]:
    return (FieldProblem("", error.message, error.instead),)


def _go_to(entry: Entry, form: FormData) -> Response:
    return RedirectResponse(_find_mark(entry, form), 303)


def _find_mark(entry: Entry, form: FormData) -> str:
    return find_address(entry.engine, form, f"written={entry.id}#entry-{entry.id}")


def _find(request: Request) -> Entry:
    return _desk(request).find(request.path_params["id"], read_number(request.path_params["entry"]))


def _desk(request: Request) -> LogDesk:
    state = request.app.state
    if not hasattr(state, "log_desk"):
        state.log_desk = LogDesk(workshop_of(request))
    return cast(LogDesk, state.log_desk)


ROUTES: list[BaseRoute] = [
    Route("/log", log),
    Route("/log", write, methods=["POST"]),
    Route("/log/photographs", write, methods=["POST"]),
    Route("/log/reading", tell),
    Route("/engine/{id}/log", log),
    Route("/engine/{id}/log", write, methods=["POST"]),
    Route("/engine/{id}/photographs", write, methods=["POST"]),
    Route("/engine/{id}/log/{entry}", edit),
    Route("/engine/{id}/log/{entry}", change, methods=["POST"]),
    Route("/engine/{id}/log/{entry}/photographs", change, methods=["POST"]),
    Route("/engine/{id}/log/{entry}/done", done, methods=["POST"]),
    Route("/engine/{id}/log/{entry}/remove", ask_removal),
    Route("/engine/{id}/log/{entry}/remove", remove, methods=["POST"]),
    Route("/engine/{id}/log/{entry}/put-back", put_back, methods=["POST"]),
]
