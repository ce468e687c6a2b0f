"""The laws of the cycle's authority, written afresh: steam from its energy and volume, flow, leaks and wall heat.

Nothing here comes from the kernels of `lapwright.cycle`. Steam's pressure, temperature and dryness come from its energy
and volume by inverting IF97 itself. What is taken alike on both sides are the modelling figures: how viscous the
steam in a gap is, how much of a gap a film fills, how strongly a wall exchanges heat.
"""

from __future__ import annotations

from math import exp, isnan, log, sqrt

import numpy as np
from numpy.typing import NDArray

from lapwright.cycle import balance, packing
from lapwright.medium import air, if97
from lapwright.medium.compiling import compiled

Floats = NDArray[np.float64]

#: What is known of the medium in a space: pressure, density, enthalpy, temperature, dryness, enthalpy of its water,
#: temperature of saturation.
P, RHO, H, T, X, WATER_H, T_SAT = range(7)
AIR_K, AIR_R = 1.4, 287.05
#: Where the flow law turns straight: a drop of a thousandth.
SMALL = 1e-3
#: Gaps: from, to, width x height^3 / length, width x height.
GAP_FROM, GAP_TO, GAP_CUBE, GAP_AREA = range(4)

# Figures taken alike on both sides.
VISCOSITY = {"air": air.VISCOSITY, "steam": packing.STEAM_VISCOSITY}
WATER_VISCOSITY, WATER_IN_GAP, WATER_THROUGH = packing.HOT_WATER_VISCOSITY, packing.HOT_WATER, balance.WATER
WETTED, DAMP, FULLY_DRY = packing.WETTED, balance.DAMP, balance.FULLY_DRY
DRY_WALL, WET_WALL = packing.DRY_WALL, packing.WET_WALL


@compiled
def _saturate(y: float) -> tuple[float, float, float, float, float]:
    """T, u and v of water, u and v of dry steam at a logarithm of pressure."""
    p = exp(y)
    t = if97.saturation_temperature(p)
    water, steam = if97.liquid(p, t), if97.vapour(p, t)
    return t, water[1], water[0], steam[1], steam[0]


@compiled
def _find_wet(u: float, v: float, y: float) -> tuple[float, float]:
    """Logarithm of pressure and dryness of a mixture; beyond dry saturation the dryness comes out above 1."""
    before, excess_before, x = 0.0, 0.0, 0.0
    for n in range(100):
        _, u_water, v_water, u_dry, v_dry = _saturate(y)
        x = (v - v_water) / (v_dry - v_water)
        excess = u_water + x * (u_dry - u_water) - u
        if n == 0:
            slope = max(x, 0.0) * (u_dry - u_water) + 1.2e5
        elif y != before:
            slope = (excess - excess_before) / (y - before)
        before, excess_before = y, excess
        step = min(max(-excess / slope, -1.0), 1.0)
        y = min(max(y + step, log(650.0)), log(160e5))
        if abs(step) < 1e-13:
            break
    return y, x


@compiled
def _find_dry(u: float, v: float, p: float, t: float) -> tuple[float, float]:
    """Pressure and temperature of superheated steam; nan where none has it."""
    for _ in range(200):
        here = if97.vapour(p, t)
        if isnan(here[0]):
            return here[0], here[0]
        # Nearly an ideal gas, so both corrections close in fast.
        warmer = (u - here[1]) / (here[4] - 470.0)
        denser = here[0] / v
        t += warmer
        p *= denser * (1.0 + warmer / (t - warmer))
        if abs(warmer) < 1e-11 and abs(denser - 1.0) < 1e-13:
            break
    return p, t


@compiled
def find_steam(u: float, v: float, last: Floats, space: Floats) -> None:
    """Fill a space's row from energy and volume; `last` remembers pressure, temperature and whether it was dry."""
    for _ in range(2):
        if last[2] == 0.0:
            y, x = _find_wet(u, v, log(last[0]))
            t_sat, u_water, v_water, u_dry, v_dry = _saturate(y)
            last[0], last[1] = exp(y), t_sat
            if x <= 1.0:
                break
            last[2] = 1.0
            last[0] = last[0] * v_dry * x / v
            x = 1.0
        else:
            p, t = _find_dry(u, v, last[0], last[1])
            if not isnan(p):
                t_sat, u_water, v_water, u_dry, v_dry = _saturate(log(p))
                last[0], last[1] = p, t
                x = 1.0 + (u - u_dry) / (u_dry - u_water)
                if t >= t_sat:
                    break
            last[2] = 0.0
    space[P], space[RHO], space[H], space[T] = last[0], 1.0 / v, u + last[0] * v, last[1]
    space[X], space[WATER_H], space[T_SAT] = x, u_water + last[0] * v_water, t_sat


@compiled
def flow_exponent(x: float, steam: float) -> float:
    """Zeuner's exponent for wet steam, that of superheated steam a hundredth beyond dry; 1.4 for air."""
    if steam == 0.0:
        return AIR_K
    if x <= 1.0:
        return 1.035 + 0.1 * max(x, 0.0)
    return 1.135 + 0.165 * min(1.0, (x - 1.0) / FULLY_DRY)


@compiled
def st_venant(ratio: float, k: float) -> float:
    """Mass flow over area x root of (pressure x density), all upstream."""
    least = max(ratio, (2.0 / (k + 1.0)) ** (k / (k - 1.0)))
    r = min(least, 1.0 - SMALL)
    factor = sqrt(2.0 * k / (k - 1.0) * (r ** (2.0 / k) - r ** ((k + 1.0) / k)))
    return factor * min(1.0, (1.0 - ratio) / SMALL)


@compiled
def through_opening(area: float, up: Floats, down_p: float, steam: float) -> float:
    """Mass [kg/s] through an opening."""
    return area * sqrt(up[P] * up[RHO]) * st_venant(down_p / up[P], flow_exponent(up[X], steam))


@compiled
def wetness(x: float) -> float:
    """A whole film of water on walls and in gaps at 0.98 dry or wetter, none at dry."""
    return min(1.0, max(0.0, (1.0 - x) / DAMP))


@compiled
def through_gap(gap: Floats, up: Floats, down_p: float, viscosity: float, steam: float) -> tuple[float, float]:
    """Gas and water [kg/s] through a thin gap: laminar, never more than an opening of its size would pass."""
    r_t = up[P] / up[RHO]
    gas = gap[GAP_CUBE] * (up[P] ** 2 - down_p**2) / (24.0 * viscosity * r_t)
    gas = min(gas, through_opening(gap[GAP_AREA], up, down_p, steam))
    if steam == 0.0:
        return gas, 0.0
    drop = up[P] - down_p
    water = WATER_IN_GAP * gap[GAP_CUBE] * drop / (12.0 * WATER_VISCOSITY)
    water = min(water, gap[GAP_AREA] * sqrt(2.0 * WATER_THROUGH * drop))
    share = WETTED * wetness(up[X])
    return (1.0 - share) * gas, share * water


@compiled
def give_heat(row: Floats, area: float, wall: float, steam: float) -> float:
    """Heat [W] that a space takes from a wall: dry exchange, and condensing or boiling off a film."""
    heat = DRY_WALL * area * (wall - row[T])
    if steam != 0.0:
        film = wetness(row[X]) if wall > row[T_SAT] else 1.0
        heat += film * (WET_WALL - DRY_WALL) * area * (wall - row[T_SAT])
    return heat
