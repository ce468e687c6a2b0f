"""The work of a chosen cure done, over HTTP: the sizes as made, what the log says then, what becomes of a choice."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from lapwright.job.cure.choosing import list_choices, visit_as_chosen
from lapwright.job.log.draft import draft_of
from lapwright.job.papers import gather_matter
from lapwright.job.shelf.workshop import Workshop

HERE = "/engine/tern/findings"
CURE = {"cylinder": "A", "code": "shorten-valve"}
A, B = "cylinder.0.valve.length", "cylinder.1.valve.length"
CAVITY = "cylinder.0.valve.cavity"


def read(text: str) -> str:
    return " ".join(unescape(re.sub(r"<script.*?</script>|<svg.*?</svg>|<[^>]*>", " ", text, flags=re.DOTALL)).split())


def choose(client: TestClient, **more: str) -> None:
    assert client.post(f"{HERE}/cure/accept", data={**CURE, **more}).status_code == 303


def find_digest(page: str) -> str:
    return re.findall(r'name="digest" value="([0-9a-f]+)"', page)[0]


def send(client: TestClient, **sent: object) -> int:
    page = client.get(f"{HERE}/done?code=shorten-valve").text
    data = {"code": "shorten-valve", "digest": find_digest(page), "measured": "yes"} | sent
    return client.post(f"{HERE}/done", data=data).status_code


def test_what_was_made_of_both_valves_goes_into_the_record_in_one_step(client: TestClient, workshop: Workshop) -> None:
    choose(client, together="yes")
    page = client.get(f"{HERE}/done?code=shorten-valve").text
    assert page.count('value="12.00 mm"') == 2
    assert page.count(" checked>done") == 2
    assert "wanted: 12.00 mm; in the record: 13.64 ± 0.02 mm" in read(page)
    assert send(client, cylinder=["A", "B"], **{A: "12.02 ± 0.01 mm", B: "0.4725 in"}) == 303
    written = workshop.open_engine("tern").written
    assert (written[A], written[B]) == ("12.02 ± 0.01 mm", "0.4725 in")
    assert "The sizes as made stand in the record" in read(client.get(f"{HERE}?made=1").text)
    # The findings follow, and nothing is offered afresh; the job is closed.
    sheet = read(client.get(f"{HERE}/sheet").text)
    assert "Shorten the valve" not in sheet
    assert workshop.log.find_entries(engine="tern", open_only=True) == ()
    entries = workshop.log.find_entries(engine="tern", kind="done")
    assert {entry.text for entry in entries} == {
        "Done, cylinder A: Shorten the valve to 12.00 mm (0.472 in). As made: valve length 12.02 ± 0.01 mm.",
        "Done, cylinder B: Shorten the valve to 12.00 mm (0.472 in). As made: valve length 0.4725 in.",
    }
    # One step takes it back, and says so; the log is not touched.
    page = client.get("/engine/tern/measure").text
    assert 'data-said="Undone: valve length and 1 more. The log still says that the job is done."' in page
    workshop.undo("tern", digest=workshop.open_engine("tern").digest)
    assert workshop.open_engine("tern").written[B].startswith("13.6")


def test_a_size_that_cannot_be_is_told_at_its_field_and_nothing_is_written(
    client: TestClient, workshop: Workshop, folder: Path
) -> None:
    choose(client)
    before = (folder / "tern.toml").read_bytes()
    digest = find_digest(client.get(f"{HERE}/done?code=shorten-valve").text)
    for figure, words in (("12,02 mm", "has a comma"), ("12.02", "has no unit"), ("", "No figure is written")):
        sent = {"code": "shorten-valve", "digest": digest, "cylinder": "A", "measured": "yes", A: figure}
        answer = client.post(f"{HERE}/done", data=sent)
        assert answer.status_code == 400
        assert words in read(answer.text)
        assert f'value="{figure}"' in answer.text
    assert send(client, **{A: "12 mm"}) == 400
    assert (folder / "tern.toml").read_bytes() == before
    assert set(list_choices(workshop, "tern")) == {"A"}


def test_done_but_not_measured_yet_is_on_the_card_as_done(client: TestClient, workshop: Workshop) -> None:
    choose(client)
    assert send(client, cylinder="A", measured="no") == 303
    assert workshop.open_engine("tern").written[A] == "13.64 ± 0.02 mm"
    sheet = client.get(f"{HERE}/sheet").text
    assert "not measured yet: Shorten the valve to 12.00 mm (0.472 in)." in read(sheet)
    assert "done, not measured yet: A" in read(sheet)
    matter = gather_matter(visit_as_chosen(workshop, "tern"), date="2026-03-02")
    assert {cure.cylinder for cure in matter.cures} == {"B"}
    (told,) = [because for words, because in matter.not_known if words == "Cylinder A"]
    assert re.match(r"Done on 20.*, not measured yet: Shorten the valve to 12.00 mm", told)
    assert matter.runs is not None
    assert matter.runs.after is not None
    # It was not done after all: the choice is there again.
    data = {"code": "shorten-valve", "cylinder": "A"}
    assert client.post(f"{HERE}/reopen", data=data).status_code == 303
    assert set(list_choices(workshop, "tern")) == {"A"}
    (entry,) = workshop.log.find_entries(engine="tern")
    assert entry.text == "To do, cylinder A: Shorten the valve to 12.00 mm (0.472 in)"
    # And it is measured by and by, which needs no choice any more.
    send(client, cylinder="A", measured="no")
    assert send(client, cylinder="A", **{A: "12.03 mm"}) == 303
    assert "not measured yet" not in read(client.get(f"{HERE}/sheet").text)


def test_what_is_measured_on_the_page_measure_is_not_waited_for(client: TestClient, workshop: Workshop) -> None:
    choose(client)
    send(client, cylinder="A", measured="no")
    record = workshop.open_engine("tern")
    workshop.change("tern", A, "12.50 mm", digest=record.digest, seen="13.64 ± 0.02 mm")
    assert "not measured yet" not in read(client.get(f"{HERE}/sheet").text)
    assert "A" in {cure.cylinder for cure in visit_as_chosen(workshop, "tern").cures}


def test_the_log_asks_what_a_chosen_cure_came_to(client: TestClient, workshop: Workshop) -> None:
    choose(client, together="yes")
    entry = list_choices(workshop, "tern")["A"].entry
    answer = client.post(f"/engine/tern/log/{entry.id}/done", data={"seen": entry.version})
    assert answer.headers["location"] == f"{HERE}/done?code=shorten-valve&cylinder=A"
    page = client.get(answer.headers["location"]).text
    # The other valve is there too, and is ticked by who has done it.
    assert page.count("checked>done") == 1
    assert page.count('name="cylinder"') == 2
    assert client.get(f"{HERE}/done?code=new-valve", headers={"accept": "application/json"}).status_code == 404


def test_a_new_valve_is_asked_for_both_its_sizes(client: TestClient) -> None:
    client.post(f"{HERE}/cure/accept", data={**CURE, "code": "new-valve"})
    page = read(client.get(f"{HERE}/done?code=new-valve").text)
    assert "Valve length, as made" in page
    assert "Cavity, as made" in page


def test_taking_the_job_out_of_the_log_takes_the_choice_back_and_says_so(
    client: TestClient, workshop: Workshop
) -> None:
    client.post(f"{HERE}/cure/accept", data={**CURE, "code": "turn-eccentric"})
    assert visit_as_chosen(workshop, "tern").cures[0].code == "turn-eccentric"
    (entry,) = workshop.log.find_entries(engine="tern")
    where = f"/engine/tern/log/{entry.id}/remove"
    assert "taking it out takes the choice back" in read(client.get(where).text)
    client.post(where, data={"seen": entry.version})
    assert "chosen: A" not in read(client.get(f"{HERE}/sheet").text)
    assert visit_as_chosen(workshop, "tern").cures[0].code == "shorten-valve"
    # Put back, it is chosen again.
    client.post(f"/engine/tern/log/{entry.id}/put-back")
    assert visit_as_chosen(workshop, "tern").cures[0].code == "turn-eccentric"


def test_the_job_in_the_log_tells_what_the_card_tells_after_the_record_changed(
    client: TestClient, workshop: Workshop
) -> None:
    client.post(f"{HERE}/cure/accept", data={**CURE, "code": "new-valve"})
    (entry,) = workshop.log.find_entries(engine="tern")
    workshop.log.change_entry(
        entry.id,
        replace(draft_of(entry), text=f"{entry.text}\nBrass is in the drawer."),
        seen=1,
        now=entry.when,
    )
    record = workshop.open_engine("tern")
    workshop.change("tern", CAVITY, "8.20 mm", digest=record.digest, seen=record.written[CAVITY])
    card = visit_as_chosen(workshop, "tern").cures[0]
    assert (card.code, "valve.cavity" in card.changes) == ("new-valve", True)
    log = read(client.get("/engine/tern/log").text)
    assert log.count(f"To do, cylinder A: {card.title} (a new part) Brass is in the drawer.") == 2
    assert "cavity 8.00 mm (0.315 in)" in log
    assert "cavity as found 8.20 mm" in log
    # What the record no longer goes with is said on the page, and the card does not follow it.
    workshop.undo("tern", digest=workshop.open_engine("tern").digest)
    workshop.change("tern", A, "12.00 mm", digest=workshop.open_engine("tern").digest, seen="13.64 ± 0.02 mm")
    assert "no longer goes with the record" in read(client.get(f"{HERE}/sheet").text)


def test_the_log_and_the_card_do_not_tell_codes_and_keys(client: TestClient, workshop: Workshop) -> None:
    client.post(f"{HERE}/cure/accept", data={**CURE, "code": "turn-eccentric+new-throw"})
    client.post(f"{HERE}/check", data={"ref": "A valve-too-long", "outcome": "yes"})
    log = read(client.get("/engine/tern/log").text)
    assert "cure chosen turn eccentric and new throw" in log
    assert "eccentric angle 114.4 deg" in log
    assert "finding A: valve too long" in log
    assert not re.search(r"\w\.[a-z_]{3,}|turn-eccentric|valve-too", log)
    assert list_choices(workshop, "tern")["A"].code == "turn-eccentric+new-throw"


@pytest.mark.parametrize("figure", ["12.5000 mm", "12.50 mm"])
def test_a_choice_of_an_earlier_log_is_still_one(client: TestClient, workshop: Workshop, figure: str) -> None:
    data = {"kind": "note", "text": "To do, cylinder A: Shorten", "job": "open",
            "reading_name": ["cure chosen", "cylinder", "valve.length"],
            "reading_value": ["shorten-valve", "A", figure]}  # fmt: skip
    client.post("/engine/tern/log", data=data)
    assert list_choices(workshop, "tern")["A"].changes == {"valve.length": pytest.approx(12.5e-3)}
    log = read(client.get("/engine/tern/log").text)
    assert "valve length 12.50 mm" in log
    assert "To do, cylinder A: Shorten the valve to 12.50 mm (0.492 in) (an evening)" in log
