"""Cards and pages: whole, true, safe from whatever is written in a record, for any engine however little is known."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest
from pypdf import PdfReader

from lapwright.engine.engine import Engine
from lapwright.engine.sizes import NUMBER_KEYS
from lapwright.papers import CardMatter, card_bytes, page_text
from lapwright.papers.lettering import clean_text, clip_text
from lapwright.record.problem import Problem
from tests.unit.papers.matters import NAMES, card_of, examine_demo, with_engine, without

#: Sizes of the sheets in points.
SHEETS = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}
HOSTILE = (
    '#set page(fill: red) $x$ *bold* _it_ @ref <label> "quoted" \\ \\" `raw` // comment',
    "</svg></style><script>alert(1)</script> & ' \"",
    "x" * 10_000,
    "Möwe 🐦 鷗 \u202e backwards",
    "\x00\x07\x1b[31m\ud800",
    "\u202eשחף \u2066طائر #let",
)


def read_text(pdf: bytes) -> str:
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


@pytest.mark.parametrize("paper", SHEETS)
def test_every_sheet_has_the_paper_asked_for(paper: str) -> None:
    reader = PdfReader(io.BytesIO(card_bytes(card_of(examine_demo("tern")), paper=paper)))
    assert len(reader.pages) >= 4
    for page in reader.pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(SHEETS[paper], abs=0.5)


@pytest.mark.parametrize("name", NAMES)
def test_a_card_tells_the_findings_the_steps_and_the_cautions(name: str) -> None:
    visit = examine_demo(name)
    text = re.sub(r"\s+", " ", read_text(card_bytes(card_of(visit))))
    assert visit.engine.name in text
    assert "CAUTION" in text
    assert "Find the dead centres" in text
    for finding in visit.findings:
        assert finding.title in text
    for cure in visit.cures[:1]:
        assert cure.steps[0][:40] in text
        assert "as left" in text
    for cure in visit.part_cures:
        assert cure.title in text
    if not visit.findings and not visit.part_findings:
        assert "Nothing wrong was found" in text


def test_what_is_cut_or_set_stands_beside_what_was_found() -> None:
    text = re.sub(r"\s+", " ", read_text(card_bytes(card_of(examine_demo("tern")))))
    assert "Size as found to set as left" in text
    assert "Valve, over its outer edges 13.64 mm (0.537 in) 12.00 mm (0.472 in)" in text
    assert "Lead, each end alike −0.78 and −0.86 mm 0.00 mm" in text


def test_the_same_matter_gives_the_same_bytes() -> None:
    matter = card_of(examine_demo("merganser"))
    assert card_bytes(matter) == card_bytes(matter)


def test_a_card_needs_no_working_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    matter = card_of(examine_demo("sandpiper"))
    (tmp_path / "gone").mkdir()
    monkeypatch.chdir(tmp_path / "gone")
    (tmp_path / "gone").rmdir()
    assert card_bytes(matter).startswith(b"%PDF")


class Tags(HTMLParser):
    """What a page is made of: tags opened and closed, and every attribute."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[str] = []
        self.words = ""
        self.links: list[tuple[str, str | None]] = []

    def handle_data(self, data: str) -> None:
        self.words += data

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append(tag)
        self.links += [(key, value) for key, value in attrs if key in ("src", "href", "srcset", "data", "action")]
        if tag not in ("meta", "polyline", "polygon"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in ("polyline", "polygon"):
            assert self.open.pop() == tag


def matter_with(words: str) -> CardMatter:
    """The Tern's card with the same words wherever a record's own words can stand."""
    visit = examine_demo("tern")
    sizes = tuple(replace(s, name=words[:30] + str(i)) for i, s in enumerate(visit.engine.cylinders))
    matter = card_of(with_engine(visit, replace(visit.engine, name=words, notes=words, cylinders=sizes)))
    problem = Problem("unreadable", "warning", 3, words, words, words)
    return replace(matter, record_name=words, aim=(words,), problems=(problem,))


@pytest.mark.parametrize("words", HOSTILE, ids=["markup", "html", "long", "letters", "control", "right-to-left"])
def test_nothing_in_a_record_is_read_as_markup(words: str) -> None:
    matter = matter_with(words)
    text = read_text(card_bytes(matter))
    # The typeface of the card has the letters of Europe; others may come out as boxes.
    for latin in re.findall("[!-\u017f]+", clean_text(words)[:25]):
        assert latin in re.sub(r"\s", "", text)
    pages, plain = Tags(), Tags()
    pages.feed(page_text(matter))
    plain.feed(page_text(matter_with("Wren")))
    assert pages.seen == plain.seen
    assert pages.links == []
    assert clip_text(words, 60) in pages.words
    page_text(matter).encode("utf-8")


def test_a_title_of_the_widest_letters_stays_in_its_block() -> None:
    visit = examine_demo("knot")
    matter = card_of(with_engine(visit, replace(visit.engine, name="W" * 10_000)))
    pdf = PdfReader(io.BytesIO(card_bytes(replace(matter, record_name="W" * 10_000 + ".toml"))))
    plain = PdfReader(io.BytesIO(card_bytes(card_of(visit))))
    assert len(pdf.pages) <= len(plain.pages) + 1
    lines = pdf.pages[0].extract_text().splitlines()
    # All but the foot, whose letters are small.
    assert max(line.count("W") for line in lines[:-1]) <= 20


@pytest.mark.parametrize("name", NAMES)
def test_a_page_needs_nothing_else_and_is_well_made(name: str) -> None:
    page = page_text(card_of(examine_demo(name)))
    tags = Tags()
    tags.feed(page)
    tags.close()
    assert tags.open == []
    assert tags.links == []
    addresses = set(re.findall(r"\w+://[^\s\"'<>]+", page))
    assert addresses == {"http" + "://www.w3.org/2000/svg"}
    assert "url(" not in page
    assert "@import" not in page


@pytest.mark.parametrize("key", NUMBER_KEYS)
def test_whatever_size_is_missing_there_is_a_card(key: str) -> None:
    matter = card_of(without(examine_demo("sandpiper"), key))
    assert card_bytes(matter).startswith(b"%PDF")
    assert "NaN" not in page_text(matter)


def test_an_engine_of_which_nothing_is_known_gets_a_card() -> None:
    visit = examine_demo("knot")
    bare = replace(visit.engine.cylinders[0], numbers={}, assumed={}, doubts={})
    matter = card_of(with_engine(visit, Engine(name="Wren", cylinders=(bare,))))
    text = read_text(card_bytes(matter))
    assert "not known" in text
    assert "Nothing wrong was found in what is known" in text


def test_four_cylinders_and_a_single_acting_one() -> None:
    visit = examine_demo("tern")
    first = visit.engine.cylinders[0]
    cylinders = tuple(replace(first, name=name) for name in "ABCD")
    four = card_of(with_engine(visit, replace(visit.engine, cylinders=cylinders)))
    assert "Cylinders A, B, C and D" in read_text(card_bytes(four))
    single = read_text(card_bytes(card_of(without(visit, "piston_rod"))))
    assert "Head end: admission" in single
    assert "Crank end: admission" not in single
