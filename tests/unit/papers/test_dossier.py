"""The dossier as PDF: whole, true to the log, safe from whatever is written in it, with photographs in their places."""

from __future__ import annotations

import io
import tempfile
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from lapwright.papers.dossier import dossier_bytes, typst_text
from lapwright.papers.dossier_matter import Chapter, DossierEntry, DossierMatter, Photo, SizeTable
from lapwright.papers.drawing import Drawing, Text
from tests.unit.papers.test_cards import HOSTILE, SHEETS


def draw_photo(width: int, height: int, tone: str = "#59655a") -> Photo:
    file = io.BytesIO()
    Image.new("RGB", (width, height), tone).save(file, "JPEG")
    return Photo(file.getvalue(), width, height)


LYING, STANDING = draw_photo(1200, 900), draw_photo(900, 1200, "#775544")
FOUND = DossierEntry(
    day="2026-02-02",
    hour="10:10",
    text="Face scored.\nNut loose.",
    readings=(("Depth of the score", "0.08 mm"),),
    parts_used=("graphited yarn", "4 studs 7 BA"),
    spent="2 h 10 min",
    photographs=(LYING, STANDING, LYING),
)
OPEN = DossierEntry(day="2026-02-20", hour="09:00", text="Make a drain cock.", job="open")


def matter_with(*chapters: Chapter, words: str = "Tern") -> DossierMatter:
    return DossierMatter(
        name=words,
        record_name="tern.toml",
        record_digest="7ec526debe3c" * 5,
        date="2026-03-20",
        about=(("Driven by", words),),
        notes=words,
        picture=Drawing(150.0, 40.0, words, (Text((10.0, 10.0), "section"),)),
        open_jobs=(("2026-02-20", words),),
        chapters=chapters,
        parts_used=(("2026-02-02", words),),
        spent="2 h 10 min",
        sizes=(SizeTable(words, (("bore", words),)),),
        cautions=("Compressed air stores energy.",),
    )


def read(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


def list_pictures(pdf: bytes) -> list[tuple[int, int]]:
    return [image.image.size for page in PdfReader(io.BytesIO(pdf)).pages for image in page.images if image.image]


@pytest.mark.parametrize("paper", SHEETS)
def test_every_sheet_has_the_paper_asked_for(paper: str) -> None:
    made = dossier_bytes(matter_with(Chapter("What was found", (FOUND,) * 12)), paper=paper)
    pages = PdfReader(io.BytesIO(made)).pages
    assert len(pages) > 3
    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(SHEETS[paper], abs=0.5)


def test_a_dossier_tells_the_log_in_the_order_of_the_work() -> None:
    matter = matter_with(Chapter("What was found", (FOUND,)), Chapter("What was done", (OPEN,)))
    text = read(dossier_bytes(matter))
    told = (
        *("Tern Date 2026-03-20", "Log 2026-02-02 to 2026-02-20", "Entries 2", "Time spent 2 h 10 min", "Open jobs 1"),
        *("What it is", "Driven by Tern", "CAUTION", "Still to be done", "What was found", "10:10 2 h 10 min"),
        *("Face scored. Nut loose.", "Depth of the score 0.08 mm", "Parts graphited yarn, 4 studs 7 BA"),
        *("What was done", "OPEN JOB", "Make a drain cock.", "Parts used", "The sizes as they are now", "bore Tern"),
    )
    places = [text.find(words) for words in told]
    assert -1 not in places, told[places.index(-1)]
    assert places == sorted(places)


def test_photographs_stand_in_their_own_shape_and_are_kept_once() -> None:
    made = dossier_bytes(matter_with(Chapter("What was found", (FOUND, FOUND))))
    assert set(list_pictures(made)) == {(1200, 900), (900, 1200)}
    assert made.count(LYING.data) == 1


def test_a_photograph_is_neither_wider_than_half_the_text_nor_taller_than_a_hand(tmp_path: Path) -> None:
    tall, wide = draw_photo(300, 3000), draw_photo(3000, 300, "#334466")
    entry = DossierEntry(day="2026-02-02", hour="", text="", photographs=(tall, wide))
    text = typst_text(matter_with(Chapter("Notes", (entry,))), tmp_path, paper="a4")
    assert '("1.jpg", 7.00mm), ("2.jpg", 72.00mm)' in text
    assert [(tmp_path / name).read_bytes() for name in ("1.jpg", "2.jpg")] == [tall.data, wide.data]


def test_the_same_matter_gives_the_same_bytes_and_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    matter = matter_with(Chapter("What was found", (FOUND,)))
    assert dossier_bytes(matter) == dossier_bytes(matter)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("words", HOSTILE, ids=range(len(HOSTILE)))
def test_whatever_is_written_in_a_log_stays_words(words: str) -> None:
    entry = DossierEntry(day="2026-02-02", hour="", text=words, readings=((words, words),), parts_used=(words,))
    assert "The sizes as they are now" in read(dossier_bytes(matter_with(Chapter(words, (entry,)), words=words)))


def test_an_engine_of_which_nothing_is_known_has_a_dossier() -> None:
    bare = DossierMatter(name="Wren", record_name="wren.toml", record_digest="0" * 64, date="2026-03-20")
    text = read(dossier_bytes(bare))
    assert "nothing written yet" in text
    assert "What was found" not in text


def test_a_long_entry_goes_on_over_pages_and_loses_nothing() -> None:
    lines = [f"Line {count} of a long day." for count in range(200)]
    readings = tuple((f"place {count}", f"{count} mm") for count in range(60))
    entry = DossierEntry(day="2026-02-02", hour="", text="\n".join(lines), readings=readings, photographs=(LYING,) * 9)
    text = read(dossier_bytes(matter_with(Chapter("What was found", (entry,)))))
    assert all(line in text for line in lines)
    assert all(f"{name} {value}" in text for name, value in readings)
