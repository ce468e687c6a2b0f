"""Before and after, and the dossier, over HTTP."""

from __future__ import annotations

import html
import io
import re

from pypdf import PdfReader
from starlette.testclient import TestClient

from lapwright.job.shelf.workshop import Workshop
from tests.web.pictures import draw_photograph

PAGE = "/engine/tern/before-after"


def read(text: str) -> str:
    plain = re.sub(r"<script.*?</script>|<svg.*?</svg>|<[^>]*>", " ", text, flags=re.DOTALL)
    return " ".join(html.unescape(plain).split())


def read_pdf(data: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages).split())


def cut_valve(workshop: Workshop, length: str = "12.00 mm") -> None:
    record = workshop.open_engine("tern")
    workshop.change("tern", "cylinder.0.valve.length", length, digest=record.digest, seen="13.64 ± 0.02 mm")


def test_without_a_change_there_is_nothing_to_compare(client: TestClient) -> None:
    page = client.get(PAGE)
    assert page.status_code == 200
    assert "The record has not been changed on this bench yet" in read(page.text)
    assert "<svg" not in page.text


def test_the_valve_that_was_cut_shows_in_sizes_events_runs_and_pictures(client: TestClient, workshop: Workshop) -> None:
    cut_valve(workshop)
    page = client.get(PAGE).text
    words = read(page)
    assert "valve length Cylinder A, valve 13.64 ± 0.02 mm 12.00 mm" in words
    assert re.search(r"Head end: lead −0\.78 mm 0\.0\d mm", words)
    assert re.search(r"Power at 300 rpm 16\.\d W 17\.\d W", words)
    assert re.search(r"Turns over slowly at 0\.\d\d bar \(.*?\) 0\.\d\d bar", words)
    assert "Compressed air stores energy" in words
    # The other cylinder is as it was.
    assert "Events and openings, cylinder A" in words
    assert "Events and openings, cylinder B" not in words
    assert "as it is now" in page
    assert "after the cure" not in page
    for picture in ("Pressure card, head end", "Pressure card, crank end", "Port openings against crank angle"):
        assert f'aria-label="{picture}"' in page


def test_what_was_written_down_for_the_first_time_is_measured_and_not_changed(
    client: TestClient, workshop: Workshop
) -> None:
    assert client.post("/new", data={"name": "Wren"}).status_code == 303
    sizes = {"bore": "20 mm", "stroke": "24 mm", "connecting_rod": "50 mm"}
    for key, value in sizes.items():
        digest = workshop.open_engine("wren").digest
        workshop.change("wren", f"cylinder.0.{key}", value, digest=digest, seen=None)
    page = client.get("/engine/wren/before-after").text
    words = read(page)
    assert "3 sizes were measured: written down for the first time" in words
    assert "bore Cylinder A 20 mm" in words.replace("Cylinder 1", "Cylinder A")
    assert "nothing" not in words.partition("Still to be done")[0]
    digest = workshop.open_engine("wren").digest
    workshop.change("wren", "cylinder.0.bore", "21 mm", digest=digest, seen="20 mm")
    # What was first written is what was found; what is written over it is a change.
    words = read(client.get("/engine/wren/before-after").text)
    assert "3 sizes were measured" in words
    assert re.search(r"bore Cylinder \S+ 20 mm 21 mm", words)
    assert "stroke Cylinder" not in words.partition("sizes were measured")[0]
    cut_valve(workshop)
    assert "measured: written down" not in read(client.get(PAGE).text)


def test_a_test_that_tells_more_of_friction_makes_the_engine_no_worse(client: TestClient, workshop: Workshop) -> None:
    values = {"running.friction_pressure": "1.2 bar", "running.from_tests": "friction_pressure"}
    for key, value in values.items():
        workshop.change("tern", key, value, digest=workshop.open_engine("tern").digest, seen=None)
    words = read(client.get(PAGE).text)
    assert "1 size was measured" in words
    assert "from tests" not in words
    powers = re.search(r"Power at 300 rpm (\S+) W (\S+) W", words)
    assert powers is not None
    assert powers[1] == powers[2]
    assert "less power" not in words


def test_a_change_that_was_undone_leaves_the_record_as_it_was(client: TestClient, workshop: Workshop) -> None:
    cut_valve(workshop)
    workshop.undo("tern", digest=workshop.open_engine("tern").digest)
    assert "The record says again what it said when it was first kept." in read(client.get(PAGE).text)


def test_a_record_that_no_longer_holds_together_still_shows_what_was_changed(
    client: TestClient, workshop: Workshop
) -> None:
    cut_valve(workshop, "12.00")
    page = client.get(PAGE)
    assert page.status_code == 200
    assert "valve length Cylinder 1, valve 13.64" in read(page.text).replace("Cylinder A", "Cylinder 1")
    assert "How it runs is not known" in read(page.text)
    assert client.get("/engine/tern/dossier.pdf").status_code == 200


def test_the_work_and_the_photographs_found_and_done_stand_beside_each_other(client: TestClient) -> None:
    for kind, text, spent in (("found", "Face scored", "30"), ("done", "Face lapped", "1 h 15"), ("note", "Tea", "")):
        client.post(
            "/engine/tern/photographs",
            data={"kind": kind, "text": text, "spent": spent, "parts_used": "7 BA stud" if kind == "done" else ""},
            files=[("photographs", (f"{kind}.jpg", draw_photograph(kind), "image/jpeg"))],
        )
    client.post("/engine/tern/log", data={"kind": "note", "text": "New drain cock", "job": "open"})
    page = client.get(PAGE).text
    words = read(page)
    assert "Time spent 1 h 45 min" in words
    assert "Parts used 7 BA stud Still to be done New drain cock" in words
    assert page.count("/small") == 2
    assert page.index("Photograph found.jpg") < page.index("Photograph done.jpg")


def test_the_dossier_tells_the_whole_log_and_the_sizes(client: TestClient, workshop: Workshop) -> None:
    cut_valve(workshop)
    client.post(
        "/engine/tern/photographs",
        data={"kind": "found", "text": "Face scored", "when": "2026-02-02T10:10", "spent": "45"},
        files=[("photographs", ("face.jpg", draw_photograph(lying=True), "image/jpeg"))],
    )
    client.post(
        "/engine/tern/log", data={"kind": "note", "text": "New drain cock", "job": "open", "when": "2026-02-03"}
    )
    answer = client.get("/engine/tern/dossier.pdf")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.headers["content-disposition"] == "inline; filename*=utf-8''tern-dossier.pdf"
    text = read_pdf(answer.content)
    for told in ("Tern Date 20", "2026-02-02 to 2026-02-03", "What was found", "Face scored", "45 min"):
        assert told in text
    assert "Still to be done Since Job 2026-02-03 New drain cock" in text
    assert "valve length 12.00 mm" in text
    assert "This dossier says nothing of the soundness" in text
    assert b"a camera of the museum" not in answer.content


def test_an_engine_that_is_not_there_has_neither(client: TestClient) -> None:
    for page in ("before-after", "dossier.pdf"):
        assert client.get(f"/engine/kestrel/{page}").status_code == 404
        assert client.get(f"/engine/..%2Ftern/{page}").status_code == 404
