"""Covers and studs against worked figures, each with its source beside it."""

from __future__ import annotations

from math import pi

import pytest

from lapwright.errors import DoesNotFit, NotOneOf, OutOfRange
from lapwright.tables.gaskets import find_gasket
from lapwright.tables.naming import find_thread
from lapwright.workshop.covers import (
    Joint,
    apply_old_rules,
    find_chord,
    find_joint_loads,
    find_widest_joint,
    load_stud,
    load_stud_by_torque,
    order_studs,
)
from lapwright.workshop.gasket_choice import GASKETS, choose_gaskets
from lapwright.workshop.strength import stress_area

BORE_25 = Joint(25e-3, 30e-3)
FREEZING = 273.15


def test_seating_governs_at_bench_size() -> None:
    # 25 mm bore, joint 30 mm over the outside, 6 bar. Pressure 0.6 x pi/4 x 30^2 = 424 N. Oiled paper (ASME VIII,
    # appendix 2: m 1.75, y 7.58 MPa): seating pi x 2.5 x 27.5 x 7.58 = 1637 N.
    loads = find_joint_loads(BORE_25, find_gasket("oiled paper"), pressure=6e5)
    assert loads.pressure == pytest.approx(424, abs=0.5)
    assert loads.seating == pytest.approx(1637, abs=0.5)
    # Holding it: 424.1 + 2 x pi x 27.5 x 2.5 x 1.75 x 0.6 = 424.1 + 453.6 = 877.7 N.
    assert loads.operating == pytest.approx(877.7, abs=0.5)
    assert (loads.governs, loads.needed) == ("seating the joint", loads.seating)
    # The code's half width, pressure to the middle: seating 818.6 N, over 356.4 + 226.8 = 583.2 N.
    assert loads.half_width == pytest.approx(818.6, abs=0.5)


def test_the_other_joints_of_the_table() -> None:
    # ASME VIII, appendix 2: soft rubber m 0.5, y 0; flat copper 4.75, 89.6 MPa; flexible graphite 2.0, 17.2 MPa.
    rubber = find_joint_loads(BORE_25, find_gasket("soft rubber"), pressure=6e5)
    assert rubber.seating == 0
    assert rubber.governs == "holding the pressure"
    copper = find_joint_loads(BORE_25, find_gasket("copper"), pressure=6e5)
    assert copper.seating == pytest.approx(pi * 2.5 * 27.5 * 89.6, rel=1e-3)
    graphite = find_joint_loads(BORE_25, find_gasket("graphite sheet"), pressure=6e5)
    assert graphite.seating == pytest.approx(pi * 2.5 * 27.5 * 17.2, rel=1e-3)
    # Thin old sheet asked more to bed it than thick (Moss, p. 45: m 3.5 at 1/32 in, 2.0 at 1/8).
    thin, thick = (find_gasket(f"compressed asbestos {size} (historic)") for size in ("1/32", "1/8"))
    assert (thin.m, thick.m) == (3.5, 2.0)
    assert (thin.y or 0) > (thick.y or 0)


def test_six_studs_of_7_ba_share_the_load() -> None:
    # BS 93: 7 BA 2.5 x 0.48; pi/4 (2.5 - 0.9 x 0.48)^2 = 3.36 mm2. 1637/6 = 272.9 N: 81 MPa. T = 0.2 x 2.5 x 272.9 =
    # 136.4 N mm; worked with y rounded to 7.6 MPa it is 0.137 N m.
    thread = find_thread("7 BA")
    assert stress_area(thread) * 1e6 == pytest.approx(3.35, abs=0.01)
    loads = find_joint_loads(BORE_25, find_gasket("oiled paper"), pressure=6e5)
    stud = load_stud(thread, loads.needed / 6)
    assert stud.stress / 1e6 == pytest.approx(81, abs=0.5)
    assert stud.torque == pytest.approx(0.137, abs=0.001)
    # ISO 898-1: class 4.6, proof 225 MPa.
    assert stud.share == pytest.approx(81.2 / 225, abs=0.002)
    assert not stud.is_past_proof


def test_a_torque_that_is_too_much_stretches_a_stud() -> None:
    # 0.6 N m dry on 7 BA: 0.6/(0.2 x 0.0025) = 1200 N, over 3.359 mm2 = 357 MPa, 159 % of 225.
    found = load_stud_by_torque(find_thread("7 BA"), 0.6)
    assert found.pull == pytest.approx(1200)
    assert found.stress / 1e6 == pytest.approx(357, abs=0.5)
    assert found.share == pytest.approx(1.588, abs=0.002)
    assert found.is_past_proof
    # Oiled (K 0.15) the same torque pulls a third more.
    assert load_stud_by_torque(find_thread("7 BA"), 0.6, condition="oiled").pull == pytest.approx(1600)


def test_m3_of_class_4_6_at_three_quarters_of_its_proof() -> None:
    # A bolting table: 225 MPa x 5.03 mm2 x 0.75 = 849 N, 0.5 N m with K 0.2.
    stud = load_stud(find_thread("M3"), 849)
    assert stud.share == pytest.approx(0.75, abs=0.001)
    assert stud.torque == pytest.approx(0.51, abs=0.005)


@pytest.mark.parametrize(
    ("count", "order"),
    [
        (1, (1,)),
        (2, (1, 2)),
        (3, (1, 2, 3)),
        (4, (1, 3, 2, 4)),
        (5, (1, 3, 5, 2, 4)),
        (6, (1, 4, 2, 5, 3, 6)),
        (7, (1, 4, 7, 3, 6, 2, 5)),
        (8, (1, 5, 3, 7, 2, 6, 4, 8)),
        (12, (1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12)),
    ],
)
def test_the_usual_orders(count: int, order: tuple[int, ...]) -> None:
    # Common practice: across, and across again; the orders of 4, 8 and 12 are those of every flange sheet.
    assert order_studs(count) == order


def test_no_stud_has_no_order() -> None:
    with pytest.raises(OutOfRange):
        order_studs(0)


def test_the_distance_between_holes_is_a_chord() -> None:
    # PCD sin(180/n): six holes on 34 mm lie half the circle's diameter apart, four its root of 1/2.
    assert find_chord(34e-3, 6) == pytest.approx(17e-3)
    assert find_chord(34e-3, 4) == pytest.approx(34e-3 / 2**0.5)
    with pytest.raises(OutOfRange):
        find_chord(34e-3, 1)
    with pytest.raises(OutOfRange):
        find_chord(0, 6)


def test_the_old_rules_are_for_full_size() -> None:
    # 0.01 D + 4 to 0.02 D + 4; 20 to 30 sqrt(d); D + 3 d: 400 mm with 25 mm studs: 8 to 12, 100 to 150 mm, 475 mm.
    rule = apply_old_rules(0.4, 25e-3)
    assert rule.number == pytest.approx((8, 12))
    assert rule.pitch == pytest.approx((0.1, 0.15))
    assert rule.stud_circle == pytest.approx(0.475)


@pytest.mark.parametrize(("bore", "stud"), [(25e-3, 3e-3), (99e-3, 16e-3), (200e-3, 12e-3)])
def test_below_full_size_the_old_rules_are_refused_with_the_reason(bore: float, stud: float) -> None:
    with pytest.raises(DoesNotFit) as told:
        apply_old_rules(bore, stud)
    assert "full size" in str(told.value)
    assert "work out the loads instead" in str(told.value)


def test_what_they_would_give_at_bench_size_is_three_studs() -> None:
    # The reason that is given: circle 25 + 3 x 3 = 34 mm, pitch 20 sqrt(3) = 34.6 mm: 106.8/34.6 = 3.1.
    assert pi * 34 / (20 * 3**0.5) == pytest.approx(3.1, abs=0.05)


def test_a_narrower_joint_is_as_wide_as_the_studs_can_bed() -> None:
    graphite = find_gasket("graphite sheet")
    ring = find_widest_joint(25e-3, graphite, pressure=3e5, load=2786)
    assert ring is not None
    # pi w (25 + w) 17.2 = 2786: w = (-25 + sqrt(625 + 4 x 51.56))/2 = 1.916 mm.
    assert 1e3 * ring.width == pytest.approx(1.916, abs=0.001)
    assert find_joint_loads(ring, graphite, pressure=3e5).needed <= 2786
    assert find_widest_joint(25e-3, graphite, pressure=3e5, load=100) is None


def test_what_is_no_joint_is_refused() -> None:
    with pytest.raises(DoesNotFit, match="leaves nothing round a bore"):
        Joint(25e-3, 25e-3)
    with pytest.raises(OutOfRange):
        Joint(0, 25e-3)
    with pytest.raises(DoesNotFit, match="no seating stress"):
        find_joint_loads(BORE_25, find_gasket("PTFE sheet"), pressure=1e5)
    with pytest.raises(OutOfRange):
        find_joint_loads(BORE_25, find_gasket("oiled paper"), pressure=-1)
    with pytest.raises(NotOneOf):
        load_stud(find_thread("M3"), 1, metal="cheese")


def test_a_joint_is_chosen_by_fluid_heat_and_pressure() -> None:
    # Limits: vegetable fibre 121 degC and 11 bar; PTFE 260 degC, 20 bar; graphite 450 degC (from memory).
    air = {choice.gasket: choice for choice in choose_gaskets(fluid="air", temperature=293, pressure=3e5)}
    assert next(iter(air)) == "oiled paper"
    assert air["soft rubber"].fits
    steam = {choice.gasket: choice for choice in choose_gaskets(fluid="steam", temperature=417, pressure=3e5)}
    assert next(iter(steam)) == "graphite sheet"
    assert not steam["oiled paper"].fits
    assert "144 °C is more than the 121 °C" in steam["oiled paper"].why
    assert "perishes" in steam["soft rubber"].why
    assert steam["PTFE sheet"].why == "good for 260 °C and 20 bar"
    high = {choice.gasket: choice for choice in choose_gaskets(fluid="air", temperature=293, pressure=12e5)}
    assert "12.0 bar is more than the 11 bar" in high["oiled paper"].why


@pytest.mark.parametrize("fluid", ["air", "steam"])
def test_old_sheet_never_fits(fluid: str) -> None:
    choices = choose_gaskets(fluid=fluid, temperature=FREEZING + 20, pressure=1e5)
    old = next(choice for choice in choices if choice.gasket == "old sheet")
    assert not old.fits
    assert "asbestos" in old.why
    assert {choice.gasket for choice in choices} == set(GASKETS)
