"""IAPWS-IF97: the release's own tables for checking a program, to the last of their nine digits."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from lapwright.medium import if97
from tests.published.figure import Figure, Row
from tests.published.water_figures import Kernel, count_places, half_unit, work_out_sound

SOURCE = "iapws-r7-97"
DIGITS = 9
#: The release's quick equations for the temperature keep within this of the exact inversion [K].
QUICK = 0.025

# Temperature [K] and pressure [MPa]; volume [m3/kg], enthalpy and energy [kJ/kg], entropy, heat capacity at constant
# pressure [kJ/(kg K)], speed of sound [m/s].
TABLE_5 = {
    "IF97-R1-1": (300, 3, 0.00100215168, 115.331273, 112.324818, 0.392294792, 4.17301218, 1507.73921),
    "IF97-R1-2": (300, 80, 0.000971180894, 184.142828, 106.448356, 0.368563852, 4.01008987, 1634.69054),
    "IF97-R1-3": (500, 3, 0.00120241800, 975.542239, 971.934985, 2.58041912, 4.65580682, 1240.71337),
}
TABLE_15 = {
    "IF97-R2-1": (300, 0.0035, 39.4913866, 2549.91145, 2411.69160, 8.52238967, 1.91300162, 427.920172),
    "IF97-R2-2": (700, 0.0035, 92.3015898, 3335.68375, 3012.62819, 10.1749996, 2.08141274, 644.289068),
    "IF97-R2-3": (700, 30, 0.00542946619, 2631.49474, 2468.61076, 5.17540298, 10.3505092, 480.386523),
}
# Pressure [MPa], enthalpy [kJ/kg], temperature [K].
TABLE_24 = {
    "IF97-BWD-PH-1": (0.001, 3000, 534.433241),
    "IF97-BWD-PH-2": (3, 3000, 575.373370),
    "IF97-BWD-PH-3": (3, 4000, 1010.77577),
    "IF97-BWD-PH-4": (5, 3500, 801.299102),
    "IF97-BWD-PH-5": (5, 4000, 1015.31583),
    "IF97-BWD-PH-6": (25, 3500, 875.279054),
    "IF97-BWD-PH-7": (40, 2700, 743.056411),
    "IF97-BWD-PH-8": (60, 2700, 791.137067),
    "IF97-BWD-PH-9": (60, 3200, 882.756860),
}
# Pressure [MPa], entropy [kJ/(kg K)], temperature [K].
TABLE_29 = {
    "IF97-BWD-PS-1": (0.1, 7.5, 399.517097),
    "IF97-BWD-PS-2": (0.1, 8, 514.127081),
    "IF97-BWD-PS-3": (2.5, 8, 1039.84917),
    "IF97-BWD-PS-4": (8, 6, 600.484040),
    "IF97-BWD-PS-5": (8, 7.5, 1064.95556),
    "IF97-BWD-PS-6": (90, 6, 1038.01126),
    "IF97-BWD-PS-7": (20, 5.75, 697.992849),
    "IF97-BWD-PS-8": (80, 5.25, 854.011484),
    "IF97-BWD-PS-9": (80, 5.75, 949.017998),
}
# Temperature [K], pressure [MPa].
TABLE_35 = {
    "IF97-PSAT-300": (300, 0.00353658941),
    "IF97-PSAT-500": (500, 2.63889776),
    "IF97-PSAT-600": (600, 12.3443146),
}
# Pressure [MPa], temperature [K].
TABLE_36 = {
    "IF97-TSAT-0.1": (0.1, 372.755919),
    "IF97-TSAT-1": (1, 453.035632),
    "IF97-TSAT-10": (10, 584.149488),
}

#: What tables 5 and 15 give, its unit, where it stands in a kernel's answer, and the unit in SI.
QUANTITIES = (
    ("volume", "m3/kg", 0, 1.0),
    ("enthalpy", "kJ/kg", 2, 1e3),
    ("energy", "kJ/kg", 1, 1e3),
    ("entropy", "kJ/(kg K)", 3, 1e3),
    ("heat capacity", "kJ/(kg K)", 4, 1e3),
)


def find_quantity(kernel: Kernel, place: int, *, at: tuple[float, float], unit: float) -> float:
    return kernel(*at)[place] / unit


def find_temperature(kernel: Callable[[float, float], float], first: float, second: float) -> float:
    return kernel(first * 1e6, second * 1e3)


def make_figure(what: str, theirs: float, ours: Callable[[], float], *, unit: str, explained: float = 0.0) -> Figure:
    places, within = count_places(theirs, DIGITS), half_unit(theirs, DIGITS)
    return Figure(what=what, theirs=theirs, ours=ours, unit=unit, within=within, places=places, explained=explained)


def make_row(key: str, locator: str, *figures: Figure, note: str = "") -> Row:
    return Row(id=key, source=SOURCE, locator=locator, kind="check", figures=figures, note=note)


def state_row(key: str, printed: tuple[float, ...], *, kernel: Kernel, table: str) -> Row:
    temperature, pressure, *values, sound = printed
    at = (pressure * 1e6, temperature)
    figures = [
        make_figure(what, theirs, partial(find_quantity, kernel, place, at=at, unit=si), unit=unit)
        for (what, unit, place, si), theirs in zip(QUANTITIES, values, strict=True)
    ]
    figures.append(make_figure("speed of sound", sound, partial(work_out_sound, kernel, *at), unit="m/s"))
    return make_row(key, f"{table}, {temperature:g} K and {pressure:g} MPa", *figures)


def inversion_row(key: str, printed: tuple[float, float, float], *, by: str) -> Row:
    pressure, other, theirs = printed
    table, unit, kernel = {
        "enthalpy": ("table 24", "kJ/kg", if97.vapour_temperature),
        "entropy": ("table 29", "kJ/(kg K)", if97.vapour_temperature_from_entropy),
    }[by]
    what = f"temperature at {pressure:g} MPa and {other:g} {unit}"
    figure = make_figure(what, theirs, partial(find_temperature, kernel, pressure, other), unit="K", explained=QUICK)
    note = "The table is of a quick equation, within 25 mK of the equation it stands for; ours inverts that one."
    return make_row(key, table, figure, note=note)


def boiling_rows() -> list[Row]:
    rows = []
    for key, (temperature, theirs) in TABLE_35.items():
        ours = partial(lambda kelvin: if97.saturation_pressure(kelvin) / 1e6, temperature)
        figure = make_figure("pressure of saturation", theirs, ours, unit="MPa")
        rows.append(make_row(key, f"table 35, {temperature:g} K", figure))
    for key, (pressure, theirs) in TABLE_36.items():
        ours = partial(lambda mpa: if97.saturation_temperature(mpa * 1e6), pressure)
        figure = make_figure("temperature of saturation", theirs, ours, unit="K")
        rows.append(make_row(key, f"table 36, {pressure:g} MPa", figure))
    return rows


ROWS = (
    *(state_row(key, printed, kernel=if97.liquid, table="table 5") for key, printed in TABLE_5.items()),
    *(state_row(key, printed, kernel=if97.vapour, table="table 15") for key, printed in TABLE_15.items()),
    *(inversion_row(key, printed, by="enthalpy") for key, printed in TABLE_24.items()),
    *(inversion_row(key, printed, by="entropy") for key, printed in TABLE_29.items()),
    *boiling_rows(),
)
