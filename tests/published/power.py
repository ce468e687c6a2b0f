"""What the rows on pressure and power share: the books' units, and the program's closed forms asked in them."""

from __future__ import annotations

from math import pi

from lapwright.cycle.cards import ideal_mean_pressure, indicated_power

PSI, INCH, FOOT, POUND = 6894.757293168361, 0.0254, 0.3048, 0.45359237
RPM, HOUR = 2 * pi / 60, 3600.0
BAR, KILOWATT = 1e5, 1e3
#: 33,000 foot-pounds a minute [W].
HORSE_POWER = 33000 * FOOT * POUND * 9.80665 / 60


def mean_psi(pressure: float, cut_off: float, *, back: float, clearance: float = 0.0) -> float:
    """Mean effective pressure of an ideal card, expansion hyperbolic; all pressures absolute, lb on the sq in."""
    return ideal_mean_pressure(pressure * PSI, cut_off, back=back * PSI, clearance=clearance) / PSI


def mean_bar(pressure: float, cut_off: float, *, back: float, clearance: float = 0.0) -> float:
    """The same in bar."""
    return ideal_mean_pressure(pressure * BAR, cut_off, back=back * BAR, clearance=clearance) / BAR


def mean_factor(cut_off: float, clearance: float = 0.0) -> float:
    """Mean forward pressure as a share of the initial pressure."""
    return ideal_mean_pressure(1.0, cut_off, back=0.0, clearance=clearance)


def horse_power(mean: float, *, bore: float, stroke: float, rpm: float, rod: float | None = 0.0) -> float:
    """Indicated horse-power of a mean pressure [lb on the sq in], bore, stroke and rod in inches."""
    rod = None if rod is None else rod * INCH
    watts = indicated_power(mean * PSI, bore=bore * INCH, stroke=stroke * INCH, speed=rpm * RPM, rod=rod)
    return watts / HORSE_POWER
