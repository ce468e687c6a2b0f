"""Which way things go when something is wrong with an engine, or changed: what the trade knows, seen in the runs."""

from __future__ import annotations

from dataclasses import replace
from math import asin, pi
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.cycle.answers import CylinderRun
from lapwright.cycle.engine_run import run_engine
from lapwright.cycle.settling import find_least_pressure
from lapwright.cycle.starting import Starting, find_starting
from lapwright.engine.running import Running
from lapwright.engine.sizes import Sizes
from lapwright.medium.water import find_saturation
from tests.property.engines import PLAIN, random_sound_engine, sound_engines
from tests.property.running_engines import (
    ANGLE,
    CAVITY,
    FLUIDS,
    LENGTH,
    OFFSET,
    PORT,
    PORT_LENGTH,
    SEEDS,
    add,
    conditions,
    lost,
    mean,
    per_work,
    prepare,
    run,
    run_one,
    shorten_past_ports,
    sound_engine,
    turn_eccentric,
    used,
)

TURN = 2 * pi
ON_EACH = pytest.mark.parametrize(("seed", "fluid"), [(seed, fluid) for seed in SEEDS for fluid in FLUIDS])
PLAIN_ENGINES = sound_engines(arrangements=(PLAIN,))
FEW = settings(max_examples=12)


def pressure_at(cylinder: CylinderRun, end: str, share: float) -> float:
    """Pressure [Pa] at a share of an end's working stroke."""
    card = cylinder.ends[end]
    gone = (card.volumes / card.swept) - card.clearance
    outward = np.gradient(card.volumes) > 0
    return float(np.interp(share, gone[outward], card.pressures[outward]))


def over_long(sizes: Sizes) -> Sizes:
    """A valve too long at each end by six tenths of the port: it opens late."""
    return add(sizes, LENGTH, 1.2)


def least_pressure(sizes: Sizes, fluid: str, running: Running | None = None) -> float:
    least = find_least_pressure(prepare(sizes, fluid=fluid, running=running), conditions(sizes, fluid))
    assert least is not None
    return least


def start(*cylinders: Sizes) -> Starting:
    return find_starting(prepare(*cylinders, fluid="air"), conditions(cylinders[0], "air"))


def width(arcs: tuple[tuple[float, float], ...]) -> float:
    """How much of the turn some arcs are together [rad]."""
    return sum((stop - begin) % TURN or TURN for begin, stop in arcs)


@ON_EACH
def test_a_valve_too_long_is_late_and_rounds_the_shoulder_of_the_card(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, fluid)
    sound, late = run_one(sizes, on), run_one(over_long(sizes), on)
    assert lost(late, "late admission") > lost(sound, "late admission") + 0.003
    assert mean(late) < mean(sound)
    for end in sound.ends:
        assert pressure_at(sound, end, 0.05) > on.supply - 0.01e5
        assert pressure_at(late, end, 0.01) < pressure_at(sound, end, 0.01) - 0.2e5
        assert pressure_at(late, end, 0.05) < pressure_at(sound, end, 0.05)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_valve_so_long_that_it_opens_after_a_tenth_of_the_stroke_never_reaches_the_supply_there(seed: int) -> None:
    sizes = turn_eccentric(over_long(sound_engine(seed)), -25)
    on = conditions(sizes, "air")
    late = run_one(sizes, on)
    for end in late.ends:
        for share in (0.05, 0.10):
            assert pressure_at(late, end, share) < on.supply - 0.3e5
    assert lost(late, "late admission") > 0.05


@ON_EACH
def test_a_valve_too_long_wants_more_pressure_to_turn_over_than_after_the_cure(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    assert least_pressure(over_long(sizes), fluid) > least_pressure(sizes, fluid)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_valve_too_long_starts_from_fewer_places(seed: int) -> None:
    sizes = sound_engine(seed)
    sound, late = start(sizes), start(over_long(sizes))
    assert width(late.forward.starts) < width(sound.forward.starts)
    assert width(late.forward.never) >= width(sound.forward.never)


@ON_EACH
def test_a_valve_too_short_blows_through(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, fluid)
    sound, short = run_one(sizes, on), run_one(shorten_past_ports(sizes, 0.5), on)
    assert used(sound, "blow-through") < 1e-6
    assert used(short, "blow-through") > 0.2
    assert short.supplied > 1.3 * sound.supplied
    assert mean(short) <= mean(sound)


@ON_EACH
def test_the_shorter_the_valve_the_more_blows_through(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, fluid)
    through = [run_one(shorten_past_ports(sizes, share), on).uses["blow-through"] for share in (0.05, 0.1, 0.2)]
    assert through[0] < through[1] < through[2]


@ON_EACH
def test_early_compression_makes_a_loop_above_the_supply(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, fluid, gauge=1.0)
    sound, early = run_one(sizes, on), run_one(add(sizes, CAVITY, -1.9), on)
    assert lost(early, "cushioning") > lost(sound, "cushioning") + 0.02
    assert mean(early) < mean(sound)
    for end in early.ends.values():
        homeward = np.gradient(end.volumes) < 0
        assert end.pressures[homeward].max() > on.supply
        assert end.pressures[homeward].max() > sound.ends["head"].pressures.max()


@ON_EACH
def test_an_eccentric_behind_is_late_and_one_ahead_early_and_both_cost_power(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, fluid)
    behind, sound, ahead = (run_one(turn_eccentric(sizes, turn), on) for turn in (-25, 0, 25))
    assert lost(behind, "late admission") > lost(sound, "late admission") + 0.01
    assert lost(ahead, "early admission") > lost(sound, "early admission") + 0.01
    assert lost(ahead, "early release") > lost(sound, "early release")
    assert lost(behind, "late admission") > lost(ahead, "late admission")
    assert mean(behind) < mean(sound)
    assert mean(ahead) < mean(sound)


@ON_EACH
def test_an_eccentric_ahead_cuts_off_earlier_and_works_the_charge_harder(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, fluid)
    assert run_one(turn_eccentric(sizes, 15), on).supplied < run_one(sizes, on).supplied
    assert run_one(turn_eccentric(sizes, -15), on).supplied > run_one(sizes, on).supplied


@FEW
@given(st.integers(0, 10_000), st.sampled_from(FLUIDS), st.floats(0.3, 0.6), st.floats(0.2, 0.8))
def test_a_valve_off_centre_makes_the_ends_unequal_the_way_it_stands(
    seed: int, fluid: str, lap: float, share: float
) -> None:
    # With lap: without any, an end that opens too early loses as much as the other that opens too late.
    sizes = random_sound_engine(Random(seed), lap_share=lap)
    on = conditions(sizes, fluid)

    def lean(moved: float) -> float:
        ends = run_one(add(sizes, OFFSET, moved * lap), on).ends
        return ends["crank"].mean_effective_pressure - ends["head"].mean_effective_pressure

    # Moved towards the head end it opens the head end's port later and less, the crank end's earlier and more.
    assert lean(-share) < lean(0.0) < lean(share)


@ON_EACH
@pytest.mark.parametrize("narrow", ["coefficient", "port"])
def test_a_narrow_port_draws_the_wire_and_more_so_at_speed(seed: int, fluid: str, narrow: str) -> None:
    sizes = sound_engine(seed)
    wide, less = Running(discharge_coefficient=0.8), Running(discharge_coefficient=0.4)
    ports = sizes
    if narrow == "port":
        wide, less, ports = Running(), Running(), sizes.replacing({PORT_LENGTH: sizes.number(PORT_LENGTH) / 2})

    def drawn(which: Sizes, running: Running, faster: float) -> float:
        cylinder = run_one(which, conditions(sizes, fluid, faster=faster, ideal=True), running)
        return lost(cylinder, "wire-drawing") + lost(cylinder, "back pressure")

    slow, quick = (drawn(ports, less, faster) - drawn(sizes, wide, faster) for faster in (1, 8))
    assert quick > slow > 0
    assert drawn(sizes, wide, 8) > drawn(sizes, wide, 1)


@FEW
@given(PLAIN_ENGINES, st.sampled_from(FLUIDS), st.floats(5e-6, 25e-6))
def test_worn_rings_take_more_and_give_less(sizes: Sizes, fluid: str, gap: float) -> None:
    on = conditions(sizes, fluid)
    tight, worn = (run_one(sizes, on, Running(ring_gap=ring, wall_heat="none")) for ring in (2e-6, gap))
    assert worn.supplied > tight.supplied
    assert worn.uses["rings"] > tight.uses["rings"]
    # Wet steam may leak as water alone, which leaves the pressures where they were.
    assert mean(worn) < mean(tight) * (1.0 if fluid == "air" else 1 + 1e-5)


@pytest.mark.parametrize(("gap", "name"), [("valve_face_gap", "valve face"), ("gland_gap", "piston-rod gland")])
@ON_EACH
def test_every_other_leak_takes_more(seed: int, fluid: str, gap: str, name: str) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, fluid)
    tight, worn = (run_one(sizes, on, replace(Running(), **{gap: height})) for height in (1e-6, 15e-6))
    assert worn.supplied > tight.supplied
    assert worn.uses[name] > tight.uses[name]


@pytest.mark.parametrize("seed", SEEDS)
def test_walls_take_steam_and_superheat_gives_some_back(seed: int) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, "steam")
    without, usual = (run_one(sizes, on, Running(wall_heat=heat)) for heat in ("none", "usual"))
    assert per_work(usual) > 1.02 * per_work(without)
    assert without.condensed == 0 < usual.condensed
    boiling = find_saturation(on.supply).temperature
    hot = [run_one(sizes, conditions(sizes, "steam", temperature=boiling + above)) for above in (5, 40, 100)]
    shares = [usual.condensed / usual.supplied, *(cylinder.condensed / cylinder.supplied for cylinder in hot)]
    assert shares == sorted(shares, reverse=True)
    assert per_work(hot[-1]) < per_work(usual)


@FEW
@given(PLAIN_ENGINES, st.sampled_from(FLUIDS), st.floats(0.1, 0.8))
def test_back_pressure_costs_power(sizes: Sizes, fluid: str, back: float) -> None:
    free, held = (run_one(sizes, conditions(sizes, fluid, back=pressure)) for pressure in (0.0, back))
    assert held.work < free.work
    # A full card loses just the back pressure; where the steam is left to expand, or is shut in again, somewhat else.
    assert mean(free) - mean(held) == pytest.approx(back * 1e5, rel=0.3)


def cut_off_at(sizes: Sizes, lap: float) -> Sizes:
    """The engine with a lap of so many throws, its eccentric set on for it, and hardly any lead."""
    throw = sizes.number("valve_drive.throw")
    return sizes.replacing({LENGTH: 2 * (reach(sizes) + lap * throw), ANGLE: pi / 2 + asin(lap) + 0.02})


def reach(sizes: Sizes) -> float:
    """How far the steam ports reach from the middle of the face [m]."""
    return sizes.number("port_face.exhaust_port") / 2 + sizes.number("port_face.bridge") + sizes.number(PORT)


@ON_EACH
def test_cutting_off_earlier_takes_less_for_the_same_work(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, fluid)
    late, middle, early = (run_one(cut_off_at(sizes, lap), on, Running(wall_heat="none")) for lap in (0.3, 0.5, 0.7))
    assert per_work(late) > per_work(middle) > per_work(early)
    assert mean(late) > mean(middle) > mean(early)


@pytest.mark.parametrize("seed", SEEDS)
def test_cold_walls_eat_up_part_of_what_expansion_gains(seed: int) -> None:
    sizes = sound_engine(seed)
    on = conditions(sizes, "steam")

    def gain(heat: str) -> float:
        late, early = (per_work(run_one(cut_off_at(sizes, lap), on, Running(wall_heat=heat))) for lap in (0.3, 0.7))
        return late / early

    assert gain("usual") < gain("none") - 0.05


@ON_EACH
def test_an_eccentric_set_for_the_other_direction_brakes(seed: int, fluid: str) -> None:
    sizes = sound_engine(seed)
    wrong = sizes.replacing({ANGLE: TURN - sizes.number(ANGLE)})
    assert run(wrong, conditions(sizes, fluid)).indicated_power < 0


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("fluid", FLUIDS)
def test_a_dead_cylinder_drags(seed: int, fluid: str) -> None:
    one = sound_engine(seed)
    other = replace(one, name="B", numbers={**one.numbers, "crank_phase": pi / 2})
    on = conditions(one, fluid)
    dragged = run_engine(prepare(one, other, fluid=fluid, dead=("B",)), on)
    alone = run_engine(prepare(one, fluid=fluid), on)
    assert dragged.cylinders[1].work < 0
    assert dragged.brake_power < alone.brake_power
    assert dragged.supplied == pytest.approx(alone.supplied)


@FEW
@given(PLAIN_ENGINES, st.floats(0.1e5, 0.4e5), st.floats(0.1e5, 0.4e5))
def test_more_friction_wants_more_pressure(sizes: Sizes, friction: float, more: float) -> None:
    easy, stiff = (
        least_pressure(sizes, "air", Running(friction_pressure=pressure)) for pressure in (friction, friction + more)
    )
    assert stiff > easy


@pytest.mark.parametrize("seed", SEEDS)
def test_two_cranks_at_right_angles_start_from_everywhere_and_one_does_not(seed: int) -> None:
    # Without lap one of the two ends of either cylinder is always open.
    one = sound_engine(seed)
    one = one.replacing({LENGTH: 2 * reach(one), ANGLE: pi / 2})
    other = replace(one, name="B", numbers={**one.numbers, "crank_phase": pi / 2})
    single, twin = start(one), start(one, other)
    assert width(single.forward.starts) < TURN
    assert single.forward.least_pressure is None
    assert width(twin.forward.starts) == pytest.approx(TURN)
    assert twin.forward.least_pressure is not None


@ON_EACH
def test_two_cranks_at_right_angles_swing_the_flywheel_less(seed: int, fluid: str) -> None:
    one = sound_engine(seed)
    other = replace(one, name="B", numbers={**one.numbers, "crank_phase": pi / 2})
    on = conditions(one, fluid)
    single, twin = (run_engine(prepare(*cylinders, fluid=fluid), on) for cylinders in ((one,), (one, other)))
    assert twin.swing < single.swing
    assert twin.indicated_power == pytest.approx(2 * single.indicated_power)
