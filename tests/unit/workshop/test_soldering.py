"""Solders against the melting ranges that were read, and a bush against the growth of its metals."""

from __future__ import annotations

import pytest

from lapwright.errors import DoesNotFit, NotOneOf, OutOfRange
from lapwright.workshop import cautions
from lapwright.workshop.solder_order import order_joints
from lapwright.workshop.soldering import find_solder, fit_soldered_bush, judge_solder

FREEZING = 273.15


@pytest.mark.parametrize(
    ("alloy", "solidus", "liquidus"),
    [
        # A maker's table of silver solders.
        ("Ag155", 630, 660),
        ("Ag145", 640, 680),
        ("Ag140", 650, 710),
        ("AG21", 665, 755),
        # A list of tin-lead solders: all begin to melt at 183 degC.
        ("63Sn37Pb", 183, 183),
        ("60Sn40Pb", 183, 188),
        ("50Sn50Pb", 183, 212),
        ("40Sn60Pb", 183, 234),
    ],
)
def test_melting_ranges(alloy: str, solidus: float, liquidus: float) -> None:
    row = find_solder(alloy)
    assert (row.solidus, row.liquidus) == pytest.approx((FREEZING + solidus, FREEZING + liquidus))


@pytest.mark.parametrize(
    ("alloy", "celsius", "verdict"),
    [
        # The trap: steam of 10 bar is at 184 degC, tin-lead melts from 183; at 4 bar, 152 degC, it creeps.
        ("60Sn40Pb", 184, "melts"),
        ("60Sn40Pb", 183, "melts"),
        ("60Sn40Pb", 152, "creeps"),
        # 0.8 x (183 + 273.15) = 364.9 K, 91.8 degC.
        ("60Sn40Pb", 92, "creeps"),
        ("60Sn40Pb", 91, "stands"),
        ("Ag155", 184, "stands"),
        ("AG21", 184, "stands"),
    ],
)
def test_what_solder_does_in_steam(alloy: str, celsius: float, verdict: str) -> None:
    judged = judge_solder(alloy, FREEZING + celsius)
    assert judged.verdict == verdict
    assert bool(judged.instead) == (verdict != "stands")
    assert judged.cautions == (cautions.FLAME,)


def test_soft_solder_seals_and_does_not_carry() -> None:
    judged = judge_solder("60Sn40Pb", FREEZING + 152)
    assert judged.why.endswith(
        "at 152 degC it does not melt, but gives way slowly under any load. It may seal there, not hold."
    )
    assert judged.notes[0].startswith("Soft solder seals, and does not carry")
    assert not any(alloy.startswith("Sn9") for alloy in judged.instead)
    assert "55Ag-Cu-Zn-Sn (AG14, Ag155)" in judged.instead
    assert judge_solder("Ag155", FREEZING + 152).notes == ()


def test_a_recalled_range_says_so() -> None:
    judged = judge_solder("high melting point", FREEZING + 100)
    assert "(from memory)" in judged.why
    assert any("from memory" in source for source in judged.sources)


def test_joints_step_down() -> None:
    # 30 % silver begins to melt at 665 degC: 55 % is liquid at 660, 45 % only at 680.
    order = order_joints(("Ag155", "AG21"))
    assert (order.works, order.alloys) == (True, ("30Ag (AG21)", "55Ag-Cu-Zn-Sn (AG14, Ag155)"))
    clash = order_joints(("AG21", "Ag145"))
    assert not clash.works
    assert clash.why.startswith(
        "45Ag-Cu-Zn-Sn (Ag145) is liquid only at 680 degC, and 30Ag (AG21) begins to melt at 665"
    )
    assert not order_joints(("Ag155", "Ag155")).works
    assert order_joints(("Ag155", "60Sn40Pb", "AG21")).works


def test_a_brass_bush_in_iron_wants_more_room_when_cold() -> None:
    # Brass 20.9, iron 10.0 millionths a kelvin (tables of materials), 660 - 20 = 640 K, 12 mm:
    # the hole closes by 12 x 640 x 10.9e-6 = 0.0837 mm. Hot hole 12.0768 mm; (12.0768 - 0.06)/1.013376 = 11.8582,
    # (12.0768 - 0.16)/1.013376 = 11.7595.
    fit = fit_soldered_bush(0.012, alloy="Ag155", bush="brass", body="cast iron")
    assert fit.closing == pytest.approx(83.7e-6, rel=1e-3)
    assert (fit.least, fit.most) == pytest.approx((11.7595e-3, 11.8582e-3), abs=1e-7)
    assert any("zinc fume" in note for note in fit.notes)


def test_a_bush_of_the_same_metal_has_the_gap_itself() -> None:
    fit = fit_soldered_bush(0.012, alloy="Ag155", bush="gunmetal", body="gunmetal")
    # Half of what is left, up to the growth of the gap itself: 0.03 to 0.08 mm (an encyclopaedia on brazing).
    assert (0.012 - fit.most) / 2 == pytest.approx(0.03e-3, rel=0.02)
    assert (0.012 - fit.least) / 2 == pytest.approx(0.08e-3, rel=0.02)
    assert fit.notes == ()


def test_a_bush_that_grows_less_than_its_hole_still_goes_in_cold() -> None:
    fit = fit_soldered_bush(0.05, alloy="Ag155", bush="cast iron", body="brass")
    assert fit.most == fit.least == pytest.approx(0.05 - 0.01e-3)
    assert any("more than solder is drawn into" in note for note in fit.notes)


def test_a_soft_soldered_bush_is_held_by_something_else() -> None:
    fit = fit_soldered_bush(0.012, alloy="60Sn40Pb", bush="brass", body="cast iron")
    assert fit.notes[0].startswith("Soft solder seals")
    assert any("graphite" in note for note in fit.notes)
    assert not any("zinc fume" in note for note in fit.notes)


def test_these_alloys_do_not_take_on_aluminium() -> None:
    with pytest.raises(DoesNotFit, match="Ag155\\) does not take on aluminium: press the bush in"):
        fit_soldered_bush(0.012, alloy="Ag155", bush="brass", body="6082")


def test_a_part_of_a_name_will_do_if_no_other_alloy_has_it() -> None:
    assert find_solder("63").alloy == "63Sn37Pb"


@pytest.mark.parametrize("alloy", ["glue", "", "Ag"])
def test_an_unknown_alloy(alloy: str) -> None:
    with pytest.raises(NotOneOf):
        judge_solder(alloy, 400.0)


@pytest.mark.parametrize("temperature", [-5.0, 0.0, 1500.0, float("inf"), float("nan")])
def test_no_such_temperature(temperature: float) -> None:
    with pytest.raises(OutOfRange):
        judge_solder("Ag155", temperature)


@pytest.mark.parametrize("hole", [-0.01, 0.0, 5.0, float("nan")])
def test_no_such_hole(hole: float) -> None:
    with pytest.raises(OutOfRange):
        fit_soldered_bush(hole, alloy="Ag155", bush="brass", body="steel")
