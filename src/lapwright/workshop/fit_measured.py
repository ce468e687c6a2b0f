"""A hole and its pin as measured: the size they were made to, what each is still inside of, and which is worn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Final

from lapwright.quantities import show_mm
from lapwright.workshop.clearances import AT_LIMIT, WORN
from lapwright.workshop.fits import BANDS, find_fit

#: Sizes that things are made to, the usual ones first: steps in mm, and in inches.
_MM_STEPS: Final = tuple((Fraction(step), "mm") for step in ("1", "0.5"))
_INCH_STEPS: Final = tuple((Fraction(1, parts), "in") for parts in (16, 32, 64))
_TENTHS: Final = (Fraction(1, 10), "mm")
_METRES: Final = {"mm": Fraction(1, 1000), "in": Fraction("0.0254")}
#: A micrometer may read so much over or under [m]; a pressed pin lies so much over its size, and its hole too.
_READING, _PRESSED = 5e-6, 25e-6
#: What is shown to a thousandth of a mm is inside its limits to half of that [m].
_SHOWN = 0.5e-6
_HOLES: Final = {"H7": "H7/f7", "H8": "H8/f7"}
_PINS: Final = {"h6": "H7/h6", "g6": "H7/g6", "f7": "H7/f7", "p6": "H7/p6"}
SOURCE: Final = "Which of the two is worn, from the limits that each has left: common practice, no source."


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredPair:
    """A hole and a pin as measured [m], the names of the limits that each is inside of, and how each stands."""

    hole: float
    pin: float
    hole_inside: tuple[str, ...]
    pin_inside: tuple[str, ...]
    hole_sentence: str
    pin_sentence: str

    @property
    def clearance(self) -> float:
        """Hole less pin [m]; negative where the pin is the larger."""
        return self.hole - self.pin


def name_nominal(hole: float, pin: float, *, in_inches: bool = False) -> str | None:
    """Name the size that a hole and a pin were most likely made to, like "4 mm" or "1/8 in"; None where none is usual.

    A hole is made on its size or over it and wears larger, a running pin is made under it and wears smaller: the size
    lies between the two.

    Parameters
    ----------
    hole, pin: as measured [m]
    in_inches: whether they were measured in inches, so that fractions of an inch are the usual sizes

    Source: common practice, no source

    Example:
    >>> name_nominal(4.02e-3, 3.98e-3), name_nominal(3.18e-3, 3.16e-3)
    ('4 mm', '1/8 in')
    """
    low = pin - _READING if pin <= hole else hole - _PRESSED
    steps = (*_INCH_STEPS, *_MM_STEPS, _TENTHS) if in_inches else (*_MM_STEPS, *_INCH_STEPS[:2], _TENTHS)
    for step, unit in (*steps, _INCH_STEPS[2]):
        length = float(step * _METRES[unit])
        counts = range(max(1, ceil(low / length)), floor(min(hole + _READING, BANDS[-1][1]) / length) + 1)
        if counts:
            nearest = min(counts, key=lambda count: abs(count * length - (hole + pin) / 2))
            return _name(nearest * step, unit)
    return None


def _name(size: Fraction, unit: str) -> str:
    if unit == "mm":
        return f"{float(size):g} mm"
    whole, rest = divmod(size, 1)
    return f"{' '.join(str(part) for part in (whole, rest) if part)} in"


def judge_pair(hole: float, pin: float, *, size: float) -> MeasuredPair:
    """Tell which limits a hole and a pin are still inside of.

    Parameters
    ----------
    hole, pin: as measured [m]
    size: the nominal size that they were made to [m], more than 0 and up to 30 mm

    Raises
    ------
    NotInTable, OutOfRange: as `lapwright.workshop.fits.find_fit`

    Source: iso-286 (part 2: limits)

    Example:
    >>> pair = judge_pair(4.02e-3, 3.98e-3, size=4e-3)
    >>> pair.hole_inside, pair.pin_inside
    ((), ('f7',))
    """
    holes = {name: find_fit(size, fit).hole for name, fit in _HOLES.items()}
    pins = {name: find_fit(size, fit).shaft for name, fit in _PINS.items()}
    hole_inside, pin_inside = (_list_inside(hole, holes), _list_inside(pin, pins))
    return MeasuredPair(
        hole=hole,
        pin=pin,
        hole_inside=hole_inside,
        pin_inside=pin_inside,
        hole_sentence=_say_hole(hole, holes, hole_inside),
        pin_sentence=_say_pin(pin, pins, pin_inside),
    )


def _list_inside(found: float, limits: dict[str, tuple[float, float]]) -> tuple[str, ...]:
    return tuple(name for name, (low, high) in limits.items() if low - _SHOWN <= found <= high + _SHOWN)


def _say_hole(hole: float, limits: dict[str, tuple[float, float]], inside: tuple[str, ...]) -> str:
    if "H7" in inside:
        return f"inside {_show('H7', limits)}"
    if inside:
        return f"over {_show('H7', limits)}, still inside {_show('H8', limits)}"
    low, high = limits["H8"]
    if hole > high:
        return f"{show_mm(hole - high, 3)} over {_show('H8', limits)}"
    return f"{show_mm(low - hole, 3)} under {_show('H7', limits)}"


def _say_pin(pin: float, limits: dict[str, tuple[float, float]], inside: tuple[str, ...]) -> str:
    if inside:
        return f"inside {' and '.join(_show(name, limits) for name in inside)}"
    low = limits["f7"][0]
    if pin < low:
        return f"{show_mm(low - pin, 3)} under {_show('f7', limits)}"
    return f"over {_show('h6', limits)}, not inside {_show('p6', limits)}"


def _show(name: str, limits: dict[str, tuple[float, float]]) -> str:
    low, high = limits[name]
    return f"{name} ({show_mm(low, 3).removesuffix(' mm')} to {show_mm(high, 3)})"


def tell_worn(pair: MeasuredPair, verdict: str) -> Iterator[str]:
    """Say which of the two is worn, and so what is renewed; nothing where the clearance is neither wide nor worn.

    Parameters
    ----------
    pair: as measured
    verdict: that of `lapwright.workshop.clearances.judge_clearance` on their clearance

    Source: common practice, no source
    """
    if verdict not in (AT_LIMIT, WORN):
        return
    if not pair.hole_inside and not pair.pin_inside:
        worn = "Both are outside their limits: ream the hole for a larger pin, or bush it and make a new pin."
    elif not pair.hole_inside:
        worn = "It is the hole that is outside its limits: to put it right, ream it and make a larger pin, or bush it."
    elif not pair.pin_inside:
        worn = "It is the pin that is outside its limits: to put it right, a new pin in the old hole will do."
    else:
        worn = "Both are inside limits, each near the far end: a new pin, made close to the hole, puts it right."
    yield worn
