"""One fault put into a random sound engine, as a person of the trade would mean it, from just noticeable to gross.

Each function draws its own sound engine and returns it with the one fault, the code that names it, and the size that
was put in where the engine's own sizes tell it. Where two causes would leave exactly the same sizes behind, a
`[target]` says what was meant: without one nobody could tell, and nobody is asked to (see test_injection_reach.py).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import degrees, pi, radians
from random import Random

from lapwright.engine.engine import Engine, Target
from lapwright.motion.answers import set_moving
from tests.property.injection import (
    ECONOMICAL,
    Plan,
    draw_sound_plan,
    find_leads,
    opens_before,
    place_valve,
    set_eccentric,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Injected:
    """An engine with one fault. `size` is in mm or deg, None where the sizes do not determine it."""

    engine: Engine
    code: str
    end: str | None = None
    cylinder: str = "A"
    size: float | None = None


def spread(rng: Random, low: float, high: float) -> float:
    """Draw between two sizes, the small ones as often as the large ones."""
    return float(low * (high / low) ** rng.random())


def draw_matched(rng: Random, *, outside: bool) -> Plan:
    """A square engine without lap, or one whose lap is asked for by its target; room for a longer valve."""
    plan = replace(draw_sound_plan(rng, outside=outside), room=None)
    square = abs(plan.lap) < 1e-9
    return plan if square else replace(plan, target=Target(lap=plan.lap))


def least(plan: Plan) -> float:
    """The smallest error over two edges [m] that is worth calling a fault."""
    return max(0.15e-3, 0.04 * plan.throw)


def least_exhaust(plan: Plan) -> float:
    """The smallest error over the two exhaust edges [m] worth calling a fault: a valve with lap may have some."""
    return 2 * (0.06e-3 + 0.025 * plan.throw + 0.16 * plan.lap + abs(plan.exhaust_lap))


def noticeable(plan: Plan) -> float:
    """The smallest displacement of one edge, or of the valve [m], that is worth calling a fault."""
    return max(0.06e-3, 0.025 * plan.throw)


def inject_valve_too_long(rng: Random) -> Injected:
    """The valve is longer by x, up to far beyond never opening; steam is late, or the exhaust if it goes outside."""
    plan = draw_matched(rng, outside=rng.random() < 0.75)
    if plan.outside:
        x = spread(rng, least(plan), 2.6 * plan.throw)
        return Injected(engine=replace(plan, length=plan.length + x).engine(), code="valve-too-long", size=1e3 * x)
    x = spread(rng, least_exhaust(plan), 1.2 * plan.throw)
    long = replace(plan, length=plan.length + x)
    return Injected(engine=long.engine(), code="valve-too-long", size=2e3 * long.exhaust_lap)


def inject_valve_too_short(rng: Random) -> Injected:
    """The valve is shorter by x than over its ports, so that both stand open at mid-travel."""
    plan = draw_matched(rng, outside=rng.random() < 0.75)
    x = spread(rng, least(plan) if plan.outside else least_exhaust(plan), 0.8 * min(plan.throw, plan.port))
    short = replace(plan, length=plan.length - x - (2 * plan.lap if plan.outside else 0.0))
    size = x + 2 * plan.lap if plan.outside else -2 * short.exhaust_lap
    return Injected(engine=short.engine(), code="valve-too-short", size=1e3 * size)


def inject_cavity_too_long(rng: Random) -> Injected:
    """The cavity is longer by x than over the ports' inner edges."""
    plan = draw_matched(rng, outside=rng.random() < 0.75)
    x = spread(rng, least_exhaust(plan) if plan.outside else least(plan), 0.8 * min(plan.throw, plan.port))
    wide = replace(plan, cavity=plan.cavity + x + (0.0 if plan.outside else 2 * plan.lap))
    size = -2 * wide.exhaust_lap if plan.outside else x + 2 * plan.lap
    return Injected(engine=wide.engine(), code="cavity-too-long", size=1e3 * size)


def inject_cavity_too_short(rng: Random) -> Injected:
    """The cavity is shorter by x than over the ports' inner edges; the exhaust is late, or steam if it comes inside."""
    plan = draw_matched(rng, outside=rng.random() < 0.75)
    if plan.outside:
        x = spread(rng, least_exhaust(plan), 1.2 * plan.throw)
        narrow = replace(plan, cavity=plan.cavity - x)
        return Injected(engine=narrow.engine(), code="cavity-too-short", size=2e3 * narrow.exhaust_lap)
    x = spread(rng, least(plan), min(2.6 * plan.throw, 0.9 * plan.cavity))
    return Injected(engine=replace(plan, cavity=plan.cavity - x).engine(), code="cavity-too-short", size=1e3 * x)


def inject_eccentric_behind(rng: Random) -> Injected:
    """The eccentric is set back on the shaft so that both ends open late, without standing square by it."""
    while True:
        plan = draw_sound_plan(rng)
        plan = replace(plan, target=Target(lead=sum(find_leads(plan).values()) / 2))
        turn = spread(rng, 3.0, 50.0)
        late = replace(plan, angle=plan.angle - radians(turn))
        square = abs((degrees(late.angle) % 180) - 90) < 3.5
        if plan.lap == 0 or not square:
            return Injected(engine=late.engine(), code="eccentric-behind", size=turn)


def inject_eccentric_ahead(rng: Random) -> Injected:
    """The eccentric is set on so far that both ends open earlier than anybody would want."""
    plan = draw_sound_plan(rng)
    room = 60.0 - abs(opens_before(plan, plan.throw - plan.lap))
    turn = spread(rng, 10.0, max(room, 12.0)) if plan.lap == 0 else spread(rng, 10.0, 40.0)
    if rng.random() < 0.5:
        plan = replace(plan, target=Target(lead=sum(find_leads(plan).values()) / 2))
        turn *= 0.5
    size = turn if plan.target.lead is not None or plan.lap == 0 else None
    return Injected(engine=replace(plan, angle=plan.angle + radians(turn)).engine(), code="eccentric-ahead", size=size)


def inject_eccentric_reversed(rng: Random) -> Injected:
    """The eccentric stands where the other direction of rotation wants it."""
    plan = draw_sound_plan(rng)
    turn = degrees(2 * plan.angle) % 360
    return Injected(
        engine=replace(plan, angle=-plan.angle).engine(),
        code="eccentric-reversed",
        size=min(turn, 360 - turn),
    )


def inject_valve_off_centre(rng: Random) -> Injected:
    """The valve is moved on its spindle, beyond central and beyond equal leads."""
    plan = draw_sound_plan(rng, double=True)
    equal = place_valve(plan).offset
    moved = spread(rng, noticeable(plan), 0.8 * plan.throw) * rng.choice([-1, 1])
    offset = moved + (max(equal, 0.0) if moved > 0 else min(equal, 0.0))
    room = None if plan.room is None else plan.room + abs(offset - plan.offset)
    off = replace(plan, offset=offset, room=room, spindle=rng.choice([None, (0.02 * plan.throw, 0.5)]))
    return Injected(engine=off.engine(), code="valve-off-centre", size=1e3 * abs(offset))


def inject_ends_unequal(rng: Random) -> Injected:
    """The cavity, or the bridges with the middle port, do not stand central between the outer edges."""
    plan = draw_sound_plan(rng, double=True)
    reach = plan.throw - (plan.exhaust_lap if plan.outside else plan.lap)
    side = rng.choice([-1, 1])
    if rng.random() < 0.5:
        shift = spread(rng, noticeable(plan), 0.6 * min(reach, plan.port))
        uneven = replace(plan, cavity_shift=side * shift)
    else:
        # Farther out, one port would be too wide for the travel as well: two faults.
        shift = spread(rng, noticeable(plan), max(0.2 * plan.port, 0.07e-3))
        uneven = replace(plan, bridge_shift=side * shift)
    return Injected(engine=uneven.engine(), code="ends-unequal", size=2e3 * shift)


def inject_port_never_opens(rng: Random) -> Injected:
    """The cavity stands so far off that its edge at one end never reaches the port."""
    plan = draw_sound_plan(rng, double=True)
    lap = plan.exhaust_lap if plan.outside else plan.lap
    shift = (plan.throw - lap) * rng.uniform(1.02, 1.4)
    towards = rng.choice(["head", "crank"])
    sign = 1 if towards == "head" else -1
    uneven = replace(plan, cavity_shift=sign * shift)
    return Injected(
        engine=uneven.engine(),
        code="port-never-opens",
        end="crank" if towards == "head" else "head",
        size=2e3 * shift,
    )


def inject_chest_open_to_exhaust(rng: Random) -> Injected:
    """The lands are thinner than their ports at both edges: the valve belongs to another engine."""
    plan = draw_matched(rng, outside=rng.random() < 0.75)
    short, wide = (spread(rng, small(plan), 0.6 * min(plan.port, plan.throw)) for small in (least, least_exhaust))
    thin = plan.with_laps(steam=-short / 2, exhaust=-wide / 2)
    return Injected(engine=thin.engine(), code="chest-open-to-exhaust", size=1e3 * (short + wide) / 2)


def inject_travel_too_short(rng: Random) -> Injected:
    """A smaller eccentric than the ports want: it opens less than half of them."""
    return _reduce_travel(rng, "travel-too-short", share=rng.uniform(0.05, 0.49))


def inject_port_starved(rng: Random) -> Injected:
    """A smaller eccentric opens half to two thirds of the port; or the middle port is narrow, steam entering there."""
    if rng.random() < 0.75:
        return _reduce_travel(rng, "port-starved", share=rng.uniform(0.51, 0.66))
    return Injected(engine=_narrow_middle(rng, outside=False).engine(), code="port-starved")


def _reduce_travel(rng: Random, code: str, *, share: float) -> Injected:
    plan = draw_sound_plan(rng)
    throw = plan.lap + share * plan.port
    return Injected(engine=replace(plan, throw=throw, room=None).engine(), code=code)


def inject_exhaust_choked(rng: Random) -> Injected:
    """The middle port is narrow: at full travel the valve's wall covers much of it."""
    return Injected(engine=_narrow_middle(rng, outside=True).engine(), code="exhaust-choked")


def _narrow_middle(rng: Random, *, outside: bool) -> Plan:
    """The middle port is made narrower, the bridges wider by as much, until little is left at full travel."""
    while True:
        plan = draw_sound_plan(rng, outside=outside)
        free = plan.exhaust / 2 + plan.cavity / 2 - plan.throw - abs(plan.offset)
        narrower = 2 * (free - rng.uniform(0.05, 0.78) * plan.port)
        if narrower < 0.9 * plan.exhaust:
            return replace(plan, exhaust=plan.exhaust - narrower, bridge=plan.bridge + narrower / 2)


def inject_overtravel(rng: Random) -> Injected:
    """A larger eccentric takes the valve's end past the edge of the middle port."""
    while True:
        plan = replace(draw_sound_plan(rng, square=rng.random() < 0.8), room=None)
        reach = plan.length / 2 - plan.exhaust / 2
        throw = (reach + abs(plan.offset)) * 1.02 + spread(rng, 0.02, 0.6) * plan.port
        if throw < 0.5 * plan.rod:
            return Injected(engine=replace(plan, throw=throw).engine(), code="overtravel")


def inject_valve_strikes_chest(rng: Random) -> Injected:
    """The chest's wall at one end, or at both, stands too near."""
    plan = replace(draw_sound_plan(rng), room=1e-3)
    end = rng.choice(["head", "crank"])
    sizes = plan.sizes()
    valve = set_moving(sizes).valve
    assert valve is not None
    reach = plan.length / 2 + (valve.high if end == "head" else -valve.low)
    strikes = spread(rng, 0.05e-3, 0.3 * plan.throw + 0.1e-3)
    sizes = sizes.replacing({f"port_face.chest_{end}": reach - strikes})
    engine = replace(plan.engine(), cylinders=(sizes,))
    return Injected(engine=engine, code="valve-strikes-chest", end=end, size=1e3 * strikes)


def inject_no_expansion_possible(rng: Random) -> Injected:
    """An engine without lap, whose face and chest leave room for some, is asked to work economically."""
    plan = replace(draw_sound_plan(rng, square=True), purpose=ECONOMICAL, room=None)
    roomy = replace(plan, exhaust=plan.exhaust + 2.5 * plan.port).with_laps(steam=0.0, exhaust=plan.exhaust_lap)
    return Injected(engine=roomy.engine(), code="no-expansion-possible")


def inject_late_admission(rng: Random) -> Injected:
    """A short eccentric rod and a valve centred by its travel: one end opens late."""
    return _slant(rng, "late-admission")


def inject_early_admission(rng: Random) -> Injected:
    """The same where there is much lead: one end opens early."""
    return _slant(rng, "early-admission")


def _slant(rng: Random, code: str) -> Injected:
    early = code == "early-admission"
    while True:
        share = rng.uniform(0.08, 0.12) if early else rng.uniform(0.0, 0.02)
        plan = draw_sound_plan(rng, double=True, rod=(4.0, 8.0), square=not early)
        plan = replace(set_eccentric(replace(plan, offset=0.0), share * plan.throw), offset=0.0)
        opens = {end: opens_before(plan, lead) for end, lead in find_leads(plan).items()}
        if min(opens.values()) < -3.2 and not early:
            end = min(opens, key=lambda one: opens[one])
        elif early and max(opens.values()) > 11.3 and min(opens.values()) > -2.9:
            end = max(opens, key=lambda one: opens[one])
        else:
            continue
        if sum(opens.values()) / 2 < 7.5:
            return Injected(engine=plan.engine(), code=code, end=end)


def inject_cylinders_differ(rng: Random) -> Injected:
    """A twin whose valves, each with its eccentric set to suit, have laps so unlike that they cut off apart."""
    plan = replace(draw_sound_plan(rng, square=True, double=True, share=rng.uniform(1.2, 1.3)), room=None)
    lap = plan.throw * rng.uniform(0.22, 0.33)
    plan = replace(plan, exhaust=plan.exhaust + 2 * lap).with_laps(steam=0.0, exhaust=0.0)
    cylinders = [plan, place_valve(set_eccentric(plan.with_laps(steam=lap), 0.02 * plan.throw))]
    rng.shuffle(cylinders)
    first, second = (one.sizes(name) for one, name in zip(cylinders, "AB", strict=True))
    engine = replace(plan.engine(), cylinders=(first, second.replacing({"crank_phase": pi / 2})))
    return Injected(engine=engine, code="cylinders-differ", cylinder="B")


INJECTIONS: dict[str, Callable[[Random], Injected]] = {
    "late-admission": inject_late_admission,
    "early-admission": inject_early_admission,
    "eccentric-behind": inject_eccentric_behind,
    "eccentric-ahead": inject_eccentric_ahead,
    "eccentric-reversed": inject_eccentric_reversed,
    "valve-too-long": inject_valve_too_long,
    "valve-too-short": inject_valve_too_short,
    "cavity-too-long": inject_cavity_too_long,
    "cavity-too-short": inject_cavity_too_short,
    "valve-off-centre": inject_valve_off_centre,
    "ends-unequal": inject_ends_unequal,
    "chest-open-to-exhaust": inject_chest_open_to_exhaust,
    "port-never-opens": inject_port_never_opens,
    "port-starved": inject_port_starved,
    "exhaust-choked": inject_exhaust_choked,
    "overtravel": inject_overtravel,
    "valve-strikes-chest": inject_valve_strikes_chest,
    "no-expansion-possible": inject_no_expansion_possible,
    "travel-too-short": inject_travel_too_short,
    "cylinders-differ": inject_cylinders_differ,
}
