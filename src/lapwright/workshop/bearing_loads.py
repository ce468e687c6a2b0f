"""How hard a bearing is pressed: load over projected area, beside what handbooks let it bear."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import Final

from lapwright.errors import NotOneOf, OutOfRange
from lapwright.quantities import show_mm
from lapwright.tables.bearings import BearingRow, list_bearings
from lapwright.tables.reading import is_from_memory

#: The parts of which a pressure is printed, and what the table calls them.
PARTS: Final = {
    "main bearing": "main bearing",
    "crank pin": "crank pin",
    "crosshead": "crosshead/wrist pin",
    "eccentric strap": "eccentric strap",
    "crosshead slipper": "crosshead slipper",
}
#: What else the table has on such a part.
_KINDRED: Final = {"main bearing": ("main journal (each of two)", "industrial journal")}
_SLOW, _FAST, _ANY = "stationary slow steam engine", "high speed steam engine", "steam engine"
#: A pocket-book's proportions, diameter and length in piston diameters: crank pin, and each of two shaft journals.
_POCKET_PIN, _POCKET_JOURNAL = (0.14, 0.21), (0.30, 0.44)
_POCKET_SOURCE: Final = "worked out from Molesworth, Pocket-Book of Engineering Formulae, p. 499"


@dataclass(frozen=True, slots=True)
class PressureBand:
    """What one source lets a bearing bear, or says of it, [Pa]: in which case, from where; least and greatest."""

    case: str
    low: float
    high: float
    source: str

    def show(self) -> str:
        """Show the pressure, or the range of it."""
        low, high = f"{self.low / 1e6:.2f}", f"{self.high / 1e6:.2f} MPa"
        return high if self.low == self.high else f"{low} to {high}"


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingVerdict:
    """How a bearing is loaded: the pressure on its projected area [Pa] beside what is allowed, and what others say.

    `allowed` is the least and the greatest that the table gives for the part and the speed; `others` are the other
    sources on such a part, which do not agree.
    """

    part: str
    fast: bool
    pressure: float
    allowed: PressureBand
    others: tuple[PressureBand, ...]
    sentence: str
    sources: tuple[str, ...]

    @property
    def share(self) -> float:
        """The share of what is surely allowed that is used [-]."""
        return self.pressure / self.allowed.low


def find_bearing_pressure(load: float, *, diameter: float, length: float) -> float:
    """Work out the pressure on the projected area of a bearing [Pa]: F / (d l).

    Parameters
    ----------
    load: on the bearing [N]
    diameter: of the shaft or pin [m]
    length: along which it bears [m]

    Raises
    ------
    OutOfRange: a bearing of no size

    Source: definition

    Example:
    >>> find_bearing_pressure(100, diameter=4e-3, length=5e-3) / 1e6
    5.0
    """
    if diameter <= 0 or length <= 0:
        raise OutOfRange(show_mm(min(diameter, length)), "is no size of a bearing", "measure it again")
    return load / (diameter * length)


def find_pocket_book_pressures(steam_pressure: float) -> tuple[float, float]:
    """Work out what the proportions of an old pocket-book put on crank pin and on each of two journals [Pa].

    Parameters
    ----------
    steam_pressure: on the piston, above the atmosphere [Pa]

    Source: molesworth (p. 499, proportions); exact geometry

    Example:
    >>> [round(pressure / 1e6, 1) for pressure in find_pocket_book_pressures(3e5)]
    [8.0, 0.9]
    """
    pin, journal = (across * along for across, along in (_POCKET_PIN, _POCKET_JOURNAL))
    return steam_pressure * pi / 4 / pin, steam_pressure * pi / 8 / journal


def list_pressure_bands(part: str, *, steam_pressure: float | None = None) -> tuple[PressureBand, ...]:
    """List everything that is printed of the pressure on a part, whether it is a limit or a report.

    Parameters
    ----------
    part: one of `PARTS`
    steam_pressure: above the atmosphere [Pa]; left out, what follows from it is left out too

    Raises
    ------
    NotOneOf: nothing is printed of such a part

    Source: from memory (the handbook set); molesworth (proportions); the rest as each row names it
    """
    named = (_name_part(part), *_KINDRED.get(part, ()))
    bands = [_band(row) for row in list_bearings() if row.part in named]
    if steam_pressure is not None and part in ("main bearing", "crank pin"):
        # The table has what those proportions imply at 2 and at 4 bar: here it is worked out for this pressure.
        bands = [band for band in bands if not band.case.startswith("implied")]
        implied = find_pocket_book_pressures(steam_pressure)[part == "main bearing"]
        bands.append(PressureBand("by old proportions at this steam pressure", implied, implied, _POCKET_SOURCE))
    return tuple(bands)


def judge_bearing(
    part: str, load: float, *, diameter: float, length: float, fast: bool = True, steam_pressure: float | None = None
) -> BearingVerdict:
    """Judge the pressure on a bearing against the handbook figure for its part and speed, with the others beside it.

    Parameters
    ----------
    part: one of `PARTS`
    load: the greatest on it, whichever way it points [N]
    diameter, length: of the shaft or pin, and along which it bears [m]
    fast: whether the engine counts as a fast one, for which less is allowed; where it is not known it should
    steam_pressure: above the atmosphere [Pa], for what old proportions imply; may be left out

    Raises
    ------
    NotOneOf: nothing is printed of such a part
    OutOfRange: a bearing of no size

    Source: from memory (the handbook set, after old text-books of machine design)
    """
    bands = list_pressure_bands(part, steam_pressure=steam_pressure)
    wanted = (_FAST if fast else _SLOW, _ANY)
    allowed = next(band for band in bands if band.case in wanted)
    pressure = find_bearing_pressure(abs(load), diameter=diameter, length=length)
    return BearingVerdict(
        part=part,
        fast=fast,
        pressure=pressure,
        allowed=allowed,
        others=tuple(band for band in bands if band.case not in (_SLOW, _FAST, _ANY)),
        sentence=_say(pressure, allowed),
        sources=(f"Pressure on a {part}, {allowed.case}: {allowed.source}.",),
    )


def _say(pressure: float, allowed: PressureBand) -> str:
    recalled = " (from memory)" if is_from_memory(allowed.source) else ""
    found, limit = f"{pressure / 1e6:.2f} MPa on the projected area", f"{allowed.low / 1e6:.2f} MPa allowed{recalled}"
    if pressure <= allowed.low:
        return f"{found}: under the {limit}."
    return f"{found}: more than the {limit}; a longer or thicker bearing is wanted."


def _name_part(part: str) -> str:
    if part not in PARTS:
        raise NotOneOf(part, tuple(PARTS))
    return PARTS[part]


def _band(row: BearingRow) -> PressureBand:
    return PressureBand(row.case, row.low, row.high, row.source)
