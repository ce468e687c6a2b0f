"""What people write for a measured figure: number, unit, and how far it may be out."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from lapwright.errors import (
    BadInput,
    DecimalComma,
    NotFinite,
    NotText,
    NoUnit,
    OverZero,
    StrayCharacter,
    UnknownUnit,
    Unreadable,
)

_NUMBER = r"(?:\d+(?:-|\s+)\d+/\d+|\d+/\d+|\d+\.?\d*(?:[eE][+-]?\d{1,3})?|\.\d+(?:[eE][+-]?\d{1,3})?)"
#: A unit starts with a letter or a sign; a power stands right behind a letter, a stroke between two units.
_IN_UNIT = r"(?:[^\d+±/,]|(?<=[a-zA-Z^])[23]|/(?=\s*[a-zA-Z]))"
_UNIT = rf"[a-zA-Zµ%°\"](?:{_IN_UNIT}*(?:[^\d+±/,\s]|(?<=[a-zA-Z^])[23]))?"
# Patterns are put together where they are first used, which a quick look-up may never do.
_BARE = rf"(?a:[+-]?\s*{_NUMBER})"
#: What stands between the whole and the fraction of a mixed number.
_BEFORE_PART = r"(?<=\d)[-\s]+(?=\d+/)"
_COMMA = r"(?a:\d,\d)"
_ENDLESS = r"(?i:[+-]?\s*(?:nan|inf|infinity)\b)"
_SAME = {
    "−": "-",
    "–": "-",
    "″": '"',
    "”": '"',
    "“": '"',
    "''": '"',
    "′′": '"',
    "⁄": "/",
    "º": "°",
    "μ": "µ",
    "⋅": "·",
    "℃": "°C",
    "℉": "°F",
    "+/-": "±",
    "+-": "±",
}
#: Longer than any size anybody writes; keeps a mangled file from costing time.
_LONGEST = 60


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of quantity: its name with the article, its units by every spelling, how to write it.

    A kind that may stand without a unit has one that is spelled as nothing. In a `joined` kind the parts of a unit may
    stand apart, together, or with a mark between them.
    """

    noun: str
    units: Mapping[str, tuple[str, Fraction]]
    examples: tuple[str, ...]
    usual: tuple[str, ...]
    joined: bool = False

    def find_unit(self, written: str) -> tuple[str, Fraction] | None:
        """Return the unit's own spelling and its size in the base unit, or None where it is not known."""
        ways = (
            (_join_unit(written), _join_unit(written.lower()))
            if self.joined
            else (written, written.lower().rstrip("."))
        )
        return next((self.units[way] for way in ways if way in self.units), None)

    @property
    def may_be_bare(self) -> bool:
        """Whether a figure of this kind may be a plain number."""
        return "" in self.units

    def names(self) -> tuple[str, ...]:
        """List the units, each in its own spelling, once."""
        return tuple(dict.fromkeys(name for name, _ in self.units.values()))


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as read: exact value and doubts in the base unit, the units they were given in, how it is shown."""

    value: Fraction
    plus: Fraction | None
    minus: Fraction | None
    unit: str
    shown: str
    doubt_unit: str = ""


def spell_unit(name: str, size: Fraction, *others: str) -> dict[str, tuple[str, Fraction]]:
    """Put a product, a power or a quotient of units under the names it goes by, for a kind that is `joined`.

    Parameters
    ----------
    name: its own spelling, with a space for times and a figure for a power
    size: how large it is in the base unit of its kind [-]
    others: other names for it, in small letters unless the capital matters

    Example:
    >>> list(spell_unit("kg m2", Fraction(1), "kilogram metre squared"))
    ['kgm2', 'kilogrammetresquared']
    """
    return {_join_unit(written): (name, size) for written in (name, *others)}


def _join_unit(written: str) -> str:
    """Write `N.m`, `N-m`, `N m` and `kg m²` in one way each."""
    plain = re.sub(r"\s+per\s+", "/", written.replace("²", "2").replace("³", "3"))
    return re.sub(r"[\s.·*^-]", "", plain)


def clean_text(text: object, kind: Kind) -> str:
    """Return what was written with its look-alike marks made one, or refuse what is not plain text.

    Raises
    ------
    NotText, StrayCharacter, Unreadable
    """
    if not isinstance(text, str):
        if isinstance(text, int | float) and not isinstance(text, bool):
            if kind.may_be_bare and text - text == 0:
                return show_start(str(text), _LONGEST)
            raise NotFinite(str(text)) if text - text != 0 else NoUnit(show_start(str(text)), kind.usual)
        raise NotText(show_other(text), kind.examples[0])
    if len(text) > _LONGEST:
        raise Unreadable(show_start(text), kind.noun, kind.examples)
    if not text.isprintable() and any(not c.isprintable() and c not in "\t\u00a0\u202f\u2009" for c in text):
        raise StrayCharacter(show_start(text))
    plain = " ".join(_open_up(text).split())
    for old, new in _SAME.items():
        plain = plain.replace(old, new)
    return plain


def _open_up(text: str) -> str:
    """Write ½ and its like as 1/2, with a space before."""
    if text.isascii():
        return text
    parts = ((c, unicodedata.normalize("NFKC", c)) for c in text)
    return "".join(f" {flat}" if "⁄" in flat and c != "⁄" else c for c, flat in parts)


def show_other(value: object) -> str:
    """Show a value that is no text, as it is written in a record."""
    return str(value).lower() if isinstance(value, bool) else show_start(str(value))


def show_start(text: str, most: int = 40) -> str:
    """Show what was written, cut short, with everything unprintable as ?."""
    plain = "".join(c if c.isprintable() else "?" for c in text[: most + 1])
    return plain if len(plain) <= most else plain[: most - 3] + "..."


@cache
def _find_measure() -> re.Pattern[str]:
    """Put the pattern together when a figure is first read: it takes longer than all else of a quick look-up."""
    return re.compile(
        rf"""(?P<sign>[+-]?)\s*(?P<value>{_NUMBER})\s*(?P<unit>{_UNIT})?\s*
        (?: ±\s*(?P<both>{_NUMBER})
          | \+\s*(?P<plus>{_NUMBER})\s*(?P<plus_unit>{_UNIT})?\s*/?\s*-\s*(?P<minus>{_NUMBER})
          | -\s*(?P<minus_first>{_NUMBER})\s*(?P<minus_unit>{_UNIT})?\s*/?\s*\+\s*(?P<plus_last>{_NUMBER})
        )?\s*(?P<last_unit>{_UNIT})?""",
        re.VERBOSE | re.ASCII,
    )


def read_figure(text: object, kind: Kind) -> Figure:
    """Read a number with its unit and, if given, its tolerance.

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead
    """
    plain = clean_text(text, kind)
    found = _find_measure().fullmatch(plain)
    if found is None:
        raise _explain(plain, kind)
    try:
        return _weigh(found, plain, kind)
    except ZeroDivisionError:
        raise OverZero(plain) from None


def _weigh(found: re.Match[str], plain: str, kind: Kind) -> Figure:
    part = found.groupdict()
    bare = "" if kind.may_be_bare else None
    both, last = part["both"], part["last_unit"]
    plus, minus = both or part["plus"] or part["plus_last"], both or part["minus"] or part["minus_first"]
    if plus is None:
        unit = part["unit"] or last or bare
        if unit is None or (part["unit"] and last):
            raise _explain(plain, kind)
        name, factor = _know(unit, plain, kind)
        value = part["sign"] + part["value"]
        return Figure(read_number(value) * factor, None, None, name, f"{tidy_number(value)} {name}".rstrip())
    first = part["unit"] or last or bare
    if first is None:
        raise NoUnit(plain, kind.usual)
    name, factor = _know(first, plain, kind)
    side, side_factor = _know(last or first, plain, kind)
    between = part["plus_unit"] or part["minus_unit"]
    if between is not None and _know(between, plain, kind)[0] != side:
        raise Unreadable(plain, kind.noun, kind.examples)
    value = part["sign"] + part["value"]
    doubts = f"± {tidy_number(both)}" if both else f"+{tidy_number(plus)} -{tidy_number(minus or '')}"
    head = tidy_number(value) if side == name else f"{tidy_number(value)} {name}"
    return Figure(
        read_number(value) * factor,
        read_number(plus) * side_factor,
        read_number(minus or "") * side_factor,
        name,
        f"{head} {doubts} {side}".rstrip(),
        side,
    )


def read_either(text: object, kinds: tuple[Kind, Kind], *, noun: str) -> tuple[Kind, Figure]:
    """Read a figure that may be of one kind or of another; its unit says which.

    Parameters
    ----------
    text: what was written
    kinds: the two, which have no unit in common
    noun: what the figure is, whichever way it is given, with the article

    Raises
    ------
    BadInput: one of its kinds, saying how to write it either way
    """
    first, second = kinds
    examples = (first.examples[0], second.examples[0])
    whole = Kind(noun, {**first.units, **second.units}, examples, (first.usual[0], second.usual[0]), first.joined)
    read = read_figure(text, whole)
    kind = first if read.unit in first.names() else second
    if read.doubt_unit and read.doubt_unit not in kind.names():
        raise Unreadable(read.shown, noun, examples)
    return kind, read


def _know(unit: str, plain: str, kind: Kind) -> tuple[str, Fraction]:
    known = kind.find_unit(unit)
    if known is None:
        raise _refuse_unit(unit, plain, kind)
    return known


def _refuse_unit(unit: str, plain: str, kind: Kind) -> Exception:
    if kind.may_be_bare:
        return Unreadable(plain, kind.noun, kind.examples)
    return UnknownUnit(plain, show_start(unit, 20), kind.names())


def read_number(text: str) -> Fraction:
    """Read `19.05`, `3/4`, `1 7/8` or `1-7/8`, with or without a sign, exactly.

    Example:
    >>> read_number("1-3/16")
    Fraction(19, 16)
    """
    sign = -1 if text.startswith("-") else 1
    whole, _, part = re.sub(_BEFORE_PART, " ", text.lstrip("+- ")).rpartition(" ")
    return sign * ((Fraction(whole) if whole else Fraction(0)) + Fraction(part))


def tidy_number(text: str) -> str:
    """Write a number the usual way: no plus sign, a figure before the point, mixed numbers with a space."""
    sign = "-" if text.startswith("-") else ""
    plain = re.sub(_BEFORE_PART, " ", text.lstrip("+- "))
    return f"{sign}0{plain}" if plain.startswith(".") else sign + plain.removesuffix(".")


def _explain(plain: str, kind: Kind) -> Exception:
    """Say why the text is not a figure, as exactly as can be told."""
    if re.match(_ENDLESS, plain):
        return NotFinite(plain)
    if re.search(_COMMA, plain):
        return DecimalComma(plain, _mend_comma(plain, kind))
    if re.fullmatch(_BARE, plain):
        return NoUnit(plain, kind.usual)
    start = re.match(_BARE, plain)
    if start is not None:
        rest = plain[start.end() :].strip()
        if rest and not any(c.isdigit() or c in "±+/" for c in rest) and kind.find_unit(rest) is None:
            return _refuse_unit(rest, plain, kind)
    return Unreadable(plain, kind.noun, kind.examples)


def _mend_comma(plain: str, kind: Kind) -> str:
    """Write a figure with a point; one that is wrong in another way too has its number kept, with a usual unit."""
    better = plain.replace(",", "" if "." in plain else ".")
    try:
        read_figure(better, kind)
    except BadInput:
        number = re.match(_BARE, better)
        return kind.examples[0] if number is None else " ".join((number[0], *kind.usual[-1:]))
    return better
