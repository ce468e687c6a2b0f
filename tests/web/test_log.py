"""The log over HTTP: every address, what it refuses, and two hands at one entry."""

from __future__ import annotations

import html
import re
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from lapwright.bench.app import build_app
from lapwright.job.log.desk import LogDesk
from lapwright.job.shelf.workshop import Workshop, open_workshop
from lapwright.logbook import Entry
from tests.web.conftest import HERE
from tests.web.pictures import draw_photograph

SCRIPT = {"accept": "application/json"}
LOG = "/engine/tern/log"
FIELDS = {"kind": "found", "text": "Valve face scored."}


def add(client: TestClient, engine: str = "tern", **fields: Any) -> int:
    """Write an entry the way a script does, and return its number."""
    answer = client.post(f"/engine/{engine}/log", data={**FIELDS, **fields}, headers=SCRIPT)
    assert answer.status_code == 200, answer.text
    return int(answer.json()["entry"])


def entry_of(workshop: Workshop, number: int, engine: str = "tern") -> Entry:
    return LogDesk(workshop).find(engine, number)


def read(text: str) -> str:
    """The words of a page."""
    plain = re.sub(r"<script.*?</script>|<[^>]*>", " ", text, flags=re.DOTALL)
    return " ".join(html.unescape(plain).split())


def photograph(name: str = "face.jpg", data: bytes | None = None) -> tuple[str, tuple[str, bytes, str]]:
    return "photographs", (name, draw_photograph() if data is None else data, "image/jpeg")


def test_an_entry_is_written_by_a_plain_form_and_stands_on_both_logs(client: TestClient, workshop: Workshop) -> None:
    answer = client.post(
        "/engine/tern/photographs",
        data={
            "kind": "measured",
            "text": "Leads by feeler.\r\nTwice over.",
            "reading_name": ["Lead, head end", "", "Bore"],
            "reading_value": ["0.3 mm", "", "3/4 in"],
            "parts_used": "feeler stock\r\n\r\n2 screws 7 BA",
            "spent": "1 h 30",
            "when": "2026-03-01T14:05",
            "job": "open",
        },
        files=[photograph("head.jpg"), photograph("crank.png", draw_photograph("crank", form="PNG"))],
    )
    assert answer.status_code == 303
    number = int(re.fullmatch(rf"{LOG}\?written=(\d+)#entry-\1", answer.headers["location"])[1])  # type: ignore[index]
    entry = entry_of(workshop, number)
    assert (entry.kind, entry.text, entry.minutes, entry.job) == (
        "measured",
        "Leads by feeler.\nTwice over.",
        90,
        "open",
    )
    assert f"{entry.when:%Y-%m-%d %H:%M}" == "2026-03-01 14:05"
    assert entry.parts_used == ("feeler stock", "2 screws 7 BA")
    assert [(photo.name, photo.form) for photo in entry.photographs] == [("head.jpg", "jpg"), ("crank.png", "png")]
    for address in (answer.headers["location"], "/log"):
        page = read(client.get(address).text)
        for told in (
            "Lead, head end 0.3 mm (0.012 in)",
            "Bore 3/4 in (19.05 mm)",
            "1 h 30 min",
            "2 screws 7 BA",
            "Open jobs (1)",
        ):
            assert told in page
    assert "It stands in the log." in read(client.get(answer.headers["location"]).text)


def test_an_entry_of_the_whole_log_names_its_engine_and_leads_back_there(
    client: TestClient, workshop: Workshop
) -> None:
    answer = client.post("/log/photographs", data={**FIELDS, "engine": "curlew", "whole": "1"})
    assert answer.status_code == 303
    assert answer.headers["location"].startswith("/log?written=")
    number = int(answer.headers["location"].rpartition("-")[2])
    assert entry_of(workshop, number, "curlew").text == "Valve face scored."
    assert client.post("/log", data={**FIELDS, "engine": "kestrel"}).status_code == 404


def test_the_whole_log_chooses_no_engine_for_one(client: TestClient, workshop: Workshop) -> None:
    chooser = re.search(r'<select id="log-engine".*?</select>', client.get("/log").text, re.DOTALL)
    assert chooser is not None
    assert '<option value="">choose</option>' in chooser[0]
    assert "selected" not in chooser[0]
    page = client.post("/log/photographs", data={**FIELDS, "engine": "", "whole": "1"})
    assert page.status_code == 400
    assert "No engine is chosen: choose whose entry it is." in read(page.text)
    told = client.post("/log", data=FIELDS, headers=SCRIPT)
    assert (told.status_code, [each["field"] for each in told.json()["error"]["fields"]]) == (400, ["engine"])
    assert workshop.log.find_entries() == ()


def test_a_refusal_names_every_wrong_field_at_its_field(client: TestClient, workshop: Workshop) -> None:
    wrong = {
        "when": "yesterday",
        "spent": "a while",
        "reading_name": ["Bore", "", "Lead", ""],
        "reading_value": ["19 mm", "", "0.3 mmm", "2 bar"],
    }
    told = client.post(LOG, data={**FIELDS, **wrong}, headers=SCRIPT).json()["error"]["fields"]
    assert [each["field"] for each in told] == ["when", "spent", "reading-value-2", "reading-name-3"]
    assert (told[2]["message"], told[2]["instead"]) == ('unit "mmm" is not known here', 'write "0.3 mm"')
    page = client.post("/engine/tern/photographs", data={**FIELDS, **wrong}).text
    for each in told:
        field = re.search(rf'<input id="log-{each["field"]}"[^>]*>', page)
        said = re.search(rf'<p [^>]*id="log-{each["field"]}-amiss".*?</p>', page)
        assert field is not None
        assert said is not None
        assert 'aria-invalid="true"' in field[0]
        assert f"log-{each['field']}-amiss" in field[0]
        assert read(said[0]).lower().startswith(each["message"].lower())
    assert workshop.log.find_entries() == ()


@pytest.mark.parametrize("value", ["scored", "4 studs", "7 BA", "300 rpm", "0.3 mm", "12 min", "1/4 bsf", "3 off"])
def test_a_reading_may_be_anything_that_is_no_slip_of_a_unit(client: TestClient, value: str) -> None:
    add(client, reading_name=["What was seen"], reading_value=[value])


@pytest.mark.parametrize(
    "written", ["2026-11-25 17:37", "2026-11-25T17:37", "25.11.2026 17:37", " 25. 11. 2026  17:37 "]
)
def test_a_day_is_read_the_same_whatever_the_browser_speaks(
    client: TestClient, workshop: Workshop, written: str
) -> None:
    assert f"{entry_of(workshop, add(client, when=written)).when:%Y-%m-%d %H:%M}" == "2026-11-25 17:37"
    assert 'type="datetime-local"' not in client.get(LOG).text


def test_a_day_alone_will_do_and_one_that_could_be_two_is_refused(client: TestClient, workshop: Workshop) -> None:
    assert f"{entry_of(workshop, add(client, when='25.11.2026')).when:%Y-%m-%d}" == "2026-11-25"
    refused = client.post(LOG, data={**FIELDS, "when": "11/12/2026"}, headers=SCRIPT).json()["error"]["fields"]
    assert [(each["field"], each["instead"]) for each in refused] == [
        ("when", 'write it like "2026-03-02 14:05", "02.03.2026 14:05", "2026-03-02"')
    ]


def test_a_time_that_was_left_as_it_came_is_the_time_of_writing(client: TestClient, workshop: Workshop) -> None:
    """The page may have been open since the morning."""
    assert re.search(r'name="when" value="(\d{4}-\d\d-\d\d \d\d:\d\d)"', client.get(LOG).text)
    stale = entry_of(workshop, add(client, when="2026-03-02 08:00", when_shown="2026-03-02 08:00"))
    assert stale.when > datetime(2026, 3, 2, 12, 0)


@pytest.mark.parametrize(
    ("fields", "status", "said"),
    [
        ({"text": " ", "parts_used": ""}, 400, "Nothing is written yet"),
        ({"spent": "a while"}, 400, '"a while" cannot be read as a time spent'),
        ({"when": "yesterday"}, 400, '"yesterday" cannot be read as a day and a time'),
        ({"reading_name": "Lead", "reading_value": ""}, 400, '"Lead" has no value'),
        ({"reading_name": "", "reading_value": "0.3 mm"}, 400, '"0.3 mm" has no name'),
        ({"kind": "guessed"}, 400, '"guessed" is not a word for this'),
        ({"job": "perhaps"}, 400, '"perhaps" is not a word for this'),
        ({"spent": "999999"}, 400, "is no time spent"),
        ({"text": "bell \x07"}, 400, "holds a character that cannot be printed"),
        ({"text": "x" * 20_001}, 413, "is larger than 20000 letters"),
    ],
)
def test_what_is_amiss_is_told_and_the_form_comes_back_as_it_was_filled_in(
    client: TestClient, fields: dict[str, str], status: int, said: str
) -> None:
    sent = {**FIELDS, "parts_used": "a cork & a string", **fields}
    page = client.post("/engine/tern/photographs", data=sent)
    assert page.status_code == status
    assert said.lower() in read(page.text).lower()
    assert ("a cork &amp; a string</textarea>" in page.text) == bool(sent["parts_used"])
    told = client.post(LOG, data=sent, headers=SCRIPT)
    assert told.status_code == status
    assert said.lower() in told.json()["error"]["message"].lower()


def test_an_entry_with_nothing_but_a_photograph_is_one(client: TestClient, workshop: Workshop) -> None:
    answer = client.post("/engine/tern/photographs", data={"kind": "note"}, files=[photograph()])
    assert answer.status_code == 303
    assert len(entry_of(workshop, int(answer.headers["location"].rpartition("-")[2])).photographs) == 1


def test_a_photograph_that_cannot_be_taken_does_not_keep_its_entry_back(client: TestClient, workshop: Workshop) -> None:
    files = [
        photograph("good.jpg"),
        photograph("cat.gif", draw_photograph(form="GIF")),
        photograph("broken.jpg", b"\xff\xd8x"),
    ]
    page = client.post("/engine/tern/photographs", data=FIELDS, files=files)
    assert page.status_code == 400
    words = read(page.text)
    assert "The entry is written. These photographs could not be taken:" in words
    assert "cat.gif is not a picture that can be kept" in words
    assert "broken.jpg" in words
    number = int(re.search(r'action="/engine/tern/log/(\d+)/photographs"', page.text)[1])  # type: ignore[index]
    assert [kept.name for kept in entry_of(workshop, number).photographs] == ["good.jpg"]


def test_a_script_sends_photographs_one_by_one_behind_the_entry(client: TestClient, workshop: Workshop) -> None:
    number = add(client, text="", photographs_follow="1")
    for name in ("one.jpg", "two.jpg"):
        answer = client.post(
            "/engine/tern/photographs",
            data={"entry": number},
            files=[photograph(name, draw_photograph(name))],
            headers=SCRIPT,
        )
        assert answer.status_code == 200
        assert answer.json()["refused"] == []
    assert [kept.name for kept in entry_of(workshop, number).photographs] == ["one.jpg", "two.jpg"]
    bad = client.post(
        "/engine/tern/photographs", data={"entry": number}, files=[photograph("x.txt", b"text")], headers=SCRIPT
    )
    assert bad.status_code == 400
    assert "x.txt" in bad.json()["refused"][0]
    for entry in ("999", "x", "9" * 30):
        gone = client.post("/engine/tern/photographs", data={"entry": entry}, files=[photograph()], headers=SCRIPT)
        assert gone.status_code == 404
    other = client.post("/engine/curlew/photographs", data={"entry": number}, files=[photograph()], headers=SCRIPT)
    assert other.status_code == 404


def test_more_than_is_taken_at_once_is_refused_before_it_is_read(client: TestClient, workshop: Workshop) -> None:
    large = b"\xff\xd8" + bytes(26_000_001)
    answer = client.post(
        "/engine/tern/photographs", data=FIELDS, files=[photograph("large.jpg", large)], headers=SCRIPT
    )
    assert answer.status_code == 413
    assert answer.json()["error"]["code"] == "too-large"
    # A form that brings no photographs has no need of so much.
    assert client.post(LOG, data={**FIELDS, "text": "x" * 2_000_001}, headers=SCRIPT).status_code == 413
    assert workshop.log.find_entries(engine="tern") == ()


def test_a_job_is_done_with_one_button_and_not_twice(client: TestClient, workshop: Workshop) -> None:
    number = add(client, text="Make a drain cock.", job="open")
    assert "Open jobs (1)" in read(client.get(LOG).text)
    answer = client.post(f"{LOG}/{number}/done", data={"seen": 1})
    assert (answer.status_code, answer.headers["location"]) == (303, f"{LOG}?written={number}#entry-{number}")
    assert entry_of(workshop, number).job == "closed"
    assert "Open jobs (" not in read(client.get(LOG).text)
    assert client.post(f"{LOG}/{number}/done", data={"seen": 1}).status_code == 409
    assert client.post(f"{LOG}/{number}/done").status_code == 409
    assert client.post(f"{LOG}/999/done", data={"seen": 1}).status_code == 404


def test_an_entry_is_changed_and_its_photographs_taken_off(client: TestClient, workshop: Workshop) -> None:
    client.post("/engine/tern/photographs", data={**FIELDS, "when": "2026-02-02T10:00"}, files=[photograph()])
    entry = workshop.log.find_entries(engine="tern")[0]
    form = client.get(f"{LOG}/{entry.id}")
    assert form.status_code == 200
    assert 'value="2026-02-02 10:00"' in form.text
    sent = {"kind": "done", "text": "Lapped.", "seen": entry.version, "take_off": entry.photographs[0].digest}
    answer = client.post(
        f"{LOG}/{entry.id}/photographs", data=sent, files=[photograph("after.jpg", draw_photograph("after"))]
    )
    assert answer.status_code == 303
    changed = entry_of(workshop, entry.id)
    assert (changed.kind, changed.text, [kept.name for kept in changed.photographs]) == (
        "done",
        "Lapped.",
        ["after.jpg"],
    )
    # The field was left empty, so the day stays.
    assert changed.when == entry.when
    written = add(client, text="Now.")
    now = entry_of(workshop, written)
    shown = f"{now.when:%Y-%m-%d %H:%M}"
    assert f'value="{shown}"' in client.get(f"{LOG}/{written}").text
    client.post(f"{LOG}/{written}", data={"kind": "note", "text": "Later.", "seen": 1, "when": shown})
    assert entry_of(workshop, written).when == now.when
    told = client.post(
        f"{LOG}/{entry.id}", data={"kind": "done", "text": "", "seen": 2, "spent": "long"}, headers=SCRIPT
    )
    assert {field["field"] for field in told.json()["error"]["fields"]} == {"spent"}
    again = client.post(
        f"{LOG}/{entry.id}/photographs", data={"kind": "done", "text": "Kept?", "spent": "long", "seen": 2}
    )
    assert again.status_code == 400
    assert "Kept?" in again.text


def test_two_hands_at_one_entry_see_both_texts_and_nothing_is_overwritten(
    client: TestClient, workshop: Workshop
) -> None:
    number = add(client)
    mine = {"kind": "found", "text": "Mine: two scores.", "seen": 1}
    assert client.post(f"{LOG}/{number}", data={**mine, "text": "Theirs: one score."}).status_code == 303
    page = client.post(f"{LOG}/{number}/photographs", data=mine)
    assert page.status_code == 409
    words = read(page.text)
    assert "Somebody has changed this entry since you read it" in words
    assert "In the log now Found" in words
    assert "Theirs: one score." in words
    assert "Mine: two scores.</textarea>" in page.text
    assert entry_of(workshop, number).text == "Theirs: one score."
    told = client.post(f"{LOG}/{number}", data=mine, headers=SCRIPT)
    assert told.status_code == 409
    assert told.json()["error"]["code"] == "log-changed"
    assert told.json()["seen"] == 2
    assert "Theirs: one score." in told.json()["html"]
    # Having seen theirs, mine may stand.
    assert client.post(f"{LOG}/{number}", data={**mine, "seen": 2}).status_code == 303
    assert entry_of(workshop, number).text == "Mine: two scores."


def test_an_entry_is_taken_out_only_when_one_is_sure_and_can_be_put_back(
    client: TestClient, workshop: Workshop
) -> None:
    client.post("/engine/tern/photographs", data={**FIELDS, "when": "2026-02-02T10:00"}, files=[photograph()])
    entry = workshop.log.find_entries(engine="tern")[0]
    asked = client.get(f"{LOG}/{entry.id}/remove")
    assert "Take this entry out of the log?" in read(asked.text)
    assert workshop.log.find_entries(engine="tern")
    assert client.post(f"{LOG}/{entry.id}/remove", data={"seen": 7}).status_code == 409
    answer = client.post(f"{LOG}/{entry.id}/remove", data={"seen": 1})
    assert (answer.status_code, answer.headers["location"]) == (303, f"{LOG}?removed=tern%2F{entry.id}")
    assert workshop.log.find_entries(engine="tern") == ()
    page = client.get(answer.headers["location"])
    assert f'action="/engine/tern/log/{entry.id}/put-back"' in page.text
    assert client.get(f"{LOG}/{entry.id}").status_code == 404
    assert client.post(f"{LOG}/{entry.id}/remove", data={"seen": 1}).status_code == 404
    back = client.post(f"{LOG}/{entry.id}/put-back")
    assert back.status_code == 303
    again = workshop.log.find_entries(engine="tern")[0]
    assert (again.text, again.when, again.photographs[0].digest) == (
        entry.text,
        entry.when,
        entry.photographs[0].digest,
    )
    assert client.post(f"{LOG}/{entry.id}/put-back").status_code == 404
    assert client.post(f"{LOG}/x/put-back").status_code == 404


def test_the_log_is_searched_by_words_kind_and_open_jobs(client: TestClient) -> None:
    add(client, text="Gland repacked.", kind="done")
    add(client, text="Gland drips.", kind="found", job="open")
    add(client, text="Paint matched.", kind="note")
    add(client, engine="curlew", text="Gland of another engine.")

    def list_found(query: str, address: str = LOG) -> list[str]:
        part = client.get(f"{address}?{query}&part=list").text
        assert "<html" not in part
        return re.findall(r'<p class="entry-text">(.*?)</p>', part)

    assert list_found("words=glan") == ["Gland drips.", "Gland repacked."]
    assert list_found("words=glan&kind=done") == ["Gland repacked."]
    assert list_found("open=1") == ["Gland drips."]
    assert list_found("kind=nonsense") == ["Paint matched.", "Gland drips.", "Gland repacked."]
    assert list_found("words=%22%27)(*%00") == list_found("words=")
    assert list_found("words=gland", "/log")[0] == "Gland of another engine."
    assert "Nothing in the log has all of that." in read(client.get(f"{LOG}?words=boiler").text)
    # The open jobs stand above the log, not above what was found in it.
    assert "Open jobs (1)" not in read(client.get(f"{LOG}?words=gland").text)


def test_a_long_log_goes_on_over_pages(client: TestClient, workshop: Workshop) -> None:
    numbers = [add(client, text=f"Entry {count}.", when=f"2026-01-{count + 1:02d}T10:00") for count in range(28)]
    first = client.get(f"{LOG}?kind=found").text
    assert first.count('class="entry"') == 25
    query = html.unescape(re.search(r'rel="next" href="\?([^"]+)"', first)[1])  # type: ignore[index]
    assert query == f"kind=found&before={numbers[3]}"
    second = client.get(f"{LOG}?{query}").text
    assert re.findall(r'<p class="entry-text">(.*?)</p>', second) == ["Entry 2.", "Entry 1.", "Entry 0."]
    assert 'rel="next"' not in second
    for before in ("0", "-1", "x", "99", "9" * 40):
        assert client.get(f"{LOG}?before={before}").status_code == 404


def test_a_reading_is_read_back_while_it_is_typed(client: TestClient) -> None:
    def tell(value: str) -> Any:
        return client.get("/log/reading", params={"value": value}).json()

    assert tell("3/4 in") == {"said": "19.05 mm", "lacksUnit": False}
    assert tell("30 psi")["said"] == "2.07 bar"
    assert tell("20 degC")["said"] == "68 °F"
    assert tell("3/4") == {"said": "", "lacksUnit": True}
    assert tell("x" * 5000) == {"said": "", "lacksUnit": False}
    assert client.get("/log/reading").status_code == 200


@pytest.mark.parametrize("tail", ["", "/1", "/1/remove"])
def test_the_log_of_an_engine_that_is_not_there_is_not_there(client: TestClient, tail: str) -> None:
    for engine in ("kestrel", "..%2Ftern", "%2e%2e", "tern%00"):
        assert client.get(f"/engine/{engine}/log{tail}").status_code == 404
    assert client.post(f"/engine/kestrel/log{tail}", data=FIELDS).status_code == 404


def test_words_from_the_log_are_never_markup(client: TestClient) -> None:
    hostile = '<script>alert(1)</script>" onload="x'
    add(client, text=hostile, reading_name=hostile, reading_value=hostile, parts_used=hostile, job="open")
    for address in (LOG, "/log", f"{LOG}/1", f"{LOG}/1/remove", "/engine/tern/before-after"):
        page = client.get(address).text
        assert "<script>alert" not in page
        assert '" onload="x' not in page


def test_an_entry_of_an_engine_whose_record_is_gone_still_shows(client: TestClient, workshop: Workshop) -> None:
    add(client, text="Before it went.")
    (workshop.folder / "tern.toml").unlink()
    page = client.get("/log")
    assert page.status_code == 200
    assert "Before it went." in page.text
    assert client.get(LOG).status_code == 404


def test_a_workshop_without_room_for_a_log_is_still_looked_at(folder: Path) -> None:
    # What stands in its place cannot be a log book, and the one who tests may write everywhere else.
    (folder / "logbook.sqlite").mkdir()
    opened = open_workshop(folder)
    headers = {"origin": HERE, "accept": "text/html"}
    with TestClient(build_app(opened), base_url=HERE, headers=headers, client=("127.0.0.1", 50_000)) as bare:
        for address in (LOG, "/log", "/engine/tern/before-after", "/engine/tern/dossier.pdf"):
            assert bare.get(address).status_code == 200, address
        page = bare.get(LOG).text
        assert "Nothing can be written into the log:" in read(page)
        assert "<textarea" not in page
        answer = bare.post(LOG, data=FIELDS)
        assert answer.status_code == 507
        assert "Valve face scored." not in read(bare.get(LOG).text)
    opened.close()
