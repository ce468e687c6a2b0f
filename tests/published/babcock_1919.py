"""Babcock & Wilcox, "Steam": the steam table of Marks and Davis, against the equations of 1997."""

from __future__ import annotations

from collections.abc import Callable

from lapwright.medium.water import Saturation, find_saturation
from tests.published.figure import Figure, Row

SOURCE = "babcock-1919"
PSI = 6894.757293168361
CUBIC_FOOT_PER_POUND = 0.3048**3 / 0.45359237
BTU_PER_POUND = 2326.0

#: How far the equations lie from the table at most: temperature [degF], the others as a share.
APART = {"temperature": 0.1, "volume": 0.001, "total heat": 0.0011, "heat of the water": 0.0018, "latent heat": 0.0011}
NOTE = (
    "Dry saturated steam; heats in international Btu, counted from water at 32 degF. The table is of 1909: the "
    "equations lie up to 0.1 degF, 0.1 % in volume, 0.11 % in total and latent heat and 0.18 % in the heat of the "
    "water from it."
)

# Pressure [lb/sq in, absolute]; temperature [degF], volume [cu ft/lb] with its decimal places, total heat of the steam,
# and where they were gathered heat of the water and latent heat [Btu/lb].
LINES = (
    (15, 213.0, 26.27, 2, 1150.7, (181.0, 969.7)),
    (20, 228.0, 20.08, 2, 1156.2, ()),
    (30, 250.3, 13.74, 2, 1163.9, (218.8, 945.1)),
    (50, 281.0, 8.51, 2, 1173.6, (250.1, 923.5)),
    (80, 312.0, 5.47, 2, 1182.3, (282.0, 900.3)),
    (100, 327.8, 4.429, 3, 1186.3, (298.3, 888.0)),
    (105, 331.4, 4.23, 2, 1187.2, ()),
    (150, 358.5, 3.012, 3, 1193.4, (330.2, 863.2)),
    (200, 381.9, 2.29, 2, 1198.1, (354.9, 843.2)),
)


def make_figure(what: str, theirs: float, ours: Callable[[], float], *, unit: str, places: int = 1) -> Figure:
    name = what.partition(" at ")[0]
    explained = APART[name] * (1 if name == "temperature" else theirs)
    return Figure(
        what=what, theirs=theirs, ours=ours, unit=unit, within=0.5 * 10.0**-places, places=places, explained=explained
    )


def find_boiling(pressure: float) -> Saturation:
    return find_saturation(pressure * PSI)


def line_figures(
    pressure: float, temperature: float, *, volume: float, places: int, heats: tuple[float, ...]
) -> list[Figure]:
    total, *parts = heats
    figures = [
        make_figure(
            f"temperature at {pressure} lb/sq in",
            temperature,
            lambda: 1.8 * find_boiling(pressure).temperature - 459.67,
            unit="degF",
        ),
        make_figure(
            "volume",
            volume,
            lambda: find_boiling(pressure).steam.volume / CUBIC_FOOT_PER_POUND,
            unit="cu ft/lb",
            places=places,
        ),
        make_figure("total heat", total, lambda: find_boiling(pressure).steam.enthalpy / BTU_PER_POUND, unit="Btu/lb"),
    ]
    if parts:
        water, latent = parts
        figures += [
            make_figure(
                "heat of the water",
                water,
                lambda: find_boiling(pressure).water.enthalpy / BTU_PER_POUND,
                unit="Btu/lb",
            ),
            make_figure(
                "latent heat", latent, lambda: find_boiling(pressure).latent_heat / BTU_PER_POUND, unit="Btu/lb"
            ),
        ]
    return figures


def make_row(key: str, *pressures: int) -> Row:
    figures = [
        figure
        for pressure, temperature, volume, places, total, parts in LINES
        if pressure in pressures
        for figure in line_figures(pressure, temperature, volume=volume, places=places, heats=(total, *parts))
    ]
    return Row(id=key, source=SOURCE, locator="table 23", kind="check", figures=tuple(figures), note=NOTE)


ROWS = (
    make_row("BW-T23", 20, 105),
    *(make_row(f"MD-{pressure}PSIA", pressure) for pressure in (15, 30, 50, 80, 100, 150, 200)),
)
