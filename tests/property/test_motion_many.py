"""Many engines at once give what each gives alone."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.engine.cylinder import assemble_cylinder
from lapwright.engine.sizes import Sizes
from lapwright.motion.answers import describe_motion, find_laps, set_moving
from lapwright.motion.many import EVENT_ROWS, EngineArrays, find_events_of_many
from tests.property.engines import any_engines


def stack_engines(engines: list[Sizes]) -> EngineArrays:
    """The engines' sizes as arrays, one entry an engine."""
    laps = [{end: find_laps(assemble_cylinder(sizes), end) for end in ("head", "crank")} for sizes in engines]

    def column(key: str) -> np.ndarray:
        return np.array([sizes.number(key) for sizes in engines])

    def lap(end: str, side: str) -> np.ndarray:
        return np.array([getattr(found[end], side) for found in laps]) * 1e-3

    return EngineArrays(
        stroke=column("stroke"),
        connecting_rod=column("connecting_rod"),
        cylinder_offset=column("cylinder_offset"),
        throw=column("valve_drive.throw"),
        eccentric_rod=column("valve_drive.eccentric_rod"),
        eccentric_angle=column("valve_drive.eccentric_angle"),
        valve_line_offset=column("valve_drive.valve_line_offset"),
        valve_offset=column("valve_drive.valve_offset"),
        head_steam_lap=lap("head", "steam"),
        head_exhaust_lap=lap("head", "exhaust"),
        crank_steam_lap=lap("crank", "steam"),
        crank_exhaust_lap=lap("crank", "exhaust"),
        hand=np.array([1.0 if sizes.admission == "outside" else -1.0 for sizes in engines]),
        rocker=np.array([-1.0 if sizes.rocker == "reversing" else 1.0 for sizes in engines]),
    )


def grazes(sizes: Sizes, row: str) -> bool:
    """Whether the event's edge passes within a millionth of the travel of the valve's turning place."""
    moving, (end, event) = set_moving(sizes), row.split(".")
    laps, valve = find_laps(moving.cylinder, end), moving.valve
    assert valve is not None
    lap = 1e-3 * ((laps.steam if event in {"admission", "cut_off"} else laps.exhaust) or 0)
    return min(abs(sign * lap - limit) for sign in (1, -1) for limit in (valve.low, valve.high)) < 1e-6 * valve.travel


@settings(max_examples=60, deadline=None)
@given(st.lists(any_engines(), min_size=1, max_size=5))
def test_each_engine_of_many_is_as_it_is_alone(engines: list[Sizes]) -> None:
    many = find_events_of_many(stack_engines(engines))
    for column, sizes in enumerate(engines):
        alone = describe_motion(sizes)
        for i, row in enumerate(EVENT_ROWS):
            end, event = row.split(".")
            times = alone.ends[end].events[event]
            if grazes(sizes, row):
                continue
            if not many.happens[i, column]:
                # Not by the working edge; what the far edge of an over-run valve may add is not this call's business.
                assert np.isnan(many.stroke_share[i, column])
                continue
            gaps = [abs((many.crank_deg[i, column] - angle + 180) % 360 - 180) for angle in times.crank_deg or ()]
            assert min(gaps) < 1e-9
            percent = (times.stroke_percent or ())[gaps.index(min(gaps))]
            assert many.stroke_share[i, column] == pytest.approx(percent / 100, abs=1e-11)


@settings(max_examples=60, deadline=None)
@given(any_engines())
def test_an_event_that_the_working_edge_never_makes_is_nan_and_one_it_makes_is_not(sizes: Sizes) -> None:
    many, moving = find_events_of_many(stack_engines([sizes])), set_moving(sizes)
    valve = moving.valve
    assert valve is not None
    hand = 1 if sizes.admission == "outside" else -1
    signs = {("head", "steam"): -hand, ("head", "exhaust"): hand, ("crank", "steam"): hand, ("crank", "exhaust"): -hand}
    for i, row in enumerate(EVENT_ROWS):
        end, event = row.split(".")
        side = "steam" if event in {"admission", "cut_off"} else "exhaust"
        place = signs[end, side] * 1e-3 * getattr(find_laps(moving.cylinder, end), side)
        if not grazes(sizes, row):
            assert many.happens[i, 0] == (valve.low < place < valve.high)


def test_one_number_serves_for_all_engines_and_batches_leave_no_seam() -> None:
    count = 5000
    laps = np.linspace(0.0, 0.001, count)
    shared = {
        "stroke": 0.019,
        "connecting_rod": 0.045,
        "cylinder_offset": 0.0,
        "throw": 0.003,
        "eccentric_rod": 0.06,
        "eccentric_angle": 2.0,
        "valve_line_offset": 0.0,
        "valve_offset": 0.0,
        "head_exhaust_lap": 0.0,
        "crank_exhaust_lap": 0.0,
    }
    many = find_events_of_many(EngineArrays(head_steam_lap=laps, crank_steam_lap=laps, **shared))
    assert many.crank_deg.shape == many.stroke_share.shape == (8, count)
    cut_off = many.crank_deg[EVENT_ROWS.index("head.cut_off")]
    assert (np.diff(cut_off) < 0).all()
    one = find_events_of_many(EngineArrays(head_steam_lap=laps[3000], crank_steam_lap=laps[3000], **shared))
    assert many.crank_deg[:, 3000] == pytest.approx(one.crank_deg[:, 0], abs=1e-12)
