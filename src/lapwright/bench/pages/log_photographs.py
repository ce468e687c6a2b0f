"""Photographs of the log by their digests, whole or small; nothing else in the folder has an address."""

from __future__ import annotations

import re
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from lapwright.bench.page import workshop_of
from lapwright.errors import NotThere

_DIGEST = re.compile(r"[0-9a-f]{64}")
#: What a digest names never changes.
_FOR_GOOD = "private, max-age=31536000, immutable"


def whole(request: Request) -> Response:
    """Hand out a photograph whole and upright; place, time and camera stay in the file on the disk."""
    log, digest = workshop_of(request).log, _read_digest(request)
    kept = log.find_photograph(digest)
    return _answer(log.photograph_for_export(digest), kept.media_type, name=kept.name)


def small(request: Request) -> Response:
    """Hand out the small picture of a photograph, upright and without what the camera wrote into it."""
    return _answer(workshop_of(request).log.thumbnail(_read_digest(request)), "image/jpeg", name="small.jpg")


def _read_digest(request: Request) -> str:
    digest: str = request.path_params["digest"]
    if not _DIGEST.fullmatch(digest):
        raise NotThere("such photograph in the log book", "look at the log again")
    return digest


def _answer(data: bytes, media_type: str, *, name: str) -> Response:
    headers = {"cache-control": _FOR_GOOD, "content-disposition": f"inline; filename*=utf-8''{quote(name, safe='')}"}
    return Response(data, media_type=media_type, headers=headers)


ROUTES: list[BaseRoute] = [
    Route("/photographs/{digest}", whole),
    Route("/photographs/{digest}/small", small),
]
