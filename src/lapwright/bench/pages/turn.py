"""Turn it over: the moving section, what opens when, and sliders on which other sizes are tried."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route, WebSocketRoute
from starlette.websockets import WebSocket, WebSocketDisconnect

from lapwright.bench.page import read_object, reply, show, workshop_of
from lapwright.bench.texts import load_texts
from lapwright.errors import BadInput, FlawedRecord, LapwrightError
from lapwright.job.run.preparing import prepare_beside
from lapwright.job.turn.trying import TRIED, Tried, list_knobs, try_sizes
from lapwright.job.turn.turning import (
    add_card,
    find_cylinder,
    show_card,
    show_openings,
    show_times,
    show_turn,
    turn_over,
)
from lapwright.job.visit import Visit
from lapwright.papers.engine_picture import EnginePicture, draw_engine_picture
from lapwright.papers.engine_svg import list_places, moving_svg, view_valve, view_whole, write_valve

#: Paper of the section, and of the one from which the valve's close-up is cut [mm].
_WIDE, _NEAR = 260.0, 760.0
#: What the valve's shape and its place on the spindle hang on.
_SHAPING = frozenset({"valve.length", "valve.cavity", "valve_drive.valve_offset"})


def turn(request: Request) -> Response:
    """Show an engine that can be turned over."""
    engine = request.path_params["id"]
    workshop = workshop_of(request)
    try:
        visit = workshop.visit(engine)
    except FlawedRecord:
        record = workshop.open_engine(engine)
        name = engine if record.engine is None else record.engine.name
        return show(request, "turn.html", engine_name=name, problems=record.problems, data=None, visit=None)
    names = [sizes.name for sizes in visit.cylinders]
    chosen = request.query_params.get("cylinder", names[0] if names else "")
    find_cylinder(visit, chosen)
    pictures = _draw(visit, chosen)
    context = {} if pictures is None else _describe(visit, chosen, pictures)
    return show(
        request,
        "turn.html",
        **{
            "engine_name": visit.engine.name,
            "problems": (),
            "data": None,
            "visit": visit,
            "cylinders": names,
            "chosen": chosen,
            "cannot_turn": bool({"bore", "stroke"} & find_cylinder(visit, chosen).numbers.keys()),
            **context,
        },
    )


def _is_clockwise(visit: Visit) -> bool:
    return visit.engine.rotation != "anticlockwise"


def _draw(visit: Visit, cylinder: str) -> tuple[EnginePicture, EnginePicture] | None:
    """The section, and the same on larger paper."""
    sizes = next(sizes for sizes in visit.engine.cylinders if sizes.name == cylinder)
    empty = [g.on for g in visit.engine.glands if g.cylinder == cylinder and g.packed_with == "nothing"]
    whole, near = (
        draw_engine_picture(sizes, width=width, clockwise=_is_clockwise(visit), empty=empty) for width in (_WIDE, _NEAR)
    )
    return None if whole is None or near is None else (whole, near)


def _describe(visit: Visit, cylinder: str, pictures: tuple[EnginePicture, EnginePicture]) -> dict[str, Any]:
    whole, near = pictures
    closer = view_valve(near)
    words = load_texts().turn
    found = turn_over(visit, cylinder)
    number = [sizes.name for sizes in visit.cylinders].index(cylinder)
    data = {
        "cylinder": cylinder,
        "clockwise": _is_clockwise(visit),
        "fluid": visit.engine.fluid or "air",
        "outside": find_cylinder(visit, cylinder).admission == "outside",
        "found": show_turn(found),
        "phases": {sizes.name: show_phase(sizes.number("crank_phase")) for sizes in visit.cylinders},
        "places": {"whole": list_places(whole), "near": list_places(near)},
        "words": {name: value for name, value in vars(words).items() if isinstance(value, str)},
    }
    knobs = [{**asdict(knob), "label": getattr(words.knobs, _plain(knob.key))} for knob in list_knobs(visit, cylinder)]
    return {
        "data": data,
        "svg": moving_svg(whole, view_whole(whole), key="whole"),
        "near": "" if closer is None else moving_svg(near, closer, key="near"),
        "knobs": knobs,
        "ends": found.ends,
        "taken": [(getattr(words.sizes, _plain(one.key), one.key), one.because) for one in whole.taken],
        "wanted": [(f"cylinder.{number}.{key}", getattr(words.sizes, _plain(key), key)) for key in whole.wanted],
    }


def show_phase(radians: float) -> float:
    """Return an angle [rad] in degrees, as scripts take it."""
    return radians * 57.29577951308232


def _plain(key: str) -> str:
    return key.replace(".", "_")


class _Trial:
    """What a page tries on one engine: the visit and the pictures are those with which it began."""

    def __init__(self, visit: Visit) -> None:
        self.visit = visit
        self._pictures: dict[str, tuple[EnginePicture, EnginePicture] | None] = {}
        self._sent: dict[str, Any] = {}
        self._last: Tried | None = None

    def try_out(self, asked: dict[str, Any]) -> Tried:
        """Turn the engine over with what the page asks for, without the pressures: that takes no time."""
        cylinder, changes = asked.get("cylinder"), asked.get("changes")
        if not isinstance(cylinder, str) or not isinstance(changes, dict):
            raise BadInput("what was sent cannot be read", "load the page again")
        is_back = asked.get("backwards") is True
        self._last = try_sizes(
            self.visit, cylinder, changes=changes, backwards=is_back, with_card=False, last=self._last
        )
        return self._last

    def show(self, asked: dict[str, Any], tried: Tried) -> dict[str, Any]:
        """Tell the page what moves and opens: as little as the picture wants, so that it follows the finger."""
        return {"type": "turn", "serial": asked.get("serial"), "turn": show_openings(tried.turn)}

    def show_times(self, asked: dict[str, Any], tried: Tried) -> dict[str, Any]:
        """Tell the page events and figures, and the valve's outline where its shape is another."""
        name, shape = tried.turn.name, {key: value for key, value in tried.values.items() if key in _SHAPING}
        answer = {"type": "times", "serial": asked.get("serial"), "turn": show_times(tried.turn)}
        answer |= {"values": tried.values, "shown": tried.shown}
        pictures = self._find_pictures(name)
        # A valve that the page has is not drawn again: most moves of a slider leave its shape alone.
        if pictures is not None and self._sent.get(name) != shape:
            self._sent[name] = shape
            answer["valve"] = {
                key: write_valve(picture, tried.turn.sizes, key=key)
                for key, picture in zip(("whole", "near"), pictures, strict=True)
            }
        return answer

    def show_card(self, asked: dict[str, Any], tried: Tried) -> dict[str, Any]:
        """Tell the page the pressures, or that the code for them is still being made ready."""
        preparing = prepare_beside()
        turn = tried.turn if preparing else add_card(self.visit, tried.turn, tried.conditions)
        return {"type": "card", "serial": asked.get("serial"), "preparing": preparing, **show_card(turn)}

    def _find_pictures(self, cylinder: str) -> tuple[EnginePicture, EnginePicture] | None:
        if cylinder not in self._pictures:
            self._pictures[cylinder] = _draw(self.visit, cylinder)
        return self._pictures[cylinder]


def try_once(request: Request) -> Response:
    """Answer one request of a page whose live line is down: all answers at once."""
    asked = request.query_params
    changes: dict[str, str | float] = {key: _read_figure(asked[key]) for key in TRIED if key in asked}
    wanted = {"cylinder": asked.get("cylinder"), "changes": changes, "backwards": asked.get("backwards") == "true"}
    trial = _Trial(workshop_of(request).visit(request.path_params["id"]))
    tried = trial.try_out(wanted)
    return reply([trial.show(wanted, tried), trial.show_times(wanted, tried), trial.show_card(wanted, tried)])


def _read_figure(text: str) -> str | float:
    """A bare number comes from a slider and is in SI; anything else was written by hand."""
    try:
        return float(text)
    except ValueError:
        return text


async def live(socket: WebSocket) -> None:
    """Answer a page's requests one after the other, as long as it is open."""
    await socket.accept()
    try:
        visit = await run_in_threadpool(workshop_of(socket).visit, socket.path_params["id"])
        trial = _Trial(visit)
        while True:
            await _answer(socket, trial, await socket.receive_text())
    except WebSocketDisconnect:
        return
    except LapwrightError as error:
        await socket.send_text(_write(_refuse(error, None)))
        await socket.close()


async def _answer(socket: WebSocket, trial: _Trial, text: str) -> None:
    """What moves comes first, so that the picture follows the finger; then its figures, and last the pressures."""
    asked = _read(text)
    if asked.get("type") == "echo":
        # Empty on purpose: by it the time on the line is measured.
        await socket.send_text(text)
        return
    try:
        tried = trial.try_out(asked)
        await socket.send_text(_write(trial.show(asked, tried)))
        await socket.send_text(_write(trial.show_times(asked, tried)))
        await socket.send_text(await run_in_threadpool(lambda: _write(trial.show_card(asked, tried))))
    except LapwrightError as error:
        await socket.send_text(_write(_refuse(error, asked.get("serial"))))


def _read(text: str) -> dict[str, Any]:
    try:
        return read_object(text)
    except BadInput:
        return {}


def _refuse(error: LapwrightError, serial: Any) -> dict[str, Any]:
    told = {"code": error.code, "message": error.message, "instead": error.instead}
    return {"type": "refused", "serial": serial, "error": told}


def _write(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


ROUTES: list[BaseRoute] = [
    Route("/engine/{id}/turn", turn),
    Route("/engine/{id}/turn/try", try_once),
    WebSocketRoute("/engine/{id}/live", live),
]
