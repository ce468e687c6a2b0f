"""The page of the running engine, without a server: the run asked for, bench tests, runs noted, and every refusal."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from lapwright.job.shelf.workshop import Workshop

PLAIN = {"accept": "application/json"}
STEADY = {"supply_pressure": "0.8 ± 0.05 bar", "speed": "420 ± 10 rpm"}


def run(client: TestClient, **asked: str) -> str:
    answer = client.get("/engine/tern/run/turn", params=asked)
    assert answer.status_code == 200, answer.text
    return answer.text


def test_the_page_comes_before_the_run_and_its_cautions_before_everything(client: TestClient) -> None:
    page = client.get("/engine/tern/run")
    assert page.status_code == 200
    assert 'data-turn="/engine/tern/run/turn"' in page.text
    assert page.text.index("Compressed air stores energy") < page.text.index('id="stand"')
    assert "Shut off and vent the supply before you turn it by hand." in page.text
    assert 'placeholder="2 bar"' in page.text


def test_the_run_tells_figures_cards_torque_losses_uses_and_starting(client: TestClient) -> None:
    told = run(client)
    assert 'data-pressure="2" data-unit="bar" data-speed="300" data-fluid="air"' in told
    for words in ("Turns over slowly at", "on the pistons", "past the rings", "the other way round", "Free air for it"):
        assert words in told
    abouts = re.findall(r'aria-label="([^"]*)" font-family', told)
    assert abouts == [
        *("Pressure card, head end", "Pressure card, crank end") * 2,
        "Torque through the turn, running, against crank angle",
        "Starting dial: from where it starts by itself",
        "Torque at rest, against crank angle",
    ]
    assert "<strong>ring gap 4 µm</strong>: not given" in told


def test_pressure_speed_load_and_fluid_are_taken_as_written(client: TestClient) -> None:
    assert 'data-pressure="30" data-unit="psi" data-speed="450"' in run(client, pressure="30 psi", speed="450 rpm")
    loaded = run(client, by="load", load="400 mN m", speed="450 rpm")
    assert "settles at" in loaded
    assert 'data-speed="450"' not in loaded
    assert "Steam for it" in run(client, fluid="steam", pressure="2 bar")
    assert "Dragged along with the pipes off: cylinder B" in run(client, dead="B")
    # What is left empty comes from the record.
    assert 'data-pressure="2" data-unit="bar" data-speed="300"' in run(client, pressure=" ", speed="", by="speed")


@pytest.mark.parametrize(
    ("asked", "status", "words", "field"),
    [
        ({"pressure": "7"}, 400, "7 has no unit", "pressure"),
        ({"pressure": "2 furlongs"}, 400, "furlongs", "pressure"),
        ({"exhaust": "3 bar"}, 422, "below its exhaust", "exhaust"),
        ({"speed": "0 rpm"}, 400, "rpm", "speed"),
        ({"by": "load", "load": "90 N m"}, 422, "stalls it", "load"),
        ({"fluid": "water"}, 400, "water", ""),
        ({"dead": "C"}, 422, "C", ""),
        ({"temperature": "150 degC", "dryness": "0.9"}, 422, "dryness", "dryness"),
        ({"fluid": "steam", "temperature": "50 degC"}, 422, "it boils at", "temperature"),
    ],
)
def test_what_cannot_be_run_is_refused_in_words(
    client: TestClient, asked: dict[str, str], status: int, words: str, field: str
) -> None:
    answer = client.get("/engine/tern/run/turn", params=asked, headers=PLAIN)
    assert answer.status_code == status, answer.text
    error = answer.json()["error"]
    assert words in error["message"]
    assert [each["field"] for each in error.get("fields", ())] == ([field] if field else [])
    assert all(words in each["message"] for each in error.get("fields", ()))
    # Whoever has no scripts reads a page.
    assert client.get("/engine/tern/run/turn", params=asked).status_code == status


def test_an_engine_with_too_few_sizes_says_which_are_wanted(client: TestClient) -> None:
    page = client.get("/engine/knot/run").text
    assert "It cannot be run yet" in page
    assert 'href="/engine/knot/measure#field-cylinder.0.valve.cavity">cavity</a>' in page
    assert 'id="stand"' not in page
    assert client.get("/engine/knot/run/turn", headers=PLAIN).status_code == 422


def test_bench_tests_stand_beside_what_is_worked_out(client: TestClient) -> None:
    tests = client.get("/engine/sandpiper/run/tests").text
    assert tests.count('<article class="test">') == 5
    assert "<dt>supply pressure</dt><dd>0.13 ± 0.01 bar</dd>" in tests
    assert "4.06 L/min by the fit" in tests
    assert "0.12 (0.11 to 0.13) bar" in tests
    assert "eye protection" in tests
    assert "Write into the record" in tests


def test_a_bench_test_is_entered_told_written_and_taken_out(client: TestClient, workshop: Workshop) -> None:
    assert "No bench test is written down yet" in client.get("/engine/tern/run/tests").text
    entered = client.post("/engine/tern/run/tests/enter", data={**STEADY, "note": "ran light", "load": ""})
    assert (entered.status_code, entered.headers["location"]) == (303, "/engine/tern/run#tests")
    record = workshop.open_engine("tern")
    assert record.text.endswith(
        '[[bench_test]]\nsupply_pressure = "0.8 ± 0.05 bar"\nspeed = "420 ± 10 rpm"\nnote = "ran light"\n'
    )
    tests = client.get("/engine/tern/run/tests").text
    assert "friction takes" in tests
    (digest,) = set(re.findall(r'name="digest" value="([0-9a-f]+)"', tests))
    assert client.post("/engine/tern/run/tests/write", data={"digest": digest}, headers=PLAIN).status_code == 200
    changed = workshop.open_engine("tern")
    assert 'from_tests = "friction_pressure"' in changed.text
    # Whoever looked at the record as it was before does not write over it.
    assert client.post("/engine/tern/run/tests/write", data={"digest": digest}, headers=PLAIN).status_code == 409
    gone = {"place": "bench_test.0", "digest": changed.digest}
    assert client.post("/engine/tern/run/tests/remove", data=gone, headers=PLAIN).json() == {"done": "tests"}
    assert "[[bench_test]]" not in workshop.open_engine("tern").text


@pytest.mark.parametrize(("asked", "fluid"), [("", "steam"), ("?fluid=air", "air")])
def test_a_bench_test_is_offered_on_what_the_stand_is_on(client: TestClient, asked: str, fluid: str) -> None:
    page = client.get(f"/engine/turnstone/run{asked}").text
    form = page[page.index('id="steady-fluid"') :]
    assert f"<option selected>{fluid}</option>" in form[: form.index("</select>")]


@pytest.mark.parametrize(
    ("sent", "words"),
    [
        ({}, "nothing measured stands in the test"),
        ({"fluid": "air", "note": "ran light"}, "nothing measured stands in the test"),
        ({"supply_pressure": "0.8 bar"}, "speed is missing beside it"),
        ({**STEADY, "speed": "420"}, "420 has no unit"),
        ({**STEADY, "speed": "90000 rpm"}, "is not between"),
        ({**STEADY, "dead": "C"}, "no cylinder C"),
        ({"run_down_from": "400 rpm"}, "run_down_time is missing"),
    ],
)
def test_a_test_that_is_not_whole_is_refused_and_nothing_written(
    client: TestClient, folder: Path, sent: dict[str, str], words: str
) -> None:
    before = (folder / "tern.toml").read_bytes()
    answer = client.post("/engine/tern/run/tests/enter", data=sent, headers=PLAIN)
    assert answer.status_code == 400, answer.text
    assert words in answer.json()["error"]["message"]
    assert (folder / "tern.toml").read_bytes() == before


def test_a_run_is_noted_as_it_was_read(client: TestClient, workshop: Workshop) -> None:
    sent = {"on": "air", "pressure": "1.5 bar", "speed": "380 rpm", "minutes": "20", "words": "Even beat, no knock."}
    assert client.post("/engine/tern/run/note", data=sent, headers=PLAIN).json() == {"done": "note"}
    (entry,) = workshop.log.find_entries(engine="tern", kind="run")
    assert (entry.text, entry.minutes) == ("Even beat, no knock.", 20)
    assert [(reading.name, reading.value) for reading in entry.readings] == [
        ("on", "air"),
        ("pressure", "1.5 bar"),
        ("speed", "380 rpm"),
    ]
    for wrong in ({}, {"words": " "}, {**sent, "minutes": "a while"}):
        assert client.post("/engine/tern/run/note", data=wrong, headers=PLAIN).status_code == 400
    assert client.post("/engine/wigeon/run/note", data=sent, headers=PLAIN).status_code == 404
    assert len(workshop.log.find_entries(engine="tern")) == 1


def test_a_load_that_is_not_told_is_asked_for_and_nothing_runs_at_some_speed(client: TestClient) -> None:
    answer = client.get("/engine/tern/run/turn", params={"by": "load", "load": " "}, headers=PLAIN)
    assert answer.status_code == 400
    assert answer.json()["error"]["message"] == "no load is given"
    page = client.get("/engine/tern/run").text
    assert "<legend>Given:</legend>" in page


def test_an_engine_is_run_as_found_after_the_chosen_work_and_both(client: TestClient) -> None:
    assert 'name="work"' not in client.get("/engine/tern/run").text
    # Where nothing is chosen there is nothing to run it after.
    assert 'data-speed="300"' in run(client, work="both")
    sent = {"cylinder": "A", "code": "shorten-valve", "together": "yes"}
    client.post("/engine/tern/findings/cure/accept", data=sent)
    page = client.get("/engine/tern/run").text
    assert re.findall(r'name="work" value="(\w+)"( checked)?', page) == [
        ("found", " checked"),
        ("after", ""),
        ("both", ""),
    ]
    assert "Shorten the valve to" in page
    found, after, both = (
        " ".join(re.sub(r"<[^>]*>", " ", run(client, work=work)).split()) for work in ("found", "after", "both")
    )
    powers = [float(re.findall(r"Power at 300 rpm (\d+\.\d) W", told)[0]) for told in (found, after)]
    assert powers[1] > powers[0]
    assert re.search(rf"Power at 300 rpm {powers[0]} W {powers[1]} W", both)
    assert "300 rpm · after the chosen work" in after
    assert "figure as found after the cure" in both.lower()
    told = run(client, work="both")
    assert told.count('class="found') >= 1
    assert "after the cure" in told


def test_what_is_not_well_by_the_record_and_taken_as_well_is_told(client: TestClient) -> None:
    told = " ".join(client.get("/engine/turnstone/run/turn").text.split())
    assert "The gland of the valve spindle is empty in the record; this run takes it as packed." in told
    assert "The thread of the eccentric screw is stripped in the record; this run takes it as holding." in told
    # A gap that the record tells is run with, and without leaks there is nothing to say of it.
    told = " ".join(client.get("/engine/turnstone/run/turn", params={"ideal": "yes"}).text.split())
    assert "takes it as packed" not in told
