"""Changes of a record, made on the text as it is now, whatever was read before."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lapwright.errors import BadInput, CannotChange, RecordClash, StrayCharacter, TooLarge
from lapwright.record import KeyChange, OpenedRecord, change_record, drop_key, read_key

#: Letters of one value of a record.
LONGEST_VALUE = 20_000
#: Bytes of a record.
LARGEST = 1_000_000
#: What the history says first of sizes that were written because work was done.
WORK_DONE = "work done"
#: What makes a new text of the record as it is now.
Edit = Callable[[OpenedRecord], str]


@dataclass(frozen=True, slots=True)
class Changed:
    """A record after a change.

    `merged` says that the file had been changed elsewhere since it was read and the change was made on that;
    `others` is what had been changed there. `place` is the record path of a part that was added.
    """

    record: OpenedRecord
    merged: bool = False
    others: tuple[KeyChange, ...] = ()
    place: str = ""


def set_keys(now: OpenedRecord, values: Mapping[str, str | None]) -> str:
    """Return the record's text with keys set, or taken out where their value is None.

    Parameters
    ----------
    now: the record as it is in the file
    values: by record path, as the person wrote them

    Raises
    ------
    CannotChange, TooLarge, StrayCharacter
    """
    check_readable(now)
    new = now.text
    for key, value in values.items():
        new = drop_key(new, key) if value is None else _set_key(new, key, value)
    check_size(new)
    return new


def _set_key(text: str, key: str, value: str) -> str:
    if len(value) > LONGEST_VALUE:
        raise TooLarge(f"what is written for {key}", f"{LONGEST_VALUE} letters")
    check_text(value)
    return change_record(text, {key: value})


def refuse_clash(now: OpenedRecord, key: str, *, seen: str | None, value: str | None) -> None:
    """Refuse to set a key that says something else in the file than what was seen, and than what is wanted.

    An empty text says as little as a key that does not stand there.

    Raises
    ------
    RecordClash: with all three texts
    """
    theirs = read_key(now.text, key)
    if (theirs or "") not in (seen or "", value or ""):
        raise RecordClash(key, base=seen, yours=value, theirs=theirs, digest=now.digest)


def check_readable(now: OpenedRecord) -> None:
    """Refuse to change a file whose bytes are no text: there is no telling what would be lost.

    Raises
    ------
    CannotChange
    """
    if any(problem.code in _NO_TEXT for problem in now.problems):
        problem = now.problems[0]
        raise CannotChange("the record", problem.message, problem.instead)


def check_text(text: str) -> None:
    """Refuse a text that cannot be written as UTF-8.

    Raises
    ------
    StrayCharacter
    """
    try:
        text.encode("utf-8")
    except UnicodeEncodeError as error:
        raise StrayCharacter(text[: error.start][-20:] + "?") from None


def check_size(text: str) -> None:
    """Refuse a record that would be too large to be read again.

    Raises
    ------
    TooLarge, BadInput: nothing stands in it
    """
    if len(text.encode("utf-8")) > LARGEST:
        raise TooLarge("the record", "1 MB")
    if not text.strip("\ufeff \t\r\n"):
        raise BadInput("the record would be empty", "leave the engine's name in it")


_NO_TEXT = {"not-a-file", "too-large", "no-file", "cannot-open", "not-utf-8"}
