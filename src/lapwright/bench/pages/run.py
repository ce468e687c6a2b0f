"""The running engine: what it does on what it is put on, its bench tests, and runs noted in the log."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import read_form, reply, show, workshop_of
from lapwright.bench.picture import show_picture
from lapwright.bench.refusals import find_status, wants_page
from lapwright.errors import BadInput, CannotSave, FlawedRecord, LapwrightError
from lapwright.job.cure.choosing import find_chosen, list_choices, list_unmeasured
from lapwright.job.run.bench_entry import (
    KINDS,
    RUN_READINGS,
    enter_test,
    list_fields,
    look_at_tests,
    note_run,
    write_calibration,
)
from lapwright.job.run.notes import CAUTIONS, list_cautions
from lapwright.job.visit import Visit
from lapwright.papers.measure_terms import name_key

if TYPE_CHECKING:
    from lapwright.cures import Cure
    from lapwright.job.run.sheet import Work
    from lapwright.job.run.stand import Asked

#: What is asked for as it is written; what is left empty comes from the record, or is taken.
_ASKED = ("fluid", "pressure", "exhaust", "temperature", "dryness")
_LONGEST = 60


def run(request: Request) -> Response:
    """Show the stand; what the engine does on it is fetched by the page."""
    from lapwright.job.run.sheet import WORKS, list_missing

    workshop, engine = workshop_of(request), request.path_params["id"]
    try:
        visit = workshop.visit(engine)
    except FlawedRecord as error:
        return show(request, "flawed.html", problems=error.problems)
    written, chosen = visit.record.written, _list_chosen(request, visit)
    return show(
        request,
        "run.html",
        engine_name=visit.engine.name,
        names=[sizes.name for sizes in visit.cylinders],
        missing=[(name, _name_missing(visit, name, keys)) for name, keys in list_missing(visit)],
        asked={key: request.query_params.get(key, "")[:_LONGEST] for key in (*_ASKED, "speed", "load", "by", "ideal")},
        off=request.query_params.getlist("dead"),
        fluid=request.query_params.get("fluid") or visit.engine.fluid or "air",
        cautions={fluid: list_cautions(fluid, by_hand=True) for fluid in CAUTIONS},
        given={key: written.get(f"engine.{key}", "") for key in ("supply_pressure", "exhaust_pressure")}
        | {key: written.get(f"running.{key}", "") for key in ("supply_temperature", "steam_dryness", "load")},
        chosen=chosen,
        works=WORKS if chosen else (),
        work=_pick_work(request, chosen),
        readings=RUN_READINGS,
        kinds={kind: [(name_key(f"bench_test.0.{field.key}"), field) for field in list_fields(kind)] for kind in KINDS},
    )


def _name_missing(visit: Visit, cylinder: str, keys: tuple[str, ...]) -> list[tuple[str, str]]:
    place = next(n for n, sizes in enumerate(visit.cylinders) if sizes.name == cylinder)
    paths = [f"cylinder.{place}.{key}" for key in keys]
    return [(name_key(path), path) for path in paths]


def turn(request: Request) -> Response:
    """Answer with the run that was asked for."""
    from lapwright.job.run.sheet import tell_run_of

    visit = workshop_of(request).visit(request.path_params["id"])
    chosen, asked = _list_chosen(request, visit), _read_asked(request, visit)
    try:
        told = tell_run_of(visit, asked, work=_pick_work(request, chosen), chosen=chosen)
    except LapwrightError as error:
        return _tell_amiss(request, asked, error)
    return show(
        request,
        "run_turn.html",
        told=told,
        cards=[(name, [show_picture(card) for card in drawn]) for name, drawn in told.cards],
        torque=show_picture(told.torque),
        dial=show_picture(told.dial),
        rest=show_picture(told.rest),
    )


def _tell_amiss(request: Request, asked: Asked, error: LapwrightError) -> Response:
    """Tell a script at which figures the sentences are to stand; whoever reads a page gets the one of the refusal."""
    from lapwright.job.run.amiss import find_amiss

    problems = find_amiss(asked, error)
    if not problems or wants_page(request.scope):
        raise error
    fields = [{"field": each.field, "message": each.message, "instead": each.instead} for each in problems]
    told = {"code": error.code, "message": error.message, "instead": error.instead, "fields": fields}
    return reply({"error": told}, find_status(error))


def _list_chosen(request: Request, visit: Visit) -> tuple[Cure, ...]:
    """The work that is chosen, and what of it is done and not measured yet."""
    workshop, engine = workshop_of(request), request.path_params["id"]
    try:
        choices = {**list_unmeasured(workshop, visit, engine), **list_choices(workshop, engine)}
    except CannotSave:
        return ()
    return tuple(find_chosen(visit, choices)) if choices else ()


def _pick_work(request: Request, chosen: tuple[Cure, ...]) -> Work:
    from lapwright.job.run.sheet import WORKS

    asked = request.query_params.get("work")
    return next((work for work in WORKS if chosen and work == asked), "found")


def _read_asked(request: Request, visit: Visit) -> Asked:
    from lapwright.job.run.stand import Asked

    said = {key: value.strip()[:_LONGEST] or None for key, value in request.query_params.items()}
    by_load = said.get("by") == "load"
    if by_load and not said.get("load") and not visit.record.written.get("running.load"):
        raise BadInput("no load is given", "write one, such as 30 mN m, or give the speed")
    return Asked(
        **{key: said.get(key) for key in _ASKED},
        speed=None if by_load else said.get("speed"),
        load=said.get("load") if by_load else None,
        ideal="ideal" in said,
        dead=tuple(request.query_params.getlist("dead")),
    )


def tests(request: Request) -> Response:
    """Answer with the bench tests held against what is worked out, and what they tell."""
    workshop, engine = workshop_of(request), request.path_params["id"]
    visit = workshop.visit(engine)
    written = [_read_test(visit, test.number) for test in visit.engine.bench_tests]
    seen = look_at_tests(visit) if written else None
    refused = seen if isinstance(seen, LapwrightError) else None
    report: Any = None if refused is not None else seen
    return show(
        request,
        "run_tests.html",
        written=written,
        digest=visit.record.digest,
        report=report,
        lines=[] if report is None else [_name_line(key, value) for key, value in report.lines.items()],
        refused=refused,
    )


def _read_test(visit: Visit, number: int) -> dict[str, Any]:
    place = f"bench_test.{number - 1}"
    start = f"{place}."
    lines = [(name_key(path), text) for path, text in visit.record.written.items() if path.startswith(start)]
    return {"number": number, "place": place, "lines": lines}


async def enter(request: Request) -> Response:
    """Write a bench test into the record."""
    workshop, engine = workshop_of(request), request.path_params["id"]
    sent = await _read_sent(request)
    await run_in_threadpool(enter_test, workshop, engine, sent)
    return _done(request, "tests")


async def remove(request: Request) -> Response:
    """Take a bench test out of the record."""
    workshop, engine = workshop_of(request), request.path_params["id"]
    sent = await _read_sent(request)
    place = f"bench_test.{sent.get('place', '').removeprefix('bench_test.')}"
    await run_in_threadpool(workshop.remove_part, engine, place, digest=sent.get("digest", ""))
    return _done(request, "tests")


async def calibrate(request: Request) -> Response:
    """Write what the bench tests tell into the record."""
    workshop, engine = workshop_of(request), request.path_params["id"]
    sent = await _read_sent(request)
    await run_in_threadpool(write_calibration, workshop, engine, digest=sent.get("digest", ""))
    return _done(request, "tests")


async def note(request: Request) -> Response:
    """Note a run in the log."""
    workshop, engine = workshop_of(request), request.path_params["id"]
    sent = await _read_sent(request)
    await run_in_threadpool(note_run, workshop, engine, sent, now=datetime.now())
    return _done(request, "note")


async def _read_sent(request: Request) -> Mapping[str, str]:
    return {name: str(value) for name, value in (await read_form(request)).items()}


def _name_line(key: str, value: str) -> tuple[str, str]:
    """A line that goes into the record, in words: also the names of the figures that the tests told."""
    if key == "from_tests":
        value = ", ".join(name_key(f"running.{name}") for name in value.split(", "))
    return name_key(f"running.{key}"), value


def _done(request: Request, place: str) -> Response:
    """Back to the page, at the place where it was asked; a script is only told that it is done."""
    if "text/html" not in request.headers.get("accept", ""):
        return reply({"done": place})
    return RedirectResponse(f"/engine/{quote(request.path_params['id'])}/run#{place}", 303)


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/run", run),
    Route("/engine/{id}/run/turn", turn),
    Route("/engine/{id}/run/tests", tests),
    Route("/engine/{id}/run/tests/enter", enter, methods=["POST"]),
    Route("/engine/{id}/run/tests/remove", remove, methods=["POST"]),
    Route("/engine/{id}/run/tests/write", calibrate, methods=["POST"]),
    Route("/engine/{id}/run/note", note, methods=["POST"]),
]
