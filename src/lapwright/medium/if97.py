"""Water and steam by the IAPWS Industrial Formulation 1997: compiled kernels on plain floats in SI units.

Regions 1 (liquid), 2 (vapour) and 4 (the saturation line) are enough below the pressure of saturation at 623.15 K,
165 bar, and up to 1073.15 K. Outside its range a kernel answers nan: `water` is the door that says why in words.
Figures per kilogram: volume v [m3/kg], energy u, enthalpy h [J/kg], entropy s and heat capacity at constant pressure
cp [J/(kg K)]. Energy and entropy are nothing for liquid at the triple point.
"""

from __future__ import annotations

from math import log, nan, sqrt

from lapwright.medium.boiling import SATURATION_N
from lapwright.medium.compiling import compiled
from lapwright.medium.if97_coefficients import (
    GAS_CONSTANT,
    IDEAL_J,
    IDEAL_N,
    LIQUID_I,
    LIQUID_J,
    LIQUID_N,
    RESIDUAL_I,
    RESIDUAL_J,
    RESIDUAL_N,
)

#: What the formulation holds for: temperatures [K] and pressures [Pa].
COLDEST, CRITICAL_TEMPERATURE, HOTTEST = 273.15, 647.096, 1073.15
HOTTEST_LIQUID = 623.15
CRITICAL_PRESSURE, HIGHEST_PRESSURE = 22.064e6, 100e6
#: Pressure of saturation at COLDEST [Pa]: the saturation line starts here.
LOWEST_SATURATION = 611.212677

_N1, _N2, _N3, _N4, _N5, _N6, _N7, _N8, _N9, _N10 = SATURATION_N
#: Newton's steps close in quadratically: after one this small, relative to the temperature, the rest is rounding.
_CLOSE = 1e-9
_STEPS = 60
#: How far below saturation vapour is looked for [K].
_BELOW_SATURATION = 30.0


@compiled
def saturation_pressure(temperature: float) -> float:
    """Return the pressure [Pa] at which water boils at a temperature [K, 273.15 to 647.096].

    Source: iapws-r7-97, equation 30
    """
    if not COLDEST <= temperature <= CRITICAL_TEMPERATURE:
        return nan
    theta = temperature + _N9 / (temperature - _N10)
    a = (theta + _N1) * theta + _N2
    b = (_N3 * theta + _N4) * theta + _N5
    c = (_N6 * theta + _N7) * theta + _N8
    root = 2 * c / (-b + sqrt(b * b - 4 * a * c))
    return 1e6 * root * root * root * root


@compiled
def saturation_temperature(pressure: float) -> float:
    """Return the temperature [K] at which water boils under a pressure [Pa, 611.213 to 22.064e6].

    Source: iapws-r7-97, equation 31
    """
    if not LOWEST_SATURATION <= pressure <= CRITICAL_PRESSURE:
        return nan
    beta = sqrt(sqrt(pressure * 1e-6))
    e = (beta + _N3) * beta + _N6
    f = (_N1 * beta + _N4) * beta + _N7
    g = (_N2 * beta + _N5) * beta + _N8
    d = 2 * g / (-f - sqrt(f * f - 4 * e * g))
    both = _N10 + d
    return 0.5 * (both - sqrt(both * both - 4 * (_N9 + _N10 * d)))


@compiled
def liquid(pressure: float, temperature: float) -> tuple[float, float, float, float, float]:
    """Return v, u, h, s, cp of liquid water at a pressure [Pa, to 100e6] and temperature [K, 273.15 to 623.15].

    It does not ask whether the water would boil.

    Source: iapws-r7-97, equation 7, table 3
    """
    if not (0 < pressure <= HIGHEST_PRESSURE and COLDEST <= temperature <= HOTTEST_LIQUID):
        return nan, nan, nan, nan, nan
    pi, tau = pressure / 16.53e6, 1386.0 / temperature
    a, b = 7.1 - pi, tau - 1.222
    g, by_pi, by_tau, by_tau_twice = 0.0, 0.0, 0.0, 0.0
    for k in range(len(LIQUID_N)):
        term = LIQUID_N[k] * a ** LIQUID_I[k] * b ** LIQUID_J[k]
        g += term
        by_pi -= LIQUID_I[k] * term
        by_tau += LIQUID_J[k] * term
        by_tau_twice += LIQUID_J[k] * (LIQUID_J[k] - 1) * term
    heat = GAS_CONSTANT * temperature
    v = heat / pressure * pi * by_pi / a
    h = heat * tau * by_tau / b
    s = GAS_CONSTANT * (tau * by_tau / b - g)
    return v, h - pressure * v, h, s, -GAS_CONSTANT * (tau / b) ** 2 * by_tau_twice


@compiled
def vapour(pressure: float, temperature: float) -> tuple[float, float, float, float, float]:
    """Return v, u, h, s, cp of steam at a pressure [Pa, to 100e6] and temperature [K, 273.15 to 1073.15].

    It does not ask whether the steam would condense: a little below saturation it goes on smoothly.

    Source: iapws-r7-97, equations 15 to 17, table 12
    """
    if not (0 < pressure <= HIGHEST_PRESSURE and COLDEST <= temperature <= HOTTEST):
        return nan, nan, nan, nan, nan
    pi, tau = pressure * 1e-6, 540.0 / temperature
    g, by_tau, by_tau_twice = log(pi), 0.0, 0.0
    for k in range(len(IDEAL_N)):
        term = IDEAL_N[k] * tau ** IDEAL_J[k]
        g += term
        by_tau += IDEAL_J[k] * term
        by_tau_twice += IDEAL_J[k] * (IDEAL_J[k] - 1) * term
    b = tau - 0.5
    ratio = tau / b
    by_pi, rest_by_tau, rest_by_tau_twice = 1.0, 0.0, 0.0
    for k in range(len(RESIDUAL_N)):
        term = RESIDUAL_N[k] * pi ** RESIDUAL_I[k] * b ** RESIDUAL_J[k]
        g += term
        by_pi += RESIDUAL_I[k] * term
        rest_by_tau += RESIDUAL_J[k] * term
        rest_by_tau_twice += RESIDUAL_J[k] * (RESIDUAL_J[k] - 1) * term
    heat = GAS_CONSTANT * temperature
    by_tau += ratio * rest_by_tau
    v, h = heat / pressure * by_pi, heat * by_tau
    cp = -GAS_CONSTANT * (by_tau_twice + ratio * ratio * rest_by_tau_twice)
    return v, h - pressure * v, h, GAS_CONSTANT * (by_tau - g), cp


@compiled
def vapour_temperature(pressure: float, enthalpy: float) -> float:
    """Return the temperature [K] of steam of a pressure [Pa] and enthalpy [J/kg]; nan where none has it.

    Found from the equation of `vapour` itself to the last digits; the release's own equations for this are quick
    approximations, up to 25 mK off. It reaches 30 K below saturation.

    Source: iapws-r7-97, equations 15 to 17, table 12
    """
    low, high = _vapour_limits(pressure)
    if not vapour(pressure, low)[2] <= enthalpy <= vapour(pressure, high)[2]:
        return nan
    guess = 373.0 + (enthalpy - 2.68e6) / 2000
    for _ in range(_STEPS):
        guess = guess if low < guess < high else 0.5 * (low + high)
        _, _, h, _, cp = vapour(pressure, guess)
        low, high = (guess, high) if h < enthalpy else (low, guess)
        step = (enthalpy - h) / cp
        guess += step
        if abs(step) <= _CLOSE * guess:
            return guess
    return nan


@compiled
def vapour_temperature_from_entropy(pressure: float, entropy: float) -> float:
    """Return the temperature [K] of steam of a pressure [Pa] and entropy [J/(kg K)]; nan where none has it.

    As `vapour_temperature`, which see.

    Source: iapws-r7-97, equations 15 to 17, table 12
    """
    low, high = _vapour_limits(pressure)
    if not vapour(pressure, low)[3] <= entropy <= vapour(pressure, high)[3]:
        return nan
    guess = low + _BELOW_SATURATION
    for _ in range(_STEPS):
        guess = guess if low < guess < high else 0.5 * (low + high)
        _, _, _, s, cp = vapour(pressure, guess)
        low, high = (guess, high) if s < entropy else (low, guess)
        step = (entropy - s) * guess / cp
        guess += step
        if abs(step) <= _CLOSE * guess:
            return guess
    return nan


@compiled
def _vapour_limits(pressure: float) -> tuple[float, float]:
    """The temperatures [K] between which steam of a pressure [Pa] is looked for."""
    if pressure < LOWEST_SATURATION:
        return COLDEST, HOTTEST
    if pressure <= CRITICAL_PRESSURE:
        return max(COLDEST, saturation_temperature(pressure) - _BELOW_SATURATION), HOTTEST
    return HOTTEST_LIQUID, HOTTEST
