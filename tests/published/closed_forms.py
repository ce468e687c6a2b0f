"""Closed forms that every run has to obey: on paper, through an opening, in a shut or filling space, round the turn."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import pi, sqrt

import numpy as np

from lapwright.cycle.answers import CylinderRun
from lapwright.cycle.cards import free_air_by_rule, ideal_mean_pressure, swept_volume
from lapwright.cycle.engine_run import EngineRun
from lapwright.cycle.layout import Floats
from lapwright.cycle.starting import find_starting
from lapwright.engine.sizes import Sizes
from lapwright.medium import air
from lapwright.medium.flow import find_flow_terms, flow_factor
from lapwright.motion.answers import set_moving
from lapwright.motion.ways import place_piston
from tests.published.figure import Figure, Row
from tests.published.running import mean_pressure, on_air, prepare, run, run_one, small_engine, trial_on_air
from tests.published.spaces import expand_shut, fill_vessel, leak_past_piston, march_for_balance
from tests.published.water_figures import count_places, half_unit

SOURCE = "closed-forms"
#: Expansions, and mean forward pressure over initial pressure [-].
HYPERBOLIC = {
    1: 1.0, 1.5: 0.9369767387, 2: 0.8465735903, 4: 0.5965735903, 5: 0.5218875825,
    6: 0.4652932449, 8: 0.3849301927, 10: 0.3302585093,
}  # fmt: skip
#: Exponent of the expansion and mean effective pressure [Pa]: 4.01325 to 1.01325 bar, cut-off 0.5, clearance 8 %.
POLYTROPIC = {1.0: 244046.9336, 1.135: 238140.7343, 1.4: 227457.2659}
#: Exponent of the medium; critical pressure ratio and flow factor [-].
CRITICAL = {1.4: (0.5282817877, 0.6847314564), 1.3: (0.5457277338, 0.6672623512), 1.135: (0.5774304, 0.6355965293)}
#: Pressure ratio and air [g/s] through a square millimetre from 3.01325 bar and 20 degC.
AIR_FLOWS = {0.2: 0.7112654613, 0.528: 0.7112654613, 0.6: 0.7031463723, 0.9: 0.4389562802, 0.99: 0.1461124793}
#: A valve without lap and lead.
SQUARE = {"lap": 0.0, "lead": 0.0, "exhaust_lap": 0.0}
#: Valves that are set as badly as can be, besides the trial's own.
ODD = (
    SQUARE,
    {"advance": 0.0},
    {"lap": 0.1, "advance": 0.9},
    {"exhaust_lap": -1.0},
    {"lap": 3.0},
    {"lead": 1.0},
    {"lap": -0.5},
)


def digits(what: str, theirs: float, ours: partial[float], *, unit: str = "", count: int = 9) -> Figure:
    """A figure that has to agree to so many digits."""
    return Figure(
        what=what,
        theirs=theirs,
        ours=ours,
        unit=unit,
        within=half_unit(theirs, count),
        places=count_places(theirs, count),
    )


def near(what: str, theirs: float, ours: partial[float], *, unit: str = "", share: float, count: int = 6) -> Figure:
    """A figure that a run has to meet to within a share of it."""
    places = count_places(theirs, count)
    return Figure(what=what, theirs=theirs, ours=ours, unit=unit, within=share * abs(theirs), places=places)


def nothing(what: str, ours: partial[float], *, within: float, places: int = 8) -> Figure:
    """A difference that has to vanish."""
    return Figure(what=what, theirs=0.0, ours=ours, within=within, places=places)


def row(key: str, locator: str, *figures: Figure, note: str = "") -> Row:
    return Row(id=key, source=SOURCE, locator=locator, kind="derived", figures=figures, note=note)


def hyperbolic(expansions: float) -> float:
    return ideal_mean_pressure(1.0, 1 / expansions, back=0.0)


def polytropic(exponent: float) -> float:
    return ideal_mean_pressure(401325.0, 0.5, back=101325.0, clearance=0.08, exponent=exponent)


def flow_term(exponent: float, which: int) -> float:
    return find_flow_terms(exponent)[which]


def air_flow(ratio: float) -> float:
    pressure = 301325.0
    density = pressure / (air.GAS_CONSTANT * 293.15)
    return 1e-3 * sqrt(pressure * density) * flow_factor(ratio, *find_flow_terms(air.EXPONENT))


def shut(what: str, *, warmed: bool) -> float:
    return float(getattr(expand_shut(warmed=warmed), what))


def creeping(**changes: float) -> CylinderRun:
    """The trial's engine with a square valve, so slow that the pressures have all the time they want."""
    return run_one(on_air(2.0, 0.5), small_engine(**SQUARE, **changes))  # type: ignore[arg-type]


def end_pressure(end: str) -> float:
    return creeping().ends[end].mean_effective_pressure


def piston(which: int) -> float:
    moving = set_moving(small_engine())
    assert moving.piston is not None
    return float(place_piston(moving.piston, np.array([pi / 2]))[which][0]) * 1e3


def torque_against_work() -> float:
    cylinder = trial_on_air().cylinders[0]
    return float(np.sum(cylinder.torque * cylinder.shares)) / cylinder.work - 1


def square_cylinders(count: int) -> list[Sizes]:
    """Cylinders with square cards and infinite rods, their cranks at right angles."""
    return [small_engine(**SQUARE, connecting_rod=1e7, rod=0.0, name=str(n), phase=n * pi / 2) for n in range(count)]


def at_rest(pick: Callable[[Floats], float]) -> float:
    """Least, greatest or mean torque at rest over drop of pressure x piston area x crank, two cylinders."""
    torque = find_starting(prepare(*square_cylinders(2)), on_air(2.0, 60)).worst
    return float(pick(torque)) / (2e5 * pi / 4 * 0.019**2 * 0.0095)


def swing(count: int) -> float:
    """Energy that the flywheel gives and takes, over the work of a turn: square cards, cranks at right angles."""
    return share_swung(run(on_air(2.0, 0.5), *square_cylinders(count)))


def share_swung(engine: EngineRun) -> float:
    return engine.swing / sum(cylinder.work for cylinder in engine.cylinders)


def fullest_card() -> float:
    """The greatest work over that of the full card, of the trial's engine set well and badly, creeping and racing."""
    runs = [run_one(on_air(2.0, rpm), small_engine(**odd)) for rpm in (20, 600, 3000) for odd in ({}, *ODD)]  # type: ignore[arg-type]
    return max(end.work / end.full for cylinder in runs for end in cylinder.ends.values())


def ends_apart() -> float:
    ends = run_one(on_air(2.0, 600), small_engine(connecting_rod=1e7, rod=0.0)).ends
    return ends["head"].mean_effective_pressure / ends["crank"].mean_effective_pressure - 1


def scaled() -> float:
    """Mean pressure of an engine with all lengths doubled at half the speed, over that of the trial's."""
    sizes = small_engine()
    double = sizes.replacing(
        {
            key: 2 * value
            for key, value in sizes.numbers.items()
            if not key.endswith(("_share", "_phase", "eccentric_angle"))
        }
    )
    return mean_pressure(run_one(on_air(2.0, 300), double)) / mean_pressure(trial_on_air().cylinders[0])


def leak(*, water: bool) -> float:
    """Leak past a piston [mg/s]."""
    return leak_past_piston(water=water) * 1e6


def by_rule() -> float:
    return free_air_by_rule(swept_volume(0.019, 0.019, rod=0.00476), supply=301325.0, speed=600 * pi / 30) * 6e4


ROWS = (
    row(
        "MEP-HYP",
        "(1 + ln r) / r",
        *(
            digits(f"mean forward over initial pressure, {r:g} expansions", theirs, partial(hyperbolic, r))
            for r, theirs in HYPERBOLIC.items()
        ),
    ),
    row(
        "CARD-POLY",
        "c + (c + k) (1 - e^(1 - n)) / (n - 1)",
        *(
            digits(f"mean effective pressure, n = {n:g}", theirs, partial(polytropic, n), unit="Pa")
            for n, theirs in POLYTROPIC.items()
        ),
        note="From 4.01325 bar to 1.01325 bar, cut-off at half stroke, clearance 8 %: hyperbolic, dry steam after "
        "Zeuner, air.",
    ),
    row(
        "CRITICAL-RATIO",
        "(2 / (k + 1))^(k / (k - 1))",
        *(
            digits(f"{name}, k = {k:g}", values[n], partial(flow_term, k, n))
            for k, values in CRITICAL.items()
            for n, name in enumerate(("critical pressure ratio", "flow factor when choked"))
        ),
    ),
    row(
        "ORIFICE-AIR",
        "flow of air through an opening",
        *(
            digits(f"air through 1 mm2, pressure ratio {ratio:g}", theirs, partial(air_flow, ratio), unit="g/s")
            for ratio, theirs in AIR_FLOWS.items()
        ),
        note="From 3.01325 bar and 20 degC, without contraction.",
    ),
    row(
        "ISENTROPIC",
        "p v^1.4 constant",
        near(
            "pressure after threefold expansion",
            64724.0089,
            partial(shut, "pressure", warmed=False),
            unit="Pa",
            share=1e-5,
        ),
        near("temperature", 188.90410, partial(shut, "temperature", warmed=False), unit="K", share=1e-5),
        near("work", 0.26788243, partial(shut, "work", warmed=False), unit="J", share=1e-5),
        note="A cubic centimetre of air of 3.01325 bar and 20 degC, shut in a cylinder whose ports never open; 360 "
        "steps a turn.",
    ),
    row(
        "ISOTHERMAL",
        "p1 v1 ln r",
        near(
            "pressure after threefold expansion",
            100441.6667,
            partial(shut, "pressure", warmed=True),
            unit="Pa",
            share=1e-5,
        ),
        near("work", 0.33103935, partial(shut, "work", warmed=True), unit="J", share=2e-5),
        note="The same with a wall that passes on all heat at once.",
    ),
    row(
        "FILL-VESSEL",
        "dm = V dp / (k R T)",
        near(
            "air taken in by a cubic centimetre",
            1.69767483,
            partial(lambda: fill_vessel()[0] * 1e6),
            unit="mg",
            share=1e-6,
        ),
        near("temperature then", 361.752185, partial(lambda: fill_vessel()[1]), unit="K", share=1e-6, count=7),
        note="From 1.01325 to 3.01325 bar without heat, the air 20 degC: what comes in is warmed by being pushed in.",
    ),
    row(
        "ZERO-SPEED",
        "full card at next to no speed",
        *(
            near(f"mean effective pressure, {end} end", 200000.0, partial(end_pressure, end), unit="Pa", share=1e-3)
            for end in ("head", "crank")
        ),
        near("work of the head end", 1.07740920, partial(lambda: creeping().ends["head"].work), unit="J", share=1e-3),
        near("work of the crank end", 1.00978730, partial(lambda: creeping().ends["crank"].work), unit="J", share=1e-3),
        near(
            "mean torque",
            0.33218764,
            partial(lambda: run(on_air(2.0, 0.5), small_engine(**SQUARE)).mean_torque),  # type: ignore[arg-type]
            unit="N m",
            share=1e-3,
        ),
        note="A valve without lap and lead; half a turn a minute.",
    ),
    row(
        "SLIDER-90",
        "exact geometry",
        digits(
            "piston travel at 90 deg, crank 9.5 mm, rod 45 mm", 10.514206839, partial(piston, 0), unit="mm", count=10
        ),
        digits("and how fast it goes", 9.5, partial(piston, 1), unit="mm/rad", count=10),
    ),
    row(
        "TORQUE-WORK",
        "torque over the turn = work of the turn",
        nothing("apart by, as a share", partial(torque_against_work), within=1e-9),
    ),
    row(
        "STARTING",
        "sine + cosine, both without sign",
        near(
            "least torque at rest over drop x area x crank, two at right angles", 1.0, partial(at_rest, min), share=1e-6
        ),
        near("greatest", 1.414213562, partial(at_rest, max), share=1e-6),
        near("mean", 1.273239545, partial(at_rest, np.mean), share=1e-4),
        note="Valves without lap, infinite rods, no piston rod.",
    ),
    row(
        "FLYWHEEL",
        "energy above the mean torque",
        near("energy stored over work of a turn, one cylinder", 0.1052568312, partial(swing, 1), share=2e-4),
        near("the same, two at right angles", 0.0105408, partial(swing, 2), share=2e-3, count=4),
        note="Square cards, infinite rods, no piston rod.",
    ),
    row(
        "CLOSURE-MASS",
        "what goes in comes out",
        nothing("apart by, as a share", partial(lambda: march_for_balance()[0]), within=1e-10, places=9),
    ),
    row(
        "CLOSURE-ENERGY",
        "heat in less heat out = work",
        nothing("apart by, as a share of the heat", partial(lambda: march_for_balance()[1]), within=1e-10, places=9),
    ),
    row(
        "CARD-BOUND",
        "no card is fuller than full",
        Figure(what="fullest of 48 cards over the full card", theirs=(0.0, 1.0), ours=fullest_card, places=5),
        note="Eight settings of the valve, from good to absurd, at 20, 600 and 3000 turns a minute, both ends.",
    ),
    row(
        "TWO-ENDS",
        "both ends alike",
        nothing("mean pressures apart, as a share", partial(ends_apart), within=1e-6),
        note="Infinite rod, no piston rod, equal clearances and laps.",
    ),
    row(
        "SCALING",
        "all lengths doubled, half the speed",
        near("mean pressure over that before", 1.0, partial(scaled), share=1e-9, count=10),
        note="Air, without leaks and wall heat, which do not scale.",
    ),
    row(
        "FREE-AIR",
        "(pi/4) (2 D^2 - d^2) S n p / p0",
        digits("free air by the rule", 18.621006218, partial(by_rule), unit="l/min", count=10),
        Figure(
            what="free air of the run",
            theirs=18.62,
            ours=lambda: trial_on_air().free_air * 6e4,
            unit="l/min",
            within=0.005,
            explained=4.5,
            places=2,
        ),
        note="The rule fills the cylinder afresh at full pressure at every stroke, as cold as outside. The run cuts "
        "off before the end, keeps what is shut in at compression, and draws through ports: it takes less.",
    ),
    row(
        "GAP-LEAK",
        "laminar flow between parallel walls",
        digits("hot water past a piston", 180.05252896, partial(leak, water=True), unit="mg/s", count=8),
        Figure(
            what="dry steam past it",
            theirs=3.480,
            ours=partial(leak, water=False),
            unit="mg/s",
            within=0.0005,
            explained=0.15,
        ),
        note="A gap of 5 micrometres, 5 mm long round 19 mm, from 3 bar: water leaks fifty times as much as steam, by "
        "weight. Theirs takes steam for an ideal gas; real steam is 4 % denser.",
    ),
)
