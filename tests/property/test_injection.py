"""A fault put alone into a random sound engine is found first, with its size, and its best cure clears it."""

from __future__ import annotations

from dataclasses import replace
from math import pi
from random import Random

import pytest

from lapwright.cures import find_cures
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Sizes
from lapwright.findings import CODES, Finding, find_faults
from tests.property.faults import INJECTIONS, Injected
from tests.property.injection import draw_sound_plan, set_eccentric

ENGINES = 250
NEEDED = 0.98
MM = 1e-3


def matched_engine(throw: float, **more: float) -> dict[str, float]:
    """A matched engine without lap, its ports as wide as the throw; lengths in m."""
    return {
        "bore": 8 * throw,
        "stroke": 9 * throw,
        "connecting_rod": 20 * throw,
        "piston_rod": throw,
        "port_face.steam_port": throw,
        "port_face.bridge": 1.1 * throw,
        "port_face.exhaust_port": 2 * throw,
        "valve.length": 6.2 * throw,
        "valve.cavity": 4.2 * throw,
        "valve_drive.throw": throw,
        "valve_drive.eccentric_rod": 25 * throw,
        "valve_drive.eccentric_angle": pi / 2,
        **more,
    }


def is_found(injected: Injected, finding: Finding) -> bool:
    """Whether a finding is the injected fault, at the injected place."""
    same_end = injected.end is None or finding.end == injected.end
    return (finding.code, finding.cylinder) == (injected.code, injected.cylinder) and same_end


def cure_best(injected: Injected, findings: tuple[Finding, ...]) -> Engine | None:
    """The engine after the best cure of the faulty cylinder that answers the fault; None without such a cure."""
    cures = [cure for cure in find_cures(injected.engine, findings) if cure.cylinder == injected.cylinder]
    best = next((cure for cure in cures if injected.code in cure.answers), None)
    if best is None:
        return None
    cylinders = tuple(
        sizes.replacing(best.changes) if sizes.name == injected.cylinder else sizes
        for sizes in injected.engine.cylinders
    )
    return replace(injected.engine, cylinders=cylinders)


def test_every_code_has_an_injection() -> None:
    assert set(INJECTIONS) == set(CODES)


def test_sound_engines_have_nothing_wrong() -> None:
    for seed in range(1000):
        engine = draw_sound_plan(Random(seed)).engine()
        assert find_faults(engine) == (), seed


def test_sound_engines_without_lap_may_have_a_little_lead() -> None:
    for seed in range(300):
        rng = Random(seed)
        plan = draw_sound_plan(rng, square=True)
        assert find_faults(set_eccentric(plan, rng.uniform(0.0, 0.08) * plan.throw).engine()) == (), seed


@pytest.mark.parametrize("code", CODES)
def test_the_injected_fault_is_first_and_its_cure_clears_it(code: str) -> None:
    missed, uncured, left = [], [], []
    for seed in range(ENGINES):
        injected = INJECTIONS[code](Random(f"{code} {seed}"))
        findings = find_faults(injected.engine)
        if not findings or not is_found(injected, findings[0]):
            missed.append(seed)
            continue
        if injected.size is not None:
            assert findings[0].size == pytest.approx(injected.size, abs=1e-6), seed
        mended = cure_best(injected, findings)
        codes = {finding.code for finding in find_faults(mended)} if mended else {code}
        if code in codes:
            uncured.append(seed)
        elif codes:
            left.append(seed)
    assert len(missed) <= (1 - NEEDED) * ENGINES, missed
    assert len(missed) + len(uncured) <= (1 - NEEDED) * ENGINES, uncured
    assert len(missed) + len(uncured) + len(left) <= (1 - NEEDED) * ENGINES, left


@pytest.mark.parametrize("throw", [2 * MM, 6 * MM, 20 * MM])
def test_a_matched_valve_made_longer_by_x_is_too_long_by_x(throw: float) -> None:
    """At three sizes of engine, at every x from 0.2 mm up to far beyond never opening."""
    step = 0.02 * throw
    excesses = [0.2 * MM, 0.3 * MM, *(0.2 * MM + step * i for i in range(1, 125))]
    for x in excesses:
        numbers = matched_engine(throw)
        numbers["valve.length"] += x
        finding = find_faults(Engine(name="Wren", cylinders=(Sizes("A", numbers),)))[0]
        assert finding.code == "valve-too-long"
        assert finding.size == pytest.approx(x * 1e3, abs=1e-6)
