"""A fault put alone into a sound engine is found first, with its size, and the best cure clears it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import pi, radians
from random import Random

import pytest

from lapwright.cures import find_cures
from lapwright.engine.engine import Engine, Target
from lapwright.engine.sizes import Doubt, Sizes
from lapwright.findings import CODES, find_faults
from tests.property.faults import INJECTIONS, sound
from tests.property.injection import draw_sound_plan

ENGINES = 200
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


def test_every_code_has_an_injection() -> None:
    assert set(INJECTIONS) == set(CODES)


def test_sound_engines_have_nothing_wrong() -> None:
    rng = Random(7)
    wrong = [engine for engine in (sound(rng) for _ in range(400)) if find_faults(engine)]
    assert len(wrong) <= 2


@pytest.mark.parametrize(
    ("code", "inject"),
    [(code, inject) for code, injections in INJECTIONS.items() for inject in injections],
    ids=lambda value: value if isinstance(value, str) else value.__name__,
)
def test_the_injected_fault_is_first_and_its_cure_clears_it(code: str, inject: Callable[[Random], Engine]) -> None:
    rng, first, cured = Random(11), 0, 0
    for _ in range(ENGINES):
        engine = inject(rng)
        findings = find_faults(engine)
        if findings and findings[0].code == code:
            first += 1
            cured += code not in faults_after_best_cure(engine)
    assert first >= NEEDED * ENGINES
    assert cured >= NEEDED * ENGINES


def faults_after_best_cure(engine: Engine) -> list[str]:
    """The codes found after the best cure of every cylinder was put into its sizes."""
    best = {cure.cylinder: cure for cure in reversed(find_cures(engine, find_faults(engine)))}
    if not best:
        return [finding.code for finding in find_faults(engine)]
    cylinders = tuple(
        sizes.replacing(best[sizes.name].changes) if sizes.name in best else sizes for sizes in engine.cylinders
    )
    return [finding.code for finding in find_faults(replace(engine, cylinders=cylinders))]


@pytest.mark.parametrize("throw", [2 * MM, 6 * MM, 20 * MM])
def test_a_matched_valve_made_longer_by_x_is_too_long_by_x(throw: float) -> None:
    """At three sizes of engine, at every x from 0.2 mm up to far beyond never opening."""
    more = 0.2 * MM
    while more < 2.5 * throw:
        numbers = matched_engine(throw)
        numbers["valve.length"] += more
        finding = find_faults(Engine(name="Wren", cylinders=(Sizes("A", numbers),)))[0]
        assert finding.code == "valve-too-long"
        assert finding.size == pytest.approx(more * 1e3, abs=1e-6)
        more += 0.1 * MM


def test_sizes_are_the_injected_ones() -> None:
    numbers = matched_engine(3 * MM)
    cases = [
        ({"valve.cavity": 4.2 * 3 * MM + 0.7 * MM}, "cavity-too-long", 0.7),
        ({"valve.cavity": 4.2 * 3 * MM - 0.9 * MM}, "cavity-too-short", 0.9),
        ({"valve.length": 6.2 * 3 * MM - 0.5 * MM}, "valve-too-short", 0.5),
        ({"valve_drive.eccentric_angle": radians(78)}, "eccentric-behind", 12.0),
        ({"valve_drive.eccentric_angle": radians(105)}, "eccentric-ahead", 15.0),
        ({"valve_drive.valve_offset": 0.6 * MM}, "valve-off-centre", 0.6),
        ({"port_face.chest_head": 12.0 * MM}, "valve-strikes-chest", 0.3),
    ]
    for changes, code, size in cases:
        finding = find_faults(Engine(name="Wren", cylinders=(Sizes("A", {**numbers, **changes}),)))[0]
        assert (finding.code, finding.size) == (code, pytest.approx(size, abs=1e-6))


def test_a_lapped_valve_made_longer_is_told_both_ways() -> None:
    """Without a target nothing tells a valve too long from an eccentric too far back: both are listed."""
    rng, both = Random(3), 0
    for _ in range(100):
        plan = draw_sound_plan(rng, square=False, outside=True, share=1.3)
        longer = replace(plan, length=plan.length + 0.3 * plan.throw, room=None, purpose=None, target=Target())
        both += {"valve-too-long", "eccentric-behind"} <= {finding.code for finding in find_faults(longer.engine())}
    assert both >= 90


def test_a_fault_within_its_doubt_is_only_a_note() -> None:
    numbers = matched_engine(3 * MM)
    numbers["valve.length"] += 0.3 * MM
    doubts = {"valve.length": Doubt(0.4 * MM, 0.4 * MM), "port_face.steam_port": Doubt(0.02 * MM, 0.02 * MM)}
    finding = find_faults(Engine(name="Wren", cylinders=(Sizes("A", numbers, doubts),)))[0]
    assert finding.severity == "note"
    assert finding.doubt == pytest.approx((0.4**2 + 0.04**2) ** 0.5)
    assert finding.doubt_mostly_from == "valve.length"


def test_half_known_engines_are_judged_as_far_as_they_are_known() -> None:
    """Any sizes missing, any fault: never an exception, and a cure only for what was found."""
    rng = Random(5)
    injections = [inject for group in INJECTIONS.values() for inject in group]
    for _ in range(400):
        engine = rng.choice(injections)(rng)
        cylinders = []
        for sizes in engine.cylinders:
            kept = {key: value for key, value in sizes.numbers.items() if rng.random() > 0.12}
            cylinders.append(replace(sizes, numbers=kept))
        half = replace(engine, cylinders=tuple(cylinders))
        findings = find_faults(half)
        cures = find_cures(half, findings)
        assert {cure.cylinder for cure in cures} <= {finding.cylinder for finding in findings}
