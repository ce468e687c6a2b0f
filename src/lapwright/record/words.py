"""The texts of a record that are not measures: names, notes, and words out of a short list."""

from __future__ import annotations

from lapwright.engine.bench_test import FITTED
from lapwright.engine.engine import PURPOSES
from lapwright.errors import NoName, NotOneOf, NotText, OtherFormat, OutOfRange, StrayCharacter
from lapwright.quantities.figure import show_other, show_start

_LONGEST_NAME = 80
#: More screws alike no small engine has.
_MOST_ALIKE = 99


def _want_text(value: object, example: str) -> str:
    if not isinstance(value, str):
        raise NotText(show_other(value), example)
    return value


def read_word(value: object, words: tuple[str, ...]) -> str:
    """Read one of a few words, whatever its case.

    Parameters
    ----------
    value: what stands in the record
    words: those that may stand there

    Raises
    ------
    NotText, NotOneOf

    Example:
    >>> read_word("Slide", ("slide", "piston"))
    'slide'
    """
    text = _want_text(value, words[0])
    plain = text.strip().lower()
    found = next((word for word in words if word.lower() == plain), None)
    if found is None:
        raise NotOneOf(show_start(text), words)
    return found


def read_purpose(value: object) -> str:
    """Read what an engine is for, by the whole phrase or its first word or words.

    Parameters
    ----------
    value: what stands in the record

    Raises
    ------
    NotText, NotOneOf

    Example:
    >>> read_purpose("Steady")
    'steady stationary running'
    """
    text = _want_text(value, PURPOSES[0])
    given = text.lower().split()
    for purpose in PURPOSES:
        if given and purpose.split()[: len(given)] == given:
            return purpose
    raise NotOneOf(show_start(text), PURPOSES)


def read_fitted(value: object) -> tuple[str, ...]:
    """Read the names of figures that were worked out from bench tests, with commas between.

    Parameters
    ----------
    value: what stands in the record

    Raises
    ------
    NotText, NotOneOf

    Example:
    >>> read_fitted("friction_pressure, Ring_Gap")
    ('friction_pressure', 'ring_gap')
    """
    names = [name.strip().lower() for name in _want_text(value, "friction_pressure, ring_gap").split(",")]
    for name in names:
        if name not in FITTED:
            raise NotOneOf(show_start(name), FITTED)
    return tuple(name for name in FITTED if name in names)


def read_name(value: object) -> str:
    """Read a name: one line, printable, not too long for a title block.

    Raises
    ------
    NotText, NoName, StrayCharacter
    """
    text = _want_text(value, show_start(str(value)) if isinstance(value, int | float) else "Tern").strip()
    if not text:
        raise NoName("the name is empty", _LONGEST_NAME)
    if len(text) > _LONGEST_NAME:
        raise NoName("the name is too long", _LONGEST_NAME)
    if not text.isprintable():
        raise StrayCharacter(show_start(text))
    return text


def read_count(value: object) -> int:
    """Read how many there are of something: a whole number, with quotation marks or without.

    Parameters
    ----------
    value: what stands in the record

    Raises
    ------
    OutOfRange

    Example:
    >>> read_count(6), read_count("6")
    (6, 6)
    """
    shown = show_other(value)
    if not shown.isascii() or not shown.isdigit() or not 1 <= int(shown[:4]) <= _MOST_ALIKE:
        raise OutOfRange(show_start(shown), "is no count", f"write a whole number from 1 to {_MOST_ALIKE}")
    return int(shown)


def read_list_of_names(value: object) -> tuple[str, ...]:
    """Read names with commas between.

    Parameters
    ----------
    value: what stands in the record

    Raises
    ------
    NotText, NoName, StrayCharacter

    Example:
    >>> read_list_of_names("flanges, lagging bands")
    ('flanges', 'lagging bands')
    """
    return tuple(read_name(part) for part in _want_text(value, "flanges, lagging bands").split(",") if part.strip())


def read_notes(value: object) -> str:
    """Read notes: any number of lines, printable.

    Raises
    ------
    NotText, StrayCharacter
    """
    text = _want_text(value, "found seized, freed with oil").replace("\r\n", "\n")
    stray = next((c for c in text if not c.isprintable() and c not in "\n\t\u00a0\u202f\u2009"), None)
    if stray is not None:
        start = max(0, text.index(stray) - 15)
        raise StrayCharacter(show_start(" ".join(text[start : start + 30].split("\n"))))
    return text


def read_format(value: object) -> int:
    """Read the number of the format, which is 1.

    Raises
    ------
    OtherFormat
    """
    if value is True or value != 1:
        raise OtherFormat(show_start(str(value), 20))
    return 1
