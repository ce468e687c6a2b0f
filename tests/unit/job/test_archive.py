"""An engine that goes out as one file and comes in again, and files that only look like one."""

from __future__ import annotations

import io
import json
import os
import struct
import zipfile
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest
from PIL import Image

from lapwright.errors import BadInput, CannotSave, NotAnArchive, NotAPhotograph, TooLarge
from lapwright.job.shelf import bringing_in
from lapwright.job.shelf.workshop import Workshop, open_workshop
from lapwright.logbook import EntryDraft, Reading
from tests.unit.record.records import TWIN

NOW = datetime(2026, 11, 25, 16, 30)
RECORD = "\ufeff" + TWIN.replace("\n", "\r\n")


@pytest.fixture
def workshop(tmp_path: Path):
    folder = tmp_path / "workshop"
    folder.mkdir()
    (folder / "tern.toml").write_bytes(RECORD.encode())
    opened = open_workshop(folder, clock=lambda: NOW)
    yield opened
    opened.close()


def draw_photograph(colour: str = "red") -> bytes:
    """A small JPEG picture that says where it was taken."""
    image, file = Image.new("RGB", (40, 20), colour), io.BytesIO()
    exif = image.getexif()
    exif[0x010F] = "maker of the camera"
    exif.get_ifd(0x8825)[1] = "N"
    image.save(file, "JPEG", exif=exif)
    return file.getvalue()


def fill_log(workshop: Workshop) -> None:
    log = workshop.log
    found = log.add_entry(
        EntryDraft("tern", "found", "Valve face scored.\n2 lines, ± and ½", datetime(2025, 6, 1, 9, 30), job="open"),
        now=NOW,
    )
    log.add_photograph(found.id, draw_photograph(), name="face.jpg", now=NOW)
    readings = (Reading("speed", "420 rpm"), Reading("pressure", "0.8 bar"))
    run = log.add_entry(EntryDraft("tern", "run", "", readings=readings, parts_used=("oil",), minutes=25), now=NOW)
    log.add_photograph(run.id, draw_photograph(), name="again.jpg", now=NOW)
    log.add_photograph(run.id, draw_photograph("blue"), name="running.jpg", now=NOW)
    log.add_entry(EntryDraft("dunlin", "note", "not hers"), now=NOW)


def tell(workshop: Workshop, engine: str) -> list[object]:
    """What an engine's log says, without the numbers that it has in this log book."""
    return [
        (e.when, e.kind, e.text, e.readings, e.parts_used, e.minutes, e.job, [p.name for p in e.photographs])
        for e in workshop.log.find_entries(engine=engine)
    ]


def pack(members: dict[str, bytes | str], *, way: int = zipfile.ZIP_DEFLATED) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", way) as archive:
        for name, data in members.items():
            archive.writestr(name, data)
    return file.getvalue()


def pack_log(*entries: object, format: object = 1, **members: bytes) -> bytes:
    log = json.dumps({"format": format, "entries": entries})
    return pack({"record.toml": TWIN, "log.json": log, **members})


ENTRY = {
    "when": "2025-06-01T09:30:00", "kind": "note", "text": "seen", "readings": [], "parts_used": [], "minutes": None,
    "job": "", "photographs": [],
}  # fmt: skip


def test_what_goes_out_comes_in_the_same(workshop: Workshop, tmp_path: Path) -> None:
    fill_log(workshop)
    name, data = workshop.export("tern")
    assert name == "tern.zip"
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    other = open_workshop(elsewhere, clock=lambda: NOW)
    assert other.bring_in(name, data) == "tern"
    assert (elsewhere / "tern.toml").read_bytes() == RECORD.encode()
    assert tell(other, "tern") == tell(workshop, "tern") != []
    again = other.bring_in(name, data)
    assert again == "tern-2"
    assert tell(other, again) == tell(workshop, "tern")
    other.close()


def test_an_archive_that_was_unpacked_and_packed_again_comes_in_as_well(workshop: Workshop) -> None:
    fill_log(workshop)
    archive = zipfile.ZipFile(io.BytesIO(workshop.export("tern")[1]))
    members: dict[str, bytes | str] = {f"my engines/tern/{name}": archive.read(name) for name in archive.namelist()}
    again = workshop.bring_in("tern again.zip", pack({**members, "__MACOSX/my engines/tern/._record.toml": b"x"}))
    assert tell(workshop, again) == tell(workshop, "tern")
    with pytest.raises(NotAnArchive, match="no record"):
        workshop.bring_in("two.zip", pack({"tern/record.toml": TWIN, "ruff/record.toml": TWIN}))


def test_an_archive_says_what_is_in_it_and_not_where_a_photograph_was_taken(workshop: Workshop) -> None:
    fill_log(workshop)
    archive = zipfile.ZipFile(io.BytesIO(workshop.export("tern")[1]))
    photographs = [name for name in archive.namelist() if name.startswith("photographs/")]
    assert archive.namelist() == ["record.toml", "log.json", "README.txt", *photographs]
    assert len(photographs) == 2  # one of them belongs to both entries
    for name in photographs:
        image = Image.open(io.BytesIO(archive.read(name)))
        assert dict(image.getexif()) == {}
        assert image.size == (40, 20)
    about = archive.read("README.txt").decode()
    assert "entries: 2\n" in about
    assert "photographs: 2\n" in about


def test_a_photograph_that_is_lost_is_left_out_and_said_so(workshop: Workshop) -> None:
    fill_log(workshop)
    for file in (workshop.folder / "photographs").glob("*.jpg"):
        file.write_bytes(b"")
    archive = zipfile.ZipFile(io.BytesIO(workshop.export("tern")[1]))
    assert "face.jpg\n" in archive.read("README.txt").decode()
    assert json.loads(archive.read("log.json"))["entries"][0]["photographs"] == []


def test_a_long_log_goes_out_whole(workshop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lapwright.job.shelf.archive._PAGE", 4)
    for number in range(9):
        workshop.log.add_entry(EntryDraft("tern", "note", str(number)), now=NOW)
    archive = zipfile.ZipFile(io.BytesIO(workshop.export("tern")[1]))
    told = json.loads(archive.read("log.json"))["entries"]
    assert [entry["text"] for entry in told] == [str(number) for number in range(9)]


@pytest.mark.parametrize(
    ("filename", "text", "engine"),
    [
        ("wren.toml", TWIN, "tern-2"),
        ("C:\\records\\wren.toml", '[engine]\nname = "Wren"\nspeed = 3\n', "wren"),
        ("../../Old wren.toml", "[engine\n", "old-wren"),
        ("wren.txt", '[engine]\nname = "Wren"\n', "wren"),
    ],
)
def test_a_bare_record_comes_in_flawed_or_not(workshop: Workshop, filename: str, text: str, engine: str) -> None:
    assert workshop.bring_in(filename, text.encode()) == engine
    assert workshop.open_engine(engine).text == text
    assert sorted(path.name for path in workshop.folder.parent.iterdir()) == [workshop.folder.name]


@pytest.mark.parametrize(
    ("filename", "data"),
    [
        ("wren.toml", b"name = '\xe9'"),
        ("wren.toml", b""),
        ("wren.txt", b"a letter"),
        ("wren.jpg", draw_photograph()),
        ("wren.zip", b"PK\x03\x04 and no more"),
        ("wren.zip", pack({"README.txt": "nothing else"})),
        ("wren.zip", pack({"record.toml": b"\xff\xfe\x00"})),
        ("wren.zip", pack({"record.toml": TWIN}, way=zipfile.ZIP_LZMA)),
        ("wren.zip", pack({"record.toml": TWIN})[:-30]),
        ("wren.zip", pack({"record.toml": TWIN}).replace(b"PK\x01\x02", b"PK\x01\x03")),
        ("wren.zip", pack({"record.toml": TWIN, "log.json": "{"})),
        ("wren.zip", pack({"record.toml": TWIN, "log.json": "[" * 100_000})),
        ("wren.zip", pack({"record.toml": TWIN, "log.json": "[]"})),
        ("wren.zip", pack_log(format=2)),
        ("wren.zip", pack_log({})),
        ("wren.zip", pack_log(3)),
        ("wren.zip", pack_log({**ENTRY, "text": 3})),
        ("wren.zip", pack_log({**ENTRY, "minutes": True})),
        ("wren.zip", pack_log({**ENTRY, "when": "yesterday"})),
        ("wren.zip", pack_log(ENTRY, {**ENTRY, "kind": "party"})),
        ("wren.zip", pack_log(ENTRY, {**ENTRY, "text": "\0"})),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_bad_file_gives_a_sentence_and_leaves_nothing(workshop: Workshop, filename: str, data: bytes) -> None:
    with pytest.raises(BadInput) as refusal:
        workshop.bring_in(filename, data)
    assert refusal.value.message.isprintable()
    assert refusal.value.instead
    assert [entry.id for entry in workshop.list_shelf()] == ["tern"]
    assert workshop.log.find_entries() == ()


def flip(data: bytes, mark: bytes, *, at: int, value: bytes) -> bytes:
    start = data.index(mark) + at
    return data[:start] + value + data[start + len(value) :]


@pytest.mark.parametrize("data", [b"%PDF-1.7 \xe2\xe3\xcf\xd3", b"\xff\xd8\xff\xe0", b"To whom it may concern"])
def test_what_is_no_text_is_not_asked_to_be_saved_again_as_one(workshop: Workshop, data: bytes) -> None:
    with pytest.raises(NotAnArchive, match=r"neither an archive from a shelf nor an engine record") as refusal:
        workshop.bring_in("drawing.pdf", data)
    assert "UTF-8" not in str(refusal.value)
    with pytest.raises(NotAnArchive, match="not UTF-8") as refusal:
        workshop.bring_in("wren.toml", "[engine]\nname = 'Zaunkönig'".encode("latin-1"))
    assert refusal.value.instead == "save it again as UTF-8"


def test_a_locked_or_lying_archive_is_refused(workshop: Workshop) -> None:
    good = pack({"record.toml": TWIN})
    locked = flip(flip(good, b"PK\x03\x04", at=6, value=b"\1\0"), b"PK\x01\x02", at=8, value=b"\1\0")
    wrong_sum = flip(good, b"PK\x01\x02", at=16, value=b"\0\0\0\0")
    short = flip(good, b"PK\x01\x02", at=24, value=struct.pack("<I", 10))
    for data in (locked, wrong_sum, short):
        with pytest.raises(NotAnArchive):
            workshop.bring_in("wren.zip", data)


@pytest.mark.parametrize(
    "make",
    [
        lambda: pack({"record.toml": b"#" * 1_000_001}),
        lambda: pack({"record.toml": TWIN, "log.json": b" " * 20_000_001}),
        lambda: pack({"record.toml": TWIN} | {f"{number}": "" for number in range(3000)}),
        lambda: b"PK\x03\x04" + b"PK\x01\x02" * 3001,
        lambda: bytes(100_000_001),
    ],
    ids=["a large record", "a large log", "many files", "many entries in the list", "a large archive"],
)
def test_what_would_fill_memory_or_disk_is_refused(workshop: Workshop, make: Callable[[], bytes]) -> None:
    with pytest.raises(TooLarge) as refusal:
        workshop.bring_in("wren.zip", make())
    assert "is larger than" in refusal.value.message


def test_all_that_is_unpacked_counts_together(workshop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    photographs = [{"file": "photographs/a.jpg", "name": "a"}, {"file": "photographs/b.jpg", "name": "b"}]
    picture = draw_photograph()
    members = {"photographs/a.jpg": picture, "photographs/b.jpg": draw_photograph("blue")}
    data = pack_log({**ENTRY, "photographs": photographs}, **members)
    monkeypatch.setattr(bringing_in, "_MOST_UNPACKED", len(TWIN.encode()) + 400 + len(picture))
    with pytest.raises(TooLarge, match=r"photographs/b\.jpg in wren\.zip is larger than"):
        workshop.bring_in("wren.zip", data)
    assert workshop.log.find_entries() == ()


def test_names_inside_an_archive_are_never_places(workshop: Workshop) -> None:
    members: dict[str, bytes] = {
        "../outside.toml": b"x", "/outside.toml": b"x", "photographs/../../outside.jpg": draw_photograph(),
        "dunlin.toml": b"x", "logbook.sqlite": b"x",
    }  # fmt: skip
    pictures = [{"file": "photographs/../../outside.jpg", "name": "../../../outside.jpg"}]
    missing = [{"file": "photographs/none.jpg", "name": "none"}, {"file": "../outside.toml", "name": "x"}]
    data = pack_log({**ENTRY, "photographs": pictures + missing}, **members)
    assert workshop.bring_in("../../outside.zip", data) == "tern-2"
    assert sorted(path.name for path in workshop.folder.parent.iterdir()) == [workshop.folder.name]
    assert [entry.id for entry in workshop.list_shelf()] == ["tern", "tern-2"]
    (entry,) = workshop.log.find_entries(engine="tern-2")
    assert [photograph.name for photograph in entry.photographs] == ["outside.jpg"]
    assert [path.suffix for path in (workshop.folder / "photographs").iterdir() if path.is_file()] == [".jpg"]


def test_a_photograph_that_is_none_brings_in_nothing(workshop: Workshop) -> None:
    picture = {**ENTRY, "photographs": [{"file": "photographs/a.jpg", "name": "a.jpg"}]}
    with pytest.raises(NotAPhotograph):
        workshop.bring_in("wren.zip", pack_log(ENTRY, picture, **{"photographs/a.jpg": b"no picture"}))
    assert workshop.log.find_entries() == ()
    assert [entry.id for entry in workshop.list_shelf()] == ["tern"]


def test_a_record_that_cannot_be_saved_leaves_no_entries(workshop: Workshop) -> None:
    blocked = workshop.folder / f".tern-2.toml.{os.getpid()}.new"
    blocked.mkdir()
    with pytest.raises(CannotSave):
        workshop.bring_in("wren.zip", pack_log(ENTRY))
    assert workshop.log.find_entries() == ()
    blocked.rmdir()
    assert workshop.bring_in("wren.zip", pack_log(ENTRY)) == "tern-2"
