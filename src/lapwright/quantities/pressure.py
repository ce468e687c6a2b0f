"""Pressures, gauge unless `abs` is said, kept as exact fractions of a pascal."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, clean_text, read_figure
from lapwright.quantities.length import INCH
from lapwright.quantities.quantity import Quantity

#: The standard atmosphere [Pa], which lies between gauge and absolute (ISO 2533).
ATMOSPHERE = 101_325
#: One pound [kg], and its weight under standard gravity [N]; exact by definition (inch-1959, cgpm-1901).
POUND = Fraction("0.45359237")
POUND_FORCE = POUND * Fraction("9.80665")
_PSI = ("psi", POUND_FORCE / INCH**2)
#: The same as a plain number [Pa].
PSI = float(_PSI[1])
_PA, _KPA, _MPA = ("Pa", Fraction(1)), ("kPa", Fraction(1000)), ("MPa", Fraction(1_000_000))
_BAR, _MBAR = ("bar", Fraction(100_000)), ("mbar", Fraction(100))

PRESSURE = Kind(
    noun="a pressure",
    units={
        "bar": _BAR, "psi": _PSI, "kPa": _KPA, "kpa": _KPA, "MPa": _MPA, "Pa": _PA, "pa": _PA, "mbar": _MBAR,
        "lb per sq in": _PSI,
    },
    examples=("2 bar", "30 psi", "3 bar abs"),
    usual=("bar", "psi"),
)  # fmt: skip
_SUFFIX = r"(?i:(?:(?<=psi)|(?<=[^a-z(])|(?=\())\s*\(?(?P<kind>a|g|abs\.?|absolute|gauge|gage)\)?$)"
#: A thousand bar [Pa]: beyond any engine.
_HIGHEST = 100_000_000


@dataclass(frozen=True, slots=True)
class Pressure(Quantity):
    """A pressure in Pa as given: above the atmosphere, or above nothing if `absolute`."""

    absolute: bool = False

    @property
    def gauge(self) -> float:
        """The pressure above a standard atmosphere [Pa]."""
        return float(self.value - ATMOSPHERE if self.absolute else self.value)


def read_pressure(text: object) -> Pressure:
    """Read a pressure with its unit: gauge, unless it says `abs`.

    Parameters
    ----------
    text: `2 bar`, `30 psi`, `150 kPa`, `3 bar abs`, `45 psia`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Example:
    >>> str(read_pressure("30 PSI")), read_pressure("3 bar abs").gauge
    ('30 psi', 198675.0)
    """
    plain = clean_text(text, PRESSURE)
    suffix = re.search(_SUFFIX, plain)
    absolute = suffix is not None and suffix["kind"].lower().startswith("a")
    read = read_figure(plain[: suffix.start()] if suffix else plain, PRESSURE)
    shown = f"{read.shown} abs" if absolute else read.shown
    if read.value < (0 if absolute else -ATMOSPHERE):
        raise OutOfRange(shown, "is below a perfect vacuum", "write gauge pressure, or absolute with abs behind it")
    if read.value > _HIGHEST or max(read.plus or 0, read.minus or 0) > _HIGHEST:
        raise OutOfRange(shown, "is higher than in any engine")
    return Pressure(read.value, read.plus, read.minus, read.unit, shown, absolute)
