"""What is wrong, ranked, with its evidence and what the checks came to; and the ways out."""

from __future__ import annotations

import re
from collections import Counter
from datetime import datetime
from typing import TYPE_CHECKING, Any, NamedTuple
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.in_step import word_jobs_anew
from lapwright.bench.page import read_form, show, workshop_of
from lapwright.bench.picture import show_picture
from lapwright.errors import CannotSave, FlawedRecord, LapwrightError
from lapwright.job.cure.checking import (
    STANDINGS,
    Checked,
    Noted,
    Standing,
    judge_cure,
    list_outcomes,
    name_finding,
    note_outcome,
    rank_checked,
)
from lapwright.job.cure.choosing import (
    Choice,
    drop_choice,
    find_chosen,
    list_choices,
    list_unmeasured,
    remake_choice,
    tell_unmeasured,
    word_task,
)
from lapwright.job.in_words import tell_finding
from lapwright.job.measure.size_places import name_place
from lapwright.job.run.notes import BY_HAND, TURNING
from lapwright.job.shelf.workshop import Workshop
from lapwright.job.visit import Visit
from lapwright.papers.measure_terms import name_key

if TYPE_CHECKING:
    from lapwright.cures import Cure
    from lapwright.findings import Finding

#: Width of a picture [mm of paper].
_WIDTH = 116.0


def findings(request: Request) -> Response:
    """Show the findings; before the first one is worked out, a page that fetches them."""
    workshop, engine = workshop_of(request), request.path_params["id"]
    try:
        visit = workshop.visit(engine)
    except FlawedRecord as error:
        return show(request, "flawed.html", problems=error.problems)
    is_ready = "findings" in vars(visit)
    if is_ready:
        word_jobs_anew(request)
    sheet = gather_sheet(workshop, engine) if is_ready else {}
    is_made = "made" in request.query_params
    return show(request, "findings.html", engine_name=visit.engine.name, is_ready=is_ready, is_made=is_made, **sheet)


def sheet(request: Request) -> Response:
    """Work the findings out and answer with their part of the page."""
    word_jobs_anew(request)
    workshop, engine = workshop_of(request), request.path_params["id"]
    return show(request, "findings_sheet.html", **gather_sheet(workshop, engine))


def gather_sheet(workshop: Workshop, engine: str) -> dict[str, Any]:
    """Gather what the sheet of an engine's findings tells."""
    visit, noted, choices, done, log_trouble = _read_log(workshop, engine)
    checked = rank_checked(visit.all_findings, noted)
    lost = {choice.cylinder: why for choice in choices.values() if (why := _say_lost(visit, choice))}
    titles = {name_finding(finding): finding.title for finding in visit.all_findings}
    return {
        "visit": visit,
        "many": len(visit.cylinders) > 1,
        "found": [_tell_finding(visit, each, titles) for each in checked],
        "cautions": (BY_HAND, TURNING),
        "part_cautions": share_cautions([cure.before_you_start for cure in visit.part_cures]),
        "cures": _group_cures(
            visit, {name: each for name, each in choices.items() if name not in lost}, checked, done=done
        ),
        "lost": [(choices[name], word_task(choices[name]), why) for name, why in lost.items()],
        "done": [(choice, tell_unmeasured(choice)) for choice in done.values()],
        "gaps": _group_gaps(visit),
        "log_trouble": log_trouble,
        "problems": [
            (_name_problem(visit, problem.key), problem)
            for problem in visit.record.problems
            if problem.severity != "error"
        ],
    }


def share_cautions(each: list[tuple[str, ...]]) -> dict[str, Any]:
    """Gather all that is to be heeded at some works, each once, and for each work what it alone has.

    Parameters
    ----------
    each: the cautions of every work
    """
    counts = Counter(line for lines in each for line in dict.fromkeys(lines))
    own = [[line for line in lines if len(each) > 1 and counts[line] == 1] for lines in each]
    return {"all": list(counts), "own": own}


class _Kept(NamedTuple):
    """The visit with what the log book keeps of it."""

    visit: Visit
    noted: dict[str, Noted]
    choices: dict[str, Choice]
    done: dict[str, Choice]
    trouble: CannotSave | None


def _read_log(workshop: Workshop, engine: str) -> _Kept:
    """What the log book adds; the page opens without one too."""
    visit = workshop.visit(engine)
    try:
        choices, done = list_choices(workshop, engine), list_unmeasured(workshop, visit, engine)
        done = {name: choice for name, choice in done.items() if name not in choices}
        # Also where something was done and is not measured yet, the page tells all that the record knows of.
        visit = visit.choosing(tuple(find_chosen(visit, choices))) if choices else visit
        return _Kept(visit, list_outcomes(workshop, engine), choices, done, None)
    except CannotSave as error:
        return _Kept(visit, {}, {}, {}, error)


def _tell_finding(visit: Visit, checked: Checked, titles: dict[str, str]) -> dict[str, Any]:
    # What runs an engine is loaded with the first engine that is run.
    from lapwright.job.cure.finding_pictures import find_part, picture_finding

    finding = checked.finding
    drawing = picture_finding(visit, finding, width=_WIDTH)
    root = tell_finding(finding.cylinder, finding.instead_of)
    return {
        "checked": checked,
        "finding": finding,
        "anchor": make_anchor(checked.ref),
        "picture": None if drawing is None else show_picture(drawing, legible=True),
        "instead_of": titles.get(root, "") if finding.instead_of else "",
        "doubt": f"{finding.doubt:.2g}" if finding.doubt else "",
        "doubt_from": _name_doubt(visit, finding),
        "rests_on": [_name_path(visit, finding.cylinder, key) for key in finding.rests_on],
        "effects": [effect.replace("-", " ") for effect in finding.effects],
        "part_path": find_part(visit, finding) if finding.part else "",
    }


def _name_problem(visit: Visit, key: str) -> str:
    """What a key that something is to be said of is called, with the place where it belongs; empty for none."""
    return f"{name_place(key, [sizes.name for sizes in visit.cylinders])}, {name_key(key)}" if key else ""


def make_anchor(ref: str) -> str:
    """Return the name of a finding's place on the page."""
    return "found-" + "-".join(re.findall(r"\w+", ref))


def find_path(visit: Visit, cylinder: str, key: str) -> str:
    """Return the path of a size in the record from what findings call it: a key of a cylinder or of a counted part."""
    if not key:
        return ""
    table, *rest = key.split(".")
    if table in {"fastener", "pin", "gland"} and rest and rest[0].isdigit():
        # Findings count parts from 1, as people do.
        return ".".join((table, str(int(rest[0]) - 1), *rest[1:]))
    place = next(n for n, sizes in enumerate(visit.cylinders) if sizes.name == cylinder)
    return f"cylinder.{place}.{key}"


def _group_cures(
    visit: Visit, choices: dict[str, Choice], checked: tuple[Checked, ...], *, done: dict[str, Choice]
) -> list[dict[str, Any]]:
    """The cures, each once with the cylinders that it serves: chosen ones first, doubted ones last."""
    by_code: dict[str, list[Cure]] = {}
    for cure in visit.cures:
        by_code.setdefault(cure.code, []).append(cure)
    groups = [
        {
            "code": code,
            "cures": cures,
            "first": cures[0],
            "alike": len({cure.title for cure in cures}) == 1,
            "chosen": [cure.cylinder for cure in cures if _is_chosen(choices, cure.cylinder, code)],
            "done": [cure.cylinder for cure in cures if _is_chosen(done, cure.cylinder, code)],
            "standing": _judge_together([judge_cure(cure, checked) for cure in cures]),
        }
        for code, cures in by_code.items()
    ]
    return sorted(groups, key=lambda group: (not group["chosen"], STANDINGS.index(group["standing"])))


def _judge_together(standings: list[Standing]) -> Standing:
    """How a cure stands that serves several cylinders: what any check says of it counts."""
    said: tuple[Standing, ...] = ("confirmed", "refuted")
    return next((standing for standing in said if standing in standings), "open")


def _is_chosen(choices: dict[str, Choice], cylinder: str, code: str) -> bool:
    return cylinder in choices and choices[cylinder].code == code


def _say_lost(visit: Visit, choice: Choice) -> str:
    """Why what was chosen no longer goes with the record; empty where it does."""
    try:
        remake_choice(visit, choice)
    except LapwrightError as error:
        return error.message
    return ""


def _name_doubt(visit: Visit, finding: Finding) -> tuple[str, str]:
    """What the doubt mostly comes from, as the bench calls it, and its path in the record."""
    name, path = _name_path(visit, finding.cylinder, finding.doubt_mostly_from)
    return (name if finding.doubt_words == finding.doubt_mostly_from else finding.doubt_words), path


def _name_path(visit: Visit, cylinder: str, key: str) -> tuple[str, str]:
    """What a size is called, and its path in the record; both empty for none."""
    path = find_path(visit, cylinder, key)
    return (name_key(path), path) if path else ("", "")


def _group_gaps(visit: Visit) -> list[dict[str, Any]]:
    """What cannot be known of each cylinder, with what is missing for it, and all that is missing, each once."""
    groups = []
    for name in dict.fromkeys(gap.cylinder for gap in visit.gaps):
        gaps = [gap for gap in visit.gaps if gap.cylinder == name]
        missing = dict.fromkeys(key for gap in gaps for key in gap.keys)
        groups.append(
            {
                "cylinder": name,
                "missing": [_name_path(visit, name, key) for key in missing],
                "gaps": [(gap.words, [_name_path(visit, name, key) for key in gap.keys], gap.because) for gap in gaps],
            }
        )
    return groups


async def check(request: Request) -> Response:
    """Note what the check of a finding came to."""
    form = await read_form(request)
    ref, outcome = str(form.get("ref", "")), str(form.get("outcome", ""))
    workshop, engine = workshop_of(request), request.path_params["id"]
    await run_in_threadpool(note_outcome, workshop, engine, ref, outcome=outcome, now=datetime.now())
    return RedirectResponse(f"/engine/{quote(engine)}/findings#{quote(make_anchor(ref))}", 303)


async def drop(request: Request) -> Response:
    """Take back the cure that was chosen for some cylinders."""
    form = await read_form(request)
    workshop, engine = workshop_of(request), request.path_params["id"]
    await run_in_threadpool(workshop.open_engine, engine)
    for cylinder in form.getlist("cylinder"):
        await run_in_threadpool(drop_choice, workshop, engine, str(cylinder))
    return RedirectResponse(f"/engine/{quote(engine)}/findings#cures", 303)


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/findings", findings),
    Route("/engine/{id}/findings/sheet", sheet),
    Route("/engine/{id}/findings/check", check, methods=["POST"]),
    Route("/engine/{id}/findings/drop", drop, methods=["POST"]),
]
