"""Set screws, keys, inserts, drills, fits and rings: figures that can be looked up."""

from __future__ import annotations

from math import isclose

import pytest

from lapwright.errors import NotOneOf
from lapwright.tables.bearings import list_bearings, list_clearance_rules
from lapwright.tables.drills import list_drills
from lapwright.tables.fits import list_fits
from lapwright.tables.inserts import list_inserts
from lapwright.tables.orings import list_grooves, list_orings
from lapwright.tables.packings import list_widths
from lapwright.tables.set_screws import list_keys, list_set_screws, list_sockets
from lapwright.tables.solders import find_brazing_gap, list_solders


@pytest.mark.parametrize(
    ("name", "inches", "recalled"),
    # ASME B94.11M. One open table drops the fourth decimal of the first six.
    [
        ("No 5", 0.2055, True),
        ("No 10", 0.1935, False),
        ("No 18", 0.1695, False),
        ("No 25", 0.1495, False),
        ("No 28", 0.1405, False),
        ("No 69", 0.0292, False),
        ("No 1", 0.228, False),
        ("No 80", 0.0135, False),
        ("A", 0.234, False),
        ("Z", 0.413, False),
    ],
)
def test_a_drill_has_all_its_decimals(name: str, inches: float, recalled: bool) -> None:
    drill = next(drill for drill in list_drills() if drill.name == name)
    assert isclose(drill.diameter, inches * 0.0254)
    assert drill.from_memory == recalled


def test_no_series_of_drills_is_empty_and_an_unknown_one_is_refused() -> None:
    assert {len(list_drills(series)) for series in ("number", "letter", "fraction")} == {80, 26, 64}
    assert all(drill.from_memory for drill in list_drills("metric"))
    with pytest.raises(NotOneOf, match="metric"):
        list_drills("wire")


def test_set_screws_are_seated_to_the_lower_of_two_makers_figures() -> None:
    rows = {row.size: row for row in list_set_screws()}
    assert (rows["M5"].seating_torque, rows["M5"].highest_torque) == (4.0, 4.6)
    assert (rows["M3"].seating_torque, rows["M3"].highest_torque) == (0.8, 0.92)
    assert rows["M4"].seating_torque == 2.2
    # M5 holds 0.57 of the thrust that 4.0 N.m gives it at K 0.2: 0.57 x 4000 N.
    assert rows["M5"].holding_force == pytest.approx(0.57 * 4.0 / (0.2 * 5e-3), rel=1e-3)
    # ISO 898-5, class 45H.
    assert [rows[size].test_torque for size in ("M3", "M4", "M5", "M6")] == [0.9, 2.5, 5.0, 8.5]
    assert rows["No 0"].holding_force == pytest.approx(50 * 4.448, rel=2e-3)
    assert not rows["No 0"].from_memory
    assert rows["No 8"].from_memory


def test_holding_torque_of_the_smallest_screw_is_its_force_times_the_radius_of_the_shaft() -> None:
    # The makers' chart has 1.5, 2.3 and 3.1 lb.in for No 0 on shafts of 1/16, 3/32 and 1/8 in.
    force = next(row.holding_force for row in list_set_screws() if row.size == "No 0") / 4.448222
    assert [force * shaft / 2 for shaft in (1 / 16, 3 / 32, 1 / 8)] == pytest.approx([1.5, 2.3, 3.1], abs=0.08)


def test_keys_and_sockets_go_together() -> None:
    sizes = {row.across_flats for row in list_keys()}
    sockets = {row.size: row.across_flats for row in list_sockets()}
    assert sockets["M4"] == 2e-3
    assert sockets["M3"] == 1.5e-3
    assert all(sockets[size] in sizes for size in ("M3", "M4", "M5", "M6", "M8", "M10"))
    recalled = {row.across_flats: row.from_memory for row in list_keys()}
    assert not recalled[1.5e-3]
    assert recalled[2e-3]


def test_an_insert_for_m4_wants_half_a_millimetre_more_wall() -> None:
    row = next(row for row in list_inserts() if row.thread == "M4")
    # Outside thread D + 1.299 p: 4.91 mm; 0.45 mm more wall on each side.
    assert row.tap_major == pytest.approx(4.91e-3, abs=5e-6)
    assert row.extra_wall == pytest.approx(0.455e-3, abs=1e-6)
    assert row.drill == 4.2e-3
    assert next(row for row in list_inserts() if row.thread == "2 BA").drill is None


@pytest.mark.parametrize(
    ("fit", "up_to", "least", "most"),
    # ISO 286-2 [mm, µm].
    [
        ("H7/g6", 6, 4, 24),
        ("H7/p6", 6, -20, 0),
        ("H7/f7", 6, 10, 34),
        ("H7/f7", 10, 13, 43),
        ("H7/h6", 30, 0, 34),
        ("H7/g6", 3, 2, 18),
    ],
)
def test_a_fit_leaves_the_clearance_of_the_standard(fit: str, up_to: float, least: float, most: float) -> None:
    row = next(row for row in list_fits() if row.fit == fit and isclose(row.up_to, up_to / 1000))
    assert (row.least_clearance, row.most_clearance) == pytest.approx((least * 1e-6, most * 1e-6))


def test_rings_by_their_number() -> None:
    rings = {ring.code: ring for ring in list_orings()}
    assert (rings["010"].inside, rings["010"].section) == (6.07e-3, 1.78e-3)
    assert rings["0056-24"].from_memory is False
    assert rings["0066-24"].from_memory
    assert len(list_orings("BS 4518")) == 39
    with pytest.raises(NotOneOf, match="BS 4518"):
        list_orings("BS 1806")
    with pytest.raises(NotOneOf, match="dynamic"):
        list_grooves("face")


def test_the_section_of_packing_for_a_rod_is_the_handbooks() -> None:
    # Tribology Handbook, table 25.2: 3 mm up to 12, 5 to 18, 6.5 to 25, 8 to 50.
    rows = [row for row in list_widths() if row.kind == "soft packing"]
    assert [(row.up_to, row.width) for row in rows[:4]] == [
        (12e-3, 3e-3),
        (18e-3, 5e-3),
        (25e-3, 6.5e-3),
        (50e-3, 8e-3),
    ]


def test_bearing_pressures_and_clearances_keep_their_sources_apart() -> None:
    slow = {row.part: row.low for row in list_bearings() if row.case == "stationary slow steam engine"}
    assert slow == {"main bearing": 2.8e6, "crank pin": 10.5e6, "crosshead/wrist pin": 12.6e6}
    assert len(list_clearance_rules()) == 6
    ours = [row for row in list_clearance_rules() if row.from_memory]
    assert [(row.per_diameter, row.least) for row in ours] == [(0.001, 1e-5)]


def test_silver_solder_melts_far_above_soft_solder() -> None:
    rows = {row.alloy: row for row in list_solders()}
    silver = rows["55Ag-Cu-Zn-Sn (AG14, Ag155)"]
    assert (silver.solidus - 273.15, silver.liquidus - 273.15) == pytest.approx((630, 660))
    assert rows["60Sn40Pb"].solidus - 273.15 == pytest.approx(183)
    gap = find_brazing_gap()
    assert (gap.least, gap.most) == (3e-5, 8e-5)
