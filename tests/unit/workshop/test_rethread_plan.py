"""Which way out is taken for a worn or stripped hole, and what the plan says."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.errors import DoesNotFit, NotOneOf, OutOfRange
from lapwright.tables.inserts import list_inserts
from lapwright.tables.naming import find_thread
from lapwright.workshop import cautions
from lapwright.workshop.rethread_choice import Hole
from lapwright.workshop.rethread_plan import plan_rethread

FOUR, THREE = find_thread("4 BA"), find_thread("3 BA")


def test_without_a_wish_the_hole_is_drilled_to_what_cleans_it_up() -> None:
    plan = plan_rethread(Hole(thread=FOUR), purpose="eccentric")
    assert (plan.choice, plan.new.name, plan.drill_name, plan.tap) == (
        "drill and tap out",
        "2 BA",
        "4 mm",
        "2 BA",
    )
    ready = {item.name: item for item in plan.have_ready}
    assert {"tap wrench", "2 BA taps, taper and plug", "4 mm drill", "2 BA screw, steel"} <= ready.keys()
    assert all(item.purposes == ("eccentric",) for item in plan.have_ready)
    assert cautions.CUTTING in plan.cautions


def test_one_size_up_goes_straight_in_where_enough_is_left() -> None:
    plan = plan_rethread(Hole(thread=FOUR), new=THREE)
    assert plan.choice == "straight in"
    assert "trade practice" in " ".join(plan.reasons)
    assert "57 %" in " ".join(plan.reasons)
    assert "clear the crests" in " ".join(plan.steps)


def test_where_the_worst_place_has_less_than_half_another_size_is_taken_and_the_reason_told() -> None:
    # 10 to 9 BA leaves 43 %: the smallest thread of its series that cleans up is 8 BA.
    plan = plan_rethread(Hole(thread=find_thread("10 BA")), new=find_thread("9 BA"))
    assert (plan.choice, plan.new.name) == ("drill and tap out", "8 BA")
    assert "9 BA would have only 43 % of its thread" in plan.reasons[0]


def test_a_thin_wall_forbids_a_larger_thread() -> None:
    # 1.5 mm beside 4 BA leaves 1.25 mm beside 3 BA, less than half of 4.1; a bush screwed M6 x 0.75 leaves 0.30 mm.
    plan = plan_rethread(Hole(thread=FOUR, wall=1.5e-3, stripped=True), new=THREE)
    assert plan.choice == "fresh hole"
    assert plan.new is FOUR
    assert "0.30 mm of wall" in " ".join(plan.reasons)
    assert "quarter turn round" in " ".join(plan.steps)


def test_a_screw_that_has_to_stay_gets_an_insert() -> None:
    # M4: outside thread 4 + 1.299 x 0.7 = 4.91 mm, 0.45 mm more wall on each side.
    insert = next(row for row in list_inserts() if row.thread == "M4")
    assert 1e3 * insert.tap_major == pytest.approx(4.91, abs=0.005)
    assert 1e3 * insert.extra_wall == pytest.approx(0.45, abs=0.006)
    plan = plan_rethread(Hole(thread=find_thread("M4")), keep_screw=True)
    assert (plan.choice, plan.new.name) == ("insert", "M4")
    assert plan.drill == pytest.approx(4.2e-3)
    assert "4.91 mm over its threads" in plan.tap
    assert "M4 wire insert" in [item.name for item in plan.have_ready]
    assert any("from memory" in source for source in plan.sources)


def test_an_insert_without_a_printed_drill_says_so() -> None:
    plan = plan_rethread(Hole(thread=FOUR), keep_screw=True)
    assert plan.choice == "insert"
    assert "the maker's leaflet comes first" in " ".join(plan.notes)


def test_where_no_insert_is_known_the_screw_keeps_its_thread_in_a_bush() -> None:
    plan = plan_rethread(Hole(thread=find_thread("3 BA"), wall=6e-3), keep_screw=True)
    assert plan.choice == "bush"
    assert cautions.FLAME in plan.cautions
    assert "The bush leaves" in " ".join(plan.notes)


def test_a_hole_into_steam_is_closed_by_a_bush_and_the_cautions_come_with_it() -> None:
    plan = plan_rethread(Hole(thread=FOUR, metal="cast iron", into_steam=True), new=THREE)
    assert plan.choice == "bush"
    assert "far end left solid" in " ".join(plan.steps)
    assert {cautions.LET_DOWN, cautions.TRYING_UNDER_PRESSURE} <= set(plan.cautions)
    assert "Soft solder creeps" in " ".join(plan.notes)
    assert "a quarter turn round" not in " ".join(plan.notes)


def test_what_a_bush_goes_home_on_is_what_stands_the_heat() -> None:
    # 60Sn40Pb creeps from 0.8 x 456 K, 92 degC; at 60 degC it stands, at 150 it does not.
    hole = Hole(thread=find_thread("8 BA"), metal="cast iron", wall=4e-3)
    cool, hot, untold = (
        plan_rethread(replace(hole, temperature=kelvin), keep_screw=True) for kelvin in (333.15, 423.15, None)
    )
    assert "on retaining compound or soft solder." in " ".join(cool.steps)
    assert "it stands 60 degC" in " ".join(cool.notes)
    assert "on retaining compound that stands 150 degC." in " ".join(hot.steps)
    assert "Solders that stand it: high melting point" in " ".join(hot.notes)
    assert "retaining compound that stands 150 degC" in [item.name for item in hot.have_ready]
    assert "was not given" in " ".join(untold.notes)
    assert cautions.FLAME in hot.cautions


def test_a_bush_that_is_soldered_in_plain_is_told_its_size_when_cold() -> None:
    # 3.50 mm in cast iron (10e-6/K), gunmetal bush (18.2e-6/K), liquid at 660 degC, 640 K up: hot, the hole is 3.5224
    # and the bush 1.01165 times itself; 0.03 to 0.08 on each side leave 3.324 to 3.423 mm.
    plan = plan_rethread(Hole(thread=find_thread("8 BA"), metal="cast iron", wall=4e-3), keep_screw=True)
    assert "leave the hole of 3.50 mm without a thread, and silver-solder" in " ".join(plan.notes)
    assert "Turn the bush to 3.32 mm (0.131 in) to 3.42 mm (0.135 in)" in " ".join(plan.notes)
    assert "0.03 mm to 0.08 mm on each side" in " ".join(plan.notes)
    assert any("Gap" in source for source in plan.sources)
    alike = plan_rethread(Hole(thread=find_thread("8 BA"), wall=4e-3), keep_screw=True)
    assert "the hole grows as the bush does" in " ".join(alike.notes)


def test_solder_is_not_offered_into_steam_nor_in_aluminium() -> None:
    steam = plan_rethread(Hole(thread=FOUR, into_steam=True, temperature=425.15))
    assert "on sealant that stands steam." in " ".join(steam.steps)
    assert "at 152 degC it does not melt, but gives way" in " ".join(steam.notes)
    assert "silver-solder" not in " ".join(steam.notes)
    light = plan_rethread(Hole(thread=find_thread("8 BA"), metal="aluminium", wall=4e-3), keep_screw=True)
    assert "Solder does not take on aluminium." in light.notes
    assert "solder" not in " ".join(item.name for item in light.have_ready)
    with pytest.raises(OutOfRange, match="is not between"):
        plan_rethread(Hole(thread=find_thread("8 BA"), wall=4e-3, temperature=1500.0), keep_screw=True)


def test_a_grub_screw_is_drawn_to_its_seating_torque_at_most() -> None:
    screw, grub = (plan_rethread(Hole(thread=FOUR), new=THREE, kind=kind) for kind in ("screw", "grub screw"))
    assert grub.torque != screw.torque
    assert "3 BA socket grub screw" in [item.name for item in grub.have_ready]


def test_the_length_of_thread_goes_with_the_torque_and_a_short_hole_is_told() -> None:
    # A worn-out hole in aluminium, drawn by a hard screw: both lengths are over two turns of 0.73 mm.
    soft = Hole(thread=FOUR, metal="aluminium")
    small, large = (plan_rethread(soft, new=THREE, torque=torque, screw="high-tensile steel") for torque in (1.2, 2.4))
    assert small.needed_depth > 2 * 0.73e-3
    assert large.needed_depth == pytest.approx(2 * small.needed_depth)
    shallow = plan_rethread(Hole(thread=FOUR, depth=1e-3), new=THREE, torque=1.5)
    assert "draw it less tight, or go deeper" in " ".join(shallow.notes)


def test_the_metal_may_go_by_its_grade_and_says_what_goes_on_the_tap() -> None:
    assert plan_rethread(Hole(thread=FOUR, metal="LG2")).lubricant == "thin oil"
    assert "dry" in plan_rethread(Hole(thread=FOUR, metal="cast iron")).lubricant
    with pytest.raises(NotOneOf, match='"cheese"'):
        plan_rethread(Hole(thread=FOUR, metal="cheese"))


def test_a_smaller_thread_is_refused() -> None:
    with pytest.raises(DoesNotFit, match="is not larger than"):
        plan_rethread(Hole(thread=THREE), new=FOUR)


def test_a_torque_that_the_new_screw_does_not_bear_is_refused() -> None:
    # 8 BA: pi/4 (2.2 - 0.9 x 0.43)^2 = 2.58 mm2, 581 N at 225 MPa, 0.2 x 2.2 mm: 0.256 N m stretches it.
    hole = Hole(thread=find_thread("10 BA"))
    assert plan_rethread(hole, new=find_thread("8 BA"), torque=0.25).torque == 0.25
    with pytest.raises(DoesNotFit, match=r"is more than 8 BA bears here: the screw shank stretches at 0\.26 N m"):
        plan_rethread(hole, new=find_thread("8 BA"), torque=5.0)


@pytest.mark.parametrize("torque", [0.01, 0.18, 0.5])
def test_nobody_is_told_to_cut_less_than_two_turns_of_thread(torque: float) -> None:
    # 3 BA has a pitch of 0.73 mm; one and a half diameters of 4.1 mm are 6.15 mm.
    plan = plan_rethread(Hole(thread=find_thread("5 BA"), metal="cast iron"), new=THREE, torque=torque)
    assert plan.needed_depth == pytest.approx(1.46e-3)
    assert "That wants 1.5 mm of thread; one and a half diameters, 6.2 mm, are usual in cast iron" in plan.steps[-1]
    (note,) = [note for note in plan.notes if "two full turns" in note]
    assert note.endswith("two full turns, 1.5 mm, are the least that is cut (common practice, no source).")


def test_a_depth_over_two_turns_stays_what_the_torque_wants_and_nothing_is_said_of_turns() -> None:
    # 1.29 N m with 0.2 x 4.1 mm pull 1573 N.
    plan = plan_rethread(Hole(thread=find_thread("5 BA"), metal="aluminium"), new=THREE, torque=1.29)
    assert plan.needed_depth > 1.46e-3
    assert "two full turns" not in " ".join(plan.notes)


def test_a_hole_with_less_than_two_turns_is_only_helped_by_depth() -> None:
    plan = plan_rethread(Hole(thread=find_thread("5 BA"), metal="cast iron", depth=1e-3), new=THREE, torque=0.1)
    assert "The hole has 1.0 mm of thread and that wants 1.5 mm: go deeper." in plan.notes


def test_studs_are_called_studs_have_nuts_and_a_drill_for_the_part_they_go_through() -> None:
    # The tables clear 3 BA with 4.30 mm.
    plan = plan_rethread(Hole(thread=find_thread("5 BA"), metal="cast iron"), kind="stud", count=6)
    ready = {item.name: item.count for item in plan.have_ready}
    assert (ready["3 BA stud, steel"], ready["3 BA nut"], ready["4.3 mm drill, to clear 3 BA"]) == (6, 6, 1)
    steps = " ".join(plan.steps)
    assert "screw" not in steps
    assert "Take the studs out" in steps
    assert "each of the 6 holes" in steps
    assert "Its nut is drawn to" in steps
    assert "open each hole there to 4.30 mm" in steps


def test_one_screw_is_spoken_of_as_one_and_a_grub_screw_passes_through_nothing() -> None:
    one = plan_rethread(Hole(thread=find_thread("5 BA")))
    assert "Take the screw out" in one.steps[0]
    assert "holes" not in " ".join(one.steps)
    assert "open the hole there to 4.30 mm" in one.steps[-1]
    assert "nut" not in " ".join(item.name for item in one.have_ready)
    grub = plan_rethread(Hole(thread=find_thread("5 BA")), kind="grub screw")
    assert "to clear" not in " ".join(item.name for item in grub.have_ready)


def test_of_brass_it_is_only_spoken_where_there_is_brass() -> None:
    iron, brass = (plan_rethread(Hole(thread=FOUR, metal=metal)) for metal in ("cast iron", "brass"))
    bush = plan_rethread(Hole(thread=find_thread("3 BA"), metal="cast iron", wall=6e-3), keep_screw=True)
    assert cautions.CUTTING in iron.cautions
    assert "brass" not in " ".join(iron.cautions)
    assert cautions.SNATCHING in brass.cautions
    assert bush.choice == "bush"
    assert cautions.SNATCHING in bush.cautions
