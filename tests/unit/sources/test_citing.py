"""The bibliography: every entry can be cited, and says enough to be found."""

from __future__ import annotations

import re

import pytest

from lapwright.sources import SOURCES, Source, UnknownSource, cite
from lapwright.sources.citing import cite_from

BY_KEY = sorted(SOURCES.items())


def test_a_place_in_a_source_is_cited_with_author_title_and_year() -> None:
    assert cite("rohan-1899", "p. 3") == "J. V. Rohan, Young Engineer's Guide, c. 1899, p. 3"
    assert cite("lineham") == "Wilfrid J. Lineham, A Text-Book of Mechanical Engineering"


def test_an_unknown_key_is_named_in_the_error() -> None:
    with pytest.raises(UnknownSource, match="'nowhere-1900'") as caught:
        cite("nowhere-1900")
    assert caught.value.key == "nowhere-1900"


def test_another_shelf_can_be_cited_from() -> None:
    shelf = {"own": Source("own", "A. Wright", "Bench notes")}
    assert cite_from(shelf, "own", "leaf 2") == "A. Wright, Bench notes, leaf 2"
    with pytest.raises(UnknownSource):
        cite_from(shelf, "low-1887")


@pytest.mark.parametrize(("key", "source"), BY_KEY, ids=[key for key, _ in BY_KEY])
def test_an_entry_stands_under_its_own_key_and_can_be_found_by_what_it_says(key: str, source: Source) -> None:
    assert source.key == key
    assert re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", key)
    assert source.author
    assert source.title
    for text in (source.author, source.title, source.year, source.note):
        assert text == text.strip()
        assert not text.endswith(".")


@pytest.mark.parametrize(("key", "source"), BY_KEY, ids=[key for key, _ in BY_KEY])
def test_a_year_in_a_key_is_the_year_of_the_entry(key: str, source: Source) -> None:
    year = re.search(r"-(1[789]\d\d|20\d\d)$", key)
    assert year is None or year[1] in source.year or year[1][2:] in source.year


def test_the_shelf_cannot_be_changed_by_a_caller() -> None:
    with pytest.raises(TypeError):
        SOURCES["own"] = Source("own", "A. Wright", "Bench notes")  # type: ignore[index]


def test_no_work_is_entered_twice() -> None:
    works = [(source.author, source.title) for source in SOURCES.values()]
    assert len(set(works)) == len(works)
