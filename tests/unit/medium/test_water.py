"""Water and steam for people: states, what may be asked, and what is said when it may not."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.errors import OutOfRange
from lapwright.medium.water import (
    DRY,
    SUPERHEATED,
    WATER,
    WET,
    State,
    expand,
    find_by_enthalpy,
    find_by_entropy,
    find_saturation,
    find_state,
    find_wet,
    throttle,
)

BAR = 1e5
PRESSURES = st.floats(0.05 * BAR, 20 * BAR)
SHARES = st.floats(0.0, 1.0)
FIGURES = ("temperature", "volume", "energy", "enthalpy", "entropy")


def read_figures(state: State) -> list[float]:
    return [getattr(state, name) for name in FIGURES]


def test_wet_steam_lies_between_water_and_dry_steam_by_mass() -> None:
    boiling = find_saturation(3 * BAR)
    half = find_wet(3 * BAR, 0.5)
    assert read_figures(half) == pytest.approx(
        [(a + b) / 2 for a, b in zip(read_figures(boiling.water), read_figures(boiling.steam), strict=True)]
    )
    assert (half.condition, half.dryness) == (WET, 0.5)


def test_a_dryness_of_nothing_is_water_and_of_one_is_dry_steam() -> None:
    boiling = find_saturation(3 * BAR)
    assert find_wet(3 * BAR, 0.0) == boiling.water
    assert find_wet(3 * BAR, 1.0) == boiling.steam
    assert (boiling.water.condition, boiling.steam.condition) == (WATER, DRY)


@pytest.mark.parametrize(
    ("degrees", "condition", "dryness"), [(20.0, WATER, 0.0), (99.0, WATER, 0.0), (100.0, SUPERHEATED, 1.0)]
)
def test_the_temperature_says_whether_it_is_water_or_steam(degrees: float, condition: str, dryness: float) -> None:
    state = find_state(1 * BAR, degrees + 273.15)
    assert (state.condition, state.dryness) == (condition, dryness)
    assert (state.volume > 1) == (condition == SUPERHEATED)


def test_right_at_the_boiling_point_it_is_dry_steam() -> None:
    boiling = find_saturation(1 * BAR)
    assert find_state(1 * BAR, boiling.temperature) == boiling.steam


@given(PRESSURES, SHARES)
def test_a_wet_state_is_found_again_from_its_enthalpy_and_its_entropy(pressure: float, dryness: float) -> None:
    state = find_wet(pressure, dryness)
    assert find_by_enthalpy(pressure, state.enthalpy).dryness == pytest.approx(dryness, abs=1e-12)
    assert find_by_entropy(pressure, state.entropy).dryness == pytest.approx(dryness, abs=1e-12)


@given(PRESSURES, st.floats(1e-3, 300.0))
def test_a_superheated_state_is_found_again_from_its_enthalpy_and_its_entropy(
    pressure: float, superheat: float
) -> None:
    state = find_state(pressure, find_saturation(pressure).temperature + superheat)
    for found in (find_by_enthalpy(pressure, state.enthalpy), find_by_entropy(pressure, state.entropy)):
        assert found.condition == SUPERHEATED
        assert read_figures(found) == pytest.approx(read_figures(state), rel=1e-12)


@given(PRESSURES, st.integers(-4, 4))
def test_a_hair_from_dry_steam_there_is_no_jump(pressure: float, hairs: int) -> None:
    dry = find_saturation(pressure).steam
    found = find_by_enthalpy(pressure, dry.enthalpy * (1 + hairs * 2.3e-16))
    assert found.condition in {WET, DRY, SUPERHEATED}
    assert read_figures(found) == pytest.approx(read_figures(dry), rel=1e-10)


@given(PRESSURES, SHARES, SHARES)
def test_throttling_keeps_the_enthalpy_and_makes_entropy(pressure: float, dryness: float, share: float) -> None:
    before, after = find_wet(pressure, dryness), throttle(pressure, dryness, to_pressure=pressure * (1 - 0.8 * share))
    assert after.enthalpy == pytest.approx(before.enthalpy, rel=1e-12)
    assert after.entropy >= before.entropy * (1 - 1e-9)
    assert after.temperature <= before.temperature * (1 + 1e-12)


@given(PRESSURES, SHARES, SHARES)
def test_expanding_keeps_the_entropy_and_does_work(pressure: float, dryness: float, share: float) -> None:
    before, after = find_wet(pressure, dryness), expand(pressure, dryness, to_pressure=pressure * (1 - 0.8 * share))
    assert after.entropy == pytest.approx(before.entropy, rel=1e-12)
    assert after.energy <= before.energy * (1 + 1e-12)
    assert after.volume >= before.volume * (1 - 1e-12)


REFUSED = {
    "a pressure below the triple point": (
        lambda: find_saturation(500.0),
        '"0.005 bar abs" is not between 0.00612 and 160 bar abs: check the figure and its unit',
    ),
    "a pressure beyond the equations": (
        lambda: find_saturation(200 * BAR),
        '"200 bar abs" is not between 0.00612 and 160 bar abs: check the figure and its unit',
    ),
    "no pressure at all": (
        lambda: find_saturation(float("nan")),
        '"nan bar abs" is not between 0.00612 and 160 bar abs: check the figure and its unit',
    ),
    "ice": (
        lambda: find_state(1 * BAR, 270.0),
        '"270 K" is not between 273.16 and 1073.15 K: check the figure and its unit',
    ),
    "a dryness in percent": (
        lambda: find_wet(1 * BAR, 98.0),
        '"98" is not a dryness: write the share of steam by mass, from 0 to 1',
    ),
    "less than boiling water": (
        lambda: find_by_enthalpy(1 * BAR, 3e5),
        '"300 kJ/kg" is less than boiling water of this pressure has: check the figure and its unit',
    ),
    "more than the hottest steam": (
        lambda: find_by_entropy(1 * BAR, 12e3),
        '"12 kJ/(kg K)" is more than steam of 1 bar abs has at 1073.15 K: check the figure and its unit',
    ),
    "throttling upwards": (
        lambda: throttle(1 * BAR, 0.98, to_pressure=2 * BAR),
        '"2 bar abs" is above the 1 bar abs before: check the figure and its unit',
    ),
    "expanding upwards": (
        lambda: expand(1 * BAR, 0.98, to_pressure=2 * BAR),
        '"2 bar abs" is above the 1 bar abs before: check the figure and its unit',
    ),
}


@pytest.mark.parametrize(("ask", "sentence"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_in_words(ask: Callable[[], object], sentence: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        ask()
    assert str(refused.value) == sentence
