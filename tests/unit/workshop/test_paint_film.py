"""Films of paint against data sheets, and against sums done by hand."""

from __future__ import annotations

import pytest

from lapwright.errors import OutOfRange
from lapwright.workshop.paint_film import (
    Build,
    build_film,
    find_sag_speed,
    find_volume,
    find_wet_film,
    show_micrometres,
)


@pytest.mark.parametrize(
    ("dry", "solids", "wet", "within"),
    [
        # Long-oil alkyd gloss enamel, its data sheet: 48 % solids, dry 35, 50, 75 µm for wet 73, 104, 156 µm.
        (35, 0.48, 73, 0.01),
        (50, 0.48, 104, 0.01),
        (75, 0.48, 156, 0.01),
        # Oil aluminium heat paint, its data sheet: 45 %, dry 25 for wet 55 µm.
        (25, 0.45, 55, 0.02),
        # Silicone black, its data sheet: 19 %, dry 15 for wet 75 µm; 15 / 0.19 is 78.9, and the sheet rounds.
        (15, 0.19, 75, 0.053),
    ],
)
def test_wet_films_of_three_data_sheets(dry: float, solids: float, wet: float, within: float) -> None:
    assert find_wet_film(dry * 1e-6, solids) == pytest.approx(wet * 1e-6, rel=within)


@pytest.mark.parametrize(("film", "speed"), [(50e-6, 1.8), (100e-6, 7.1), (150e-6, 15.9)])
def test_a_wet_coat_slides_as_worked_out_by_hand(film: float, speed: float) -> None:
    # 1200 x 9.80665 x (100e-6)^2 / (2 x 0.5) = 1.1768e-4 m/s = 7.06 mm/min; 50 and 150 µm: a quarter, 9/4 of it.
    assert round(find_sag_speed(film) * 60e3, 1) == speed


@pytest.mark.parametrize(
    ("wanted", "coats", "each"),
    [
        (100e-6, 2, 50e-6),
        (75e-6, 1, 75e-6),
        (150e-6, 2, 75e-6),
        (151e-6, 3, 151e-6 / 3),
        # What a coat cannot be thinner than is laid on all the same.
        (20e-6, 1, 35e-6),
    ],
)
def test_the_fewest_coats_that_the_sheet_allows(wanted: float, coats: int, each: float) -> None:
    build = build_film(wanted, least=35e-6, most=75e-6)
    assert build.coats == coats
    assert build.each == pytest.approx(each)


def test_a_build_knows_its_film() -> None:
    assert Build(2, 50e-6).film == pytest.approx(100e-6)


def test_paint_for_a_surface_with_what_is_wasted() -> None:
    # 600 cm2 x 104.17 µm = 6.25 ml; two coats 12.5 ml; three parts in ten more: 16.25 ml.
    assert find_volume(0.06, 50e-6 / 0.48, coats=2) == pytest.approx(16.25e-6)
    assert find_volume(0.06, 50e-6 / 0.48, waste=1.0) == pytest.approx(6.25e-6)


@pytest.mark.parametrize(
    ("work", "sentence"),
    [
        (
            lambda: find_wet_film(-5e-6, 0.5),
            '"-5 µm" is no thickness of a coat of paint: check the figure and its unit',
        ),
        (lambda: find_wet_film(0.0, 0.5), '"0 µm" is no thickness of a coat of paint: check the figure and its unit'),
        (
            lambda: find_wet_film(0.05, 0.5),
            '"50000 µm" is no thickness of a coat of paint: check the figure and its unit',
        ),
        (lambda: find_wet_film(50e-6, 48), '"48" is no share of solids: write it as a share above 0, up to 1'),
        (lambda: find_wet_film(50e-6, 0), '"0" is no share of solids: write it as a share above 0, up to 1'),
        (
            lambda: build_film(50e-6, least=75e-6, most=35e-6),
            '"75 µm" is thicker than the thickest coat of 35 µm: check the figure and its unit',
        ),
        (
            lambda: build_film(float("nan"), least=35e-6, most=75e-6),
            '"nan µm" is no thickness of a coat of paint: check the figure and its unit',
        ),
    ],
)
def test_no_such_film(work, sentence: str) -> None:
    with pytest.raises(OutOfRange) as refusal:
        work()
    assert str(refusal.value) == sentence


def test_films_are_shown_in_micrometres() -> None:
    assert show_micrometres(104.17e-6) == "104 µm"
