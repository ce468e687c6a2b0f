"""What is understood of a text that is to go into a record, before it goes there."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.errors import BadInput, NotThere
from lapwright.job.measure.own_ways import find_own_ways
from lapwright.papers.measure_terms import split_key
from lapwright.quantities import Angle, Length, Pressure, Quantity, Share, Temperature, Thread
from lapwright.record.key import Key
from lapwright.record.keys import LISTS, TABLES

_BAR, _PSI = 1e5, 6894.757293168361
_ICE = 273.15
#: Below this a length is a gap, and told in thousandths [m].
_SMALL = 5e-5
#: Letters of a text that are read back; a record takes more of notes.
_LONGEST = 2_000


@dataclass(frozen=True, slots=True)
class ReadBack:
    """What a text was understood as, or what is wrong with it.

    `offers` are texts that would be understood and say what the person wrote: none is an example.
    """

    understood: str
    problem: str = ""
    instead: str = ""
    offers: tuple[str, ...] = ()


def find_key(path: str) -> Key:
    """Return what a record knows of a key.

    Parameters
    ----------
    path: its record path, with the number of the cylinder

    Raises
    ------
    NotThere: a record has no such key

    Example:
    >>> find_key("cylinder.0.bore").about
    'inside diameter of the cylinder'
    """
    name, place = split_key(path)
    table, _, last = name.rpartition(".")
    key = TABLES.get(table, {}).get(last)
    if key is None or (place is not None and not place < key.count) or not _is_path(path, table, last):
        raise NotThere(f"key {path[:80]} in a record", "name one as in cylinder.0.valve.length")
    return key


def _is_path(path: str, table: str, last: str) -> bool:
    """Whether a path numbers what there may be several of, and nothing else."""
    wanted, place = list[str](), ""
    for part in table.split(".") if table else ():
        place = f"{place}.{part}".lstrip(".")
        wanted += [part, "#"] if place in LISTS else [part]
    found = ["#" if part.isdigit() else part for part in path.split(".")]
    return found in ([*wanted, last], [*wanted, last, "#"])


def read_back(key: str, text: str) -> ReadBack:
    """Read a text as a key's value and say what was understood, without touching any record.

    Parameters
    ----------
    key: record path, such as `cylinder.0.bore`
    text: what is written; nothing but space says that the size is not known

    Raises
    ------
    NotThere: a record has no such key

    Example:
    >>> read_back("cylinder.0.bore", "3/4 in").understood
    '19.05 mm, 0.750 in'
    >>> read_back("cylinder.0.bore", "5/16 in").understood
    '7.938 mm, 0.3125 in'
    >>> read_back("cylinder.0.bore", "3/4").offers
    ('3/4 in', '3/4 mm')
    >>> read_back("cylinder.0.valve_drive.throw", "3 mm").understood
    '3.00 mm, 0.118 in: valve travel 6.00 mm'
    """
    known = find_key(key)
    plain = text[:_LONGEST]
    if not plain.strip():
        return ReadBack("")
    try:
        value = known.read(1 if known.example == "1" and plain.strip() == "1" else plain)
    except BadInput as error:
        return ReadBack("", error.message, error.instead, find_own_ways(plain, known.read, error.instead))
    return ReadBack(show_value(value) + _tell_travel(key, value))


def _tell_travel(key: str, value: object) -> str:
    """Throw and travel are easily taken for each other: whoever wrote the one reads the other beside it."""
    if not isinstance(value, Length) or not key.endswith(".throw"):
        return ""
    return f": valve travel {_show_scaled(value, 'mm', 0.5e-3)}"


def show_value(value: object) -> str:
    """Show what was read in the units that a bench has: mm and inch, bar and psi, degC and degF.

    Parameters
    ----------
    value: what a key's reader made of its text

    Example:
    >>> from lapwright.quantities import read_length
    >>> show_value(read_length("12.7 ± 0.02 mm"))
    '12.70 ± 0.02 mm, 0.500 ± 0.001 in'
    """
    match value:
        case Length():
            is_gap = 0 < abs(value.si) < _SMALL
            return _show_both(value, *((("µm", 1e-6), ("thou", 2.54e-5)) if is_gap else (("mm", 1e-3), ("in", 0.0254))))
        case Angle():
            return _show_scaled(value, "deg", 3.141592653589793 / 180)
        case Pressure():
            above = " above nothing" if value.absolute else ""
            return _show_both(value, ("bar", _BAR), ("psi", _PSI)) + above
        case Share():
            return _show_scaled(value, "%", 0.01)
        case Thread():
            return f"{value}: {_trim(value.si * 1e3, 3)} mm to a turn"
        case Temperature():
            celsius = value.si - _ICE
            return f"{celsius:.4g} degC, {celsius * 1.8 + 32:.4g} degF"
    return str(value) if isinstance(value, Quantity) else _show_row(value)


def _show_row(value: object) -> str:
    """A word, a count, or a row of a table by its name and, of a thread, its size."""
    if isinstance(value, tuple):
        return ", ".join(map(str, value))
    major, name = getattr(value, "major", None), getattr(value, "name", None)
    if isinstance(major, float) and name is not None:
        return f"{name}: {_trim(major * 1e3, 2)} mm over the crests"
    return str(value if name is None else name)


def _show_both(value: Quantity, *units: tuple[str, float]) -> str:
    return ", ".join(_show_scaled(value, unit, size) for unit, size in units)


def _show_scaled(value: Quantity, unit: str, size: float) -> str:
    """A figure in one unit, with its doubt to as many places."""
    figure, plus, minus = (
        None if part is None else part / size for part in (value.si, value.doubt_plus, value.doubt_minus)
    )
    assert figure is not None
    places = _count_places(figure, unit, given=value.unit)
    shown = f"{figure:.{places}f}"
    if plus is None or minus is None:
        return f"{shown} {unit}"
    # A doubt is never shown as none.
    least = min((part for part in (plus, minus) if part > 0), default=0.0)
    fine = max(places, next((n for n in range(6) if round(least, n) > 0), places))
    if abs(plus - minus) <= 1e-9 * max(plus, minus, 1e-30):
        return f"{shown} ± {plus:.{fine}f} {unit}"
    return f"{shown} +{plus:.{fine}f} -{minus:.{fine}f} {unit}"


def _count_places(figure: float, unit: str, *, given: str) -> int:
    """Decimal places: as a vernier reads, and one more where an inch was given that wants it."""
    usual = {"mm": 2, "µm": 1, "in": 3, "thou": 2, "bar": 2, "psi": 1, "deg": 1, "%": 1}[unit]
    wants_more = unit in ("mm", "in") and given in (unit, "in", "thou")
    return usual + 1 if wants_more and abs(round(figure, usual) - figure) > 1e-6 else usual


def _trim(figure: float, places: int) -> str:
    return f"{figure:.{places}f}".rstrip("0").rstrip(".")
