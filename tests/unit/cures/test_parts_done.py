"""Each cure of a part answers its finding, says what to do, and once done leaves nothing of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts import find_part_cures
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Assumed
from lapwright.findings.parts import find_part_faults
from tests.property.part_mending import do_cure
from tests.unit.findings.parted import (
    FAULTS,
    GLAND,
    LOAD,
    LOADS,
    MM,
    SCREW,
    SPINDLE,
    STUDS,
    make_engine,
    with_gland,
    with_pin,
    with_screw,
    with_studs,
)


def find_cures(engine: Engine) -> tuple[PartCure, ...]:
    return find_part_cures(engine, find_part_faults(engine, LOADS), LOADS)


def find_one(engine: Engine) -> PartCure:
    (cure,) = find_cures(engine)
    return cure


@pytest.mark.parametrize("name", FAULTS)
def test_the_cure_done_leaves_a_sound_engine(name: str) -> None:
    engine, code, part = FAULTS[name]
    cure = find_one(engine)
    assert (cure.part, cure.answers[0]) == (part, code)
    assert cure.steps
    assert find_part_faults(do_cure(engine, cure), LOADS) == ()


@pytest.mark.parametrize("name", FAULTS)
def test_everything_to_have_ready_is_for_the_part(name: str) -> None:
    cure = find_one(FAULTS[name][0])
    assert cure.have_ready
    assert {purpose for item in cure.have_ready for purpose in item.purposes} == {cure.part}


def test_a_gland_that_leaks_twice_over_is_packed_once() -> None:
    cure = find_one(with_gland(packed_with="flax", packing_section=2.5 * MM))
    # The worse of the two stands first: packing a quarter too thick is forced in, but it holds for a while.
    assert cure.answers == ("packing-unsuitable", "gland-leaks")
    assert cure.title == "Pack the gland of the piston rod anew, with graphite yarn"


def test_what_lasts_is_packed_again() -> None:
    assert find_one(with_gland(packed_with="PTFE yarn", packing_section=2.5 * MM)).title.endswith("with PTFE yarn")


def test_of_two_empty_boxes_the_known_one_is_packed() -> None:
    empty = {"packed_with": "nothing", "packing_section": None}
    shallow = make_engine(glands=(replace(GLAND, **empty), replace(SPINDLE, **empty, box_depth=1 * MM)))
    unknown = make_engine(glands=(replace(GLAND, **empty), replace(SPINDLE, **empty, rod=None)))
    for engine in (shallow, unknown):
        cure = find_one(engine)
        assert cure.title == "Pack the gland of the piston rod"
        assert cure.set["section_mm"] == pytest.approx(2.0)
    assert find_cures(make_engine(glands=(replace(GLAND, **empty, box_bore=None),))) == ()


def test_two_glands_on_one_rod_keep_their_own_figures() -> None:
    empty = {"packed_with": "nothing", "packing_section": None}
    tail = replace(GLAND, **empty, number=2, rod=4 * MM, box_bore=7 * MM)
    cure = find_one(make_engine(glands=(replace(GLAND, **empty), tail)))
    assert cure.set["piston_rod_section_mm"] == pytest.approx(2.0)
    assert cure.set["second_piston_rod_section_mm"] == pytest.approx(1.5)
    assert ("Second piston rod: rings", "5") in cure.figures


def test_a_box_hotter_than_any_packing_has_no_cure() -> None:
    engine = with_gland(packed_with="flax")
    loads = {"A": replace(LOAD, temperature=850.0)}
    found = find_part_faults(engine, loads)
    assert "packing-unsuitable" in {finding.code for finding in found}
    assert find_part_cures(engine, found, loads) == ()


def test_a_hole_drilled_out_has_the_depth_that_its_drill_leaves() -> None:
    # 6 BA stripped in thick brass is drilled 3.0 and tapped 4 BA: (3.6 - 3.0) / (3.6 - 2.81) = 76 %.
    cure = find_one(with_screw(thread="6 BA", screw=None, state="stripped"))
    assert cure.set["thread"] == "4 BA"
    assert cure.set["tapping_drill_mm"] == pytest.approx(3.0)
    assert cure.set["engagement_percent"] == pytest.approx(100 * 0.60 / 0.79)
    assert "worst_engagement_percent" not in cure.set


def test_a_hole_tapped_straight_in_has_what_the_old_thread_leaves() -> None:
    # Both cleaning threads up take too much of a wall of 2.0 mm; 3 BA straight in leaves half a diameter.
    cure = find_one(with_screw(state="worn", screw=None, wall=2.3 * MM))
    assert "straight in" in cure.title
    assert "tapping_drill_mm" not in cure.set
    # 3 BA in a 4 BA hole: (4.1 - 3.6) / (4.1 - 3.22) = 57 % where the grooves fall together.
    assert (cure.set["thread"], cure.set["worst_engagement_percent"]) == (
        "3 BA",
        pytest.approx(100 * 0.5 / 0.88, rel=0.01),
    )
    assert not any("3 mm drill" in item.name for item in cure.have_ready)


def test_the_drill_of_a_bush_is_not_called_the_screws() -> None:
    cure = find_one(with_screw(holds="other", kind="screw", state="worn", screw=None, wall=2 * MM))
    assert cure.set["thread"] == "4 BA"
    assert "tapping_drill_mm" not in cure.set
    assert cure.figures[1][0] == "Drill the old hole out to"


@pytest.mark.parametrize("kind", ["grub screw", "screw"])
def test_a_screw_that_presses_is_drawn_to_one_torque(kind: str) -> None:
    cure = find_one(with_screw(kind=kind, state="stripped"))
    said = {word for step in cure.steps for word in step.split("drawn to ")[1:] + step.split("draw it to ")[1:]}
    assert len({word.split(" N m")[0] for word in said}) == 1
    assert [item.count for item in cure.have_ready if item.shelf == "screws"] == [1]


def test_a_covers_new_thread_is_drawn_to_what_its_joint_asks() -> None:
    engine = with_studs(state="worn", engagement=5 * MM)
    cure = find_one(engine)
    assert isinstance(cure.set["torque_nm"], float)
    # The joint asks 273 N a stud; on a thread of 5 BA and more that is under 0.25 N m.
    assert 0.1364 < cure.set["torque_nm"] < 0.25


def test_a_stud_that_is_worn_and_overloaded_gets_both_cures() -> None:
    cures = find_cures(with_studs(state="worn", torque=0.45))
    assert {cure.code for cure in cures} == {"rethread", "draw-up-cover"}
    # One joint, and one set of new studs and nuts, for both works on the one cover.
    items = [item for cure in cures for item in cure.have_ready if item.shelf in ("joints", "screws")]
    assert sorted(item.count for item in items if item.shelf == "screws") == [6, 6]
    assert len([item for item in items if item.shelf == "joints"]) == 1


def test_a_cover_whose_holes_are_cut_is_put_back_and_says_which_load_its_torque_comes_from() -> None:
    cure = find_one(with_studs(state="worn", engagement=5 * MM, joint_outside=None))
    ready = {item.name: (item.count, item.amount) for item in cure.have_ready if item.shelf in ("joints", "screws")}
    # 25 + 5 mm over the joint, and 5 mm all round.
    assert ready == {
        "5 BA stud, steel": (6, ""),
        "5 BA nut": (6, ""),
        "oiled paper, 0.1 to 0.25 mm thick": (1, "40 x 40 mm"),
    }
    assert cure.steps[-1].startswith("When all 6 are done, put the cover back on a fresh joint of oiled paper")
    # As by hand for the Turnstone: bedding asks 1637 N of six studs, 273 N each; 3 bar ask less.
    (note,) = [note for note in cure.notes if "the joint asks" in note]
    assert "1637 N to bed the oiled paper" in note
    assert "to hold 3.0 bar; the larger, shared by 6, is 273 N each" in note
    assert "fastener.2.joint_outside" in [assumed.key for assumed in cure.taken]
    assert "brass" not in " ".join(cure.before_you_start)


def test_a_cover_of_which_too_little_is_known_gets_a_joint_all_the_same() -> None:
    cure = find_one(with_studs(state="worn", count=None))
    assert "oiled paper for the joint under the cover" in [item.name for item in cure.have_ready]
    assert "put the cover back" not in " ".join(cure.steps)


def test_screws_of_one_name_are_each_cured() -> None:
    worn = replace(SCREW, state="stripped", screw=None)
    cures = find_cures(make_engine(fasteners=(worn, replace(worn, number=2, thread="6 BA"))))
    assert [cure.set["thread"] for cure in cures] == ["2 BA", "4 BA"]
    assert [cure.part for cure in cures] == ["eccentric screw", "second eccentric screw"]


def test_a_grub_screw_beyond_the_tables_is_rethreaded_all_the_same() -> None:
    cure = find_one(with_screw(thread="14 BA", screw=None, state="stripped", shaft=3 * MM))
    assert cure.set["torque_nm"] > 0  # type: ignore[operator]


def test_a_hole_too_thick_for_a_bush_gets_a_fresh_one() -> None:
    cure = find_one(with_screw(thread="1 BSW", screw=None, state="stripped", holds="other", kind="bolt", wall=3 * MM))
    assert cure.title.endswith("a fresh 1 BSW hole")


def test_a_thread_that_nobody_named_has_no_cure() -> None:
    assert find_cures(with_screw(thread=None, screw=None, state="stripped")) == ()


def test_the_shank_of_a_fork_pin_is_longer_by_its_cheek() -> None:
    double = find_one(with_pin(kind="bolt", plain_length=1 * MM))
    single = find_one(with_pin(kind="bolt", plain_length=1 * MM, shear="single"))
    assert double.set["shank_past_cheek_mm"] == single.set["shank_length_mm"] == pytest.approx((4.05, 4.10))
    assert "shank_length_mm" not in double.set


def test_a_pin_that_cannot_be_made_has_no_cure() -> None:
    for diameter, hole in ((None, None), (0.4 * MM, None), (200 * MM, None), (None, 90 * MM)):
        assert find_cures(with_pin(kind="bolt", plain_length=1 * MM, thread=None, diameter=diameter, hole=hole)) == ()


@pytest.mark.parametrize(
    "changes", [{"hole_material": None, "engagement": None, "point": None, "screw_material": None}]
)
def test_what_a_new_thread_was_taken_with_stands_with_its_keys(changes: dict[str, None]) -> None:
    keys = [assumed.key for assumed in find_one(with_screw(state="worn", screw=None, **changes)).taken]
    # A grub screw is of alloy steel whatever it was.
    assert keys == ["fastener.1.hole_material", "fastener.1.engagement", "fastener.1.point"]
    other = find_one(with_screw(state="worn", screw=None, holds="other", kind="bolt", **changes))
    assert [assumed.key for assumed in other.taken] == [
        "fastener.1.hole_material",
        "fastener.1.engagement",
        "fastener.1.screw_material",
    ]


def test_what_a_pin_a_gland_and_a_cover_were_taken_with_stands_with_its_keys() -> None:
    unknown = {"diameter": None, "shear": None, "material": None, "runs_in": None}
    pin = find_one(with_pin(kind="screw", plain_length=None, **unknown))
    assert {assumed.key for assumed in pin.taken} == {
        f"pin.1.{key}" for key in ("material", "runs_in", "shear", "diameter", "plain_length")
    }
    gland = find_one(with_gland(packed_with="nothing", packing_section=None, box_depth=None, oil=None, nut_thread=None))
    assert {assumed.key for assumed in gland.taken} == {
        f"cylinder.A.gland.1.{key}" for key in ("box_depth", "oil", "nut_thread")
    }
    cover = find_one(with_studs(torque=0.45, joint_outside=None, screw_material=None, thread_is=None))
    assert {assumed.key for assumed in cover.taken} == {
        f"fastener.2.{key}" for key in ("joint_outside", "screw_material", "thread_is")
    }


def test_parts_are_cured_without_a_run() -> None:
    for name in ("empty box", "stripped", "bolt", "pulled too far"):
        engine = FAULTS[name][0]
        cures = find_part_cures(engine, find_part_faults(engine, {}), {})
        assert len(cures) == 1
        assert "held_torque_nm" not in cures[0].set


def test_a_screw_in_a_crank_is_given_help_that_is_enough() -> None:
    cure = find_one(with_screw(holds="crank"))
    # 4 x 1.32 = 5.3 N m are wanted; two screws on flats hold 1.59 x 2.125 = 3.4: only a point let in is enough.
    assert cure.title.endswith("dog or cone point let into a dimple")
    assert cure.set == {"seating_torque_nm": pytest.approx(1.02)}
    assert STUDS.name not in cure.part


def test_what_the_run_took_stands_with_what_rests_on_it() -> None:
    mu = Assumed("running.valve_friction", "0.08", "not given", ("run",))
    loads = {"A": replace(LOAD, taken=(mu,))}
    rests = {
        "empty box": ["engine.supply_pressure"],
        "pulled too far": ["engine.supply_pressure"],
        "stripped": ["engine.supply_pressure", "running.valve_friction"],
        "bolt": ["engine.supply_pressure", "running.valve_friction"],
        "one screw in a crank": ["engine.supply_pressure"],
    }
    for name, keys in rests.items():
        engine = replace(FAULTS[name][0], supply_pressure=None)
        found = find_part_faults(engine, loads)
        (cure,) = find_part_cures(engine, found, loads)
        assert [assumed.key for assumed in cure.taken] == keys, name
        # What was given is not taken.
        (known,) = find_part_cures(FAULTS[name][0], found, {"A": LOAD})
        assert known.taken == ()
