"""What passes between a request and its page: the body, counted and timed, and the answer with its headers."""

from __future__ import annotations

from asyncio import timeout

from starlette.datastructures import MutableHeaders
from starlette.exceptions import HTTPException
from starlette.types import Message, Receive, Scope, Send

from lapwright.errors import TooLarge

#: Bytes that a request may bring: most, those with a photograph, and those with a whole archive.
_MOST, _MOST_PHOTOGRAPH, _MOST_ARCHIVE = 2_000_000, 26_000_000, 101_000_000
#: Seconds in which more of a body has to come.
_PATIENCE = 30.0
_LENGTH_DIGITS = 12
#: Nothing inline and nothing from elsewhere; older tablets want the live line named beside 'self'.
CONTENT_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
    "connect-src 'self'{live}; frame-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'self'"
)
_HEADERS = {
    "x-content-type-options": "nosniff",
    "x-frame-options": "SAMEORIGIN",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "private, no-cache",
}


async def send_guarded(message: Message, *, scope: Scope, send: Send) -> None:
    """Send on what a page answers, with the headers that every answer has.

    Parameters
    ----------
    message: of the page
    scope: of the request it answers
    send: takes it
    """
    if message["type"].endswith("http.response.start"):
        state = scope.get("state", {})
        headers = MutableHeaders(scope=message)
        live = f" ws://{state['host']}" if "host" in state else ""
        headers.setdefault("content-security-policy", CONTENT_POLICY.format(live=live))
        for name, value in _HEADERS.items():
            headers.setdefault(name, value)
        if state.get("guest") and not scope["path"].startswith("/static/"):
            # What a guest has seen does not stay on the guest's device.
            headers["cache-control"] = "no-store"
    await send(message)


def check_length(scope: Scope, told: str) -> None:
    """Refuse a body by the length that it claims.

    Parameters
    ----------
    scope: of the request
    told: the length as written in the request

    Raises
    ------
    TooLarge: it is more than this address takes, or no length at all
    """
    is_length = told.isascii() and told.isdigit() and len(told) <= _LENGTH_DIGITS
    most = _most_for(scope["path"])
    if not is_length or int(told) > most:
        raise TooLarge("what was sent", _show_bytes(most))


def limit_body(scope: Scope, receive: Receive) -> Receive:
    """Return a `receive` that counts what really comes, and does not wait for ever.

    Parameters
    ----------
    scope: of the request
    receive: brings it
    """
    if scope["type"] != "http":
        return receive
    taken, is_whole, most = 0, False, _most_for(scope["path"])

    async def receive_limited() -> Message:
        nonlocal taken, is_whole
        if is_whole:
            return await receive()
        try:
            async with timeout(_PATIENCE):
                message = await receive()
        except TimeoutError:
            raise HTTPException(408) from None
        is_whole = not message.get("more_body", False)
        taken += len(message.get("body", b""))
        if taken > most:
            raise TooLarge("what was sent", _show_bytes(most))
        return message

    return receive_limited


def _most_for(path: str) -> int:
    if path == "/bring-in":
        return _MOST_ARCHIVE
    return _MOST_PHOTOGRAPH if path.endswith("/photographs") else _MOST


def _show_bytes(count: int) -> str:
    return f"{count // 1_000_000} MB"
