"""Every refusal in one shape: a page for who reads, JSON for a script, with the right status."""

from __future__ import annotations

import sys
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import HTTPConnection, Request
from starlette.responses import Response
from starlette.types import Scope

from lapwright.bench.page import render, reply
from lapwright.errors import (
    BadInput,
    CannotSave,
    Conflict,
    LapwrightError,
    NotAllowed,
    NotThere,
    RecordClash,
    Refused,
    TooLarge,
)

#: The nearest parent of an error decides.
_STATUSES: dict[type[LapwrightError], int] = {
    BadInput: 400,
    NotAllowed: 403,
    NotThere: 404,
    Conflict: 409,
    TooLarge: 413,
    Refused: 422,
    CannotSave: 507,
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
    return _answer(scope, body, find_status(error))


def _answer(scope: Scope, body: dict[str, Any], status: int) -> Response:
    request = HTTPConnection(scope)
    if "text/html" in request.headers.get("accept", ""):
        return render(request, "refusal.html", status=status, error=body)
    return reply({"error": body}, status)


async def answer_refusal(request: Request, error: Exception) -> Response:
    """Answer one of the program's own refusals."""
    assert isinstance(error, LapwrightError)
    return refuse(request.scope, error)


async def answer_unknown(request: Request, error: Exception) -> Response:
    """Answer an address that is none, or that is not used this way."""
    assert isinstance(error, HTTPException)
    if error.status_code == 405:
        body = {"code": "not-allowed", "message": "this address is not used that way", "instead": ""}
    else:
        body = {"code": "not-there", "message": "there is no such page", "instead": "start from the shelf"}
    return _answer(request.scope, body, error.status_code)


async def answer_fault(request: Request, error: Exception) -> Response:
    """Answer a fault of our own: one line for the terminal, one sentence for the page, and the bench stays open."""
    sys.stderr.write(f"lapwright: a fault of the program's own: {type(error).__name__}: {error}\n")
    message = f"a fault of the program's own ({type(error).__name__})"
    instead = "what you had entered is kept; please report it with the record that brought it about"
    return _answer(request.scope, {"code": "own-fault", "message": message, "instead": instead}, 500)
