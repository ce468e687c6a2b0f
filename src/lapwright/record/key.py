"""What a key of a record is: how it is read, what it means, how it is written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from lapwright.quantities import read_length
from lapwright.record.words import read_word


@dataclass(frozen=True, slots=True)
class Key:
    """One key: its reader, its meaning in trade words, an example, and the words it may be (empty: any text).

    `count` is how many texts a list has, 0 where the value is a single text; `is_number` says that it may be a plain
    number as well, without quotation marks; `is_plain` that it is a text that need not hold a unit.
    """

    read: Callable[[object], object]
    about: str
    example: str
    words: tuple[str, ...] = ()
    count: int = 0
    is_number: bool = False
    is_plain: bool = False


def length_key(about: str, example: str, *, count: int = 0) -> Key:
    """Return the key of a length.

    Parameters
    ----------
    about: what it is, in trade words
    example: how it is written
    count: how many a list has, 0 for a single one
    """
    return Key(read_length, about, example, count=count)


def word_key(about: str, *words: str) -> Key:
    """Return the key of one of a few words; the first is the example.

    Parameters
    ----------
    about: what it says, in trade words
    words: those that may stand there
    """
    return Key(lambda value: read_word(value, words), about, words[0], words)
