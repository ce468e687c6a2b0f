"""The pages of the log as they are shown: the list with its form, one entry, and two texts of one side by side."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Any
from urllib.parse import quote, urlencode

from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from lapwright.bench.in_step import word_jobs_anew
from lapwright.bench.page import reply, show, workshop_of
from lapwright.bench.pages.log_form import read_removed, read_search, read_written, wants_page
from lapwright.errors import LapwrightError
from lapwright.job.log.draft import FieldProblem, FilledForm, draft_of, fill_form, say_readings, show_moment
from lapwright.job.log.sheet import KINDS, Search, ShownEntry, lay_log, name_engines, show_entries

if TYPE_CHECKING:
    from lapwright.logbook import Entry


def show_log(
    request: Request,
    *,
    template: str = "log.html",
    form: FilledForm | None = None,
    problems: tuple[FieldProblem, ...] = (),
    status: int = 200,
) -> Response:
    """Show the log of the engine in the address, or that of the whole workshop.

    Parameters
    ----------
    request: what is answered
    template: the whole page, or its list alone
    form: as it was filled in; left out, an empty one
    problems: what is amiss in it
    status: of the answer [-]
    """
    engine = request.path_params.get("id")
    query = request.query_params
    search = Search() if request.method == "POST" else read_search(query)
    if engine is not None:
        word_jobs_anew(request)
    sheet = lay_log(workshop_of(request), engine, search)
    older = {**{name: query.get(name, "") for name in ("words", "kind", "open")}, "before": sheet.older or ""}
    return show(
        request,
        template,
        status=status,
        sheet=sheet,
        search=search,
        older_query=urlencode({name: value for name, value in older.items() if value}),
        kinds=KINDS,
        form=form or FilledForm(),
        problems=problems,
        target="" if engine is None else f"/engine/{quote(engine)}",
        engines={} if engine else name_engines(workshop_of(request)),
        when_shown=show_moment(datetime.now()),
        written=read_written(query),
        removed=read_removed(query),
        here="log",
        **({} if engine is None else name_engine(request, engine)),
    )


def show_entry(
    request: Request,
    entry: Entry,
    *,
    form: FilledForm | None = None,
    problems: tuple[FieldProblem, ...] = (),
    refused: tuple[str, ...] = (),
    status: int = 200,
    seen: int | None = None,
    is_clash: bool = False,
) -> Response:
    """Show an entry's form.

    Parameters
    ----------
    request: what is answered
    entry: as it stands in the log
    form: as it was filled in; left out, as the entry stands
    problems: what is amiss in it
    refused: what was said of photographs that were not taken
    status: of the answer [-]
    seen: the version that the form was made from [-]; left out, that of the entry
    is_clash: whether the entry was changed by somebody else, and stands beside the form
    """
    whole = "whole" in request.query_params
    return show(
        request,
        "log_entry.html",
        status=status,
        entry=entry,
        form=form or fill_form(say_readings(draft_of(entry))),
        problems=problems,
        when_shown=show_moment(entry.when),
        refused=refused,
        seen=entry.version if seen is None else seen,
        theirs=show_one(request, entry) if is_clash else None,
        kinds=KINDS,
        whole=whole,
        back="/log" if whole else find_address(entry.engine),
        here="log",
        **name_engine(request, entry.engine),
    )


def show_clash(request: Request, theirs: Entry, filled: FilledForm, *, error: LapwrightError) -> Response:
    """Show both texts of an entry: theirs as it stands in the log, yours in the form.

    Parameters
    ----------
    request: what is answered
    theirs: the entry as it stands
    filled: what was to be written
    error: what was refused
    """
    if wants_page(request):
        return show_entry(request, theirs, form=filled, status=409, is_clash=True)
    named: dict[str, Any] = name_engine(request, theirs.engine)
    back = find_address(theirs.engine)
    page = show(request, "log_clash.html", theirs=show_one(request, theirs), back=back, **named)
    told = {"code": error.code, "message": error.message, "instead": error.instead}
    return reply({"error": told, "seen": theirs.version, "html": bytes(page.body).decode("utf-8")}, 409)


def show_one(request: Request, entry: Entry) -> ShownEntry:
    """Return an entry as a page shows it."""
    return next(iter(show_entries((entry,), name_engines(workshop_of(request)))))


def name_engine(request: Request, engine: str) -> dict[str, Any]:
    """Return what the head of a page wants to know; a record may be too flawed to tell the engine's name.

    Parameters
    ----------
    request: what is answered
    engine: its id

    Raises
    ------
    NotThere
    """
    record = workshop_of(request).open_engine(engine)
    return {"engine_name": record.engine.name if record.engine is not None else engine}


def find_address(engine: str, form: FormData | None = None, query: str = "") -> str:
    """Return the address of the log that one came from: that of the whole workshop where the form says so.

    Parameters
    ----------
    engine: whose log it is otherwise
    form: that was sent
    query: what goes with the address
    """
    path = "/log" if form is not None and form.get("whole") else f"/engine/{quote(engine)}/log"
    return f"{path}?{query}" if query else path
