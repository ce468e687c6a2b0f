"""The plan of a shouldered pin that takes the place of a bolt."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from lapwright.engine.parts import JOINTS
from lapwright.errors import DoesNotFit, NotInTable, NotOneOf, OutOfRange
from lapwright.tables.naming import find_thread
from lapwright.workshop.item import SHELVES
from lapwright.workshop.pin_plan import plan_pin
from lapwright.workshop.pin_sizes import PinWish, choose_end_thread, choose_shank_diameter, size_pin

#: A 7 BA bolt in a valve fork: the eye is worn to 2.55 mm, the fork's cheeks are 2 mm thick.
BOLT = PinWish(
    name="fork pin",
    joint="valve fork",
    moving_part=4e-3,
    diameter=2.5e-3,
    hole=2.55e-3,
    cheek=2e-3,
    thread=find_thread("7 BA"),
    load=25.0,
)


def test_the_sizes_are_worked_by_hand() -> None:
    plan = plan_pin(BOLT)
    # The eye is reamed to the next half mm, 3.0; H7/g6 up to 3 mm: hole 0 +10, shaft -8 -2 µm (ISO 286-2).
    assert plan.sizes.shank.fit == "H7/g6"
    assert [round(1e3 * size, 3) for size in plan.sizes.shank.hole] == [3.0, 3.01]
    assert [round(1e3 * size, 3) for size in plan.sizes.shank.shaft] == [2.992, 2.998]
    # From under the head: cheek 2 + moving part 4 + 0.05 to 0.10.
    assert [round(1e3 * length, 2) for length in plan.sizes.length] == [6.05, 6.1]
    # The bolt's own thread leaves a shoulder of (3.0 - 2.5)/2 = 0.25 mm all round.
    assert plan.sizes.thread is not None
    assert plan.sizes.thread.name == "7 BA"
    assert plan.set["thread"] == "7 BA"
    assert plan.set["shank_mm"] == "2.992 to 2.998 mm (0.1178 to 0.1180 in)"


def test_the_work_tells_every_size_and_keeps_the_nut_off_the_moving_part() -> None:
    plan = plan_pin(BOLT)
    text = " ".join(plan.steps)
    for size in ("2.8 mm", "ream 3.0 mm (H7)", "2.992 to 2.998 mm", "6.05 to 6.10 mm", "7 BA"):
        assert size in text, size
    assert "the shoulder, not the fork" in text
    assert any("A thread is no bearing" in note for note in plan.notes)
    assert len(plan.cautions) == 4


def test_what_to_have_ready_is_on_known_shelves_and_for_this_pin() -> None:
    items = {item.name: item for item in plan_pin(BOLT).have_ready}
    assert items["7 BA nut"].count == 2
    assert items["3.0 mm reamer, H7"].shelf == "tools"
    assert items["7 BA die, with its stock"].shelf == "taps and dies"
    # Head 0.5 x 3, shank 6.1, cheek 2, washer and two nuts 1.8 x 3, 15 to hold it by: 30.0 mm.
    assert items["steel rod, 5 mm"].amount == "30 mm"
    for item in items.values():
        assert item.shelf in SHELVES
        assert item.purposes == ("fork pin",)


def test_without_a_load_nothing_is_said_of_strength() -> None:
    plan = plan_pin(replace(BOLT, load=None))
    assert plan.strength is None
    assert plan.bearing is None
    assert len(plan.notes) == 1


def test_a_load_is_borne_by_the_new_pin() -> None:
    plan = plan_pin(BOLT)
    assert plan.strength is not None
    assert plan.bearing is not None
    # 25 N on 3 x 4 mm: 2.08 MPa of the 12.6 of a crosshead's pin.
    assert plan.bearing.pressure == pytest.approx(25 / 12e-6)
    assert plan.bearing.part == "crosshead"
    assert "from memory" in " ".join(plan.sources)


@pytest.mark.parametrize(
    ("joint", "fit", "part"), [("crank pin", "H7/f7", "crank pin"), ("other", "H7/f7", "crosshead")]
)
def test_what_goes_round_gets_room_for_oil(joint: str, fit: str, part: str) -> None:
    plan = plan_pin(replace(BOLT, joint=joint, planes=1))
    assert plan.sizes.shank.fit == fit
    assert plan.bearing is not None
    assert plan.bearing.part == part
    assert "the shoulder, not the moving part: that keeps 0.05 to 0.10 mm of play" in " ".join(plan.steps)
    assert [round(1e3 * length, 2) for length in plan.sizes.length] == [4.05, 4.1]


def test_what_else_is_printed_stands_beside_the_figure_that_is_used() -> None:
    plan = plan_pin(replace(BOLT, joint="crank pin", steam_pressure=3e5))
    others = next(note for note in plan.notes if note.startswith("What else is printed"))
    # Mathot, Gas Engines: 1400 psi; Molesworth's proportions at 3 bar: 26.71 x 0.3 MPa.
    assert "9.65 MPa, gas engine, early 1900s: 1400 psi design (Mathot, Gas Engines)" in others
    assert "8.01 MPa, by old proportions at this steam pressure" in others


def test_where_the_cheek_is_not_known_the_length_says_so() -> None:
    plan = plan_pin(replace(BOLT, cheek=0.0))
    assert plan.sizes.adds_cheek
    assert "the thickness of the cheek under the head and 4.05 to 4.10 mm" in " ".join(plan.steps)
    assert plan.set["shank_length_mm"].endswith("and the cheek under the head")


def test_a_pin_that_is_pressed_in_has_a_smaller_end() -> None:
    plan = plan_pin(replace(BOLT, joint="crank pin", hole=4e-3, planes=1, held="press", thread=None))
    assert plan.sizes.thread is None
    assert plan.sizes.end is not None
    # ISO 286-2, over 3 up to 6 mm: p6 is +12 +20 µm, H7 0 +12.
    assert [round(1e3 * size, 3) for size in plan.sizes.end.shaft] == [3.512, 3.52]
    text = " ".join(plan.steps)
    assert "press it home" in text
    assert "nut" not in text
    assert "3.5 mm reamer, H7" in {item.name for item in plan.have_ready}


def test_like_metals_seize() -> None:
    assert "Steel on steel seizes" in " ".join(plan_pin(replace(BOLT, runs_in="steel")).notes)


@pytest.mark.parametrize(
    ("hole", "diameter"),
    # A hole up to 3.010 is still within H7 of 3 mm; beyond it the next reamer cleans up.
    [(3.0, 3.0), (3.01, 3.0), (3.02, 3.5), (2.99, 3.0), (0.3, 0.5), (7.0, 7.0), (18.03, 18.5)],
)
def test_the_next_reamer_cleans_up_the_hole(hole: float, diameter: float) -> None:
    assert choose_shank_diameter(pin=None, hole=hole / 1000) == pytest.approx(diameter / 1000)


@pytest.mark.parametrize(
    ("shank", "found", "thread"),
    [
        # A shoulder of 0.24 mm on 3 mm leaves 2.52 for the thread: 7 BA is 2.5; 0.4 on 5 leaves 4.2: 3 BA is 4.1.
        (3.0, None, "7 BA"),
        (5.0, None, "3 BA"),
        (3.0, "4 BA", "7 BA"),
        (4.0, "M4", "M3"),
        (6.0, "4 BA", "4 BA"),
    ],
)
def test_the_end_gets_the_bolts_thread_or_the_thickest_that_leaves_a_shoulder(
    shank: float, found: str | None, thread: str
) -> None:
    row = choose_end_thread(shank / 1000, found=None if found is None else find_thread(found))
    assert row.name == thread


def test_what_cannot_be_planned_is_refused() -> None:
    with pytest.raises(DoesNotFit, match="measure the pin or the hole"):
        plan_pin(replace(BOLT, hole=None, diameter=None))
    with pytest.raises(OutOfRange):
        plan_pin(replace(BOLT, hole=-1e-3))
    with pytest.raises(NotInTable, match="fits"):
        plan_pin(replace(BOLT, hole=31e-3))
    with pytest.raises(NotOneOf):
        plan_pin(replace(BOLT, joint="elbow"))
    with pytest.raises(NotOneOf):
        plan_pin(replace(BOLT, held="glue"))
    with pytest.raises(NotOneOf):
        plan_pin(replace(BOLT, metal="cheese"))
    with pytest.raises(DoesNotFit, match="shoulder"):
        size_pin(replace(BOLT, hole=0.5e-3, thread=None))
    with pytest.raises(DoesNotFit, match="shoulder"):
        size_pin(replace(BOLT, hole=0.5e-3, held="press"))


@pytest.mark.parametrize("joint", JOINTS)
@pytest.mark.parametrize("held", ["nut", "press"])
@pytest.mark.parametrize("planes", [1, 2])
def test_no_sentence_is_broken(joint: str, held: str, planes: int) -> None:
    plan = plan_pin(replace(BOLT, joint=joint, held=held, planes=planes))
    for sentence in (*plan.steps, *plan.notes):
        assert sentence.endswith("."), sentence
        assert not re.search(r"  |None|nan|\{|\}| ,| \.", sentence), sentence
        assert sentence[0].isupper(), sentence
