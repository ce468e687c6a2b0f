"""Better ways to write a text that could not be read: only such as come from that text itself, never an example."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from lapwright.errors import BadInput

#: Letters of a text that is tried; more of them is no size.
_LONGEST, _MOST = 60, 4
_FIGURES = re.compile(r"\d+")
_SUGGESTED = re.compile(r'"([^"]+)"')
#: A letter that stands for a figure: beside a figure or a decimal point, and part of no word.
_UNIT = r"(?=\s*(?:mm|cm|in|thou|µm|um|deg|bar|psi|%|±|\")(?![^\W\d_]))"
_NOUGHT = re.compile(
    rf"(?<![^\W\d_])[oO](?=[.,]?\d)|(?<=\d)[oO]+(?![^\W\d_])|(?<=\d[.,])[oO]+(?![^\W\d_])|^[oO]{_UNIT}"
)
_ONE = re.compile(
    rf"(?<![^\W\d_])[lI|](?=[.,]?\d)|(?<=\d)[lI|](?=[\d.,/])|(?<=\d)[lI|]{_UNIT}|(?<=\d[.,])[lI|](?![^\W\d_])"
)
_ABOUT = re.compile(
    r"(?:(?:about|abt|approximately|approx|appr|around|circa|ca|roughly|nearly|say|measured|is)\b\.?|[~≈≃=:≅])\s*",
    re.IGNORECASE,
)
#: Words behind a size that change nothing of it; any other might.
_BEHIND = re.compile(
    r"[\s,;]*(?:\(?\b(?:or so|about|abt|approx|approximately|roughly|ca|circa|diameter|dia|long|wide|deep|thick|across|"
    r"over all|overall|measured|as measured|each|i think|or thereabouts)\b\.?\)?|[?!;,:.]+)\s*$",
    re.IGNORECASE,
)


def find_own_ways(text: str, read: Callable[[str], object], instead: str = "") -> tuple[str, ...]:
    """Return ways of writing a text that a reader takes and that hold the person's own figures, the likeliest first.

    Parameters
    ----------
    text: what was written, and refused
    read: the reader; it raises BadInput for what it does not take
    instead: what the refusal says to do; of the ways it names, examples are left out

    Example:
    >>> from lapwright.quantities import read_length
    >>> find_own_ways("o.75 in", read_length), find_own_ways("abt 55", read_length)
    (('0.75 in',), ('55 in', '55 mm'))
    >>> find_own_ways("large", read_length, 'write it like "19.05 mm"')
    ()
    """
    ways = list(_list_suggested(text, instead, read))
    for clean in _list_cleaned(text):
        ways += _try(clean, read)
        if ways:
            break
    return tuple(dict.fromkeys(way for way in ways if way != text))[:_MOST]


def _list_suggested(text: str, instead: str, read: Callable[[str], object]) -> Iterator[str]:
    """What a refusal suggests and the reader takes, with the figures of the text and no others."""
    for way in _SUGGESTED.findall(instead):
        if _is_same(way, text) and _is_taken(way, read):
            yield way


def _is_same(way: str, text: str) -> bool:
    """Whether a way of writing is the text itself, written better; of words without figures any will do."""
    figures, (better, own) = _FIGURES.findall(text), (re.sub(r"[\s.,]", "", each).lower() for each in (way, text))
    if _FIGURES.findall(way) != figures:
        return False
    return not figures or better.startswith(own) or sorted(better) == sorted(own)


def _try(clean: str, read: Callable[[str], object]) -> Iterator[str]:
    try:
        read(clean)
    except BadInput as error:
        yield from _list_suggested(clean, error.instead, read)
    else:
        yield clean


def _is_taken(way: str, read: Callable[[str], object]) -> bool:
    try:
        read(way)
    except BadInput:
        return False
    return True


def _list_cleaned(text: str) -> Iterator[str]:
    """The text with slips of the pen mended, and then without the words round it; none that has no figure."""
    if len(text) > _LONGEST:
        return
    mended = _mend_slips(text)
    bare = _strip_words(mended)
    single = re.sub(r"(?<=[a-z])s$", "", bare)
    for clean in dict.fromkeys((mended, bare, _mend_slips(bare), single)):
        if clean != text and any(c.isdigit() for c in clean):
            yield clean


def _mend_slips(text: str) -> str:
    """Letters among figures, doubled points, and spaces inside a number."""
    plain = " ".join(text.split())
    plain = re.sub(r"\.{2,}", ".", plain)
    plain = re.sub(r",{2,}", ",", plain)
    plain = re.sub(r"(?<=\d)\s*([.,])\s+(?=\d)|(?<=\d)\s+([.,])(?=\d)", lambda found: found[1] or found[2], plain)
    plain = re.sub(r"(?<=\d)\s*/\s*(?=\d)", "/", plain)
    plain = re.sub(r"\bm\s+m\b", "mm", plain)
    plain = _NOUGHT.sub(lambda found: "0" * len(found[0]), plain)
    plain = _ONE.sub("1", plain)
    return _NOUGHT.sub(lambda found: "0" * len(found[0]), plain)


def _strip_words(text: str) -> str:
    """A size without the words that only say that it is not exact, or what of."""
    plain = text.strip()
    while (found := _ABOUT.match(plain)) is not None and found.end():
        plain = plain[found.end() :]
    while (shorter := _BEHIND.sub("", plain)) != plain:
        plain = shorter
    return plain
