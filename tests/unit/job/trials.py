"""Engines put on the stand for the tests: the demo engines, asked for in many ways."""

from __future__ import annotations

from functools import cache

from lapwright.job.run.stand import Asked
from lapwright.job.run.trial import Trial, try_engine
from lapwright.job.visit import Visit
from tests.unit.papers.matters import examine_demo

#: The demo engines whose sizes are known well enough to be run.
RUNNERS = ("curlew", "dunlin", "merganser", "plover", "sandpiper", "tern")


@cache
def visit(name: str) -> Visit:
    """A demo engine's visit, opened once."""
    return examine_demo(name)


@cache
def run(name: str, asked: Asked) -> Trial:
    """A demo engine run as asked, once."""
    return try_engine(visit(name), asked)
