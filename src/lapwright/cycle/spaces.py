"""What fills the spaces at the start, and the three that never change: supply, outside and shop."""

from __future__ import annotations

from lapwright.cycle import layout as at
from lapwright.cycle.balance import set_flow_terms
from lapwright.cycle.conditions import SHOP, Conditions
from lapwright.cycle.layout import Floats
from lapwright.errors import CannotRun
from lapwright.medium import air
from lapwright.medium.if97 import liquid, saturation_temperature, vapour
from lapwright.quantities.pressure import ATMOSPHERE
from lapwright.quantities.temperature import FREEZING

#: How much colder than the supply's steam the wall starts [K]; the march finds the true figure.
_COLDER = 10.0


def fill_spaces(cell: Floats, conditions: Conditions) -> None:
    """Fill the seven spaces of a cell [SI]: chest at supply, ends and pipe at exhaust, the rest as they stay.

    Raises
    ------
    CannotRun: no steam has that pressure and temperature
    """
    supply, outside, shop = _find_states(conditions)
    fillings = {
        at.HEAD: outside, at.CRANK: outside, at.CHEST: supply, at.PIPE: outside,
        at.SUPPLY: supply, at.OUTSIDE: outside, at.SHOP: shop,
    }  # fmt: skip
    if not cell[at.FREE_CRANK]:
        fillings[at.CRANK] = shop
    for space, (pressure, volume, enthalpy, temperature, dryness, film) in fillings.items():
        here = space * at.ROW
        cell[here + at.P], cell[here + at.DENSITY], cell[here + at.ENTHALPY] = pressure, 1 / volume, enthalpy
        cell[here + at.TEMPERATURE], cell[here + at.DRYNESS], cell[here + at.FILM] = temperature, dryness, film
        # A space that never changes stays as full as it is.
        cell[here + at.MASS] = cell[here + at.START] = 1.0
        set_flow_terms(cell, space)
    cell[at.WALL] = supply[3] - (_COLDER if conditions.fluid == "steam" else 0.0)


_State = tuple[float, float, float, float, float, float]


def _find_states(conditions: Conditions) -> tuple[_State, _State, _State]:
    if conditions.fluid == "air":
        warm = conditions.supply_temperature or SHOP
        supply = _find_air(conditions.supply, warm)
        return supply, _find_air(conditions.exhaust, warm), _find_air(ATMOSPHERE, SHOP)
    supply = _find_steam(conditions.supply, conditions.dryness, conditions.supply_temperature)
    return supply, _find_steam(conditions.exhaust, 1.0, None), _find_steam(ATMOSPHERE, 1.0, None)


def _find_air(pressure: float, temperature: float) -> _State:
    heat = air.GAS_CONSTANT * air.EXPONENT / (air.EXPONENT - 1)
    return pressure, air.GAS_CONSTANT * temperature / pressure, heat * temperature, temperature, 1.0, 0.0


def _find_steam(pressure: float, dryness: float, temperature: float | None) -> _State:
    boiling = saturation_temperature(pressure)
    water, dry = liquid(pressure, boiling), vapour(pressure, boiling)
    if temperature is not None:
        if temperature < boiling:
            raise CannotRun(
                "the supply",
                f"steam cannot be {temperature - FREEZING:.0f} degC at its pressure: "
                f"it boils at {boiling - FREEZING:.0f} degC there",
            )
        hot = vapour(pressure, temperature)
        above = 1 + (hot[1] - dry[1]) / (dry[1] - water[1])
        return pressure, hot[0], hot[2], temperature, above, water[2]
    volume = water[0] + dryness * (dry[0] - water[0])
    return pressure, volume, water[2] + dryness * (dry[2] - water[2]), boiling, dryness, water[2]
