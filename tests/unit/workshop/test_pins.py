"""Pins: shear and bending by hand, and why a bolt's thread is no bearing."""

from __future__ import annotations

from math import pi

import pytest

from lapwright.errors import DoesNotFit, NotOneOf, OutOfRange
from lapwright.workshop.pins import (
    REVERSING_SHARE,
    Span,
    find_bending_stress,
    find_shank,
    find_shear_stress,
    judge_pin,
    judge_thread_in_bearing,
)


def test_single_and_double_shear() -> None:
    # 4 F / (pi d^2): 100 N on 2.5 mm is 400 / 19.635 = 20.37 MPa; held at both sides it is half of that.
    assert find_shear_stress(100, diameter=2.5e-3, planes=1) / 1e6 == pytest.approx(20.37, abs=0.005)
    assert find_shear_stress(100, diameter=2.5e-3) / 1e6 == pytest.approx(10.19, abs=0.005)


def test_bending_of_a_pin_in_a_fork_and_of_one_that_stands_out() -> None:
    # In a fork: M = F/2 (cheek/2 + gap + part/4) = 50 x (1 + 0.5 + 1) = 125 N mm; 32 M / (pi 3^3) = 47.16 MPa.
    fork = Span(diameter=3e-3, moving_part=4e-3, gap=0.5e-3, cheek=2e-3)
    assert find_bending_stress(100, fork) / 1e6 == pytest.approx(47.16, abs=0.005)
    # Standing out: M = F (gap + part/2) = 100 x 2.5 = 250 N mm, twice as much.
    out = Span(diameter=3e-3, moving_part=4e-3, gap=0.5e-3, planes=1)
    assert find_bending_stress(100, out) / 1e6 == pytest.approx(94.31, abs=0.005)


def test_a_beam_worked_out_step_by_step_bends_the_same() -> None:
    # The moment in the middle of the fork's pin by summing the spread loads: an independent way to the same figure.
    load, cheek, gap, part, steps = 100.0, 2.0, 0.5, 4.0, 20_000
    half = gap + part / 2
    moment = 0.0
    for step in range(steps):
        # Each cheek bears half the load along its thickness; the part presses back over its half.
        moment += load / 2 / steps * (half + cheek * (step + 0.5) / steps)
        moment -= load / 2 / steps * (part / 2 * (step + 0.5) / steps)
    span = Span(diameter=3e-3, moving_part=4e-3, gap=0.5e-3, cheek=2e-3)
    assert find_bending_stress(load, span) / 1e6 == pytest.approx(32 * moment / (pi * 27), rel=1e-9)


def test_a_wide_gap_makes_bending_govern() -> None:
    # Steel: shear 360, tensile 480 MPa. Both sides of a thin plate of 0.5 mm, pin 4 mm: shear governs up to a gap of
    # 2 x 4/(8 x 2 x 0.75) - 0 - 0.125 = 0.542 mm, and bending beyond it.
    close = Span(diameter=4e-3, moving_part=0.5e-3, gap=0.5e-3)
    wide = Span(diameter=4e-3, moving_part=0.5e-3, gap=0.6e-3)
    assert judge_pin(50, close).governs == "shear"
    assert judge_pin(50, wide).governs == "bending"


def test_a_fork_pin_worked_by_hand() -> None:
    # 25 N on a 3 mm steel pin, part 4 mm, cheeks 2 mm: M = 12.5 x (1 + 1) = 25 N mm, 9.43 MPa of 480: 1.96 %;
    # shear 100 / (2 pi 9) = 1.768 MPa of 360: 0.49 %.
    strength = judge_pin(-25, Span(diameter=3e-3, moving_part=4e-3, cheek=2e-3))
    assert strength.bending_share == pytest.approx(0.01965, abs=1e-5)
    assert strength.shear_share == pytest.approx(0.00491, abs=1e-5)
    assert strength.share <= REVERSING_SHARE
    assert strength.sentence == "25 N uses 2.0 % of its strength in bending, under the 20 % that may be used."
    assert any("a fifth" in source.lower() and "no source" in source for source in strength.sources)
    weak = judge_pin(400, Span(diameter=3e-3, moving_part=4e-3, cheek=2e-3))
    assert weak.share > REVERSING_SHARE
    assert "more than the 20 %" in weak.sentence


def test_a_metal_goes_by_its_grade_too() -> None:
    span = Span(diameter=3e-3, moving_part=4e-3)
    assert judge_pin(10, span, metal="EN1A").metal == "steel"
    with pytest.raises(NotOneOf):
        judge_pin(10, span, metal="cheese")


def test_the_shank_is_longer_than_the_moving_part_by_5_to_10_hundredths() -> None:
    assert find_shank(4e-3) == pytest.approx((4.05e-3, 4.10e-3))


@pytest.mark.parametrize(
    ("plain", "inside", "right", "sentence"),
    [
        (
            0.0,
            4.0,
            False,
            "runs on nothing but thread, which is no bearing: give it a plain shank 4.05 to 4.10 mm long.",
        ),
        (
            2.5,
            1.5,
            False,
            "1.50 mm of the moving part (38 %) runs on thread, which is no bearing: make the plain shank",
        ),
        (4.0, 0.0, False, "The plain shank is no longer than the moving part, and the nut pinches it: make it 4.05 to"),
        (4.03, 0.0, False, "The plain shank is only 0.03 mm longer than the moving part"),
        (4.05, 0.0, True, "runs on plain shank all along, with 0.05 mm of play beside it."),
        (4.1, 0.0, True, "with 0.10 mm of play beside it."),
        (5.0, 0.0, True, "a washer takes up what is over 0.10 mm."),
    ],
)
def test_a_shank_is_judged(plain: float, inside: float, right: bool, sentence: str) -> None:
    verdict = judge_thread_in_bearing(plain / 1000, 4e-3)
    assert verdict.thread_inside == pytest.approx(inside / 1000)
    assert (plain / 1000 >= verdict.wanted[0] - 1e-9) is right
    assert sentence in verdict.sentence
    # Four reasons are given where a thread runs in the part, and none where it does not.
    assert len(verdict.reasons) == (4 if inside else 0)


@pytest.mark.parametrize(("plain", "part"), [(-1e-3, 4e-3), (1e-3, 0.0)])
def test_what_is_no_length_is_refused(plain: float, part: float) -> None:
    with pytest.raises(OutOfRange):
        judge_thread_in_bearing(plain, part)


def test_what_is_no_pin_is_refused() -> None:
    with pytest.raises(DoesNotFit, match="wider than the fork"):
        Span(diameter=3e-3, moving_part=4e-3, gap=-0.1e-3)
    with pytest.raises(DoesNotFit, match="1 or 2"):
        Span(diameter=3e-3, moving_part=4e-3, planes=3)
    with pytest.raises(OutOfRange):
        Span(diameter=0, moving_part=4e-3)
