"""Every refusal in one shape: a page for who reads, JSON for a script, with the right status."""

from __future__ import annotations

import sys
from contextlib import suppress
from typing import Any
from urllib.parse import quote, urlsplit

from starlette.exceptions import HTTPException
from starlette.requests import HTTPConnection
from starlette.responses import Response
from starlette.types import Receive, Scope, Send
from starlette.websockets import WebSocket, WebSocketState

from lapwright.bench.page import ENGINE_PAGES, render, reply, workshop_of
from lapwright.errors import (
    BadInput,
    CannotSave,
    Conflict,
    FlawedRecord,
    LapwrightError,
    NotAllowed,
    NotThere,
    RecordClash,
    TooLarge,
)
from lapwright.record import Problem

#: The nearest parent of an error decides.
_STATUSES: dict[type[LapwrightError], int] = {
    BadInput: 400,
    NotAllowed: 403,
    NotThere: 404,
    Conflict: 409,
    TooLarge: 413,
    LapwrightError: 422,
    CannotSave: 507,
}
#: What is refused before a page was found or before it could read: code, message, and what to do instead.
_UNREADABLE = ("bad-input", "what was sent cannot be read", "load the page again")
_UNKNOWN = {
    404: ("not-there", "there is no such page", "start from the shelf"),
    405: ("not-allowed", "this address is not used that way", "start from the shelf"),
    408: ("too-slow", "what was sent did not come to its end", "send it again"),
}


def find_status(error: LapwrightError) -> int:
    """Return the status of an error by its nearest parent.

    Parameters
    ----------
    error: what was refused

    Example:
    >>> find_status(NotThere("engine called wren"))
    404
    """
    return next(_STATUSES[parent] for parent in type(error).__mro__ if parent in _STATUSES)


def refuse(scope: Scope, error: LapwrightError) -> Response:
    """Answer a refusal: a page where a page was asked for, else JSON.

    Parameters
    ----------
    scope: of the request
    error: what was refused, and what to do instead
    """
    body: dict[str, Any] = {"code": error.code, "message": error.message, "instead": error.instead}
    if isinstance(error, RecordClash):
        body |= {name: getattr(error, name) for name in ("key", "base", "yours", "theirs", "digest")}
    if isinstance(error, FlawedRecord):
        if wants_page(scope) and "id" in scope.get("path_params", {}):
            return render(HTTPConnection(scope), "flawed.html", status=find_status(error), problems=error.problems)
        body["problems"] = [_show_problem(problem) for problem in error.problems if isinstance(problem, Problem)]
    return _answer(scope, body, find_status(error))


def _show_problem(problem: Problem) -> dict[str, Any]:
    return {name: getattr(problem, name) for name in ("severity", "line", "key", "message", "instead")}


def _answer(scope: Scope, body: dict[str, Any], status: int) -> Response:
    if wants_page(scope):
        return render(HTTPConnection(scope), "refusal.html", status=status, error=body, **_tell_frame(scope))
    return reply({"error": body}, status)


def _tell_frame(scope: Scope) -> dict[str, str]:
    """The name of the engine, and the way back; an address that names none of the shelf has no pages to lead to."""
    engine = scope.get("path_params", {}).get("id", "")
    if not engine:
        return {"back": ""}
    try:
        record = workshop_of(HTTPConnection(scope)).open_engine(engine)
    except LapwrightError:
        return {"engine_id": "", "engine_name": "", "back": ""}
    name = engine if record.engine is None else record.engine.name
    return {"engine_name": name, "back": _find_back(scope, engine)}


def _find_back(scope: Scope, engine: str) -> str:
    """The page one came from, or the engine's page to which the address belongs."""
    connection = HTTPConnection(scope)
    came_from = urlsplit(connection.headers.get("referer", ""))
    here = f"/engine/{quote(engine)}/"
    is_own = came_from.netloc == connection.url.netloc and came_from.path.startswith(here)
    if is_own and came_from.path != connection.url.path:
        return came_from._replace(scheme="", netloc="").geturl()
    page = connection.url.path.removeprefix(here).partition("/")[0]
    return here + (page if page in ENGINE_PAGES and page != connection.url.path.removeprefix(here) else "measure")


def wants_page(scope: Scope) -> bool:
    """Whether who asks reads a page, and is no script."""
    return "text/html" in HTTPConnection(scope).headers.get("accept", "")


async def turn_away(scope: Scope, receive: Receive, send: Send, *, answer: Response) -> None:
    """Send a refusal to who asked, over a line that was not opened yet.

    Parameters
    ----------
    scope, receive, send: of the request
    answer: the refusal
    """
    if scope["type"] == "websocket":
        await WebSocket(scope, receive, send).send_denial_response(answer)
    else:
        await answer(scope, receive, send)


async def answer_refusal(connection: HTTPConnection, error: Exception) -> Any:
    """Answer one of the program's own refusals."""
    assert isinstance(error, LapwrightError)
    return await _answer_or_close(connection, refuse(connection.scope, error))


async def answer_unknown(connection: HTTPConnection, error: Exception) -> Any:
    """Answer an address that is none, or that is not used this way, or that was sent what nobody can read."""
    assert isinstance(error, HTTPException)
    code, message, instead = _UNKNOWN.get(error.status_code, _UNREADABLE)
    answer = _answer(connection.scope, {"code": code, "message": message, "instead": instead}, error.status_code)
    answer.headers.update(error.headers or {})
    return await _answer_or_close(connection, answer)


async def _answer_or_close(connection: HTTPConnection, answer: Response) -> Response | None:
    """A live line takes an answer before it is opened, and can only be closed after."""
    if not isinstance(connection, WebSocket):
        return answer
    if connection.application_state is WebSocketState.CONNECTING:
        await connection.send_denial_response(answer)
    else:
        await connection.close(1008)
    return None


def admit_fault(scope: Scope, fault: BaseException) -> Response:
    """Answer a fault of our own: one line for the terminal, one sentence for the page, and the bench stays open.

    Parameters
    ----------
    scope: of the request
    fault: what went wrong
    """
    kind = type(fault).__name__
    told = "".join(letter if letter.isprintable() else " " for letter in str(fault)[:_LONGEST])
    with suppress(OSError, ValueError):
        # The terminal may have been closed behind us.
        sys.stderr.write(f"lapwright: a fault of the program's own: {kind}: {told}\n")
    message = f"a fault of the program's own ({kind})"
    instead = "what you had entered is kept; please report it with the record that brought it about"
    return _answer(scope, {"code": "own-fault", "message": message, "instead": instead}, 500)


#: Letters of a fault that the terminal is told [-].
_LONGEST = 300
