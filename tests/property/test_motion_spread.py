"""The spread of an answer against throwing the sizes at random a few thousand times."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest

from lapwright.engine.sizes import Doubt, Sizes
from lapwright.motion.answers import describe_motion
from lapwright.motion.spread import measure_spread
from tests.property.engines import random_sound_engine

THROWS = 3000
#: Half-width of a 95 % interval over the standard deviation, for a normal spread.
COVERAGE = 1.96
#: With so many throws a standard deviation is known to 1.3 %; three times that, and 1 % for bent dependences.
WITHIN = 0.05


def figures(sizes: Sizes) -> dict[str, float]:
    """Some answers of every kind: angles, shares of the stroke, lengths."""
    motion = describe_motion(sizes)
    found = {"travel_mm": motion.valve_travel_mm or 0.0}
    for end, answers in motion.ends.items():
        found[f"{end}.lead_mm"] = answers.lead_mm or 0.0
        for event, times in answers.events.items():
            (found[f"{end}.{event}.crank_deg"],) = times.crank_deg or ()
            (found[f"{end}.{event}.stroke_percent"],) = times.stroke_percent or ()
    return found


def throw_sizes(rng: Random, sizes: Sizes) -> Sizes:
    thrown = {
        key: rng.gauss(sizes.numbers[key], (doubt.plus + doubt.minus) / 2 / COVERAGE)
        for key, doubt in sizes.doubts.items()
    }
    return sizes.replacing(thrown)


def throw_spread(rng: Random, sizes: Sizes) -> dict[str, float]:
    """Half-width of the 95 % interval of each figure, from many throws."""
    nominal = figures(sizes)
    gaps: dict[str, list[float]] = {name: [] for name in nominal}
    for _ in range(THROWS):
        for name, value in figures(throw_sizes(rng, sizes)).items():
            gap = value - nominal[name]
            gaps[name].append((gap + 180) % 360 - 180 if name.endswith("_deg") else gap)
    return {name: COVERAGE * float(np.std(values)) for name, values in gaps.items()}


@pytest.mark.parametrize("seed", [1, 2])
def test_the_spread_is_that_of_many_throws(seed: int) -> None:
    rng = Random(seed)
    engine = random_sound_engine(rng, lap_share=0.5, lead_share=0.15)
    doubts = {
        "valve.length": Doubt(0.02e-3, 0.02e-3),
        "valve.cavity": Doubt(0.02e-3, 0.02e-3),
        "port_face.steam_port": Doubt(0.01e-3, 0.01e-3),
        "port_face.bridge": Doubt(0.01e-3, 0.01e-3),
        "valve_drive.throw": Doubt(0.02e-3, 0.02e-3),
        "valve_drive.eccentric_angle": Doubt(0.01, 0.01),
        "valve_drive.valve_offset": Doubt(0.02e-3, 0.02e-3),
        "connecting_rod": Doubt(0.2e-3, 0.2e-3),
        "stroke": Doubt(0.1e-3, 0.1e-3),
    }
    sizes = replace(engine, doubts=doubts)
    measured, thrown = measure_spread(sizes, figures), throw_spread(rng, sizes)
    assert measured.keys() == thrown.keys()
    for name, half_width in thrown.items():
        assert measured[name].half_width == pytest.approx(half_width, rel=WITHIN), name


def test_the_size_most_to_blame_is_the_one_whose_certainty_would_help_most() -> None:
    engine = random_sound_engine(Random(3), lap_share=0.5)
    keys = ("valve.length", "valve_drive.throw", "valve_drive.eccentric_angle", "valve_drive.valve_offset", "stroke")
    doubts = dict(zip(keys, [Doubt(size, size) for size in (2e-5, 5e-5, 0.02, 1e-5, 1e-4)], strict=True))
    spread = measure_spread(replace(engine, doubts=doubts), figures)
    for name, found in spread.items():
        left = {}
        for key in keys:
            others = {other: doubt for other, doubt in doubts.items() if other != key}
            left[key] = measure_spread(replace(engine, doubts=others), figures)[name].half_width
        assert found.mostly_from == min(left, key=lambda key: left[key])
        assert all(half_width <= found.half_width + 1e-12 for half_width in left.values())


def test_an_event_near_the_full_turn_has_a_small_spread() -> None:
    """Admission falls on either side of 360 deg within the doubt; its spread must not be a turn."""
    engine = random_sound_engine(Random(4), lap_share=0.3, lead_share=0.0)
    sizes = replace(engine, doubts={"valve_drive.eccentric_angle": Doubt(0.01, 0.01)})
    spread = measure_spread(sizes, figures)
    assert spread["head.admission.crank_deg"].half_width == pytest.approx(np.degrees(0.01), rel=1e-6)


def test_an_event_that_may_not_happen_has_no_spread() -> None:
    engine = random_sound_engine(Random(5), lap_share=0.5)
    barely = engine.numbers["valve.length"] + 2 * (engine.numbers["port_face.steam_port"])
    sizes = replace(engine.replacing({"valve.length": barely + 0.05e-3}), doubts={"valve.length": Doubt(2e-3, 2e-3)})

    def happening(candidate: Sizes) -> dict[str, float]:
        events = describe_motion(candidate).ends["head"].events
        return {f"{event}.crank_deg": times.crank_deg[0] for event, times in events.items() if times.crank_deg}

    spread = measure_spread(sizes, happening)
    assert "cut_off.crank_deg" not in spread
    assert "release.crank_deg" in spread
