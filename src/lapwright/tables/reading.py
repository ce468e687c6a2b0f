"""The tables as printed: comma-separated files kept beside the code, read on first use."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import MappingProxyType

from lapwright.quantities.figure import read_number

#: What a text about a source says of a value that nobody read anywhere.
FROM_MEMORY = "from memory"

#: Freezing of water, exactly [K].
_FREEZING = Fraction("273.15")
_DATA = Path(__file__).parent / "data"


@cache
def read_rows(name: str) -> tuple[Mapping[str, str], ...]:
    """Read a table as printed, one mapping of column to text for each row.

    Parameters
    ----------
    name: of the file, without its ending: `threads_ba`

    Example:
    >>> [row["major_mm"] for row in read_rows("threads_ba")[:3]]
    ['6.00', '5.30', '4.70']
    """
    with (_DATA / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return tuple(MappingProxyType(row) for row in csv.DictReader(lines))


def is_from_memory(source: str) -> bool:
    """Tell whether a source says that a value was recalled and not read.

    Parameters
    ----------
    source: what a row says of where it comes from

    Example:
    >>> is_from_memory("ISO 273:1979"), is_from_memory("table 2; the conductivity is from memory")
    (False, True)
    """
    return FROM_MEMORY in source


class Cited:
    """A row of a table: its `source` says where its figures come from, and whether that is memory."""

    __slots__ = ()
    source: str

    @property
    def from_memory(self) -> bool:
        """Whether something of it was recalled and not read."""
        return is_from_memory(self.source)


def read_si(text: str, unit: str = "1") -> float | None:
    """Read a printed figure in the base unit, or None where nothing is printed.

    Parameters
    ----------
    text: as printed: `4.70`, `9/32`, or empty
    unit: how large one of the printed unit is in the base unit, as exact decimal text [-]

    Example:
    >>> read_si("4.70", "0.001"), read_si("9/32", "0.0254"), read_si("")
    (0.0047, 0.00714375, None)
    """
    return demand_si(text, unit) if text else None


def demand_si(text: str, unit: str = "1") -> float:
    """Read a figure that every row of its table prints, in the base unit.

    Parameters
    ----------
    text: as printed
    unit: how large one of the printed unit is in the base unit, as exact decimal text [-]

    Example:
    >>> demand_si("6.00", "0.001")
    0.006
    """
    (figure, parts), (size, shares) = _split(text), _split(unit)
    # Whole numbers divide to the nearest float, as fractions do, and a table has thousands of figures to read.
    return figure * size / (parts * shares)


def read_range(text: str, unit: str = "1") -> tuple[float, float] | None:
    """Read a printed range, or one figure as a range of its own, in the base unit; None where nothing is printed.

    Parameters
    ----------
    text: as printed: `210-310`, `90`, `415-485 min`, or empty
    unit: how large one of the printed unit is in the base unit, as exact decimal text [-]

    Example:
    >>> read_range("210-310", "1000000"), read_range("90"), read_range("")
    ((210000000.0, 310000000.0), (90.0, 90.0), None)
    """
    if not text:
        return None
    low, _, high = text.removesuffix(" min").partition("-")
    return demand_si(low, unit), demand_si(high or low, unit)


def read_kelvin(text: str) -> float | None:
    """Read a temperature printed in degrees Celsius, in K; None where nothing is printed.

    Parameters
    ----------
    text: as printed: `250`, or empty

    Source: definition

    Example:
    >>> read_kelvin("250"), read_kelvin("")
    (523.15, None)
    """
    return demand_kelvin(text) if text else None


def demand_kelvin(text: str) -> float:
    """Read a temperature in degrees Celsius that every row of its table prints, in K.

    Parameters
    ----------
    text: as printed

    Source: definition

    Example:
    >>> demand_kelvin("183")
    456.15
    """
    return float(read_number(text) + _FREEZING)


@cache
def _split(text: str) -> tuple[int, int]:
    """Take a printed figure apart into a whole number and by what it is divided."""
    whole, point, tenths = text.partition(".")
    if whole.isdecimal() and (tenths.isdecimal() or not point):
        return int(whole + tenths), int(10 ** len(tenths))
    return read_number(text).as_integer_ratio()
