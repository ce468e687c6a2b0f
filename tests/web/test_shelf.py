"""The shelf: what stands on it and how it stands, new engines, copies, and engines that come and go as archives."""

from __future__ import annotations

import io
import os
import re
import zipfile
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.web.reading_pages import Part, read_page
from tests.web.test_every_route import fill_log

SCRIPT = {"accept": "application/json"}


def look(client: TestClient) -> dict[str, Part]:
    """What stands on the shelf, each by its name."""
    answer = client.get("/")
    assert answer.status_code == 200
    page, _ = read_page(answer.text)
    places = [part for part in page.walk() if part.attributes.get("class") == "engine"]
    return {find(place, "engine-name").text: place for place in places}


def find(part: Part, kind: str) -> Part:
    return next(each for each in part.walk() if kind in each.attributes.get("class", "").split())


def tell(part: Part) -> dict[str, str]:
    """What is said of one engine, point by point."""
    points = [each for each in find(part, "engine-state").walk() if each.tag == "div"]
    return {
        next(each for each in point.walk() if each.tag == "dt").text: next(
            each for each in point.walk() if each.tag == "dd"
        ).text.strip()
        for point in points
    }


def test_every_engine_of_the_folder_stands_there_with_its_drawing(client: TestClient, folder: Path) -> None:
    shelf = look(client)
    assert sorted(path.stem for path in folder.glob("*.toml")) == sorted(name.lower() for name in shelf)
    assert list(shelf) == sorted(shelf)
    for name, place in shelf.items():
        picture = find(place, "engine-picture")
        assert any(each.tag == "svg" for each in picture.walk()), name
        assert tell(place)["Open jobs"] == "none"
        assert tell(place)["Last run"] == "none noted"


def test_the_drawings_are_those_of_their_engines(client: TestClient) -> None:
    drawn = [next(each for each in place.walk() if each.tag == "svg") for place in look(client).values()]
    points = [tuple(each.attributes.get("points", "") for each in svg.walk()) for svg in drawn]
    assert len(set(points)) == len(points)


def test_an_empty_workshop_says_how_to_begin(client: TestClient, folder: Path) -> None:
    for record in folder.glob("*.toml"):
        record.unlink()
    answer = client.get("/")
    assert "No engine stands here yet" in answer.text
    assert 'class="engine"' not in answer.text
    assert client.post("/new", data={"name": "Wren"}).status_code == 303
    assert list(look(client)) == ["Wren"]


def test_a_new_engine_begins_with_nothing_but_its_name(client: TestClient, folder: Path) -> None:
    begun = client.post("/new", data={"name": "  Little Wren "})
    assert (begun.status_code, begun.headers["location"]) == (303, "/engine/little-wren/measure")
    assert 'name = "Little Wren"' in (folder / "little-wren.toml").read_text()
    place = look(client)["Little Wren"]
    assert not any(each.tag == "svg" for each in place.walk())
    assert "too few sizes for a picture" in place.text


@pytest.mark.parametrize("name", ["Tern", " tern ", "TERN"])
def test_no_two_engines_are_begun_under_one_name(client: TestClient, folder: Path, name: str) -> None:
    before = set(folder.glob("*.toml"))
    for address in ("/new", "/engine/curlew/copy"):
        error = client.post(address, data={"name": name}, headers=SCRIPT)
        assert error.status_code == 400
        told = error.json()["error"]
        # It is told by the name that it has on the shelf, however the new one was written.
        assert told["message"] == "there is an engine called Tern on the shelf already"
        assert told["instead"] == 'call this one otherwise, or take "Tern (2)"'
    assert set(folder.glob("*.toml")) == before
    assert client.post("/new", data={"name": "Tern (2)"}).headers["location"] == "/engine/tern-2/measure"
    assert "Tern (3)" in client.post("/new", data={"name": "Tern"}, headers=SCRIPT).json()["error"]["instead"]


@pytest.mark.parametrize(("name", "words"), [("tern", "called Tern on the shelf already"), (" ", "1 to 80 letters")])
@pytest.mark.parametrize(("address", "field"), [("/new", "new-name"), ("/engine/curlew/copy", "copy-1")])
def test_a_name_that_cannot_be_stays_in_its_field_on_the_shelf(
    client: TestClient, folder: Path, *, address: str, field: str, name: str, words: str
) -> None:
    before = set(folder.glob("*.toml"))
    answer = client.post(address, data={"name": name})
    assert answer.status_code == 400
    page, _ = read_page(answer.text)
    assert len([part for part in page.walk() if part.attributes.get("class") == "engine"]) == len(before)
    marked = [part.attributes for part in page.walk() if part.attributes.get("aria-invalid")]
    assert [(each["id"], each["value"]) for each in marked] == [(field, name)]
    (said,) = [part for part in page.walk() if part.attributes.get("role") == "alert"]
    assert said.attributes["id"] == marked[0]["aria-describedby"]
    assert words in said.text
    assert ("open" in find(page, "more").attributes) == (field == "copy-1")
    assert set(folder.glob("*.toml")) == before


def test_an_engine_is_taken_off_the_shelf_and_comes_back_with_its_log(client: TestClient, folder: Path) -> None:
    fill_log(client)
    text = (folder / "tern.toml").read_bytes()
    asked = client.get("/engine/tern/put-away")
    assert "Take Tern off the shelf?" in asked.text
    assert (folder / "tern.toml").exists()
    away = client.post("/engine/tern/put-away")
    assert away.status_code == 303
    assert "Tern" not in look(client)
    kept = list((folder / "put-away").iterdir())
    assert [path.read_bytes() for path in kept] == [text]
    assert re.fullmatch(r"tern-\d{8}-\d{6}\.toml", kept[0].name)
    assert f"put-away/{kept[0].name}" in client.get(away.headers["location"]).text
    assert client.get("/engine/tern/measure").status_code == 404
    back = client.post("/bring-in", files={"file": (kept[0].name, text)})
    assert back.headers["location"] == "/engine/tern/measure"
    assert "Valve face scored." in client.get("/engine/tern/log").text
    assert client.post("/bring-in", files={"file": ("a.toml", text)}).headers["location"] == "/engine/tern-2/measure"
    assert client.post("/engine/tern/put-away").status_code == 303
    assert len(list((folder / "put-away").iterdir())) == 2


def test_nothing_is_put_away_outside_the_workshop_nor_from_there(client: TestClient, folder: Path) -> None:
    outside = folder.parent / "outside"
    outside.mkdir()
    os.symlink(outside, folder / "put-away")
    os.symlink(folder / "curlew.toml", folder / "linked.toml")
    for engine in ("tern", "linked"):
        answer = client.post(f"/engine/{engine}/put-away", headers=SCRIPT)
        assert (answer.status_code, answer.json()["error"]["code"]) == (507, "cannot-save")
        assert (folder / f"{engine}.toml").exists()
    assert not list(outside.iterdir())
    for engine in ("..%2Foutside", "%2e%2e", "wren"):
        assert client.post(f"/engine/{engine}/put-away", headers=SCRIPT).status_code == 404
    harm = client.get("/", params={"away": "put-away/<script>.toml"}).text
    assert "<script>.toml" not in harm
    assert "passwd" not in client.get("/", params={"away": "../etc/passwd"}).text


@pytest.mark.parametrize("name", ["", "   ", "x" * 500, "Wren\n", "a\x00b", "\u202eWren", "Wren\u200b"])
def test_what_is_no_name_begins_nothing(client: TestClient, folder: Path, name: str) -> None:
    before = set(folder.glob("*.toml"))
    answer = client.post("/new", data={"name": name}, headers=SCRIPT)
    assert answer.status_code == (303 if name == "Wren\n" else 400), answer.text
    assert len(set(folder.glob("*.toml")) - before) == (name == "Wren\n")


def test_what_is_open_and_what_was_run_is_told(client: TestClient) -> None:
    fill_log(client)
    client.post("/engine/tern/log", data={"kind": "run", "text": "Ran 20 minutes on air."}, headers=SCRIPT)
    told = tell(look(client)["Tern"])
    assert told["Open jobs"] == "1"
    assert told["Last run"] != "none noted"
    assert tell(look(client)["Curlew"])["Open jobs"] == "none"


def test_a_record_that_cannot_be_read_stands_there_too(client: TestClient, folder: Path) -> None:
    (folder / "ruff.toml").write_text('format = 1\n[engine]\nname = "Ruff"\n[[cylinder]]\nbore = "-3 mm"\n')
    (folder / "garbage.toml").write_bytes(bytes(range(256)))
    (folder / "empty.toml").touch()
    (folder / "wrong.toml").write_text('format = 1\n[engine]\nname = "wrong"\n[[cylinder]]\nbore = 3\nstroke = 4\n')
    shelf = look(client)
    assert len(shelf) == 12
    place = shelf["Ruff"]
    assert tell(place)["Cannot be read"] == "1 problem"
    assert tell(shelf["wrong"])["Cannot be read"] == "2 problems"
    for flawed in (place, shelf["garbage"], shelf["empty"]):
        assert "too few sizes" not in find(flawed, "engine-picture").text
    assert find(place, "engine-face").attributes["href"] == "/engine/ruff/measure"
    for engine in ("ruff", "garbage", "empty"):
        assert client.get(f"/engine/{engine}/measure").status_code == 200


def test_what_is_no_record_of_the_folder_does_not_stand_there(client: TestClient, folder: Path) -> None:
    outside = folder.parent / "outside.toml"
    outside.write_text('format = 1\n[engine]\nname = "Outside"\n')
    os.symlink(outside, folder / "linked.toml")
    os.symlink(folder.parent, folder / "above")
    os.symlink("/etc/passwd", folder / "passwd.toml")
    os.symlink(folder / "loop.toml", folder / "loop.toml")
    (folder / "folder.toml").mkdir()
    (folder / ".hidden.toml").write_text('format = 1\n[engine]\nname = "Hidden"\n')
    os.mkfifo(folder / "pipe.toml")
    assert len(look(client)) == 8
    for engine in ("linked", "passwd", "loop", "folder", ".hidden", "pipe", "above"):
        for page in ("measure", "turn", "archive", "log", "stamp"):
            answer = client.get(f"/engine/{engine}/{page}")
            assert answer.status_code == 404, (engine, page)
            assert "root:" not in answer.text
    assert client.post("/engine/linked/copy", data={"name": "Wren"}).status_code == 404


def test_a_copy_is_a_new_engine_with_the_same_sizes(client: TestClient, folder: Path) -> None:
    before = (folder / "tern.toml").read_bytes()
    made = client.post("/engine/tern/copy", data={"name": "Tern as bored out"})
    assert made.headers["location"] == "/engine/tern-as-bored-out/measure"
    text = (folder / "tern-as-bored-out.toml").read_text()
    assert text == before.decode().replace('name = "Tern"', 'name = "Tern as bored out"')
    assert (folder / "tern.toml").read_bytes() == before
    assert client.post("/engine/tern/copy", data={"name": " "}, headers=SCRIPT).status_code == 400
    assert client.post("/engine/wren/copy", data={"name": "x"}, headers=SCRIPT).status_code == 404


def test_an_engine_comes_back_from_its_archive_with_log_and_photographs(client: TestClient) -> None:
    entry = fill_log(client, text="Face lapped; the cavity measured anew.")
    archive = client.get("/engine/tern/archive")
    assert archive.headers["content-type"] == "application/zip"
    assert archive.headers["content-disposition"].startswith("attachment; filename*=utf-8''tern")
    names = zipfile.ZipFile(io.BytesIO(archive.content)).namelist()
    inside = [name.partition("/")[0] for name in sorted(names)]
    assert inside == ["README.txt", "log.json", "photographs", "record.toml"]
    back = client.post("/bring-in", files={"file": ("tern.zip", archive.content)})
    assert (back.status_code, back.headers["location"]) == (303, "/engine/tern-2/measure")
    log = client.get("/engine/tern-2/log").text
    assert "Face lapped; the cavity measured anew." in log
    photographs = [line.split('"')[0] for line in log.split('src="/photographs/')[1:]]
    assert photographs
    assert client.get(f"/photographs/{photographs[0]}").status_code == 200
    assert client.get(f"/engine/tern/log/{entry}").status_code == 200
    assert tell(look(client)["Tern"])["Open jobs"] == "1"


def test_a_bare_record_can_be_brought_in(client: TestClient, folder: Path) -> None:
    text = (folder / "tern.toml").read_bytes().replace(b'"Tern"', b'"Wren"', 1)
    back = client.post("/bring-in", files={"file": ("../../../etc/wren.toml", text)})
    assert back.headers["location"] == "/engine/wren/measure"
    assert (folder / "wren.toml").read_bytes() == text


def make_zip(**files: bytes) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(name.replace("__", "/").replace("DOT", "."), data)
    return packed.getvalue()


@pytest.mark.parametrize(
    ("name", "data", "status"),
    [
        ("", b"", 400),
        ("empty.zip", b"", 400),
        ("a.zip", b"PK\x03\x04" + bytes(50), 400),
        ("a.zip", make_zip(readmeDOTtxt=b"nothing of ours"), 400),
        ("a.zip", make_zip(DOTDOT__DOTDOT__evilDOTtoml=b"x", recordDOTtoml=b"\xff\xfe\x00"), 400),
        ("a.toml", bytes(range(256)), 400),
        ("a.toml", b"#" * 1_100_000, 400),
        ("a.exe", b"MZ" + bytes(100), 400),
    ],
)
def test_what_is_no_engine_is_not_brought_in(
    client: TestClient, folder: Path, name: str, data: bytes, status: int
) -> None:
    before = sorted(folder.parent.rglob("*.toml"))
    answer = client.post("/bring-in", files={"file": (name, data)}, headers=SCRIPT)
    assert answer.status_code == status, answer.text
    assert answer.json()["error"]["message"].isprintable()
    assert sorted(folder.parent.rglob("*.toml")) == before


def test_the_shelf_says_what_sort_of_engine_it_is(client: TestClient) -> None:
    words = " ".join(re.sub("<[^>]*>", " ", client.get("/").text).split())
    assert "Merganser 1 1/2 in × 2 in · steam · piston valve" in words
    assert "Tern 3/4 in × 3/4 in · air · 2 cylinders" in words
