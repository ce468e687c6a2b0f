"""Names of screw threads taken apart: figures, the mark between them, and the words that tell the series."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from lapwright.errors import DecimalComma, Unreadable
from lapwright.quantities.figure import Kind, clean_text, read_number
from lapwright.tables.threads import SERIES

#: How a thread is spoken of where one cannot be read.
THREAD: Final = Kind(
    noun="a thread",
    units={},
    examples=("4 BA", "1/4 BSW", "1/4 x 40 ME", "M4 x 0.5", "No 5-40 UNC", "G1/8"),
    usual=("BA",),
)
_METRIC = frozenset({"metric coarse", "metric fine"})
_BRITISH = frozenset({"BA", "BSW", "BSF", "brass", "BSP"})
_ALL = frozenset(SERIES)
#: The series that each word leaves possible.
WORDS: Final[Mapping[str, frozenset[str]]] = MappingProxyType(
    {
        **dict.fromkeys(("ba", "association"), frozenset({"BA"})),
        **dict.fromkeys(("bsw", "whit", "whitworth", "wh", "w"), frozenset({"BSW"})),
        "bsf": frozenset({"BSF"}),
        **dict.fromkeys(("brass", "bsb"), frozenset({"brass"})),
        **dict.fromkeys(("me", "model", "engineer"), frozenset({"model"})),
        **dict.fromkeys(("g", "bsp", "bspp", "pipe", "gas"), frozenset({"BSP"})),
        **dict.fromkeys(("m", "mm", "metric", "iso"), _METRIC),
        **dict.fromkeys(("unc", "nc"), frozenset({"UNC"})),
        **dict.fromkeys(("unf", "nf"), frozenset({"UNF"})),
        "unified": frozenset({"UNC", "UNF"}),
        "no": frozenset({"BA", "UNC", "UNF"}),
        "coarse": frozenset({"metric coarse", "UNC", "BSW"}),
        "fine": frozenset({"metric fine", "UNF", "BSF"}),
        "british": _BRITISH,
        **dict.fromkeys(("standard", "parallel", "thread", "threads", "to", "per", "the"), _ALL),
        **dict.fromkeys(("in", "inch", "tpi"), _ALL - _METRIC - {"BA"}),
    }
)
#: Words that can be meant by a misspelt one: those that tell a series.
_TELLING = [word for word, series in WORDS.items() if len(series) < len(_BRITISH)]
#: Words of pipe threads that taper.
TAPER: Final = frozenset({"bspt", "r", "rc", "npt"})

_DOTS = re.compile(r"(?<=[a-z])\.(?!\d)|(?<=\bno)\.")
#: How closely a thread is cut, which says nothing about its size: 6H, 6g, 4g6g, 2A.
_GRADE = re.compile(r"(?<=[\da-z])\s*[-\s]\s*(?:[1-3][ab]|(?:[3-9][d-h]){1,2})$")
_TOKEN = re.compile(
    r"""\s*(?:(?P<number>\d+(?:-|\s+)\d+/\d+|\d+/\d+|\d*\.\d+|\d+)|(?P<mark>x(?![a-z])|[-*×])|(?P<word>[a-z]+|["\#]))""",
    re.ASCII | re.VERBOSE,
)
_SIGNS = {'"': "in", "#": "no"}
_UNITS = frozenset({"in", "inch", "mm"})


@dataclass(frozen=True, slots=True)
class Designation:
    """A name taken apart: its size and, where given, its pitch or threads to the inch, as written and as numbers.

    `mark` is what stands between the two: "x", "-", or nothing; `series` are those that its words leave possible.
    """

    plain: str
    written: str
    size: Fraction
    step: Fraction | None
    mark: str
    words: frozenset[str]
    series: frozenset[str]

    @property
    def is_numbered(self) -> bool:
        """Whether the size can be a number of a series and not a measure: 5 in No 5-40."""
        return self.written.isdigit()

    @property
    def is_decimal(self) -> bool:
        """Whether the size is written with a decimal point, and so perhaps rounded."""
        return "." in self.written


@dataclass(frozen=True, slots=True)
class OddWord:
    """A name with a word that belongs to no series: the word, and the name with the nearest known word instead."""

    word: str
    plain: str
    meant: str | None


def read_designation(text: object) -> Designation | OddWord:
    """Take the name of a thread apart.

    Parameters
    ----------
    text: what was written

    Raises
    ------
    BadInput: it is no text, or nothing like the name of a thread
    ZeroDivisionError: a fraction over nothing

    Example:
    >>> read_designation('1/4" x 40').step, read_designation("7AB").meant
    (Fraction(40, 1), '7 ba')
    """
    plain = clean_text(text, THREAD)
    tokens = tuple(_split(plain))
    words = frozenset(value for kind, value in tokens if kind == "word")
    odd = sorted(words - WORDS.keys() - TAPER)
    if odd:
        return _mend(plain, tokens, odd[0])
    numbers = [value for kind, value in tokens if kind == "number"]
    series = _ALL.intersection(*(WORDS.get(word, _ALL) for word in words))
    if len(numbers) not in (1, 2) or not series or not _marks_fit(tokens):
        raise Unreadable(plain, THREAD.noun, THREAD.examples)
    mark = next((value for kind, value in tokens if kind == "mark" and value != "-"), "")
    dash = "-" if any(value == "-" for _, value in tokens) and len(numbers) == 2 else ""
    step = read_number(numbers[1]) if len(numbers) == 2 else None
    return Designation(plain, numbers[0], read_number(numbers[0]), step, "x" if mark else dash, words, series)


def _split(plain: str) -> Iterator[tuple[str, str]]:
    """Yield the numbers, marks and words of a name; refuse any other sign."""
    text = _GRADE.sub("", _DOTS.sub("", plain.lower().replace("n°", "no ").replace("№", "no ")).strip())
    place = 0
    while place < len(text):
        found = _TOKEN.match(text, place)
        if found is None or found.lastgroup is None:
            if re.search(r"\d,\d", plain):
                raise DecimalComma(plain)
            raise Unreadable(plain, THREAD.noun, THREAD.examples)
        value = found[found.lastgroup]
        yield found.lastgroup, _SIGNS.get(value, value)
        place = found.end()


def _marks_fit(tokens: tuple[tuple[str, str], ...]) -> bool:
    """Whether every mark has a figure somewhere before it and something other than a mark after it.

    So no size is negative; and behind an x, units aside, stands a figure.
    """
    parts = [(kind, value) for kind, value in tokens if value not in _UNITS]
    for place, (kind, value) in enumerate(parts):
        if kind == "mark":
            after = parts[place + 1][0] if place + 1 < len(parts) else ""
            before = any(earlier == "number" for earlier, _ in parts[:place])
            if not before or after not in (("number",) if value != "-" else ("number", "word")):
                return False
    return True


def _mend(plain: str, tokens: tuple[tuple[str, str], ...], odd: str) -> OddWord:
    near = get_close_matches(odd, _TELLING, 1, 0.5)
    if not near:
        return OddWord(odd, plain, None)
    return OddWord(odd, plain, " ".join(near[0] if value == odd else value for _, value in tokens))
