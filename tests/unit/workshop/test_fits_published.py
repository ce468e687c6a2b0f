"""Fits against the limits of ISO 286-2 and the formulas of ISO 286-1, each with its source beside it."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import pytest

from lapwright.errors import NotInTable, OutOfRange
from lapwright.tables.fits import list_fits
from lapwright.workshop.fits import (
    BANDS,
    PURPOSES,
    FitLimits,
    choose_fits,
    find_fit,
    list_fits_of,
    name_fit,
)


@dataclass(frozen=True)
class Formulas:
    """What the formulas of ISO 286-1 give for one band, in m, before anything is rounded."""

    unit: float
    grades: dict[int, float]
    g: float
    f: float
    p: float


def work_out_formulas(band: tuple[float, float]) -> Formulas:
    """ISO 286-1: i = 0.45 D^(1/3) + 0.001 D µm, D the geometric mean of the band in mm, of the first from 1 mm."""
    low, high = 1e3 * band[0] or 1.0, 1e3 * band[1]
    mean = sqrt(low * high)
    unit = 1e-6 * (0.45 * mean ** (1 / 3) + 0.001 * mean)
    grades = {6: 10 * unit, 7: 16 * unit, 8: 25 * unit}
    return Formulas(unit, grades, 1e-6 * 2.5 * mean**0.34, 1e-6 * 5.5 * mean**0.41, grades[7])


def in_microns(limits: FitLimits) -> tuple[int, ...]:
    """Hole and shaft as deviations from the size, then the clearances."""
    deviations = [size - limits.size for size in (*limits.hole, *limits.shaft)]
    return tuple(round(1e6 * figure) for figure in (*deviations, limits.least_clearance, limits.most_clearance))


@pytest.mark.parametrize(
    ("size", "fit", "expected"),
    [
        # ISO 286-2, over 3 up to 6 mm: H7 0 +12, H8 0 +18, h6 -8 0, g6 -12 -4, f7 -22 -10, p6 +12 +20.
        (6.0, "H7/h6", (0, 12, -8, 0, 0, 20)),
        (6.0, "H7/g6", (0, 12, -12, -4, 4, 24)),
        (4.0, "H7/f7", (0, 12, -22, -10, 10, 34)),
        (5.0, "H8/f7", (0, 18, -22, -10, 10, 40)),
        (3.1, "H7/p6", (0, 12, 12, 20, -20, 0)),
        # ISO 286-2, up to 3 mm: H7 0 +10, g6 -8 -2, p6 +6 +12.
        (3.0, "H7/g6", (0, 10, -8, -2, 2, 18)),
        (1.0, "H7/p6", (0, 10, 6, 12, -12, 4)),
        # ISO 286-2, over 18 up to 30 mm: h6 is -13 0; a table in circulation prints -30.
        (30.0, "H7/h6", (0, 21, -13, 0, 0, 34)),
        (18.1, "H7/p6", (0, 21, 22, 35, -35, -1)),
    ],
)
def test_limits_are_those_of_the_standard(size: float, fit: str, expected: tuple[int, ...]) -> None:
    assert in_microns(find_fit(size / 1000, fit)) == expected


def test_a_band_ends_with_its_greatest_size() -> None:
    for low, high in BANDS:
        for fit in PURPOSES:
            inside, outside = find_fit(high, fit), find_fit(high * (1 - 1e-9), fit)
            assert in_microns(inside) == in_microns(outside), (low, high, fit)
    assert in_microns(find_fit(6.001e-3, "H7/h6"))[1] == 15


def test_every_row_of_the_table_leaves_the_clearance_it_prints() -> None:
    for row in list_fits():
        limits = find_fit(row.up_to, row.fit)
        assert limits.least_clearance == pytest.approx(row.least_clearance, abs=1e-12)
        assert limits.most_clearance == pytest.approx(row.most_clearance, abs=1e-12)


@pytest.mark.parametrize("band", BANDS[1:])
def test_the_formulas_agree_with_the_table_to_a_micron(band: tuple[float, float]) -> None:
    # ISO 286-1: i = 0.45 D^(1/3) + 0.001 D; 10 i, 16 i, 25 i; g 2.5 D^0.34, f 5.5 D^0.41; D = sqrt(low x high).
    formulas = work_out_formulas(band)
    rows = {row.fit: row for row in list_fits() if (row.over, row.up_to) == band}
    printed = {
        "grade 6": (-rows["H7/h6"].shaft_lower, formulas.grades[6]),
        "grade 7": (rows["H7/h6"].hole_upper, formulas.grades[7]),
        "grade 8": (rows["H8/f7"].hole_upper, formulas.grades[8]),
        "g": (-rows["H7/g6"].shaft_upper, formulas.g),
        "f": (-rows["H7/f7"].shaft_upper, formulas.f),
    }
    for name, (table, formula) in printed.items():
        assert table == pytest.approx(formula, abs=1e-6), name
    # p stands grade 7 and up to 5 µm above the size; the half is rounding.
    assert -0.5e-6 <= rows["H7/p6"].shaft_lower - formulas.p <= 5e-6


def test_worked_by_hand_for_3_to_6_mm() -> None:
    # D = sqrt(3 x 6) = 4.243; 0.45 x 1.619 + 0.0042 = 0.7327; x 10 = 7.3, x 16 = 11.7, x 25 = 18.3.
    formulas = work_out_formulas((3e-3, 6e-3))
    assert 1e6 * formulas.unit == pytest.approx(0.7327, abs=1e-4)
    assert [round(1e6 * formulas.grades[grade], 1) for grade in (6, 7, 8)] == [7.3, 11.7, 18.3]


def test_up_to_3_mm_the_table_wins_over_the_formula_and_says_so() -> None:
    # D = sqrt(1 x 3) = 1.732: grade 7 16 x 0.5421 = 8.67 (table 10), g 2.5 x 1.732^0.34 = 3.01 (2), p 8.67 (6).
    formulas = work_out_formulas(BANDS[0])
    assert 1e6 * formulas.grades[7] == pytest.approx(8.67, abs=0.005)
    assert 1e6 * formulas.g == pytest.approx(3.01, abs=0.005)
    limits = find_fit(2e-3, "H7/g6")
    assert in_microns(limits) == (0, 10, -8, -2, 2, 18)
    assert "10 µm against 8.7" in limits.notes[0]
    assert "the table is used" in limits.notes[0]
    assert find_fit(4e-3, "H7/g6").notes == ()


def test_a_press_fit_that_may_fall_out_says_so() -> None:
    assert "leaves 4 µm of play" in find_fit(2e-3, "H7/p6").notes[1]
    assert "no grip at all" in find_fit(6e-3, "H7/p6").notes[0]
    assert find_fit(25e-3, "H7/p6").notes == ()


def test_every_fit_has_a_word_a_purpose_and_a_source() -> None:
    fits = list_fits_of(6e-3)
    assert [limits.fit for limits in fits] == ["H7/h6", "H7/g6", "H7/f7", "H8/f7", "H7/p6"]
    assert [limits.kind for limits in fits] == ["sliding", "close running", "running", "easy running", "press"]
    for limits in fits:
        assert limits.purpose
        assert "ISO 286" in limits.source
        assert not limits.from_memory
        assert limits.sources[1].endswith("common practice, no source.")


@pytest.mark.parametrize(
    ("clearance", "fits"),
    [
        # At 6 mm the middles are 10 (h6), 14 (g6), 22 (H7/f7), 25 (H8/f7) µm.
        (15, ["H7/g6", "H7/h6", "H7/f7", "H8/f7"]),
        (38, ["H8/f7"]),
        (2, ["H7/h6"]),
        (-5, ["H7/p6"]),
        (60, []),
    ],
)
def test_fits_that_give_a_clearance_come_likeliest_first(clearance: float, fits: list[str]) -> None:
    assert [limits.fit for limits in choose_fits(6e-3, 1e-6 * clearance)] == fits


@pytest.mark.parametrize("written", ["H7/g6", "h7/g6", "H7g6", "H7 - G6", " H7 / g6 "])
def test_a_fit_is_known_however_it_is_spaced(written: str) -> None:
    assert name_fit(written) == "H7/g6"


@pytest.mark.parametrize(("written", "near"), [("H7/g5", "H7/g6"), ("H8/f6", "H8/f7"), ("H7/p7", "H7/p6")])
def test_an_unknown_fit_is_told_the_nearest_and_all(written: str, near: str) -> None:
    with pytest.raises(NotInTable) as told:
        find_fit(6e-3, written)
    assert f'"{written}" is not in the table of fits' in str(told.value)
    assert f'the nearest is "{near}"' in str(told.value)
    assert "H7/h6, H7/g6, H7/f7, H8/f7, H7/p6" in str(told.value)


@pytest.mark.parametrize("size", [0.0, -1e-3, float("inf"), float("nan")])
def test_what_is_no_size_is_refused(size: float) -> None:
    with pytest.raises(OutOfRange):
        find_fit(size, "H7/g6")


def test_a_size_beyond_the_table_is_told_where_it_ends() -> None:
    with pytest.raises(NotInTable, match="it ends at 30 mm"):
        find_fit(30.1e-3, "H7/g6")
