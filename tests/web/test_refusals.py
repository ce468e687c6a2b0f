"""Every refusal has one shape and the right status: JSON for a script, a page for a person."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from lapwright import errors
from lapwright.bench.app import build_app
from lapwright.bench.refusals import find_status, refuse
from lapwright.errors import LapwrightError
from lapwright.job.shelf.workshop import open_workshop
from lapwright.record import read_record
from tests.unit.logbook.books import write_protected

SCRIPT = {"accept": "application/json"}
Ask = Callable[[TestClient], Any]


def every_error() -> list[type[LapwrightError]]:
    """All that can be refused, as the tree of errors has it."""
    found = [kind for kind in vars(errors).values() if isinstance(kind, type) and issubclass(kind, LapwrightError)]
    assert len(found) > 30
    return found


@pytest.mark.parametrize("kind", every_error(), ids=lambda kind: kind.__name__)
def test_every_error_has_a_status_of_a_refusal(kind: type[LapwrightError]) -> None:
    """Whatever is added to the tree later has one too, by its parent."""
    status = find_status(kind.__new__(kind))
    expected = {
        errors.BadInput: 400,
        errors.NotAllowed: 403,
        errors.NotThere: 404,
        errors.Conflict: 409,
        errors.TooLarge: 413,
        errors.CannotSave: 507,
    }
    assert status == next((number for parent, number in expected.items() if issubclass(kind, parent)), 422)


def stamp(client: TestClient, engine: str = "tern") -> str:
    return str(client.get(f"/engine/{engine}/stamp").json()["digest"])


def change(client: TestClient, **sent: Any) -> Any:
    whole = {"digest": stamp(client), "seen": None, "key": "engine.maker", "value": "x"} | sent
    return client.post("/engine/tern/change", json=whole, headers=SCRIPT)


#: What is asked, and the status, code and message that it is refused with.
REFUSED: list[tuple[str, Ask, int, str, str]] = [
    (
        "no name",
        lambda client: client.post("/new", data={"name": " "}, headers=SCRIPT),
        400, "no-name", "",
    ),
    (
        "a name with an order to the terminal in it",
        lambda client: client.post("/new", data={"name": "Wren\x1b[2J"}, headers=SCRIPT),
        400, "stray-character", "",
    ),
    (
        "no file",
        lambda client: client.post("/bring-in", headers=SCRIPT),
        400, "bad-input", "no file was chosen",
    ),
    (
        "a file that is nothing of ours",
        lambda client: client.post("/bring-in", files={"file": ("a.zip", b"PK\x03\x04 no zip")}, headers=SCRIPT),
        400, "not-an-archive", "",
    ),
    (
        "no json",
        lambda client: client.post(
            "/engine/tern/change", content=b"{", headers=SCRIPT | {"content-type": "application/json"}
        ),
        400, "bad-input", "what was sent cannot be read",
    ),
    (
        "another page",
        lambda client: client.post("/new", data={"name": "Wren"}, headers=SCRIPT | {"origin": "null"}),
        403, "not-allowed", "this came from another page than the bench's own",
    ),
    (
        "another name",
        lambda client: client.get("/", headers=SCRIPT | {"host": "harm.example"}),
        403, "not-allowed", "the bench is not called by that name",
    ),
    (
        "no such page",
        lambda client: client.get("/nowhere", headers=SCRIPT),
        404, "not-there", "there is no such page",
    ),
    (
        "no such file of the bench's own",
        lambda client: client.get("/static/nothing.js", headers=SCRIPT),
        404, "not-there", "there is no such page",
    ),
    (
        "no such engine",
        lambda client: client.get("/engine/wren/measure", headers=SCRIPT),
        404, "not-there", "there is no engine wren",
    ),
    (
        "the right page in the wrong way",
        lambda client: client.post("/tables", headers=SCRIPT),
        405, "not-allowed", "this address is not used that way",
    ),
    (
        "a size that nobody can read",
        lambda client: change(client, key="cylinder.0.stroke", value="24", seen="24 mm"),
        400, "", "",
    ),
    (
        "a key changed on both sides",
        lambda client: change(client, digest="0" * 64, key="cylinder.0.stroke", value="25 mm", seen="23 mm"),
        409, "record-clash", "cylinder.0.stroke was changed in the file as well",
    ),
    (
        "a step back that is none",
        lambda client: client.post("/engine/tern/undo", json={"digest": stamp(client)}, headers=SCRIPT),
        404, "not-there", "",
    ),
    (
        "too much at once",
        lambda client: client.post("/engine/tern/change", content=b" " * 2_000_001, headers=SCRIPT),
        413, "too-large", "what was sent is larger than 2 MB",
    ),
]  # fmt: skip
NAMES = [case[0] for case in REFUSED]


@pytest.mark.parametrize(("_name", "ask", "status", "code", "message"), REFUSED, ids=NAMES)
def test_a_script_gets_one_shape(
    client: TestClient, _name: str, ask: Ask, status: int, code: str, message: str
) -> None:
    answer = ask(client)
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/json"
    body = json.loads(answer.text)
    assert list(body) == ["error"]
    assert {"code", "message", "instead"} <= set(body["error"])
    assert all(isinstance(body["error"][name], str) for name in ("code", "message", "instead"))
    assert body["error"]["code"] == (code or body["error"]["code"])
    assert message in body["error"]["message"]
    assert body["error"]["message"].isprintable()
    assert "Traceback" not in answer.text


@pytest.mark.parametrize("path", ["/nowhere", "/engine/wren/measure", "/engine/..%00/turn", "/join/x"])
def test_a_person_gets_a_page(client: TestClient, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code in {403, 404}
    assert answer.headers["content-type"].startswith("text/html")
    assert answer.text.count("<h1") == 1
    assert 'href="/"' in answer.text
    assert "default-src 'none'" in answer.headers["content-security-policy"]


def test_a_refusal_of_an_engine_calls_it_by_its_name_and_leads_back(client: TestClient) -> None:
    where = "/engine/tern/findings/cure?cylinder=Z&code=x"
    answer = client.get(where)
    assert answer.status_code == 404
    assert '<p class="head-engine">Tern</p>' in answer.text
    assert 'href="/engine/tern/findings">Back to where you were</a>' in answer.text
    came_from = "http://127.0.0.1/engine/tern/log?words=valve"
    answer = client.get(where, headers={"referer": came_from})
    assert 'href="/engine/tern/log?words=valve">Back to where you were</a>' in answer.text
    # What lies outside of the bench is no place to lead to.
    for harm in ("http://harm.example/engine/tern/log", "javascript:alert(1)//engine/tern/"):
        assert "Back" in client.get(where, headers={"referer": harm}).text
        assert harm.partition("/engine")[0] not in client.get(where, headers={"referer": harm}).text
    assert "Back to where you were" not in client.get("/engine/wren/findings").text


def test_a_clash_tells_all_three_texts(client: TestClient) -> None:
    before = stamp(client)
    clash = change(client, digest="0" * 64, key="cylinder.0.stroke", value="25 mm", seen="23 mm").json()["error"]
    assert (clash["key"], clash["base"], clash["yours"]) == ("cylinder.0.stroke", "23 mm", "25 mm")
    assert clash["theirs"] == "3/4 in"
    assert clash["digest"] == before == stamp(client)


def test_two_hands_at_one_entry_of_the_log(client: TestClient) -> None:
    fields = {"kind": "found", "text": "Valve face scored."}
    entry = client.post("/engine/tern/log", data=fields, headers=SCRIPT).json()["entry"]
    for status in (200, 409):
        answer = client.post(
            f"/engine/tern/log/{entry}", data=fields | {"text": f"Lapped {status}.", "seen": "1"}, headers=SCRIPT
        )
        assert answer.status_code == status, answer.text
    assert answer.json()["error"]["code"] == "log-changed"


@pytest.mark.parametrize("page", ["measure", "turn", "findings", "run", "papers", "before-after", "findings/cure"])
def test_a_flawed_record_takes_no_page_down(client: TestClient, folder: Path, page: str) -> None:
    (folder / "flawed.toml").write_text('format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\nbore = "-3 mm"\n')
    answer = client.get(f"/engine/flawed/{page}")
    assert answer.status_code in {200, 400, 404}, answer.text
    assert "own-fault" not in answer.text
    assert "/engine/flawed/measure" in answer.text


def test_a_flawed_record_is_told_problem_by_problem() -> None:
    opened = read_record(b'format = 1\n[engine]\nname = "W"\n[[cylinder]]\nbore = "-3 mm"\n')
    error = errors.FlawedRecord("w.toml", opened.problems)
    scope = {"type": "http", "headers": [], "path": "/"}
    told = json.loads(bytes(refuse(scope, error).body))["error"]["problems"]
    assert [set(problem) for problem in told] == [{"severity", "line", "key", "message", "instead"}] * len(told)
    assert "cylinder.0.bore" in {problem["key"] for problem in told}


def test_a_folder_in_which_nothing_can_be_written() -> None:
    """It can be looked at; what cannot be kept is told as that, and everything else goes on."""
    example = (Path(__file__).parents[2] / "examples" / "tern.toml").read_bytes()
    with write_protected({"tern.toml": example}) as folder:
        workshop = open_workshop(folder)
        headers = {"origin": "http://127.0.0.1"}
        with TestClient(
            build_app(workshop), base_url="http://127.0.0.1", headers=headers, client=("127.0.0.1", 1)
        ) as client:
            for path in ("/", "/tables", *(f"/engine/tern/{page}" for page in ("measure", "turn", "papers", "log"))):
                assert client.get(path).status_code == 200, path
            refused = [
                client.post("/new", data={"name": "Wren"}),
                client.post("/engine/tern/copy", data={"name": "Wren"}),
                client.post("/engine/tern/put-away"),
                change(client, key="cylinder.0.stroke", value="25 mm", seen="24 mm", digest=stamp(client)),
                client.post("/engine/tern/log", data={"kind": "found", "text": "Scored."}, headers=SCRIPT),
                client.post("/bring-in", files={"file": ("tern.toml", example)}),
            ]
            assert [answer.status_code for answer in refused] == [507] * len(refused), [a.text for a in refused]
            assert {answer.json()["error"]["code"] for answer in refused} == {"cannot-save"}
        workshop.close()


def test_no_refusal_carries_marks_of_its_own_into_a_page(client: TestClient) -> None:
    for name in ("<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "{{ 7 * 7 }}", "'\"><b>"):
        answer = client.get("/engine/" + name.replace("/", "").replace(" ", "%20") + "/measure")
        assert answer.status_code == 404
        inside = answer.text[answer.text.index("<main") :]
        assert not re.search(r"<(script|img|b)\b", inside)
        assert "49" not in inside
        assert name.replace("/", "")[:8] in unescape(inside)


def test_an_engine_that_is_not_on_the_shelf_has_no_pages_to_lead_to(client: TestClient) -> None:
    for address in ("/engine/nosuch/measure", "/engine/nosuch/log/1"):
        answer = client.get(address)
        assert answer.status_code == 404
        assert "/engine/nosuch" not in answer.text
        assert 'href="/"' in answer.text
    # An entry that is wanting in the log of an engine that is there leaves the engine its pages.
    assert "/engine/tern/measure" in client.get("/engine/tern/log/999").text
