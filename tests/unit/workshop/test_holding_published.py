"""What grub screws hold, against a maker's chart; each figure with its source beside it."""

from __future__ import annotations

import pytest

from lapwright.errors import DoesNotFit, NotInTable, NotOneOf
from lapwright.tables.naming import find_thread
from lapwright.workshop.holding import Clamp, find_seat, measure_grip, plan_holding

LB_IN = 0.112985


@pytest.mark.parametrize(("shaft", "pound_inches"), [(1 / 16, 1.5), (3 / 32, 2.3), (1 / 8, 3.1)])
def test_a_screw_holds_its_axial_load_times_the_radius_of_the_shaft(shaft: float, pound_inches: float) -> None:
    # A set-screw maker's chart, No 0 cup point at 1 lb in: 50 lb times half the shaft.
    clamp = Clamp(row=find_thread("No 0-80 UNF"), hub="steel", shaft=shaft * 25.4e-3, engagement=2e-3)
    grip = measure_grip(clamp)
    assert grip.limit == "screw"
    assert grip.holds / LB_IN == pytest.approx(pound_inches, abs=0.07)


@pytest.mark.parametrize(("point", "share"), [("cone", 1.07), ("flat", 0.92), ("dog", 0.92), ("oval", 0.90)])
def test_other_points_hold_their_share_of_a_cup_point(point: str, share: float) -> None:
    # The same chart.
    row = find_thread("M4")
    cup, other = (
        measure_grip(Clamp(row=row, hub="steel", shaft=8e-3, engagement=4e-3, point=name)) for name in ("cup", point)
    )
    assert other.holds == pytest.approx(share * cup.holds)


def test_a_size_between_those_of_the_table_is_estimated_and_says_so() -> None:
    # By hand, 4 BA between M3 (0.8 N m) and M4 (2.2 N m): 0.8 (2.2/0.8)^(ln 1.2/ln 1.3333) = 1.52 N m; of its thrust,
    # 1.52/(0.2 x 3.6 mm) = 2108 N, half.
    seat = find_seat(find_thread("4 BA"))
    assert seat.torque == pytest.approx(1.52, abs=0.01)
    assert seat.hold == pytest.approx(1054, abs=5)
    assert seat.estimated
    assert "our estimate" in seat.source
    assert not find_seat(find_thread("M4")).estimated
    with pytest.raises(NotInTable, match=r"the table goes from M1\.6 to M10"):
        find_seat(find_thread("16 BA"))


def test_a_slotted_screw_of_plain_steel_holds_less() -> None:
    # By hand, 4 BA: 0.6 x 225 MPa x 7.097 mm2 = 958 N; 0.2 x 3.6 mm x 958 N = 0.69 N m; half of the thrust 479 N.
    seat = find_seat(find_thread("4 BA"), slotted=True)
    assert seat.torque == pytest.approx(0.69, abs=0.005)
    assert seat.hold == pytest.approx(479, abs=1)


def test_in_brass_the_thread_decides() -> None:
    # M4 wants 2.4 mm of brass for its 2.2 N m; in 1.2 mm half of that is left, and so is what it holds.
    row = find_thread("M4")
    full, half = (
        measure_grip(Clamp(row=row, hub="brass", shaft=8e-3, engagement=length)) for length in (2.4e-3, 1.19e-3)
    )
    assert full.seating == pytest.approx(2.2)
    assert half.limit == "hole thread"
    assert half.seating == pytest.approx(1.1, abs=0.01)
    assert half.holds == pytest.approx(full.holds / 2, rel=0.01)
    assert "The thread in the brass decides" in " ".join(half.notes)


def test_an_eccentric_that_slips_is_told_what_would_hold() -> None:
    # By hand, 8 BA on 5 mm: needed 4 x 0.2 = 0.8 N m, at the skin of the shaft 0.8/2.5 mm = 320 N.
    clamp = Clamp(row=find_thread("8 BA"), hub="brass", shaft=5e-3, engagement=2e-3)
    plan = plan_holding(clamp, torque=0.2, purpose="eccentric")
    assert plan.needed == pytest.approx(0.8)
    assert plan.needed_force == pytest.approx(320)
    assert not plan.enough
    assert plan.larger is not None
    assert plan.larger.name == "7 BA"
    assert [way.enough for way in plan.ways] == [False, False, True, True, None]
    assert "file a flat" in " ".join(plan.steps)
    assert "8 BA socket grub screw, cup point" in [item.name for item in plan.have_ready]
    assert all(item.purposes == ("eccentric",) for item in plan.have_ready)


def test_a_steady_load_asks_for_half_of_a_reversing_one() -> None:
    clamp = Clamp(row=find_thread("8 BA"), hub="brass", shaft=5e-3, engagement=2e-3)
    assert plan_holding(clamp, torque=0.2, load="steady").needed == pytest.approx(0.4)


def test_the_screw_should_be_about_half_the_shaft() -> None:
    # The same chart.
    row = find_thread("M4")
    notes = {
        shaft: " ".join(measure_grip(Clamp(row=row, hub="steel", shaft=shaft, engagement=4e-3)).notes)
        for shaft in (5e-3, 8e-3, 16e-3)
    }
    assert "thick for this shaft" in notes[5e-3]
    assert "for this shaft" not in notes[8e-3]
    assert "thin for this shaft" in notes[16e-3]


def test_what_cannot_be_is_refused() -> None:
    clamp = Clamp(row=find_thread("M4"), hub="brass", shaft=5e-3, engagement=2e-3)
    with pytest.raises(DoesNotFit, match="torque that has to be held"):
        plan_holding(clamp, torque=0.0)
    with pytest.raises(NotOneOf, match='"sometimes"'):
        plan_holding(clamp, torque=0.1, load="sometimes")
    with pytest.raises(DoesNotFit, match="the shaft has no diameter"):
        measure_grip(Clamp(row=clamp.row, hub="brass", shaft=0.0, engagement=2e-3))
    with pytest.raises(NotOneOf, match='"sharp"'):
        measure_grip(Clamp(row=clamp.row, hub="brass", shaft=5e-3, engagement=2e-3, point="sharp"))
