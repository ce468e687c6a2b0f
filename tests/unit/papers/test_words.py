"""Words on paper: what is written in a record comes out as it was written, or as a blank, and never as markup."""

from __future__ import annotations

import html
import json
import re
import unicodedata
from html.parser import HTMLParser

import pytest
import typst
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.motion.answers import EventTimes
from lapwright.papers.card import quote_drawing, quote_text
from lapwright.papers.drawing import Drawing, Text
from lapwright.papers.lettering import (
    LONGEST_WORD,
    clean_text,
    clip_text,
    join_words,
    show_angle,
    show_event,
    show_length,
    show_number,
    soften_text,
)
from lapwright.papers.svg import svg_text

#: Any code point at all, half a pair included, and the signs that mean something to a typesetter or a browser.
WORDS = st.text(st.characters() | st.sampled_from("#$*_`@\\\"'<>&[]{}/=-~\n\t\x00\ud800\u2028\u202e"), max_size=80)


def ask_typesetter(code: str) -> str:
    """What the typesetter makes of a piece of code that should be one string."""
    told = typst.query(f"#metadata({code}) <it>".encode(), "<it>", field="value", one=True)
    return str(json.loads(told))


@settings(max_examples=60, deadline=None)
@given(words=WORDS)
def test_the_typesetter_reads_back_the_words_and_nothing_else(words: str) -> None:
    assert ask_typesetter(quote_text(words)) == soften_text(words)


def test_the_typesetter_reads_back_a_drawing_to_the_byte() -> None:
    svg = svg_text(Drawing(10.0, 10.0, 'a "b" \\n', (Text((1.0, 1.0), '\\u{41} "x" #y'),)))
    assert ask_typesetter(quote_drawing(svg)) == svg


class Reader(HTMLParser):
    """What a browser makes of a piece of HTML: its words, and how many tags."""

    def __init__(self) -> None:
        super().__init__()
        self.words, self.tags = "", list[str]()

    def handle_data(self, data: str) -> None:
        self.words += data

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)


@given(words=WORDS)
def test_a_picture_says_the_words_and_nothing_else(words: str) -> None:
    reader = Reader()
    reader.feed(svg_text(Drawing(10.0, 10.0, words, (Text((1.0, 1.0), words),))))
    reader.close()
    assert reader.tags == ["svg", "g", "text"]
    assert reader.words.strip("\n") == clean_text(words).strip("\n")


@given(words=WORDS)
def test_cleaned_words_are_one_line_that_any_reader_takes(words: str) -> None:
    plain = clean_text(words)
    assert plain.encode("utf-8").decode("utf-8") == plain
    assert not any(unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") for sign in plain)
    assert not any(unicodedata.bidirectional(sign) in ("RLO", "LRO", "RLE", "LRE", "RLI", "LRI") for sign in plain)
    assert clean_text(plain) == plain
    assert html.unescape(html.escape(plain)) == plain


@given(words=WORDS, longest=st.integers(1, 60))
def test_clipped_words_are_never_longer_and_say_that_they_were_cut(words: str, longest: int) -> None:
    short = clip_text(words, longest)
    assert len(short) <= longest
    assert short == clean_text(words) or short.endswith("…")


@given(words=st.text("ab ", max_size=200))
def test_long_words_can_break_and_are_otherwise_as_they_were(words: str) -> None:
    soft = soften_text(words)
    assert soft.replace("\u200b", "") == words
    assert max(map(len, re.split("[ \u200b]", soft))) <= LONGEST_WORD


@given(value=st.floats(-1e12, 1e12), places=st.integers(0, 3))
def test_a_number_reads_back_within_its_last_place(value: float, places: int) -> None:
    text = show_number(value, places)
    assert "-" not in text
    near = abs(value) * 0.005 if abs(value) >= 1e6 else 0.5 * 10.0**-places
    assert float(text.replace("−", "-")) == pytest.approx(value, abs=near * 1.000001)
    assert not re.fullmatch(r"−[0.]*", text)


@pytest.mark.parametrize(
    ("told", "as_read"),
    [
        (show_length(25.4), "25.40 mm (1.000 in)"),
        (show_length(None), "not known"),
        (show_length(-0.0001, 0.0004), "0.00 ± 0.01 mm (0.000 in)"),
        (show_angle(-0.04), "0.0°"),
        (show_event(EventTimes(None, None)), "not known"),
        (show_event(EventTimes((), ())), "never"),
        (show_event(EventTimes((10.0, 200.5), None), 0.2), "10.0 ± 0.2°, then 200.5 ± 0.2°"),
        (show_event(EventTimes((90.0,), (None,))), "90.0°"),
        (join_words([]), ""),
        (join_words(["A"]), "A"),
        (join_words(["A", "B"]), "A and B"),
    ],
)
def test_figures_read_as_at_the_bench(told: str, as_read: str) -> None:
    assert told == as_read
