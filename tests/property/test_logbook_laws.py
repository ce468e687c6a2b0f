"""The log book agrees with a plain list of entries, whatever is added, changed, removed and asked."""

from __future__ import annotations

import re
import tempfile
import unicodedata
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import Bundle, RuleBasedStateMachine, consumes, invariant, multiple, rule

from lapwright.errors import LogChanged, StrayCharacter
from lapwright.logbook import KINDS, Entry, EntryDraft, LogSummary, Reading, open_logbook

NOW = datetime(2026, 3, 7, 14, 5, 9)
WORDS = ["valve", "valves", "gland", "packed", "12.7 mm", "3/4", "7BA", "Öl", "a", "crank-end"]
ENGINES = ["tern", "dunlin"]

phrases = st.lists(st.sampled_from(WORDS), max_size=3).map(" ".join)
drafts = st.builds(
    EntryDraft,
    st.sampled_from(ENGINES),
    st.sampled_from(KINDS),
    phrases,
    when=st.integers(0, 3).map(lambda days: NOW + timedelta(days=days)),
    readings=st.lists(st.builds(Reading, st.sampled_from(WORDS), phrases), max_size=2).map(tuple),
    parts_used=st.lists(st.sampled_from(WORDS), max_size=2).map(tuple),
    minutes=st.none() | st.integers(0, 600),
    job=st.sampled_from(["", "open", "closed"]),
)
starts = st.builds(lambda word, letters: word[:letters], st.sampled_from(WORDS), st.integers(1, 9))


def split(text: str) -> list[str]:
    """The words of a text as a search sees them: letters and figures, without accents and capitals."""
    plain = "".join(c for c in unicodedata.normalize("NFD", text.lower()) if not unicodedata.combining(c))
    return re.findall(r"[^\W_]+", plain)


def holds(entry: Entry, typed: str) -> bool:
    """Whether each thing typed stands somewhere in an entry, in one piece, the last word perhaps not to its end."""
    fields = [entry.text, *entry.parts_used, *(f"{reading.name} {reading.value}" for reading in entry.readings)]
    return all(any(_stands_in(split(typed_word), split(field)) for field in fields) for typed_word in typed.split())


def _stands_in(wanted: list[str], words: list[str]) -> bool:
    *whole, start = wanted or [""]
    return any(
        words[i : i + len(whole)] == whole and words[i + len(whole)].startswith(start)
        for i in range(len(words) - len(whole))
    )


class LogBookAgainstList(RuleBasedStateMachine):
    """What the log book answers is what the list answers."""

    entries = Bundle("entries")

    def __init__(self) -> None:
        super().__init__()
        self.made = tempfile.TemporaryDirectory()
        self.book = open_logbook(Path(self.made.name), now=NOW)
        self.list: dict[int, Entry] = {}

    def teardown(self) -> None:
        self.book.close()
        self.made.cleanup()

    def newest_first(self) -> list[Entry]:
        return sorted(self.list.values(), key=lambda entry: (entry.when, entry.id), reverse=True)

    @rule(target=entries, draft=drafts)
    def add(self, draft: EntryDraft) -> int:
        entry = self.book.add_entry(draft, now=NOW)
        assert entry.id not in self.list
        assert all(getattr(entry, name) == getattr(draft, name) for name in EntryDraft.__slots__)
        self.list[entry.id] = entry
        return entry.id

    @rule(number=entries, draft=drafts)
    def change(self, number: int, draft: EntryDraft) -> None:
        seen = self.list[number].version
        changed = self.book.change_entry(number, draft, seen=seen, now=NOW)
        values = {name: getattr(draft, name) for name in EntryDraft.__slots__}
        assert changed == replace(self.list[number], version=seen + 1, **values)
        self.list[number] = changed

    @rule(number=entries, draft=drafts, off=st.sampled_from([-1, 1]))
    def change_what_was_not_seen(self, number: int, draft: EntryDraft, off: int) -> None:
        with pytest.raises(LogChanged):
            self.book.change_entry(number, draft, seen=self.list[number].version + off, now=NOW)

    @rule(target=entries, number=consumes(entries))
    def remove(self, number: int):
        self.book.remove_entry(number, seen=self.list.pop(number).version)
        return multiple()

    @rule(typed=st.lists(starts, max_size=3).map(" ".join), engine=st.none() | st.sampled_from(ENGINES))
    def search(self, typed: str, engine: str | None) -> None:
        found = [entry for entry in self.newest_first() if holds(entry, typed) and engine in {None, entry.engine}]
        assert list(self.book.find_entries(words=typed, engine=engine)) == found

    @rule(kind=st.none() | st.sampled_from(KINDS), open_only=st.booleans(), limit=st.integers(1, 4))
    def leaf_through(self, kind, open_only: bool, limit: int) -> None:
        def wanted(entry: Entry) -> bool:
            return kind in {None, entry.kind} and (entry.job == "open" or not open_only)

        leaves: list[Entry] = []
        while page := self.book.find_entries(
            kind=kind, open_only=open_only, limit=limit, before=leaves[-1].id if leaves else None
        ):
            assert len(page) <= limit
            leaves.extend(page)
        assert leaves == [entry for entry in self.newest_first() if wanted(entry)]

    @rule()
    def close_and_open(self) -> None:
        self.book.close()
        self.book = open_logbook(Path(self.made.name), now=NOW)

    @invariant()
    def the_summaries_are_those_of_the_list(self) -> None:
        summaries = self.book.summarise_all()
        assert summaries.keys() == {entry.engine for entry in self.list.values()}
        for engine, summary in summaries.items():
            own = [entry for entry in self.newest_first() if entry.engine == engine]
            runs = [entry for entry in own if entry.kind == "run"]
            last = runs[0].text if runs and runs[0].text else summary.last_run
            when = runs[0].when if runs else None
            assert summary == LogSummary(len(own), sum(entry.job == "open" for entry in own), last, when)


LogBookAgainstList.TestCase.settings = settings(max_examples=15, stateful_step_count=25)
TestTheLogBook = LogBookAgainstList.TestCase


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    book = open_logbook(tmp_path_factory.mktemp("log"), now=NOW)
    yield book
    book.close()


@given(text=st.text(st.characters(), max_size=40))
def test_any_text_is_kept_as_it_is_or_refused_and_is_found_by_what_it_says(book, text: str) -> None:
    try:
        entry = book.add_entry(EntryDraft("tern", "note", text), now=NOW)
    except StrayCharacter:
        assert any(unicodedata.category(c) in {"Cc", "Cs"} for c in text)
        return
    assert entry.text == text.replace("\r", "\n").rstrip()
    assert book.find_entry(entry.id) == entry
    if text.isascii():
        assert entry in book.find_entries(words=text, limit=10_000)


@given(typed=st.text(max_size=30))
def test_any_search_is_answered(book, typed: str) -> None:
    book.find_entries(words=typed)
