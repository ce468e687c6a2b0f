"""What stands before every page: whose request it is, where it comes from, how much it brings, what may be loaded."""

from __future__ import annotations

import re
from asyncio import CancelledError
from collections.abc import MutableMapping
from typing import Any

from starlette.datastructures import Headers
from starlette.requests import ClientDisconnect, HTTPConnection
from starlette.types import ASGIApp, Message, Receive, Scope, Send
from starlette.websockets import WebSocketDisconnect, WebSocketDisconnected

from lapwright.bench.access import COOKIE, Access, is_this_machine
from lapwright.bench.passing import check_length, limit_body, send_guarded
from lapwright.bench.refusals import admit_fault, refuse, turn_away
from lapwright.errors import LapwrightError, NotAllowed

SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})
#: What a guest reaches before the code was given.
_OPEN_PATHS = ("/join/", "/static/")
#: A name and a place, nothing else: no person before it, no stroke after it.
_HOST = re.compile(r"([a-z0-9.-]{1,253})(?::[0-9]{1,5})?", re.IGNORECASE)
#: A machine between the two of them tells so in one of these.
_FORWARDED = ("forwarded", "x-forwarded-for", "x-real-ip", "via")


class Guard:
    """Lets a request through to the pages, or refuses it with the bench's one shape of error.

    A page that breaks ends here too: nothing that goes wrong in one reaches the server.
    """

    def __init__(self, app: ASGIApp, access: Access) -> None:
        self.app, self.access = app, access

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Judge one request, and answer for what becomes of it."""
        if scope["type"] not in {"http", "websocket"}:
            await self.app(scope, receive, send)
            return
        begun = False

        async def send_noted(message: Message) -> None:
            nonlocal begun
            begun = begun or message["type"].endswith(("response.start", "websocket.accept"))
            await send_guarded(message, scope=scope, send=send)

        try:
            self._judge(scope)
            await self.app(scope, limit_body(scope, receive), send_noted)
        except LapwrightError as error:
            await turn_away(scope, receive, send_noted, answer=refuse(scope, error))
        except (CancelledError, KeyboardInterrupt, GeneratorExit):
            raise
        except (ClientDisconnect, WebSocketDisconnect, WebSocketDisconnected):
            # Gone before all of it was said: there is nobody to answer.
            return
        except BaseException as fault:
            # Also what is no Exception: a library that panics must not take the bench along.
            answer = admit_fault(scope, fault)
            if not begun:
                await turn_away(scope, receive, send_noted, answer=answer)
            elif scope["type"] == "websocket":
                await send({"type": "websocket.close", "code": 1011})
        finally:
            if "form" in scope.get("state", {}):
                # What was sent along lies in files without a name, which end with this.
                await scope["state"]["form"].close()

    def _judge(self, scope: Scope) -> None:
        headers = Headers(scope=scope)
        state: MutableMapping[str, Any] = scope.setdefault("state", {})
        state["outside"] = True
        host = state["host"] = self._read_host(headers)
        state["guest"] = state["outside"] = not _is_here(scope, headers)
        is_unsafe = scope["type"] == "websocket" or scope["method"] not in SAFE_METHODS
        if not (_is_own_page(headers, host) if is_unsafe else _may_be_shown(headers)):
            raise NotAllowed("this came from another page than the bench's own", "open the bench and do it there")
        self._judge_guest(scope, is_unsafe=is_unsafe and scope["type"] == "http")
        check_length(scope, headers.get("content-length", "0"))

    def _read_host(self, headers: Headers) -> str:
        """The name by which the bench was called, which has to be one of its own: no other name leads here."""
        told = headers.getlist("host")
        found = _HOST.fullmatch(told[0]) if len(told) == 1 else None
        if found is None or found[1].lower() not in self.access.hosts:
            raise NotAllowed("the bench is not called by that name", "use the address that it was opened with")
        return found[0].lower()

    def _judge_guest(self, scope: Scope, *, is_unsafe: bool) -> None:
        """A guest needs a token, and leave to write; who sits at this machine needs neither."""
        state: MutableMapping[str, Any] = scope["state"]
        state["read_only"] = False
        if not state["guest"]:
            return
        sharing = self.access.sharing
        if scope["path"].startswith(_OPEN_PATHS):
            state["read_only"] = True
            return
        if sharing is None or not sharing.knows_guest(HTTPConnection(scope).cookies.get(COOKIE, "")):
            raise NotAllowed("the bench does not know this device", "open the link that is shown at the bench")
        state["outside"], state["read_only"] = False, not sharing.may_change
        if is_unsafe and not sharing.may_change:
            raise NotAllowed("guests of this bench may look, not change", "start it with --allow-changes for more")


def _is_here(scope: Scope, headers: Headers) -> bool:
    """Whether who asks sits at this machine; a request that was passed on says nothing about that."""
    address = (scope.get("client") or ("", 0))[0]
    return is_this_machine(address) and not any(name in headers for name in _FORWARDED)


def _is_own_page(headers: Headers, host: str) -> bool:
    origin = headers.get("origin")
    if origin is None:
        return headers.get("sec-fetch-site") == "same-origin"
    return origin == f"http://{host}"


def _may_be_shown(headers: Headers) -> bool:
    """Whether a look is the bench's own or one of a person who followed a link; never part of another page."""
    if headers.get("sec-fetch-site", "none") in {"none", "same-origin"}:
        return True
    return headers.get("sec-fetch-mode") == "navigate" and headers.get("sec-fetch-dest") == "document"
