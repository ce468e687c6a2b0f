"""Laws of glands: what holds for every rod, box and packing."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from lapwright.errors import DoesNotFit
from lapwright.workshop.gland import MOST, choose_packing, count_rings, judge_section, packing_section, ring_length
from lapwright.workshop.gland_friction import find_decay, friction_decaying, friction_plain, sealing_pressure
from lapwright.workshop.oring_gland import find_ring_glands

RODS = st.floats(0.0015, 0.060)
SECTIONS = st.floats(0.0006, 0.012)
FRICTIONS = st.floats(0.02, 0.3)
PRESSURES = st.floats(1e4, 2e6)
LENGTHS = st.floats(0.002, 0.060)


@given(RODS, SECTIONS)
def test_a_ring_is_longer_than_the_rods_girth_and_shorter_than_the_boxs(rod: float, section: float) -> None:
    bore = rod + 2 * section
    assert pi * rod < ring_length(rod, packing_section(rod, bore)) < pi * bore


@given(SECTIONS, st.floats(0.001, 0.2))
def test_rings_and_spacer_fit_in_the_box(section: float, depth: float) -> None:
    try:
        rings = count_rings(section, depth)
    except DoesNotFit:
        assert depth < 1.5 * section + 1e-6
        return
    assert 1 <= rings.count <= MOST
    assert rings.count * section + rings.spacer <= depth + 1e-6
    if rings.count < MOST:
        assert depth < (rings.count + 1.5) * section + 1e-6
        assert rings.spacer == pytest.approx(0.0, abs=section)


@given(RODS, SECTIONS, LENGTHS, FRICTIONS, PRESSURES)
def test_friction_rises_with_tightness_and_never_passes_the_plain_formula(
    rod: float, section: float, length: float, friction: float, pressure: float
) -> None:
    bore = rod + 2 * section
    loose = friction_decaying(rod, bore, length, pressure=pressure, friction=friction)
    tight = friction_decaying(rod, bore, length, pressure=1.5 * pressure, friction=friction)
    assert tight == pytest.approx(1.5 * loose)
    assert 0 < loose <= friction_plain(rod, length, pressure=pressure, friction=friction) * (1 + 1e-12)


@given(RODS, SECTIONS, LENGTHS, PRESSURES)
def test_without_decay_both_formulas_agree(rod: float, section: float, length: float, pressure: float) -> None:
    # The decay goes with the coefficient of friction; so does the friction itself: their ratio to the plain one is 1.
    friction = 1e-7
    decaying = friction_decaying(rod, rod + 2 * section, length, pressure=pressure, friction=friction)
    assert decaying == pytest.approx(friction_plain(rod, length, pressure=pressure, friction=friction), rel=1e-4)
    assert friction_decaying(rod, rod + 2 * section, length, pressure=pressure, friction=0.0) == 0.0


@given(RODS, SECTIONS, LENGTHS, FRICTIONS, PRESSURES)
def test_a_longer_packing_takes_a_harder_gland_and_costs_more(
    rod: float, section: float, length: float, friction: float, held: float
) -> None:
    bore = rod + 2 * section
    assume(find_decay(rod, bore, friction=friction) * length < 20)
    short = sealing_pressure(rod, bore, length, held=held, friction=friction)
    long = sealing_pressure(rod, bore, 1.3 * length, held=held, friction=friction)
    assert long > short >= 2 * held


@given(RODS, SECTIONS, st.floats(0.3, 3.0))
def test_the_verdict_goes_by_the_share_alone(rod: float, section: float, share: float) -> None:
    bore = rod + 2 * section
    here = judge_section(rod, bore, share * section)
    twice = judge_section(2 * rod, 2 * bore, 2 * share * section)
    assert here.off == pytest.approx(share - 1, abs=1e-9)
    # Right on a limit, rounding decides.
    assume(all(abs(share - 1 - limit) > 1e-6 for limit in (-0.08, 0.05, 0.15)))
    assert here.verdict == twice.verdict


@given(st.floats(0.0004, 0.025))
def test_what_is_bought_can_be_made_to_fit(space: float) -> None:
    bought = choose_packing(space)
    if bought.verdict == "braid down":
        assert bought.section > space
        assert bought.section**2 * bought.strands == pytest.approx(space**2)
    else:
        assert -0.08 <= bought.section / space - 1 <= 0.15 + 1e-9


@given(RODS, SECTIONS, st.none() | st.floats(0.002, 0.1))
def test_an_o_ring_that_fits_really_does(rod: float, section: float, depth: float | None) -> None:
    bore = rod + 2 * section
    for ring in find_ring_glands(rod, bore, depth):
        assert 0 < ring.squeeze.least < ring.squeeze.nominal < ring.squeeze.most < 0.5
        assert ring.squeeze.most_fill < 1
        if ring.fits:
            low, high = ring.diameters
            assert high < bore or low <= bore <= high
            assert depth is None or ring.groove.width < depth
