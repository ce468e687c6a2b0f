"""The strength of threads against published figures, each with its source beside it."""

from __future__ import annotations

import pytest

from lapwright.tables.naming import find_thread
from lapwright.workshop.strength import (
    breaking_engagement,
    hole_shear_area,
    screw_shear_area,
    stress_area,
    weak_hole_factor,
)


@pytest.mark.parametrize(
    ("name", "square_mm"),
    [
        # ISO 898-1, table of nominal stress areas.
        ("M3", 5.03),
        ("M4", 8.78),
        ("M5", 14.2),
        ("M6", 20.1),
        # ASME B1.1: At = pi/4 (D - 0.9743/n)^2 = 0.0318 in2 for 1/4-20.
        ("1/4-20 UNC", 0.0318 * 25.4**2),
        # No standard has one. By hand: 0.785398 x 5.10^2 = 20.428; 4 BA: 0.785398 x 3.006^2 = 7.097.
        ("0 BA", 20.428),
        ("4 BA", 7.097),
        # By hand: pi/4 (0.25 - 0.96049/20)^2 = 0.785398 x 0.201976^2 = 0.032040 in2.
        ("1/4 BSW", 0.032040 * 25.4**2),
    ],
)
def test_a_screw_breaks_on_its_stress_area(name: str, square_mm: float) -> None:
    assert stress_area(find_thread(name)) * 1e6 == pytest.approx(square_mm, rel=3e-3)


def test_the_worked_shear_areas_of_a_four_ba_thread_in_a_millimetre() -> None:
    # By hand, FED-STD-H28 with t = tan 23.75 deg = 0.44001 (BS 93 sizes D 3.60, E 3.205, minor 2.81, p 0.66):
    # hole pi 3.60/0.66 (0.33 + 0.44001 x 0.395) = 8.63; screw at 2.81: pi 2.81/0.66 (0.33 + 0.44001 x 0.395) = 6.74;
    # screw in a hole drilled 3.00: pi 3.00/0.66 (0.33 + 0.44001 x 0.205) = 6.00 mm2.
    thread = find_thread("4 BA")
    assert hole_shear_area(thread, 1e-3) * 1e6 == pytest.approx(8.63, abs=0.005)
    assert screw_shear_area(thread, 1e-3) * 1e6 == pytest.approx(6.74, abs=0.005)
    assert screw_shear_area(thread, 1e-3, bore=3.0e-3) * 1e6 == pytest.approx(6.00, abs=0.005)


def test_the_breaking_engagement_is_the_published_formula_at_sixty_degrees() -> None:
    # Machinery's Handbook, 24th ed., after FED-STD-H28: Le = 2 At / (pi Kn [1/2 + 0.57735 n (Es - Kn)]).
    # By hand for M4 at basic sizes: pi 3.242 [0.5 + 0.57735/0.7 x (3.545 - 3.242)] = 7.638; 2 x 8.779/7.638 = 2.30 mm.
    assert breaking_engagement(find_thread("M4")) * 1e3 == pytest.approx(2.299, abs=0.005)


def test_a_hole_of_half_the_strength_wants_a_longer_thread_but_not_twice_as_long() -> None:
    # By hand for M4: J = (7.638 x 2)/(10.999 x 1) = 1.389: the hole's own cylinder is the larger one.
    thread = find_thread("M4")
    factor = weak_hole_factor(thread, hole_strength=200e6, screw_strength=400e6)
    assert factor == pytest.approx(1.389, abs=0.001)
    assert breaking_engagement(thread, factor=factor) == pytest.approx(1.389 * breaking_engagement(thread), rel=1e-3)
    assert weak_hole_factor(thread, hole_strength=400e6, screw_strength=400e6) == 1.0


def test_the_strength_ratio_says_whose_thread_goes() -> None:
    # By hand, 4 BA: areas 8.633/6.739 = 1.281 for equal metals; brass 210 under steel 300 MPa: 0.7 x 1.281 = 0.897.
    thread = find_thread("4 BA")
    ratio = hole_shear_area(thread, 1.0) / screw_shear_area(thread, 1.0)
    assert ratio == pytest.approx(1.281, abs=0.001)
    assert 210 / 300 * ratio == pytest.approx(0.897, abs=0.001)
