from __future__ import annotations

from contextlib import closing

import pytest

from lapwright.errors import NotOneOf
from lapwright.logbook import EntryDraft, Reading
from lapwright.logbook.connecting import connect_reading
from lapwright.logbook.entry import KINDS
from lapwright.logbook.places import locate_log
from lapwright.logbook.searching import Wanted, build_query
from tests.unit.logbook.books import NOW, RUN, make_picture, note, opened


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    with opened(tmp_path_factory.mktemp("log")) as book:
        book.add_entry(RUN, now=NOW)
        book.add_entry(note("Packed the gland, Öl on the rod.", engine="dunlin", kind="done", job="open"), now=NOW)
        readings = (Reading("valve length", "12.7 mm"), Reading("bore", '3/4"'))
        book.add_entry(EntryDraft("tern", "measured", readings=readings, when=NOW), now=NOW)
        book.add_photograph(3, make_picture(), name="IMG_2031 port face.jpg", now=NOW)
        yield book


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("gland", [2]),
        ("GLAND", [2]),
        ("gla", [2]),
        ("pack rod", [2]),
        ("pack knock", []),
        ("ol", [2]),
        ("graphite", [1]),
        ("4ba", [1]),
        ("3/32", [1]),
        ("12.7", [3]),
        ("12.", [3]),
        ('3/4"', [3]),
        ("valve length 12.7", [3]),
        ("2031", [3]),
        ("port face", [3]),
        ("", [3, 2, 1]),
        ("  - ", [3, 2, 1]),
        ("rotor", []),
    ],
)
def test_words_are_found_in_texts_readings_parts_and_names_of_photographs(book, words, found) -> None:
    assert [entry.id for entry in book.find_entries(words=words)] == found


TYPED = ['"', "'", "gland'--", "gl*", "NEAR(a b)", "text:gland", "a AND", "OR", "NOT gland", "^g", "(", "{", "-x"]
TYPED += ["\0", "\ud800", "½", "☃", "g\0l", '""""', "%_", "a" * 5000, "a " * 5000]


@pytest.mark.parametrize("typed", TYPED)
def test_anything_may_be_typed(book, typed) -> None:
    book.find_entries(words=typed)


def test_words_that_a_search_language_knows_are_words_like_others(book) -> None:
    assert book.find_entries(words="NOT gland") == ()
    assert [entry.id for entry in book.find_entries(words="text:gland")] == []
    assert [entry.id for entry in book.find_entries(words="g*")] == [2, 1]


def test_everything_can_be_asked_for_together(book) -> None:
    def ask(**wanted) -> list[int]:
        return [entry.id for entry in book.find_entries(**wanted)]

    assert ask(engine="tern") == [3, 1]
    assert ask(engine="ter") == []
    assert ask(kind="done") == ask(engine="dunlin", kind="done") == [2]
    assert ask(open_only=True) == [2, 1]
    assert ask(engine="tern", words="b") == [3, 1]
    assert ask(engine="tern", kind="run", words="kno", open_only=True, before=3) == [1]
    assert ask(words="b", before=3) == [1]
    assert ask(limit=1) == [3]
    assert ask(limit=0) == ask(limit=-1) == []
    with pytest.raises(NotOneOf):
        ask(kind="heard")


WANTED = [
    Wanted(engine=engine, words=words, kind=kind, open_only=open_only)
    for engine in (None, "tern")
    for words in ("", "gland")
    for kind in (None, *KINDS[:1])
    for open_only in (False, True)
]


@pytest.mark.parametrize("place", [None, 10**18])
@pytest.mark.parametrize("wanted", WANTED, ids=str)
def test_every_question_walks_along_an_index_and_sorts_nothing(book, wanted, place) -> None:
    sql, values = build_query(wanted, place=place)
    with closing(connect_reading(locate_log(book.folder), fixed=False)) as connection:
        plan = [row[3] for row in connection.execute(f"EXPLAIN QUERY PLAN {sql}", values)]
    assert not any("TEMP B-TREE" in step for step in plan), plan
    first, *others = plan
    if wanted.words:
        assert first.startswith("SCAN entry_words VIRTUAL TABLE INDEX")
        (second,) = others
        assert second.startswith("SEARCH entry USING INDEX")
        assert second.endswith("place=?)")
    else:
        assert "USING INDEX" in first
        assert "engine=?" in first or wanted.engine is None
        assert "kind=?" in first or wanted.kind is None or wanted.open_only
        assert not others


QUESTIONS = [
    "SELECT name FROM reading WHERE entry IN (SELECT value FROM json_each('[1]')) ORDER BY entry, position",
    "SELECT name FROM photograph WHERE digest = 'x' ORDER BY id LIMIT 1",
    "SELECT max(place) FROM entry WHERE engine = 'x' AND kind = 'run'",
    "SELECT count(*) FROM entry WHERE engine = 'x' AND job = 'open'",
    "SELECT engine, count(*) FROM entry GROUP BY engine",
    "SELECT max(number) FROM revision WHERE engine = 'x' AND digest = 'y'",
]


@pytest.mark.parametrize("sql", QUESTIONS)
def test_no_other_question_goes_through_a_whole_table(book, sql) -> None:
    with closing(connect_reading(locate_log(book.folder), fixed=False)) as connection:
        plan = "; ".join(row[3] for row in connection.execute(f"EXPLAIN QUERY PLAN {sql}"))
    assert "USING COVERING INDEX" in plan or "SEARCH" in plan, plan
    assert "TEMP B-TREE" not in plan, plan
