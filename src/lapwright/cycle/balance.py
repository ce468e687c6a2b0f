"""The balance of one space within one stage: how much energy is left over at a pressure tried."""

from __future__ import annotations

from math import sqrt

from lapwright.cycle.layout import (
    BASE_ENERGY,
    BASE_MASS,
    COUPLING,
    CRANK,
    DENSITY,
    DRY_HEAT,
    DRYNESS,
    ENERGY,
    ENTHALPY,
    FILM,
    FIRST_GAP,
    FLOW,
    Floats,
    GAP_AREA,
    GAP_GAS,
    GAP_WATER,
    GAP_WET,
    GAS_EXPONENT,
    GAS_R,
    HEAT,
    HEATED,
    MASS,
    P,
    STEAM,
    SWELLING,
    TEMPERATURE,
    VOLUME,
    WALL,
    WALL_HEAD,
    WALL_PER_VOLUME,
    WAY_FROM,
    WAY_TO,
    WAYS_AT,
    WET_HEAT,
)
from lapwright.medium.compiling import compiled
from lapwright.medium.flow import find_flow_terms, flow_factor
from lapwright.medium.steam import find_inside

#: Steam drier than this leaves less and less of a film of water on walls and in gaps.
DAMP = 0.02
#: Above dry saturation by this share of the evaporation heat, steam flows as superheated.
FULLY_DRY = 0.01

#: Density of hot water in a gap [kg/m3]: saturated at 3 bar gauge (IF97).
WATER = 923.0


@compiled
def wetness(dryness: float) -> float:
    """Return how far what is there wets its walls, 0 (dry) to 1 (a whole film)."""
    return min(1.0, max(0.0, (1.0 - dryness) / DAMP))


@compiled
def set_flow_terms(state: Floats, space: int, par: Floats) -> None:
    """Work out the flow law's terms for what leaves a space from how dry it is."""
    if par[STEAM] == 0.0:
        exponent = par[GAS_EXPONENT]
    else:
        x = state[space, DRYNESS]
        if x <= 1.0:
            exponent = 1.035 + 0.1 * max(x, 0.0)
        else:
            exponent = 1.135 + 0.165 * min(1.0, (x - 1.0) / FULLY_DRY)
    critical, choked, inverse, scale, slope = find_flow_terms(exponent)
    state[space, FLOW] = critical
    state[space, FLOW + 1] = choked
    state[space, FLOW + 2] = inverse
    state[space, FLOW + 3] = scale
    state[space, FLOW + 4] = slope


@compiled
def push_through(state: Floats, space: int, ratio: float) -> float:
    """Return the flow factor for what leaves a space."""
    return flow_factor(
        ratio,
        state[space, FLOW],
        state[space, FLOW + 1],
        state[space, FLOW + 2],
        state[space, FLOW + 3],
        state[space, FLOW + 4],
    )


@compiled
def leak_through(state: Floats, up: int, down_pressure: float, gap: Floats) -> tuple[float, float]:
    """Return gas and water [kg/s] that leave a space through a gap: laminar, but never more than an opening passes.

    Source: exact solution for laminar flow between parallel walls (gas: isothermal; water: incompressible)
    """
    p, density = state[up, P], state[up, DENSITY]
    open_flow = gap[GAP_AREA] * sqrt(p * density) * push_through(state, up, down_pressure / p)
    gas = min(gap[GAP_GAS] * (p * p - down_pressure * down_pressure) * density / p, open_flow)
    if gap[GAP_WATER] == 0.0:
        return gas, 0.0
    wet = gap[GAP_WET] * wetness(state[up, DRYNESS])
    drop = p - down_pressure
    water = min(gap[GAP_WATER] * drop, gap[GAP_AREA] * sqrt(2.0 * WATER * drop))
    return (1.0 - wet) * gas, wet * water


@compiled
def exchange_heat(par: Floats, state: Floats, space: int, saturation: float) -> tuple[float, float]:
    """Return the heat [W] that an end takes from its wall, and how strongly the two are coupled [W/K].

    Below the temperature of saturation the wall condenses steam; above it, it boils off the film while there is any.
    """
    area = par[WALL_HEAD + space] + par[WALL_PER_VOLUME] * state[space, VOLUME]
    wall = par[WALL]
    heat = par[DRY_HEAT] * area * (wall - state[space, TEMPERATURE])
    coupling = par[DRY_HEAT] * area
    if par[STEAM] != 0.0:
        more = (par[WET_HEAT] - par[DRY_HEAT]) * area
        if wall > saturation:
            more *= wetness(state[space, DRYNESS])
        heat += more * (wall - saturation)
        coupling += more
    return heat, coupling


@compiled
def weigh(
    space: int, p: float, span: float, par: Floats, table: Floats, state: Floats, ways: Floats, gaps: Floats
) -> float:
    """Return the energy left over [J] in a space if its pressure were p, and note what would fill it.

    `span` is the implicit part of the stage [s]. What leaves goes with the root of the mass inside (openings) or with
    the mass (gaps), so the mass follows in closed form and one unknown is left.
    """
    volume = state[space, VOLUME]
    mass = state[space, BASE_MASS]
    energy = state[space, BASE_ENERGY] - span * p * state[space, SWELLING]
    by_root, by_mass = 0.0, 0.0
    for n in range(WAYS_AT.shape[1]):
        way = WAYS_AT[space, n]
        if way < 0:
            break
        if ways[way] == 0.0:
            continue
        other = WAY_TO[way] if WAY_FROM[way] == space else WAY_FROM[way]
        q = state[other, P]
        if way < FIRST_GAP:
            if q > p:
                flow = span * ways[way] * sqrt(q * state[other, DENSITY]) * push_through(state, other, p / q)
                mass += flow
                energy += flow * state[other, ENTHALPY]
            elif p > q:
                by_root += span * ways[way] * sqrt(p / volume) * push_through(state, space, q / p)
        elif q > p:
            gas, water = leak_through(state, other, p, gaps[way - FIRST_GAP])
            mass += span * (gas + water)
            energy += span * (gas * state[other, ENTHALPY] + water * state[other, FILM])
        elif p > q:
            root, line, film = weigh_leak(state, space, p, q, gaps[way - FIRST_GAP])
            by_root += span * root
            by_mass += span * line
            mass -= span * film
            energy -= span * film * state[space, FILM]
    mass = max(mass, 1e-6 * state[space, BASE_MASS])
    root = 2.0 * mass / (by_root + sqrt(by_root * by_root + 4.0 * (1.0 + by_mass) * mass))
    left = root * root
    return note_inside(space, p, span, par, table, state, left, by_root * root + by_mass * left, energy)


@compiled
def weigh_leak(state: Floats, space: int, p: float, q: float, gap: Floats) -> tuple[float, float, float]:
    """Return what a gap lets out of a space: the parts that go with the root of its mass, with its mass, with neither."""
    volume, density = state[space, VOLUME], state[space, DENSITY]
    root = gap[GAP_AREA] * sqrt(p / volume) * push_through(state, space, q / p)
    line = gap[GAP_GAS] * (p * p - q * q) / (p * volume)
    inside = density * volume
    if line * inside > root * sqrt(inside):
        line = 0.0
    else:
        root = 0.0
    if gap[GAP_WATER] == 0.0:
        return root, line, 0.0
    wet = gap[GAP_WET] * wetness(state[space, DRYNESS])
    water = min(gap[GAP_WATER] * (p - q), gap[GAP_AREA] * sqrt(2.0 * WATER * (p - q)))
    return (1.0 - wet) * root, (1.0 - wet) * line, wet * water


@compiled
def note_inside(
    space: int,
    p: float,
    span: float,
    par: Floats,
    table: Floats,
    state: Floats,
    mass: float,
    gone: float,
    energy: float,
) -> float:
    """Write down what fills a space at pressure and mass, and return the energy left over [J]."""
    volume = state[space, VOLUME]
    specific = volume / mass
    if par[STEAM] == 0.0:
        inner = p * specific / (par[GAS_EXPONENT] - 1.0)
        temperature, dryness, saturation, film = p * specific / par[GAS_R], 1.0, 0.0, 0.0
    else:
        inner, temperature, dryness, saturation, film = find_inside(table, p, specific)
    state[space, P] = p
    state[space, MASS] = mass
    state[space, ENERGY] = mass * inner
    state[space, DENSITY] = 1.0 / specific
    state[space, ENTHALPY] = inner + p * specific
    state[space, TEMPERATURE] = temperature
    state[space, DRYNESS] = dryness
    state[space, FILM] = film
    heat = 0.0
    if par[HEATED] != 0.0 and space <= CRANK:
        heat, coupling = exchange_heat(par, state, space, saturation)
        state[space, HEAT] = heat
        state[space, COUPLING] = coupling
    return mass * inner + gone * state[space, ENTHALPY] - energy - span * heat
