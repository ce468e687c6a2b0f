"""Photographs over HTTP: the right type, for good, and no other file of the workshop or of the machine."""

from __future__ import annotations

import hashlib
import io

import pytest
from PIL import Image
from starlette.testclient import TestClient

from lapwright.job.shelf.workshop import Workshop
from tests.web.pictures import draw_photograph

TYPES = {"JPEG": "image/jpeg", "PNG": "image/png", "WEBP": "image/webp"}


def put(client: TestClient, data: bytes, name: str = "face of the valve.jpg") -> str:
    """Put a photograph into the log and return its digest."""
    answer = client.post("/engine/tern/photographs", data={"kind": "found"}, files=[("photographs", (name, data, ""))])
    assert answer.status_code == 303, answer.text
    return hashlib.sha256(data).hexdigest()


@pytest.mark.parametrize("form", TYPES)
def test_a_photograph_comes_back_with_its_own_type_and_stays_on_the_disk_to_the_byte(
    client: TestClient, workshop: Workshop, form: str
) -> None:
    data = draw_photograph(form=form)  # type: ignore[arg-type]
    digest = put(client, data)
    answer = client.get(f"/photographs/{digest}")
    with Image.open(io.BytesIO(answer.content)) as whole, Image.open(io.BytesIO(data)) as given:
        assert (whole.format, whole.size) == (form, given.size)
    assert [file.read_bytes() for file in (workshop.folder / "photographs").glob(f"{digest}.*")] == [data]
    assert answer.headers["content-type"] == TYPES[form]
    assert answer.headers["cache-control"] == "private, max-age=31536000, immutable"
    assert answer.headers["content-disposition"] == "inline; filename*=utf-8''face%20of%20the%20valve.jpg"
    assert answer.headers["x-content-type-options"] == "nosniff"


def test_the_small_picture_stands_upright_and_tells_nothing_of_the_camera(client: TestClient) -> None:
    digest = put(client, draw_photograph(size=(1200, 900), lying=True))
    answer = client.get(f"/photographs/{digest}/small")
    assert answer.headers["content-type"] == "image/jpeg"
    with Image.open(io.BytesIO(answer.content)) as small:
        assert small.size == (360, 480)
        assert not small.getexif()
    assert b"museum" not in answer.content


@pytest.mark.parametrize("form", TYPES)
def test_the_whole_picture_stands_upright_and_tells_neither_place_nor_camera(client: TestClient, form: str) -> None:
    data = draw_photograph(size=(1200, 900), form=form, lying=True)  # type: ignore[arg-type]
    assert b"museum" in data
    answer = client.get(f"/photographs/{put(client, data)}")
    with Image.open(io.BytesIO(answer.content)) as whole:
        assert whole.size == (900, 1200)
        assert not whole.getexif()
    assert b"museum" not in answer.content
    assert b"Exif" not in answer.content


def test_a_name_that_would_leave_its_header_stays_in_it(client: TestClient) -> None:
    digest = put(client, draw_photograph(), 'a"; x=y\u202e.jpg')
    disposition = client.get(f"/photographs/{digest}").headers["content-disposition"]
    assert disposition.startswith("inline; filename*=utf-8''a")
    assert '"' not in disposition
    assert ";" not in disposition.removeprefix("inline;")


@pytest.mark.parametrize(
    "asked",
    [
        "tern.toml",
        "..%2Ftern.toml",
        "..%2F..%2F..%2Fetc%2Fpasswd",
        "%2Fetc%2Fpasswd",
        "logbook.sqlite",
        "small",
        "0" * 64,
        "0" * 63,
        "A" * 64,
        "0" * 64 + ".jpg",
        "%00",
    ],
)
def test_nothing_else_has_an_address(client: TestClient, workshop: Workshop, asked: str) -> None:
    digest = put(client, draw_photograph())
    (workshop.folder / "photographs" / f"{'0' * 64}.jpg").write_bytes(draw_photograph("not of the log"))
    assert client.get(f"/photographs/{digest}").status_code == 200
    for tail in ("", "/small"):
        assert client.get(f"/photographs/{asked}{tail}").status_code == 404


def test_a_photograph_whose_file_is_gone_is_missing_and_its_log_stands(client: TestClient, workshop: Workshop) -> None:
    digest = put(client, draw_photograph())
    for file in (workshop.folder / "photographs").rglob(f"{digest}*"):
        file.unlink()
    assert client.get(f"/photographs/{digest}").status_code == 404
    assert client.get(f"/photographs/{digest}/small").status_code == 404
    assert client.get("/engine/tern/log").status_code == 200
    assert client.get("/engine/tern/dossier.pdf").status_code == 200


def test_a_link_out_of_the_workshop_is_not_followed(client: TestClient, workshop: Workshop) -> None:
    data = draw_photograph()
    digest = put(client, data)
    outside = workshop.folder.parent / "outside.jpg"
    outside.write_bytes(data)
    kept = workshop.folder / "photographs" / f"{digest}.jpg"
    kept.unlink()
    kept.symlink_to(outside)
    assert client.get(f"/photographs/{digest}").status_code in {403, 404}


def test_only_looking_is_offered(client: TestClient) -> None:
    digest = put(client, draw_photograph())
    for address in (f"/photographs/{digest}", f"/photographs/{digest}/small"):
        assert client.post(address).status_code == 405
        assert client.delete(address).status_code == 405
