from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta, timezone

import pytest

from lapwright.errors import LapwrightError, LogChanged, NotThere
from lapwright.logbook import EntryDraft, LogSummary, Reading
from tests.unit.logbook.books import NOW, RUN, note, opened

LATER = NOW + timedelta(hours=3)


@pytest.fixture
def book(tmp_path):
    with opened(tmp_path) as book:
        yield book


def told(entry) -> EntryDraft:
    """An entry as the draft it came from."""
    return EntryDraft(**{name: getattr(entry, name) for name in EntryDraft.__slots__})


def test_an_entry_comes_back_as_it_was_written(book) -> None:
    entry = book.add_entry(RUN, now=LATER)
    assert told(entry) == RUN
    assert (entry.id, entry.version, entry.saved, entry.photographs) == (1, 1, LATER, ())
    assert book.find_entry(1) == entry
    assert book.find_entries() == (entry,)


def test_an_entry_without_a_time_is_of_now_to_the_second(book) -> None:
    entry = book.add_entry(EntryDraft("tern", "note", "x"), now=NOW.replace(microsecond=999_999))
    assert entry.when == NOW


def test_the_clock_time_counts_whatever_the_zone(book) -> None:
    zone = timezone(timedelta(hours=5))
    assert book.add_entry(replace(RUN, when=NOW.replace(tzinfo=zone)), now=NOW).when == NOW


@pytest.mark.parametrize("when", [datetime.min, datetime.max.replace(microsecond=0), datetime(1901, 1, 1)])
def test_any_time_a_calendar_knows_can_be_written(book, when) -> None:
    assert book.add_entry(replace(RUN, when=when), now=NOW).when == when
    assert [entry.when for entry in book.find_entries(words="knock")] == [when]


def test_a_change_is_whole_and_counts_up_the_version(book) -> None:
    entry = book.add_entry(RUN, now=NOW)
    changed = book.change_entry(entry.id, note("No knock now.", days=2), seen=1, now=LATER)
    assert told(changed) == note("No knock now.", days=2)
    assert (changed.version, changed.saved) == (2, LATER)
    assert book.find_entry(entry.id) == changed
    assert book.find_entries(words="graphite") == ()
    assert book.find_entries(words="no knock") == (changed,)


def test_a_change_without_a_time_leaves_the_time_alone(book) -> None:
    entry = book.add_entry(RUN, now=NOW)
    assert book.change_entry(entry.id, replace(RUN, when=None), seen=1, now=LATER).when == NOW


def test_an_entry_that_changed_since_it_was_read_is_not_written_over(book) -> None:
    entry = book.add_entry(RUN, now=NOW)
    book.change_entry(entry.id, note("by the tablet"), seen=1, now=NOW)
    with pytest.raises(LogChanged, match="read it again"):
        book.change_entry(entry.id, note("by the laptop"), seen=1, now=NOW)
    with pytest.raises(LogChanged):
        book.remove_entry(entry.id, seen=1)
    assert book.find_entry(entry.id).text == "by the tablet"
    assert book.find_entries(words="laptop") == ()


def test_a_removed_entry_is_gone_and_its_number_is_never_given_again(book) -> None:
    entry = book.add_entry(RUN, now=NOW)
    book.remove_entry(entry.id, seen=1)
    assert book.find_entries() == book.find_entries(words="knock") == ()
    for ask in (
        lambda: book.find_entry(entry.id),
        lambda: book.remove_entry(entry.id, seen=1),
        lambda: book.change_entry(entry.id, RUN, seen=1, now=NOW),
        lambda: book.find_entries(before=entry.id),
    ):
        with pytest.raises(NotThere, match="entry 1 in the log book"):
            ask()
    assert book.add_entry(RUN, now=NOW).id == entry.id + 1


def test_a_draft_is_tidied(book) -> None:
    draft = EntryDraft(
        " tern ",
        "note",
        "one\r\ntwo\rthree \n\n",
        readings=(Reading(" speed\n at 1 bar ", " 300 "), Reading(" ", "")),
        parts_used=("", " grub \t screw "),
    )
    entry = book.add_entry(draft, now=NOW)
    assert (entry.engine, entry.text) == ("tern", "one\ntwo\nthree")
    assert entry.readings == (Reading("speed at 1 bar", "300"),)
    assert entry.parts_used == ("grub screw",)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"kind": "heard"}, '"heard" is not a word for this: write "found" or "done" or "measured" or "run" or "note"'),
        ({"job": "shut"}, '"shut" is not a word for this: write "" or "open" or "closed"'),
        ({"minutes": -1}, '"-1" is no time spent: write whole minutes from 0 to 100000'),
        ({"minutes": 10**9}, '"1000000000" is no time spent: write whole minutes from 0 to 100000'),
        ({"engine": "  "}, "the entry names no engine: write a name of 1 to 200 letters"),
        ({"engine": "x" * 201}, f'"{"x" * 37}..." is larger than 200 letters: send less at once'),
        ({"text": "steam\0"}, '"steam?" holds a character that cannot be printed: write it again by hand'),
        (
            {"text": "half \ud83d of it"},
            '"half ? of it" holds a character that cannot be printed: write it again by hand',
        ),
        ({"text": "x" * 20_001}, "the text is larger than 20000 letters: send less at once"),
        (
            {"readings": (Reading("speed", "\x1b[2J"),)},
            '"?[2J" holds a character that cannot be printed: write it again by hand',
        ),
        ({"parts_used": ("x",) * 201}, "the list of readings or parts is larger than 200 lines: send less at once"),
    ],
)
def test_what_cannot_be_kept_is_refused_in_a_sentence(book, change, sentence) -> None:
    with pytest.raises(LapwrightError) as refusal:
        book.add_entry(replace(RUN, **change), now=NOW)
    assert str(refusal.value) == sentence
    entry = book.add_entry(RUN, now=NOW)
    with pytest.raises(LapwrightError):
        book.change_entry(entry.id, replace(RUN, **change), seen=1, now=NOW)
    assert book.find_entries() == (entry,)


def test_the_newest_come_first_and_a_list_goes_on_where_a_page_ended(book) -> None:
    for days in (3, 1, 2, 2, 0):
        book.add_entry(note(f"day {days}", days=days), now=NOW)
    pages = [book.find_entries(limit=2)]
    while pages[-1]:
        pages.append(book.find_entries(limit=2, before=pages[-1][-1].id))
    assert [[entry.id for entry in page] for page in pages] == [[1, 4], [3, 2], [5], []]


def test_an_engine_s_log_in_short(book) -> None:
    book.add_entry(replace(RUN, text=""), now=NOW)
    book.add_entry(replace(RUN, when=NOW - timedelta(days=1), job="closed"), now=NOW)
    book.add_entry(note("gland packed", days=3), now=NOW)
    book.add_entry(note("to be cleaned", engine="dunlin", job="open"), now=NOW)
    readings = "lowest pressure 0.4 bar, speed 310 rpm at 1 bar"
    assert book.summarise_all() == {"tern": LogSummary(3, 1, readings, NOW), "dunlin": LogSummary(1, 1)}
    assert book.summarise("plover") == LogSummary()
    book.add_entry(replace(RUN, when=LATER), now=NOW)
    assert book.summarise("tern") == LogSummary(4, 2, "Runs on air, a knock at the crank end.", LATER)
