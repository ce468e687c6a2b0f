"""Measure: every size of an engine with its picture, read back as it is written, saved as it is left."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import read_form, read_json, reply, show, workshop_of
from lapwright.bench.refusals import find_status
from lapwright.bench.texts import load_texts
from lapwright.errors import BadInput, LapwrightError, RecordChanged, RecordClash
from lapwright.job.measure.edges import turn_edges
from lapwright.job.measure.guide import GUIDE_SOURCE
from lapwright.job.measure.measuring import list_measures
from lapwright.job.measure.reading_back import read_back
from lapwright.job.measure.step_words import word_step
from lapwright.job.shelf.changes import Changed
from lapwright.job.shelf.workshop import Workshop
from lapwright.papers.svg import svg_text
from lapwright.record.contents import MOST_CYLINDERS

#: What a field of a form is called: the text, and what was seen there when the form was made.
_TEXT, _SEEN = "text:", "seen:"


@dataclass(frozen=True, slots=True)
class _Refused:
    """What a form wanted and did not get: the error, and every text that is not in the record yet.

    `whole` is the text of a whole record, where that was to be saved.
    """

    error: LapwrightError
    drafts: Mapping[str, str] = field(default_factory=dict)
    whole: str | None = None


def measure(request: Request) -> Response:
    """Show all sizes."""
    return _show_page(request, None)


def _show_page(request: Request, refused: _Refused | None) -> Response:
    workshop, engine_id = workshop_of(request), request.path_params["id"]
    record = workshop.open_engine(engine_id)
    visit = workshop.visit(engine_id) if record.engine is not None and record.is_sound else None
    # The file may have been changed between the two.
    if visit is not None and visit.record.digest != record.digest:
        visit = None
    sheet = list_measures(record, visit)
    error = None if refused is None else refused.error
    return show(
        request,
        "measure.html",
        status=200 if error is None else find_status(error),
        engine_name=engine_id if record.engine is None else record.engine.name,
        sheet=sheet,
        steps=(steps := workshop.find_steps(engine_id)),
        undoes=word_step(steps.undoes),
        redoes=word_step(steps.redoes),
        drawings={(part.path, view.name): svg_text(view.drawing) for part in sheet.parts for view in part.views},
        error=error,
        clash=error if isinstance(error, RecordClash) else None,
        drafts={} if refused is None else refused.drafts,
        whole=None if refused is None else refused.whole,
        guide_source=GUIDE_SOURCE,
        most_cylinders=MOST_CYLINDERS,
        words={
            **vars(load_texts().measure.said),
            "understood": load_texts().measure.understood,
            "nothing": load_texts().measure.nothing,
        },
    )


def read(request: Request) -> Response:
    """Say what is understood of a text, before it is saved."""
    query = request.query_params
    found = read_back(query.get("key", ""), query.get("text", ""))
    return reply(
        {
            "understood": found.understood,
            "problem": found.problem,
            "instead": found.instead,
            "offers": list(found.offers),
        }
    )


def stamp(request: Request) -> Response:
    """Say which text the record has now."""
    return reply({"digest": workshop_of(request).open_engine(request.path_params["id"]).digest})


async def change(request: Request) -> Response:
    """Set one key for a script, or all that differ in a form."""
    if not _is_form(request):
        sent = await read_json(request)
        changed = await run_in_threadpool(_change_one, workshop_of(request), request.path_params["id"], sent)
        return reply(_tell(changed))
    form = {name: _unify_lines(str(value)) for name, value in (await read_form(request)).items()}
    return await run_in_threadpool(_change_all, request, form)


def _change_one(workshop: Workshop, engine_id: str, sent: Mapping[str, Any]) -> Changed:
    key, digest = _want(sent, "key"), _want(sent, "digest")
    value, seen = _want_or_none(sent, "value"), _want_or_none(sent, "seen")
    if value is not None and not value.strip():
        value = None
    _check_readable(key, value)
    return workshop.change(engine_id, key, value, digest=digest, seen=seen)


def _check_readable(key: str, value: str | None) -> None:
    """Refuse what no reader would take: the record stays sound, and the text stays on the page."""
    found = read_back(key, value or "")
    if found.problem:
        raise BadInput(found.problem, found.instead)


def _change_all(request: Request, form: Mapping[str, str]) -> Response:
    workshop, engine_id = workshop_of(request), request.path_params["id"]
    wanted = {
        name.removeprefix(_TEXT): text
        for name, text in form.items()
        if name.startswith(_TEXT) and text.strip() != form.get(_SEEN + name.removeprefix(_TEXT), "").strip()
    }
    digest = form.get("digest", "")
    for key, text in list(wanted.items()):
        sent = {"key": key, "value": text, "seen": form.get(_SEEN + key) or None, "digest": digest}
        try:
            digest = _change_one(workshop, engine_id, sent).record.digest
        except LapwrightError as error:
            return _show_page(request, _Refused(error, wanted))
        del wanted[key]
    return _go_back(request)


async def undo(request: Request) -> Response:
    """Go one change back."""
    return await _step(request, back=True)


async def redo(request: Request) -> Response:
    """Make the change again that was undone last."""
    return await _step(request, back=False)


async def _step(request: Request, *, back: bool) -> Response:
    sent = await _read_either(request)
    workshop = workshop_of(request)
    step = workshop.undo if back else workshop.redo

    def act() -> Changed:
        return step(request.path_params["id"], digest=_want(sent, "digest"))

    return await _act(request, act)


async def add(request: Request) -> Response:
    """Make room for one part more."""
    sent = await _read_either(request)

    def act() -> Changed:
        engine_id = request.path_params["id"]
        return workshop_of(request).add_part(engine_id, _want(sent, "list"), digest=_want(sent, "digest"))

    return await _act(request, act)


async def remove(request: Request) -> Response:
    """Take one part out."""
    sent = await _read_either(request)

    def act() -> Changed:
        engine_id = request.path_params["id"]
        return workshop_of(request).remove_part(engine_id, _want(sent, "place"), digest=_want(sent, "digest"))

    return await _act(request, act)


async def edges(request: Request) -> Response:
    """Tell a port face or a valve by its edges instead of its widths, or the other way round."""
    sent = await _read_either(request)

    def act() -> Changed:
        workshop, engine_id = workshop_of(request), request.path_params["id"]
        digest, record = _want(sent, "digest"), workshop.open_engine(engine_id)
        if record.digest != digest:
            raise RecordChanged(f"{engine_id}.toml")
        return workshop.replace_text(engine_id, turn_edges(record, _want(sent, "part")), digest=digest)

    return await _act(request, act)


async def replace_text(request: Request) -> Response:
    """Put the whole text of the record in place of the one that was read."""
    sent = await _read_either(request)

    def act() -> Changed:
        workshop, engine_id = workshop_of(request), request.path_params["id"]
        text = _unify_lines(_want(sent, "text"))
        # The lines end as they do in the file.
        if "\r\n" in workshop.open_engine(engine_id).text:
            text = text.replace("\n", "\r\n")
        return workshop.replace_text(engine_id, text, digest=_want(sent, "digest"))

    return await _act(request, act, whole=_unify_lines(_want(sent, "text")))


async def _act(request: Request, act: Any, *, whole: str | None = None) -> Response:
    """Do it, and answer a script with JSON and a form with the page; a whole text that is refused is not lost."""
    if not _is_form(request):
        return reply(_tell(await run_in_threadpool(act)))
    try:
        changed = await run_in_threadpool(act)
    except LapwrightError as error:
        return await run_in_threadpool(_show_page, request, _Refused(error, whole=whole))
    return _go_back(request, changed.place)


def _unify_lines(text: str) -> str:
    """A form ends its lines with carriage returns, whatever was put into it."""
    return text.replace("\r\n", "\n")


def _tell(changed: Changed) -> dict[str, Any]:
    return {
        "digest": changed.record.digest,
        "merged": changed.merged,
        "others": [other.key for other in changed.others],
        "place": changed.place,
    }


def _is_form(request: Request) -> bool:
    return "json" not in request.headers.get("content-type", "")


async def _read_either(request: Request) -> dict[str, Any]:
    return dict(await read_form(request)) if _is_form(request) else await read_json(request)


def _want(sent: Mapping[str, Any], name: str) -> str:
    value = sent.get(name)
    if not isinstance(value, str):
        raise BadInput(f"{name} is missing in what was sent", "load the page again")
    return value


def _want_or_none(sent: Mapping[str, Any], name: str) -> str | None:
    return None if sent.get(name) is None else _want(sent, name)


def _go_back(request: Request, place: str = "") -> Response:
    place = f"#part-{quote(place)}" if place else ""
    return RedirectResponse(f"/engine/{quote(request.path_params['id'])}/measure{place}", 303)


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/measure", measure),
    Route("/engine/{id}/measure/read", read),
    Route("/engine/{id}/stamp", stamp),
    Route("/engine/{id}/change", change, methods=["POST"]),
    Route("/engine/{id}/undo", undo, methods=["POST"]),
    Route("/engine/{id}/redo", redo, methods=["POST"]),
    Route("/engine/{id}/add", add, methods=["POST"]),
    Route("/engine/{id}/remove", remove, methods=["POST"]),
    Route("/engine/{id}/edges", edges, methods=["POST"]),
    Route("/engine/{id}/text", replace_text, methods=["POST"]),
]
