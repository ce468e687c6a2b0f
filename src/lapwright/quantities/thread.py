"""Screw threads by the name on the tap: what one turn moves, and how thick the rod is."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from lapwright.errors import OutOfRange, OverZero, Unreadable
from lapwright.quantities.figure import Kind, clean_text, read_number
from lapwright.quantities.length import INCH

THREAD = Kind(
    noun="a thread",
    units={},
    examples=("7 BA", "1/4 in x 40 tpi", "M3", "M3 x 0.5"),
    usual=("BA",),
)
#: Coarse pitch by nominal diameter, both in mm (ISO 261).
_COARSE = {
    "1": "0.25", "1.2": "0.25", "1.4": "0.3", "1.6": "0.35", "1.8": "0.35", "2": "0.4", "2.2": "0.45", "2.5": "0.45",
    "3": "0.5", "3.5": "0.6", "4": "0.7", "4.5": "0.75", "5": "0.8", "6": "1", "7": "1", "8": "1.25", "10": "1.5",
    "12": "1.75", "14": "2", "16": "2",
}  # fmt: skip
_FINEST_BA = 16
_MM = Fraction(1, 1000)
_BA = r"(?:no\.?|#)?\s*(\d{1,3})\s*-?\s*ba"
_METRIC = r"m\s*(\d{1,3}(?:\.\d{1,3})?)(?:\s*[x×*]\s*(\d{1,2}(?:\.\d{1,4})?|\.\d{1,4})(?:\s*mm)?)?"
_INCH = (
    r"(\d{1,3}(?:-|\s+)\d{1,4}/\d{1,4}|\d{1,4}/\d{1,4}|\d{1,3}\.\d{1,6}|\d{1,2}|\.\d{1,6})"
    r"\s*(?:in\.?|inch|\")?\s*[x×*]\s*(\d{1,3})(?:\s*(?:t\.?p\.?i\.?|me))?"
)
_FLAGS = re.IGNORECASE | re.ASCII


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread: `series` is "BA", "metric" or "inch"; pitch and nominal (major) diameter in m, exact."""

    series: str
    pitch: Fraction
    diameter: Fraction
    shown: str = field(default="", compare=False)

    @property
    def si(self) -> float:
        """What one turn moves: the pitch [m]."""
        return float(self.pitch)

    @property
    def doubt_plus(self) -> None:
        """Always None: a thread is what the tap says."""
        return None

    @property
    def doubt_minus(self) -> None:
        """Always None: a thread is what the tap says."""
        return None

    def __str__(self) -> str:
        return self.shown


def read_thread(text: object) -> Thread:
    """Read the name of a thread.

    Parameters
    ----------
    text: `7BA`, `#4 BA`, `1/4 x 40`, `1/4 in x 40 tpi`, `M3`, `M3 x 0.5`

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Source: bs-93 (BA), iso-261 (metric coarse pitches); an inch thread says its own pitch

    Example:
    >>> str(read_thread("#7ba")), round(read_thread("7BA").si * 1000, 2), read_thread("1/4 x 40").si
    ('7 BA', 0.48, 0.000635)
    """
    plain = clean_text(text, THREAD)
    try:
        if found := re.fullmatch(_BA, plain, _FLAGS):
            return _read_ba(int(found[1]), plain)
        if found := re.fullmatch(_METRIC, plain, _FLAGS):
            return _read_metric(found[1], found[2], plain)
        if found := re.fullmatch(_INCH, plain, _FLAGS):
            return _read_inch(found[1], int(found[2]), plain)
    except ZeroDivisionError:
        raise OverZero(plain) from None
    raise Unreadable(plain, THREAD.noun, THREAD.examples)


def find_ba_sizes(number: int) -> tuple[Fraction, Fraction]:
    """Work out pitch and nominal diameter of a BA thread [mm], rounded as the standard rounds them.

    Parameters
    ----------
    number: 0 to 16

    Source: bs-93 (p = 0.9^n mm to 0.01, d = 6 p^1.2 mm to 0.1, and to 0.01 at 16 BA)

    Example:
    >>> [float(size) for size in find_ba_sizes(4)]
    [0.66, 3.6]
    """
    exact = 0.9**number
    places = 2 if number == _FINEST_BA else 1
    return Fraction(f"{exact:.2f}"), Fraction(f"{6 * exact**1.2:.{places}f}")


def _read_ba(number: int, plain: str) -> Thread:
    if number > _FINEST_BA:
        raise OutOfRange(plain, "is no BA size", "BA sizes run from 0 to 16")
    pitch, diameter = find_ba_sizes(number)
    return Thread("BA", pitch * _MM, diameter * _MM, f"{number} BA")


def _read_metric(size: str, pitch: str | None, plain: str) -> Thread:
    diameter = Fraction(size)
    usual = next((p for d, p in _COARSE.items() if Fraction(d) == diameter), None)
    step = pitch or usual
    if step is None:
        raise OutOfRange(plain, "has no coarse pitch here", f'write the pitch too: "M{size} x 0.5"')
    if not 0 < Fraction(step) < diameter:
        raise OutOfRange(plain, "has a pitch that does not fit its diameter")
    shown = f"M{size} x {step.rjust(len(step) + step.startswith('.'), '0')}" if pitch else f"M{size}"
    return Thread("metric", Fraction(step) * _MM, diameter * _MM, shown)


def _read_inch(size: str, threads: int, plain: str) -> Thread:
    diameter = read_number(size) * INCH
    pitch = INCH / threads
    if not pitch < diameter:
        raise OutOfRange(plain, "has a pitch that does not fit its diameter")
    text = " ".join(re.sub(r"(?<=\d)-", " ", size).split())
    text = f"0{text}" if text.startswith(".") else text
    return Thread("inch", pitch, diameter, f"{text} in x {threads} tpi")
