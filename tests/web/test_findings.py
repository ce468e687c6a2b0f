"""The pages of findings and cures, without a server: what they show, what they keep, and every refusal."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from lapwright.bench.pages.findings import share_cautions
from lapwright.job.shelf.workshop import Workshop

PLAIN = {"accept": "application/json"}
LONG = {"ref": "A: valve too long", "outcome": "no"}
CURE = {"cylinder": "A", "code": "shorten-valve"}


def read(text: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", text)).split())


def list_titles(html: str) -> list[str]:
    found = re.findall(r'<h3>([^<]*)</h3>\s*<span class="chip', html)
    return [" ".join(words.split()) for words in found]


def test_the_page_comes_at_once_and_its_matter_apart(client: TestClient) -> None:
    page = client.get("/engine/tern/findings")
    assert page.status_code == 200
    assert 'data-sheet="/engine/tern/findings/sheet"' in page.text
    assert "too long" not in page.text
    sheet = client.get("/engine/tern/findings/sheet")
    assert sheet.status_code == 200
    assert list_titles(sheet.text) == [
        "Cylinder A: The valve is 1.64 mm too long",
        "Cylinder A: The eccentric stands 24 deg behind its place",
        "Cylinder B: The valve is 1.62 mm too long",
        "Cylinder B: The eccentric stands 24 deg behind its place",
    ]
    # Worked out once, it comes with the page.
    assert "The valve is 1.64 mm too long" in client.get("/engine/tern/findings").text


def test_a_finding_shows_picture_evidence_effect_doubt_and_check(client: TestClient) -> None:
    sheet = client.get("/engine/tern/findings/sheet").text
    first = sheet[sheet.index('id="found-A-valve-too-long"') : sheet.index('id="found-A-eccentric-behind"')]
    assert first.count("<svg") == 1
    assert "so the head end opens late by 21 deg" in first
    assert "In a run" in first
    assert '<a href="/engine/tern/measure#field-cylinder.0.port_face.steam_port">steam port</a>' in first
    assert "with the same calliper" in first
    assert "Shut off and vent the supply before you turn it by hand." in sheet


def test_parts_come_with_cautions_steps_and_what_to_have_ready(client: TestClient) -> None:
    sheet = client.get("/engine/turnstone/findings/sheet").text
    assert "The 6 BA thread of the eccentric screw is stripped" in sheet
    assert '<a href="/engine/turnstone/measure#part-fastener.0">eccentric screw</a>' in sheet
    assert "Small drills and taps snatch in brass" in sheet
    assert "Start the 4 BA taper tap square" in sheet
    assert "3 mm drill" in sheet
    assert sheet.index("Clamp the work") < sheet.index("Start the 4 BA taper tap square")


def test_what_is_to_be_heeded_at_the_parts_stands_once_before_them(client: TestClient) -> None:
    sheet = client.get("/engine/turnstone/findings/sheet").text
    parts = sheet[sheet.index("Parts to put right") :]
    assert parts.count('class="caution"') == 1
    box = parts[parts.index('class="caution"') : parts.index("<article")]
    for words in ("Clamp the work, wear", "Shut off steam or air", "Old packing, lagging", "Try it at the lowest pres"):
        assert box.count(f"<li>{words}") == box.count(words) == 1


def test_what_one_work_alone_wants_heeded_stands_at_it_too() -> None:
    shared = share_cautions([("a", "b"), ("b", "c"), ("b",)])
    assert shared == {"all": ["a", "b", "c"], "own": [["a"], ["c"], []]}
    assert share_cautions([("a", "b")]) == {"all": ["a", "b"], "own": [[]]}


def test_what_to_have_ready_is_listed_by_shelves(client: TestClient) -> None:
    sheet = client.get("/engine/turnstone/findings/sheet").text
    ready = sheet[sheet.index('class="ready"') :]
    shelves = re.findall(r"<h3>([^<]*)</h3>", ready[: ready.index("</details>")])
    assert shelves[:4] == ["Tools", "Taps and dies", "Drills", "Screws"]
    assert len(shelves) == len(set(shelves))
    screws = read(ready[ready.index("<h3>Screws") : ready.index("<h3>Packing")])
    assert "7 BA nut 8 for: fork pin, cylinder cover studs" in screws
    tried = client.get("/engine/tern/findings/cure/tried?cylinder=A&code=shorten-valve").text
    assert "<h4>Tools</h4>" in tried


def test_what_a_check_says_is_kept_in_the_log_and_ranks_anew(client: TestClient, workshop: Workshop) -> None:
    answer = client.post("/engine/tern/findings/check", data=LONG)
    assert (answer.status_code, answer.headers["location"]) == (303, "/engine/tern/findings#found-A-valve-too-long")
    (entry,) = workshop.log.find_entries(engine="tern")
    assert (entry.kind, entry.text[:41]) == ("found", "Cylinder A: The valve is 1.64 mm too long")
    sheet = client.get("/engine/tern/findings/sheet").text
    assert list_titles(sheet)[0] == "Cylinder A: The eccentric stands 24 deg behind its place"
    assert list_titles(sheet)[-1] == "Cylinder A: The valve is 1.64 mm too long"
    assert "What is left, since the other explanation was ruled out." in sheet
    assert "the check says no" in sheet
    assert "a check speaks against it" in sheet
    client.post("/engine/tern/findings/check", data={**LONG, "outcome": "open"})
    assert list_titles(client.get("/engine/tern/findings/sheet").text)[0].endswith("too long")


@pytest.mark.parametrize(
    ("sent", "status"),
    [({"ref": "Z: valve too long", "outcome": "yes"}, 404), ({**LONG, "outcome": "perhaps"}, 400), ({}, 400)],
)
def test_a_check_of_nothing_is_refused(client: TestClient, sent: dict[str, str], status: int) -> None:
    answer = client.post("/engine/tern/findings/check", data=sent, headers=PLAIN)
    assert answer.status_code == status
    assert answer.json()["error"]["message"]


def test_a_half_known_engine_is_told_what_to_measure(client: TestClient, folder: Path) -> None:
    (folder / "wren.toml").write_text(
        'format = 1\n[engine]\nname = "Wren"\n[[cylinder]]\nname = "A"\nbore = "20 mm"\nstroke = "20 mm"\n'
    )
    sheet = client.get("/engine/wren/findings/sheet").text
    assert "Nothing wrong was found in what is known of it." in sheet
    links = re.findall(r'<a class="button" href="/engine/wren/measure#field-([^"]*)">([^<]*)</a>', sheet)
    assert links == [
        ("cylinder.0.port_face.steam_port", "steam port"),
        ("cylinder.0.valve.length", "valve length"),
        ("cylinder.0.valve.cavity", "cavity"),
        ("cylinder.0.valve_drive.throw", "throw"),
    ]


def test_what_hangs_on_sizes_that_nobody_gave_says_so(client: TestClient) -> None:
    sheet = client.get("/engine/knot/findings/sheet").text
    assert '<a href="/engine/knot/measure#field-cylinder.0.port_face.bridge">bridge</a>' in sheet
    assert "How it runs is not known" in sheet


@pytest.mark.parametrize("page", ["findings", "run"])
def test_a_flawed_record_lists_what_to_mend(client: TestClient, folder: Path, page: str) -> None:
    text = (folder / "tern.toml").read_text()
    (folder / "tern.toml").write_text(text.replace('bore = "3/4 in"', 'bore = "3/4"', 1))
    answer = client.get(f"/engine/tern/{page}")
    assert answer.status_code == 200
    assert '<a href="/engine/tern/measure#field-cylinder.0.bore">' in answer.text
    assert "cylinder.0.bore" not in re.sub(r"<[^>]*>", "", answer.text)
    assert (
        client.get(f"/engine/tern/{page}/{'sheet' if page == 'findings' else 'turn'}", headers=PLAIN).status_code == 400
    )


@pytest.mark.parametrize("page", ["findings", "run"])
def test_a_flawed_record_is_told_in_clean_words_with_sound_advice(client: TestClient, folder: Path, page: str) -> None:
    flawed = 'format = 1\n[engine]\nname = 7\n[[cylinder]]\nbore = "19,05 mmm"\nstroke = -25\nbohre = "3 mm"\n'
    (folder / "tern.toml").write_text(flawed, encoding="utf-8")
    text = client.get(f"/engine/tern/{page}").text
    words = " ".join(unescape(re.sub(r"<[^>]*>", " ", text)).split())
    for told in (
        'line 3 name: 7 is not text in quotes: write it as "7". to the field',
        'line 5 bore: "19,05 mmm" has a comma in the number: write the decimals after a point: "19.05 mm". to the',
        'line 6 stroke: \N{MINUS SIGN}25 has no unit: write "25 in" or "25 mm". to the field',
        "line 7 bohre is not known under [[cylinder]]: write bore. to the text",
    ):
        assert told in words
    for raw in ("cylinder.0", "bore: bore", "name: name"):
        assert raw not in words


def test_an_engine_that_is_not_there_is_told(client: TestClient) -> None:
    for address in ("findings", "findings/sheet", "findings/cure?cylinder=A&code=x", "findings/cure/tried"):
        assert client.get(f"/engine/wigeon/{address}", headers=PLAIN).status_code == 404
    assert client.get("/engine/tern/findings/cure?cylinder=A&code=polish", headers=PLAIN).status_code == 404


def test_a_cure_is_tried_with_other_figures(client: TestClient) -> None:
    page = client.get("/engine/tern/findings/cure", params=CURE).text
    assert 'name="valve.length" inputmode="decimal" value="12.00"' in page
    assert 'max="13.64"' in page
    assert "block the flywheel before opening the steam chest" in page
    tried = client.get("/engine/tern/findings/cure/tried", params={**CURE, "valve.length": "12.80"}).text
    assert "Shorten the valve to 12.80 mm (0.504 in)" in tried
    assert "down to 12.80 mm" in tried
    assert tried.count("<svg") == 4
    assert tried.count("<table>") == 1


@pytest.mark.parametrize(
    ("figure", "message"),
    [("14.5", "is outside of what this cure allows"), ("13,5", "has a comma"), ("wide", "wide"), ("nan", "nan")],
)
def test_a_figure_that_cannot_be_is_refused_in_words(
    client: TestClient, workshop: Workshop, figure: str, message: str
) -> None:
    answer = client.get("/engine/tern/findings/cure/tried", params={**CURE, "valve.length": figure}, headers=PLAIN)
    assert answer.status_code == 400
    (field,) = answer.json()["error"]["fields"]
    assert field["field"] == "valve.length"
    assert message in field["message"]
    # The page itself opens with what was written, what is amiss with it beside it, and the slider where it was.
    page = client.get("/engine/tern/findings/cure", params={**CURE, "valve.length": figure})
    assert page.status_code == 200
    assert message in read(page.text)
    assert f'value="{figure}" data-own="12.00" autocomplete="off" aria-describedby="amiss-1" aria-invalid' in page.text
    assert 'step="0.01" value="12.00" autocomplete="off">' in page.text
    # And nothing is chosen with it: without a script the page comes again.
    answer = client.post("/engine/tern/findings/cure/accept", data={**CURE, "valve.length": figure})
    assert answer.status_code == 400
    assert message in read(answer.text)
    assert "Choose this cure" in answer.text
    assert workshop.log.find_entries(engine="tern") == ()


def test_a_cure_that_is_chosen_is_an_open_job_and_the_job_card_follows(client: TestClient, workshop: Workshop) -> None:
    sent = {**CURE, "valve.length": "12.30", "together": "yes"}
    answer = client.post("/engine/tern/findings/cure/accept", data=sent)
    assert (answer.status_code, answer.headers["location"]) == (303, "/engine/tern/findings#cures")
    entries = workshop.log.find_entries(engine="tern", open_only=True)
    assert sorted(entry.text for entry in entries) == [
        "To do, cylinder A: Shorten the valve to 12.30 mm (0.484 in) (an evening)",
        "To do, cylinder B: Shorten the valve to 12.30 mm (0.484 in) (an evening)",
    ]
    assert "chosen: A, B" in client.get("/engine/tern/findings/sheet").text
    assert "This cure is chosen" in client.get("/engine/tern/findings/cure", params=CURE).text
    assert client.post("/engine/tern/findings/drop", data={"cylinder": ["A", "B"]}).status_code == 303
    assert workshop.log.find_entries(engine="tern") == ()


def test_a_choice_that_the_record_no_longer_knows_can_be_taken_back(
    client: TestClient, workshop: Workshop, folder: Path
) -> None:
    client.post("/engine/tern/findings/cure/accept", data=CURE)
    text = (folder / "tern.toml").read_text()
    (folder / "tern.toml").write_text(text.replace("13.64 ± 0.02", "12.00 ± 0.02"))
    assert "A cure was chosen that no longer goes with the record" in client.get("/engine/tern/findings/sheet").text
    client.post("/engine/tern/findings/drop", data={"cylinder": "A"})
    assert workshop.log.find_entries(engine="tern", open_only=True) == ()
