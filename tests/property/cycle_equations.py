"""The equations of the cycle's authority, written afresh and compiled: nothing here comes from the kernels.

Piston, valve and ports are pins and edges in a plane. Steam's pressure, temperature and dryness come from its energy
and volume by inverting IF97 itself. What flows, what leaks and what a wall gives is written from the laws.
All that is compiled stands in this one file, so that a change in any of it is seen.
"""

from __future__ import annotations

from math import cos, exp, hypot, isnan, log, sin, sqrt

import numpy as np
from numpy.typing import NDArray

from lapwright.medium import if97
from lapwright.medium.compiling import compiled

Floats = NDArray[np.float64]

HEAD, CRANK, CHEST, PIPE, BOILER, OPEN_AIR, ROOM = range(7)
#: What is known of the medium in a space: pressure, density, enthalpy, temperature, dryness, enthalpy of its water,
#: temperature of saturation.
P, RHO, H, T, X, WATER_H, T_SAT = range(7)
#: Gaps: from, to, width x height^3 / length, width x height.
GAP_FROM, GAP_TO, GAP_CUBE, GAP_AREA = range(4)
#: What a case holds throughout: is it steam, opening area to a width, passage's area (0: as the port), is steam let in
#: inside, speed, areas of the supply and the exhaust pipe, exhaust pressure; then the wall's temperature, its flat area
#: and what it has to a volume; then the figures that both sides take alike: viscosities of gas and water, density
#: of water in a gap and through an opening, share of a gap that a film fills, dryness over which a film
#: vanishes and over which steam flows as superheated, heat passed on by a dry and a wet wall.
(
    STEAM, PER_WIDTH, PASSAGE, INSIDE, SPEED, SUPPLY_AREA, EXHAUST_AREA, BACK, WALL, FLAT, PER_VOLUME,
    VISCOUS, WATER_VISCOUS, WATER_IN_GAP, WATER_THROUGH, WETTED, DAMP, FULLY_DRY, DRY_WALL, WET_WALL,
) = range(20)  # fmt: skip
WHOLE = 20
AIR_K, AIR_R = 1.4, 287.05
#: Where the flow law turns straight: a drop of a thousandth.
SMALL = 1e-3


# --- steam, from its energy and volume ---


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


# --- flow and heat ---


@compiled
def flow_exponent(x: float, whole: Floats) -> float:
    """Zeuner's exponent for wet steam, that of superheated steam a hundredth beyond dry; 1.4 for air."""
    if whole[STEAM] == 0.0:
        return AIR_K
    if x <= 1.0:
        return 1.035 + 0.1 * max(x, 0.0)
    return 1.135 + 0.165 * min(1.0, (x - 1.0) / whole[FULLY_DRY])


@compiled
def st_venant(ratio: float, k: float) -> float:
    """Mass flow over area x root of (pressure x density), all upstream."""
    least = max(ratio, (2.0 / (k + 1.0)) ** (k / (k - 1.0)))
    r = min(least, 1.0 - SMALL)
    factor = sqrt(2.0 * k / (k - 1.0) * (r ** (2.0 / k) - r ** ((k + 1.0) / k)))
    return factor * min(1.0, (1.0 - ratio) / SMALL)


@compiled
def through_opening(area: float, up: Floats, down_p: float, whole: Floats) -> float:
    """Mass [kg/s] through an opening."""
    return area * sqrt(up[P] * up[RHO]) * st_venant(down_p / up[P], flow_exponent(up[X], whole))


@compiled
def wetness(x: float, whole: Floats) -> float:
    """A whole film of water on walls and in gaps where it is damp enough, none where dry."""
    return min(1.0, max(0.0, (1.0 - x) / whole[DAMP]))


@compiled
def through_gap(gap: Floats, up: Floats, down_p: float, whole: Floats) -> tuple[float, float]:
    """Gas and water [kg/s] through a thin gap: laminar, never more than an opening of its size would pass."""
    r_t = up[P] / up[RHO]
    gas = gap[GAP_CUBE] * (up[P] ** 2 - down_p**2) / (24.0 * whole[VISCOUS] * r_t)
    gas = min(gas, through_opening(gap[GAP_AREA], up, down_p, whole))
    if whole[STEAM] == 0.0:
        return gas, 0.0
    drop = up[P] - down_p
    water = whole[WATER_IN_GAP] * gap[GAP_CUBE] * drop / (12.0 * whole[WATER_VISCOUS])
    water = min(water, gap[GAP_AREA] * sqrt(2.0 * whole[WATER_THROUGH] * drop))
    share = whole[WETTED] * wetness(up[X], whole)
    return (1.0 - share) * gas, share * water


@compiled
def give_heat(row: Floats, area: float, whole: Floats) -> float:
    """Heat [W] that a space takes from a wall: dry exchange, and condensing or boiling off a film."""
    heat = whole[DRY_WALL] * area * (whole[WALL] - row[T])
    if whole[STEAM] != 0.0:
        film = wetness(row[X], whole) if whole[WALL] > row[T_SAT] else 1.0
        heat += film * (whole[WET_WALL] - whole[DRY_WALL]) * area * (whole[WALL] - row[T_SAT])
    return heat


# --- where everything stands ---


@compiled
def _rod_end(link: Floats, angle: float) -> float:
    throw, rod, line = link[0], link[1], link[2]
    return throw * cos(angle) + sqrt(rod**2 - (line - throw * sin(angle)) ** 2)


@compiled
def _rod_end_speed(link: Floats, angle: float) -> float:
    throw, rod, line = link[0], link[1], link[2]
    across = line - throw * sin(angle)
    return -throw * sin(angle) + across * throw * cos(angle) / sqrt(rod**2 - across**2)


@compiled
def _overlap(low: float, high: float, other_low: float, other_high: float) -> float:
    return max(0.0, min(high, other_high) - max(low, other_low))


@compiled
def _both(one: float, other: float) -> float:
    """One opening behind another: losses of pressure add, each as the square of flow over opening."""
    return 0.0 if one == 0.0 or other == 0.0 else one * other / hypot(one, other)


@compiled
def open_ways(angle: float, gear: Floats, edges: Floats, whole: Floats) -> Floats:
    """Areas [m2], coefficient and all: steam to the ends, exhaust from the ends, straight through, the two pipes."""
    face, bars = edges[:6], edges[6:]
    valve = gear[4] * (_rod_end(gear, angle + gear[3]) - gear[5]) + gear[6]
    low, high, cavity_low, cavity_high = valve + bars[3], valve + bars[0], valve + bars[2], valve + bars[1]
    middle = whole[PER_WIDTH] * _overlap(cavity_low, cavity_high, face[3], face[2])
    areas = np.zeros(7)
    for end in range(2):
        port_low, port_high = face[1 + 4 * end], face[4 * end]
        outer = whole[PER_WIDTH] * (port_high - port_low - _overlap(low, high, port_low, port_high))
        under = _both(whole[PER_WIDTH] * _overlap(cavity_low, cavity_high, port_low, port_high), middle)
        steam, exhaust = (under, outer) if whole[INSIDE] != 0.0 else (outer, under)
        if whole[PASSAGE] > 0.0:
            steam, exhaust = _both(steam, whole[PASSAGE]), _both(exhaust, whole[PASSAGE])
        areas[end], areas[2 + end] = steam, exhaust
    areas[4] = whole[PER_WIDTH] * (face[2] - face[3] - _overlap(low, high, face[3], face[2]))
    areas[5], areas[6] = whole[SUPPLY_AREA], whole[EXHAUST_AREA]
    return areas


@compiled
def find_volumes(angle: float, crank: Floats, ends: Floats) -> tuple[Floats, Floats]:
    """Volumes of the four spaces [m3] and how they grow [m3/rad]."""
    gone, quick = crank[3] - _rod_end(crank, angle), -_rod_end_speed(crank, angle)
    volumes, growth = np.zeros(4), np.zeros(4)
    volumes[HEAD], growth[HEAD] = ends[0] + ends[1] * gone, ends[1] * quick
    volumes[CRANK], growth[CRANK] = ends[2] + ends[3] * (crank[4] - gone), -ends[3] * quick
    volumes[CHEST], volumes[PIPE] = ends[4], ends[5]
    return volumes, growth


# --- the equations ---


@compiled
def fill_spaces(state: Floats, volumes: Floats, fixed: Floats, scales: Floats, memory: Floats) -> Floats:
    """What is in every space, from mass and energy where those change."""
    spaces = fixed.copy()
    for space in range(4):
        if scales[space, 0] == 0.0:
            continue
        m, energy = state[2 * space] * scales[space, 0], state[2 * space + 1] * scales[space, 1]
        u, v, row = energy / m, volumes[space] / m, spaces[space]
        if memory[space, 0] > 0.0:
            find_steam(u, v, memory[space], row)
            continue
        row[T] = u * (AIR_K - 1.0) / AIR_R
        row[P], row[RHO], row[H], row[X] = AIR_R * row[T] / v, 1.0 / v, AIR_K * u, 1.0
    return spaces


@compiled
def pass_openings(spaces: Floats, areas: Floats, gains: Floats, whole: Floats) -> float:
    """Add what flows through the openings to the spaces' gains; return what the ports let in [kg/s]."""
    froms, tos = (CHEST, CHEST, HEAD, CRANK, CHEST, BOILER, PIPE), (HEAD, CRANK, PIPE, PIPE, PIPE, CHEST, OPEN_AIR)
    let_in = 0.0
    for n in range(7):
        if areas[n] <= 0.0:
            continue
        up, down, sign = froms[n], tos[n], 1.0
        if spaces[up, P] < spaces[down, P]:
            up, down, sign = down, up, -1.0
        flow = through_opening(areas[n], spaces[up], spaces[down, P], whole)
        gains[up, 0] -= flow
        gains[down, 0] += flow
        gains[up, 1] -= flow * spaces[up, H]
        gains[down, 1] += flow * spaces[up, H]
        if n < 2:
            let_in += sign * flow
    return let_in


@compiled
def pass_gaps(spaces: Floats, gaps: Floats, gains: Floats, whole: Floats) -> None:
    """Add what leaks to the spaces' gains."""
    for n in range(gaps.shape[0]):
        up, down = int(gaps[n, GAP_FROM]), int(gaps[n, GAP_TO])
        if spaces[up, P] < spaces[down, P]:
            up, down = down, up
        gas, water = through_gap(gaps[n], spaces[up], spaces[down, P], whole)
        carried = gas * spaces[up, H] + water * spaces[up, WATER_H]
        gains[up, 0] -= gas + water
        gains[down, 0] += gas + water
        gains[up, 1] -= carried
        gains[down, 1] += carried


@compiled
def find_rates(
    angle: float, state: Floats, crank: Floats, gear: Floats, edges: Floats, ends: Floats, gaps: Floats,
    fixed: Floats, scales: Floats, whole: Floats, memory: Floats,
) -> Floats:  # fmt: skip
    """How everything sought changes with the angle: the spaces' masses and energies, works, steam let in and drawn."""
    volumes, growth = find_volumes(angle, crank, ends)
    spaces = fill_spaces(state, volumes, fixed, scales, memory)
    gains = np.zeros((7, 2))
    let_in = pass_openings(spaces, open_ways(angle, gear, edges, whole), gains, whole)
    pass_gaps(spaces, gaps, gains, whole)
    rates = np.zeros(12)
    for space in range(4):
        if scales[space, 0] == 0.0:
            continue
        if space <= CRANK:
            gains[space, 1] -= spaces[space, P] * growth[space] * whole[SPEED]
            rates[8 + space] = (spaces[space, P] - whole[BACK]) * growth[space] / scales[4, 0]
            if whole[WALL] > 0.0:
                area = whole[FLAT] + whole[PER_VOLUME] * volumes[space]
                gains[space, 1] += give_heat(spaces[space], area, whole)
        rates[2 * space] = gains[space, 0] / scales[space, 0] / whole[SPEED]
        rates[2 * space + 1] = gains[space, 1] / scales[space, 1] / whole[SPEED]
    rates[10] = let_in / scales[4, 1] / whole[SPEED]
    rates[11] = -gains[BOILER if scales[CHEST, 0] != 0.0 else CHEST, 0] / scales[4, 1] / whole[SPEED]
    return rates
