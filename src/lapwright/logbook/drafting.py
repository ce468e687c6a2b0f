"""What a person wrote, checked and tidied before it goes into the log book."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from lapwright.errors import NoName, NotOneOf, OutOfRange, StrayCharacter, TooLarge
from lapwright.logbook.entry import JOBS, KINDS, EntryDraft, Reading
from lapwright.quantities.figure import show_start

if TYPE_CHECKING:
    from collections.abc import Sequence

T = TypeVar("T")

_LONGEST_TEXT = 20_000
_LONGEST_LINE = 200
_MOST_LINES = 200
_MOST_MINUTES = 100_000
#: Control characters, and halves of characters that no file can hold.
_STRAY = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")


def check_draft(draft: EntryDraft) -> EntryDraft:
    """Check a draft and return it tidied: single line ends, no empty readings or parts.

    Raises
    ------
    NotOneOf, NoName, StrayCharacter, TooLarge, OutOfRange
    """
    _check_word(draft.kind, KINDS)
    _check_word(draft.job, JOBS)
    if draft.minutes is not None and not 0 <= draft.minutes <= _MOST_MINUTES:
        raise OutOfRange(str(draft.minutes), "is no time spent", f"write whole minutes from 0 to {_MOST_MINUTES}")
    if not draft.engine.strip():
        raise NoName("the entry names no engine", _LONGEST_LINE)
    readings = tuple(Reading(_tidy_line(r.name), _tidy_line(r.value)) for r in _check_count(draft.readings))
    parts = tuple(_tidy_line(part) for part in _check_count(draft.parts_used))
    return replace(
        draft,
        engine=_tidy_line(draft.engine),
        text=_tidy(draft.text, most=_LONGEST_TEXT).rstrip(),
        readings=tuple(reading for reading in readings if reading.name or reading.value),
        parts_used=tuple(part for part in parts if part),
    )


def tidy_file_name(name: str) -> str:
    r"""Take from the name of a file what can be kept of it: its last part, printable.

    Parameters
    ----------
    name: as it was sent

    Example:
    >>> tidy_file_name("C:\\pictures\\valve face.jpg")
    'valve face.jpg'
    """
    last = re.split(r"[/\\]", name)[-1]
    return "".join(c for c in last if c.isprintable()).strip()[:_LONGEST_LINE] or "photograph"


def _check_word(word: str, words: tuple[str, ...]) -> None:
    if word not in words:
        raise NotOneOf(show_start(word), words)


def _check_count(lines: Sequence[T]) -> Sequence[T]:
    if len(lines) > _MOST_LINES:
        raise TooLarge("the list of readings or parts", f"{_MOST_LINES} lines")
    return lines


def _tidy_line(text: str) -> str:
    return " ".join(_tidy(text, most=_LONGEST_LINE).split())


def _tidy(text: str, *, most: int) -> str:
    tidy = text.replace("\r\n", "\n").replace("\r", "\n")
    stray = _STRAY.search(tidy)
    if stray is not None:
        start = max(0, stray.start() - 15)
        raise StrayCharacter(show_start(" ".join(tidy[start : start + 30].split("\n"))))
    if len(tidy) > most:
        raise TooLarge("the text" if most == _LONGEST_TEXT else f'"{show_start(tidy)}"', f"{most} letters")
    return tidy
