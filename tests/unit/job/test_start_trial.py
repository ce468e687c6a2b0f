"""Starting: the arcs part the turn, agree with the torque they are read from, and lie where they are expected."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.job.run.stand import Asked
from lapwright.job.run.start_results import list_start
from lapwright.job.run.start_trial import StartTrial, find_between, try_starting
from lapwright.motion.arcs import share_of_turn
from tests.unit.job.trials import RUNNERS, visit


def start(name: str, asked: Asked | None = None) -> StartTrial:
    return try_starting(visit(name), asked or Asked())


def holds(arcs: tuple[tuple[float, float], ...], angle: float) -> bool:
    """Whether an angle lies on one of the arcs [deg]."""
    return any((angle - begin) % 360 < ((end - begin) % 360 or 360) for begin, end in arcs)


@pytest.mark.parametrize("name", RUNNERS)
def test_the_arcs_part_the_turn_and_agree_with_the_torque(name: str) -> None:
    trial = start(name)
    torques = zip(
        trial.starting.angles.tolist(), trial.starting.worst.tolist(), trial.starting.best.tolist(), strict=True
    )
    friction, way = trial.starting.friction, trial.forward
    for n, (_, worst, best) in enumerate(torques):
        angle = n / 2 + 1e-6
        kinds = [holds(way.starts, angle), holds(way.perhaps, angle), holds(way.never, angle)]
        assert kinds == [worst > friction, worst <= friction < best, best <= friction]
    for each in (trial.forward, trial.backward):
        parts = [share_of_turn(arcs, turn=360.0) for arcs in (each.starts, each.perhaps, each.never)]
        assert sum(parts) == pytest.approx(1)


def test_a_single_cylinder_never_starts_at_its_dead_centres() -> None:
    for name in ("sandpiper", "dunlin", "plover", "merganser"):
        way = start(name).forward
        assert all(holds(way.never, angle) for angle in (0, 180))
        assert all(holds(way.starts, angle) for angle in (90, 270))
        assert way.least_pressure is None
        assert way.share < 1


def test_a_twin_starts_from_every_angle_and_half_of_it_does_not() -> None:
    whole, half = start("tern").forward, start("tern", Asked(dead=("B",)))
    assert whole.starts == ((0.0, 360.0),)
    assert whole.never == whole.perhaps == ()
    assert whole.least_pressure is not None
    assert half.forward.share < 0.9
    assert "Cylinder B does not help" in half.notes[0]


def test_at_the_least_pressure_the_worst_angle_just_moves() -> None:
    least = start("tern").forward.least_pressure
    assert least is not None
    gauge = (least - 101_325) / 1e5
    assert start("tern", Asked(pressure=f"{gauge * 1.01:.4f} bar")).forward.share == 1
    assert start("tern", Asked(pressure=f"{gauge * 0.99:.4f} bar")).forward.share < 1


def test_an_eccentric_set_for_the_other_direction_starts_there() -> None:
    trial = start("curlew")
    assert trial.backward.share > 0.7 > 0.1 > trial.forward.share
    assert trial.notes == ("It starts better the other way round: look where its eccentric stands.",)


def test_at_rest_only_what_matters_there_is_taken() -> None:
    keys = {assumed.key for assumed in start("merganser", Asked(pressure="5 bar")).stand.assumed}
    assert "running.friction_pressure" in keys
    assert not keys & {"speed", "running.ring_gap", "running.steam_dryness", "cylinder.A.clearance_head"}


@pytest.mark.parametrize("name", RUNNERS)
def test_the_json_holds_the_same_and_only_numbers(name: str) -> None:
    trial = start(name)
    told = json.loads(json.dumps(list_start(trial, visit(name).record), allow_nan=False))
    assert len(told["torque"]["crank_deg"]) == len(told["torque"]["worst_mnm"]) == 720
    forward = told["forward"]
    assert forward["starts_percent"] == pytest.approx(100 * trial.forward.share)
    place = told["torque"]["crank_deg"].index(round(forward["best_angle_deg"], 3))
    assert told["torque"]["worst_mnm"][place] == pytest.approx(forward["best_torque_mnm"], abs=1e-3)
    assert forward["best_torque_mnm"] == pytest.approx(max(told["torque"]["worst_mnm"]), abs=1e-3)


@given(st.lists(st.integers(0, 719), min_size=2, max_size=8, unique=True).filter(lambda marks: len(marks) % 2 == 0))
def test_what_lies_between_arcs_is_the_rest_of_the_turn(marks: list[int]) -> None:
    edges = sorted(mark / 2 for mark in marks)
    arcs = tuple(zip(edges[::2], edges[1::2], strict=True))
    between = find_between(arcs)
    assert share_of_turn(arcs, turn=360.0) + share_of_turn(between, turn=360.0) == pytest.approx(1)
    for angle in range(720):
        assert holds(arcs, angle / 2 + 0.1) != holds(between, angle / 2 + 0.1)
