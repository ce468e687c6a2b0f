"""Laws of every screw, insert, fit, ring, metal, solder, joint and paint of the tables."""

from __future__ import annotations

import re
from itertools import pairwise
from math import isclose, pi

from lapwright.tables.bearings import list_bearings
from lapwright.tables.elastomers import list_elastomers
from lapwright.tables.fits import list_fits
from lapwright.tables.inserts import list_inserts
from lapwright.tables.material_rows import list_materials
from lapwright.tables.materials import list_metals
from lapwright.tables.naming import find_thread
from lapwright.tables.orings import list_grooves, list_orings
from lapwright.tables.packings import list_packing_limits, list_packings, list_widths
from lapwright.tables.paints import list_paint_rows
from lapwright.tables.reading import read_rows
from lapwright.tables.set_screws import list_keys, list_set_screws, list_sockets
from lapwright.tables.solders import list_solders
from tests.unit.tables.printed import INCH_MM, number


def test_torques_and_forces_of_set_screws_agree_in_their_units() -> None:
    rows = read_rows("set_screws")
    for row in rows:
        if row["torque_lb_in"]:
            assert isclose(number(row, "torque_lb_in") * 0.1129848, number(row, "torque_Nm"), rel_tol=3e-3)
            assert isclose(number(row, "holding_lbf") * 4.448222, number(row, "holding_N"), rel_tol=2e-3)
        thrust = number(row, "torque_Nm") / (0.2e-3 * number(row, "diameter_mm"))
        assert isclose(thrust, number(row, "clamp_N_at_K0_2"), rel_tol=3e-3), dict(row)
        assert abs(number(row, "holding_N") / thrust - number(row, "holding_over_clamp")) <= 0.0055, dict(row)
    for kind in ("inch cup point", "metric cup point"):
        screws = [row for row in list_set_screws() if row.kind == kind]
        assert all(one.diameter < other.diameter for one, other in pairwise(screws))
        assert all(one.seating_torque <= other.seating_torque for one, other in pairwise(screws))
        assert all(one.holding_force < other.holding_force for one, other in pairwise(screws))
    assert all(row.seating_torque <= row.highest_torque for row in list_set_screws())
    stainless = [(row, row.stainless_torque) for row in list_set_screws() if row.stainless_torque]
    # Stainless screws are seated to 0.8 of what that maker gives for steel ones.
    assert all(
        any(isclose(torque, 0.8 * each, rel_tol=0.05) for each in (row.seating_torque, row.highest_torque))
        for row, torque in stainless
        if row.size not in ("M2",)
    )


def test_a_key_twists_before_it_breaks_about_where_its_steel_says() -> None:
    keys = list_keys()
    for key, printed in zip(keys, read_rows("hex_keys"), strict=True):
        assert key.yield_torque < key.ultimate_torque
        estimate = 0.2 * 1800e6 * key.across_flats**3
        assert isclose(estimate, number(printed, "estimate_Nm"), abs_tol=0.0051)
        assert isclose(estimate, key.ultimate_torque, rel_tol=0.08)
    assert all(one.yield_torque < other.yield_torque for one, other in pairwise(keys))
    assert all(row.across_flats < row.diameter for row in list_sockets())


def test_an_insert_is_a_thread_of_the_same_pitch_outside_the_old_one() -> None:
    for row in list_inserts():
        thread = find_thread(row.thread)
        outside, depth = (1.299038, 1.082532) if thread.form == "ISO metric" else (1.2, 1.2)
        assert abs(row.tap_major - thread.major - outside * thread.pitch) <= 1.1e-6, row.thread
        assert abs(row.basic_hole - row.tap_major + depth * thread.pitch) <= 1.1e-6, row.thread
        assert abs(row.extra_wall - outside / 2 * thread.pitch) <= 1.1e-6, row.thread
        if row.drill is not None:
            assert row.basic_hole < row.drill < row.tap_major
            assert "from memory" in row.drill_source
            assert row.from_memory
    for printed in read_rows("inserts"):
        if printed["drill_mm"]:
            pitch = find_thread(printed["thread"]).pitch * 1000
            left = 100 * (number(printed, "insert_tap_major_mm") - number(printed, "drill_mm")) / (1.082532 * pitch)
            assert abs(left - number(printed, "drill_pct_depth")) <= 0.6


# Fits.


def test_the_clearance_of_a_fit_is_what_its_limits_leave() -> None:
    for row in list_fits():
        assert isclose(row.least_clearance, row.hole_lower - row.shaft_upper, abs_tol=1e-12)
        assert isclose(row.most_clearance, row.hole_upper - row.shaft_lower, abs_tol=1e-12)
        assert row.over < row.up_to
        assert row.hole_lower == 0


def test_the_formulas_of_the_standard_give_the_fits_but_for_the_first_step_where_the_table_wins() -> None:
    # i = 0.45 D^(1/3) + 0.001 D; h, H: none; g: 2.5 D^0.34; f: 5.5 D^0.41 [µm], D the geometric mean of the step [mm].
    off = set()
    for row in list_fits():
        low, high = 1000 * row.over or 1.0, 1000 * row.up_to
        mean = (low * high) ** 0.5
        unit = 0.45 * mean ** (1 / 3) + 0.001 * mean
        hole, shaft = row.fit.split("/")
        width = {"6": 10 * unit, "7": 16 * unit, "8": 25 * unit}
        upper = {"h": 0.0, "g": -2.5 * mean**0.34, "f": -5.5 * mean**0.41}.get(shaft[0])
        found = [(1e6 * row.hole_upper, width[hole[1]]), (1e6 * (row.shaft_upper - row.shaft_lower), width[shaft[1]])]
        if upper is not None:
            found.append((1e6 * row.shaft_upper, upper))
        else:
            # p begins at the width of grade 7 or up to 5 µm over it.
            lower = 1e6 * row.shaft_lower
            found.append((lower, min(max(lower, width["7"]), width["7"] + 5)))
        if any(abs(printed - formula) > 1 for printed, formula in found):
            off.add((row.fit, row.up_to))
    assert {up_to for _, up_to in off} == {0.003}


# Rings and what they are made of.


def test_an_inch_ring_is_an_exact_thousandth_and_a_metric_one_says_its_size() -> None:
    for row in read_rows("orings"):
        if row["standard"] == "BS 4518":
            inside, section = row["code"].split("-")
            assert (int(inside), int(section)) == (
                round(10 * number(row, "id_mm")),
                round(10 * number(row, "section_mm")),
            )
            assert abs(number(row, "id_in") - number(row, "id_mm") / INCH_MM) <= 0.51e-3
        else:
            assert re.fullmatch(r"\d{3}", row["code"])
            assert re.fullmatch(r"\d+\.\d{3}", row["id_in"])
            assert abs(number(row, "id_in") * INCH_MM - number(row, "id_mm")) <= 0.0051, row["code"]
            assert abs(number(row, "section_in") * INCH_MM - number(row, "section_mm")) <= 0.011, row["code"]


def test_rings_of_one_section_grow_and_their_tolerance_never_shrinks() -> None:
    rings = list_orings("AS568 / ISO 3601-1")
    assert len(rings) == 349
    assert len({ring.code for ring in rings}) == 349
    printed = {row["code"]: float(row["id_tol_mm"] or 0) for row in read_rows("orings") if row["standard"] != "BS 4518"}
    for section in {ring.section for ring in rings}:
        group = sorted(
            (ring for ring in rings if ring.section == section and ring.code[0] != "9"), key=lambda r: r.code
        )
        assert all(one.inside < other.inside for one, other in pairwise(group))
        tolerances = [printed[ring.code] for ring in group]
        assert all(one <= other for one, other in pairwise(tolerances)), section


def test_a_groove_squeezes_its_ring_and_leaves_it_room() -> None:
    for row in read_rows("oring_grooves"):
        section, width = number(row, "section_mm"), number(row, "width_mm")
        deep, shallow = number(row, "depth_max_mm"), number(row, "depth_min_mm")
        assert abs(100 * (1 - deep / section) - number(row, "nominal_squeeze_low_pct_calc")) <= 0.06
        assert abs(100 * (1 - shallow / section) - number(row, "nominal_squeeze_high_pct_calc")) <= 0.06
        fill = 100 * pi / 4 * section**2 / (width * (deep + shallow) / 2)
        assert abs(fill - number(row, "nominal_fill_pct_calc")) <= 1
        assert number(row, "squeeze_min_pct_listed") <= 100 * (1 - deep / section) + 1
        assert number(row, "squeeze_max_pct_listed") >= 100 * (1 - shallow / section) - 1
    for groove in list_grooves():
        assert groove.depth[0] < groove.depth[1] < groove.section < groove.width
        assert groove.squeeze[0] < groove.squeeze[1]


# Metals, solders, joints, paint, bearings.


def test_a_material_yields_before_it_breaks() -> None:
    for row in list_materials():
        for pair in (row.modulus, row.proof, row.ultimate, row.shear):
            assert pair is None or 0 < pair[0] <= pair[1], row.name
        if row.proof and row.ultimate:
            assert row.proof[0] < row.ultimate[0], row.name
            assert row.proof[1] < row.ultimate[1], row.name
        assert row.density is None or 1500 < row.density < 9000
        assert row.expansion is None or 5e-6 < row.expansion < 150e-6
    for metal in list_metals().values():
        assert metal.proof is None or metal.proof.value < metal.ultimate.value, metal.name
        assert metal.shear.value < 1.35 * metal.ultimate.value
        assert metal.source
        assert metal.ultimate.source
        assert metal.shear.source


def test_a_solder_starts_to_melt_before_it_is_melted() -> None:
    for row in list_solders():
        assert row.solidus <= row.liquidus, row.alloy
        # Only the eutectic melts at one temperature.
        assert (row.solidus == row.liquidus) == (row.alloy == "63Sn37Pb")
        assert (row.solidus > 850) == (row.kind == "silver solder")


def test_seating_stresses_of_joints_agree_in_both_units() -> None:
    for row in read_rows("gaskets"):
        if row["y_psi"] not in ("", "0"):
            assert isclose(number(row, "y_psi") * 6.894757e-3, number(row, "y_MPa"), rel_tol=4e-3), row["material"]


def test_wet_paint_is_dry_paint_over_its_share_of_solids() -> None:
    for row in list_paint_rows():
        films = [film for film in (row.dry_least, row.dry_usual, row.dry_most) if film is not None]
        assert films == sorted(films)
    for row in read_rows("paints"):
        solids, dry, wet = (row[name] for name in ("vol_solids_pct", "dft_typ_um", "wft_typ_um"))
        if solids and dry and wet:
            assert isclose(100 * float(dry) / float(solids), float(wet), rel_tol=0.06), row["paint"]


def test_widths_of_packing_follow_on_from_each_other() -> None:
    for kind in {row.kind for row in list_widths()}:
        rows = [row for row in list_widths() if row.kind == kind]
        assert rows[0].over == 0
        assert all(one.up_to == other.over for one, other in pairwise(rows))
        assert all(one.width < other.width for one, other in pairwise(rows))


def test_ranges_run_from_low_to_high() -> None:
    assert all(0 < row.low <= row.high for row in list_bearings())
    assert all(row.least is None or row.most is None or 0 < row.least <= row.most for row in list_packings())
    assert all(300 < row.limit < 900 and isclose(row.limit - row.celsius, 273.15) for row in list_packing_limits())
    for elastomer in list_elastomers():
        assert all(373 < each < 600 for each in (elastomer.air_limit, elastomer.steam_limit) if each)
