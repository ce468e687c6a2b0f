"""Cures: the figures to work to, what geometry forbids, and that every promise is an exact result."""

from __future__ import annotations

from math import pi, radians, sin
from random import Random

import pytest

from lapwright.cures import WORKS, Cure, find_cures
from lapwright.cures.limits import only_removes_metal
from lapwright.engine.engine import Engine, Target
from lapwright.engine.sizes import Sizes
from lapwright.findings import find_faults
from lapwright.findings.reading import Reading
from lapwright.motion.answers import describe_motion
from tests.property.engines import random_engine, random_sound_engine

MM = 1e-3
MATCHED = {
    "crank_phase": 0.0,
    "bore": 19.05 * MM,
    "stroke": 19.05 * MM,
    "connecting_rod": 45 * MM,
    "piston_rod": 3.2 * MM,
    "port_face.steam_port": 2 * MM,
    "port_face.bridge": 2 * MM,
    "port_face.exhaust_port": 4 * MM,
    "valve.length": 12 * MM,
    "valve.cavity": 8 * MM,
    "valve_drive.throw": 2 * MM,
    "valve_drive.eccentric_rod": 60 * MM,
    "valve_drive.eccentric_angle": pi / 2,
}


def cure(changes: dict[str, float], **engine: object) -> tuple[Cure, ...]:
    one = Engine(name="Wren", cylinders=(Sizes("A", {**MATCHED, **changes}),), **engine)  # type: ignore[arg-type]
    return find_cures(one, find_faults(one))


def test_a_sound_engine_gets_no_cure() -> None:
    assert cure({}) == ()


def test_both_classic_cures_of_a_long_valve_are_weighed() -> None:
    """Shorten it to match the ports, or keep the lap and advance the eccentric by asin((lap + lead) / throw)."""
    by_code = {c.code: c for c in cure({"valve.length": 12.8 * MM})}
    assert {"shorten-valve", "turn-eccentric", "new-valve"} == set(by_code)
    assert by_code["shorten-valve"].set["valve_length_mm"] == pytest.approx(12.0)
    angle = by_code["turn-eccentric"].set["eccentric_angle_deg"]
    assert isinstance(angle, float)
    assert sin(radians(angle - 90)) == pytest.approx((0.4 + 0.04 * 2) / 2, abs=1e-3)


def test_a_valve_so_long_that_advance_would_starve_the_port_is_shortened_first() -> None:
    assert cure({"valve.length": 14 * MM})[0].code == "shorten-valve"
    assert all(c.code != "turn-eccentric" for c in cure({"valve.length": 15.5 * MM}))


def test_metal_is_named_per_edge_and_measured_between() -> None:
    steps = next(c for c in cure({"valve.length": 12.8 * MM}) if c.code == "shorten-valve").steps
    assert "Take 0.40 mm" in steps[0]
    assert "down to 12.40 mm" in steps[0]
    assert "down to 12.00 mm" in steps[1]


def test_the_valve_moves_by_whole_steps_of_its_spindle() -> None:
    """A 7 BA thread (0.48 mm) and a fork that comes square every half turn: steps of 0.24 mm."""
    best = cure(
        {
            "valve_drive.valve_offset": 0.50 * MM,
            "valve_drive.spindle_thread": 0.48 * MM,
            "valve_drive.spindle_step": 0.5,
        }
    )[0]
    equal = Reading(Sizes("A", MATCHED)).equal_lead_offset
    assert equal is not None
    assert best.set["spindle_turns"] == -1.0
    assert best.set["valve_offset_mm"] == pytest.approx(0.02)
    assert best.set["remaining_error_mm"] == pytest.approx(equal * 1e3 - 0.02)


def test_the_nearest_step_is_offered_even_where_it_leaves_something() -> None:
    step = {"valve_drive.spindle_thread": 0.48 * MM, "valve_drive.spindle_step": 0.5}
    by_code = {c.code: c for c in cure({"valve_drive.valve_offset": 0.60 * MM, **step})}
    assert by_code["move-on-spindle"].left == ("valve-off-centre",)
    assert by_code["change-rod-length"].left == ()


def test_an_error_below_the_step_needs_another_way() -> None:
    step = {"valve_drive.spindle_thread": 0.66 * MM, "valve_drive.spindle_step": 0.5}
    cures = cure({"valve_drive.valve_offset": -0.10 * MM, **step})
    assert [c.code for c in cures] == ["change-rod-length"]
    assert "longer" in cures[0].title


def test_through_a_reversing_rocker_the_rod_goes_the_other_way() -> None:
    numbers = {**MATCHED, "valve_drive.eccentric_angle": 3 * pi / 2, "valve_drive.valve_offset": -0.3 * MM}
    one = Engine(name="Wren", cylinders=(Sizes("A", numbers, rocker="reversing"),))
    by_code = {c.code: c for c in find_cures(one, find_faults(one))}
    assert "shorter" in by_code["change-rod-length"].title


def test_arc_and_chord_on_the_sheave() -> None:
    """Arc = radius times angle; chord = diameter times the sine of half the angle (bourne-1865, Q521)."""
    text = " ".join(cure({"valve_drive.eccentric_angle": radians(70)})[0].steps)
    assert f"{radians(20) / 2:.3f} mm for every mm" in text
    assert f"{20 * sin(radians(10)):.2f} mm on 20 mm" in text


def test_a_valve_too_short_is_never_cut() -> None:
    assert [c.code for c in cure({"valve.length": 11 * MM})] == ["new-valve"]


def test_a_valve_that_is_made_anew_has_all_its_edges_right() -> None:
    """Too short over its edges and in its cavity: one new valve answers both, and leaves nothing."""
    best = cure({"valve.length": 11 * MM, "valve.cavity": 7.5 * MM})[0]
    assert best.code == "new-valve"
    assert best.set["valve_length_mm"] == pytest.approx(12.0)
    assert best.set["cavity_mm"] == pytest.approx(8.0)
    assert best.left == ()


def test_economy_asks_for_lap_and_advance_together() -> None:
    best = cure({"valve_drive.throw": 3 * MM}, purpose="economical on steam")[0]
    assert best.code == "new-valve-with-lap"
    places = [best.after.ends[end].events["cut_off"].stroke_percent for end in ("head", "crank")]
    assert sum(p[0] for p in places if p) / 2 == pytest.approx(74, abs=0.5)


def test_a_target_of_cut_off_is_met_exactly() -> None:
    best = cure({"valve_drive.throw": 3 * MM}, target=Target(cut_off=0.8, lead=0.1 * MM))[0]
    places = [best.after.ends[end].events["cut_off"].stroke_percent for end in ("head", "crank")]
    assert sum(p[0] for p in places if p) / 2 == pytest.approx(80, abs=1e-3)
    leads = [best.after.ends[end].lead_mm for end in ("head", "crank")]
    assert sum(lead for lead in leads if lead is not None) / 2 == pytest.approx(0.1, abs=1e-6)


def test_a_target_of_lap_gets_that_lap_and_the_eccentric_to_suit() -> None:
    best = cure({"valve_drive.throw": 3 * MM}, target=Target(lap=0.6 * MM))[0]
    lap = best.after.laps_mm["head"].steam
    assert lap == pytest.approx(0.6)
    assert best.left == ()


def test_a_target_of_equal_cut_off_is_met_by_the_valves_place() -> None:
    lapped = {"valve.length": 14 * MM, "valve_drive.throw": 3 * MM, "valve_drive.eccentric_angle": radians(112)}
    best = cure(lapped, target=Target(equal="cut-off"))[0]
    places = [best.after.ends[end].events["cut_off"].stroke_percent for end in ("head", "crank")]
    shares = [place[0] for place in places if place]
    assert abs(shares[0] - shares[1]) < 2.0


def test_twins_get_the_same_cure() -> None:
    twins = tuple(Sizes(name, {**MATCHED, "valve.length": length * MM}) for name, length in (("A", 13.3), ("B", 13.1)))
    one = Engine(name="Wrens", cylinders=twins)
    best: dict[str, str] = {}
    for c in find_cures(one, find_faults(one)):
        best.setdefault(c.cylinder, c.code)
    assert best["A"] == best["B"]


def test_every_promise_is_an_exact_result_and_no_cut_puts_metal_on() -> None:
    """Over random engines with anything wrong: `after` is what the changed sizes give, and geometry is respected."""
    rng, seen = Random(20), 0
    for i in range(300):
        sizes = random_engine(rng) if i % 2 else _upset(random_sound_engine(rng), rng)
        one = Engine(name="Wren", cylinders=(sizes,))
        for c in find_cures(one, find_faults(one)):
            seen += 1
            after = Reading(sizes).changed(dict(c.changes))
            assert c.after == describe_motion(sizes.replacing(c.changes))
            assert c.work in WORKS
            assert c.steps
            assert c.before_you_start
            assert not set(c.answers) & set(c.left)
            if "shorten-valve" in c.code.split("+") and "new" not in c.code:
                assert only_removes_metal(Reading(sizes), after)
    assert seen > 200


def _upset(sizes: Sizes, rng: Random) -> Sizes:
    key = rng.choice(["valve_drive.eccentric_angle", "valve_drive.throw", "valve_drive.eccentric_rod"])
    return sizes.replacing({key: sizes.numbers[key] * rng.uniform(0.85, 1.2)})
