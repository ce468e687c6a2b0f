"""The page Measure: every route, every refusal, and what a form without any script does."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from lapwright.bench.access import COOKIE, Access, Sharing
from lapwright.bench.app import build_app
from lapwright.job.shelf.workshop import Workshop
from lapwright.record.comparing import read_written

JSON = {"content-type": "application/json", "accept": "application/json"}


def digest_of(client: TestClient, engine: str = "tern") -> str:
    digest: str = client.get(f"/engine/{engine}/stamp").json()["digest"]
    return digest


def post(client: TestClient, way: str, engine: str = "tern", **sent: Any) -> Any:
    return client.post(f"/engine/{engine}/{way}", json=sent, headers=JSON)


def change(client: TestClient, key: str, value: str | None, *, seen: str | None, digest: str = "") -> Any:
    return post(client, "change", key=key, value=value, seen=seen, digest=digest or digest_of(client))


def read_field(page: str, key: str) -> str:
    """The HTML of one field."""
    found = re.search(rf'<div class="field[^>]*data-field="{re.escape(key)}">(.*?)</details>\s*</div>', page, re.DOTALL)
    assert found, key
    return plain(found[1])


def plain(markup: str) -> str:
    """What a page shows, without the spaces that keep a figure with its unit."""
    return unescape(markup).replace("\xa0", " ")


def test_every_demo_engine_has_its_page(client: TestClient, folder: Path) -> None:
    for record in folder.glob("*.toml"):
        answer = client.get(f"/engine/{record.stem}/measure")
        assert answer.status_code == 200
        assert "Traceback" not in answer.text
        assert 'data-key="cylinder.0.bore"' in answer.text


def test_a_field_tells_what_was_understood_what_is_taken_and_how_to_measure(client: TestClient) -> None:
    page = client.get("/engine/tern/measure").text
    assert "read as 19.05 mm, 0.750 in" in read_field(page, "cylinder.0.bore")
    assert "Taken for now: 0.00 mm" in read_field(page, "cylinder.0.cylinder_offset")
    assert "This one matters most" in read_field(page, "cylinder.0.port_face.steam_port")
    assert "dial gauge" in read_field(page, "cylinder.0.valve_drive.throw")
    assert "nobody's fingers near" in read_field(page, "cylinder.0.valve_drive.throw")


def test_what_a_missing_size_leaves_open_is_told(client: TestClient) -> None:
    page = client.get("/engine/knot/measure").text
    assert "Left open without it: the exhaust lap" in read_field(page, "cylinder.0.valve.cavity")


def test_a_text_is_read_back_before_it_is_saved(client: TestClient) -> None:
    def read(text: str, key: str = "cylinder.0.bore") -> Any:
        return client.get("/engine/tern/measure/read", params={"key": key, "text": text}, headers=JSON).json()

    assert read("3/4 in")["understood"] == "19.05 mm, 0.750 in"
    assert read("3/4") == {
        "understood": "",
        "problem": "3/4 has no unit",
        "instead": 'write "3/4 in" or "3/4 mm"',
        "offers": ["3/4 in", "3/4 mm"],
    }
    assert read("")["problem"] == ""
    assert read("x" * 5000)["problem"]
    assert read("1", "engine.colour")["error"]["code"] == "not-there"


def test_a_change_is_saved_in_the_file_and_can_be_undone_and_redone(client: TestClient, folder: Path) -> None:
    before = (folder / "tern.toml").read_text(encoding="utf-8")
    saved = change(client, "cylinder.0.bore", "20 mm", seen="3/4 in")
    assert saved.status_code == 200
    after = (folder / "tern.toml").read_text(encoding="utf-8")
    assert after == before.replace('bore = "3/4 in"', 'bore = "20 mm"', 1)
    assert 'data-said="Undone: bore."' in client.get("/engine/tern/measure").text
    undone = post(client, "undo", digest=saved.json()["digest"])
    assert undone.status_code == 200
    assert (folder / "tern.toml").read_text(encoding="utf-8") == before
    assert post(client, "redo", digest=undone.json()["digest"]).status_code == 200
    assert (folder / "tern.toml").read_text(encoding="utf-8") == after


def test_an_emptied_field_takes_its_key_out(client: TestClient, folder: Path) -> None:
    assert change(client, "cylinder.0.clearance_head", "  ", seen="0.8 mm").status_code == 200
    assert "clearance_head" not in (folder / "tern.toml").read_text(encoding="utf-8").partition('name = "B"')[0]


@pytest.mark.parametrize(
    ("sent", "status", "code"),
    [
        ({"key": "cylinder.0.bore", "value": "20", "seen": "3/4 in"}, 400, "bad-input"),
        ({"key": "cylinder.0.bore", "value": 20, "seen": "3/4 in"}, 400, "bad-input"),
        ({"value": "20 mm", "seen": None}, 400, "bad-input"),
        ({"key": "cylinder.0.colour", "value": "20 mm", "seen": None}, 404, "not-there"),
        ({"key": "cylinder.7.bore", "value": "20 mm", "seen": None}, 422, "cannot-change"),
        ({"key": "cylinder.0.port_face.edges.2", "value": "2 mm", "seen": None}, 422, "cannot-change"),
    ],
)
def test_what_cannot_be_saved_is_refused_and_the_file_stays(
    client: TestClient, folder: Path, sent: dict[str, Any], status: int, code: str
) -> None:
    before = (folder / "tern.toml").read_bytes()
    answer = post(client, "change", digest=digest_of(client), **sent)
    assert answer.status_code == status
    assert answer.json()["error"]["code"] == code
    assert (folder / "tern.toml").read_bytes() == before


def test_a_body_that_is_no_object_is_refused(client: TestClient) -> None:
    for body in ("", "[1]", "{", '{"key": NaN}'):
        assert client.post("/engine/tern/change", content=body, headers=JSON).status_code == 400


@pytest.mark.parametrize("way", ["undo", "redo", "add", "remove", "edges", "text"])
def test_every_change_wants_the_digest_that_was_read(client: TestClient, way: str) -> None:
    sent = {"list": "pin", "place": "cylinder.1", "part": "cylinder.0.valve", "text": "format = 1\n"}
    assert post(client, way, **sent).status_code == 400
    assert post(client, way, engine="wren", digest="0", **sent).status_code == 404
    assert client.get(f"/engine/tern/{way}").status_code == 405


def test_there_is_nothing_to_undo_at_first(client: TestClient) -> None:
    assert post(client, "undo", digest=digest_of(client)).status_code == 404
    page = client.get("/engine/tern/measure").text
    assert re.search(r"<button disabled title=\"[^\"]*\">Undo</button>", page)


def test_the_same_key_changed_in_the_file_is_a_clash_and_both_texts_are_told(client: TestClient, folder: Path) -> None:
    digest, path = digest_of(client), folder / "tern.toml"
    path.write_text(path.read_text(encoding="utf-8").replace('bore = "3/4 in"', 'bore = "19 mm"', 1), encoding="utf-8")
    answer = change(client, "cylinder.0.bore", "20 mm", seen="3/4 in", digest=digest)
    assert answer.status_code == 409
    error = answer.json()["error"]
    assert (error["base"], error["yours"], error["theirs"]) == ("3/4 in", "20 mm", "19 mm")
    assert 'bore = "19 mm"' in path.read_text(encoding="utf-8")


def test_another_key_changed_in_the_file_is_merged_and_told(client: TestClient, folder: Path) -> None:
    digest, path = digest_of(client), folder / "tern.toml"
    path.write_text(path.read_text(encoding="utf-8").replace('bore = "3/4 in"', 'bore = "19 mm"', 1), encoding="utf-8")
    answer = change(client, "cylinder.0.stroke", "20 mm", seen="3/4 in", digest=digest)
    assert answer.json()["merged"]
    assert answer.json()["others"] == ["cylinder.0.bore"]
    text = path.read_text(encoding="utf-8")
    assert 'bore = "19 mm"' in text
    assert 'stroke = "20 mm"' in text


@pytest.mark.parametrize("kind", ["cylinder", "cylinder.0.gland", "fastener", "pin"])
def test_parts_are_added_and_taken_out(client: TestClient, workshop: Workshop, kind: str) -> None:
    added = post(client, "add", digest=digest_of(client), list=kind).json()
    page = client.get("/engine/tern/measure").text
    assert f'id="part-{added["place"]}"' in page
    removed = post(client, "remove", digest=added["digest"], place=added["place"])
    assert removed.status_code == 200
    assert f'id="part-{added["place"]}"' not in client.get("/engine/tern/measure").text


def test_a_valve_that_is_not_alike_at_both_ends_is_told_by_its_edges_and_back(client: TestClient, folder: Path) -> None:
    before = (folder / "tern.toml").read_text(encoding="utf-8")
    turned = post(client, "edges", part="cylinder.0.valve", digest=digest_of(client))
    assert turned.status_code == 200
    text = (folder / "tern.toml").read_text(encoding="utf-8")
    assert 'edges = ["0 mm", "2.82 mm", "10.82 mm", "13.64 mm"]' in text
    assert 'data-key="cylinder.0.valve.edges.3"' in client.get("/engine/tern/measure").text
    back = post(client, "edges", part="cylinder.0.valve", digest=turned.json()["digest"])
    assert back.status_code == 200
    plain = before.replace("13.64 ± 0.02 mm", "13.64 mm", 1).replace("8.00 ± 0.02 mm", "8 mm", 1)
    assert read_written((folder / "tern.toml").read_text(encoding="utf-8")) == read_written(plain)


def test_a_part_of_which_too_little_is_known_has_no_edges_yet(client: TestClient) -> None:
    assert post(client, "edges", "knot", part="cylinder.0.valve", digest=digest_of(client, "knot")).status_code == 422
    assert post(client, "edges", part="cylinder.0.bore", digest=digest_of(client)).status_code == 422
    assert post(client, "edges", part="cylinder.x.valve", digest=digest_of(client)).status_code == 422
    assert post(client, "edges", part="cylinder.0.valve", digest="0").status_code == 409


def test_what_is_no_list_cannot_grow(client: TestClient) -> None:
    assert post(client, "add", digest=digest_of(client), list="engine").status_code == 422
    assert post(client, "remove", digest=digest_of(client), place="cylinder.9").status_code in (404, 422)


def test_the_page_opens_on_a_record_with_errors_and_links_to_the_fields(client: TestClient, folder: Path) -> None:
    flawed = 'format = 1\n[engine]\nname = "Dunlin"\n[[cylinder]]\nbore = "0.75"\ncolour = "red"\n'
    (folder / "dunlin.toml").write_text(flawed, encoding="utf-8")
    page = unescape(client.get("/engine/dunlin/measure").text)
    assert "bore: 0.75 has no unit" in page
    assert 'href="#field-cylinder.0.bore"' in page
    assert 'aria-invalid="true"' in read_field(page, "cylinder.0.bore")
    assert 'data-line="6"' in page


def test_a_file_that_is_no_record_at_all_is_shown_as_text_and_can_be_mended(client: TestClient, folder: Path) -> None:
    path = folder / "dunlin.toml"
    path.write_bytes(b"format = 1\r\n[engine\r\n")
    page = client.get("/engine/dunlin/measure").text
    assert "cannot be read as it stands" in page
    mended = 'format = 1\r\n[engine]\r\nname = "Dunlin"\r\n[[cylinder]]\r\n'
    form = {"digest": digest_of(client, "dunlin"), "text": mended}
    assert client.post("/engine/dunlin/text", data=form).status_code == 303
    assert path.read_bytes() == mended.encode()


def test_without_any_script_a_form_saves_what_differs(client: TestClient, folder: Path) -> None:
    form = {
        "digest": digest_of(client),
        "text:cylinder.0.bore": "20 mm",
        "seen:cylinder.0.bore": "3/4 in",
        "text:cylinder.0.stroke": "3/4 in",
        "seen:cylinder.0.stroke": "3/4 in",
        "text:cylinder.0.cylinder_offset": "0.1 mm",
        "seen:cylinder.0.cylinder_offset": "",
    }
    answer = client.post("/engine/tern/change", data=form)
    assert answer.status_code == 303
    assert answer.headers["location"] == "/engine/tern/measure"
    text = (folder / "tern.toml").read_text(encoding="utf-8")
    assert 'bore = "20 mm"' in text
    assert 'cylinder_offset = "0.1 mm"' in text


def test_without_any_script_nothing_that_was_typed_is_lost(client: TestClient) -> None:
    form = {
        "digest": digest_of(client),
        "text:cylinder.0.bore": "20",
        "seen:cylinder.0.bore": "3/4 in",
        "text:cylinder.0.stroke": "21 mm",
        "seen:cylinder.0.stroke": "3/4 in",
    }
    answer = client.post("/engine/tern/change", data=form)
    assert answer.status_code == 400
    assert 'value="20"' in read_field(answer.text, "cylinder.0.bore")
    assert 'value="21 mm"' in read_field(answer.text, "cylinder.0.stroke")
    assert "20 has no unit" in answer.text


def test_without_any_script_a_clash_shows_all_three_texts_and_lets_one_choose(client: TestClient, folder: Path) -> None:
    digest, path = digest_of(client), folder / "tern.toml"
    path.write_text(path.read_text(encoding="utf-8").replace('bore = "3/4 in"', 'bore = "19 mm"', 1), encoding="utf-8")
    form = {"digest": digest, "text:cylinder.0.bore": "20 mm", "seen:cylinder.0.bore": "3/4 in"}
    answer = client.post("/engine/tern/change", data=form)
    assert answer.status_code == 409
    told = plain(answer.text.partition('role="alert"')[2].partition("</section>")[0])
    assert all(f"<dd>{words}</dd>" in told for words in ("3/4 in", "20 mm", "19 mm"))
    chosen = dict(re.findall(r'name="([^"]+)" value="([^"]*)"', told))
    assert client.post("/engine/tern/change", data=chosen).status_code == 303
    assert 'bore = "20 mm"' in path.read_text(encoding="utf-8")


def test_a_guest_reads_everything_and_finds_nothing_to_press(workshop: Workshop) -> None:
    sharing = Sharing(link="link-as-shown", code="012345")
    token = sharing.let_in("link-as-shown", "012345")
    app = build_app(workshop, access=Access(frozenset({"192.0.2.1"}), sharing))
    here = "http://192.0.2.1:8460"
    headers = {"origin": here, "accept": "text/html", "cookie": f"{COOKIE}={token}"}
    with TestClient(app, base_url=here, headers=headers, client=("192.0.2.7", 50_000)) as guest:
        page = guest.get("/engine/tern/measure").text
        assert "data-read-only" in page
        assert 'readonly=""' in read_field(page, "cylinder.0.bore")
        assert not re.search(r"<button(?![^>]*type=\"button\")", page)
        assert change(guest, "cylinder.0.bore", "20 mm", seen="3/4 in").status_code == 403


def test_the_sizes_to_measure_next_stand_on_top_with_links(client: TestClient) -> None:
    page = client.get("/engine/knot/measure").text
    following = page.partition('id="next"')[2].partition("</section>")[0]
    assert 'data-to="cylinder.0.valve.cavity"' in following
    assert "for 4 answers" in following
    assert "Nothing is missing" not in following
    # Where nothing is missing, what is most in doubt is named with what it would narrow, and of which cylinder it is.
    tern = client.get("/engine/tern/measure").text.partition('id="next"')[2].partition("</section>")[0]
    assert "Nothing is missing" in tern
    assert "valve offset B 0 ± 0.05 mm above all: admission at the head end ± 2.3 deg" in " ".join(
        re.sub(r"<[^>]*>", " ", plain(tern)).split()
    )
    assert 'id="next-title"' not in client.get("/engine/turnstone/measure").text


def test_what_stands_in_a_record_is_never_markup(client: TestClient, folder: Path) -> None:
    evil = 'format = 1\n[engine]\nname = "<script>alert(1)</script>"\n[[cylinder]]\nbore = \'"><img src=x>\'\n'
    (folder / "dunlin.toml").write_text(evil, encoding="utf-8")
    page = client.get("/engine/dunlin/measure").text
    assert "<script>alert" not in page
    assert "<img" not in page


def test_every_label_belongs_to_its_field(client: TestClient) -> None:
    page = client.get("/engine/turnstone/measure").text
    entries = re.findall(r'<(?:input|select|textarea) id="([^"]+)"', page)
    assert entries
    assert set(entries) <= set(re.findall(r'<label for="([^"]+)"', page))
    assert len(set(re.findall(r' id="([^"]+)"', page))) == len(re.findall(r' id="([^"]+)"', page))
