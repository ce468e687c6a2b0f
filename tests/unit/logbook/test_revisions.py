from __future__ import annotations

import hashlib
from datetime import datetime

import pytest

from lapwright.logbook import open_logbook
from lapwright.logbook.entry import Steps

NOW = datetime(2026, 3, 7, 14, 5, 9)


def digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


@pytest.fixture
def book(tmp_path):
    book = open_logbook(tmp_path, now=NOW)
    yield book
    book.close()


def keep(book, *texts: str, engine: str = "tern") -> None:
    for text in texts:
        book.keep_revision(engine, text, digest=digest(text), what=f"to {text}", now=NOW)


def undo(book, text: str) -> str | None:
    found = book.undo_revision("tern", digest(text))
    return found and found.text


def redo(book, text: str) -> str | None:
    found = book.redo_revision("tern", digest(text))
    return found and found.text


def test_undo_and_redo_walk_along_the_line_and_stop_at_its_ends(book) -> None:
    keep(book, "a", "b", "c")
    assert (undo(book, "c"), undo(book, "b"), undo(book, "a")) == ("b", "a", None)
    assert (redo(book, "a"), redo(book, "b"), redo(book, "c")) == ("b", "c", None)
    assert [revision.text for revision in book.list_revisions("tern")] == ["c", "b", "a"]


def test_a_change_after_an_undo_cuts_off_what_lay_ahead(book) -> None:
    keep(book, "a", "b", "c")
    undo(book, "c")
    keep(book, "d")
    assert [revision.text for revision in book.list_revisions("tern")] == ["d", "b", "a"]
    assert redo(book, "d") is None
    assert undo(book, "d") == "b"


def test_a_text_the_record_stands_at_is_not_kept_twice(book) -> None:
    keep(book, "a", "a", "b", "b")
    assert [revision.text for revision in book.list_revisions("tern")] == ["b", "a"]


def test_equal_texts_along_the_line_are_told_apart_by_where_the_record_stands(book) -> None:
    keep(book, "a", "b", "a", "b")
    assert (undo(book, "b"), undo(book, "a"), undo(book, "b")) == ("a", "b", "a")
    assert (redo(book, "a"), redo(book, "b")) == ("b", "a")


def test_an_undo_whose_file_was_not_saved_is_found_again_by_the_digest(book) -> None:
    keep(book, "a", "b", "c")
    assert undo(book, "c") == "b"
    # The disk was full: the file still holds c.
    assert undo(book, "c") == "b"
    assert redo(book, "c") is None


def test_from_a_text_edited_by_hand_undo_leads_back_to_the_last_one_kept(book) -> None:
    keep(book, "a", "b")
    assert book.find_steps("tern", digest("by hand")) == Steps(can_undo=True)
    assert undo(book, "by hand") == "b"
    assert redo(book, "by hand") is None
    keep(book, "by hand")
    assert undo(book, "by hand") == "b"
    assert redo(book, "b") == "by hand"


def test_what_undo_and_redo_would_do_is_told_before(book) -> None:
    keep(book, "a", "b", "c")
    undo(book, "c")
    assert book.find_steps("tern", digest("b")) == Steps(True, True, "to b", "to c")
    assert book.find_steps("tern", digest("a")) == Steps(False, True, "", "to b")
    assert book.find_steps("dunlin", digest("a")) == Steps()


def test_engines_have_histories_of_their_own(book) -> None:
    keep(book, "a", "b")
    keep(book, "x", engine="dunlin")
    assert [revision.text for revision in book.list_revisions("dunlin")] == ["x"]
    assert undo(book, "b") == "a"


def test_the_newest_two_hundred_are_kept(book) -> None:
    keep(book, *(str(number) for number in range(205)))
    kept = book.list_revisions("tern", 1000)
    assert len(kept) == 200
    assert (kept[0].text, kept[-1].text) == ("204", "5")
    assert book.list_revisions("tern", 3) == kept[:3]
    assert undo(book, "5") is None


def test_the_history_is_there_after_the_book_was_closed(tmp_path) -> None:
    book = open_logbook(tmp_path, now=NOW)
    keep(book, "a", "b")
    undo(book, "b")
    book.close()
    again = open_logbook(tmp_path, now=NOW)
    assert redo(again, "a") == "b"
    revision = again.list_revisions("tern")[0]
    assert (revision.number, revision.digest, revision.what, revision.when) == (2, digest("b"), "to b", NOW)
    again.close()
