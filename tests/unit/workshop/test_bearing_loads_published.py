"""Pressures on bearings against what is printed of them, each with its source."""

from __future__ import annotations

import pytest

from lapwright.errors import NotOneOf, OutOfRange
from lapwright.workshop.bearing_loads import (
    PARTS,
    find_bearing_pressure,
    find_pocket_book_pressures,
    judge_bearing,
    list_pressure_bands,
)

PSI = 6894.757


def test_the_proportions_of_a_pocket_book_imply_a_pressure() -> None:
    # Molesworth, p. 499: crank pin 0.14 D x 0.21 D, journals 0.3 D x 0.44 D. (pi/4)/(0.14 x 0.21) = 26.71 times the
    # steam pressure on the pin, (pi/8)/(0.3 x 0.44) = 2.975 times on each of two journals: 8.0 and 0.9 MPa at 3 bar.
    assert find_pocket_book_pressures(1.0) == pytest.approx((26.7, 3.0), rel=0.01)
    assert find_pocket_book_pressures(3e5) == pytest.approx((8.0e6, 0.9e6), rel=0.01)
    # The table prints them worked out at 2 and at 4 bar.
    assert find_pocket_book_pressures(2e5) == pytest.approx((5.34e6, 0.59e6), rel=0.01)
    assert find_pocket_book_pressures(4e5) == pytest.approx((10.69e6, 1.19e6), rel=0.01)


def test_that_fits_the_handbook_set_at_3_bar() -> None:
    # From memory, slow engines: crank pin 10.5, main bearing 2.8 MPa; fast ones 4.2 and 1.75.
    pin, journal = find_pocket_book_pressures(3e5)
    assert 4.2e6 < pin < 10.5e6
    assert journal < 1.75e6


@pytest.mark.parametrize(
    ("part", "fast", "allowed"),
    [
        ("crank pin", False, 10.5),
        ("crank pin", True, 4.2),
        ("crosshead", False, 12.6),
        ("crosshead", True, 12.6),
        ("main bearing", False, 2.8),
        ("main bearing", True, 1.75),
        ("eccentric strap", True, 0.5),
        ("crosshead slipper", False, 0.3),
    ],
)
def test_the_handbook_set_is_used_and_says_that_it_is_from_memory(part: str, fast: bool, allowed: float) -> None:
    verdict = judge_bearing(part, 10.0, diameter=4e-3, length=5e-3, fast=fast)
    assert verdict.allowed.low == pytest.approx(allowed * 1e6)
    assert "from memory" in verdict.sources[0]


def test_what_else_is_printed_is_shown_beside_it() -> None:
    bands = {band.case: band for band in list_pressure_bands("main bearing", steam_pressure=3e5)}
    # Scientific American Supplement no. 717 (1889): hot at 200 psi, cool at 120.
    assert bands["marine 1889: ran hot at 200 psi"].low == pytest.approx(200 * PSI, rel=0.01)
    assert bands["marine 1889: cool limit 120 psi"].low == pytest.approx(120 * PSI, rel=0.01)
    assert bands["by old proportions at this steam pressure"].low == pytest.approx(0.893e6, rel=1e-3)
    pins = {band.case: band for band in list_pressure_bands("crank pin")}
    # Mathot, Gas Engines: 1400 psi.
    assert pins["gas engine, early 1900s: 1400 psi design"].low == pytest.approx(1400 * PSI, rel=0.01)
    verdict = judge_bearing("crank pin", 10.0, diameter=4e-3, length=5e-3)
    assert verdict.allowed not in verdict.others
    assert not any("from memory" in band.source for band in verdict.others)


def test_a_bearing_is_judged_by_its_projected_area() -> None:
    # 100 N on 4 x 5 mm: 5.0 MPa, over the 4.2 of a fast engine's crank pin and under the 10.5 of a slow one's.
    assert find_bearing_pressure(100, diameter=4e-3, length=5e-3) == pytest.approx(5.0e6)
    fast = judge_bearing("crank pin", -100, diameter=4e-3, length=5e-3)
    slow = judge_bearing("crank pin", 100, diameter=4e-3, length=5e-3, fast=False)
    assert (fast.share <= 1, slow.share <= 1) == (False, True)
    assert fast.share == pytest.approx(5.0 / 4.2)
    assert fast.sentence == (
        "5.00 MPa on the projected area: more than the 4.20 MPa allowed (from memory); a longer or thicker "
        "bearing is wanted."
    )
    assert slow.sentence == "5.00 MPa on the projected area: under the 10.50 MPa allowed (from memory)."


def test_what_is_no_bearing_is_refused() -> None:
    with pytest.raises(OutOfRange):
        find_bearing_pressure(1, diameter=0, length=1)
    with pytest.raises(NotOneOf, match="crank pin"):
        judge_bearing("flywheel", 1, diameter=1, length=1)
    assert all(list_pressure_bands(part) for part in PARTS)
