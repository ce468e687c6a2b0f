"""What an entry of the bibliography says, and how a place in it is cited."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


class UnknownSource(LookupError):
    """A key that stands in no entry of the bibliography: a mistake of ours, not of the reader's."""

    def __init__(self, key: str) -> None:
        super().__init__(f"no source is kept under the key {key!r}")
        self.key = key


@dataclass(frozen=True, slots=True)
class Source:
    """One book, standard or paper: who wrote it, what it is called, and when it came out.

    `year` is text, since old books say "c. 1864"; it is empty where the printing does not tell. `note` warns of the
    copy that was read, or of what the source itself gets wrong; it is empty where there is nothing to warn of.
    """

    key: str
    author: str
    title: str
    year: str = ""
    note: str = ""

    def __str__(self) -> str:
        """Write the entry as it stands under a table or a figure."""
        return ", ".join(part for part in (self.author, self.title, self.year) if part)


def cite_from(shelf: Mapping[str, Source], key: str, locator: str = "") -> str:
    """Write out a source of the given shelf, with the page, table or equation in it.

    Raises
    ------
    UnknownSource: the shelf has no such key
    """
    source = shelf.get(key)
    if source is None:
        raise UnknownSource(key)
    return f"{source}, {locator}" if locator else str(source)


def cite(key: str, locator: str = "") -> str:
    """Write out a source of the bibliography, with the page, table or equation in it.

    Parameters
    ----------
    key: one of `SOURCES`
    locator: page, table, section or equation; may be left out

    Raises
    ------
    UnknownSource: there is no such key

    Example:
    >>> cite("low-1887", "fig. 58")
    'D. A. Low, An Introduction to Machine Drawing and Design, 1887, fig. 58'
    """
    from lapwright.sources.shelf import SOURCES

    return cite_from(SOURCES, key, locator)
