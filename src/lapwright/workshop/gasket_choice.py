"""What a joint is cut from: which sheet stands the fluid, its temperature and its pressure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from lapwright.quantities.temperature import FREEZING
from lapwright.tables.gaskets import GasketRow, find_gasket

#: The joints by their names at the bench, the one to take first at the head.
GASKETS: Final = (
    "oiled paper",
    "graphite sheet",
    "soft rubber",
    "copper",
    "aluminium",
    "PTFE sheet",
    "aramid/NBR sheet",
    "old sheet",
)
#: How thick each is cut [m]; from memory.
THICKNESSES: Final = {
    "oiled paper": (0.1e-3, 0.25e-3),
    "graphite sheet": (0.4e-3, 0.8e-3),
    "aramid/NBR sheet": (0.4e-3, 0.8e-3),
}
OLD_SHEET: Final = "old sheet"
#: Sheets that live in air but not in steam, whatever their temperature.
_NOT_STEAM: Final = ("soft rubber",)


@dataclass(frozen=True, slots=True)
class GasketChoice:
    """Whether a joint may be cut from a sheet for this duty, and why, in a sentence."""

    gasket: str
    row: GasketRow
    fits: bool
    why: str


def choose_gaskets(*, fluid: str, temperature: float, pressure: float) -> tuple[GasketChoice, ...]:
    """Say of every joint whether it stands the duty; those that do stand first, in the order in which they are taken.

    Parameters
    ----------
    fluid: "air" or "steam"
    temperature: of the joint in service [K]
    pressure: at which it has to be tight, above the atmosphere [Pa]

    Source: from memory (soft rubber is no joint for steam); the limits as each row of the table names them
    """
    choices = [_judge(gasket, fluid=fluid, temperature=temperature, pressure=pressure) for gasket in GASKETS]
    return tuple(sorted(choices, key=lambda choice: not choice.fits))


def _judge(gasket: str, *, fluid: str, temperature: float, pressure: float) -> GasketChoice:
    row = find_gasket(gasket)
    why = _find_objection(gasket, row, fluid=fluid, temperature=temperature, pressure=pressure)
    return GasketChoice(gasket, row, not why, why or _say_limits(row))


def _find_objection(gasket: str, row: GasketRow, *, fluid: str, temperature: float, pressure: float) -> str:
    """Why not, or nothing."""
    if gasket == OLD_SHEET:
        return "it may be asbestos: it is not used again, and never cut, scraped or sanded dry"
    if fluid == "steam" and gasket in _NOT_STEAM:
        return "steam softens and perishes it"
    if row.max_temperature is not None and temperature > row.max_temperature:
        often = "; many small engines have it nonetheless, and it chars and is renewed" * (gasket == "oiled paper")
        return f"{_celsius(temperature)} is more than the {_celsius(row.max_temperature)} it is good for{often}"
    if row.max_pressure is not None and pressure > row.max_pressure:
        return f"{pressure / 1e5:.1f} bar is more than the {row.max_pressure / 1e5:.0f} bar it is good for"
    return ""


def _say_limits(row: GasketRow) -> str:
    limits = [] if row.max_temperature is None else [_celsius(row.max_temperature)]
    limits += [] if row.max_pressure is None else [f"{row.max_pressure / 1e5:.0f} bar"]
    return f"good for {' and '.join(limits)}" if limits else "no limit is printed"


def _celsius(kelvin: float) -> str:
    return f"{kelvin - FREEZING:.0f} °C"
