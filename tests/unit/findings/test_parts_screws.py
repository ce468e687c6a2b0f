"""Worn threads, screws that do not hold, bolts used as pins, and covers drawn too tight."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.engine.parts import DUTIES, FASTENERS, GASKETS, JOINTS, METALS, PINS, POINTS, SCREW_METALS, SEATS, STATES
from lapwright.findings.finding import Finding
from lapwright.findings.parts import find_part_faults
from lapwright.findings.parts.holding_screw import find_torque_to_hold, plan_hold
from lapwright.tables.threads import list_threads
from tests.unit.findings.parted import LOAD, LOADS, MM, SCREW, make_engine, with_pin, with_screw, with_studs


def find_one(engine: object) -> Finding:
    (finding,) = find_part_faults(engine, LOADS)  # type: ignore[arg-type]
    return finding


def test_a_twin_of_the_holes_thread_is_its_own() -> None:
    # Some threads of the tables go by several names.
    row = next(row for row in list_threads() if row.twins)
    assert find_part_faults(with_screw(thread=row.name, screw=row.twins[0], holds="other"), LOADS) == ()


@pytest.mark.parametrize(
    ("holds", "state", "severity"),
    [
        ("eccentric", "stripped", "stops-it"),
        ("eccentric", "worn", "spoils-it"),
        ("other", "stripped", "spoils-it"),
        ("other", "worn", "worth-doing"),
    ],
)
def test_how_bad_a_thread_is_goes_by_what_it_holds(holds: str, state: str, severity: str) -> None:
    finding = find_one(with_screw(holds=holds, state=state))
    assert finding.severity == severity
    assert finding.effects == (("screw-will-not-hold",) if holds == "eccentric" else ())


def test_what_has_to_be_held_comes_from_the_run() -> None:
    engine = make_engine()
    assert find_torque_to_hold(SCREW, engine, {}) is None
    assert find_torque_to_hold(SCREW, engine, LOADS) == LOAD.eccentric_torque
    # A crank has the force on the rod at half the stroke of 18 mm: 147 x 9 mm = 1.32 N m.
    assert find_torque_to_hold(replace(SCREW, holds="crank"), engine, LOADS) == pytest.approx(1.323)


def test_a_screw_that_holds_four_times_the_load_is_left_alone() -> None:
    # 4 BA on a shaft of 6 mm holds 1.02 / (0.2 x 3.6 mm) / 2 x 3 mm = 2.125 N m: enough for 0.531 N m.
    for torque, found in ((0.53, []), (0.54, ["screw-will-not-hold"])):
        loads = {"A": replace(LOAD, eccentric_torque=torque)}
        assert [finding.code for finding in find_part_faults(make_engine(), loads)] == found


@pytest.mark.parametrize(
    ("changes", "most"),
    [({"seat": "flat"}, 1.06), ({"count": 2}, 1.5), ({"seat": "flat", "count": 2}, 1.59)],
)
def test_a_flat_and_a_second_screw_are_counted(changes: dict[str, object], most: float) -> None:
    for torque, found in ((0.99 * most, False), (1.01 * most, True)):
        loads = {"A": replace(LOAD, eccentric_torque=torque * 2.125 / 4)}
        assert bool(find_part_faults(with_screw(**changes), loads)) == found


def test_a_point_let_into_a_dimple_holds_by_its_shape() -> None:
    loads = {"A": replace(LOAD, eccentric_torque=10.0)}
    assert find_part_faults(with_screw(seat="dimple", point="dog"), loads) == ()
    assert find_part_faults(with_screw(seat="dimple", point="cup"), loads) != ()


@pytest.mark.parametrize(
    "changes",
    [{"shaft": None}, {"thread": None, "screw": None}, {"shaft": 3 * MM}, {"kind": "bolt"}, {"thread": "16 BA"}],
)
def test_a_screw_that_cannot_be_judged_is_left_unsaid(changes: dict[str, object]) -> None:
    # No shaft, no thread, thicker than its shaft, no grub screw, thinner than the tables of them.
    engine = with_screw(**{"screw": None, **changes})
    assert plan_hold(engine.fasteners[0], engine, LOADS) is None
    assert find_part_faults(engine, LOADS) == ()


def test_what_was_taken_of_a_screw_is_said_with_its_keys() -> None:
    loads = {"A": replace(LOAD, eccentric_torque=5.0)}
    engine = with_screw(hole_material=None, engagement=None, point=None)
    (finding,) = find_part_faults(engine, loads)
    assert finding.rests_on == ("fastener.1.hole_material", "fastener.1.engagement", "fastener.1.point")
    assert "taken, not measured: hole material brass" in finding.because


@pytest.mark.parametrize(
    ("changes", "inside"),
    [
        ({"kind": "bolt", "plain_length": 1 * MM}, 3.0),
        ({"kind": "shouldered pin", "plain_length": 3.5 * MM}, 0.5),
        ({"kind": None, "plain_length": 0.0}, 4.0),
        ({"kind": "screw", "plain_length": None}, 4.0),
        ({"kind": "plain pin", "plain_length": 1 * MM}, None),
        ({"kind": None, "thread": None, "plain_length": 1 * MM}, None),
        ({"kind": "bolt", "plain_length": None}, None),
        ({"kind": "bolt", "plain_length": 1 * MM, "moving_part": None}, None),
        ({"kind": "bolt", "plain_length": 4 * MM}, None),
    ],
)
def test_how_much_of_the_part_runs_on_thread(changes: dict[str, object], inside: float | None) -> None:
    found = find_part_faults(with_pin(**changes), LOADS)
    assert [finding.size for finding in found] == ([] if inside is None else [pytest.approx(inside)])


def test_a_screw_is_taken_for_threaded_to_its_head_and_that_is_said() -> None:
    finding = find_one(with_pin(kind="screw", plain_length=None))
    assert finding.rests_on == ("pin.1.plain_length",)
    assert "taken, not measured: plain length 0 mm" in finding.because


@pytest.mark.parametrize(
    ("torque", "severity"), [(0.28, None), (0.29, "spoils-it"), (0.37, "spoils-it"), (0.38, "stops-it")]
)
def test_studs_may_be_drawn_to_three_quarters_of_their_proof_stress(torque: float, severity: str | None) -> None:
    # 225 MPa on pi/4 (2.5 - 0.9 x 0.48)^2 = 3.36 mm2 is 756 N, at 0.2 x 2.5 mm 0.378 N m; three quarters are 0.283 N m.
    found = find_part_faults(with_studs(torque=torque), LOADS)
    assert [finding.severity for finding in found] == ([] if severity is None else [severity])


@pytest.mark.parametrize(
    "changes",
    [
        {"torque": None},
        {"thread": None},
        {"count": None},
        {"joint_outside": 20 * MM},
        {"kind": "grub screw"},
    ],
)
def test_a_cover_of_which_too_little_is_known_is_left_unsaid(changes: dict[str, object]) -> None:
    assert find_part_faults(with_studs(**{"torque": 0.45, **changes}), LOADS) == ()


def test_a_screw_anywhere_is_held_against_what_it_bears() -> None:
    # 0.378 N m stretches a 7 BA shank of class 4.6: 0.45 is 119 % of it; no joint is asked.
    (found,) = find_part_faults(with_studs(holds="other", torque=0.45), LOADS)
    assert (found.code, round(found.size), found.rests_on) == ("stud-overloaded", 119, ("fastener.2.engagement",))
    assert find_part_faults(with_studs(holds="other", torque=0.37), LOADS) == ()


def test_a_grub_screw_holds_as_it_was_drawn() -> None:
    # Seated, 4 BA holds 2.1 N m on 6 mm, far over 4 x 0.0165; drawn to a hundredth of 1.02 N m it holds 0.021.
    assert find_part_faults(with_screw(torque=1.0), LOADS) == ()
    assert [finding.code for finding in find_part_faults(with_screw(torque=0.01), LOADS)] == ["screw-will-not-hold"]


def test_a_cover_without_a_run_is_judged_by_what_the_record_gives() -> None:
    engine = with_studs(torque=0.45)
    assert [finding.code for finding in find_part_faults(engine, {})] == ["stud-overloaded"]
    for unknown in ({"supply_pressure": None}, {"supply_pressure": 4e7}):
        assert find_part_faults(make_engine(fasteners=engine.fasteners, **unknown), {}) == ()


def test_what_was_taken_of_a_cover_is_said_with_its_keys() -> None:
    finding = find_one(with_studs(torque=0.45, joint_outside=None, screw_material=None, thread_is=None))
    assert finding.rests_on == ("fastener.2.joint_outside", "fastener.2.screw_material", "fastener.2.thread_is")


@pytest.mark.parametrize("metal", METALS)
@pytest.mark.parametrize("screw", [None, *SCREW_METALS])
def test_every_metal_is_judged(metal: str, screw: str | None) -> None:
    loads = {"A": replace(LOAD, eccentric_torque=50.0)}
    codes = {finding.code for finding in find_part_faults(with_screw(hole_material=metal, screw_material=screw), loads)}
    assert codes == {"screw-will-not-hold"}
    assert find_one(with_studs(hole_material=metal, screw_material=screw, engagement=5 * MM, torque=5.0))
    assert find_one(with_pin(material=metal, runs_in=metal, plain_length=0.0))


@pytest.mark.parametrize("kind", FASTENERS)
@pytest.mark.parametrize("holds", DUTIES)
@pytest.mark.parametrize("state", STATES)
def test_every_word_of_a_fastener_is_judged(kind: str, holds: str, state: str) -> None:
    for point in POINTS:
        for seat in SEATS:
            found = find_part_faults(with_screw(kind=kind, holds=holds, state=state, point=point, seat=seat), LOADS)
            assert {finding.code for finding in found} <= {"thread-worn", "screw-will-not-hold"}
            assert ("thread-worn" in {finding.code for finding in found}) == (state != "sound")


@pytest.mark.parametrize("gasket", [None, *GASKETS])
def test_every_joint_is_judged(gasket: str | None) -> None:
    codes = [finding.code for finding in find_part_faults(with_studs(gasket=gasket, torque=0.45), LOADS)]
    unsuitable = ["packing-unsuitable"] if gasket in ("soft rubber", "old sheet") else []
    assert codes == ["stud-overloaded", *unsuitable]


def test_a_pin_is_worn_where_it_rocks_before_it_is_where_it_goes_round() -> None:
    # 3 mm: H7/f7 leaves 0.026 mm at most, H8/f7 0.030 mm (ISO 286-2: H7 +10, H8 +14, f7 -16).
    found = {
        (joint, slack): [f.code for f in find_part_faults(with_pin(joint=joint, hole=(3 + slack) * MM), LOADS)]
        for joint in ("valve fork", "crank pin")
        for slack in (0.020, 0.028, 0.060)
    }
    assert found[("valve fork", 0.020)] == found[("crank pin", 0.020)] == []
    assert (found[("valve fork", 0.028)], found[("crank pin", 0.028)]) == (["pin-worn"], [])
    assert found[("valve fork", 0.060)] == found[("crank pin", 0.060)] == ["pin-worn"]


@pytest.mark.parametrize("kind", PINS)
@pytest.mark.parametrize("joint", JOINTS)
def test_every_pin_is_judged(kind: str, joint: str) -> None:
    found = find_part_faults(with_pin(kind=kind, joint=joint, plain_length=1 * MM), LOADS)
    assert [finding.code for finding in found] == ([] if kind == "plain pin" else ["thread-as-bearing"])
