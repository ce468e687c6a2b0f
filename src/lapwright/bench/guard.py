"""What stands before every page: whose request it is, where it comes from, how much it brings, what may be loaded."""

from __future__ import annotations

from collections.abc import MutableMapping
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from lapwright.bench.access import COOKIE, Access, is_this_machine
from lapwright.bench.refusals import refuse
from lapwright.errors import LapwrightError, NotAllowed, TooLarge

SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})
#: Bytes that a request may bring: most, those with a photograph, and those with a whole archive.
_MOST, _MOST_PHOTOGRAPH, _MOST_ARCHIVE = 2_000_000, 26_000_000, 101_000_000
#: What a guest reaches before the code was given.
_OPEN_PATHS = ("/join/", "/static/")
CONTENT_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
    "connect-src 'self'; frame-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'self'"
)
_HEADERS = {
    "content-security-policy": CONTENT_POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "SAMEORIGIN",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-cache",
}


class Guard:
    """Lets a request through to the pages, or refuses it with the bench's one shape of error."""

    def __init__(self, app: ASGIApp, access: Access) -> None:
        self.app, self.access = app, access

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Judge one request."""
        if scope["type"] not in {"http", "websocket"}:
            await self.app(scope, receive, send)
            return
        try:
            self._judge(scope)
        except LapwrightError as error:
            await _turn_away(scope, receive, send, error=error)
            return
        if scope["type"] == "websocket":
            await self.app(scope, receive, send)
            return
        await self.app(scope, _limit(receive, _most_for(scope["path"])), _with_headers(send))

    def _judge(self, scope: Scope) -> None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if _name_of(host) not in self.access.hosts:
            raise NotAllowed("the bench is not called by that name", "use the address that it was opened with")
        is_unsafe = scope["type"] == "websocket" or scope["method"] not in SAFE_METHODS
        if is_unsafe and not _is_own_page(headers, host):
            raise NotAllowed("this came from another page than the bench's own", "open the bench and do it there")
        self._judge_guest(scope, headers, is_unsafe=is_unsafe and scope["type"] == "http")
        most = _most_for(scope["path"])
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > most:
            raise TooLarge("what was sent", _show_bytes(most))

    def _judge_guest(self, scope: Scope, headers: Headers, *, is_unsafe: bool) -> None:
        """A guest needs a token, and leave to write; who sits at this machine needs neither."""
        state: MutableMapping[str, Any] = scope.setdefault("state", {})
        state["read_only"] = False
        if is_this_machine((scope.get("client") or ("", 0))[0]):
            return
        sharing = self.access.sharing
        if scope["path"].startswith(_OPEN_PATHS):
            state["read_only"] = True
            return
        if sharing is None or not sharing.knows_guest(_read_cookie(headers)):
            raise NotAllowed("the bench does not know this device", "open the link that is shown at the bench")
        state["read_only"] = not sharing.may_change
        if is_unsafe and not sharing.may_change:
            raise NotAllowed("guests of this bench may look, not change", "start it with --allow-changes for more")


def _name_of(host: str) -> str:
    try:
        return urlsplit(f"//{host}").hostname or ""
    except ValueError:
        return ""


def _is_own_page(headers: Headers, host: str) -> bool:
    origin = headers.get("origin")
    if origin is None:
        return headers.get("sec-fetch-site") == "same-origin"
    return origin == f"http://{host}"


def _read_cookie(headers: Headers) -> str:
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
    except CookieError:
        return ""
    return "" if found is None else found.value


def _most_for(path: str) -> int:
    if path == "/bring-in":
        return _MOST_ARCHIVE
    return _MOST_PHOTOGRAPH if path.endswith("/photographs") else _MOST


def _show_bytes(count: int) -> str:
    return f"{count // 1_000_000} MB"


def _limit(receive: Receive, most: int) -> Receive:
    """A length may be left out or be a lie: what really comes is counted."""
    taken = 0

    async def receive_limited() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > most:
            raise TooLarge("what was sent", _show_bytes(most))
        return message

    return receive_limited


def _with_headers(send: Send) -> Send:
    async def send_guarded(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in _HEADERS.items():
                headers.setdefault(name, value)
        await send(message)

    return send_guarded


async def _turn_away(scope: Scope, receive: Receive, send: Send, *, error: LapwrightError) -> None:
    if scope["type"] == "websocket":
        # Closed before it was opened: the browser sees a plain 403.
        await send({"type": "websocket.close", "code": 1008, "reason": error.message})
        return
    await refuse(scope, error)(scope, receive, _with_headers(send))
