"""The worked figures of books, papers and standards on glands, each with its source."""

from __future__ import annotations

from math import pi

import pytest

from lapwright.medium.boiling import find_boiling_point
from lapwright.workshop.gland import packing_section, ring_length, usual_section
from lapwright.workshop.gland_friction import (
    find_decay,
    friction_decaying,
    friction_plain,
    press_packing,
    sealing_pressure,
)
from lapwright.workshop.gland_ptfe import ptfe_ring_gap
from lapwright.workshop.gland_winding import find_nut_travel

INCH = 0.0254


def test_a_two_inch_rod_in_a_four_inch_box_takes_rings_of_9_42_inch() -> None:
    # Mobley, Root Cause Failure Analysis, p. 226 (which prints 9.43): section (4 - 2)/2 = 1 in, pi (2 + 1) = 9.4248 in.
    section = packing_section(2 * INCH, 4 * INCH)
    assert section == pytest.approx(1 * INCH)
    assert ring_length(2 * INCH, section) / INCH == pytest.approx(9.42, abs=0.005)


@pytest.mark.parametrize(
    ("rod", "width"), [(10, 3), (12, 3), (15, 5), (18, 5), (20, 6.5), (25, 6.5), (40, 8), (50, 8), (75, 10)]
)
def test_usual_widths_are_those_of_the_tribology_handbook(rod: float, width: float) -> None:
    # Tribology Handbook, table 25.2.
    assert usual_section(rod / 1000)[:2] == pytest.approx((width / 1000, width / 1000))


def test_small_rods_take_0_8_to_2_4_mm() -> None:
    # From memory: rods of 2 to 6 mm take 0.3 to 0.5 of their diameter, 0.8 to 2.4 mm.
    assert usual_section(0.002)[0] == 0.0008
    assert usual_section(0.006)[1] == 0.0024


def test_the_worked_gland_without_and_with_decay() -> None:
    # d 5, D 9, H 10 mm, mu 0.1, K 0.5, sigma0 1 MPa.
    # beta = 4 x 0.5 x 0.1 x 14 / (81 - 25) = 0.05 per mm.
    assert find_decay(0.005, 0.009, friction=0.1) / 1000 == pytest.approx(0.05)
    # Drago and Evans: pi x 5 x 10 x 1 x 0.1 x 0.5 = 7.854 N.
    assert friction_plain(0.005, 0.010, pressure=1e6, friction=0.1) == pytest.approx(7.854, abs=0.001)
    # With decay: pi x 5 x 0.05 x (1 - e^-0.5)/0.05 = 15.708 x 0.39347 = 6.181 N.
    assert friction_decaying(0.005, 0.009, 0.010, pressure=1e6, friction=0.1) == pytest.approx(6.181, abs=0.001)
    # 4 bar: 0.4 x e^0.5 / 0.5 = 1.319 MPa.
    assert sealing_pressure(0.005, 0.009, 0.010, held=4e5, friction=0.1) == pytest.approx(1.319e6, rel=1e-3)
    pressed = press_packing(0.005, 0.009, 0.010, held=4e5, friction=0.1)
    # Annulus pi/4 (81 - 25) = 43.98 mm2, x 1.319 = 58.0 N; 6.181 x 1.319 = 8.153 N.
    assert pressed.thrust == pytest.approx(58.0, abs=0.05)
    assert pressed.friction == pytest.approx(8.153, abs=0.002)
    assert pressed.friction_twice == pytest.approx(2 * pressed.friction)
    assert pressed.plain == pytest.approx(7.854 * 1.3190, abs=0.002)


@pytest.mark.parametrize(("kind", "gap"), [("carbon-filled", 0.56), ("virgin", 1.28)])
def test_gap_of_a_ptfe_ring_in_a_25_mm_bore(kind: str, gap: float) -> None:
    # Tribology Handbook B17, pi D alpha T: pi x 25 x 55e-6 x 130 = 0.5616; pi x 25 x 125e-6 x 130 = 1.2763 mm.
    assert 1000 * ptfe_ring_gap(0.025, rise=130, kind=kind) == pytest.approx(gap, abs=0.005)


def test_a_compressor_handbooks_gap_is_the_same() -> None:
    # 0.017 per unit of bore is pi x 55e-6 x 100 K = 0.01728.
    assert ptfe_ring_gap(1.0, rise=100) == pytest.approx(0.0173, abs=5e-5)


def test_an_eighth_of_a_turn_of_a_32_thread_moves_a_tenth_of_a_millimetre() -> None:
    # 25.4 / 32 = 0.79375 mm; an eighth 0.0992 mm; a flat of a hexagon 0.1323 mm.
    travel = find_nut_travel(INCH / 32)
    assert 1000 * travel.eighth == pytest.approx(0.0992, abs=1e-4)
    assert 1000 * travel.flat == pytest.approx(0.1323, abs=1e-4)


@pytest.mark.parametrize(("bar", "celsius"), [(4, 152), (10, 184), (3, 144), (6, 165)])
def test_steam_at_bench_pressures_is_as_hot_as_the_workshops_warnings_say(bar: float, celsius: float) -> None:
    assert find_boiling_point(bar * 1e5 + 101325) - 273.15 == pytest.approx(celsius, abs=0.6)


def test_the_length_of_a_ring_is_that_of_its_middle_line() -> None:
    assert ring_length(0.004, 0.002) == pytest.approx(pi * 0.006)
