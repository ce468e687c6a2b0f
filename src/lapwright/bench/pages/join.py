"""The way in for a guest: the link that was shown, and the code."""

from __future__ import annotations

from typing import cast

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.access import COOKIE, Access
from lapwright.bench.page import read_form, show
from lapwright.errors import NotAllowed


def _access(request: Request) -> Access:
    return cast(Access, request.app.state.access)


def ask(request: Request) -> Response:
    """Ask for the code."""
    sharing, link = _access(request).sharing, request.path_params["link"]
    if sharing is None or not sharing.knows_link(link):
        raise NotAllowed("this link is not open", "start the bench with --share again for a new one")
    return show(request, "join.html", link=link, refused=None)


async def enter(request: Request) -> Response:
    """Let a guest in who has both; who mistyped the code is asked again while tries are left."""
    sharing, link = _access(request).sharing, request.path_params["link"]
    if sharing is None:
        raise NotAllowed("this bench is not shared", "start it with --share")
    code = str((await read_form(request)).get("code", "")).replace(" ", "")
    try:
        token = sharing.let_in(link, code)
    except NotAllowed as error:
        if not sharing.knows_link(link):
            raise
        return show(request, "join.html", status=403, link=link, refused=error)
    answer = RedirectResponse("/", 303)
    answer.set_cookie(COOKIE, token, httponly=True, samesite="strict")
    return answer


ROUTES: list[BaseRoute] = [
    Route("/join/{link}", ask),
    Route("/join/{link}", enter, methods=["POST"]),
]
