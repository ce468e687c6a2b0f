"""What a sweep varies: a key of the record as people write it, from one figure to another, in so many steps."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from difflib import get_close_matches
from fractions import Fraction

from lapwright.errors import BadInput, CannotVary
from lapwright.quantities import Pressure, Quantity, read_speed
from lapwright.quantities.figure import read_number, show_start
from lapwright.record.contents import ALSO_CALLED
from lapwright.record.key import Key
from lapwright.record.keys import TABLES

#: Where a figure stands in what was read of a record: a table or the number of a cylinder, and the key in it.
Place = tuple[str | int, str]
#: The one thing that is varied and is no key of a record.
SPEED: Place = ("speed", "speed")
#: Most steps of one key.
MOST_STEPS = 10_000_000

_SPEED_KEY = Key(read_speed, "how fast it turns", "600 rpm")
#: Short names for what an engine is run on.
_SHORT = {"pressure": "engine.supply_pressure", "load": "running.load"}
#: Figures of a record that no answer of a sweep depends on.
_IDLE = {"valve_drive.spindle_thread", "valve_drive.spindle_step", "port_face.chest_head", "port_face.chest_crank"}
#: Sizes of packing change nothing in a run.
_GLAND = "gland."
_VARY = re.compile(r"(?P<key>[^=]+)=(?P<first>[^:]+):(?P<last>[^:]+):(?P<steps>[^:]+)")
_IN_NAME = {" ": "", "%": "percent", "/": "_per_", "µ": "u"}


@dataclass(frozen=True, slots=True)
class Varied:
    """One key that is varied, with where it stands in the record; `steps` counts both ends.

    `written` are the numbers of both ends in the unit in which they were given, `behind` is what stands behind them.
    """

    key: str
    places: tuple[Place, ...]
    first: Quantity
    last: Quantity
    steps: int
    written: tuple[Fraction, Fraction]
    behind: str

    @property
    def column(self) -> str:
        """What its column is called: the key, with the unit in which it was given."""
        unit = self.first.unit.lower()
        for mark, word in _IN_NAME.items():
            unit = unit.replace(mark, word)
        absolute = "abs" if isinstance(self.first, Pressure) and self.first.absolute else ""
        return "_".join(part for part in (self.key, unit, absolute) if part)

    @property
    def shown(self) -> str:
        """The range as one would write it."""
        return f"{self.key}={self.first}:{self.last}:{self.steps}"

    def number(self, step: int) -> str:
        """Return the figure at a step, counted from 0, in the unit in which it was given, as text."""
        return f"{float(self._between(step, *self.written)):.10g}"

    def quantity(self, step: int) -> Quantity:
        """Return the figure at a step, counted from 0, as if it had been read from a record."""
        value = self._between(step, self.first.value, self.last.value)
        return replace(self.first, value=value, shown=f"{self.number(step)}{self.behind}")

    def _between(self, step: int, first: Fraction, last: Fraction) -> Fraction:
        return first if self.steps == 1 else first + (last - first) * Fraction(step, self.steps - 1)


def read_varied(text: str, names: tuple[str, ...]) -> Varied:
    """Read what is to be varied.

    Parameters
    ----------
    text: like `valve.length=13 mm:14 mm:50`, `A.valve.length=...` for one cylinder, `pressure=1 bar:4 bar:7`
    names: of the engine's cylinders, in their order

    Raises
    ------
    CannotVary: what is wrong with it, and how to write it instead

    Example:
    >>> varied = read_varied("valve.length = 13 mm : 14 mm : 5", ("A", "B"))
    >>> varied.places, varied.column, varied.number(1)
    (((0, 'valve.length'), (1, 'valve.length')), 'valve.length_mm', '13.25')
    """
    shown = show_start(text, 60)
    found = _VARY.fullmatch(text)
    if found is None:
        raise CannotVary(shown, "it does not say from where to where", 'write it like "valve.length=13 mm:14 mm:50"')
    written = found["key"].strip()
    places, key = _find_places(written, names)
    first, last = (_read_end(written, key, found[end]) for end in ("first", "last"))
    _check_ends(written, first, last)
    steps = _read_steps(written, found["steps"], same=first == last)
    numbers = [_take_number(end) for end in (first, last)]
    behind = first.shown[len(numbers[0]) :]
    return Varied(written, places, first, last, steps, (read_number(numbers[0]), read_number(numbers[1])), behind)


def _read_end(written: str, key: Key, text: str) -> Quantity:
    try:
        read = key.read(text.strip())
    except BadInput as error:
        raise CannotVary(written, error.message, error.instead) from None
    assert isinstance(read, Quantity)
    if read.plus is not None:
        raise CannotVary(written, f"{read} has a tolerance", "write the two ends alone")
    return read


def _check_ends(written: str, first: Quantity, last: Quantity) -> None:
    """Both ends are of one kind and in one unit, so that a step means the same all the way."""
    kinds = [(type(end), end.unit, isinstance(end, Pressure) and end.absolute) for end in (first, last)]
    if kinds[0] != kinds[1]:
        raise CannotVary(written, f"{first} and {last} are not in the same unit", "write both ends in one unit")


def _read_steps(written: str, text: str, *, same: bool) -> int:
    plain = text.strip()
    if not plain.isascii() or not plain.isdigit() or len(plain) > 20:
        raise CannotVary(
            written, f'"{show_start(plain, 20)}" is not a number of steps', "write a whole number, like 50"
        )
    steps = int(plain)
    if steps == 0:
        raise CannotVary(written, "0 steps leave nothing to work out", "write how many figures, both ends included")
    if steps > MOST_STEPS:
        raise CannotVary(written, f"{steps:,} steps are too many", f"keep to {MOST_STEPS:,} at most")
    if steps == 1 and not same:
        raise CannotVary(written, "1 step does not reach from one end to the other", "write 2 or more")
    return steps


def _take_number(quantity: Quantity) -> str:
    """Take the number out of what was written, without unit and `abs`."""
    plain = quantity.shown.removesuffix(" abs")
    return plain[: len(plain) - len(quantity.unit)].rstrip() if quantity.unit else plain


def _find_places(written: str, names: tuple[str, ...]) -> tuple[tuple[Place, ...], Key]:
    """Find where a key stands, or say which is meant."""
    if written == "speed":
        return (SPEED,), _SPEED_KEY
    full = _SHORT.get(written, written)
    table, _, name = full.partition(".")
    if table in ("engine", "running") and name in TABLES[table]:
        return ((table, name),), _want_figure(written, TABLES[table][name])
    own, numbers = _split_cylinder(full, names)
    key = _find_in_cylinder(own)
    if key is not None:
        return tuple((number, own) for number in numbers), _want_figure(
            written, key, idle=own in _IDLE or own.startswith(_GLAND)
        )
    raise CannotVary(show_start(written), *_guess(written, names))


def _split_cylinder(full: str, names: tuple[str, ...]) -> tuple[str, Iterable[int]]:
    """Take the cylinder off a key: `A.valve.length` is cylinder A's, `valve.length` that of them all."""
    plain = full.removeprefix("cylinder.")
    if _find_in_cylinder(plain) is not None:
        return plain, range(len(names))
    for number, name in enumerate(names):
        if plain.startswith(f"{name}."):
            return plain.removeprefix(f"{name}."), (number,)
    return plain, ()


def _find_in_cylinder(own: str) -> Key | None:
    """Find a key below a cylinder: `bore`, `valve.length`, `port_face.edges.2`."""
    table, _, name = f"cylinder.{own}".rpartition(".")
    if not name.isdigit():
        key = TABLES.get(table, {}).get(name)
        return None if key is None or key.count else key
    table, _, listed = table.rpartition(".")
    key = TABLES.get(table, {}).get(listed)
    return None if key is None or int(name) >= key.count else key


def _want_figure(written: str, key: Key, *, idle: bool = False) -> Key:
    """Refuse what changes nothing, and what is a word."""
    if idle:
        raise CannotVary(written, "it changes nothing in how the engine runs", "leave it out")
    if not _is_figure(key):
        raise CannotVary(written, "it is a word, not a figure", "change it in the record, and sweep that")
    return key


def _is_figure(key: Key) -> bool:
    return not key.words and isinstance(key.read(key.example), Quantity)


def _guess(written: str, names: tuple[str, ...]) -> tuple[str, str]:
    """Say why a key is not known, and which is likely meant."""
    known = list_keys()
    cylinder, _, rest = written.partition(".")
    if _find_in_cylinder(rest) is not None:
        return f"the engine has no cylinder {show_start(cylinder)}", f"its cylinders: {', '.join(names)}"
    last = written.rpartition(".")[2].lower()
    meant = ALSO_CALLED.get(last, last)
    same = [key for key in known if key.rpartition(".")[2] == meant]
    near = same or get_close_matches(written[:60].lower(), known, 1) or _guess_last(last[:60], known)
    return "no such key", f"write {near[0]}" if near else "write it like valve.length or running.ring_gap"


def _guess_last(last: str, known: list[str]) -> list[str]:
    by_last = {key.rpartition(".")[2]: key for key in known}
    return [by_last[found] for found in get_close_matches(last, by_last, 1)]


def list_keys() -> list[str]:
    """Return every key that can be varied, as it is written; edges stand once, as the first of them."""
    keys = ["pressure", "speed", "load", "engine.exhaust_pressure"]
    keys += [f"running.{name}" for name, key in TABLES["running"].items() if name != "load" and _is_figure(key)]
    for table, inside in TABLES.items():
        if table.partition(".")[0] == "cylinder" and not table.endswith(_GLAND.rstrip(".")):
            start = table.removeprefix("cylinder").removeprefix(".")
            names = [f"{name}.0" if key.count else name for name, key in inside.items() if _is_figure(key)]
            keys += [f"{start}.{name}" if start else name for name in names]
    return [key for key in keys if key not in _IDLE]
