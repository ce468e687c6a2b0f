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
    FACTOR,
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
    THERE_AT,
    TURNED,
    VOLUME,
    WALL,
    WALL_HEAD,
    WALL_PER_VOLUME,
    WAYS_AT,
    WET,
    WET_HEAT,
    Floats,
    P,
)
from lapwright.medium.compiling import inlined, lean
from lapwright.medium.flow import find_flow_terms, flow_factor
from lapwright.medium.steam import find_inside, find_volumes

#: A space is in balance when the energy left over is less than this share of its measure.
FINE = 1e-9
#: Steam drier than this leaves less and less of a film of water on walls and in gaps.
DAMP = 0.02
#: Above dry saturation by this share of the evaporation energy, steam flows as superheated.
FULLY_DRY = 0.01
#: The flow law's terms are worked out anew when the exponent has moved by more than this.
SAME_EXPONENT = 1e-4
#: Density of hot water in a gap, at about 150 degC [kg/m3] (iapws-r7-97).
WATER = 917.0


@inlined
def wetness(dryness: float) -> float:
    """Return how far what is of a dryness [-] wets its walls, 0 (dry) to 1 (a whole film)."""
    return min(1.0, max(0.0, (1.0 - dryness) / DAMP))


@lean
def find_exponent(dryness: float) -> float:
    """Return steam's isentropic exponent [-]: Zeuner's for wet steam, rising to that of superheated.

    Source: lineham, note to p. 608 (wet: 1.035 + 0.1 x); nozzle tables (superheated: 1.30)
    """
    if dryness <= 1.0:
        return 1.035 + 0.1 * max(dryness, 0.0)
    return 1.135 + 0.165 * min(1.0, (dryness - 1.0) / FULLY_DRY)


@lean
def set_flow_terms(cell: Floats, space: int) -> None:
    """Work out the flow law's terms for what leaves a space of a cell [SI] in the next step, from how dry it is."""
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


@inlined
def push_through(cell: Floats, here: int, ratio: float) -> float:
    """Return the flow factor [-] for what leaves the space at a place of the cell."""
    flow = here + FLOW
    return flow_factor(ratio, cell[flow], cell[flow + 1], cell[flow + 2], cell[flow + 3], cell[flow + 4])


@inlined
def is_narrow(cell: Floats, up: int, p: float, q: float, gap: int) -> bool:
    """Say whether a gap surely passes less than an opening of its area would, at pressures p and q [Pa].

    From choked to none the flow factor bulges above the straight line, so no power is wanted to tell.
    """
    if q < cell[up + FLOW] * p:
        return False
    line = cell[up + FLOW + 1] / (1.0 - cell[up + FLOW])
    surely: bool = cell[gap + GAP_GAS] * (p + q) * sqrt(cell[up + DENSITY] / p) < cell[gap + GAP_AREA] * line
    return surely


@inlined
def leak_through(cell: Floats, up: int, down_pressure: float, gap: int) -> tuple[float, float]:
    """Return gas and water [kg/s] that a gap lets out to a pressure [Pa]: never more than an opening passes.

    Source: exact geometry (laminar flow between parallel walls; gas isothermal, water incompressible)
    """
    p, density = cell[up + P], cell[up + DENSITY]
    gas = cell[gap + GAP_GAS] * (p * p - down_pressure * down_pressure) * density / p
    if not is_narrow(cell, up, p, down_pressure, gap):
        gas = min(gas, cell[gap + GAP_AREA] * sqrt(p * density) * push_through(cell, up, down_pressure / p))
    if cell[gap + GAP_WATER] == 0.0:
        return gas, 0.0
    film = cell[gap + GAP_WET] * wetness(cell[up + DRYNESS]) * leak_water(cell, gap, p - down_pressure)
    return (1.0 - cell[gap + GAP_WET] * cell[up + WET]) * gas, film * cell[up + MASS] / cell[up + START]


@inlined
def leak_water(cell: Floats, gap: int, drop: float) -> float:
    """Return the water [kg/s] that a gap full of it passes under a drop of pressure [Pa].

    Source: exact geometry (laminar flow between parallel walls); never more than an opening passes
    """
    water: float = min(cell[gap + GAP_WATER] * drop, cell[gap + GAP_AREA] * sqrt(2.0 * WATER * drop))
    return water


@inlined
def weigh_leak(cell: Floats, here: int, p: float, q: float, gap: int) -> tuple[float, float, float]:
    """Return what a gap lets out of a space: gas with the root of its mass, gas with its mass, a whole film with it.

    The pressures are p inside and q outside [Pa]. A film runs dry as the space empties, so it goes with the mass too.
    """
    volume = cell[here + VOLUME]
    root, line = 0.0, cell[gap + GAP_GAS] * (p * p - q * q) / (p * volume)
    if not is_narrow(cell, here, p, q, gap):
        inside = cell[here + DENSITY] * volume
        root = cell[gap + GAP_AREA] * sqrt(p / volume) * push_through(cell, here, q / p)
        if line * inside > root * sqrt(inside):
            line = 0.0
        else:
            root = 0.0
    if cell[gap + GAP_WATER] == 0.0:
        return root, line, 0.0
    gas = 1.0 - cell[gap + GAP_WET] * cell[here + WET]
    return gas * root, gas * line, cell[gap + GAP_WET] * leak_water(cell, gap, p - q) / cell[here + START]


@inlined
def settle_mass(mass: float, by_root: float, by_mass: float) -> float:
    """Return the root of the mass [kg] that stays of a mass, where so much leaves with the root and with the mass."""
    root: float = 2.0 * mass / (by_root + sqrt(by_root * by_root + 4.0 * (1.0 + by_mass) * mass))
    return root


@lean
def settle_film(
    mass: float, by_root: float, by_mass: float, film: float, volume: float, water: float, dry: float
) -> tuple[float, float]:
    """Return the root of the mass [kg] that stays of a mass [kg], and the water [kg] that leaves as a film.

    A whole film leaves with the mass; where less water is left than wets the walls, with the water; without any, none.
    It is found with the mass that it leaves behind: told from the step before, it would go by fits and starts.

    Parameters
    ----------
    mass: before anything left [kg]
    by_root, by_mass: what leaves with the root of the mass [kg^1/2] and with the mass [-]
    film: what leaves with the mass as a whole film [-]
    volume: of the space [m3]
    water, dry: specific volumes of water and of dry steam at its pressure [m3/kg]
    """
    root = settle_mass(mass, by_root, by_mass + film)
    per_mass, none = (1.0 + water / (dry - water)) / DAMP, volume / ((dry - water) * DAMP)
    if per_mass * root * root - none >= root * root:
        return root, film * root * root
    root = settle_mass(mass + film * none, by_root, by_mass + film * per_mass)
    if per_mass * root * root > none:
        return root, film * (per_mass * root * root - none)
    return settle_mass(mass, by_root, by_mass), 0.0


@inlined
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


@inlined
def weigh(space: int, p: float, span: float, cell: Floats, table: Floats) -> float:
    """Return the energy left over [J] in a space if its pressure were p [Pa], and note what would fill it.

    `span` is the implicit part of the stage [s]. What leaves goes with the root of the mass inside (openings) or with
    the mass (gaps), so the mass follows in closed form and one unknown is left. Besides, all that is held at the end,
    given off or done as work is noted as turned over.
    """
    here = space * ROW
    volume = cell[here + VOLUME]
    mass = cell[here + BASE_MASS]
    energy = cell[here + BASE_ENERGY]
    work = span * p * cell[here + SWELLING]
    by_root, by_mass, film = 0.0, 0.0, 0.0
    for n in range(WAYS_AT.shape[1]):
        way = WAYS_AT[space, n]
        if way < 0:
            break
        opening = span * cell[OPEN + way]
        if opening == 0.0:
            continue
        there = THERE_AT[space, n]
        q = cell[there + P]
        if way < FIRST_GAP:
            if q > p:
                factor = push_through(cell, there, p / q)
                flow = opening * sqrt(q * cell[there + DENSITY]) * factor
                mass += flow
                energy += flow * cell[there + ENTHALPY]
            elif p > q:
                factor = push_through(cell, here, q / p)
                by_root += opening * sqrt(p / volume) * factor
            else:
                factor = 0.0
            cell[FACTOR + way] = factor
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
            film += span * water
    drained = 0.0
    if film > 0.0:
        water, dry = find_volumes(table, p)
        root, drained = settle_film(mass, by_root, by_mass, film, volume, water, dry)
    else:
        root = settle_mass(mass, by_root, by_mass)
    left = root * root
    note_inside(space, p, left, cell, table)
    gone = (by_root * root + by_mass * left) * cell[here + ENTHALPY] + drained * cell[here + FILM]
    heat = span * cell[here + HEAT]
    cell[here + TURNED] = cell[here + ENERGY] + gone + max(work, 0.0) - min(heat, 0.0)
    excess: float = cell[here + ENERGY] + gone + work - energy - heat
    return excess


@inlined
def find_measure(space: int, cell: Floats) -> float:
    """Return the energy [J] against which the excess of a space just weighed is judged: what it holds, roughly.

    Where far more is turned over than it holds, no more than rounding allows is asked.
    """
    here = space * ROW
    measure: float = max(2.5 * cell[here + P] * cell[here + VOLUME], 0.1 * cell[here + TURNED])
    return measure


@inlined
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
