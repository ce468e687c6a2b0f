"""IAPWS-95, the scientific formulation: how far the industrial one that is used here lies from it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from lapwright.medium import if97
from tests.published.figure import Figure, Row
from tests.published.water_figures import Kernel, count_places, half_unit, work_out_cv, work_out_sound

SOURCE = "iapws-r6-95"

# Temperature [K], density [kg/m3], pressure [MPa], heat capacity at constant volume [kJ/(kg K)], speed of sound [m/s],
# entropy [kJ/(kg K)].
TABLE_7 = (
    (300, 996.556, 0.0992418352, 4.13018112, 1501.51914, 0.393062643),
    (500, 0.435, 0.0999679423, 1.50817541, 548.314253, 7.94488271),
    (500, 4.532, 0.999938125, 1.66991025, 535.739001, 6.82502725),
    (500, 838.025, 10.0003858, 3.22106219, 1271.28441, 2.56690919),
    (900, 0.241, 0.100062559, 1.75890657, 724.027147, 9.16653194),
    (900, 52.615, 20.0000690, 1.93510526, 698.445674, 6.59070225),
)
# Temperature [K], pressure [MPa]; density [kg/m3], enthalpy [kJ/kg], entropy [kJ/(kg K)], of water, then of steam.
TABLE_8 = (
    (275, 0.000698451167, (999.887406, 7.75972201, 0.0283094670), (0.00550664919, 2504.28995, 9.10660121)),
    (450, 0.932203564, (890.341250, 749.161585, 2.10865845), (4.81200360, 2774.41078, 6.60921221)),
)

#: How far the two formulations lie apart in the rows below, at most, as a share of the figure.
APART = {
    "pressure of saturation": 2e-4,
    "density": 1.1e-4,
    "enthalpy": 2e-4,
    "entropy": 2e-4,
    "heat capacity at constant volume": 2e-3,
    "speed of sound": 1.2e-3,
}
NOTE = (
    "Table 7 is taken at the pressure that it gives. This is another formulation, for science; the industrial one lies "
    "up to 0.011 % off in density, 0.02 % in pressure of saturation, enthalpy and entropy, 0.12 % in speed of sound "
    "and 0.2 % in heat capacity."
)


def make_figure(
    what: str, theirs: float, ours: Callable[[], float], *, unit: str, of: str = "", digits: int = 9
) -> Figure:
    return Figure(
        what=f"{what}{of}",
        theirs=theirs,
        ours=ours,
        unit=unit,
        within=half_unit(theirs, digits),
        places=count_places(theirs, digits),
        explained=APART[what] * theirs,
    )


def count_digits(density: float) -> int:
    """The digits of the round figure for which table 7 was worked out."""
    return len(f"{density:g}".replace(".", "").lstrip("0"))


def find_density(kernel: Kernel, pressure: float, temperature: float) -> float:
    return 1 / kernel(pressure, temperature)[0]


def find_heat(kernel: Kernel, place: int, *, at: tuple[float, float]) -> float:
    return kernel(*at)[place] / 1e3


def single_row(printed: tuple[float, ...]) -> Row:
    temperature, density, pressure, cv, sound, entropy = printed
    kernel, at = (if97.liquid if density > 500 else if97.vapour), (pressure * 1e6, temperature)
    where = f" at {temperature:g} K and {pressure} MPa"
    return Row(
        id=f"IAPWS95-{temperature:g}-{density:g}",
        source=SOURCE,
        locator="table 7",
        kind="check",
        figures=(
            make_figure(
                "density",
                density,
                partial(find_density, kernel, *at),
                unit="kg/m3",
                of=where,
                digits=count_digits(density),
            ),
            make_figure(
                "heat capacity at constant volume", cv, lambda: work_out_cv(kernel, *at) / 1e3, unit="kJ/(kg K)"
            ),
            make_figure("speed of sound", sound, partial(work_out_sound, kernel, *at), unit="m/s"),
            make_figure("entropy", entropy, partial(find_heat, kernel, 3, at=at), unit="kJ/(kg K)"),
        ),
        note=NOTE,
    )


def phase_figures(of: str, kernel: Kernel, *, at: tuple[float, float], printed: tuple[float, ...]) -> list[Figure]:
    density, enthalpy, entropy = printed
    return [
        make_figure("density", density, partial(find_density, kernel, *at), unit="kg/m3", of=of),
        make_figure("enthalpy", enthalpy, partial(find_heat, kernel, 2, at=at), unit="kJ/kg", of=of),
        make_figure("entropy", entropy, partial(find_heat, kernel, 3, at=at), unit="kJ/(kg K)", of=of),
    ]


def boiling_row(temperature: float, pressure: float, *, water: tuple[float, ...], steam: tuple[float, ...]) -> Row:
    boiling = if97.saturation_pressure(temperature)
    at, where = (boiling, temperature), f" at {temperature:g} K"
    return Row(
        id=f"IAPWS95-SAT-{temperature:g}",
        source=SOURCE,
        locator="table 8",
        kind="check",
        figures=(
            make_figure("pressure of saturation", pressure, lambda: boiling / 1e6, unit="MPa", of=where),
            *phase_figures(" of water", if97.liquid, at=at, printed=water),
            *phase_figures(" of steam", if97.vapour, at=at, printed=steam),
        ),
        note=NOTE,
    )


ROWS = (
    *(single_row(printed) for printed in TABLE_7),
    *(boiling_row(kelvin, pressure, water=water, steam=steam) for kelvin, pressure, water, steam in TABLE_8),
)
