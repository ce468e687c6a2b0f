"""Pressures, gauge unless `abs` is said, kept as exact fractions of a pascal."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from lapwright.errors import OutOfRange
from lapwright.quantities.figure import Kind, clean_text, read_figure

#: The standard atmosphere [Pa], which lies between gauge and absolute (ISO 2533).
ATMOSPHERE = 101_325
#: One pound-force [N] on a square inch [m2]: 0.45359237 kg, 9.80665 m/s2, 0.0254 m, all exact by definition.
_PSI = ("psi", Fraction("0.45359237") * Fraction("9.80665") / Fraction("0.0254") ** 2)
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
_SUFFIX = re.compile(
    r"(?:(?<=psi)|(?<=[^a-z(])|(?=\())\s*\(?(?P<kind>a|g|abs\.?|absolute|gauge|gage)\)?$", re.IGNORECASE
)
#: A thousand bar [Pa]: beyond any engine.
_HIGHEST = 100_000_000


@dataclass(frozen=True, slots=True)
class Pressure:
    """A pressure in Pa, exact, as given: above the atmosphere, or above nothing if `absolute`."""

    pascals: Fraction
    plus: Fraction | None = None
    minus: Fraction | None = None
    absolute: bool = False
    unit: str = field(default="kPa", compare=False)
    shown: str = field(default="", compare=False)

    @property
    def si(self) -> float:
        """The pressure as given, gauge or absolute [Pa]."""
        return float(self.pascals)

    @property
    def gauge(self) -> float:
        """The pressure above a standard atmosphere [Pa]."""
        return float(self.pascals - ATMOSPHERE if self.absolute else self.pascals)

    @property
    def doubt_plus(self) -> float | None:
        """How much higher it may be [Pa]; None where no tolerance was given."""
        return None if self.plus is None else float(self.plus)

    @property
    def doubt_minus(self) -> float | None:
        """How much lower it may be [Pa]; None where no tolerance was given."""
        return None if self.minus is None else float(self.minus)

    def __str__(self) -> str:
        return self.shown


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
    suffix = _SUFFIX.search(plain)
    absolute = suffix is not None and suffix["kind"].lower().startswith("a")
    read = read_figure(plain[: suffix.start()] if suffix else plain, PRESSURE)
    shown = f"{read.shown} abs" if absolute else read.shown
    if read.value < (0 if absolute else -ATMOSPHERE):
        raise OutOfRange(shown, "is below a perfect vacuum", "write gauge pressure, or absolute with abs behind it")
    if read.value > _HIGHEST or max(read.plus or 0, read.minus or 0) > _HIGHEST:
        raise OutOfRange(shown, "is higher than in any engine")
    return Pressure(read.value, read.plus, read.minus, absolute, read.unit, shown)
