"""Figures set for reading: a number keeps its unit at the end of a line, and less than nothing has a true minus."""

from __future__ import annotations

import re
from functools import cache

_KEPT_SPACE, _MINUS = "\N{NO-BREAK SPACE}", "\N{MINUS SIGN}"
#: Units as they are shown, the longer of two that begin alike first.
_UNITS = (
    *(
        "mm/s",
        "m/s",
        "mm²",
        "mm³",
        "mm2",
        "mm3",
        "cm²",
        "cm³",
        "cm2",
        "cm3",
        "m²",
        "m³",
        "m2",
        "m3",
        "mm",
        "cm",
        "µm",
        "m",
    ),
    *("in²", "in³", "in2", "in3", "in", "thou", "ft", "mN m", "N mm", "N cm", "N m", "kN", "mN", "N"),
    *("lbf in", "lbf ft", "ozf in", "lbf", "ozf", "kgf cm", "kg m2", "kg m²", "g cm2", "kg", "mg", "g"),
    *("mbar", "bar", "psi", "kPa", "MPa", "GPa", "Pa", "degC", "degF", "deg", "°C", "°F", "°", "K", "%"),
    *("L/min", "cfm", "litres", "litre", "mL", "ml", "L", "rpm", "Hz", "mW", "kW", "W", "kJ", "J"),
    *("min", "ms", "s", "h", "turns", "turn", "BA", "BSW", "BSF", "BSP", "UNC", "UNF"),
)


@cache
def _find_gaps() -> re.Pattern[str]:
    """Spaces between a number and what belongs to it, and hyphens that stand for a minus."""
    units = "|".join(map(re.escape, _UNITS))
    return re.compile(
        rf"""(?<=\d)\ (?:{units})(?![\w/])      # 19.05 mm, 0.45 N m
        | (?<=[\w%°])\ ±\ (?=[.\d])             # 12.7 ± 0.02, 3/4 in ± 2 thou
        | (?<=\d)\ (?=\d+/\d)                   # 1 1/2
        | (?:(?<=^)|(?<=[\s(\[]))-(?=\.?\d)     # -0.78""",
        re.VERBOSE,
    )


def space_figures(text: str) -> str:
    r"""Set the figures of a text that is shown, and never read again.

    Parameters
    ----------
    text: plain, or a run of it between two tags

    Example:
    >>> space_figures("1 1/2 ± 1/64 in, -0.65 N m") == "1\xa01/2\xa0±\xa01/64\xa0in, −0.65\xa0N\xa0m"
    True
    """
    return _find_gaps().sub(lambda found: _MINUS if found[0] == "-" else found[0].replace(" ", _KEPT_SPACE), text)
