"""One word per thing: the glossary is whole, and what it keeps out stays out of the code."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest

from lapwright.engine.sizes import NUMBER_KEYS
from lapwright.motion.answers import EVENTS
from tests.house.reading import MODULES, NAMES, TOP, Module

ROW = re.compile(r"^\| ([^|]+) \| ([^|]+) \|([^|]*)\|([^|]*)\|$", re.MULTILINE)
TEXT = (TOP / "docs" / "glossary.md").read_text(encoding="utf-8")
ROWS = [[cell.strip() for cell in row] for row in ROW.findall(TEXT) if row[0] != "word"]
TERMS = [row[0] for row in ROWS]
UNUSED = sorted({word.strip() for row in ROWS for word in row[3].split(",") if word.strip()})


def find_words(module: Module) -> Iterator[tuple[int, str]]:
    """The identifiers and docstrings of a module as plain words."""
    for node in ast.walk(module.tree):
        for name in (getattr(node, field, None) for field in ("id", "name", "attr", "arg")):
            if isinstance(name, str):
                yield getattr(node, "lineno", 1), spell(name)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            yield getattr(node, "lineno", 1), spell(ast.get_docstring(node) or "")


def spell(text: str) -> str:
    """Lower case, with spaces for joints, so that steam_lap, SteamLap and steam-lap are the same words."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text)
    return re.sub(r"[\s_-]+", " ", parted).lower()


def find_unused(module: Module) -> list[str]:
    """Where a module uses a word that the glossary keeps out."""
    patterns = {word: re.compile(rf"\b{re.escape(spell(word))}s?\b") for word in UNUSED}
    return [
        f"{module.name}:{line} {word!r}"
        for line, words in find_words(module)
        for word, pattern in patterns.items()
        if pattern.search(words)
    ]


def test_every_term_stands_once_with_a_meaning_and_the_table_can_be_read() -> None:
    lines = [line for line in TEXT.splitlines() if line.startswith("| ") and not line.startswith("| word ")]
    assert len(lines) == len(ROWS), "a row that is not four cells"
    assert len(set(TERMS)) == len(TERMS)
    assert all(row[1] for row in ROWS)


def test_no_term_is_itself_kept_out() -> None:
    assert not set(UNUSED) & set(TERMS)


@pytest.mark.parametrize("module", MODULES, ids=NAMES)
def test_the_code_uses_no_word_that_is_kept_out(module: Module) -> None:
    assert find_unused(module) == []


@pytest.mark.parametrize(
    "text", ["outside_lap = 1", "class ValveRod: ...", 'def cut():\n    """By angular\n    advance."""']
)
def test_a_word_that_is_kept_out_is_noticed(text: str) -> None:
    assert find_unused(Module("lapwright.engine.probe", text))


#: Record keys whose plain words are not a term by themselves, and the term that explains them.
EXPLAINED_BY = {
    "clearance_head": "clearance",
    "clearance_crank": "clearance",
    "clearance_head_share": "clearance volume",
    "clearance_crank_share": "clearance volume",
    "length": "valve length",
    "width": "land",
    "edges": "working edge",
    "chest_head": "steam chest",
    "chest_crank": "steam chest",
    "spindle_thread": "valve spindle",
}


def test_every_size_of_the_record_and_every_event_is_explained() -> None:
    keys = {part for key in NUMBER_KEYS for part in key.split(".")[-1:] if not part.isdigit()}
    keys |= {key.split(".")[-2] for key in NUMBER_KEYS if key[-1].isdigit()}
    terms = {spell(term) for term in TERMS}
    unexplained = {key for key in {*keys, *EVENTS} if spell(EXPLAINED_BY.get(key, key)) not in terms}
    assert unexplained == set()
