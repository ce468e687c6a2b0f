"""What every page does alike: show a template, reply to a script, read what was sent."""

from __future__ import annotations

import json
from functools import cache
from typing import TYPE_CHECKING, Any, cast

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.datastructures import FormData
from starlette.requests import HTTPConnection, Request
from starlette.responses import HTMLResponse, Response

from lapwright.bench.setting_out import set_out
from lapwright.bench.texts import load_texts
from lapwright.errors import BadInput

if TYPE_CHECKING:
    from lapwright.job.shelf.workshop import Workshop

#: The pages of one engine, in the order of the work.
ENGINE_PAGES = ("measure", "turn", "findings", "run", "papers", "log")
_LOOKS = ("light", "dark")


def show(request: HTTPConnection, template: str, *, status: int = 200, **context: Any) -> Response:
    """Answer with a page.

    Parameters
    ----------
    request: what is answered
    template: its file
    status: of the answer [-]
    context: what the template speaks of; `engine_name` is shown at the head
    """
    return render(request, template, status=status, **context)


def render(request: HTTPConnection, template: str, *, status: int, **context: Any) -> HTMLResponse:
    """Fill a template with its own context and with what the frame round every page wants."""
    engine_id = request.path_params.get("id", "") if "path_params" in request.scope else ""
    frame = {
        "t": load_texts(),
        "engine_pages": ENGINE_PAGES,
        "engine_id": engine_id,
        "engine_name": engine_id,
        "here": request.url.path.rstrip("/").rpartition("/")[2],
        "look": _find_look(request),
        "read_only": is_read_only(request),
        "outside": is_outside(request),
    }
    return HTMLResponse(set_out(_templates().get_template(template).render(**{**frame, **context})), status)


@cache
def _templates() -> Environment:
    from lapwright.job.in_words import say_keys

    made = Environment(
        loader=PackageLoader("lapwright.bench"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["in_words"] = lambda words: say_keys(str(words))
    return made


def _find_look(request: HTTPConnection) -> str:
    look = request.cookies.get("look", "")
    return look if look in _LOOKS else ""


def reply(data: Any, status: int = 200) -> Response:
    """Answer a script with JSON.

    Parameters
    ----------
    data: the answer; no number in it may be infinite
    status: of the answer [-]
    """
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return Response(text, status, media_type="application/json")


def workshop_of(request: HTTPConnection) -> Workshop:
    """Return the workshop that the bench was opened on."""
    return cast("Workshop", request.app.state.workshop)


def is_read_only(request: HTTPConnection) -> bool:
    """Whether who asks may look only."""
    return bool(request.scope.get("state", {}).get("read_only", False))


def is_outside(request: HTTPConnection) -> bool:
    """Whether who asks was not let in, and so has no way to any other page."""
    return bool(request.scope.get("state", {}).get("outside", False))


async def read_json(request: Request) -> dict[str, Any]:
    """Read what a script sent: one JSON object.

    Raises
    ------
    BadInput: it is none
    """
    return read_object(await request.body())


def read_object(sent: str | bytes) -> dict[str, Any]:
    """Read one JSON object.

    Parameters
    ----------
    sent: by a script

    Raises
    ------
    BadInput: it is none

    Example:
    >>> read_object('{"key": "engine.name"}')
    {'key': 'engine.name'}
    """
    try:
        data = json.loads(sent, parse_constant=_refuse_constant)
        # Half a letter would only be found where it is to be stored.
        json.dumps(data, ensure_ascii=False).encode()
    except (ValueError, RecursionError):
        data = None
    if not isinstance(data, dict):
        raise _make_unreadable()
    return data


def _refuse_constant(name: str) -> None:
    raise ValueError(name)


def _make_unreadable() -> BadInput:
    return BadInput("what was sent cannot be read", "load the page again")


async def read_form(request: Request, *, files: int = 0) -> FormData:
    """Read what a form sent.

    Parameters
    ----------
    request: that brought it
    files: how many it may bring [-]

    Raises
    ------
    BadInput: it is no text
    """
    try:
        form = request.scope["state"]["form"] = await request.form(max_files=files, max_fields=200)
        for _, value in form.multi_items():
            ((value if isinstance(value, str) else value.filename) or "").encode()
    except UnicodeError:
        raise _make_unreadable() from None
    return form
