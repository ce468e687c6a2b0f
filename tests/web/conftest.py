"""The bench without a server: requests go straight into the application, on a copy of the demo workshop."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from httpx2 import Response
from starlette.testclient import TestClient

from lapwright.bench.app import build_app
from lapwright.job.shelf.workshop import Workshop, open_workshop

EXAMPLES = Path(__file__).parents[2] / "examples"
HERE = "http://127.0.0.1"


class Clock:
    """A clock that goes a minute on each time somebody looks."""

    def __init__(self) -> None:
        self.now = datetime(2026, 3, 2, 9, 0)

    def __call__(self) -> datetime:
        self.now += timedelta(minutes=1)
        return self.now


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A workshop's folder with the demo engines."""
    place = tmp_path / "harbour-museum"
    place.mkdir()
    for record in EXAMPLES.glob("*.toml"):
        shutil.copy(record, place)
    return place


@pytest.fixture
def workshop(folder: Path) -> Iterator[Workshop]:
    """The demo workshop, opened."""
    opened = open_workshop(folder, clock=Clock())
    yield opened
    opened.close()


def read_plainly(answer: Response) -> None:
    """Let a page be read with plain spaces; what keeps its figures together has a test of its own."""
    if answer.headers.get("content-type", "").startswith("text/html"):
        answer._content = answer.read().replace("\N{NO-BREAK SPACE}".encode(), b" ")


@pytest.fixture
def client(workshop: Workshop) -> Iterator[TestClient]:
    """A browser's stand-in on this machine: it says where its requests come from, as browsers do."""
    with TestClient(
        build_app(workshop),
        base_url=HERE,
        headers={"origin": HERE, "accept": "text/html"},
        client=("127.0.0.1", 50_000),
        raise_server_exceptions=False,
        follow_redirects=False,
    ) as made:
        made.event_hooks = {"response": [read_plainly]}
        yield made
