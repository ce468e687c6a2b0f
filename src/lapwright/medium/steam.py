"""Steam and water quickly: energy, temperature and dryness from pressure and volume, by curves drawn through IF97.

The cycle asks some thousand times a turn. Wet steam needs five curves along saturation; dry steam two surfaces over
pressure and over how far p v lies above its saturated value, so that the wet and the dry side meet without a step.
"""

from __future__ import annotations

from functools import cache
from math import exp, log

import numpy as np
from numpy.typing import NDArray

from lapwright.medium.compiling import inlined, lean
from lapwright.medium.if97 import HOTTEST, liquid, saturation_temperature, vapour

Floats = NDArray[np.float64]

#: Reach of the curves [Pa]; outside, steam is taken to hold what it holds at the nearest pressure with the same p v.
LOWEST, HIGHEST = 650.0, 160e5
_LOW = log(LOWEST)
#: Stretches along ln p of the saturation curves and of the surfaces, and along p v above saturation.
_CURVE, _ROWS, _COLUMNS = 320, 80, 32
_CURVE_STEP, _ROW_STEP = (log(HIGHEST) - _LOW) / _CURVE, (log(HIGHEST) - _LOW) / _ROWS
#: Greatest p v above saturation [J/kg] that stays below 800 degC at every pressure.
_WIDEST = 2.8e5
_COLUMN_STEP = _WIDEST / _COLUMNS
#: Five curves (T, u and v of water, u and p v of dry steam), value and slope each; then the surfaces, eight a corner.
_CURVES, _CORNER = 10, 8
_SURFACE = (_CURVE + 1) * _CURVES


@inlined
def find_inside(table: Floats, pressure: float, volume: float) -> tuple[float, float, float, float, float]:
    """Return what steam of a pressure and specific volume holds.

    Parameters
    ----------
    table: from `draw_table`
    pressure: absolute [Pa]
    volume: specific volume [m3/kg]

    Returns
    -------
    Internal energy [J/kg], temperature [K], dryness [-] (above 1: superheat as a share of the evaporation energy),
    temperature of saturation [K] and enthalpy of the water [J/kg].

    Source: iapws-r7-97, equations for regions 1, 2 and 4, by cubic curves
    """
    p = min(max(pressure, LOWEST), HIGHEST)
    place = (log(p) - _LOW) / _CURVE_STEP
    i = min(int(place), _CURVE - 1)
    t = place - i
    a, b = (1.0 + 2.0 * t) * (1.0 - t) * (1.0 - t), t * (1.0 - t) * (1.0 - t)
    c, d = t * t * (3.0 - 2.0 * t), t * t * (t - 1.0)
    k = i * _CURVES
    saturation = a * table[k] + b * table[k + 1] + c * table[k + 10] + d * table[k + 11]
    water = a * table[k + 2] + b * table[k + 3] + c * table[k + 12] + d * table[k + 13]
    water_volume = a * table[k + 4] + b * table[k + 5] + c * table[k + 14] + d * table[k + 15]
    dry = a * table[k + 6] + b * table[k + 7] + c * table[k + 16] + d * table[k + 17]
    dry_volume = (a * table[k + 8] + b * table[k + 9] + c * table[k + 18] + d * table[k + 19]) / p
    film = water + p * water_volume
    within = volume * (pressure / p)
    if within <= dry_volume:
        dryness = (within - water_volume) / (dry_volume - water_volume)
        return water + dryness * (dry - water), saturation, dryness, saturation, film
    above, hotter = _climb(table, place * (_ROWS / _CURVE), pressure * volume - p * dry_volume)
    return dry + above, saturation + hotter, 1.0 + above / (dry - water), saturation, film


@lean
def find_volumes(table: Floats, pressure: float) -> tuple[float, float]:
    """Return the specific volumes [m3/kg] of water and of dry steam where it boils at a pressure [Pa].

    Parameters
    ----------
    table: from `draw_table`
    pressure: absolute [Pa]

    Source: iapws-r7-97, equations for regions 1, 2 and 4, by cubic curves
    """
    p = min(max(pressure, LOWEST), HIGHEST)
    place = (log(p) - _LOW) / _CURVE_STEP
    i = min(int(place), _CURVE - 1)
    t = place - i
    a, b = (1.0 + 2.0 * t) * (1.0 - t) * (1.0 - t), t * (1.0 - t) * (1.0 - t)
    c, d = t * t * (3.0 - 2.0 * t), t * t * (t - 1.0)
    k = i * _CURVES
    water = a * table[k + 4] + b * table[k + 5] + c * table[k + 14] + d * table[k + 15]
    dry = (a * table[k + 8] + b * table[k + 9] + c * table[k + 18] + d * table[k + 19]) / p
    return water * (p / pressure), dry * (p / pressure)


@inlined
def _climb(table: Floats, place: float, beyond: float) -> tuple[float, float]:
    """Return energy [J/kg] and temperature [K] above dry saturation, where p v lies beyond its saturated value."""
    i = min(int(place), _ROWS - 1)
    t = place - i
    across = beyond / _COLUMN_STEP
    j = min(int(across), _COLUMNS - 1)
    # Hotter than the surface reaches it goes straight on.
    s = min(across - j, 1.0)
    a, b = (1.0 + 2.0 * t) * (1.0 - t) * (1.0 - t), t * (1.0 - t) * (1.0 - t)
    c, d = t * t * (3.0 - 2.0 * t), t * t * (t - 1.0)
    e, f = (1.0 + 2.0 * s) * (1.0 - s) * (1.0 - s), s * (1.0 - s) * (1.0 - s)
    g, h = s * s * (3.0 - 2.0 * s), s * s * (s - 1.0)
    near = _SURFACE + (i * (_COLUMNS + 1) + j) * _CORNER
    far = near + (_COLUMNS + 1) * _CORNER
    above, hotter = 0.0, 0.0
    for corner, value, slope in ((near, e, f), (near + _CORNER, g, h)):
        above += value * (a * table[corner] + b * table[corner + 1]) + slope * (
            a * table[corner + 2] + b * table[corner + 3]
        )
        hotter += value * (a * table[corner + 4] + b * table[corner + 5]) + slope * (
            a * table[corner + 6] + b * table[corner + 7]
        )
    for corner, value, slope in ((far, e, f), (far + _CORNER, g, h)):
        above += value * (c * table[corner] + d * table[corner + 1]) + slope * (
            c * table[corner + 2] + d * table[corner + 3]
        )
        hotter += value * (c * table[corner + 4] + d * table[corner + 5]) + slope * (
            c * table[corner + 6] + d * table[corner + 7]
        )
    more = across - j - s
    if more > 0.0:
        here, next_ = near + _CORNER, far + _CORNER
        above += more * (a * table[here + 2] + b * table[here + 3] + c * table[next_ + 2] + d * table[next_ + 3])
        hotter += more * (a * table[here + 6] + b * table[here + 7] + c * table[next_ + 6] + d * table[next_ + 7])
    return above, hotter


@lean
def find_pressure(table: Floats, energy: float, volume: float) -> float:
    """Return the pressure [Pa] at which steam of a specific volume [m3/kg] holds an internal energy [J/kg].

    Energy rises with pressure at constant volume, so the root is single; it is found to rounding in ln p.

    Source: iapws-r7-97, equations for regions 1, 2 and 4, by cubic curves
    """
    low, high = log(LOWEST), log(HIGHEST)
    below = find_inside(table, exp(low), volume)[0] - energy
    over = find_inside(table, exp(high), volume)[0] - energy
    if below >= 0.0:
        return LOWEST
    if over <= 0.0:
        return HIGHEST
    side = 0
    for _ in range(200):
        middle = (low * over - high * below) / (over - below)
        if high - low < 1e-14 * abs(middle):
            break
        excess = find_inside(table, exp(middle), volume)[0] - energy
        if excess == 0.0:
            return exp(middle)
        if excess < 0.0:
            low, below = middle, excess
            over *= 0.5 if side == -1 else 1.0
            side = -1
        else:
            high, over = middle, excess
            below *= 0.5 if side == 1 else 1.0
            side = 1
        if abs(excess) < 1e-13 * abs(energy):
            return exp(middle)
    return exp(0.5 * (low + high))


@cache
def draw_table() -> Floats:
    """Draw the curves and surfaces through the formulation's own points, once a process."""
    table = np.zeros(_SURFACE + (_ROWS + 1) * (_COLUMNS + 1) * _CORNER)
    _draw_curves(table)
    _draw_surfaces(table)
    table.flags.writeable = False
    return table


@lean
def _find_saturated(y: float) -> tuple[float, float, float, float, float]:
    p = exp(y)
    t = saturation_temperature(p)
    water, steam = liquid(p, t), vapour(p, t)
    return t, water[1], water[0], steam[1], p * steam[0]


@lean
def _draw_curves(table: Floats) -> None:
    nudge = 1e-4
    for i in range(_CURVE + 1):
        y = _LOW + i * _CURVE_STEP
        here, back, on = _find_saturated(y), _find_saturated(y - nudge), _find_saturated(y + nudge)
        for n in range(5):
            table[i * _CURVES + 2 * n] = here[n]
            table[i * _CURVES + 2 * n + 1] = (on[n] - back[n]) / (2.0 * nudge) * _CURVE_STEP


@lean
def _rise(y: float, beyond: float) -> tuple[float, float]:
    """Energy and temperature above dry saturation at ln p, with p v so far beyond saturation: Newton on T."""
    p = exp(y)
    start = saturation_temperature(p)
    dry = vapour(p, start)
    t = min(start + beyond / 461.5, HOTTEST - 1.0)
    for _ in range(50):
        here, warmer = vapour(p, t), vapour(p, t + 0.01)
        step = (p * (here[0] - dry[0]) - beyond) / (p * (warmer[0] - here[0]) / 0.01)
        t = min(t - step, HOTTEST - 0.02)
        if abs(step) < 1e-9:
            break
    return vapour(p, t)[1] - dry[1], t - start


@lean
def _draw_surfaces(table: Floats) -> None:
    """Values and slopes at every corner; the slopes and the twist by differences of the same function."""
    up, out = 1e-3, 20.0
    for i in range(_ROWS + 1):
        y = _LOW + i * _ROW_STEP
        for j in range(_COLUMNS + 1):
            w = j * _COLUMN_STEP
            k = _SURFACE + (i * (_COLUMNS + 1) + j) * _CORNER
            here = _rise(y, w)
            north, south, east, west = _rise(y + up, w), _rise(y - up, w), _rise(y, w + out), _rise(y, w - out)
            ne, nw, se, sw = (
                _rise(y + up, w + out),
                _rise(y + up, w - out),
                _rise(y - up, w + out),
                _rise(y - up, w - out),
            )
            for n in range(2):
                table[k + 4 * n] = here[n]
                table[k + 4 * n + 1] = (north[n] - south[n]) / (2.0 * up) * _ROW_STEP
                table[k + 4 * n + 2] = (east[n] - west[n]) / (2.0 * out) * _COLUMN_STEP
                twist = (ne[n] - nw[n] - se[n] + sw[n]) / (4.0 * up * out)
                table[k + 4 * n + 3] = twist * _ROW_STEP * _COLUMN_STEP
