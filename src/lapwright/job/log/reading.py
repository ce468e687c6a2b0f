"""A reading of the log read back: what a figure with a unit comes to in the other unit of the trade."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lapwright.errors import BadInput, NoUnit
from lapwright.quantities import (
    Quantity,
    read_flow,
    read_length,
    read_pressure,
    read_temperature,
    read_torque,
    read_volume,
    show_inch,
    show_mm,
    show_number,
)
from lapwright.quantities.length import INCH
from lapwright.quantities.pressure import POUND_FORCE, PSI
from lapwright.quantities.temperature import FREEZING

_IN = float(INCH)
_POUND_INCH = float(POUND_FORCE) * _IN
#: From here on a torque reads better in pounds than in ounces [N m].
_STRONG = 0.1
_CUBIC_FOOT_A_MINUTE = (12 * _IN) ** 3 / 60
#: Below this a length reads better in µm or thou [m].
_FINE = 1e-4


@dataclass(frozen=True, slots=True)
class OtherUnit:
    """What was understood: the same figure in another unit, or that a bare number has none."""

    said: str = ""
    lacks_unit: bool = False


def tell_in_other_unit(value: str) -> OtherUnit:
    """Tell a reading in the other unit of its kind; nothing where it has none, or is no figure.

    Parameters
    ----------
    value: as it was written

    Example:
    >>> tell_in_other_unit("3/4 in").said, tell_in_other_unit("0.45 N m").said, tell_in_other_unit("scored").said
    ('19.05 mm', '4.0 lbf in', '')
    """
    for read, tell in _WAYS.items():
        try:
            found = read(value)
        except NoUnit:
            return OtherUnit(lacks_unit=True)
        except BadInput:
            continue
        return OtherUnit(tell(found.si, found.unit) if found.si else "")
    return OtherUnit()


def _tell_length(metres: float, unit: str) -> str:
    if unit in ("in", "thou"):
        return show_mm(metres) if abs(metres) >= _FINE else f"{show_number(metres * 1e6, 1)} µm"
    return show_inch(metres) if abs(metres) >= _FINE else f"{show_number(metres / _IN * 1e3, 2)} thou"


def _tell_pressure(pascals: float, unit: str) -> str:
    return f"{show_number(pascals / 1e5, 2)} bar" if unit == "psi" else f"{show_number(pascals / PSI, 1)} psi"


def _tell_temperature(kelvin: float, unit: str) -> str:
    celsius = kelvin - FREEZING
    return f"{show_number(celsius, 1)} °C" if unit != "degC" else f"{show_number(celsius * 1.8 + 32, 0)} °F"


def _tell_torque(newton_metres: float, unit: str) -> str:
    if "f " in unit:
        return f"{show_number(newton_metres * 1e3, 1)} mN m"
    pounds = newton_metres / _POUND_INCH
    if abs(newton_metres) >= _STRONG:
        return f"{show_number(pounds, 1)} lbf in"
    return f"{show_number(16 * pounds, 2)} ozf in"


def _tell_volume(cubic_metres: float, unit: str) -> str:
    return (
        f"{show_number(cubic_metres * 1e6, 1)} cm³" if unit == "in3" else f"{show_number(cubic_metres / _IN**3, 2)} in³"
    )


def _tell_flow(cubic_metres: float, unit: str) -> str:
    if unit == "cfm":
        return f"{show_number(cubic_metres * 6e4, 1)} L/min"
    return f"{show_number(cubic_metres / _CUBIC_FOOT_A_MINUTE, 2)} cfm"


_WAYS: Mapping[Callable[[object], Quantity], Callable[[float, str], str]] = {
    read_length: _tell_length,
    read_pressure: _tell_pressure,
    read_temperature: _tell_temperature,
    read_torque: _tell_torque,
    read_volume: _tell_volume,
    read_flow: _tell_flow,
}


def find_slipped_unit(value: str) -> tuple[str, str] | None:
    """Find a unit with a letter struck twice: as it was written, and what was meant; None where there is none.

    Any other word behind a figure may be what was read, and is left alone.

    Parameters
    ----------
    value: as it was written

    Example:
    >>> find_slipped_unit("0.3 mmm"), find_slipped_unit("0.3 mm"), find_slipped_unit("4 studs")
    (('mmm', 'mm'), None, None)
    """
    found = _FIGURE_AND_WORD.fullmatch(value.strip())
    if found is None or any(_is_unit(read, found["word"]) for read in _WAYS):
        return None
    fewer = (_STRUCK_TWICE.sub(r"\1" * count, found["word"]) for count in (2, 1))
    meant = next((word for word in fewer if any(_is_unit(read, word) for read in _WAYS)), None)
    return (found["word"], meant) if meant else None


#: A figure, and one word of letters behind it.
_FIGURE_AND_WORD = re.compile(r"[-+]?[\d./]{1,20}\s{0,3}(?P<word>[^\W\d_]{2,10})")
_STRUCK_TWICE = re.compile(r"(\w)\1+")


def _is_unit(read: Callable[[object], Quantity], word: str) -> bool:
    try:
        read(f"1 {word}")
    except BadInput:
        return False
    return True
