"""How hot saturated steam is at its pressure, in plain arithmetic: a short answer should not wait for a compiler.

The running engine solves the same equation, with the same coefficients, compiled (`if97`).
"""

from __future__ import annotations

from math import sqrt

from lapwright.errors import OutOfRange
from lapwright.quantities import show_number

#: The coefficients n1 to n10 of the saturation line (iapws-r7-97, table 34).
SATURATION_N = (
    0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
    0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
)  # fmt: skip
#: Pressures from the freezing point to the critical one, absolute [Pa].
LOWEST, HIGHEST = 611.213, 22.064e6


def find_boiling_point(pressure: float) -> float:
    """Find how hot water boils under a pressure, and how hot saturated steam is [K].

    Parameters
    ----------
    pressure: absolute [Pa, 611.213 to 22.064e6]

    Raises
    ------
    OutOfRange: water has no boiling point under this pressure

    Source: iapws-r7-97, equation 31

    Example:
    >>> f"{find_boiling_point(4e5 + 101325) - 273.15:.1f} degC at 4 bar gauge"
    '151.9 degC at 4 bar gauge'
    """
    if not LOWEST <= pressure <= HIGHEST:
        raise OutOfRange(f"{show_number(pressure / 1e5, 3)} bar abs", "is no pressure at which water boils")
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = SATURATION_N
    beta = sqrt(sqrt(pressure * 1e-6))
    e = (beta + n3) * beta + n6
    f = (n1 * beta + n4) * beta + n7
    g = (n2 * beta + n5) * beta + n8
    both = n10 + 2 * g / (-f - sqrt(f * f - 4 * e * g))
    return 0.5 * (both - sqrt(both * both - 4 * (n9 + n10 * (both - n10))))
