"""The handbooks' closed forms: what they refuse, and laws that they obey."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.cycle.cards import (
    free_air_by_rule,
    ideal_mean_pressure,
    indicated_power,
    steam_missing,
    swept_volume,
    thermal_efficiency,
)
from lapwright.errors import OutOfRange

SHARES = st.floats(0.05, 1.0)
EXPONENTS = st.floats(1.0, 1.4)


@pytest.mark.parametrize("cut_off", [0.0, -0.1, 1.01, float("nan")])
def test_a_cut_off_that_is_no_share_of_the_stroke_is_refused(cut_off: float) -> None:
    with pytest.raises(OutOfRange, match="is not a cut-off: write a share of the stroke"):
        ideal_mean_pressure(3e5, cut_off, back=1e5)


def test_a_clearance_below_nothing_and_an_expansion_that_shrinks_are_refused() -> None:
    with pytest.raises(OutOfRange, match=r'"-0\.01" is not a clearance'):
        ideal_mean_pressure(3e5, 0.5, back=1e5, clearance=-0.01)
    with pytest.raises(OutOfRange, match=r'"0\.5" is not an expansion'):
        steam_missing(0.5, bore=0.02, speed=60.0)


@given(SHARES, st.floats(0.0, 0.3), EXPONENTS)
def test_a_later_cut_off_a_larger_clearance_and_a_flatter_expansion_fill_the_card(
    cut_off: float, clearance: float, exponent: float
) -> None:
    def mean(cut_off: float, clearance: float, exponent: float) -> float:
        return ideal_mean_pressure(3e5, cut_off, back=1e5, clearance=clearance, exponent=exponent)

    here = mean(cut_off, clearance, exponent)
    assert here <= 2e5 * (1 + 1e-12)
    assert mean(0.9 * cut_off, clearance, exponent) < here
    assert mean(cut_off, clearance + 0.1, exponent) >= here
    assert mean(cut_off, clearance, exponent + 0.1) <= here


@given(SHARES, st.floats(0.0, 0.3))
def test_a_nearly_hyperbolic_expansion_is_a_hyperbolic_one(cut_off: float, clearance: float) -> None:
    one, other = (
        ideal_mean_pressure(3e5, cut_off, back=1e5, clearance=clearance, exponent=exponent)
        for exponent in (1.0, 1 + 1e-7)
    )
    assert one == pytest.approx(other, abs=0.5)


def test_both_ends_do_twice_the_work_less_the_rod() -> None:
    size = {"bore": 0.02, "stroke": 0.02, "speed": 60.0}
    single = indicated_power(1e5, **size)
    assert indicated_power(1e5, **size, rod=0.0) == pytest.approx(2 * single)
    assert indicated_power(1e5, **size, rod=0.004) == pytest.approx((2 - 0.04) * single)
    assert single == pytest.approx(1e5 * pi / 4 * 0.02**3 * 60 / (2 * pi))


def test_wetter_steam_carries_less_heat_and_shows_a_better_efficiency() -> None:
    dry, wet = (thermal_efficiency(10.0, 1e-4, supply=4e5, dryness=dryness) for dryness in (1.0, 0.9))
    assert 0 < dry < wet < 1


def test_free_air_goes_with_volume_speed_and_absolute_pressure() -> None:
    swept = swept_volume(0.02, 0.02, rod=0.0)
    once = free_air_by_rule(swept, supply=2e5, speed=30.0)
    assert free_air_by_rule(2 * swept, supply=2e5, speed=30.0) == pytest.approx(2 * once)
    assert free_air_by_rule(swept, supply=4e5, speed=60.0) == pytest.approx(4 * once)
