"""Water and steam for people: what a boiler pressure, a dryness or a temperature says about the stuff in the pipe.

The figures come from `if97`, in SI units, pressures absolute. Energy and entropy are counted from liquid at the triple
point. Whoever needs many of them within a compiled loop calls the kernels there.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isnan

from lapwright.errors import OutOfRange
from lapwright.medium import if97

#: Between these pressures [Pa] water has a boiling point here: the triple point, and where region 3 would begin.
LOWEST_PRESSURE, HIGHEST_PRESSURE = 611.657, 160e5
#: Between these temperatures [K] answers are given: the triple point, and the end of region 2.
COLDEST, HOTTEST = 273.16, 1073.15

Figures = tuple[float, float, float, float, float]

WATER, WET, DRY, SUPERHEATED = "water", "wet", "dry saturated", "superheated"


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """What a kilogram of water or steam is like.

    Pressure [Pa, absolute], temperature [K], volume [m3/kg], energy and enthalpy [J/kg], entropy [J/(kg K)]; dryness
    is the share of the mass that is vapour, 0 for water and 1 for superheated steam; condition is one of "water",
    "wet", "dry saturated" and "superheated".
    """

    pressure: float
    temperature: float
    volume: float
    energy: float
    enthalpy: float
    entropy: float
    dryness: float
    condition: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Saturation:
    """Water boiling under a pressure [Pa, absolute] at a temperature [K]: the water, and the dry steam above it."""

    pressure: float
    temperature: float
    water: State
    steam: State

    @property
    def latent_heat(self) -> float:
        """What it takes to turn the water to steam [J/kg]."""
        return self.steam.enthalpy - self.water.enthalpy


def find_saturation(pressure: float) -> Saturation:
    """Find the boiling point at a pressure, and what the water and the steam are like there.

    Parameters
    ----------
    pressure: absolute [Pa, 611.657 to 160e5]

    Raises
    ------
    OutOfRange: water has no boiling point under this pressure, or it lies above this range

    Source: iapws-r7-97, equations 7, 15 and 31

    Example:
    >>> boiling = find_saturation(3e5)
    >>> f"{boiling.temperature - 273.15:.2f} degC, {boiling.latent_heat / 1000:.1f} kJ/kg"
    '133.53 degC, 2163.4 kJ/kg'
    """
    _check_pressure(pressure)
    temperature = if97.saturation_temperature(pressure)
    water, steam = _make_water(pressure, temperature), _make_steam(pressure, temperature, DRY)
    return Saturation(pressure=pressure, temperature=temperature, water=water, steam=steam)


def find_state(pressure: float, temperature: float) -> State:
    """Find what water or superheated steam is like; right at the boiling point it is taken as dry saturated steam.

    Parameters
    ----------
    pressure: absolute [Pa, 611.657 to 160e5]
    temperature: [K, 273.16 to 1073.15]

    Raises
    ------
    OutOfRange: the pressure or the temperature lies outside the range

    Source: iapws-r7-97, equations 7, 15 and 31

    Example:
    >>> steam = find_state(4e5, 473.15)
    >>> f"{steam.condition}, {steam.volume:.4f} m3/kg, {steam.enthalpy / 1000:.1f} kJ/kg"
    'superheated, 0.5343 m3/kg, 2861.0 kJ/kg'
    """
    _check_pressure(pressure)
    if not COLDEST <= temperature <= HOTTEST:
        raise OutOfRange(f"{temperature:g} K", f"is not between {COLDEST} and {HOTTEST} K")
    boiling = if97.saturation_temperature(pressure)
    if temperature < boiling:
        return _make_water(pressure, temperature)
    return _make_steam(pressure, temperature, DRY if temperature == boiling else SUPERHEATED)


def find_wet(pressure: float, dryness: float) -> State:
    """Find what steam is like that carries water along.

    Parameters
    ----------
    pressure: absolute [Pa, 611.657 to 160e5]
    dryness: share of the mass that is vapour [-, 0 to 1]

    Raises
    ------
    OutOfRange: the pressure or the dryness lies outside the range

    Source: iapws-r7-97, equations 7, 15 and 31; exact mixing of water and dry steam by mass

    Example:
    >>> f"{find_wet(4.01325e5, 0.98).enthalpy / 1000:.1f} kJ/kg"
    '2695.5 kJ/kg'
    """
    if not 0 <= dryness <= 1:
        raise OutOfRange(f"{dryness:g}", "is not a dryness", "write the share of steam by mass, from 0 to 1")
    return _mix(find_saturation(pressure), dryness)


def find_by_enthalpy(pressure: float, enthalpy: float) -> State:
    """Find what wet or superheated steam of an enthalpy is like.

    Parameters
    ----------
    pressure: absolute [Pa, 611.657 to 160e5]
    enthalpy: at least that of boiling water [J/kg]

    Raises
    ------
    OutOfRange: the pressure lies outside the range, or no steam of this pressure has the enthalpy

    Source: iapws-r7-97, equations 7, 15 and 31

    Example:
    >>> find_by_enthalpy(1e5, 3.0e6).condition
    'superheated'
    """
    boiling = find_saturation(pressure)
    if enthalpy <= boiling.steam.enthalpy:
        share = (enthalpy - boiling.water.enthalpy) / boiling.latent_heat
        return _mix(boiling, _check_share(share, f"{enthalpy / 1000:g} kJ/kg"))
    return _superheat(boiling, if97.vapour_temperature(pressure, enthalpy), f"{enthalpy / 1000:g} kJ/kg")


def find_by_entropy(pressure: float, entropy: float) -> State:
    """Find what wet or superheated steam of an entropy is like.

    Parameters
    ----------
    pressure: absolute [Pa, 611.657 to 160e5]
    entropy: at least that of boiling water [J/(kg K)]

    Raises
    ------
    OutOfRange: the pressure lies outside the range, or no steam of this pressure has the entropy

    Source: iapws-r7-97, equations 7, 15 and 31

    Example:
    >>> find_by_entropy(1e5, 7000.0).condition
    'wet'
    """
    boiling = find_saturation(pressure)
    low, high = boiling.water.entropy, boiling.steam.entropy
    shown = f"{entropy / 1000:g} kJ/(kg K)"
    if entropy <= high:
        return _mix(boiling, _check_share((entropy - low) / (high - low), shown))
    return _superheat(boiling, if97.vapour_temperature_from_entropy(pressure, entropy), shown)


def throttle(pressure: float, dryness: float, *, to_pressure: float) -> State:
    """Find what steam is like after a throttle or a leak: the enthalpy stays, so wet steam dries.

    Parameters
    ----------
    pressure: absolute, before [Pa, 611.657 to 160e5]
    dryness: before [-, 0 to 1]
    to_pressure: absolute, after, not above the one before [Pa]

    Raises
    ------
    OutOfRange: a pressure or the dryness lies outside the range, or the pressure would rise

    Source: iapws-r7-97, equations 7, 15 and 31; exact energy balance of a flow without work or heat

    Example:
    >>> after = throttle(4.01325e5, 0.98, to_pressure=1.01325e5)
    >>> f"{after.condition}, {after.temperature - 273.15:.1f} degC"
    'superheated, 109.7 degC'
    """
    before = find_wet(pressure, dryness)
    _check_fall(pressure, to_pressure)
    return find_by_enthalpy(to_pressure, before.enthalpy)


def expand(pressure: float, dryness: float, *, to_pressure: float) -> State:
    """Find what steam is like after it has expanded without friction and heat: the entropy stays.

    Parameters
    ----------
    pressure: absolute, before [Pa, 611.657 to 160e5]
    dryness: before [-, 0 to 1]
    to_pressure: absolute, after, not above the one before [Pa]

    Raises
    ------
    OutOfRange: a pressure or the dryness lies outside the range, or the pressure would rise

    Source: iapws-r7-97, equations 7, 15 and 31; exact entropy balance of a reversible adiabatic expansion

    Example:
    >>> f"{expand(4.01325e5, 1.0, to_pressure=1.01325e5).dryness:.3f}"
    '0.924'
    """
    before = find_wet(pressure, dryness)
    _check_fall(pressure, to_pressure)
    return find_by_entropy(to_pressure, before.entropy)


def _make_state(pressure: float, temperature: float, *, figures: Figures, dryness: float, condition: str) -> State:
    volume, energy, enthalpy, entropy, _ = figures
    return State(
        pressure=pressure,
        temperature=temperature,
        volume=volume,
        energy=energy,
        enthalpy=enthalpy,
        entropy=entropy,
        dryness=dryness,
        condition=condition,
    )


def _make_water(pressure: float, temperature: float) -> State:
    figures = if97.liquid(pressure, temperature)
    return _make_state(pressure, temperature, figures=figures, dryness=0.0, condition=WATER)


def _make_steam(pressure: float, temperature: float, condition: str) -> State:
    figures = if97.vapour(pressure, temperature)
    return _make_state(pressure, temperature, figures=figures, dryness=1.0, condition=condition)


def _mix(boiling: Saturation, dryness: float) -> State:
    """So much dry steam in boiling water."""
    water, steam = boiling.water, boiling.steam
    if dryness in {0, 1}:
        return steam if dryness else water

    def share(of_water: float, of_steam: float) -> float:
        return of_water + dryness * (of_steam - of_water)

    return State(
        pressure=boiling.pressure,
        temperature=boiling.temperature,
        volume=share(water.volume, steam.volume),
        energy=share(water.energy, steam.energy),
        enthalpy=share(water.enthalpy, steam.enthalpy),
        entropy=share(water.entropy, steam.entropy),
        dryness=dryness,
        condition=WET,
    )


def _superheat(boiling: Saturation, temperature: float, shown: str) -> State:
    """Superheated steam; a temperature of nan stands for none."""
    if isnan(temperature):
        raise OutOfRange(shown, f"is more than steam of {boiling.pressure / 1e5:g} bar abs has at {HOTTEST} K")
    # So near the boiling point the last digit of the temperature found may fall short of it.
    return _make_steam(boiling.pressure, max(temperature, boiling.temperature), SUPERHEATED)


def _check_pressure(pressure: float) -> None:
    if not LOWEST_PRESSURE <= pressure <= HIGHEST_PRESSURE:
        low, high = LOWEST_PRESSURE / 1e5, HIGHEST_PRESSURE / 1e5
        raise OutOfRange(f"{pressure / 1e5:g} bar abs", f"is not between {low:.5f} and {high:g} bar abs")


def _check_share(share: float, shown: str) -> float:
    if share < 0:
        raise OutOfRange(shown, "is less than boiling water of this pressure has")
    return share


def _check_fall(before: float, after: float) -> None:
    if after > before:
        raise OutOfRange(f"{after / 1e5:g} bar abs", f"is above the {before / 1e5:g} bar abs before")
