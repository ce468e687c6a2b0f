"""Strength of threads held against a general library of FED-STD-H28/2B and ASME B1.1, `screw-thread-lib` 0.0.6."""

from math import sqrt

import pytest
from screw_thread_lib.threads import Assembly

from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop.strength import breaking_engagement, hole_shear_area, screw_shear_area, stress_area

INCH = 0.0254
#: What that library and this project both know: threads of 60 degrees, here by their basic sizes.
SIXTY = [row for row in list_threads() if row.form in ("Unified", "ISO metric")]


def assemble(row: ThreadRow) -> Assembly:
    """The library's own object, in inches, with nothing taken off the basic sizes."""
    n, d = INCH / row.pitch, row.major / INCH
    height = sqrt(3) / 2 / n
    effective, minor = d - 0.75 * height, d - 1.25 * height
    return Assembly({"n": n, "dbsc": d, "dmin": d, "d2min": effective, "D1max": minor, "D2max": effective})


@pytest.mark.parametrize("row", [row for row in SIXTY if row.form == "Unified"], ids=lambda row: row.name)
def test_the_stress_area_of_unified_threads_is_formula_1b(row: ThreadRow) -> None:
    # 9 sqrt(3)/16 = 0.97428 in the library, 0.9743 in ASME B1.1.
    assert stress_area(row) / INCH**2 == pytest.approx(assemble(row).As_FEDSTD_1b(), rel=2e-4)


@pytest.mark.parametrize("row", SIXTY, ids=lambda row: row.name)
def test_both_shear_areas_are_formulas_2a_and_4a(row: ThreadRow) -> None:
    library, length = assemble(row), 1.0
    # The tables are printed to a micrometre or to a ten-thousandth of an inch.
    assert hole_shear_area(row, length * INCH) / INCH**2 == pytest.approx(library.ASn_min_FEDSTD_2a(length), rel=3e-3)
    assert screw_shear_area(row, length * INCH) / INCH**2 == pytest.approx(library.ASs_min_FEDSTD_4a(length), rel=3e-3)


@pytest.mark.parametrize("row", [row for row in SIXTY if row.form == "Unified"], ids=lambda row: row.name)
def test_the_engagement_that_breaks_the_screw_first_is_formula_14(row: ThreadRow) -> None:
    assert breaking_engagement(row) / INCH == pytest.approx(assemble(row).LEr_FEDSTD_14("1b"), rel=3e-3)
