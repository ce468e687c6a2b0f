"""A large engine of the handbooks' time, for what they say of such: 12 by 18 in, on steam of 90 lb."""

from __future__ import annotations

from functools import cache
from math import sqrt

import numpy as np

from lapwright.cycle.answers import CylinderRun
from lapwright.cycle.cards import ideal_mean_pressure
from lapwright.cycle.conditions import Conditions
from lapwright.engine.sizes import Sizes
from tests.published.engines import read_event
from tests.published.power import HORSE_POWER, HOUR, POUND, PSI
from tests.published.running import mean_pressure, on_steam, run_one, small_engine

THROW = 48.0
ASSUMED = (
    "Assumed: 12 by 18 in, ports of 1 by 10 in, throw 48 mm, lap for a cut-off of 0.65 and 0.55, lead 1/16 in, "
    "clearance 5 %, steam of 90 lb gauge and dryness 0.98, back pressure 17 lb, and all else as this program takes it "
    "for a small engine."
)


def large_engine() -> Sizes:
    return small_engine(
        bore=305.0, stroke=457.0, rod=50.0, connecting_rod=1142.0, port=25.4, port_length=254.0, throw=THROW,
        lap=THROW * sqrt(0.4) - 0.8, lead=1.6, exhaust_lap=1.5, clearance=0.05,
    )  # fmt: skip


def conditions(rpm: float) -> Conditions:
    return on_steam(90 * PSI / 1e5, rpm, ideal=False, exhaust=2.3 * PSI / 1e5)


@cache
def run_large_engine(rpm: float) -> CylinderRun:
    return run_one(conditions(rpm), large_engine())


def card_factor(rpm: float) -> float:
    """Mean pressure of the run over that of the ideal card with the same cut-off, clearance and back pressure."""
    cut_off = sum(read_event(large_engine(), "cut_off", end=end) for end in ("head", "crank")) / 2
    on = conditions(rpm)
    ideal = ideal_mean_pressure(on.supply, cut_off, back=on.exhaust, clearance=0.05)
    return mean_pressure(run_large_engine(rpm)) / ideal


def steam_rate(rpm: float) -> float:
    """Steam [lb] of an indicated horse-power hour."""
    cylinder = run_large_engine(rpm)
    return cylinder.supplied / cylinder.work * HORSE_POWER * HOUR / POUND


def water_at_cut_off(rpm: float) -> float:
    """Water in the steam at cut-off, head end [%]."""
    cylinder = run_large_engine(rpm)
    place = int(np.searchsorted(cylinder.angles, np.radians(read_event(large_engine(), "cut_off", angle=True))))
    return 100 * (1 - float(cylinder.ends["head"].dryness[place]))
