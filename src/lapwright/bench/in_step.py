"""Jobs that were chosen are told in the log as the record has them now."""

from __future__ import annotations

from datetime import datetime

from starlette.requests import Request

from lapwright.bench.page import is_read_only, workshop_of
from lapwright.job.cure.choosing import keep_in_step


def word_jobs_anew(request: Request) -> None:
    """Word an engine's chosen jobs anew before its log is told; a guest who may only look leaves them as they are.

    Parameters
    ----------
    request: for a page of one engine
    """
    if not is_read_only(request):
        keep_in_step(workshop_of(request), request.path_params["id"], now=datetime.now())
