"""Forms of threads held against the figures of the standards, and percentages against printed drill lists."""

from __future__ import annotations

import re
from math import degrees

import pytest

from lapwright.errors import NotOneOf
from lapwright.tables.naming import find_thread
from lapwright.tables.reading import read_rows
from lapwright.tables.threads import list_threads
from lapwright.workshop.forms import FORMS, find_hole, measure_depth, measure_engagement

INCH = 25.4e-3


@pytest.mark.parametrize(
    ("form", "angle", "depth", "effective", "external", "radius"),
    [
        # BS 93 as reprinted in Machinery's Handbook, 31st edition, p. 2115.
        ("BA", 47.5, 1.2, 0.6, 1.2, 0.18083),
        # BS 84: h = 0.640327 p, r = 0.137329 p.
        ("Whitworth", 55, 1.280654, 0.640327, 1.280654, 0.137329),
        # ISO 68-1: nut 0.541266 p, ISO 724: d2 = d - 0.649519 p, d3 = d - 1.226869 p.
        ("ISO metric", 60, 1.082532, 0.649519, 1.226869, 0),
        ("Unified", 60, 1.082532, 0.649519, 1.226869, 0),
    ],
)
def test_factors_are_those_of_the_standards(
    form: str, angle: float, depth: float, effective: float, external: float, radius: float
) -> None:
    found = FORMS[form]
    assert degrees(found.flank_angle) == pytest.approx(angle, abs=1e-9)
    factors = (found.depth_factor, found.effective_factor, found.external_minor_factor)
    assert factors == pytest.approx((depth, effective, external), abs=1.1e-6)
    assert found.radius_factor == pytest.approx(radius, abs=5e-6)


# Tangents of the half angle as the formulas for stripping print them: 60, 55 and 47.5 degrees.
@pytest.mark.parametrize(("form", "tangent"), [("ISO metric", 0.57735), ("Whitworth", 0.52057), ("BA", 0.44001)])
def test_tangents_of_half_the_angle(form: str, tangent: float) -> None:
    assert FORMS[form].half_angle_tangent == pytest.approx(tangent, abs=5e-6)


# BS 93: the sharp vee of a BA thread is 1.13634 p high, 0.26817 p of it is cut off at each end.
def test_the_sharp_vee_of_a_ba_thread() -> None:
    height = 0.5 / FORMS["BA"].half_angle_tangent
    assert height == pytest.approx(1.13634, abs=1e-5)
    assert (height - 0.6) / 2 == pytest.approx(0.26817, abs=1e-5)


# ISO 724:1993, basic dimensions, mm: pitch diameter and minor diameter of the internal thread.
ISO_724 = {
    "M1": (0.838, 0.729), "M1.6": (1.373, 1.221), "M2": (1.740, 1.567), "M2.5": (2.208, 2.013), "M3": (2.675, 2.459),
    "M4": (3.545, 3.242), "M5": (4.480, 4.134), "M6": (5.350, 4.917), "M8": (7.188, 6.647), "M10": (9.026, 8.376),
    "M12": (10.863, 10.106), "M8 x 1": (7.350, 6.917), "M10 x 1.25": (9.188, 8.647),
}  # fmt: skip


@pytest.mark.parametrize("name", ISO_724)
def test_iso_724_follows_from_the_form(name: str) -> None:
    thread, form = find_thread(name), FORMS["ISO metric"]
    made = (thread.major - form.effective_factor * thread.pitch, thread.major - form.depth_factor * thread.pitch)
    assert [1e3 * size for size in made] == pytest.approx(ISO_724[name], abs=5.1e-4)


@pytest.mark.parametrize("thread", list_threads(), ids=lambda thread: thread.name)
def test_every_row_follows_from_its_form(thread) -> None:
    form = FORMS[thread.form]
    # BS 93 rounds depths to 0.005 mm and sizes to 0.1 mm; the others are printed to a thousandth or better.
    tolerance = 0.011e-3 if form.name == "BA" else 0.002e-3
    assert thread.effective == pytest.approx(thread.major - form.effective_factor * thread.pitch, abs=tolerance)
    assert thread.minor == pytest.approx(thread.major - form.depth_factor * thread.pitch, abs=tolerance)
    assert thread.minor_external == pytest.approx(
        thread.major - form.external_minor_factor * thread.pitch, abs=tolerance
    )


# The bases differ by 5/6: 75 % American is 90 % of the ISO depth.
@pytest.mark.parametrize("name", ["M4", "M6 x 0.75", "1/4-20 UNC", "No 5-44 UNF"])
def test_the_american_basis_is_six_fifths_of_the_iso_depth(name: str) -> None:
    thread = find_thread(name)
    assert measure_depth(thread, basis="american") == pytest.approx(1.299038 * thread.pitch, rel=1e-6)
    hole = find_hole(thread, 0.75, basis="american")
    assert measure_engagement(thread, hole) == pytest.approx(0.90, abs=1e-9)


@pytest.mark.parametrize(("name", "basis"), [("4 BA", "american"), ("1/4 BSW", "american"), ("M4", "imperial")])
def test_a_thread_is_counted_on_its_own_bases_only(name: str, basis: str) -> None:
    with pytest.raises(NotOneOf):
        measure_engagement(find_thread(name), 3e-3, basis=basis)


# BS 93: a nut's minor diameter may be 0.375 p over; 68.75 % of the depth is left.
def test_a_nut_at_the_top_limit_keeps_two_thirds_of_its_depth() -> None:
    thread = find_thread("0 BA")
    assert measure_engagement(thread, thread.minor + 0.375 * thread.pitch) == pytest.approx(0.6875, abs=1e-9)


# BS 93 (MH31, p. 2115): every listed BA drill lies between the nut's minor diameter and 0.375 p over it.
@pytest.mark.parametrize("thread", list_threads("BA"), ids=lambda thread: thread.name)
def test_every_ba_drill_lies_within_the_tolerance_of_the_nut(thread) -> None:
    assert thread.minor < thread.tapping_drill <= thread.minor + 0.375 * thread.pitch


# BS 1157: its BSW drills give 77 to 87 % of the full thread; by the formula 76.8 to 86.1 %.
def test_bs_1157_drills_give_what_they_are_said_to() -> None:
    rows = [row for row in list_threads("BSW") if row.drill_source.startswith("BS 1157")]
    shares = [measure_engagement(row, row.tapping_drill) for row in rows]
    assert len(rows) > 10
    assert min(shares) == pytest.approx(0.768, abs=1e-3)
    assert max(shares) == pytest.approx(0.861, abs=1e-3)


# Percentages of thread as Machinery's Handbook, 31st edition, p. 2155, has them; its scan has 68 and 77 where the
# formula has 66.5 and 78.3 (see the list of conflicts).
@pytest.mark.parametrize(
    ("name", "drill", "percent", "printed"),
    [("No 0-80 UNF", 0.0492, 66.5, 68), ("No 1-64 UNC", 0.0571, 78.3, 77)],
)
def test_the_two_figures_of_the_handbook_that_do_not_follow(
    name: str, drill: float, percent: float, printed: float
) -> None:
    share = 100 * measure_engagement(find_thread(name), drill * INCH, basis="american")
    assert share == pytest.approx(percent, abs=0.1)
    assert abs(share - printed) > 1


# Tapping drills and percentages that workshop charts print for Unified threads (recalled: from memory).
@pytest.mark.parametrize(
    ("name", "drill", "percent"),
    [
        ("1/4-20 UNC", 0.2010, 75),
        ("5/16-18 UNC", 0.2570, 77),
        ("3/8-16 UNC", 0.3125, 77),
        ("1/2-13 UNC", 0.4219, 78),
        ("No 10-24 UNC", 0.1495, 75),
        ("No 8-32 UNC", 0.1360, 69),
        ("No 6-32 UNC", 0.1065, 78),
        ("No 4-40 UNC", 0.0890, 71),
        ("No 10-32 UNF", 0.1590, 76),
        ("1/4-28 UNF", 0.2130, 80),
    ],
)
def test_american_percentages(name: str, drill: float, percent: float) -> None:
    share = measure_engagement(find_thread(name), drill * INCH, basis="american")
    assert round(100 * share) == percent


# The percentages that stand beside the drills in the tables, by whatever hand they were worked out.
def test_percentages_of_the_tables() -> None:
    for row in read_rows("threads_ba"):
        share = measure_engagement(find_thread(f"{row['ba']} BA"), 1e-3 * float(row["tap_drill_mm"]))
        assert 100 * share == pytest.approx(float(row["tap_drill_pct_depth"]), abs=0.06), row["ba"]
    for row in read_rows("threads_metric"):
        thread, drill = find_thread(row["size"]), 1e-3 * float(row["tap_drill_mm"])
        assert 100 * measure_engagement(thread, drill) == pytest.approx(float(row["pct_of_1.0825p"]), abs=0.06)
        american = measure_engagement(thread, drill, basis="american")
        assert 100 * american == pytest.approx(float(row["pct_of_1.299p"]), abs=0.06)


# The "rule of 4" drills of a clockmakers' digest (see the list of conflicts): 2, 4, 6 and 8 BA.
def test_the_rule_of_four_breaks_taps() -> None:
    rows = [row for row in read_rows("conflicts") if row["table"] == "BA tapping"]
    assert [row["item"] for row in rows] == ["2 BA", "4 BA", "6 BA", "8 BA"]
    for row in rows:
        drill = 1e-3 * float(re.search(r"= ([\d.]+) mm", row["quantity"])[1])
        share = 100 * measure_engagement(find_thread(row["item"]), drill)
        assert share == pytest.approx(float(row["listed"].split("%")[0]), abs=0.6)
