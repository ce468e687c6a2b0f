"""How the numbers of a run lie in the flat arrays that the kernels read: one name for every place.

A kernel that is handed many arrays runs at half the speed of one that is handed few, so a cylinder is packed into one
(`cell`: what fills each space, what holds throughout, how open each way is), beside which there is only what changes
with the crank angle (`turn`) and the steam's curves (`table`).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: Spaces that hold the medium: the two ends, the chest, the exhaust pipe; then three that never change.
HEAD, CRANK, CHEST, PIPE, SUPPLY, OUTSIDE, SHOP = range(7)
SPACES = 7

#: Ways between spaces: openings first, then thin gaps. A flow counts positive from the first space to the second.
(
    WAY_SUPPLY, WAY_STEAM_HEAD, WAY_STEAM_CRANK, WAY_EXHAUST_HEAD, WAY_EXHAUST_CRANK, WAY_STRAIGHT, WAY_AWAY,
    GAP_RINGS, GAP_FACE, GAP_GLAND, GAP_SPINDLE,
) = range(11)  # fmt: skip
WAYS = 11
FIRST_GAP = GAP_RINGS
WAY_FROM = np.array([SUPPLY, CHEST, CHEST, HEAD, CRANK, CHEST, PIPE, HEAD, CHEST, CRANK, CHEST])
WAY_TO = np.array([CHEST, HEAD, CRANK, PIPE, PIPE, PIPE, OUTSIDE, CRANK, PIPE, SHOP, SHOP])
#: The ways that touch each of the four spaces that change, -1 where there are no more.
WAYS_AT = np.array([
    [WAY_STEAM_HEAD, WAY_EXHAUST_HEAD, GAP_RINGS, -1, -1, -1, -1],
    [WAY_STEAM_CRANK, WAY_EXHAUST_CRANK, GAP_RINGS, GAP_GLAND, -1, -1, -1],
    [WAY_SUPPLY, WAY_STEAM_HEAD, WAY_STEAM_CRANK, WAY_STRAIGHT, GAP_FACE, GAP_SPINDLE, -1],
    [WAY_AWAY, WAY_EXHAUST_HEAD, WAY_EXHAUST_CRANK, WAY_STRAIGHT, GAP_FACE, -1, -1],
])  # fmt: skip

#: What is kept of each space, `ROW` places a space from the start of the cell. FLOW to FLOW + 4 are the flow law's
#: terms for what leaves the space, EXPONENT the exponent they were worked out for. BASE is with what the stage begins,
#: SWELLING how the volume grows [m3/s], HEAT what the wall gives [W] and COUPLING how strongly [W/K]; WET and START are
#: the wetness and the mass [kg] with which the step begins, TURN what was there when the turn began, GAIN what comes in
#: a second.
(
    P, MASS, ENERGY, VOLUME, DENSITY, ENTHALPY, TEMPERATURE, DRYNESS, FILM, FLOW, _, _, _, _, EXPONENT,
    BASE_MASS, BASE_ENERGY, SWELLING, HEAT, COUPLING, WET, START, TURN_MASS, TURN_ENERGY, GAIN_MASS, GAIN_ENERGY,
) = range(26)  # fmt: skip
#: Then what the search for its pressure leans on: the pressure of the stage before and how it was rising [Pa/s], how
#: that rise bends in either stage [Pa/s2], the slope of the excess of energy [J/Pa], what is turned over [J], the
#: excess as a logarithm, pressure and excess as marked before a step, and the best pressure seen.
KNOWN, RATE, BEND, _, SLOPE, TURNED, EXCESS, MARK_P, MARK_EXCESS, BEST = range(26, 36)
ROW = 36
#: Where the rows of the spaces at the other ends of `WAYS_AT` begin.
_ITSELF = np.arange(4)[:, None]
THERE_AT = ROW * np.where(WAY_TO[WAYS_AT] == _ITSELF, WAY_FROM[WAYS_AT], WAY_TO[WAYS_AT])

#: Then what holds for the whole cylinder.
(
    STEAM, SPEED, FREE_HEAD, FREE_CRANK, FREE_CHEST, FREE_PIPE, HEATED, WALL, WALL_HEAD, WALL_CRANK, WALL_PER_VOLUME,
    DRY_HEAT, WET_HEAT, LOSS, SHOP_TEMPERATURE, TOLERANCE, MOST_TURNS, GAS_EXPONENT, GAS_R,
) = range(SPACES * ROW, SPACES * ROW + 19)  # fmt: skip
#: Then how the wall fares: heat given to it within the turn [J], its coupling over the turn [J/K], how boldly it is
#: moved, the heat it kept a turn ago [J], the strongest coupling of late [J/K].
WALL_GIVEN, WALL_COUPLING, WALL_BOLD, WALL_KEPT, WALL_ANSWER = range(GAS_R + 1, GAS_R + 6)
#: Then how open each way is: for an opening its area [m2], for a gap whether there is one; and for an opening the flow
#: factor [-] at the pressures last weighed.
OPEN = WALL_ANSWER + 1
FACTOR = OPEN + WAYS
#: Then the gaps, `GAP` places each: gas term, water term, its area as an opening [m2], share filled with water.
GAPS, GAP = FACTOR + WAYS, 4
GAP_GAS, GAP_WATER, GAP_AREA, GAP_WET = range(GAP)
#: Then what solving all spaces together leans on: the stage's implicit part [s], the least excess seen; by how much the
#: stage missed its balance, the worst of the turn, and how many stages did; whether the slopes still serve; the slopes
#: of every space's excess by every pressure; and lines of equations.
SPAN = GAPS + GAP * (WAYS - FIRST_GAP)
LEAST, MISSED, TURN_MISSED, MISSES, SERVING, SLOPES = range(SPAN + 1, SPAN + 7)
LINES, LINE = SLOPES + 16, 5
CELL = LINES + 4 * LINE

#: Columns of `turn`, two rows a step (the two stages): widths of step [rad] first, then volumes and openings.
(
    STEP, VOLUME_HEAD, SWELL_HEAD, VOLUME_CRANK, SWELL_CRANK, OPEN_STEAM_HEAD, OPEN_STEAM_CRANK, OPEN_EXHAUST_HEAD,
    OPEN_EXHAUST_CRANK, OPEN_STRAIGHT,
) = range(10)  # fmt: skip
TURN = 10

#: Columns of what a march leaves behind, two rows a step; HEAT holds the ends' heats [W] and
#: then their couplings [W/K]; SHARE [rad] is the row's part in a
#: sum over the turn, FLOWS and CARRIED are eleven columns each.
OUT_P, OUT_T, OUT_X, OUT_HEAT = 0, 4, 6, 8
OUT_SHARE, OUT_FLOWS, OUT_CARRIED = 12, 13, 24
OUT = 35

#: The scheme: singly diagonally implicit, two stages, second order, L-stable (alexander-1977).
GAMMA = 1.0 - 0.5**0.5
