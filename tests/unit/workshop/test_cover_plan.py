"""The plan of a cover: torque, order, joint, and studs that were drawn too tight."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from lapwright.engine.parts import GASKETS, LUBRICATIONS, SCREW_METALS
from lapwright.errors import DoesNotFit, NotOneOf, OutOfRange
from lapwright.tables.naming import find_thread
from lapwright.workshop.cautions import OLD_PACKING, STEAM, TRYING_UNDER_PRESSURE
from lapwright.workshop.cover_figures import CoverWish
from lapwright.workshop.cover_plan import plan_cover
from lapwright.workshop.covers import Joint
from lapwright.workshop.item import SHELVES

#: 25 mm bore, joint 30 mm over the outside, 6 bar of air, six 7 BA studs, dry.
COVER = CoverWish(
    name="head cover",
    joint=Joint(25e-3, 30e-3),
    pressure=6e5,
    fluid="air",
    temperature=293.0,
    count=6,
    thread=find_thread("7 BA"),
    gasket="oiled paper",
    condition="dry",
    stud_circle=34e-3,
)


def test_the_rows_are_the_worked_figures() -> None:
    # See the published figures: 424 N, 1637 N, 81 MPa of 225, 0.2 x 2.5 x 272.9 N mm = 0.14 N m, chord 17 mm.
    rows = dict(plan_cover(COVER).rows)
    assert rows["pressure pushes with"] == "424 N at 6.0 bar"
    assert rows["to bed the joint"] == "1637 N (oiled paper)"
    assert rows["what decides"] == "seating the joint"
    assert rows["each stud"] == "273 N, 81 MPa, 36 % of its proof stress (6 of 7 BA, steel)"
    assert rows["torque for that"] == "0.14 N m, dry"
    # At most 0.75 x 225 x 3.359 mm2 = 566.8 N: x 0.2 x 2.5 = 283 N mm.
    assert rows["at most"] == "0.28 N m, set by 75 % of the stud's proof stress"
    assert rows["hole to hole"] == "17.00 mm"


def test_three_rounds_in_star_order() -> None:
    plan = plan_cover(COVER)
    text = " ".join(plan.steps)
    assert "1, 4, 2, 5, 3, 6" in text
    assert "to 0.045 N m, to 0.091 N m, to 0.14 N m" in text
    assert plan.figures.passes[-1] == plan.figures.torque == pytest.approx(plan.set["torque_nm"])


def test_studs_drawn_past_their_proof_are_renewed() -> None:
    # 0.6 N m: 357 MPa, 159 % of the proof stress.
    plan = plan_cover(replace(COVER, torque=0.6))
    assert plan.figures.was_overtightened
    assert dict(plan.rows)["as found"] == "0.60 N m: 1200 N, 357 MPa, 159 % of its proof stress"
    assert any("stretched for good" in note for note in plan.notes)
    assert any("Put in 6 new studs" in step for step in plan.steps)
    items = {item.name: item.count for item in plan.have_ready}
    assert (items["7 BA stud, steel"], items["7 BA nut"]) == (6, 6)


@pytest.mark.parametrize(
    ("torque", "said", "renewed", "tight"),
    [
        # Proof 225 MPa x 3.359 mm2 = 755.8 N is reached at 0.378 N m, three quarters of it at 0.283.
        (0.45, "take them for stretched", True, True),
        (0.33, "not stretched by it", False, True),
        (0.20, "", False, False),
        (0.10, "not enough for this joint", False, False),
    ],
)
def test_other_torques(torque: float, said: str, renewed: bool, tight: bool) -> None:
    plan = plan_cover(replace(COVER, torque=torque))
    assert said in " ".join(plan.notes)
    assert any("new studs" in step for step in plan.steps) is renewed
    assert plan.figures.was_overtightened is tight
    assert ("Found drawn" in " ".join(plan.notes)) is bool(said)


def test_a_joint_that_the_studs_cannot_bed_gets_no_more_than_they_bear() -> None:
    # Copper: pi x 2.5 x 27.5 x 89.6 = 19.4 kN of 6 x 567 N; even half of it is too much.
    plan = plan_cover(replace(COVER, gasket="copper"))
    assert not plan.figures.is_enough
    assert not plan.figures.is_enough_by_the_code
    assert plan.figures.torque == plan.figures.most_torque
    assert "cannot bed this joint: take a joint that asks less" in " ".join(plan.notes)
    assert f"to {plan.figures.most_torque:.2f} N m;" in " ".join(plan.steps)
    # Graphite: 3715 N of 3401; half of it is 1857.
    graphite = plan_cover(replace(COVER, gasket="graphite sheet"))
    assert not graphite.figures.is_enough
    assert graphite.figures.is_enough_by_the_code
    assert graphite.figures.narrower is not None
    assert "take a joint no wider than 2.3 mm" in " ".join(graphite.notes)


def test_the_thread_in_the_casting_may_set_the_limit() -> None:
    thin = plan_cover(replace(COVER, hole_metal="brass", engagement=0.4e-3))
    assert "thread" in thin.figures.limited_by
    assert any("FED-STD-H28" in source for source in thin.sources)
    assert thin.figures.most_torque < plan_cover(COVER).figures.most_torque
    deep = plan_cover(replace(COVER, hole_metal="brass", engagement=5e-3))
    assert deep.figures.most_torque == pytest.approx(plan_cover(COVER).figures.most_torque)


def test_old_sheet_is_never_put_back() -> None:
    plan = plan_cover(replace(COVER, gasket="old sheet"))
    assert plan.figures.gasket == "oiled paper"
    assert "may be asbestos and is not used again" in " ".join(plan.notes)
    assert OLD_PACKING in plan.cautions


def test_on_steam_paper_is_told_its_limit_and_what_stands_it() -> None:
    plan = plan_cover(replace(COVER, fluid="steam", temperature=417.0))
    assert "144 °C is more than the 121 °C it is good for" in " ".join(plan.notes)
    assert "These stand it: graphite sheet, copper, aluminium, PTFE sheet, aramid/NBR sheet." in " ".join(plan.notes)
    assert STEAM in plan.cautions
    chosen = plan_cover(replace(COVER, fluid="steam", temperature=417.0, gasket=None))
    assert chosen.figures.gasket == "graphite sheet"


def test_a_pressure_part_is_never_called_safe() -> None:
    for wish in (COVER, replace(COVER, torque=0.2), replace(COVER, fluid="steam")):
        plan = plan_cover(wish)
        assert TRYING_UNDER_PRESSURE in plan.cautions
        told = " ".join((*plan.notes, *plan.steps, *(figure for _, figure in plan.rows)))
        assert "safe" not in told
        assert "local rules and the inspector" in told


def test_what_to_have_ready_is_on_known_shelves() -> None:
    plan = plan_cover(COVER)
    items = {item.name: item for item in plan.have_ready}
    # The ring is 30 mm over the outside, with 5 mm to spare all round.
    assert items["oiled paper, 0.1 to 0.25 mm thick"].amount == "40 x 40 mm"
    assert all(item.shelf in SHELVES and item.purposes == ("head cover",) for item in items.values())


@pytest.mark.parametrize("gasket", [*GASKETS, None])
@pytest.mark.parametrize("condition", LUBRICATIONS)
@pytest.mark.parametrize("metal", SCREW_METALS)
@pytest.mark.parametrize("count", [1, 3, 5, 8])
def test_no_sentence_is_broken(gasket: str | None, condition: str, metal: str, count: int) -> None:
    wish = replace(COVER, gasket=gasket, condition=condition, stud_metal=metal, count=count, torque=0.3)
    for fluid, temperature in (("air", 293.0), ("steam", 440.0)):
        plan = plan_cover(replace(wish, fluid=fluid, temperature=temperature))
        for sentence in (*plan.steps, *plan.notes, *plan.cautions):
            assert sentence.endswith("."), sentence
            assert not re.search(r"  |None|nan|\{|\}| ,| \.", sentence), sentence
            assert sentence[0].isupper() or sentence[0].isdigit(), sentence
        assert plan.figures.torque <= plan.figures.most_torque


def test_what_cannot_be_planned_is_refused() -> None:
    with pytest.raises(OutOfRange):
        plan_cover(replace(COVER, count=0))
    with pytest.raises(OutOfRange):
        plan_cover(replace(COVER, pressure=-1.0))
    with pytest.raises(NotOneOf):
        plan_cover(replace(COVER, gasket="cardboard"))
    with pytest.raises(NotOneOf):
        plan_cover(replace(COVER, condition="wet"))
    with pytest.raises(DoesNotFit, match="no seating stress"):
        plan_cover(replace(COVER, gasket="PTFE sheet"))
