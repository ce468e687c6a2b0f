"""Laws of records that several hands change: nothing but what was meant is touched, and the order does not matter."""

from __future__ import annotations

import re

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from lapwright.errors import CannotChange
from lapwright.record import (
    add_place,
    blank_record,
    change_record,
    compare_records,
    drop_key,
    merge_records,
    remove_place,
)
from lapwright.record.comparing import read_written
from tests.property.test_record_laws import EDITABLE
from tests.unit.record.records import HALF_KNOWN, PARTED, TESTED

BASES = [TESTED, TESTED.replace("\n", "\r\n"), "\ufeff" + PARTED, PARTED.rstrip(), HALF_KNOWN, blank_record("Tern")]
COMMENT = re.compile(r"#[^\n]*")
bases = st.sampled_from(BASES)
values = st.none() | st.sampled_from(["14 mm", '3/4"', "it's 1\" ± \\", "8 %", ""]) | st.text(max_size=8)
edits = st.dictionaries(st.sampled_from(EDITABLE), values, max_size=4)


def is_cut_from(less: str, more: str) -> bool:
    """Whether a text is another with one piece cut out."""
    same = next((at for at, (a, b) in enumerate(zip(less, more, strict=False)) if a != b), len(less))
    return more.endswith(less[same:]) and len(less) <= len(more)


def edit(text: str, changes: dict[str, str | None]) -> str:
    """Make what changes can be made."""
    for key, value in changes.items():
        try:
            text = drop_key(text, key) if value is None else change_record(text, {key: value})
        except CannotChange:
            continue
    return text


@given(bases, st.data())
def test_a_key_taken_out_and_put_back_changes_no_other_byte(text: str, data: st.DataObject) -> None:
    written = read_written(text)
    key = data.draw(st.sampled_from([key for key in written if "edges" not in key and key != "format"]))
    without = drop_key(text, key)
    assert key not in read_written(without)
    assert is_cut_from(without, text)
    assert COMMENT.findall(without) == COMMENT.findall(text)
    assert drop_key(without, key) == without
    again = change_record(without, {key: written[key]})
    assert is_cut_from(without, again) or not without.endswith("\n")
    assert compare_records(text, again) == ()


@settings(max_examples=30)
@given(bases, edits)
def test_a_record_differs_from_itself_in_nothing_and_two_ways_round_in_the_same(
    text: str, changes: dict[str, str | None]
) -> None:
    other = edit(text, changes)
    assert compare_records(text, text) == () == compare_records(other, other)
    there, back = compare_records(text, other), compare_records(other, text)
    assert {(c.key, c.before, c.after) for c in there} == {(c.key, c.after, c.before) for c in back}
    assert {change.key for change in there} <= set(changes)


@settings(max_examples=30)
@given(bases, edits, edits)
def test_merging_changes_of_different_keys_commutes_and_has_both(
    base: str, mine: dict[str, str | None], others: dict[str, str | None]
) -> None:
    others = {key: value for key, value in others.items() if key not in mine}
    one, two = edit(base, mine), edit(base, others)
    # A list of edges and the widths that say the same are one thing under two names.
    assume(not any("edges" in change.key for text in (one, two) for change in compare_records(base, text)))
    merged, reverse = merge_records(base, one, two), merge_records(base, two, one)
    assert merged.clashes == reverse.clashes == ()
    assert compare_records(merged.text, reverse.text) == ()
    wanted = {change.key: change.after for text in (one, two) for change in compare_records(base, text)}
    assert {change.key: change.after for change in compare_records(base, merged.text)} == wanted


@settings(max_examples=30)
@given(bases, edits, edits)
def test_a_merge_keeps_their_text_but_for_your_keys_and_tells_every_clash(
    base: str, mine: dict[str, str | None], others: dict[str, str | None]
) -> None:
    one, two = edit(base, mine), edit(base, others)
    assert merge_records(base, base, two).text == two
    assert merge_records(base, one, one).text == one
    merged = merge_records(base, one, two)
    yours, theirs = ({c.key: c.after for c in compare_records(base, text)} for text in (one, two))
    clashing = {key for key in yours.keys() & theirs.keys() if yours[key] != theirs[key]}
    assert {clash.key for clash in merged.clashes} == clashing
    now, then = read_written(merged.text), read_written(two)
    assert all(now.get(key) == then.get(key) for key in clashing)


@given(bases, st.sampled_from(["cylinder", "cylinder.0.gland", "fastener", "pin", "bench_test"]))
def test_a_part_put_in_and_taken_out_again_leaves_the_text_as_it_was(text: str, name: str) -> None:
    longer, place = add_place(text, name)
    assert compare_records(text, longer) == ()
    if longer != text:
        assert is_cut_from(text, longer)
        assert remove_place(longer, place) in (text, text + "\n")
