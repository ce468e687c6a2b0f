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
    EXPONENT,
    FILM,
    FIRST_GAP,
    FLOW,
    GAP,
    GAP_AREA,
    GAP_GAS,
    GAP_WATER,
    GAP_WET,
    GAPS,
    GAS_EXPONENT,
    GAS_R,
    HEAT,
    HEATED,
    MASS,
    OPEN,
    ROW,
    START,
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
    WET,
    WET_HEAT,
    Floats,
    P,
)
from lapwright.medium.compiling import compiled
from lapwright.medium.flow import find_flow_terms, flow_factor
from lapwright.medium.steam import find_inside

#: Steam drier than this leaves less and less of a film of water on walls and in gaps.
DAMP = 0.02
#: Above dry saturation by this share of the evaporation energy, steam flows as superheated.
FULLY_DRY = 0.01
#: The flow law's terms are worked out anew when the exponent has moved by more than this.
SAME_EXPONENT = 1e-4
#: Density of hot water in a gap [kg/m3]: saturated at 3 bar gauge (iapws-r7-97).
WATER = 923.0


@compiled
def wetness(dryness: float) -> float:
    """Return how far what is there wets its walls, 0 (dry) to 1 (a whole film)."""
    return min(1.0, max(0.0, (1.0 - dryness) / DAMP))


@compiled
def find_exponent(dryness: float) -> float:
    """Return steam's isentropic exponent [-]: Zeuner's for wet steam, rising to that of superheated.

    Source: lineham, note to p. 608 (wet: 1.035 + 0.1 x); nozzle tables (superheated: 1.30)
    """
    if dryness <= 1.0:
        return 1.035 + 0.1 * max(dryness, 0.0)
    return 1.135 + 0.165 * min(1.0, (dryness - 1.0) / FULLY_DRY)


@compiled
def set_flow_terms(cell: Floats, space: int) -> None:
    """Work out the flow law's terms for what leaves a space in the next step, from how dry it is."""
    here = space * ROW
    cell[here + WET] = wetness(cell[here + DRYNESS])
    exponent = cell[GAS_EXPONENT] if cell[STEAM] == 0.0 else find_exponent(cell[here + DRYNESS])
    if abs(exponent - cell[here + EXPONENT]) < SAME_EXPONENT:
        return
    cell[here + EXPONENT] = exponent
    critical, choked, inverse, scale, slope = find_flow_terms(exponent)
    cell[here + FLOW] = critical
    cell[here + FLOW + 1] = choked
    cell[here + FLOW + 2] = inverse
    cell[here + FLOW + 3] = scale
    cell[here + FLOW + 4] = slope


@compiled
def push_through(cell: Floats, here: int, ratio: float) -> float:
    """Return the flow factor [-] for what leaves the space at a place of the cell."""
    flow = here + FLOW
    return flow_factor(ratio, cell[flow], cell[flow + 1], cell[flow + 2], cell[flow + 3], cell[flow + 4])


@compiled
def leak_through(cell: Floats, up: int, down_pressure: float, gap: int) -> tuple[float, float]:
    """Return gas and water [kg/s] that a gap lets out of a space: laminar, but never more than an opening passes.

    Source: exact solution for laminar flow between parallel walls (gas: isothermal; water: incompressible)
    """
    p, density = cell[up + P], cell[up + DENSITY]
    open_flow = cell[gap + GAP_AREA] * sqrt(p * density) * push_through(cell, up, down_pressure / p)
    gas = min(cell[gap + GAP_GAS] * (p * p - down_pressure * down_pressure) * density / p, open_flow)
    if cell[gap + GAP_WATER] == 0.0:
        return gas, 0.0
    wet = cell[gap + GAP_WET] * cell[up + WET]
    return (1.0 - wet) * gas, wet * leak_water(cell, gap, p - down_pressure) * cell[up + MASS] / cell[up + START]


@compiled
def leak_water(cell: Floats, gap: int, drop: float) -> float:
    """Return the water [kg/s] that a gap full of it passes under a drop of pressure [Pa].

    Source: exact solution for laminar flow between parallel walls; never more than an opening passes
    """
    return min(cell[gap + GAP_WATER] * drop, cell[gap + GAP_AREA] * sqrt(2.0 * WATER * drop))


@compiled
def weigh_leak(cell: Floats, here: int, p: float, q: float, gap: int) -> tuple[float, float, float]:
    """Return what a gap lets out of a space: gas with the root of its mass, gas with its mass, water with its mass.

    A film runs dry as the space empties, so the water goes with the mass too, and never takes more than there is.
    """
    volume, inside = cell[here + VOLUME], cell[here + DENSITY] * cell[here + VOLUME]
    root = cell[gap + GAP_AREA] * sqrt(p / volume) * push_through(cell, here, q / p)
    line = cell[gap + GAP_GAS] * (p * p - q * q) / (p * volume)
    if line * inside > root * sqrt(inside):
        line = 0.0
    else:
        root = 0.0
    if cell[gap + GAP_WATER] == 0.0:
        return root, line, 0.0
    wet = cell[gap + GAP_WET] * cell[here + WET]
    return (1.0 - wet) * root, (1.0 - wet) * line, wet * leak_water(cell, gap, p - q) / cell[here + START]


@compiled
def exchange_heat(cell: Floats, space: int, saturation: float) -> tuple[float, float]:
    """Return the heat [W] that an end takes from its wall, and how strongly the two are coupled [W/K].

    Below the temperature of saturation the wall condenses steam; above it, it boils off the film while there is any.
    """
    here = space * ROW
    area = cell[WALL_HEAD + space] + cell[WALL_PER_VOLUME] * cell[here + VOLUME]
    wall = cell[WALL]
    coupling = cell[DRY_HEAT] * area
    heat = coupling * (wall - cell[here + TEMPERATURE])
    if cell[STEAM] != 0.0:
        more = (cell[WET_HEAT] - cell[DRY_HEAT]) * area
        if wall > saturation:
            more *= wetness(cell[here + DRYNESS])
        heat += more * (wall - saturation)
        coupling += more
    return heat, coupling


@compiled
def weigh(space: int, p: float, span: float, cell: Floats, table: Floats) -> float:
    """Return the energy left over [J] in a space if its pressure were p [Pa], and note what would fill it.

    `span` is the implicit part of the stage [s]. What leaves goes with the root of the mass inside (openings) or with
    the mass (gaps), so the mass follows in closed form and one unknown is left.
    """
    here = space * ROW
    volume = cell[here + VOLUME]
    mass = cell[here + BASE_MASS]
    energy = cell[here + BASE_ENERGY] - span * p * cell[here + SWELLING]
    by_root, by_mass, by_film = 0.0, 0.0, 0.0
    for n in range(WAYS_AT.shape[1]):
        way = WAYS_AT[space, n]
        if way < 0:
            break
        opening = span * cell[OPEN + way]
        if opening == 0.0:
            continue
        there = ROW * (WAY_TO[way] if WAY_FROM[way] == space else WAY_FROM[way])
        q = cell[there + P]
        if way < FIRST_GAP:
            if q > p:
                flow = opening * sqrt(q * cell[there + DENSITY]) * push_through(cell, there, p / q)
                mass += flow
                energy += flow * cell[there + ENTHALPY]
            elif p > q:
                by_root += opening * sqrt(p / volume) * push_through(cell, here, q / p)
            continue
        gap = GAPS + GAP * (way - FIRST_GAP)
        if q > p:
            gas, water = leak_through(cell, there, p, gap)
            mass += span * (gas + water)
            energy += span * (gas * cell[there + ENTHALPY] + water * cell[there + FILM])
        elif p > q:
            root, line, water = weigh_leak(cell, here, p, q, gap)
            by_root += span * root
            by_mass += span * line
            by_film += span * water
    all_by_mass = 1.0 + by_mass + by_film
    root = 2.0 * mass / (by_root + sqrt(by_root * by_root + 4.0 * all_by_mass * mass))
    left = root * root
    note_inside(space, p, left, cell, table)
    gone = (by_root * root + by_mass * left) * cell[here + ENTHALPY] + by_film * left * cell[here + FILM]
    return cell[here + ENERGY] + gone - energy - span * cell[here + HEAT]


@compiled
def note_inside(space: int, p: float, mass: float, cell: Floats, table: Floats) -> None:
    """Write down what fills a space at a pressure [Pa] with a mass [kg] inside, and what heat its wall gives."""
    here = space * ROW
    specific = cell[here + VOLUME] / mass
    saturation = 0.0
    if cell[STEAM] == 0.0:
        inner = p * specific / (cell[GAS_EXPONENT] - 1.0)
        cell[here + TEMPERATURE] = p * specific / cell[GAS_R]
    else:
        inner, temperature, dryness, saturation, film = find_inside(table, p, specific)
        cell[here + TEMPERATURE] = temperature
        cell[here + DRYNESS] = dryness
        cell[here + FILM] = film
    cell[here + P] = p
    cell[here + MASS] = mass
    cell[here + ENERGY] = mass * inner
    cell[here + DENSITY] = 1.0 / specific
    cell[here + ENTHALPY] = inner + p * specific
    if cell[HEATED] != 0.0 and space <= CRANK:
        cell[here + HEAT], cell[here + COUPLING] = exchange_heat(cell, space, saturation)
