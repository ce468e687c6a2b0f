"""The bench as one application: the pages, what they work on, and the guard before them."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from typing import TYPE_CHECKING

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.routing import BaseRoute, Mount
from starlette.staticfiles import StaticFiles

from lapwright.bench.access import Access
from lapwright.bench.guard import Guard
from lapwright.bench.refusals import answer_refusal, answer_unknown
from lapwright.errors import LapwrightError

if TYPE_CHECKING:
    from lapwright.job.shelf.workshop import Workshop

#: Each names a module of `bench.pages` that holds its ROUTES; those that stand on much come last.
PAGES = (
    "shelf",
    "join",
    "log",
    "log_photographs",
    "measure",
    "findings",
    "cure",
    "done",
    "run",
    "turn",
    "tables",
    "papers",
    "before_after",
)


class _Routes(list[BaseRoute]):
    """The routes of the bench. A page is loaded once an address is not among those before it.

    So the shelf is there long before everything is that its engines may be asked.
    """

    def __iter__(self) -> Iterator[BaseRoute]:
        yield from super().__iter__()
        for page in PAGES:
            yield from import_module(f"lapwright.bench.pages.{page}").ROUTES


def build_app(workshop: Workshop, *, access: Access | None = None) -> Starlette:
    """Build the bench.

    Parameters
    ----------
    workshop: the folder it is opened on
    access: who may use it; left out, this machine alone
    """
    access = access or Access()
    app = Starlette(
        middleware=[Middleware(Guard, access=access)],
        exception_handlers={LapwrightError: answer_refusal, HTTPException: answer_unknown},
    )
    app.router.routes = _Routes(_list_mounts())
    app.state.workshop, app.state.access = workshop, access
    return app


def _list_mounts() -> list[BaseRoute]:
    return [
        Mount("/static/fonts", StaticFiles(packages=[("font_source_sans_pro", "files")])),
        Mount("/static", StaticFiles(packages=[("lapwright.bench", "static")])),
    ]
