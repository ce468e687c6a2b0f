"""Turn it over without a browser: the page, the line to it, and every refusal."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from lapwright.job.shelf.workshop import Workshop
from lapwright.job.turn.turning import show_turn, turn_over

EXAMPLES = sorted(path.stem for path in (Path(__file__).parents[2] / "examples").glob("*.toml"))


def data_of(text: str) -> dict[str, Any]:
    found = re.search(r'<script type="application/json" id="turn-data">(.*?)</script>', text, re.DOTALL)
    assert found
    data: dict[str, Any] = json.loads(found[1])
    return data


def ask(socket: Any, **wish: Any) -> list[dict[str, Any]]:
    """What the bench answers to one wish: what opens, then the figures, then the pressures; or one refusal."""
    socket.send_text(
        json.dumps({"type": "try", "serial": 7, "cylinder": "A", "backwards": False, "changes": {}} | wish)
    )
    answers = [json.loads(socket.receive_text())]
    while answers[-1]["type"] in {"turn", "times"}:
        answers.append(json.loads(socket.receive_text()))
    return answers


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_demo_engine_has_its_page_with_the_arrays_of_one_turn(
    client: TestClient, workshop: Workshop, name: str
) -> None:
    answer = client.get(f"/engine/{name}/turn")
    assert answer.status_code == 200
    visit = workshop.visit(name)
    assert data_of(answer.text)["found"] == show_turn(turn_over(visit, visit.cylinders[0].name))
    assert answer.text.count('data-part="piston"') == (2 if visit.cylinders[0].numbers.get("piston_rod") else 1)
    assert "style=" not in answer.text


def test_a_second_cylinder_has_its_own_page(client: TestClient) -> None:
    data = data_of(client.get("/engine/tern/turn?cylinder=B").text)
    assert (data["cylinder"], data["found"]["phase"]) == ("B", pytest.approx(90.0))
    assert client.get("/engine/tern/turn?cylinder=Z").status_code == 404
    assert client.get("/engine/nowhere/turn").status_code == 404


def test_a_record_that_cannot_be_read_says_so_and_leads_to_the_fields(client: TestClient, folder: Path) -> None:
    text = (folder / "tern.toml").read_text(encoding="utf-8")
    (folder / "tern.toml").write_text(text.replace('bore = "3/4 in"', 'bore = "3/4"'), encoding="utf-8")
    page = client.get("/engine/tern/turn")
    assert page.status_code == 200
    assert "3/4 has no unit" in page.text
    assert "/engine/tern/measure" in page.text
    with client.websocket_connect("ws://127.0.0.1/engine/tern/live") as socket:
        assert json.loads(socket.receive_text())["error"]["code"] == "flawed-record"


def test_a_record_with_nothing_but_a_name_asks_for_its_first_sizes(client: TestClient, folder: Path) -> None:
    (folder / "wren.toml").write_text(
        'format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\nname = "A"\n', encoding="utf-8"
    )
    assert "not enough for a picture" in client.get("/engine/wren/turn").text
    (folder / "pipit.toml").write_text('format = 1\n[engine]\nname = "Pipit"\n', encoding="utf-8")
    assert client.get("/engine/pipit/turn").status_code == 200


def test_the_line_tells_what_opens_first_then_the_figures_and_the_pressures_last(client: TestClient) -> None:
    with client.websocket_connect("ws://127.0.0.1/engine/tern/live") as socket:
        answers = ask(socket, changes={"steam_lap": 0.0005})
        assert [(answer["type"], answer["serial"]) for answer in answers] == [("turn", 7), ("times", 7), ("card", 7)]
        opens, times, presses = answers
        angles = len(opens["turn"]["angles"])
        assert {len(opens["turn"]["steam"]["head"]), len(times["turn"]["gone"])} == {angles}
        assert times["turn"]["lap"] == pytest.approx({"head": 0.5, "crank": 0.5})
        assert times["shown"]["valve.length"] == "13.00 mm"
        assert times["valve"].keys() == {"whole", "near"}
        assert len(presses["card"]["pressures"]["head"]) == angles
        opens, times, _ = ask(socket, changes={"valve_drive.eccentric_angle": "100 deg"}, backwards=True)
        assert opens["turn"]["backwards"]
        assert opens["turn"]["eccentric"] == pytest.approx(260.0)
        assert times["valve"]["whole"] != ""
        _, times, _ = ask(socket, changes={"supply_pressure": "1 bar"})
        assert "valve" not in times, "the page has it already"


def test_an_echo_comes_back_as_it_was_sent(client: TestClient) -> None:
    with client.websocket_connect("ws://127.0.0.1/engine/tern/live") as socket:
        socket.send_text('{"type":"echo","n":1}')
        assert socket.receive_text() == '{"type":"echo","n":1}'


@pytest.mark.parametrize(
    ("wish", "code"),
    [
        ({"changes": {"valve.length": "13"}}, "no-unit"),
        ({"changes": {"valve.length": "1 mm"}}, "out-of-range"),
        ({"changes": {"bore": 0.02}}, "not-one-of"),
        ({"changes": {"valve.length": [1]}}, "bad-input"),
        ({"changes": {"valve.length": None}}, "bad-input"),
        ({"changes": {"speed": 1e300}}, "bad-input"),
        ({"changes": []}, "bad-input"),
        ({"cylinder": 3}, "bad-input"),
        ({"cylinder": "Z"}, "not-there"),
    ],
)
def test_what_cannot_be_tried_is_refused_and_the_line_stays_open(
    client: TestClient, wish: dict[str, Any], code: str
) -> None:
    with client.websocket_connect("ws://127.0.0.1/engine/tern/live") as socket:
        (answer,) = ask(socket, **wish)
        assert (answer["type"], answer["serial"], answer["error"]["code"]) == ("refused", 7, code)
        assert len(ask(socket)) == 3


@pytest.mark.parametrize("text", ["", "[1, 2]", "{", '"try"', "[" * 5000])
def test_what_is_no_wish_at_all_is_refused_too(client: TestClient, text: str) -> None:
    with client.websocket_connect("ws://127.0.0.1/engine/tern/live") as socket:
        socket.send_text(text)
        assert json.loads(socket.receive_text())["type"] == "refused"
        assert len(ask(socket)) == 3


def test_without_the_line_one_request_brings_all_answers(client: TestClient) -> None:
    query = "cylinder=A&backwards=false&serial=3&valve.length=0.0131&supply_pressure=1.5%20bar"
    answer = client.get(f"/engine/tern/turn/try?{query}", headers={"accept": "application/json"})
    _, times, presses = answer.json()
    assert times["shown"]["valve.length"] == "13.10 mm"
    assert presses["card"]["supply"] == pytest.approx(1.5)
    refused = client.get("/engine/tern/turn/try?cylinder=A&speed=fast", headers={"accept": "application/json"})
    assert (refused.status_code, refused.json()["error"]["code"]) == (400, "unreadable")
    refused = client.get("/engine/tern/turn/try", headers={"accept": "application/json"})
    assert refused.status_code == 400
