"""Spaces tied together find their pressures at any speed, or the run says that it has not settled."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.cycle import layout as at
from lapwright.cycle.balance import is_narrow, push_through, set_flow_terms
from lapwright.cycle.conditions import Conditions, Setup
from lapwright.cycle.cylinder_run import SETTLED
from lapwright.engine.running import Running
from lapwright.medium.steam import _COLUMN_STEP, _COLUMNS, _LOW, _ROW_STEP, draw_table, find_inside
from tests.property.cycle_runs import Run, on_air, on_steam, settle
from tests.unit.cycle.test_limits import small_cylinder

USUAL = Running(discharge_coefficient=0.7, ring_gap=4e-6, valve_face_gap=2e-6, gland_gap=5e-6, wall_heat="usual")
BORES = ((0.5e-3, None), (None, 0.5e-3), (1e-3, 3e-3), (3e-3, 0.5e-3))


def run_throttled(told: Conditions, *, supply: float | None, exhaust: float | None, ring_gap: float = 4e-6) -> Run:
    running = replace(USUAL, supply_bore=supply, exhaust_bore=exhaust, ring_gap=ring_gap)
    return settle(Setup(small_cylinder(lap=0.5e-3), running), told, steps=90, tolerance=1e-5)


def assert_sound(run: Run) -> None:
    assert np.isfinite(run.out).all()
    assert (run.out[:, at.OUT_P : at.OUT_P + 4] > 0).all()
    lost = run.pack.cell[at.TURN_MISSED]
    assert run.change >= lost
    if run.change < SETTLED:
        for space in range(4):
            if run.pack.cell[at.FREE_HEAD + space]:
                assert_told_is_held(run, space)


def assert_told_is_held(run: Run, space: int) -> None:
    """Pressure and mass make the energy that flows, heat and work have summed up to."""
    cell, here = run.pack.cell, space * at.ROW
    inside = (cell[here + at.ENTHALPY] - cell[here + at.P] / cell[here + at.DENSITY]) * cell[here + at.MASS]
    assert inside == pytest.approx(cell[here + at.ENERGY], rel=SETTLED)


@pytest.mark.parametrize("rpm", [2, 60, 600, 5000, 50_000])
@pytest.mark.parametrize("ideal", [True, False])
@pytest.mark.parametrize(("supply", "exhaust"), BORES)
def test_throttled_on_air(supply: float | None, exhaust: float | None, ideal: bool, rpm: float) -> None:
    run = run_throttled(on_air(2e5, rpm, ideal=ideal), supply=supply, exhaust=exhaust)
    assert_sound(run)
    assert run.pack.cell[at.MISSES] == 0


@pytest.mark.parametrize("rpm", [60, 600, 5000, 50_000])
@pytest.mark.parametrize("ideal", [True, False])
@pytest.mark.parametrize(("supply", "exhaust"), BORES)
def test_throttled_on_steam(supply: float | None, exhaust: float | None, ideal: bool, rpm: float) -> None:
    run = run_throttled(on_steam(3e5, rpm, ideal=ideal), supply=supply, exhaust=exhaust)
    assert_sound(run)
    assert run.pack.cell[at.TURN_MISSED] == 0


def test_steam_all_but_shut_in_at_a_crawl_is_told_as_not_settled() -> None:
    """Wet walls boil a film off and on behind a pin-hole: no balance is found, and nobody is told that one was."""
    run = run_throttled(on_steam(3e5, 2), supply=None, exhaust=0.5e-3)
    assert_sound(run)
    assert run.pack.cell[at.MISSES] > 0
    assert run.change > SETTLED


@pytest.mark.parametrize("rpm", [2, 60, 600])
def test_rings_that_tie_the_ends_together(rpm: float) -> None:
    for told in (on_air(2e5, rpm), on_steam(3e5, rpm)):
        assert_sound(run_throttled(told, supply=None, exhaust=None, ring_gap=0.3e-3))


@given(
    ratio=st.floats(0.01, 0.999999),
    exponent=st.sampled_from([1.035, 1.1, 1.135, 1.3, 1.4]),
    pressure=st.floats(1e4, 2e6),
    density=st.floats(0.1, 50),
    height=st.floats(1e-7, 1e-3),
)
def test_a_gap_called_narrow_passes_less_than_its_area_would(
    ratio: float, exponent: float, pressure: float, density: float, height: float
) -> None:
    cell = np.zeros(at.CELL)
    cell[at.GAS_EXPONENT] = exponent
    cell[at.P], cell[at.DENSITY] = pressure, density
    set_flow_terms(cell, at.HEAD)
    cell[at.GAPS + at.GAP_AREA] = height
    cell[at.GAPS + at.GAP_GAS] = height**3 / (24 * 1.8e-5 * 5e-3)
    down = ratio * pressure
    if is_narrow(cell, 0, pressure, down, at.GAPS):
        laminar = cell[at.GAPS + at.GAP_GAS] * (pressure**2 - down**2) * density / pressure
        open_flow = height * sqrt(pressure * density) * push_through(cell, 0, ratio)
        assert laminar <= open_flow * (1 + 1e-12)


def test_steam_hotter_than_its_surfaces_goes_on_without_a_step() -> None:
    table = draw_table()
    node = np.exp(_LOW + 40 * _ROW_STEP)
    beyond = 1.5 * _COLUMNS * _COLUMN_STEP
    before, after = (find_inside(table, p, (2e5 + beyond) / p) for p in (node * (1 - 1e-9), node * (1 + 1e-9)))
    assert before == pytest.approx(after, rel=1e-8)
