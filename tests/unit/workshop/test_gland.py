"""The space in a stuffing box, what fits it, and what is said of what does not."""

from __future__ import annotations

import pytest

from lapwright.errors import BadInput, DoesNotFit, NotInTable, NotOneOf, OutOfRange
from lapwright.medium.boiling import find_boiling_point
from lapwright.workshop.gland import (
    SOLD,
    choose_packing,
    count_rings,
    judge_section,
    packing_section,
    wound_length,
)
from lapwright.workshop.gland_ptfe import ptfe_ring_gap
from lapwright.workshop.gland_winding import find_nut_travel, find_winding


def test_a_rod_bigger_than_its_box_is_refused_with_both_sizes() -> None:
    with pytest.raises(DoesNotFit) as refused:
        packing_section(0.008, 0.004)
    assert str(refused.value) == (
        "a rod of 8.00 mm does not go into a box of 4.00 mm: measure both again, or swap them: a box is bored "
        "larger than its rod"
    )


@pytest.mark.parametrize(
    ("rod", "bore", "kind", "said"),
    [
        (0.004, 0.004, DoesNotFit, "does not go into"),
        (0.004, 0.0044, DoesNotFit, "leaves 0.20 mm all round, too little to pack"),
        (-0.004, 0.008, OutOfRange, "no diameter of a rod"),
        (0.004, 0.0, OutOfRange, "no diameter of a stuffing box"),
    ],
)
def test_sizes_that_no_gland_has_are_refused(rod: float, bore: float, kind: type[BadInput], said: str) -> None:
    with pytest.raises(kind, match=said):
        packing_section(rod, bore)


@pytest.mark.parametrize(
    ("section", "verdict", "off"),
    [
        (1.5, "too thin", -0.25),
        (1.85, "fits", -0.075),
        (2.0, "fits", 0.0),
        (2.1, "fits", 0.05),
        (2.2, "roll down", 0.10),
        (2.5, "too thick", 0.25),
    ],
)
def test_a_packing_is_judged_by_how_far_it_is_off(section: float, verdict: str, off: float) -> None:
    judged = judge_section(0.004, 0.008, section / 1000)
    assert judged.verdict == verdict
    assert judged.off == pytest.approx(off)
    assert judged.fits is (verdict in {"fits", "roll down"})


def test_what_a_wrong_section_does_is_said() -> None:
    assert "runs dry and scores" in judge_section(0.004, 0.008, 0.003).reason
    assert "leaks past" in judge_section(0.004, 0.008, 0.0015).reason
    assert "roll it down" in judge_section(0.004, 0.008, 0.0022).reason
    with pytest.raises(OutOfRange, match="no section of packing"):
        judge_section(0.004, 0.008, 0.0)


@pytest.mark.parametrize(
    ("space", "name", "verdict", "strands"),
    [
        (2.0, "2 mm", "fits", 1.0),
        (2.02, "2 mm", "fits", 1.0),
        (3.1, "1/8 in", "fits", 1.0),
        # 1.5875/1.45 is 9.5 % over: rolled down.
        (1.45, "1/16 in", "roll down", 1.0),
        # 2/1.74 is 15.0 % over, 1/16 in is 8.8 % under: neither; (1.74/2)^2 = 0.757.
        (1.735, "2 mm", "braid down", 0.7525),
        (0.8, "1/16 in", "braid down", 0.254),
        (25.4, "1 in", "fits", 1.0),
    ],
)
def test_the_packing_to_buy(space: float, name: str, verdict: str, strands: float) -> None:
    bought = choose_packing(space / 1000)
    assert (bought.name, bought.verdict) == (name, verdict)
    assert bought.strands == pytest.approx(strands, abs=5e-4)
    assert bought.section == SOLD[name]
    assert bool(bought.advice) is (verdict != "fits")


def test_a_space_beyond_all_packings_is_refused() -> None:
    with pytest.raises(NotInTable, match="the thickest is 1 in"):
        choose_packing(0.040)


@pytest.mark.parametrize(
    ("depth", "count", "spacer"),
    [(3.0, 1, 0), (5.0, 2, 0), (7.0, 3, 0), (10.0, 4, 0), (11.0, 5, 0), (12.9, 5, 0), (13.0, 5, 2.0), (20.0, 5, 9.0)],
)
def test_rings_leave_the_glands_nose_room_to_enter(depth: float, count: int, spacer: float) -> None:
    rings = count_rings(0.002, depth / 1000)
    assert rings.count == count
    assert 1000 * rings.spacer == pytest.approx(spacer)
    assert rings.depth_needed == pytest.approx((count + 0.5) * 0.002)


def test_a_depth_counted_from_the_nose_holds_half_a_ring_more() -> None:
    assert count_rings(0.002, 0.0065).count == 2


def test_a_box_without_room_for_a_ring_is_refused() -> None:
    with pytest.raises(DoesNotFit, match=r"three rings need a depth of 7\.00 mm"):
        count_rings(0.002, 0.0029)
    with pytest.raises(OutOfRange, match="no depth of a stuffing box"):
        count_rings(0.002, -0.010)


def test_winding_follows_the_hand_of_the_nut() -> None:
    assert find_winding("right") == "clockwise"
    assert find_winding("left") == "anticlockwise"
    with pytest.raises(NotOneOf, match='"right" or "left"'):
        find_winding("up")


def test_a_wound_string_is_a_little_longer_than_its_rings() -> None:
    # 4 turns of pi x 6 = 75.398 mm, climbing 8 mm: sqrt(75.398^2 + 8^2) = 75.821.
    assert 1000 * wound_length(0.004, 0.002, 4) == pytest.approx(75.821, abs=0.001)


def test_what_is_no_thread_no_ring_and_no_boiling_is_refused() -> None:
    with pytest.raises(OutOfRange, match="no pitch"):
        find_nut_travel(0.0)
    with pytest.raises(NotOneOf, match="carbon-filled"):
        ptfe_ring_gap(0.025, rise=130, kind="wood")
    with pytest.raises(OutOfRange, match="no bore and rise"):
        ptfe_ring_gap(0.025, rise=0.0)
    with pytest.raises(OutOfRange, match="bar abs"):
        find_boiling_point(30e6)
