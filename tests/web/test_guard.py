"""What stands before every page, tried as somebody would who means harm; the pages behind it are the test's own."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response, StreamingResponse
from starlette.routing import BaseRoute, Route, WebSocketRoute
from starlette.testclient import TestClient, WebSocketDenialResponse, WebSocketTestSession
from starlette.types import Message
from starlette.websockets import WebSocket, WebSocketDisconnect

from lapwright.bench import passing
from lapwright.bench.access import COOKIE, Access, Sharing
from lapwright.bench.guard import Guard
from lapwright.bench.page import is_read_only, read_form, read_json, reply
from lapwright.bench.refusals import answer_refusal, answer_unknown
from lapwright.errors import LapwrightError, NotThere

HERE = "http://127.0.0.1"
OWN = {"origin": HERE}
TABLET = ("192.0.2.7", 50_000)


class Panic(BaseException):
    """What a library in another language throws: no Exception."""


async def take(request: Request) -> Response:
    return reply({"letters": len(await request.body())})


async def take_json(request: Request) -> Response:
    return reply(await read_json(request))


async def take_form(request: Request) -> Response:
    return reply(sorted(await read_form(request, files=1)))


def look(request: Request) -> Response:
    return PlainTextResponse("guest" if is_read_only(request) else "owner")


def break_down(request: Request) -> Response:
    raise {"fault": KeyError("\x1b[31mred\nline"), "panic": Panic("over"), "exit": SystemExit(3)}[
        request.path_params["how"]
    ]


def break_midway(_: Request) -> Response:
    async def talk() -> object:
        yield b"begun"
        raise KeyError("midway")

    return StreamingResponse(talk())  # type: ignore[arg-type]


async def live(line: WebSocket) -> None:
    how = line.path_params["how"]
    if how == "unknown":
        raise NotThere("engine called wren")
    await line.accept()
    if how == "fault":
        raise KeyError("midway")
    if how == "refused":
        raise NotThere("engine called wren")
    await line.send_text(await line.receive_text())
    await line.close()


ROUTES: list[BaseRoute] = [
    Route("/", look),
    Route("/join/{link}", look),
    Route("/static/{name}", look),
    Route("/take", take, methods=["POST", "PUT", "DELETE"]),
    Route("/bring-in", take, methods=["POST"]),
    Route("/engine/{id}/photographs", take, methods=["POST"]),
    Route("/json", take_json, methods=["POST"]),
    Route("/form", take_form, methods=["POST"]),
    Route("/break/{how}", break_down),
    Route("/midway", break_midway),
    WebSocketRoute("/live/{how}", live),
]


def build(access: Access, *, client: tuple[str, int] = ("127.0.0.1", 50_000)) -> TestClient:
    app = Starlette(
        routes=ROUTES,
        middleware=[Middleware(Guard, access=access)],
        exception_handlers={LapwrightError: answer_refusal, HTTPException: answer_unknown},
    )
    return TestClient(app, base_url=HERE, client=client)


def dial(client: TestClient, path: str, *, headers: dict[str, str]) -> WebSocketTestSession:
    """Open a live line; the test client would call the bench by another name."""
    return client.websocket_connect(f"ws://127.0.0.1{path}", headers=headers)


@pytest.fixture
def bench() -> Iterator[TestClient]:
    with build(Access()) as client:
        yield client


def read_refusal(answer: Response) -> tuple[int, str]:
    """Status and code of a refusal, whose shape is the same every time."""
    body = json.loads(answer.text)
    assert set(body) == {"error"}
    assert {"code", "message", "instead"} <= set(body["error"])
    assert body["error"]["message"]
    return answer.status_code, body["error"]["code"]


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "LOCALHOST", "localhost:8460", "127.0.0.1:1"])
def test_the_bench_answers_to_its_names(bench: TestClient, host: str) -> None:
    assert bench.get("/", headers={"host": host}).text == "owner"


@pytest.mark.parametrize(
    "host",
    [
        "",
        "harm.example",
        "harm.example:8460",
        "127.0.0.1.harm.example",
        "localhost.harm.example",
        "localhost.",
        "harm@127.0.0.1",
        "127.0.0.1@harm.example",
        "127.0.0.1:8460@harm.example",
        "127.0.0.1:",
        "127.0.0.1:84600000",
        "127.0.0.1:x",
        "127.0.0.1/harm",
        "127.0.0.1?harm",
        "127.0.0.1;script-src *",
        "127.0.0.1, harm.example",
        " 127.0.0.1 x",
        "127.1",
        "2130706433",
        "0.0.0.0",
        "[::1]",
        "[::1",
        "[::ffff:127.0.0.1]",
        "192.168.1.10",
    ],
)
def test_a_name_that_is_not_its_own_leads_nowhere(bench: TestClient, host: str) -> None:
    """A page elsewhere may have its name point to this machine; its name then stands in the request."""
    answer = bench.get("/", headers={"host": host})
    assert read_refusal(answer) == (403, "not-allowed")
    assert "script-src *" not in answer.headers["content-security-policy"]
    assert read_refusal(bench.post("/take", headers={"host": host, "origin": f"http://{host}"}))[0] == 403


def test_two_names_at_once_are_none(bench: TestClient) -> None:
    answer = bench.get("/", headers=[("host", "127.0.0.1"), ("host", "harm.example")])
    assert read_refusal(answer) == (403, "not-allowed")


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"origin": "null"},
        {"origin": ""},
        {"origin": "http://harm.example"},
        {"origin": "https://127.0.0.1"},
        {"origin": "http://127.0.0.1:9999"},
        {"origin": "http://localhost"},
        {"origin": "http://127.0.0.1.harm.example"},
        {"origin": "http://127.0.0.1@harm.example"},
        {"origin": "http://127.0.0.1/"},
        {"origin": "http://harm.example", "sec-fetch-site": "same-origin"},
        {"referer": "http://127.0.0.1/"},
        {"sec-fetch-site": "none"},
        {"sec-fetch-site": "same-site"},
        {"sec-fetch-site": "cross-site"},
    ],
)
def test_nothing_is_done_for_another_page(bench: TestClient, headers: dict[str, str]) -> None:
    for method in ("POST", "PUT", "PATCH", "DELETE", "TRACE", "MAKE"):
        assert read_refusal(bench.request(method, "/take", headers=headers)) == (403, "not-allowed")
    with pytest.raises(WebSocketDenialResponse) as turned, dial(bench, "/live/echo", headers=headers):
        raise AssertionError("a line was opened")
    assert read_refusal(turned.value) == (403, "not-allowed")


@pytest.mark.parametrize("headers", [OWN, {"sec-fetch-site": "same-origin"}, OWN | {"sec-fetch-site": "same-origin"}])
def test_what_its_own_page_asks_is_done(bench: TestClient, headers: dict[str, str]) -> None:
    assert bench.post("/take", headers=headers, content=b"abc").json() == {"letters": 3}
    with dial(bench, "/live/echo", headers=headers) as line:
        line.send_text("here")
        assert line.receive_text() == "here"


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
def test_another_page_cannot_show_or_load_anything_of_it(bench: TestClient, site: str) -> None:
    for mode, kind in (("no-cors", "image"), ("cors", "empty"), ("navigate", "iframe"), ("no-cors", "script")):
        headers = {"sec-fetch-site": site, "sec-fetch-mode": mode, "sec-fetch-dest": kind}
        assert read_refusal(bench.get("/", headers=headers)) == (403, "not-allowed")
    followed = {"sec-fetch-site": site, "sec-fetch-mode": "navigate", "sec-fetch-dest": "document"}
    assert bench.get("/", headers=followed).text == "owner"


def test_looking_is_not_doing(bench: TestClient) -> None:
    assert bench.head("/").status_code == 200
    for method in ("GET", "HEAD", "OPTIONS"):
        assert bench.request(method, "/take").status_code == 405
    assert bench.get("/take").headers["allow"]
    assert bench.request("TRACE", "/", headers=OWN).status_code == 405


def test_every_answer_says_what_may_be_loaded(bench: TestClient) -> None:
    answers = [
        bench.get("/"),
        bench.get("/nowhere"),
        bench.get("/take"),
        bench.post("/take"),
        bench.get("/break/fault"),
        bench.get("/", headers={"host": "harm.example"}),
    ]
    for answer in answers:
        policy = answer.headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert "*" not in policy
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["cross-origin-resource-policy"] == "same-origin"
        assert answer.headers["cache-control"] == "private, no-cache"
    own = bench.get("/", headers={"host": "localhost:8460"}).headers["content-security-policy"]
    assert "connect-src 'self' ws://localhost:8460;" in own


@pytest.mark.parametrize(
    ("path", "most"), [("/take", 2_000_000), ("/engine/tern/photographs", 26_000_000), ("/bring-in", 101_000_000)]
)
def test_a_claimed_length_is_held_against_the_limit_before_anything_is_read(
    bench: TestClient, path: str, most: int
) -> None:
    for length in (most + 1, 10**30, "-1", "1_0", "0x10", "²", "", "1, 1"):
        answer = bench.post(path, headers=OWN | {"content-length": f"{length}".encode("latin-1")}, content=b"")
        assert read_refusal(answer) == (413, "too-large"), length


def test_a_body_is_counted_whatever_its_claimed_length(bench: TestClient) -> None:
    def pour(count: int) -> Iterator[bytes]:
        for _ in range(count):
            yield bytes(100_000)

    assert bench.post("/take", headers=OWN, content=pour(20)).json() == {"letters": 2_000_000}
    assert read_refusal(bench.post("/take", headers=OWN, content=pour(21))) == (413, "too-large")
    lie = OWN | {"content-length": "5"}
    assert read_refusal(bench.post("/take", headers=lie, content=pour(21))) == (413, "too-large")


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"[]",
        b"nul",
        b'{"a": NaN}',
        b'{"a": -Infinity}',
        b'{"a": "\\ud800"}',
        b'{"\\udfff": 1}',
        b'{"a": ' + b"9" * 5_000 + b"}",
        b'{"a":' * 100_000,
        b"[" * 1_000_000,
        b"\xff\xfe{}",
        b'{"a": "\xff"}',
    ],
)
def test_what_is_no_json_object_is_told_so(bench: TestClient, body: bytes) -> None:
    assert read_refusal(bench.post("/json", headers=OWN, content=body)) == (400, "bad-input")


_FILE = b'--b\r\nContent-Disposition: form-data; name="a"; filename="f"\r\n\r\n1\r\n'
_FIELD = b'--b\r\nContent-Disposition: form-data; name="a"\r\n\r\n%s\r\n--b--\r\n'


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("multipart/form-data", b"x"),
        ("multipart/form-data; boundary=b", b"no parts at all"),
        ("multipart/form-data; boundary=b", b"--b\r\n\r\nno name\r\n--b--\r\n"),
        ("multipart/form-data; boundary=b", _FILE * 2),
        ("multipart/form-data; boundary=b; charset=utf-7", _FIELD % b"+2AA-"),
        ("multipart/form-data; boundary=b; charset=undefined", _FIELD % b"1"),
        ("application/x-www-form-urlencoded", b"&".join(b"a=1" for _ in range(201))),
        ("application/x-www-form-urlencoded", b"a=" + b"x" * 1_100_000),
    ],
)
def test_what_is_no_form_is_told_so(bench: TestClient, kind: str, body: bytes) -> None:
    answer = bench.post("/form", headers=OWN | {"content-type": kind}, content=body)
    assert read_refusal(answer) == (400, "bad-input")


@pytest.mark.parametrize("how", ["fault", "panic", "exit"])
def test_a_page_that_breaks_leaves_the_bench_open(
    bench: TestClient, capsys: pytest.CaptureFixture[str], how: str
) -> None:
    assert read_refusal(bench.get(f"/break/{how}")) == (500, "own-fault")
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("lapwright: a fault of the program's own: ")
    # One line, and nothing in it that would colour or move the terminal's own.
    assert told.err.count("\n") == 1
    assert told.err.removesuffix("\n").isprintable()
    assert bench.get("/").text == "owner"


def test_a_page_that_breaks_in_the_middle_is_cut_short(bench: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    assert bench.get("/midway").text in {"", "begun"}
    assert "own: KeyError: 'midway'\n" in capsys.readouterr().err
    assert bench.get("/").text == "owner"


def test_a_live_line_is_refused_with_the_right_status_or_closed(
    bench: TestClient, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(WebSocketDenialResponse) as turned, dial(bench, "/live/unknown", headers=OWN):
        raise AssertionError("a line was opened")
    assert read_refusal(turned.value) == (404, "not-there")
    for how in ("refused", "fault"):
        with pytest.raises(WebSocketDisconnect), dial(bench, f"/live/{how}", headers=OWN) as line:
            line.receive_text()
    assert capsys.readouterr().err == "lapwright: a fault of the program's own: KeyError: 'midway'\n"


class TestGuests:
    """Who does not sit at this machine."""

    def test_nobody_else_gets_in_where_it_is_not_shared(self) -> None:
        with build(Access(), client=TABLET) as tablet:
            for path in ("/", "/nowhere", "/break/fault"):
                assert read_refusal(tablet.get(path)) == (403, "not-allowed")
            assert read_refusal(tablet.post("/take", headers=OWN)) == (403, "not-allowed")

    @pytest.mark.parametrize("address", ["192.0.2.7", "testclient", "", "::ffff:192.0.2.7", "fe80::1%eth0", "0.0.0.0"])
    def test_only_a_loopback_address_is_this_machine(self, address: str) -> None:
        with build(Access(), client=(address, 1)) as other:
            assert other.get("/").status_code == 403

    @pytest.mark.parametrize(
        "header", ["x-forwarded-for", "forwarded", "x-real-ip", "via", "client-ip", "x-client-ip", "true-client-ip"]
    )
    def test_saying_that_one_sits_here_does_not_help(self, header: str) -> None:
        with build(Access(sharing=Sharing()), client=TABLET) as tablet:
            assert tablet.get("/", headers={header: "127.0.0.1"}).status_code == 403

    @pytest.mark.parametrize("header", ["x-forwarded-for", "forwarded", "x-real-ip", "via"])
    def test_what_was_passed_on_by_this_machine_is_not_of_this_machine(self, bench: TestClient, header: str) -> None:
        assert bench.get("/", headers={header: "192.0.2.7"}).status_code == 403

    @pytest.mark.parametrize(
        "cookie",
        ["", "x", "{token}x", "x{token}", '"', "\\", "=", ";", "{token} ", "é", "\x7f", "a" * 4_000, "null", "%00"],
    )
    def test_a_token_that_was_not_given_out_is_none(self, cookie: str) -> None:
        sharing = Sharing()
        token = sharing.let_in(sharing.link, sharing.code)
        with build(Access(sharing=sharing), client=TABLET) as tablet:
            value = cookie.format(token=token) if "{" in cookie else cookie
            sent = f"{COOKIE}={value}".encode("latin-1")
            expected = 200 if value.strip() == token else 403
            assert tablet.get("/", headers={"cookie": sent}).status_code == expected

    def test_odd_cookies_of_others_do_not_hide_the_token(self) -> None:
        sharing = Sharing()
        token = sharing.let_in(sharing.link, sharing.code)
        with build(Access(sharing=sharing), client=TABLET) as tablet:
            cookie = f'odd={{"a": [1, 2]}}; also odd; q="unclosed; {COOKIE}={token}; last=\x01'
            assert tablet.get("/", headers={"cookie": cookie}).text == "guest"

    def test_a_guest_looks_and_does_nothing(self) -> None:
        sharing = Sharing()
        token = sharing.let_in(sharing.link, sharing.code)
        with build(Access(sharing=sharing), client=TABLET) as tablet:
            headers = OWN | {"cookie": f"{COOKIE}={token}"}
            answer = tablet.get("/", headers=headers)
            assert answer.text == "guest"
            assert answer.headers["cache-control"] == "no-store"
            for method in ("POST", "PUT", "DELETE", "PATCH", "TRACE"):
                assert read_refusal(tablet.request(method, "/take", headers=headers)) == (403, "not-allowed")
            with dial(tablet, "/live/echo", headers=headers) as line:
                line.send_text("what if")
                assert line.receive_text() == "what if"
            foreign = headers | {"origin": "http://harm.example"}
            with pytest.raises(WebSocketDenialResponse), dial(tablet, "/live/echo", headers=foreign):
                raise AssertionError("a line was opened")

    def test_a_stranger_has_no_live_line(self) -> None:
        with build(Access(sharing=Sharing()), client=TABLET) as tablet:
            with pytest.raises(WebSocketDenialResponse) as turned, dial(tablet, "/live/echo", headers=OWN):
                raise AssertionError("a line was opened")
            assert read_refusal(turned.value) == (403, "not-allowed")

    def test_a_guest_who_may_change_does(self) -> None:
        sharing = Sharing(may_change=True)
        token = sharing.let_in(sharing.link, sharing.code)
        with build(Access(sharing=sharing), client=TABLET) as tablet:
            headers = OWN | {"cookie": f"{COOKIE}={token}"}
            assert tablet.get("/", headers=headers).text == "owner"
            assert tablet.post("/take", headers=headers, content=b"ab").json() == {"letters": 2}
            assert tablet.post("/take", headers={"cookie": headers["cookie"]}).status_code == 403

    @pytest.mark.parametrize(
        "path",
        [
            "/static/../",
            "/static/..%2f",
            "/join/../",
            "/join/..%2f",
            "//",
            "/%2e/",
            "/join/x/../../",
            "/Static/look.css",
        ],
    )
    def test_no_way_round_by_the_open_paths(self, path: str) -> None:
        with build(Access(sharing=Sharing()), client=TABLET) as tablet:
            answer = tablet.request("GET", tablet.base_url.copy_with(raw_path=path.encode()))
            assert answer.status_code in {403, 404}


async def _stall() -> Message:
    from asyncio import sleep

    await sleep(3600)
    raise AssertionError("nobody waits that long")


def test_a_body_that_stops_coming_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    from asyncio import run

    monkeypatch.setattr(passing, "_PATIENCE", 0.01)
    with pytest.raises(HTTPException) as given_up:
        run(passing.limit_body({"type": "http", "path": "/take"}, _stall)())  # type: ignore[arg-type]
    assert given_up.value.status_code == 408
