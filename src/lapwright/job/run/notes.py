"""What there is to say of a run besides its figures: what would go wrong, and what to look out for."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, pi
from typing import TYPE_CHECKING

from lapwright.job.showing import show_power, show_torque
from lapwright.quantities.temperature import FREEZING

if TYPE_CHECKING:
    # The cautions are shown where nothing was run yet, too.
    from lapwright.cycle.answers import CylinderRun
    from lapwright.cycle.comparing import Showing
    from lapwright.cycle.engine_run import EngineRun
    from lapwright.engine.engine import Engine
    from lapwright.job.run.stand import Stand

#: Mean piston speed beyond which small engines are not run [m/s] (common practice, no source).
FAST_PISTON = 3.0
#: A share of the air or steam that goes straight through and is worth a word.
_MUCH_BLOWN = 0.02
#: Fluctuations of the speed, greatest less least over the mean, that are felt (common practice, no source), and that
#: no turn can have.
_UNEVEN, _TOO_UNEVEN = 0.1, 1.0
CAUTIONS = {
    "air": "Compressed air stores energy: wear eye protection, and keep to what the weakest part is known to stand.",
    "steam": "Steam scalds, and water shut in breaks covers: warm the engine slowly, with the drains open.",
}
TURNING = "Keep hands, sleeves and rags out of rods and flywheel."
BY_HAND = "Shut off and vent the supply before you turn it by hand."
NO_PROOF = (
    "These sums say nothing of whether boiler, chest or cylinder stand the pressure: that is for the local rules, the "
    "inspector and the insurer."
)


def list_cautions(fluid: str, *, by_hand: bool = False) -> tuple[str, ...]:
    """Return the cautions that go with putting an engine on air or on steam.

    Parameters
    ----------
    fluid: "air" or "steam"
    by_hand: whether its crank is set by hand besides

    Source: common practice, no source
    """
    return CAUTIONS[fluid], *((BY_HAND,) if by_hand else ()), TURNING, NO_PROOF


def tell_run(stand: Stand, showing: Showing) -> Iterator[str]:
    """Yield what a person should know of a run, in sentences, what matters most first.

    Parameters
    ----------
    stand: what the engine is put on
    showing: how it does there
    """
    run = showing.run
    yield from tell_racing(stand, run)
    yield from _tell_power(stand, showing)
    yield from _tell_turning_over(stand, showing)
    if not run.settled:
        change = max(cylinder.change for cylinder in run.cylinders)
        yield (
            f"The turn did not repeat itself within {run.turns} turns: the last still differed by {100 * change:.2g} "
            "%, and the figures are that uncertain."
        )
    dead = [cylinder.name for cylinder in run.cylinders if cylinder.name in stand.plant.dead]
    if dead:
        yield f"Dragged along with the pipes off: cylinder {' and '.join(dead)}, moving the shop's air about."
    alive = [cylinder for cylinder in run.cylinders if cylinder.name not in dead]
    yield from _tell_medium(alive)
    yield from _tell_valves(alive, many=len(run.cylinders) > 1)
    yield from _tell_speed(stand, run)


def tell_taken_sound(engine: Engine, stand: Stand) -> Iterator[str]:
    """Yield what is not well by the record, and is taken as well for the run.

    Parameters
    ----------
    engine: as its record tells of it
    stand: what the engine is put on
    """
    is_taken = any(assumed.key == "running.gland_gap" for assumed in stand.assumed)
    many = len(engine.cylinders) > 1
    for gland in engine.glands:
        if gland.packed_with == "nothing" and is_taken:
            of_it = f" of cylinder {gland.cylinder}" if many else ""
            yield f"The gland of the {gland.on}{of_it} is empty in the record; this run takes it as packed."
    for fastener in engine.fasteners:
        if fastener.state == "stripped":
            yield f"The thread of the {fastener.name} is stripped in the record; this run takes it as holding."


def tell_racing(stand: Stand, run: EngineRun) -> Iterator[str]:
    """Yield the caution that goes before all others at a speed that only the sums reach.

    Source: common practice, no source
    """
    piston = _find_piston_speed(stand, run)
    if piston > FAST_PISTON:
        yield (
            f"Caution: at {piston:.1f} m/s the piston moves faster than small engines are run. Nothing here governs "
            "the speed, and friction is taken as no greater than at a crawl: what is told is the most that it could "
            "reach. An engine that runs away bursts its flywheel: never let it run up without a load and a hand on "
            "the valve."
        )


def _find_piston_speed(stand: Stand, run: EngineRun) -> float:
    """The fastest piston's mean speed [m/s]."""
    return run.conditions.speed / pi * max(setup.sizes.number("stroke") for setup in stand.plant.setups)


def _tell_power(stand: Stand, showing: Showing) -> Iterator[str]:
    run = showing.run
    # A speed that was found to fit a load fits it to within the search.
    if stand.is_loaded and run.indicated_power > 0:
        return
    if run.indicated_power < 0 and showing.least_pressure is None:
        yield "The pistons take power instead of giving it: set like this, the engine wants to run the other way round."
    elif run.indicated_power < 0:
        yield "The pistons pump instead of driving: something else has to turn the engine at this speed and pressure."
    elif run.brake_power < 0:
        yield (
            "It does not keep this speed up by itself: its friction takes "
            f"{show_power(-run.brake_power)} more than the pistons give."
        )


def _tell_turning_over(stand: Stand, showing: Showing) -> Iterator[str]:
    least, supply = showing.least_pressure, showing.run.conditions.supply
    if stand.conditions.ideal:
        return
    if least is None:
        yield "At no pressure that was tried does it turn over in this direction."
    elif least > supply:
        yield f"It turns over only from {stand.show(least)} on; at {stand.show(supply)} it stands still."


def _tell_medium(alive: list[CylinderRun]) -> Iterator[str]:
    """What becomes of the air or steam: blown through, frozen, turned to water."""
    supplied = sum(cylinder.supplied for cylinder in alive)
    if supplied <= 0:
        return
    fluid = alive[0].conditions.fluid
    blown = sum(cylinder.uses["blow-through"] for cylinder in alive) / supplied
    if blown > _MUCH_BLOWN:
        yield f"{100 * blown:.0f} % of the {fluid} goes straight from chest to exhaust and does no work."
    coldest = min(cylinder.exhaust_temperature for cylinder in alive) - FREEZING
    if fluid == "air" and coldest < 0:
        yield f"The exhaust comes out at {coldest:.0f} degC: damp air may freeze there and choke the ports."
    condensed = sum(cylinder.condensed for cylinder in alive) / supplied
    if condensed > 0:
        yield f"In every turn {100 * condensed:.0f} % of the steam turns to water on the walls."


def _tell_valves(alive: list[CylinderRun], *, many: bool) -> Iterator[str]:
    for cylinder in alive:
        of_it = f" of cylinder {cylinder.name}" if many else ""
        for start, stop in cylinder.valve.lifts if cylinder.valve is not None else ():
            yield (
                f"The valve{of_it} is lifted off its face from {degrees(start):.0f} to {degrees(stop):.0f} deg of its "
                "crank, unless something holds it down."
            )
    twist = max((cylinder.valve.eccentric_torque for cylinder in alive if cylinder.valve is not None), default=0.0)
    if twist > 0:
        yield (
            f"The valve twists its eccentric by {show_torque(twist)} at most by its friction alone: so much its screw "
            "has to hold, and more at speed, for the valve's own weight is not in it."
        )


def _tell_speed(stand: Stand, run: EngineRun) -> Iterator[str]:
    if run.unevenness is None or run.unevenness <= _UNEVEN:
        return
    taken = any(assumed.key == "running.flywheel_inertia" for assumed in stand.assumed)
    wheel = "The flywheel, assumed because it is not given," if taken else "The flywheel"
    if run.unevenness > _TOO_UNEVEN:
        yield f"{wheel} is too light to carry it round at this speed, which is taken as steady all the same."
    else:
        yield f"{wheel} lets the speed swing by {100 * run.unevenness:.0f} % within a turn."
