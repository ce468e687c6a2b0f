"""The whole plan of a gland: what is bought, done, said and cautioned."""

from __future__ import annotations

import pytest

from lapwright.errors import NotInTable, NotOneOf
from lapwright.workshop.cautions import LET_DOWN, OLD_PACKING, STEAM, TRYING_UNDER_PRESSURE
from lapwright.workshop.gland_cutting import cut_rings, find_stagger
from lapwright.workshop.gland_plan import ONE_BAR, GlandPlan, Nut, find_tightness, plan_gland
from lapwright.workshop.gland_service import settle_service
from lapwright.workshop.item import SHELVES

PITCH = 0.0254 / 32


def plan(
    rod: float = 0.004,
    bore: float = 0.008,
    depth: float | None = 0.010,
    *,
    fluid: str | None = "steam",
    pressure: float | None = 3e5,
    nut: Nut | None = None,
    material: str = "graphite yarn",
    joint: str = "butt",
) -> GlandPlan:
    service = settle_service(fluid, pressure=pressure, oil="mineral")
    return plan_gland(cut_rings(rod, bore, depth, joint=joint), service, nut=nut, material=material)


def test_what_is_bought_is_one_ring_more_and_the_ends() -> None:
    # 6 turns of pi x 6 = 113.1 mm: 0.12 m to the next centimetre.
    cutting = plan().cutting
    assert cutting.total == pytest.approx(0.12)
    assert cutting.total >= 6 * cutting.length > cutting.total - 0.01


def test_tightness_by_hand() -> None:
    # Stack 4 x 2 x 0.8 = 6.4 mm; graphite 0.10 to 0.20, middle 0.15; beta = 4 x 0.5 x 0.15 x 12/48 = 0.075 per mm.
    # sigma0 = 0.3 x e^(0.075 x 6.4) / 0.5 = 0.6 x 1.61607 = 0.96964 MPa; thrust x pi/4 (64 - 16) = 36.55 N.
    # F = pi x 4 x 0.15 x 0.5 x 0.96964 x (1 - 0.61878)/0.075 = 4.645 N.
    tight = plan().tightness
    assert tight.middle.gland_pressure == pytest.approx(0.96964e6, rel=1e-4)
    assert tight.middle.thrust == pytest.approx(36.55, abs=0.01)
    assert tight.middle.friction == pytest.approx(4.645, abs=0.002)
    assert tight.least.friction < tight.middle.friction < tight.most.friction


def test_without_a_pressure_it_is_told_for_each_bar() -> None:
    cutting = cut_rings(0.004, 0.008, 0.010)
    each = find_tightness(cutting, None, material="PTFE yarn")
    three = find_tightness(cutting, 3 * ONE_BAR, material="PTFE yarn")
    assert each.held == ONE_BAR
    assert three.middle.friction == pytest.approx(3 * each.middle.friction)


def test_steps_name_every_size_that_is_made() -> None:
    steps = " ".join(plan(nut=Nut(pitch=PITCH)).steps)
    # Ring 18.85; seated 15 to 20 %: 1.60 to 1.70; nose 10 - 8 in, 35 % of 8 mm more; a flat of 0.79375 is 0.13.
    for said in ("6 turns", "5 rings", "18.85 mm", "1.60 mm to 1.70 mm", "2.00 mm in", "2.80 mm more", "0.13 mm"):
        assert said in steps
    assert "never open it flat" in steps
    assert "S, just far enough" in steps
    assert "90 degrees on" in steps


def test_both_practices_and_what_an_eighth_of_a_turn_moves() -> None:
    notes = " ".join(plan(nut=Nut(pitch=PITCH)).notes)
    assert "The other, as makers advise: nip to seat, slacken to finger tight" in notes
    assert "Used here, common practice, no source: nip until resistance is felt, then back an eighth of a turn" in notes
    assert "0.10 mm" in notes
    assert " mm" not in next(note for note in plan().notes if "eighth" in note)


@pytest.mark.parametrize(("hand", "way"), [("right", "clockwise"), ("left", "anticlockwise")])
def test_winding_is_told_with_the_hand_it_is_for(hand: str, way: str) -> None:
    made = plan(nut=Nut(hand=hand))
    assert made.winding == way
    note = next(note for note in made.notes if "never to wind" in note)
    assert f"laid {way} as seen from the nut, from the bottom of the box outwards (from memory)" in note
    assert f"{hand}-hand nut" in note


def test_joints_are_offered_and_the_one_used_is_named() -> None:
    assert any("straight across" in step for step in plan().steps)
    skive = plan(joint="skive")
    assert any("at 45 degrees" in step for step in skive.steps)
    assert any("used here: skive" in note for note in skive.notes)
    with pytest.raises(NotOneOf, match='"butt" or "skive"'):
        plan(joint="bevel")


@pytest.mark.parametrize("rings", [1, 2, 3, 4, 5])
def test_joints_stand_90_degrees_apart_or_more(rings: int) -> None:
    # Tribology Handbook, B25, and makers.
    assert find_stagger(rings) >= 90 or rings == 1


def test_a_deep_box_gets_a_spacer_and_a_shallow_one_a_warning() -> None:
    deep = plan(depth=0.020)
    assert any("spacer ring 9.00 mm" in step for step in deep.steps)
    shallow = plan(depth=0.005)
    assert shallow.cutting.rings.count == 2
    assert any("holds only 2" in note and "7.00 mm deep" in note for note in shallow.notes)
    assert any(step.startswith("The second one") for step in shallow.steps)
    assert not any("The other" in step for step in plan(depth=0.003).steps)


def test_a_box_of_unknown_depth_says_what_four_rings_need() -> None:
    assert any("is not given: 4 rings are taken" in note and "9.00 mm" in note for note in plan(depth=None).notes)


@pytest.mark.parametrize(
    ("rod", "bore", "said"),
    [(0.004, 0.0052, "narrow"), (0.004, 0.012, "wide"), (0.010, 0.016, ""), (0.100, 0.112, "narrow")],
)
def test_an_unusual_box_is_noticed(rod: float, bore: float, said: str) -> None:
    notes = [note for note in plan(rod, bore, 0.2).notes if note.startswith("The box is")]
    assert bool(notes) is bool(said)
    assert all(said in note for note in notes)


def test_braiding_down_is_a_step_of_its_own() -> None:
    made = plan(0.003, 0.005)
    assert made.cutting.bought.verdict == "braid down"
    assert any("twisted or plaited again" in step for step in made.steps)


def test_cautions_stand_where_the_work_is() -> None:
    assert plan(fluid="air").cautions == (LET_DOWN, OLD_PACKING, TRYING_UNDER_PRESSURE)
    assert plan().cautions == (LET_DOWN, OLD_PACKING, TRYING_UNDER_PRESSURE, STEAM)
    assert "let the pressure down" in plan().steps[0]
    assert any("presume asbestos" in note and "Never dig it out dry" in note for note in plan().notes)


@pytest.mark.parametrize(
    ("fluid", "said"),
    [("air", "soapy water"), ("steam", "faint weep"), ("water", "dry rag")],
)
def test_it_is_tried_as_the_fluid_wants_it(fluid: str, said: str) -> None:
    assert any(said in step for step in plan(fluid=fluid).steps)


def test_on_steam_it_is_told_why_hardly_a_rubber_will_do() -> None:
    (note,) = [note for note in plan().notes if note.startswith("Rubber in steam")]
    assert "EPDM is the other way round: it lives in steam and swells in mineral steam oil" in note
    assert not any(note.startswith("Rubber in steam") for note in plan(fluid="air").notes)


def test_an_unsuitable_packing_is_judged_and_not_planned() -> None:
    made = plan(material="ramie")
    assert (made.asked.material, made.asked.verdict) == ("ramie", "unsuitable")
    assert made.material.material == "graphite yarn"
    assert any("graphite yarn" in item.name for item in made.have_ready)
    assert not any("ramie" in item.name for item in made.have_ready)
    assert {made.asked.material, made.material.material}.isdisjoint(each.material for each in made.others)


def test_what_to_have_ready_can_be_taken_to_the_shelf() -> None:
    items = plan().have_ready
    assert {item.shelf for item in items} == {"tools", "packing", "consumables"} <= set(SHELVES)
    packing = next(item for item in items if item.shelf == "packing")
    assert (packing.name, packing.amount, packing.purposes) == ("2 mm graphite yarn", "0.12 m", ("gland",))
    tools = " ".join(item.name for item in items if item.shelf == "tools")
    for tool in ("mandrel 4.00 mm", "sharp blade", "packing hook", "4.2 mm bore, 7.8 mm outside"):
        assert tool in tools


def test_sources_name_what_is_from_memory() -> None:
    sources = " ".join(plan().sources)
    for said in ("Tribology Handbook", "Root Cause Failure Analysis", "PVS2017-3518", "from memory"):
        assert said in sources


def test_a_box_for_no_packing_is_refused() -> None:
    with pytest.raises(NotInTable, match="sections commonly sold"):
        plan(0.004, 0.100, 0.2)
