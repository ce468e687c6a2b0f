"""What leaves a space within a stage: gas by openings and gaps, water as a film that runs dry."""

from math import exp, log, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.cycle.balance import settle_film, settle_mass, wetness
from lapwright.medium.if97 import liquid, saturation_temperature, vapour
from lapwright.medium.steam import HIGHEST, LOWEST, draw_table, find_inside, find_volumes

masses = st.floats(log(1e-9), log(1e-3)).map(exp)
shares = st.just(0.0) | st.floats(log(1e-6), log(1e4)).map(exp)
pressures = st.floats(log(0.05e5), log(30e5)).map(exp)


@given(masses, shares, shares)
def test_what_stays_and_what_leaves_make_what_there_was(mass: float, by_root: float, by_mass: float) -> None:
    root = settle_mass(mass, by_root * sqrt(mass), by_mass)
    assert root * root + by_root * sqrt(mass) * root + by_mass * root * root == pytest.approx(mass, rel=1e-12)


@given(masses, shares, shares, shares, pressures, st.floats(0.01, 3.0))
def test_a_film_leaves_with_the_water_that_is_left(
    mass: float, by_root: float, by_mass: float, film: float, pressure: float, fullness: float
) -> None:
    """`fullness` is the volume over what dry steam of that mass would fill: wet below 1, superheated above."""
    water, dry = find_volumes(draw_table(), pressure)
    volume = fullness * mass * dry
    root, drained = settle_film(mass, by_root * sqrt(mass), by_mass, film, volume, water, dry)
    left = root * root
    assert left + by_root * sqrt(mass) * root + by_mass * left + drained == pytest.approx(mass, rel=1e-9)
    dryness = (volume / left - water) / (dry - water)
    assert drained == pytest.approx(film * wetness(dryness) * left, rel=1e-6, abs=1e-9 * mass * (1 + film))


@given(pressures)
def test_volumes_at_saturation_are_those_of_the_formulation(pressure: float) -> None:
    boiling = saturation_temperature(pressure)
    volumes = liquid(pressure, boiling)[0], vapour(pressure, boiling)[0]
    assert find_volumes(draw_table(), pressure) == pytest.approx(volumes, rel=1e-7)


@pytest.mark.parametrize("edge", [LOWEST, HIGHEST])
@pytest.mark.parametrize("dryness", [0.3, 0.97, 1.0, 1.05])
def test_beyond_its_curves_steam_goes_on_without_a_step(edge: float, dryness: float) -> None:
    """The energy keeps rising with the pressure at constant volume, or no root could be found there."""
    volume = dryness * find_volumes(draw_table(), edge)[1]
    places = [edge * (1 + step) for step in (-1e-6, 1e-6)]
    just_inside, just_outside = (find_inside(draw_table(), place, volume)[0] for place in places)
    assert just_outside == pytest.approx(just_inside, rel=1e-5)
    beyond = [find_inside(draw_table(), edge * factor, volume)[0] for factor in (0.5, 0.9, 1.0, 1.1, 2.0)]
    assert beyond == sorted(beyond)
