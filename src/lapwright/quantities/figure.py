"""What people write for a measured figure: number, unit, and how far it may be out."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from lapwright.errors import DecimalComma, NotFinite, NotText, NoUnit, OverZero, StrayCharacter, UnknownUnit, Unreadable

_NUMBER = r"(?:\d+(?:-|\s+)\d+/\d+|\d+/\d+|\d+\.?\d*(?:[eE][+-]?\d{1,3})?|\.\d+(?:[eE][+-]?\d{1,3})?)"
_UNIT = r"(?:[^\W\d_]|[%°\"])(?:[^\d+±/,]*[^\d+±/,\s])?"
_MEASURE = re.compile(
    rf"""(?P<sign>[+-]?)\s*(?P<value>{_NUMBER})\s*(?P<unit>{_UNIT})?\s*
    (?: ±\s*(?P<both>{_NUMBER})
      | \+\s*(?P<plus>{_NUMBER})\s*(?P<plus_unit>{_UNIT})?\s*/?\s*-\s*(?P<minus>{_NUMBER})
      | -\s*(?P<minus_first>{_NUMBER})\s*(?P<minus_unit>{_UNIT})?\s*/?\s*\+\s*(?P<plus_last>{_NUMBER})
    )?\s*(?P<last_unit>{_UNIT})?""",
    re.VERBOSE | re.ASCII,
)
_BARE = re.compile(rf"[+-]?\s*{_NUMBER}", re.ASCII)
_COMMA = re.compile(r"\d,\d", re.ASCII)
_ENDLESS = re.compile(r"[+-]?\s*(?:nan|inf|infinity)\b", re.IGNORECASE)
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
    "+/-": "±",
    "+-": "±",
}
#: Longer than any size anybody writes; keeps a mangled file from costing time.
_LONGEST = 60


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of quantity: its name with the article, its units by every spelling, how to write it."""

    noun: str
    units: Mapping[str, tuple[str, Fraction]]
    examples: tuple[str, ...]
    usual: tuple[str, ...]

    def find_unit(self, written: str) -> tuple[str, Fraction] | None:
        """Return the unit's own spelling and its size in the base unit, or None where it is not known."""
        return self.units.get(written) or self.units.get(written.lower().rstrip("."))

    def names(self) -> tuple[str, ...]:
        """List the units, each in its own spelling, once."""
        return tuple(dict.fromkeys(name for name, _ in self.units.values()))


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as read: exact value and doubts in the base unit, the unit it was given in, and how it is shown."""

    value: Fraction
    plus: Fraction | None
    minus: Fraction | None
    unit: str
    shown: str


def clean_text(text: object, kind: Kind) -> str:
    """Return what was written with its look-alike marks made one, or refuse what is not plain text.

    Raises
    ------
    NotText, StrayCharacter, Unreadable
    """
    if not isinstance(text, str):
        if isinstance(text, int | float) and not isinstance(text, bool):
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


def read_figure(text: object, kind: Kind) -> Figure:
    """Read a number with its unit and, if given, its tolerance.

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead
    """
    plain = clean_text(text, kind)
    found = _MEASURE.fullmatch(plain)
    if found is None:
        raise _explain(plain, kind)
    try:
        return _weigh(found, plain, kind)
    except ZeroDivisionError:
        raise OverZero(plain) from None


def _weigh(found: re.Match[str], plain: str, kind: Kind) -> Figure:
    part = found.groupdict()
    both, last = part["both"], part["last_unit"]
    plus, minus = both or part["plus"] or part["plus_last"], both or part["minus"] or part["minus_first"]
    if plus is None:
        unit = part["unit"] or last
        if unit is None or (part["unit"] and last):
            raise _explain(plain, kind)
        name, factor = _know(unit, plain, kind)
        value = part["sign"] + part["value"]
        return Figure(read_number(value) * factor, None, None, name, f"{tidy_number(value)} {name}")
    first = part["unit"] or last
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
        f"{head} {doubts} {side}",
    )


def _know(unit: str, plain: str, kind: Kind) -> tuple[str, Fraction]:
    known = kind.find_unit(unit)
    if known is None:
        raise UnknownUnit(plain, show_start(unit, 20), kind.names())
    return known


def read_number(text: str) -> Fraction:
    """Read `19.05`, `3/4`, `1 7/8` or `1-7/8`, with or without a sign, exactly.

    Example:
    >>> read_number("1-3/16")
    Fraction(19, 16)
    """
    sign = -1 if text.startswith("-") else 1
    whole, _, part = re.sub(r"[-\s]+", " ", text.lstrip("+- ")).rpartition(" ")
    return sign * ((Fraction(whole) if whole else Fraction(0)) + Fraction(part))


def tidy_number(text: str) -> str:
    """Write a number the usual way: no plus sign, a figure before the point, mixed numbers with a space."""
    sign = "-" if text.startswith("-") else ""
    plain = re.sub(r"(?<=\d)[-\s]+(?=\d+/)", " ", text.lstrip("+- "))
    return f"{sign}0{plain}" if plain.startswith(".") else sign + plain.removesuffix(".")


def _explain(plain: str, kind: Kind) -> Exception:
    """Say why the text is not a figure, as exactly as can be told."""
    if _ENDLESS.match(plain):
        return NotFinite(plain)
    if _COMMA.search(plain):
        return DecimalComma(plain)
    if _BARE.fullmatch(plain):
        return NoUnit(plain, kind.usual)
    start = _BARE.match(plain)
    if start is not None:
        rest = plain[start.end() :].strip()
        if rest and not any(c.isdigit() or c in "±+/" for c in rest) and kind.find_unit(rest) is None:
            return UnknownUnit(plain, show_start(rest, 20), kind.names())
    return Unreadable(plain, kind.noun, kind.examples)
