"""Limits that the march has to meet: shut, filling and emptying spaces, cards of closed form, scale, ends, first law.

Source: closed forms derived from first principles (ideal gas, first law, control volume), where no other is named.
"""

from __future__ import annotations

from dataclasses import replace
from math import log, pi, sqrt
from random import Random

import numpy as np
import pytest

from lapwright.cycle import layout as at
from lapwright.cycle.conditions import ATMOSPHERE, Conditions, Setup
from lapwright.cycle.cylinder_run import run_cylinder
from lapwright.cycle.packing import Pack
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes
from lapwright.medium import air, if97
from tests.property.cycle_engines import give_clearance
from tests.property.cycle_runs import WARM, Run, march_pack, on_air, on_steam, pin_wall, prepare, settle
from tests.property.engines import random_engine, random_sound_engine

TIGHT = Running(discharge_coefficient=0.7, ring_gap=0.0, valve_face_gap=0.0, gland_gap=0.0, wall_heat="none")
USUAL = Running(discharge_coefficient=0.7, ring_gap=4e-6, valve_face_gap=2e-6, gland_gap=5e-6, wall_heat="usual")
K, R = air.EXPONENT, air.GAS_CONSTANT
ENDLESS_ROD = 1e5
#: A wall that leaves no difference of temperature [W/m2 K].
ALL_HEAT = 1e7
WIDE = 1e-3


def small_cylinder(*, lap: float = 0.0, lead: float = 0.0, clearance: float = 0.08, **changes: float) -> Sizes:
    """A cylinder of 19 by 19 mm, its ports 2 mm wide, the valve's exhaust edges line and line."""
    throw = 0.0022
    advance = np.arcsin((lap + lead) / throw) if lap + lead < throw else pi / 4
    numbers = {
        "bore": 0.019, "stroke": 0.019, "connecting_rod": 0.045, "piston_rod": 0.00476,
        "clearance_head_share": clearance, "clearance_crank_share": clearance,
        "port_face.steam_port": 0.002, "port_face.bridge": 0.002, "port_face.exhaust_port": 0.004,
        "port_face.port_length": 0.008, "valve.length": 0.012 + 2 * lap, "valve.cavity": 0.008,
        "valve_drive.throw": throw, "valve_drive.eccentric_rod": 0.06, "valve_drive.eccentric_angle": pi / 2 + advance,
    }  # fmt: skip
    return Sizes("A", numbers | changes)


def shut_cylinder(**changes: float) -> Sizes:
    """The same with a valve that opens nothing: it overlaps its ports by more than it moves, outside and inside."""
    return small_cylinder(lap=0.003, **{"valve.cavity": 0.002, "valve_drive.valve_offset": 0.0} | changes)


def drop_of(told: Conditions) -> float:
    return told.supply - told.exhaust


# --- nothing comes in, nothing goes out ---


@pytest.mark.parametrize("clearance", [0.03, 0.08, 0.5])
@pytest.mark.parametrize("end", ["head", "crank"])
def test_shut_air_follows_its_adiabat_and_gives_back_all_work(clearance: float, end: str) -> None:
    run = settle(Setup(shut_cylinder(clearance=clearance), TIGHT), on_air(2e5, 600, ideal=True), steps=720)
    held = run.pressure(end) * run.volume(end) ** K
    assert held == pytest.approx(held[-1], rel=1e-4)
    assert abs(run.add_up(run.pressure(end) * run.swelling(end))) < 1e-6 * ATMOSPHERE * run.pack.swept[end]
    assert not run.out[:, at.OUT_FLOWS : at.OUT_FLOWS + at.WAYS].any()


@pytest.mark.parametrize("dryness", [1.0, 0.9])
def test_shut_steam_keeps_its_entropy(dryness: float) -> None:
    pack = prepare(Setup(shut_cylinder(), TIGHT), on_steam(3e5, 600, ideal=True), steps=720)
    # From one bar at dead centre it would go down to where there is hardly any pressure: four bar there instead.
    fill_with_steam(pack, pressure=401325.0, dryness=dryness)
    run = march_pack(pack, on_steam(3e5, 600, ideal=True), turns=1)
    entropies = [
        steam_entropy(p, t, x)
        for p, t, x in zip(run.pressure("head"), run.out[:, at.OUT_T], run.out[:, at.OUT_X], strict=True)
    ]
    assert entropies == pytest.approx([steam_entropy(401325.0, 0.0, dryness)] * len(entropies), rel=1e-5)
    assert run.pressure("head").min() < 0.1 * 401325.0


def fill_with_steam(pack: Pack, *, pressure: float, dryness: float) -> None:
    """Fill the head end with wet steam as it stands."""
    boiling = if97.saturation_temperature(pressure)
    water, dry = if97.liquid(pressure, boiling), if97.vapour(pressure, boiling)
    volume, energy = (water[n] + dryness * (dry[n] - water[n]) for n in (0, 1))
    pack.cell[at.MASS] = pack.cell[at.VOLUME] / volume
    pack.cell[at.ENERGY], pack.cell[at.P] = pack.cell[at.MASS] * energy, pressure
    pack.cell[at.DENSITY], pack.cell[at.DRYNESS], pack.cell[at.TEMPERATURE] = 1 / volume, dryness, boiling


def steam_entropy(pressure: float, temperature: float, dryness: float) -> float:
    """Entropy of wet or superheated steam [J/kg K]."""
    if dryness > 1.0:
        return if97.vapour(pressure, temperature)[3]
    boiling = if97.saturation_temperature(pressure)
    water, dry = if97.liquid(pressure, boiling)[3], if97.vapour(pressure, boiling)[3]
    return water + dryness * (dry - water)


def warm_through(pack: Pack, temperature: float) -> None:
    """Give the ends a wall that leaves no difference of temperature."""
    pin_wall(pack, temperature)
    pack.cell[at.DRY_HEAT] = ALL_HEAT


def test_shut_air_within_a_wall_that_passes_all_heat_keeps_pressure_times_volume() -> None:
    told = on_air(2e5, 600)
    pack = prepare(Setup(shut_cylinder(), replace(TIGHT, wall_heat="usual")), told, steps=360, tolerance=1e-9)
    warm_through(pack, WARM)
    run = march_pack(pack, told)
    for end in ("head", "crank"):
        held = run.pressure(end) * run.volume(end)
        assert held == pytest.approx(held[-1], rel=1e-4)
    assert run.out[:, at.OUT_T : at.OUT_T + 2] == pytest.approx(WARM, rel=1e-4)


# --- vessels ---


def make_vessel(told: Conditions, *, volume: float, steam: float = 0.0, exhaust: float = 0.0) -> Pack:
    """A head end that stands still, filled from the supply through one hole or emptied through another [m2]."""
    pack = prepare(Setup(small_cylinder(), TIGHT), told)
    for column, value in ((at.VOLUME_HEAD, volume), (at.SWELL_HEAD, 0.0)):
        pack.turn[:, column] = value
    pack.turn[:, at.OPEN_STEAM_HEAD : at.OPEN_STRAIGHT + 1] = 0.0
    pack.turn[:, at.OPEN_STEAM_HEAD], pack.turn[:, at.OPEN_EXHAUST_HEAD] = steam, exhaust
    return pack


def fill_with_air(pack: Pack, *, pressure: float, temperature: float) -> None:
    """Fill the head end with air as it stands."""
    volume, density = float(pack.turn[0, at.VOLUME_HEAD]), pressure / (R * temperature)
    pack.cell[at.VOLUME], pack.cell[at.MASS] = volume, density * volume
    pack.cell[at.ENERGY] = pressure * volume / (K - 1)
    pack.cell[at.P], pack.cell[at.DENSITY], pack.cell[at.TEMPERATURE] = pressure, density, temperature


@pytest.mark.parametrize(
    ("start", "added", "warm"),
    [(101325.0, 1.6976748318700302e-06, 361.75218513697325), (10.0, None, 410.41)],  # fill-rigid
)
def test_a_vessel_fills_and_warms_by_being_filled(start: float, added: float | None, warm: float) -> None:
    told = on_air(2e5, 10, ideal=True)
    pack = make_vessel(told, volume=1e-6, steam=2e-9)
    fill_with_air(pack, pressure=start, temperature=WARM)
    before = float(pack.cell[at.MASS])
    run = march_pack(pack, told, turns=3)
    assert run.pressure("head")[-1] == pytest.approx(told.supply, rel=1e-6)
    gained = (told.supply - start) * 1e-6 / (K * R * WARM)
    assert pack.cell[at.MASS] - before == pytest.approx(gained, rel=1e-6)
    if added is not None:
        assert gained == pytest.approx(added, rel=1e-9)
    assert pack.cell[at.TEMPERATURE] == pytest.approx(warm, rel=1e-4)


def test_a_vessel_blows_down_as_a_choked_hole_lets_it() -> None:
    told = replace(on_air(9e5, 60, ideal=True), exhaust=20_000.0)
    volume, hole, start = 1e-6, 1.5e-8, 1e6
    pack = make_vessel(told, volume=volume, exhaust=hole)
    fill_with_air(pack, pressure=start, temperature=WARM)
    run = march_pack(pack, told, turns=1)
    choked = sqrt(K * (2 / (K + 1)) ** ((K + 1) / (K - 1)))
    rate = hole * choked * sqrt(R * WARM) / volume
    pressures = start * (1 + (K - 1) / 2 * rate * run.angles / told.speed) ** (-2 * K / (K - 1))
    assert pressures[-1] < 0.1 * start
    far = pressures > told.exhaust / 0.528
    assert run.pressure("head")[1::2][far[1::2]] == pytest.approx(pressures[1::2][far[1::2]], rel=1e-4)


# --- cards ---


@pytest.mark.parametrize("fluid", ["air", "steam"])
def test_at_next_to_no_speed_without_lap_the_card_is_a_rectangle(fluid: str) -> None:
    told = (on_air if fluid == "air" else on_steam)(2e5, 1.0, ideal=True)
    run = settle(Setup(small_cylinder(), TIGHT), told)
    for end, work in (("head", 1.0774092005486193), ("crank", 1.0097872983260423)):  # zero-speed-card
        assert run.mean_pressure(end) == pytest.approx(200e3, rel=1e-3)
        assert run.work(end) == pytest.approx(work, rel=1e-3)
        leaving = run.swelling(end) > 0.1 * run.swelling(end).max()
        nearing = run.swelling(end) < 0.1 * run.swelling(end).min()
        assert run.pressure(end)[leaving] == pytest.approx(told.supply, rel=2e-3)
        assert run.pressure(end)[nearing] == pytest.approx(told.exhaust, rel=2e-3)
    assert (run.work("head") + run.work("crank")) / (2 * pi) == pytest.approx(0.33218763999999995, rel=1e-3)


def card_of_instant_events(told: Conditions, *, clearance: float, cut_off: float, warm: float | None = None) -> Run:
    """A head end whose ways open and shut at once: steam from dead centre to cut-off, exhaust all the way back."""
    sizes = shut_cylinder(clearance=clearance, connecting_rod=ENDLESS_ROD)
    running = TIGHT if warm is None else replace(TIGHT, wall_heat="usual")
    pack = prepare(Setup(sizes, running), told, steps=720, tolerance=1e-8)
    if warm is not None:
        warm_through(pack, warm)
    gone = (1 - np.cos(pack.angles)) / 2
    steps_end = np.repeat(pack.edges[1:], 2)
    admitting = ((1 - np.cos(steps_end)) / 2 < cut_off + 1e-9) & (steps_end < pi + 1e-9)
    assert gone[admitting].max() == pytest.approx(cut_off, abs=1e-6)
    pack.turn[:, at.OPEN_STEAM_HEAD] = np.where(admitting, WIDE, 0.0)
    pack.turn[:, at.OPEN_EXHAUST_HEAD] = np.where(steps_end > pi + 1e-9, WIDE, 0.0)
    return march_pack(pack, told)


#: Of the instant events: clearance, cut-off, mean effective pressure [Pa] from 4.01325 to 1.01325 bar absolute.
CARDS = [
    (1.0, 0.08, 0.5, 244046.93364048976),  # card-poly-n1.0
    (1.4, 0.08, 0.5, 227457.26592585834),  # card-poly-n1.4
]


@pytest.mark.parametrize(("exponent", "clearance", "cut_off", "mean"), CARDS)
def test_cards_of_closed_form(exponent: float, clearance: float, cut_off: float, mean: float) -> None:
    told = on_air(3e5, 2.0, ideal=exponent > 1)
    run = card_of_instant_events(told, clearance=clearance, cut_off=cut_off, warm=WARM if exponent == 1 else None)
    assert run.mean_pressure("head") == pytest.approx(mean, rel=1e-3)


@pytest.mark.parametrize("clearance", [0.0175, 0.07])
@pytest.mark.parametrize("cut_off", [0.25, 0.5, 0.75])
def test_hyperbolic_cards_with_clearance(clearance: float, cut_off: float) -> None:
    """The mean pressure of machinery-70, table II: no compression, expansion along p v."""
    told = on_air(5e5, 2.0)
    run = card_of_instant_events(told, clearance=clearance, cut_off=cut_off, warm=WARM)
    mean = cut_off + (cut_off + clearance) * log((1 + clearance) / (cut_off + clearance))
    assert run.mean_pressure("head") + told.exhaust == pytest.approx(told.supply * mean, rel=1e-3)


def test_dry_steam_expands_nearly_as_zeuner_has_it() -> None:
    """Card-poly-n1.135: the exponent is a rule for steam that starts dry, good for a part in a hundred."""
    told = on_steam(3e5, 2.0, ideal=True, dryness=1.0)
    run = card_of_instant_events(told, clearance=0.08, cut_off=0.5)
    assert run.mean_pressure("head") == pytest.approx(238140.73430678202, rel=0.01)


# --- scale, symmetry, first law, steps ---


def scale_lengths(sizes: Sizes, scale: float) -> Sizes:
    """The same cylinder in another size."""
    kept = ("_share", "_phase", "eccentric_angle", "spindle_step")
    return sizes.replacing({key: scale * value for key, value in sizes.numbers.items() if not key.endswith(kept)})


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("scale", [0.4, 2.0])  # units-scaling
def test_an_engine_twice_as_large_at_half_the_speed_has_the_same_card(seed: int, scale: float) -> None:
    sizes = give_clearance(random_engine(Random(seed)), 0.06, 0.1)
    told = (on_steam if seed % 2 else on_air)(2.5e5, 700.0, ideal=True)
    one = settle(Setup(sizes, TIGHT), told, tolerance=1e-11)
    other = settle(Setup(scale_lengths(sizes, scale), TIGHT), told.at_speed(told.speed / scale), tolerance=1e-11)
    for end in ("head", "crank"):
        assert other.mean_pressure(end) == pytest.approx(one.mean_pressure(end), abs=1e-9 * drop_of(told))
    assert other.drawn() == pytest.approx(one.drawn() * scale**3, rel=1e-8)


@pytest.mark.parametrize("fluid", ["air", "steam"])
@pytest.mark.parametrize("rpm", [60.0, 600.0, 3000.0])
def test_ends_that_are_alike_have_the_same_card(fluid: str, rpm: float) -> None:
    """Two-ends-symmetry: endless rods and hardly any piston rod."""
    told = (on_air if fluid == "air" else on_steam)(2e5, rpm, ideal=True)
    rods = {"connecting_rod": ENDLESS_ROD, "valve_drive.eccentric_rod": ENDLESS_ROD, "piston_rod": 1e-9}
    run = settle(Setup(small_cylinder(lap=0.0007, lead=0.0001, **rods), TIGHT), told, tolerance=1e-9)
    assert run.mean_pressure("head") == pytest.approx(run.mean_pressure("crank"), rel=1e-6)


@pytest.mark.parametrize("seed", range(10))
def test_work_is_what_the_medium_brings_less_what_it_takes_away(seed: int) -> None:
    """First-law-bound: without heat and leaks the exhaust, all mixed, is poorer by the work."""
    sizes = give_clearance(random_sound_engine(Random(seed)), 0.07, 0.07)
    told = (on_steam if seed % 2 else on_air)(3e5, 400.0, ideal=True)
    run = settle(Setup(sizes, TIGHT), told, tolerance=1e-12)
    into, away = (at.WAY_STEAM_HEAD, at.WAY_STEAM_CRANK), (at.WAY_EXHAUST_HEAD, at.WAY_EXHAUST_CRANK)
    work = run.work("head") + run.work("crank")
    lost = run.heat_through(*into) / run.mass_through(*into) - run.heat_through(*away) / run.mass_through(*away)
    assert run.mass_through(*away) == pytest.approx(run.mass_through(*into), rel=1e-10)
    assert work / run.mass_through(*into) == pytest.approx(lost, rel=1e-8)


@pytest.mark.parametrize("fluid", ["air", "steam"])
@pytest.mark.parametrize("rpm", [20.0, 200.0, 600.0, 3000.0])
@pytest.mark.parametrize("running", [TIGHT, USUAL], ids=["tight", "usual"])
def test_four_times_the_steps_give_the_same_within_a_thousandth(fluid: str, rpm: float, running: Running) -> None:
    told = (on_air if fluid == "air" else on_steam)(2e5, rpm)
    setup = Setup(small_cylinder(lap=0.0007, lead=0.0001), running)
    wall = None if running is TIGHT else (300.0 if fluid == "air" else 395.0)
    few, many = (settle(setup, told, steps=steps, wall=wall) for steps in (180, 720))
    for end in ("head", "crank"):
        assert few.mean_pressure(end) == pytest.approx(many.mean_pressure(end), abs=1e-3 * drop_of(told))
    assert few.drawn() == pytest.approx(many.drawn(), rel=3e-3)


@pytest.mark.parametrize("fluid", ["air", "steam"])
def test_torque_through_the_turn_adds_up_to_the_work(fluid: str) -> None:
    told = (on_air if fluid == "air" else on_steam)(2e5, 600.0)
    run = run_cylinder(Setup(small_cylinder(lap=0.0007, lead=0.0001), USUAL), told)
    assert float(np.sum(run.torque * run.shares)) == pytest.approx(run.work, rel=1e-9)
    assert run.work == pytest.approx(sum(end.work for end in run.ends.values()), rel=1e-12)
    assert run.shares.sum() == pytest.approx(2 * pi, rel=1e-12)


def test_the_wall_keeps_no_heat_once_the_turns_repeat() -> None:
    """What it takes from inside in a turn it loses to the shop."""
    run = settle(Setup(small_cylinder(), USUAL), on_steam(3e5, 600.0), tolerance=1e-9)
    assert run.settled
    cell = run.pack.cell
    got = -sum(run.add_up(run.out[:, at.OUT_HEAT + n]) for n in range(2)) / (2 * pi)
    assert got == pytest.approx(cell[at.LOSS] * (cell[at.WALL] - cell[at.SHOP_TEMPERATURE]), rel=1e-4)
    assert 373.0 < cell[at.WALL] < if97.saturation_temperature(run.conditions.supply)
