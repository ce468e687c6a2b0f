"""Fifty engines, on air and on steam by turns, against a general solver working on equations written afresh."""

from random import Random

import numpy as np
import pytest
import seuif97
from hypothesis import given
from hypothesis import strategies as st

from lapwright.cycle import layout as at
from lapwright.cycle.cylinder_run import FINE_STEPS
from tests.property.cycle_authority import Authority
from tests.property.cycle_engines import random_case
from tests.property.cycle_equations import H, P, T, X, find_steam
from tests.property.cycle_runs import Floats, Run, settle

CASES = 50
#: Turns after which the authority must be back where it began: it starts from where the march ended.
MOST_TURNS = 12
#: What may be between them: mean pressure as a share of supply less exhaust, masses as shares of themselves.
PRESSURE, MASS = 1e-3, 3e-3


def take_contents(run: Run) -> Floats:
    """Mass [kg] and energy [J] of the four spaces at the end of a march; nothing where a space never changes."""
    cell = run.pack.cell
    held = [(cell[space * at.ROW + at.MASS], cell[space * at.ROW + at.ENERGY]) for space in range(4)]
    return np.array(held) * cell[at.FREE_HEAD : at.FREE_HEAD + 4, np.newaxis]


@pytest.mark.parametrize("seed", range(CASES))
def test_mean_pressures_and_masses_agree_with_a_general_solver(seed: int) -> None:
    case = random_case(Random(seed), "steam" if seed % 2 else "air")
    run = settle(case.setup, case.conditions, steps=FINE_STEPS, tolerance=1e-8, wall=case.wall)
    assert run.settled
    told = Authority(case.setup, case.conditions, case.wall).turn(take_contents(run), turns=MOST_TURNS)
    assert told.change < 1e-5
    drop = case.conditions.supply - case.conditions.exhaust
    for end, work in told.work.items():
        assert run.mean_pressure(end) == pytest.approx(work / run.pack.swept[end], abs=PRESSURE * drop)
    assert run.mass_through(at.WAY_STEAM_HEAD, at.WAY_STEAM_CRANK) == pytest.approx(told.let_in, rel=MASS)
    assert run.drawn() == pytest.approx(told.drawn, rel=MASS)


def test_the_cases_are_of_every_kind() -> None:
    """Leaking and tight, heated and not, throttled and not, slow and fast, wet and dry, inside admission too."""
    cases = [random_case(Random(seed), "steam" if seed % 2 else "air") for seed in range(CASES)]
    runnings = [case.setup.running for case in cases]
    kinds = {
        "heated": [case.wall is not None for case in cases],
        "leaking rings": [bool(running.ring_gap) for running in runnings],
        "leaking face": [bool(running.valve_face_gap) for running in runnings],
        "leaking gland": [bool(running.gland_gap) for running in runnings],
        "throttled": [running.supply_bore is not None for running in runnings],
        "exhaust pipe": [running.exhaust_bore is not None for running in runnings],
        "passage": [running.passage_bore is not None for running in runnings],
        "slow": [case.conditions.speed < 15 for case in cases],
        "inside admission": [case.setup.sizes.admission == "inside" for case in cases],
        "wet": [case.conditions.fluid == "steam" and case.conditions.supply_temperature is None for case in cases],
    }
    for kind, have in kinds.items():
        assert 5 <= sum(have) <= CASES - 5, kind


def test_halving_the_steps_again_changes_nothing_to_speak_of() -> None:
    """Of the second order: with four times the steps what is left of the difference is a small part of it."""
    gone, left = [], []
    for seed in range(0, CASES, 5):
        case = random_case(Random(seed), "steam" if seed % 2 else "air")
        means = []
        for steps in (90, 180, 720):
            run = settle(case.setup, case.conditions, steps=steps, tolerance=1e-9, wall=case.wall)
            means.append(run.mean_pressure("head") / (case.conditions.supply - case.conditions.exhaust))
        gone.append(abs(means[0] - means[2]))
        left.append(abs(means[1] - means[2]))
    assert max(left) < 1e-3
    assert np.median(left) < 0.5 * np.median(gone)


@given(st.floats(0.02e6, 2e6), st.floats(-1.0, 1.0))
def test_the_authority_finds_steam_from_energy_and_volume(pressure: float, place: float) -> None:
    """Wet below nothing (dryness 1 + place), superheated above (by 300 K at 1), against an independent program."""
    mega, boiling = pressure / 1e6, seuif97.px(pressure / 1e6, 0.0, 1)
    if place <= 0.0:
        u, v, h = (seuif97.px(mega, max(1.0 + place, 1e-3), asked) for asked in (7, 3, 4))
        t, x = boiling, max(1.0 + place, 1e-3)
    else:
        t = boiling + 1e-6 + 300.0 * place
        u, v, h = (seuif97.pt(mega, t, asked) for asked in (7, 3, 4))
        u_water, u_dry = (seuif97.px(mega, share, 7) for share in (0.0, 1.0))
        x = 1.0 + (u - u_dry) / (u_dry - u_water)
    row = np.zeros(7)
    find_steam(u * 1e3, v, np.array([101325.0, 400.0, 0.0]), row)
    assert row[P] == pytest.approx(pressure, rel=1e-8)
    assert row[H] == pytest.approx(h * 1e3, rel=1e-8)
    assert row[T] == pytest.approx(t + 273.15, abs=1e-4)
    assert row[X] == pytest.approx(x, abs=1e-7)
