"""A turn as arrays: what one angle at a time tells, and nothing exactly where an event is."""

from __future__ import annotations

from dataclasses import replace
from math import cos, degrees, sin

import numpy as np
import pytest
from hypothesis import given, settings

from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import describe_motion, exhaust_opening, set_moving, steam_opening
from lapwright.motion.linkage import slide_position
from lapwright.motion.ways import trace_turn
from tests.property.engines import any_engines, random_sound_engine


@settings(max_examples=40)
@given(any_engines())
def test_every_entry_is_what_one_angle_alone_tells(sizes: Sizes) -> None:
    moving = set_moving(sizes)
    assert moving.valve is not None
    assert moving.piston is not None
    trace, crank = trace_turn(moving), moving.piston.slider
    assert trace.valve is not None
    assert trace.place is not None
    assert trace.steam is not None
    assert trace.exhaust is not None
    for n in range(0, len(trace.angles), 7):
        angle = float(trace.angles[n])
        place = slide_position(crank.throw, crank.rod, crank.offset, cosine=cos(angle), sine=sin(angle))
        position = moving.valve.position(angle)
        assert trace.place[n] == pytest.approx(place, abs=1e-12)
        assert trace.valve[n] == pytest.approx(position, abs=1e-12)
        for end in ENDS:
            assert trace.steam[end][n] == pytest.approx(steam_opening(moving.cylinder, end, position), abs=1e-12)
            assert trace.exhaust[end][n] == pytest.approx(exhaust_opening(moving.cylinder, end, position), abs=1e-12)


@settings(max_examples=40)
@given(any_engines())
def test_an_opening_is_nothing_exactly_at_its_events(sizes: Sizes) -> None:
    trace, motion = trace_turn(set_moving(sizes)), describe_motion(sizes)
    assert trace.steam is not None
    assert trace.exhaust is not None
    for end in ENDS:
        for event, ways in (("admission", trace.steam), ("cut_off", trace.steam), ("release", trace.exhaust)):
            for deg in motion.ends[end].events[event].crank_deg or ():
                nearest = int(np.argmin(np.abs(np.degrees(trace.angles) - deg)))
                assert degrees(trace.angles[nearest]) == pytest.approx(deg, abs=1e-9)
                assert ways[end][nearest] == pytest.approx(0.0, abs=1e-9)


def test_what_is_known_of_a_valve_is_told_without_the_rest() -> None:
    """A valve of which only the length is known opens to steam as it does when its cavity is known too."""
    from random import Random

    whole = random_sound_engine(Random(3), lap_share=0.3, arrangement=("slide", "outside", "none"))
    half = replace(whole, numbers={key: value for key, value in whole.numbers.items() if key != "valve.cavity"})
    known, less = trace_turn(set_moving(whole)), trace_turn(set_moving(half))
    assert less.exhaust is None
    assert less.straight is None
    assert less.steam is not None
    assert known.steam is not None
    for end in ENDS:
        interpolated = np.interp(less.angles, known.angles, known.steam[end], period=2 * np.pi)
        assert np.allclose(less.steam[end], interpolated, atol=1e-6)
    nothing = trace_turn(set_moving(Sizes("A", {"stroke": 0.02})))
    assert nothing.place is None
    assert nothing.valve is None
    assert len(nothing.angles) == 360
