"""Names of screw threads taken apart: figures, the mark between them, and the words that tell the series."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
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
#: Words for what has the thread, which say nothing of its size.
THINGS: Final = frozenset(
    f"{thing}{ending}"
    for thing in (
        *("bolt", "screw", "stud", "nut", "tap", "die", "hole", "thread", "setscrew", "grubscrew"),
        *("grub", "set", "cap", "head", "hex", "machine", "tapped", "tapping", "plug", "male", "female"),
    )
    for ending in ("", "s")
)
_WHITWORTH = frozenset({"bsw", "whit", "whitworth", "wh", "w"})
_PIPE = frozenset({"g", "bsp", "bspp", "pipe", "gas"})
#: The series that each word leaves possible.
WORDS: Final[Mapping[str, frozenset[str]]] = MappingProxyType(
    {
        **dict.fromkeys(("ba", "association"), frozenset({"BA"})),
        **dict.fromkeys(_WHITWORTH, frozenset({"BSW"})),
        "bsf": frozenset({"BSF"}),
        **dict.fromkeys(("brass", "bsb"), frozenset({"brass"})),
        **dict.fromkeys(("me", "model", "engineer", "engineers"), frozenset({"model"})),
        **dict.fromkeys(_PIPE, frozenset({"BSP"})),
        **dict.fromkeys(("m", "mm", "metric", "iso"), _METRIC),
        "mf": frozenset({"metric fine"}),
        **dict.fromkeys(("unc", "nc"), frozenset({"UNC"})),
        **dict.fromkeys(("unf", "nf"), frozenset({"UNF"})),
        "unified": frozenset({"UNC", "UNF"}),
        "no": frozenset({"BA", "UNC", "UNF"}),
        "coarse": frozenset({"metric coarse", "UNC", "BSW"}),
        "fine": frozenset({"metric fine", "UNF", "BSF"}),
        "british": _BRITISH,
        **dict.fromkeys(("standard", "parallel", "taper", "pitch", "to", "per", "the"), _ALL),
        **dict.fromkeys(THINGS, _ALL),
        **dict.fromkeys(("in", "inch", "ins", "inches", "tpi", "t"), _ALL - _METRIC - {"BA"}),
    }
)
#: Words that can be meant by a misspelt one: those that tell a series.
_TELLING = [word for word, series in WORDS.items() if len(series) < len(_BRITISH)]
#: Words of pipe threads that taper, of those American, and of the parallel one that a taper one seals in (ISO 7-1).
TAPER: Final = frozenset({"bspt", "r", "rc", "npt", "nptf"})
AMERICAN_TAPER: Final = frozenset({"npt", "nptf"})
SEALING: Final = frozenset({"rp"})

_DOTS = re.compile(r"(?<=[a-z])\.(?!\d)|(?<=\bno)\.")
#: How closely a thread is cut, which says nothing about its size: 6H, 6g, 4g6g, 2A.
_GRADE = re.compile(r"(?<=[\da-z])\s*[-\s]\s*(?:[1-3][ab]|(?:[3-9][d-h]){1,2})$")
_TOKEN = re.compile(
    r"""\s*(?:(?P<number>\d+(?:-|\s+)\d+/\d+|\d+/\d+|\d*\.\d+|\d+)|(?P<mark>x(?![a-z])|[-*×])|(?P<word>[a-z]+|["\#]))""",
    re.ASCII | re.VERBOSE,
)
_SIGNS = {'"': "in", "#": "no"}
_UNITS = frozenset({"in", "inch", "ins", "inches", "mm"})
#: Marks that stand for others: brackets for a space, letters and figures as wide as a Chinese sign for narrow ones.
_MARKS = str.maketrans({"(": " ", ")": " ", "’": "'", "№": "no "})
_WIDE = str.maketrans({"\u3000": " ", **{chr(narrow + 0xFEE0): chr(narrow) for narrow in range(0x21, 0x7F)}})
# What few names have is looked for by patterns that are put together when a name may have it.
#: The letter O where a nought is meant: O BA, 1O BA, O-80.
_LETTER_O = r"(?<![a-z])o(?=ba|[^a-z]|$)"
_HAND = r"[\s,-]*(?<![a-z])(?:(?P<left>l\s?h|left(?:[\s-]*hand(?:ed)?)?)|r\s?h|right(?:[\s-]*hand(?:ed)?)?)(?![a-z])"
#: Letters that stand apart: B A, T P I; an x is a mark.
_LETTERS = r"(?<![a-z])[a-wyz](?:\s+[a-wyz](?![a-z]))+"


@dataclass(frozen=True, slots=True)
class Designation:
    """A name taken apart: its size and, where given, its pitch or threads to the inch, as written and as numbers.

    `mark` is what stands between the two: "x", "-", or nothing; `words` are those that tell something, and `series` the
    series that they leave possible. A thread that is not told to be left-handed is right-handed.
    """

    plain: str
    written: str
    size: Fraction
    step: Fraction | None
    mark: str
    words: frozenset[str]
    series: frozenset[str]
    is_left: bool = False

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
    narrow = text.translate(_WIDE) if isinstance(text, str) and not text.isascii() else text
    plain = clean_text(narrow, THREAD)
    tidy, is_left = _tidy(plain)
    tokens = _drop_class(tuple(_split(tidy, plain)))
    words = _join_words(frozenset(value for kind, value in tokens if kind == "word"))
    odd = sorted(words - WORDS.keys() - TAPER - SEALING)
    if odd:
        return _mend(plain, tokens, odd[0])
    numbers = [value for kind, value in tokens if kind == "number"]
    series = _ALL.intersection(*(WORDS.get(word, _ALL) for word in words))
    if len(numbers) not in (1, 2) or not series or not _marks_fit(tokens):
        raise Unreadable(plain, THREAD.noun, THREAD.examples)
    mark = next((value for kind, value in tokens if kind == "mark" and value != "-"), "")
    dash = "-" if any(value == "-" for _, value in tokens) and len(numbers) == 2 else ""
    step = read_number(numbers[1]) if len(numbers) == 2 else None
    telling = frozenset(word for word in words if WORDS.get(word) != _ALL)
    size = read_number(numbers[0])
    return Designation(plain, numbers[0], size, step, "x" if mark else dash, telling, series, is_left)


def _tidy(plain: str) -> tuple[str, bool]:
    """Take out of a name what says nothing of its size: what has the thread, how closely it is cut, and its hand.

    Also make one word of letters that stand apart. Returns the rest, and whether the hand was left.
    """
    text = _DOTS.sub("", _spell_out(plain.lower()))
    if "o" in text:
        text = re.sub(_LETTER_O, "0", text)
    if "," in text:
        text = re.sub(r",(?=\s)", " ", text)
    is_left = False
    if "h" in text or "left" in text:
        is_left = any(found["left"] for found in re.finditer(_HAND, text))
        text = re.sub(_HAND, " ", text)
    if " " in text:
        text = re.sub(_LETTERS, _join_letters, text)
        text = _drop_things(text)
    return _GRADE.sub("", text.strip()), is_left


def _spell_out(text: str) -> str:
    return text.translate(_MARKS).replace("n°", "no ").replace("'s", "s").replace(" by ", " x ")


def _join_letters(letters: re.Match[str]) -> str:
    word = "".join(letters[0].split())
    return word if word in WORDS or word in TAPER or word in SEALING else letters[0]


def _drop_things(text: str) -> str:
    """Leave out at the end what has the thread: 4 BA grub screw."""
    parts = text.split()
    while parts and parts[-1] in THINGS:
        parts.pop()
    return " ".join(parts)


def _drop_class(tokens: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    """Leave out how closely a pipe thread is cut: G1/8 A."""
    if tokens and tokens[-1][1] in ("a", "b") and ("word", "g") in tokens:
        return tokens[:-1]
    return tokens


def _join_words(words: frozenset[str]) -> frozenset[str]:
    """Make one word of two that tell a series together: Whitworth fine is BSF, and BSP taper BSPT."""
    if "fine" in words and words & _WHITWORTH:
        return words - _WHITWORTH - {"fine"} | {"bsf"}
    if "taper" in words and words & _PIPE:
        return words | {"bspt"}
    return words


def _split(text: str, plain: str) -> Iterator[tuple[str, str]]:
    """Yield the numbers, marks and words of a name; refuse any other sign."""
    place = 0
    while place < len(text):
        found = _TOKEN.match(text, place)
        if found is None or found.lastgroup is None:
            if re.search(r"\d,\d", plain):
                raise DecimalComma(plain, _part_at_comma(plain))
            raise Unreadable(plain, THREAD.noun, THREAD.examples)
        value = found[found.lastgroup]
        yield found.lastgroup, _SIGNS.get(value, value)
        place = found.end()


def _part_at_comma(plain: str) -> str:
    """Put an x for the comma between a size and its pitch, both of which can be told; else leave it to be a point."""
    size, _, step = plain.partition(",")
    is_between = ("/" in size or "." in step) and not {"x", ","} & set(f"{size}{step}".lower())
    return f"{size} x {step}" if is_between else ""


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
    # Only a message needs it.
    from difflib import get_close_matches

    near = get_close_matches(odd, _TELLING, 1, 0.5)
    if not near:
        return OddWord(odd, plain, None)
    return OddWord(odd, plain, " ".join(near[0] if value == odd else value for _, value in tokens))
