"""The words of the bench stand in one place: no template and no script holds any, and none stands there idle."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.house.reading import TOP

BENCH = TOP / "src" / "lapwright" / "bench"
TEMPLATES = sorted((BENCH / "templates").rglob("*.html"))
SCRIPTS = sorted((BENCH / "static").glob("*.js"))
WORDS = {page.stem: tomllib.loads(page.read_text(encoding="utf-8")) for page in (BENCH / "texts" / "en").glob("*.toml")}
#: What is made by the server is told by it; these are marks, not words.
_JINJA = re.compile(r"\{[{%#].*?[}%#]\}", re.DOTALL)
_SPOKEN = re.compile(r"(?:aria-label|placeholder|title|alt)=\"([^\"]*)\"")
_LETTERS = re.compile(r"[A-Za-z]{2,}")
#: A sentence in a script: two words or more in quotation marks.
_SENTENCE = re.compile(r"""(["'`])(?:[A-Z][a-z]+|[a-z]{2,}) [a-z]{2,}[^"'`]*\1""")


def list_paths(words: object, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """The path of every text."""
    if isinstance(words, dict):
        for name, inner in words.items():
            yield from list_paths(inner, (*path, name))
    else:
        yield path


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.stem)
def test_a_template_holds_no_words_of_its_own(template: Path) -> None:
    plain = _JINJA.sub("", template.read_text(encoding="utf-8"))
    spoken = [words for words in _SPOKEN.findall(plain) if _LETTERS.search(words)]
    left = re.sub(r"<(script|style)\b.*?</\1>|<[^>]*>|&[a-z]+;", " ", plain, flags=re.DOTALL)
    assert spoken == []
    assert _LETTERS.findall(left) == []


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: path.stem)
def test_a_script_holds_no_sentence(script: Path) -> None:
    code = re.sub(r"^\s*//.*$|/\*.*?\*/", "", script.read_text(encoding="utf-8"), flags=re.MULTILINE | re.DOTALL)
    assert [found[0] for found in _SENTENCE.finditer(code) if "use strict" not in found[0]] == []


def test_every_word_that_a_template_asks_for_is_there_and_none_is_idle() -> None:
    sources = [path.read_text(encoding="utf-8") for path in (*TEMPLATES, *(BENCH / "pages").glob("*.py"))]
    everything = "\n".join(sources)
    asked = set(re.findall(r"\bt\.([a-z_]+)\.([a-z_]+)", everything))
    assert {pair for pair in asked if pair[1] not in WORDS.get(pair[0], {})} == set()
    # A word may also be picked by a name that the server works out: t.frame[page], t.log.kinds[entry.kind].
    picked = {page for page, _ in re.findall(r"\bt\.([a-z_]+)(?:\.[a-z_]+)*(\[)", everything)}
    idle = {
        (page, name)
        for page, words in WORDS.items()
        for name in words
        if (page, name) not in asked and page not in picked
    }
    assert idle == set()
