"""A fault of one part in a sound engine is found by its code, in its part, and nothing else is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.engine.engine import Engine
from lapwright.findings.finding import PART_CODES
from lapwright.findings.parts import find_part_faults
from tests.unit.findings.parted import FAULTS, LOAD, LOADS, PIN, SCREW, STUDS, make_engine


def list_codes(engine: Engine) -> list[tuple[str, str]]:
    return [(finding.code, finding.part) for finding in find_part_faults(engine, LOADS)]


def test_a_sound_engine_has_nothing_wrong() -> None:
    assert list_codes(make_engine()) == []
    assert find_part_faults(make_engine(), {}) == ()


@pytest.mark.parametrize("name", FAULTS)
def test_an_injected_fault_is_found_alone(name: str) -> None:
    engine, code, part = FAULTS[name]
    assert list_codes(engine) == [(code, part)]


def test_every_code_was_injected() -> None:
    assert {code for _, code, _ in FAULTS.values()} == set(PART_CODES)


def test_what_a_run_alone_can_tell_is_left_unsaid_without_one() -> None:
    without = {name: find_part_faults(engine, {}) for name, (engine, _, _) in FAULTS.items()}
    assert [name for name, found in without.items() if not found] == ["one screw in a crank"]


def test_the_worst_stands_first() -> None:
    engines = (FAULTS[name][0] for name in ("bolt", "pulled too far", "empty box"))
    bolt, pulled, empty = engines
    engine = make_engine(glands=empty.glands, fasteners=pulled.fasteners, pins=bolt.pins)
    assert [finding.severity for finding in find_part_faults(engine, LOADS)] == ["stops-it", "spoils-it", "spoils-it"]


def test_both_cylinders_of_a_twin_are_judged_each_by_its_own_loads() -> None:
    a, b = make_engine().cylinders[0], replace(make_engine().cylinders[0], name="B")
    there = (replace(SCREW, cylinder="B", number=3), replace(STUDS, cylinder="B", number=4, torque=0.45))
    pins = (replace(PIN, kind="bolt", plain_length=1e-3), replace(PIN, cylinder="B", number=2))
    engine = make_engine(cylinders=(a, b), fasteners=(SCREW, STUDS, *there), pins=pins)
    # The screws are alike; only in B has the eccentric more to bear than one holds a quarter of: 2.1 N m.
    loads = {"A": LOAD, "B": replace(LOAD, eccentric_torque=0.6)}
    found = {(finding.cylinder, finding.code) for finding in find_part_faults(engine, loads)}
    assert found == {("A", "thread-as-bearing"), ("B", "stud-overloaded"), ("B", "screw-will-not-hold")}


def test_parts_of_one_name_are_told_apart() -> None:
    worn = replace(SCREW, state="worn")
    engine = make_engine(fasteners=(worn, replace(worn, number=3, thread="6 BA", screw="6 BA")))
    assert [finding.part for finding in find_part_faults(engine, LOADS)] == [
        "eccentric screw",
        "second eccentric screw",
    ]
