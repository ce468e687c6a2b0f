"""One fault at a time put into random sound engines: what a person of the trade would mean by each code.

The sizes run from just noticeable to gross. Each injection returns the engine with the fault in cylinder A (in the
second cylinder for `cylinders-differ`).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import asin, radians
from random import Random

from lapwright.engine.engine import PURPOSES, Engine, Target
from tests.property.injection import draw_sound_plan, find_leads, place_valve, set_eccentric

Injection = Callable[[Random], Engine]
STEADY, AIR, ECONOMICAL = PURPOSES


def sound(rng: Random) -> Engine:
    """Nothing put wrong."""
    return draw_sound_plan(rng).engine()


def valve_too_long(rng: Random) -> Engine:
    """A matched valve of a square eccentric made longer, up to never opening."""
    plan = draw_sound_plan(rng, square=True, outside=True)
    more = rng.uniform(0.04, 2.2) * plan.throw + 0.1e-3
    return replace(plan, length=plan.length + more, room=None).engine()


def valve_too_long_for_target(rng: Random) -> Engine:
    """A lapped valve longer than the lap that is asked for."""
    plan = draw_sound_plan(rng, square=False, outside=True)
    more = rng.uniform(0.05, 0.3) * plan.throw + 0.1e-3
    target = Target(lap=plan.lap)
    return replace(plan, length=plan.length + more, room=None, target=target).engine()


def valve_too_short(rng: Random) -> Engine:
    """A valve that does not reach over its ports."""
    plan = draw_sound_plan(rng, outside=True)
    return replace(plan, room=None).with_laps(steam=-rng.uniform(0.03, 0.3) * plan.port - 0.06e-3).engine()


def cavity_too_long(rng: Random) -> Engine:
    """A cavity that reaches over the ports' inner edges at mid-travel."""
    plan = draw_sound_plan(rng, outside=True)
    return plan.with_laps(exhaust=-rng.uniform(0.05, 0.3) * plan.throw - 0.1e-3).engine()


def cavity_too_short(rng: Random) -> Engine:
    """A cavity that leaves too much exhaust lap."""
    plan = draw_sound_plan(rng, outside=True)
    least = 0.03 * plan.throw + 0.16 * plan.lap + 0.1e-3
    return plan.with_laps(exhaust=least + rng.uniform(0.02, 0.3) * plan.throw).engine()


def eccentric_behind(rng: Random) -> Engine:
    """The eccentric slipped back, far enough that the ports open late."""
    plan = draw_sound_plan(rng)
    lead = sum(find_leads(plan).values()) / 2
    slack = asin(min((plan.lap + lead) / plan.throw, 1.0)) - asin(plan.lap / plan.throw)
    back = slack + radians(rng.uniform(2.6, 30.0))
    square = asin(plan.lap / plan.throw) - (back - slack)
    if plan.lap > 0 and abs(square) < radians(2.6):
        # A lapped valve on an eccentric that happens to stand square cannot be told from one that is too long.
        back += radians(5.2)
    return replace(plan, angle=plan.angle - back).engine()


def eccentric_ahead(rng: Random) -> Engine:
    """The eccentric set too far on."""
    plan = draw_sound_plan(rng)
    return replace(plan, angle=plan.angle + radians(rng.uniform(10.0, 30.0))).engine()


def eccentric_reversed(rng: Random) -> Engine:
    """The eccentric set as the other direction of rotation wants it."""
    plan = draw_sound_plan(rng)
    return replace(plan, angle=-plan.angle).engine()


def valve_off_centre(rng: Random) -> Engine:
    """The valve moved along its spindle, away from where the leads are equal."""
    plan = place_valve(draw_sound_plan(rng, double=True))
    side = 1.0 if plan.offset >= 0 else -1.0
    move = side * (rng.uniform(0.04, 0.35) * plan.throw + 0.06e-3)
    return replace(plan, offset=plan.offset + move, room=None).engine()


def ends_unequal(rng: Random) -> Engine:
    """Cavity or bridges not central, so that laps differ from end to end."""
    plan = draw_sound_plan(rng, double=True)
    shift = rng.choice([-1, 1]) * (rng.uniform(0.03, 0.2) * plan.throw + 0.06e-3)
    if rng.random() < 0.5:
        return replace(plan, cavity_shift=shift, room=None).engine()
    return replace(plan, bridge_shift=shift, room=None).engine()


def port_never_opens(rng: Random) -> Engine:
    """One end's edge so far out of place that the travel does not reach it."""
    plan = draw_sound_plan(rng, double=True, square=True)
    shift = rng.choice([-1, 1]) * plan.throw * rng.uniform(1.02, 1.15)
    return replace(plan, cavity_shift=shift, room=None, bridge=plan.bridge * 1.6).with_laps(steam=0, exhaust=0).engine()


def chest_open_to_exhaust(rng: Random) -> Engine:
    """Lands narrower than their ports on both edges."""
    plan = draw_sound_plan(rng)
    thin = rng.uniform(0.03, 0.2) * plan.throw + 0.08e-3
    return replace(plan, room=None).with_laps(steam=-thin, exhaust=-thin).engine()


def _with_share(rng: Random, least: float, most: float) -> Engine:
    """Travel cut down until the port opens only by a share; the eccentric's angle is left alone where it is square."""
    plan = draw_sound_plan(rng, square=True)
    return replace(plan, throw=plan.port * rng.uniform(least, most), room=None).engine()


def travel_too_short(rng: Random) -> Engine:
    """A throw that opens less than half of the port."""
    return _with_share(rng, 0.2, 0.48)


def port_starved(rng: Random) -> Engine:
    """A throw that opens somewhat more than half of the port."""
    return _with_share(rng, 0.52, 0.66)


def exhaust_choked(rng: Random) -> Engine:
    """An exhaust port too narrow for the travel."""
    plan = draw_sound_plan(rng, outside=True)
    outer = plan.outer
    covered = plan.exhaust / 2 + plan.cavity / 2 - plan.throw
    less = covered - plan.port * rng.uniform(0.2, 0.75)
    bridge = plan.bridge + less
    if outer - plan.port - bridge < 0.4 * plan.port:
        # This face covers so little that no port at all would be left: another one.
        return exhaust_choked(rng)
    return replace(plan, exhaust=2 * (outer - plan.port - bridge), bridge=bridge).engine()


def overtravel(rng: Random) -> Engine:
    """A throw so large that the valve's end bares the exhaust port."""
    plan = draw_sound_plan(rng, square=True, outside=True)
    bares = plan.length / 2 - plan.exhaust / 2
    return replace(plan, throw=bares + rng.uniform(0.05, 0.5) * plan.port + 0.05e-3, room=None).engine()


def valve_strikes_chest(rng: Random) -> Engine:
    """The chest's wall moved in at one end."""
    engine = replace(draw_sound_plan(rng), room=0.0).engine()
    sizes = engine.cylinders[0]
    key = rng.choice(["port_face.chest_head", "port_face.chest_crank"])
    less = (
        rng.uniform(0.05, 0.5) * sizes.numbers["port_face.steam_port"]
        if ("port_face.steam_port" in sizes.numbers)
        else 0.3e-3
    )
    moved = sizes.replacing({key: sizes.numbers[key] - less - 0.05 * sizes.numbers["valve_drive.throw"]})
    return replace(engine, cylinders=(moved,))


def no_expansion(rng: Random) -> Engine:
    """A matched engine that is to be economical on steam."""
    plan = draw_sound_plan(rng, square=True, outside=True, share=rng.uniform(1.2, 1.3))
    return replace(plan, purpose=ECONOMICAL, room=None).engine()


def late_admission(rng: Random) -> Engine:
    """A short eccentric rod with the valve centred by its travel: the head end opens late."""
    plan = draw_sound_plan(rng, square=True, outside=True, double=True, rod=(4.0, 7.5))
    return set_eccentric(replace(plan, offset=0.0, line_offset=0.0, valve_line_offset=0.0), 0.0).engine()


def early_admission(rng: Random) -> Engine:
    """The same with as much lead as is usual: the head end is in time, the crank end early."""
    plan = draw_sound_plan(rng, square=False, outside=True, double=True, rod=(4.0, 5.0), lead_share=0.08)
    plan = replace(plan, offset=0.0, line_offset=0.0, valve_line_offset=0.0)
    lead = 0.11 * plan.throw
    return set_eccentric(plan, lead).engine()


def cylinders_differ(rng: Random) -> Engine:
    """A twin of two sound cylinders with different laps."""
    first = replace(
        draw_sound_plan(rng, square=True, outside=True, double=True, share=rng.uniform(1.2, 1.3)), room=None
    )
    longer = first.with_laps(steam=first.throw * rng.uniform(0.25, 0.35))
    second = place_valve(set_eccentric(longer, 0.02 * first.throw))
    return Engine(name="Wrens", cylinders=(first.sizes("A"), second.sizes("B")))


INJECTIONS: dict[str, tuple[Injection, ...]] = {
    "late-admission": (late_admission,),
    "early-admission": (early_admission,),
    "eccentric-behind": (eccentric_behind,),
    "eccentric-ahead": (eccentric_ahead,),
    "eccentric-reversed": (eccentric_reversed,),
    "valve-too-long": (valve_too_long, valve_too_long_for_target),
    "valve-too-short": (valve_too_short,),
    "cavity-too-long": (cavity_too_long,),
    "cavity-too-short": (cavity_too_short,),
    "valve-off-centre": (valve_off_centre,),
    "ends-unequal": (ends_unequal,),
    "chest-open-to-exhaust": (chest_open_to_exhaust,),
    "port-never-opens": (port_never_opens,),
    "port-starved": (port_starved,),
    "exhaust-choked": (exhaust_choked,),
    "overtravel": (overtravel,),
    "valve-strikes-chest": (valve_strikes_chest,),
    "no-expansion-possible": (no_expansion,),
    "travel-too-short": (travel_too_short,),
    "cylinders-differ": (cylinders_differ,),
}
