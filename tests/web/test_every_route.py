"""Every address of the bench, whatever is added to it later: refusals, guests, and what a page has to have."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.applications import Starlette
from starlette.routing import BaseRoute, Mount, Route, WebSocketRoute
from starlette.testclient import TestClient

from lapwright.bench.access import COOKIE, Access, Sharing
from lapwright.bench.app import build_app
from lapwright.bench.guard import SAFE_METHODS
from lapwright.bench.texts import load_texts
from lapwright.job.shelf.workshop import Workshop
from tests.web.pictures import draw_photograph
from tests.web.reading_pages import find_faults, read_page

SCRIPT = {"accept": "application/json"}
HERE = "http://127.0.0.1"
#: What stands in an address for what it is about; all of it is wrong in its own way.
FILLERS = {"link": "x", "entry": "1", "digest": "0" * 64, "file": "card.pdf"}
HARM = "<script>alert(1)</script><harm title='\"'>&amp;{{ 7*7 }}</harm>"


def list_ways(app: Starlette) -> Iterator[tuple[str, str]]:
    """Every address of the application with each of its methods."""
    for route in app.routes:
        assert isinstance(route, Route | WebSocketRoute | Mount), route
        for method in sorted(_methods(route)):
            yield method, route.path


def _methods(route: BaseRoute) -> set[str]:
    if isinstance(route, Route):
        assert route.methods, route.path
        return set(route.methods)
    return {"LIVE"} if isinstance(route, WebSocketRoute) else {"GET"}


def fill(path: str, engine: str = "tern") -> str:
    return re.sub(r"\{(\w+)(:\w+)?\}", lambda found: {**FILLERS, "id": engine}[found[1]], path)


@pytest.fixture
def app(client: TestClient) -> Starlette:
    assert isinstance(client.app, Starlette)
    return client.app


def test_there_are_the_pages_that_were_promised(app: Starlette) -> None:
    ways = set(list_ways(app))
    pages = ("measure", "turn", "findings", "run", "papers", "log")
    assert {("GET", f"/engine/{{id}}/{page}") for page in pages} <= ways
    assert {("GET", "/"), ("GET", "/tables"), ("GET", "/log"), ("LIVE", "/engine/{id}/live")} <= ways


@pytest.mark.parametrize("engine", ["wren", "tern.toml", "tern%00", ".tern", "a" * 300, "TERN"])
def test_an_engine_that_is_none_is_told_everywhere(client: TestClient, app: Starlette, engine: str) -> None:
    asked = 0
    for method, path in list_ways(app):
        if "{id}" not in path:
            continue
        asked += 1
        address = fill(path, engine)
        if method == "LIVE":
            with client.websocket_connect(f"ws://127.0.0.1{address}", headers={"origin": HERE}) as line:
                assert json.loads(line.receive_text())["error"]["code"] == "not-there"
            continue
        answer = client.request(method, address, headers=SCRIPT, **_something(method, path))
        assert answer.status_code == 404, (method, address, answer.text[:300])
        if method != "HEAD":
            assert json.loads(answer.text)["error"]["code"] == "not-there"
    assert asked > 20


def _something(method: str, path: str) -> dict[str, object]:
    """Enough to be understood, so that it is the engine that is missed."""
    if method in SAFE_METHODS:
        return {}
    if re.search(r"/(change|undo|redo|add|remove|text)$", path) and "/log/" not in path and "/run/" not in path:
        return {"json": {"digest": "0" * 64, "key": "engine.notes", "value": "x", "seen": None, "list": "cylinder",
                         "place": "cylinder.0", "text": "x"}}  # fmt: skip
    if path.endswith("/photographs"):
        return {"data": {"entry": "1", "seen": "1"}, "files": {"photographs": ("a.jpg", draw_photograph())}}
    return {"data": {"name": "Wren", "kind": "note", "text": "x", "seen": "1", "outcome": "yes", "ref": "A:x"}}


def test_nothing_is_done_without_an_origin(client: TestClient, app: Starlette, folder: Path) -> None:
    before = {path.name: path.read_bytes() for path in folder.glob("*.toml")}
    asked = 0
    for method, path in list_ways(app):
        if method in SAFE_METHODS or method == "LIVE":
            continue
        asked += 1
        for origin in ("", "null", "http://harm.example", "http://127.0.0.1:1"):
            headers = SCRIPT | {"origin": origin}
            answer = client.request(method, fill(path), headers=headers, **_something(method, path))
            assert answer.status_code == 403, (method, path, origin)
            assert answer.json()["error"]["code"] == "not-allowed"
    assert asked > 15
    assert {path.name: path.read_bytes() for path in folder.glob("*.toml")} == before


def test_a_guest_looks_everywhere_and_changes_nothing(workshop: Workshop, folder: Path) -> None:
    sharing = Sharing()
    headers = {"origin": HERE, "cookie": f"{COOKIE}={sharing.let_in(sharing.link, sharing.code)}"}
    app = build_app(workshop, access=Access(sharing=sharing))
    before = {path.name: path.read_bytes() for path in folder.glob("*.toml")}
    with TestClient(
        app, base_url=HERE, headers=headers, client=("192.0.2.7", 1), raise_server_exceptions=False
    ) as guest:
        for method, path in list_ways(app):
            if path.startswith(("/join", "/static")) or method == "LIVE":
                continue
            answer = guest.request(method, fill(path), headers=SCRIPT, **_something(method, path))
            if method in SAFE_METHODS:
                assert answer.status_code not in {403, 500}, (path, answer.text[:300])
                assert answer.headers["cache-control"] == "no-store"
            else:
                assert answer.status_code == 403, (method, path)
        for page in ("/", "/engine/tern/measure", "/engine/tern/findings", "/engine/tern/run", "/engine/tern/log"):
            shown, _ = read_page(guest.get(page, headers={"accept": "text/html"}).text)
            forms = [part for part in shown.walk() if part.tag == "form" and part.attributes.get("method") == "post"]
            sending = [
                part
                for form in forms
                for part in form.walk()
                if part.tag == "button" and part.attributes.get("type") != "button"
            ]
            assert not sending, page
    assert {path.name: path.read_bytes() for path in folder.glob("*.toml")} == before


def fill_log(client: TestClient, engine: str = "tern", text: str = "Valve face scored.") -> int:
    """An entry with everything that one can have."""
    sent = {"kind": "found", "text": text, "parts_used": text, "job": "open", "spent": "20 min",
            "reading_name": "steam lap " + text[:20], "reading_value": "1 mm"}  # fmt: skip
    answer = client.post(f"/engine/{engine}/log", data=sent, headers=SCRIPT)
    assert answer.status_code == 200, answer.text
    entry = int(answer.json()["entry"])
    files = {"photographs": (f"{text[:60]}.jpg", draw_photograph(), "image/jpeg")}
    answer = client.post(f"/engine/{engine}/photographs", data={"entry": str(entry)}, files=files, headers=SCRIPT)
    assert answer.status_code == 200, answer.text
    return entry


def list_pages(client: TestClient, engine: str, entry: int) -> list[str]:
    """Every page that can be looked at, with something on it."""
    here = f"/engine/{engine}"
    sheet = client.get(f"{here}/findings/sheet").text
    cures = re.findall(rf'href="({here}/findings/cure\?[^"]+)"', sheet)
    look_ups = [f"/tables?of={name}" for name in vars(load_texts().tables.lookups)]
    return [
        "/", "/tables", *look_ups, "/tables?of=thread&q=4BA", "/tables?of=thread&q=7AB", "/log", "/log?words=valve",
        *(f"{here}/{page}" for page in ("measure", "turn", "findings", "run", "papers", "log", "before-after")),
        f"{here}/log/{entry}", f"{here}/log/{entry}/remove", f"{here}/put-away", "/nowhere", "/engine/wren/measure",
        *(cure.replace("&amp;", "&") for cure in cures[:2]),
    ]  # fmt: skip


PARTS = ("findings/sheet", "run/turn", "run/tests", "log?part=list")


def test_every_page_is_sound(client: TestClient) -> None:
    entry = fill_log(client)
    faults = {path: find_faults(client.get(path).text) for path in list_pages(client, "tern", entry)}
    assert len(faults) > 20
    for part in PARTS:
        answer = client.get(f"/engine/tern/{part}")
        if answer.headers["content-type"].startswith("text/html"):
            faults[part] = find_faults(answer.text, whole=False)
    assert {path: found for path, found in faults.items() if found} == {}


def test_every_page_of_a_record_that_says_little_is_sound(client: TestClient, folder: Path) -> None:
    client.post("/new", data={"name": "Wren"})
    (folder / "ruff.toml").write_text('format = 1\n[engine]\nname = "Ruff"\n[[cylinder]]\nbore = "-3 mm"\n')
    (folder / "knave.toml").write_bytes(b"\xff\xfe not a record \x00")
    for engine in ("wren", "ruff", "knave"):
        for page in ("measure", "turn", "findings", "run", "papers", "log", "before-after"):
            answer = client.get(f"/engine/{engine}/{page}")
            assert answer.status_code in {200, 400}, (engine, page, answer.text[-900:])
            assert find_faults(answer.text) == [], (engine, page)
    assert find_faults(client.get("/").text) == []


def test_what_people_write_stays_text_on_every_page(client: TestClient, folder: Path) -> None:
    record = (folder / "turnstone.toml").read_text()
    told = json.dumps(HARM, ensure_ascii=False)
    record = re.sub(r'(?m)^(name|notes|note|part|cylinder|dead) = ".*"', lambda found: f"{found[1]} = {told}", record)
    record = record.replace("name = " + told, 'name = "<harm>Wren\\"\'&amp;{{7*7}}"', 1)
    (folder / "harm.toml").write_text(record)
    (folder / "<img src=x onerror=alert(1)>.toml").write_text('format = 1\n[engine]\nname = "</title><script>x"\n')
    entry = fill_log(client, "harm", HARM)
    seen = 0
    for path in [*list_pages(client, "harm", entry), *(f"/engine/harm/{part}" for part in PARTS)]:
        answer = client.get(path)
        assert answer.status_code in {200, 400, 404}, (path, answer.text[-500:])
        if not answer.headers["content-type"].startswith("text/html"):
            continue
        page, _ = read_page(answer.text)
        parts = list(page.walk())
        assert not [part for part in parts if part.tag == "harm" or part.attributes.get("src") == "x"], path
        assert all(
            "src" in part.attributes or "json" in part.attributes["type"] for part in parts if part.tag == "script"
        )
        assert "49" not in re.findall(r"(?<=amp;)\S+?(?=<)", page.text), path
        seen += "{{" in page.text
    assert seen >= 8


def test_names_with_anything_in_them_come_through_addresses_and_headers(client: TestClient) -> None:
    for name in (
        "Ünïcödé «Wren»",
        "a; filename=x.exe",
        'quoted "wren"',
        "../../etc",
        "Wren%0d%0aSet-Cookie: a=b",
        "漢字",
    ):
        begun = client.post("/new", data={"name": name})
        assert begun.status_code == 303
        where = begun.headers["location"]
        assert re.fullmatch(r"/engine/[a-z0-9-]+/measure", where)
        assert client.get(where).status_code == 200
        archive = client.get(where.replace("measure", "archive"))
        assert archive.status_code == 200
        assert "set-cookie" not in archive.headers
        assert re.fullmatch(r"attachment; filename\*=utf-8''[\w.%-]+", archive.headers["content-disposition"])


UNKIND = [
    "",
    "{",
    "[]",
    "null",
    "[" * 90_000,
    '{"cylinder": "A"}',
    '{"cylinder": ["A"], "changes": {}}',
    '{"cylinder": "Z", "changes": {}}',
    '{"cylinder": "A", "changes": {"valve.length": NaN}}',
    '{"cylinder": "A", "changes": {"valve.length": Infinity}}',
    '{"cylinder": "A", "changes": {"valve.length": -1}}',
    '{"cylinder": "A", "changes": {"valve.length": 1e308}}',
    '{"cylinder": "A", "changes": {"valve.length": null}}',
    '{"cylinder": "A", "changes": {"valve.length": true}}',
    '{"cylinder": "A", "changes": {"valve.length": {"a": 1}}}',
    '{"cylinder": "A", "changes": {"valve.length": "<script>"}}',
    '{"cylinder": "A", "changes": {"engine.name": "x", "": 1, "cylinder.0.valve.length": 1}}',
    '{"cylinder": "A", "changes": {"supply_pressure": 1e12}}',
    '{"cylinder": "A", "changes": {"speed": 0}}',
    '{"cylinder": "A", "changes": {"speed": 1e9}}',
    '{"cylinder": "A", "changes": {}, "serial": "\\ud800"}',
    '{"cylinder": "\\ud800", "changes": {}}',
    '{"cylinder": "A", "changes": {}, "backwards": 7, "serial": NaN}',
]


def test_nothing_sent_over_a_live_line_breaks_it(client: TestClient, capsys: pytest.CaptureFixture[str]) -> None:
    for sent in UNKIND:
        with client.websocket_connect("ws://127.0.0.1/engine/tern/live", headers={"origin": HERE}) as line:
            line.send_text(sent)
            line.receive_text().encode()
            line.send_text('{"type": "echo", "serial": 7}')
            while json.loads(line.receive_text()).get("type") != "echo":
                pass
        assert capsys.readouterr().err == "", sent
    for figure in ("nan", "inf", "-1", "1e308", "x" * 5_000, "٣", "1e", ""):
        answer = client.get("/engine/tern/turn/try", params={"cylinder": "A", "valve.length": figure}, headers=SCRIPT)
        assert answer.status_code in {200, 400, 422}, (figure, answer.text[:300])
