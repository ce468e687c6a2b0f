"""A line to one browser, as the server holds it: hung up where it says nothing, and kept where it does."""

from __future__ import annotations

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress

import pytest
import uvicorn
from starlette.responses import PlainTextResponse
from starlette.types import Receive, Scope, Send

from lapwright.bench import line
from lapwright.bench.line import Line

ASKED = b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"


async def answer(scope: Scope, receive: Receive, send: Send) -> None:
    await PlainTextResponse("here")(scope, receive, send)


@contextmanager
def serve() -> Iterator[int]:
    """A server with our lines on a free place."""
    config = uvicorn.Config(answer, http=Line, lifespan="off", log_config=None, timeout_graceful_shutdown=1)
    server = uvicorn.Server(config)
    with socket.create_server(("127.0.0.1", 0)) as listening:
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
        thread.start()
        try:
            yield listening.getsockname()[1]
        finally:
            server.should_exit = True
            thread.join(20)


@pytest.fixture
def place(monkeypatch: pytest.MonkeyPatch) -> Iterator[int]:
    monkeypatch.setattr(line, "_PATIENCE", 0.4)
    monkeypatch.setattr(line, "_MOST", 5)
    with serve() as place:
        yield place


def call(place: int) -> socket.socket:
    return socket.create_connection(("127.0.0.1", place), timeout=10)


def ask(held: socket.socket) -> None:
    """Ask over a line, and read the whole answer."""
    held.sendall(ASKED)
    got = b""
    while not got.endswith(b"here"):
        part = held.recv(1_000)
        assert part, got
        got += part


def is_hung_up(held: socket.socket) -> bool:
    try:
        return held.recv(1) == b""
    except ConnectionError:
        return True


def test_a_line_that_says_nothing_is_hung_up(place: int) -> None:
    with call(place) as silent:
        assert is_hung_up(silent)


def test_a_line_that_never_comes_to_the_point_is_hung_up(place: int) -> None:
    """A letter every now and then keeps nobody waiting."""
    with call(place) as slow:
        began = time.monotonic()
        with suppress(ConnectionError):
            while time.monotonic() - began < 10:
                slow.sendall(b"G")
                time.sleep(0.02)
        assert time.monotonic() - began < 10


def test_a_second_request_has_to_come_to_the_point_too(place: int) -> None:
    with call(place) as slow:
        ask(slow)
        slow.sendall(ASKED[:20])
        assert is_hung_up(slow)


def test_a_line_that_asks_is_answered_time_after_time(place: int) -> None:
    with call(place) as held:
        for _ in range(3):
            ask(held)
            time.sleep(0.3)


def test_one_line_too_many_is_hung_up_and_the_others_are_kept(place: int) -> None:
    held = [call(place) for _ in range(5)]
    for each in held:
        ask(each)
    with call(place) as further:
        assert is_hung_up(further)
    ask(held[0])
    for each in held:
        each.close()
