"""Laws of every thread and every drill: form against pitch, sizes in two units, drills that leave a thread."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from math import isclose, pi

import pytest

from lapwright.tables.drills import DRILL_SERIES, list_drills
from lapwright.tables.reading import read_rows
from lapwright.tables.threads import CLEARANCES, SERIES, list_threads
from tests.unit.tables.printed import INCH_MM, Row, broken, number

#: Depth to the pitch line and full depth of the nut, both taken twice, in pitches.
FACTORS = {
    "BA": (0.6, 1.2),
    "Whitworth": (0.640327, 1.280654),
    "ISO metric": (0.649519, 1.082532),
    "Unified": (0.649519, 1.082532),
}
#: Half the last printed place of effective and minor diameter [m].
PLACES = {
    "BA": 0.005e-3,
    "BSW": 0.5e-7,
    "BSF": 0.5e-7,
    "brass": 0.5e-7,
    "model": 0.5e-7,
    "BSP": 0.5e-6,
    "metric coarse": 0.5e-6,
    "metric fine": 0.5e-6,
    "UNC": 0.5e-4 * 0.0254,
    "UNF": 0.5e-4 * 0.0254,
}


def test_effective_and_minor_diameters_follow_from_pitch_and_form() -> None:
    for row in list_threads():
        to_effective, to_minor = FACTORS[row.form]
        place = PLACES[row.series] + 1e-12
        assert abs(row.major - to_effective * row.pitch - row.effective) <= place, row.name
        assert abs(row.major - to_minor * row.pitch - row.minor) <= 2 * place, row.name
        assert row.minor_external <= row.minor < row.effective < row.major, row.name


def test_the_root_of_a_60_degree_screw_lies_17_12ths_of_the_sharp_vee_under_its_crest() -> None:
    for row in list_threads():
        if row.form in ("ISO metric", "Unified"):
            root = row.major - 17 / 12 * 3**0.5 / 2 * row.pitch
            assert abs(row.minor_external - root) <= 0.5e-6 + 1e-12, row.name


@pytest.mark.parametrize("series", SERIES)
def test_a_series_rises_in_diameter_and_never_gets_finer(series: str) -> None:
    rows = list_threads(series)
    assert rows
    assert all(one.major <= other.major for one, other in pairwise(rows))
    if series not in ("model", "metric fine"):
        assert all(one.major < other.major for one, other in pairwise(rows))
        assert all(one.pitch <= other.pitch for one, other in pairwise(rows))


def test_a_name_stands_for_one_thread_and_twins_are_alike_both_ways() -> None:
    rows = {row.name: row for row in list_threads()}
    assert len(rows) == len(list_threads())
    for row in rows.values():
        for twin in (rows[name] for name in row.twins):
            assert row.name in twin.twins
            assert twin.series != row.series
            alike = (row.form, row.major, row.pitch, row.effective, row.minor)
            assert (twin.form, twin.major, twin.pitch, twin.effective, twin.minor) == alike
            # The printed areas of the pair are those of one thread.
            assert twin.stress_area == row.stress_area


def test_the_rounded_table_of_ba_is_the_standard_and_the_formula_gives_all_of_it_but_one_size() -> None:
    rows = read_rows("threads_ba")
    pitches = [f"{0.9 ** int(row['ba']):.2f}" == row["pitch_mm"] for row in rows]
    majors = [f"{6 * (0.9 ** int(row['ba'])) ** 1.2:.1f}" == f"{float(row['major_mm']):.1f}" for row in rows]
    printed = [f"{6 * (0.9 ** int(row['ba'])) ** 1.2:.1f}0" == row["major_mm"] for row in rows]
    assert (sum(pitches), sum(majors), sum(printed)) == (17, 17, 16)
    # 16 BA is rounded to two places, and not to the nearest: 0.79 for 0.7936.
    assert [row["ba"] for row, same in zip(rows, printed, strict=True) if not same] == ["16"]
    assert not broken(rows, "pitch_exact_0.9^n", lambda row: 0.9 ** number(row, "ba"))
    assert not broken(rows, "major_exact_6p^1.2", lambda row: 6 * 0.9 ** (1.2 * number(row, "ba")))


def test_ba_depth_radius_tolerances_and_areas_follow_from_the_pitch() -> None:
    rows = read_rows("threads_ba")

    def pitch(row: Row) -> float:
        return number(row, "pitch_mm")

    # The depth is rounded to 0.005 mm.
    assert all(abs(number(row, "depth_mm") - 0.6 * pitch(row)) <= 0.0025 + 1e-9 for row in rows)
    assert not broken(rows, "effective_mm", lambda row: number(row, "major_mm") - number(row, "depth_mm"))
    assert not broken(rows, "minor_mm", lambda row: number(row, "major_mm") - 2 * number(row, "depth_mm"))
    assert not broken(rows, "radius_mm", lambda row: 0.18083 * pitch(row), slack=1.2)
    assert not broken(rows, "tpi", lambda row: INCH_MM / pitch(row))
    assert not broken(rows, "normal_bolt_tol_eff_mm", lambda row: 0.10 * pitch(row) + 0.025)
    assert not broken(rows, "normal_bolt_tol_minor_mm", lambda row: 0.20 * pitch(row) + 0.05)
    assert not broken(rows, "nut_tol_eff_mm", lambda row: 0.12 * pitch(row) + 0.03)
    assert not broken(rows, "nut_tol_minor_mm", lambda row: 0.375 * pitch(row))
    coarse = [number(row, "ba") <= 10 for row in rows]
    assert [row["normal_bolt_allowance_mm"] == "0.025" for row in rows] == coarse
    assert not broken(
        rows, "normal_bolt_tol_major_mm", lambda row: (0.20 if number(row, "ba") <= 10 else 0.25) * pitch(row)
    )
    assert not broken(rows, "minor_area_mm2", lambda row: pi / 4 * number(row, "minor_mm") ** 2)
    assert not broken(
        rows,
        "stress_area_mean_eff_minor_mm2",
        lambda row: pi / 16 * (number(row, "effective_mm") + number(row, "minor_mm")) ** 2,
    )


def test_whitworth_columns_in_both_units_agree_with_the_form() -> None:
    rows = read_rows("threads_whitworth")

    def pitch(row: Row) -> float:
        return 1 / number(row, "tpi")

    def nominal(row: Row) -> float:
        return float(Fraction(row["nominal_in"]))

    for unit, factor in (("in", 1.0), ("mm", INCH_MM)):
        assert not broken(rows, f"major_{unit}", lambda row, k=factor: k * nominal(row), slack=1.01)
        assert not broken(rows, f"pitch_{unit}", lambda row, k=factor: k * pitch(row))
        for column, depth in (("effective", 0.640327), ("minor", 1.280654)):
            assert not broken(
                rows,
                f"{column}_{unit}",
                lambda row, k=factor, d=depth: k * (nominal(row) - d * pitch(row)),
                slack=1.02,
            )
    assert not broken(rows, "depth_in", lambda row: 0.640327 * pitch(row))
    assert not broken(rows, "radius_in", lambda row: 0.137329 * pitch(row))
    assert not broken(
        rows,
        "stress_area_mean_eff_minor_mm2",
        lambda row: pi / 16 * (number(row, "effective_mm") + number(row, "minor_mm")) ** 2,
        slack=4,
    )


def test_pipe_and_inch_pitches_are_an_inch_over_the_threads_in_it() -> None:
    assert not broken(read_rows("threads_bsp"), "pitch_mm", lambda row: INCH_MM / number(row, "tpi"))
    assert not broken(read_rows("threads_bsp"), "depth_mm", lambda row: 0.640327 * INCH_MM / number(row, "tpi"))
    for row in read_rows("threads_unified"):
        assert row["size"].endswith(f"-{row['tpi']}")
        if found := re.match(r"No (\d+)-", row["size"]):
            assert isclose(number(row, "major_in"), 0.060 + 0.013 * int(found[1]), abs_tol=1e-9)


def test_printed_percentages_are_those_of_the_printed_drill_on_the_named_basis() -> None:
    def share(row: Row, drill: str, depth: float, *, major: str = "major_mm") -> float:
        return 100 * (number(row, major) - number(row, drill)) / depth

    ba, whitworth, bsp = (read_rows(f"threads_{name}") for name in ("ba", "whitworth", "bsp"))
    metric, unified = read_rows("threads_metric"), read_rows("threads_unified")
    for row in ba:
        found = share(row, "tap_drill_mm", number(row, "major_mm") - number(row, "minor_mm"))
        assert abs(found - number(row, "tap_drill_pct_depth")) <= 0.051, row["ba"]
    for row in (*whitworth, *bsp):
        found = share(row, "tap_drill_mm", 1.280654 * INCH_MM / number(row, "tpi"))
        assert abs(found - number(row, "tap_drill_pct_depth")) <= 0.051, dict(row)
    for row in metric:
        for column, depth in (("pct_of_1.0825p", 1.082532), ("pct_of_1.299p", 1.299038)):
            assert abs(share(row, "tap_drill_mm", depth * number(row, "pitch_mm")) - number(row, column)) <= 0.051
    for row in unified:
        columns = {
            "pct_soft_of_1.299p": ("drill_soft_in", 1.299038),
            "pct_hard_of_1.299p": ("drill_hard_in", 1.299038),
            "pct_soft_of_1.0825p": ("drill_soft_in", 1.082532),
        }
        for column, (drill, depth) in columns.items():
            found = share(row, drill, depth / number(row, "tpi"), major="major_in")
            # A fraction's decimal is printed to four places.
            slack = 0.051 + 100 * 0.5e-4 * number(row, "tpi") / depth * (len(row[drill]) > 5)
            assert abs(found - number(row, column)) <= slack, dict(row)


def test_the_american_basis_is_six_fifths_of_the_iso_one() -> None:
    for row in read_rows("threads_metric"):
        assert isclose(number(row, "pct_of_1.0825p") / number(row, "pct_of_1.299p"), 1.2, rel_tol=2e-3)


def test_tapping_drills_leave_a_thread_and_can_be_bought() -> None:
    stock = {drill.diameter for drill in list_drills()}
    for row in list_threads():
        assert row.tapping_drill is not None
        assert row.minor < row.tapping_drill < row.effective, row.name
        assert row.drill_source
        stocked = any(isclose(row.tapping_drill, size, abs_tol=0.6e-4 * 0.0254) for size in stock)
        # The standards also use quarters of a millimetre; 0.98 mm, for 13 BA, is a size that few shops keep.
        quarters = 4000 * row.tapping_drill
        assert stocked or isclose(quarters, round(quarters)) or row.name == "13 BA", row.name
    for row in list_threads("BA"):
        # The nut's minor diameter may be 0.375 p over the basic one.
        assert row.tapping_drill is not None
        assert row.minor <= row.tapping_drill <= row.minor + 0.375 * row.pitch, row.name


def test_unified_drills_have_the_sizes_that_the_list_of_drills_gives_them() -> None:
    sizes = {row["name"]: number(row, "inch") for row in read_rows("drills")}
    for row in read_rows("threads_unified"):
        for kind in ("soft", "hard"):
            name = row[f"drill_{kind}"]
            assert abs(sizes[f"No {name}" if name.isdigit() else name] - number(row, f"drill_{kind}_in")) < 0.6e-4


def test_clearance_holes_clear_the_screw_and_get_freer() -> None:
    for row in list_threads():
        if row.clearance:
            holes = [row.clearance[fit] for fit in CLEARANCES]
            assert row.major < holes[0] < holes[1] < holes[2], row.name
            assert row.clearance_source
    assert all(row.clearance for row in list_threads("BA"))


def test_stress_areas_of_60_degree_threads_are_the_standards() -> None:
    for row in list_threads():
        area = row.stress_area
        if row.series.startswith("metric"):
            assert area is not None
            assert abs(area - pi / 4 * (row.major - 0.938194 * row.pitch) ** 2) <= 0.6e-9, row.name
        elif row.form == "Unified":
            assert area is not None
            assert isclose(area, pi / 4 * (row.major - 0.9743 * row.pitch) ** 2, rel_tol=5e-4), row.name
    areas = read_rows("threads_unified")
    assert all(
        isclose(number(r, "stress_area_in2") * 645.16, number(r, "stress_area_mm2"), rel_tol=1e-3) for r in areas
    )


# Drills.


def test_a_drill_has_one_size_in_both_units() -> None:
    for row in read_rows("drills"):
        if row["series"] == "metric":
            assert row["name"] == f"{number(row, 'mm'):g} mm"
            assert abs(number(row, "inch") - number(row, "mm") / INCH_MM) <= 0.51e-5
        else:
            assert abs(number(row, "mm") - number(row, "inch") * INCH_MM) <= 0.51e-3, dict(row)


def test_number_drills_fall_letters_rise_and_fractions_are_sixty_fourths() -> None:
    by_series = {series: [row for row in read_rows("drills") if row["series"] == series] for series in DRILL_SERIES}
    numbers = sorted(by_series["number"], key=lambda row: int(row["name"].removeprefix("No ")))
    assert [row["name"] for row in numbers] == [f"No {place}" for place in range(1, 81)]
    sizes = [number(row, "inch") for row in numbers]
    assert all(one > other for one, other in pairwise(sizes))
    letters = sorted(by_series["letter"], key=lambda row: row["name"])
    assert "".join(row["name"] for row in letters) == "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    sizes = [number(row, "inch") for row in letters]
    assert all(one < other for one, other in pairwise(sizes))
    fractions = [Fraction(row["name"]) * 64 for row in by_series["fraction"]]
    assert fractions == [Fraction(place) for place in range(1, 65)]
    assert all(float(Fraction(row["name"])) == number(row, "inch") for row in by_series["fraction"])


def test_drills_are_listed_from_thin_to_thick() -> None:
    drills = list_drills()
    assert all(one.diameter <= other.diameter for one, other in pairwise(drills))
    assert sum(len(list_drills(series)) for series in DRILL_SERIES) == len(drills)
