"""Steam as engines use it, by IAPWS-IF97, worked out beforehand with programs that are not this one."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from lapwright.medium.water import State, expand, find_saturation, find_state, find_wet, throttle
from tests.published.figure import Figure, Row
from tests.published.water_figures import count_places, half_unit

SOURCE = "iapws-r7-97"
NOTE = "Theirs were worked out from the release's equations by programs that are not this one."
ATMOSPHERE = 1.01325e5

# Pressure [bar], temperature [degC]; volume [m3/kg], energy and enthalpy [kJ/kg], entropy [kJ/(kg K)], of water, then
# of steam; latent heat [kJ/kg].
BOILING = (
    (0.1, 45.80755, (0.0010102606, 191.8022, 191.8123, 0.649218),
     (14.670558, 2437.1814, 2583.8869, 8.148893), 2392.0746),
    (0.5, 81.31674, (0.0010299144, 340.4245, 340.4760, 1.091006),
     (3.2401492, 2483.2058, 2645.2132, 7.592963), 2304.7372),
    (1, 99.60592, (0.0010431478, 417.3322, 417.4365, 1.302560),
     (1.6940225, 2505.5474, 2674.9496, 7.358807), 2257.5132),
    (1.01325, 99.97430, (0.0010434354, 418.8850, 418.9907, 1.306724),
     (1.6732954, 2505.9848, 2675.5315, 7.354385), 2256.5407),
    (2, 120.21155, (0.0010605184, 504.4717, 504.6838, 1.530098),
     (0.88573507, 2529.0943, 2706.2413, 7.126856), 2201.5575),
    (3, 133.52536, (0.0010731764, 561.1335, 561.4554, 1.671765),
     (0.60578549, 2543.1560, 2724.8917, 6.991566), 2163.4363),
    (5, 151.83624, (0.0010925567, 639.6391, 640.1853, 1.860599),
     (0.37480444, 2560.7054, 2748.1076, 6.820581), 2107.9223),
    (6, 158.83242, (0.0011006080, 669.8408, 670.5012, 1.931096),
     (0.31557525, 2566.7937, 2756.1389, 6.759166), 2085.6377),
    (8, 170.41351, (0.0011147879, 720.1260, 721.0178, 2.045989),
     (0.24032752, 2576.0404, 2768.3025, 6.661542), 2047.2846),
    (10, 179.88563, (0.0011272337, 761.5556, 762.6828, 2.138431),
     (0.19434888, 2582.7707, 2777.1195, 6.584979), 2014.4367),
    (12, 187.96464, (0.0011385032, 797.1327, 798.4989, 2.216296),
     (0.16324988, 2587.8693, 2783.7691, 6.521687), 1985.2702),
    (15, 198.29524, (0.0011538684, 842.9861, 844.7169, 2.314682),
     (0.13170233, 2593.4570, 2791.0105, 6.443055), 1946.2936),
)  # fmt: skip
# Pressure [bar], temperature [degC]; volume, energy, enthalpy, entropy as above.
SUPERHEATED = (
    (1, 150, (1.9367266, 2582.9192, 2776.5918, 7.614673)),
    (1, 200, (2.1724948, 2658.2256, 2875.4751, 7.835560)),
    (2, 200, (1.0805187, 2654.6755, 2870.7793, 7.508113)),
    (3, 150, (0.63403233, 2570.9718, 2761.1815, 7.079054)),
    (4, 200, (0.53434475, 2647.2538, 2860.9917, 7.172366)),
    (4, 300, (0.65488392, 2805.1588, 3067.1124, 7.567702)),
    (5, 200, (0.42503367, 2643.3794, 2855.8962, 7.061071)),
    (10, 200, (0.20600365, 2622.2639, 2828.2675, 6.695488)),
    (10, 300, (0.25797919, 2793.7240, 3051.7032, 7.124712)),
    (15, 250, (0.15199924, 2695.9603, 2923.9592, 6.711114)),
)
# What boils, pressure above the atmosphere [bar], dryness; work [kJ/kg] and [kJ/litre], dryness at the end.
BURSTS = (
    ("water", 3, 0.0, 10.140347003623644, 9.35727476606107, 0.07789813133657761),
    ("steam", 3, 1.0, 96.0542983465262, 0.20838039138858006, 0.9239252267846562),
    ("water", 6, 0.0, 21.81299738409293, 19.68577804056079, 0.11345137650914812),
    ("steam", 6, 1.0, 165.733808671601, 0.6086979055758783, 0.892843985657406),
)


def place_figure(what: str, theirs: float, ours: Callable[[], float], *, unit: str, places: int) -> Figure:
    """A figure with so many decimal places."""
    return Figure(what=what, theirs=theirs, ours=ours, unit=unit, within=0.5 * 10.0**-places, places=places)


def digit_figure(what: str, theirs: float, ours: Callable[[], float], *, unit: str = "", digits: int = 8) -> Figure:
    """A figure with so many digits."""
    places = count_places(theirs, digits)
    return Figure(what=what, theirs=theirs, ours=ours, unit=unit, within=half_unit(theirs, digits), places=places)


def state_figures(find: Callable[[], State], values: tuple[float, ...], of: str = "") -> list[Figure]:
    volume, energy, enthalpy, entropy = values
    return [
        digit_figure(f"volume{of}", volume, lambda: find().volume, unit="m3/kg"),
        place_figure(f"energy{of}", energy, lambda: find().energy / 1e3, unit="kJ/kg", places=4),
        place_figure(f"enthalpy{of}", enthalpy, lambda: find().enthalpy / 1e3, unit="kJ/kg", places=4),
        place_figure(f"entropy{of}", entropy, lambda: find().entropy / 1e3, unit="kJ/(kg K)", places=6),
    ]


def make_row(key: str, locator: str, *figures: Figure, note: str = NOTE) -> Row:
    return Row(id=key, source=SOURCE, locator=locator, kind="derived", figures=figures, note=note)


def boiling_row(pressure: float, temperature: float, *, phases: tuple[tuple[float, ...], ...], latent: float) -> Row:
    water, steam = phases
    find = partial(find_saturation, pressure * 1e5)
    what = f"boiling point at {pressure:g} bar abs"
    return make_row(
        f"SAT-{pressure:g}BAR",
        "boiling",
        place_figure(what, temperature, lambda: find().temperature - 273.15, unit="degC", places=5),
        *state_figures(lambda: find().water, water, " of water"),
        *state_figures(lambda: find().steam, steam, " of steam"),
        place_figure("latent heat", latent, lambda: find().latent_heat / 1e3, unit="kJ/kg", places=4),
    )


def superheated_row(pressure: float, celsius: float, values: tuple[float, ...]) -> Row:
    find = partial(find_state, pressure * 1e5, celsius + 273.15)
    first, _, _, _ = state_figures(find, values, f" at {pressure:g} bar abs and {celsius:g} degC")
    _, *others = state_figures(find, values)
    return make_row(f"SUP-{pressure:g}BAR-{celsius:g}C", "superheated steam", first, *others)


def find_burst(pressure: float, dryness: float) -> tuple[float, float, float]:
    """Work [kJ/kg] and [kJ/litre] that boiling water or steam does as it bursts out, and the dryness at the end."""
    before = find_wet(pressure, dryness)
    after = expand(pressure, dryness, to_pressure=ATMOSPHERE)
    work = before.energy - after.energy - ATMOSPHERE * (after.volume - before.volume)
    return work / 1e3, work / before.volume / 1e6, after.dryness


def burst_row(kind: str, gauge: float, dryness: float, *, theirs: tuple[float, ...]) -> Row:
    find = partial(find_burst, gauge * 1e5 + ATMOSPHERE, dryness)
    each, litre, end = theirs
    what = f"from boiling {kind} at {gauge:g} bar above the atmosphere"
    return make_row(
        f"STORED-{kind.upper()}-{gauge:g}BAR",
        "work of a burst",
        digit_figure(what, each, lambda: find()[0], unit="kJ/kg"),
        digit_figure("from a litre of it", litre, lambda: find()[1], unit="kJ"),
        digit_figure("dryness at the end", end, lambda: find()[2]),
        note="What bursts out to the atmosphere without heat or friction, less the work on the atmosphere: a litre of "
        "boiling water does thirty to forty-five times what a litre of steam does. No figure here says that a vessel "
        "is safe.",
    )


def throttle_row() -> Row:
    find = partial(throttle, 4.01325e5, 0.98, to_pressure=ATMOSPHERE)
    what = "enthalpy at 4.01325 bar abs and dryness 0.98"
    return make_row(
        "THROTTLE",
        "throttling",
        digit_figure(what, 2695.547483979576, lambda: find().enthalpy / 1e3, unit="kJ/kg", digits=10),
        digit_figure("temperature at 1 atm", 109.69768440578707, lambda: find().temperature - 273.15, unit="degC"),
        Figure(what="the steam is then", theirs="superheated", ours=lambda: find().condition),
        note="The enthalpy stays the same through a throttle.",
    )


ROWS = (
    *(
        boiling_row(bar, celsius, phases=(water, steam), latent=latent)
        for bar, celsius, water, steam, latent in BOILING
    ),
    *(superheated_row(*printed) for printed in SUPERHEATED),
    throttle_row(),
    *(burst_row(kind, gauge, dryness, theirs=tuple(theirs)) for kind, gauge, dryness, *theirs in BURSTS),
)
