"""Grub screws that do not hold what they have to, by a run's own loads."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.engine.sizes import Assumed
from lapwright.errors import BadInput
from lapwright.findings.finding import Finding
from lapwright.findings.parts.taking import NO_SOURCE, list_missing, list_run_taken, say_taken
from lapwright.findings.parts.worn_thread import VITAL, is_worn
from lapwright.tables.naming import find_thread
from lapwright.workshop.holding import ON_A_FLAT, TWO_SCREWS, Clamp, HoldingPlan, plan_holding
from lapwright.workshop.tightening import say_torque

CODE = "screw-will-not-hold"
#: Where nobody gave them: metal of a hub, and the thread in it in diameters of the screw.
_HUB, _ENGAGED = "brass", 1.0
#: What is screwed down on a shaft, and does not pull.
_PRESSING = ("grub screw", "screw")


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every sound grub screw that holds less than the factor over what it has to."""
    for fastener in engine.fasteners:
        if fastener.holds in VITAL and not is_worn(fastener) and not _is_let_in(fastener):
            plan = plan_hold(fastener, engine, loads)
            if plan is not None and find_held(fastener, plan) < plan.needed:
                yield _tell(fastener, plan, taken=list_taken(fastener, engine, loads))


def _is_let_in(fastener: Fastener) -> bool:
    """A dog or cone point in a dimple holds by its shape."""
    return fastener.seat == "dimple" and fastener.point in ("dog", "cone")


def find_held(fastener: Fastener, plan: HoldingPlan) -> float:
    """Return what the screws hold as they are [N m]: as drawn, with the flat under them, a second beside the first.

    Parameters
    ----------
    fastener: the screw, or several alike
    plan: what one of them holds on the plain shaft

    Source: set-screw-chart (flat); common practice, no source (a second screw)
    """
    flat = ON_A_FLAT if fastener.seat == "flat" else 1.0
    drawn = 1.0 if fastener.torque is None else min(fastener.torque / plan.grip.seating, 1.0)
    return plan.grip.holds * drawn * flat * (TWO_SCREWS if (fastener.count or 1) > 1 else 1.0)


def plan_hold(
    fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads], *, thread: str | None = None
) -> HoldingPlan | None:
    """Work out what a grub screw holds and whether that is enough; None where it cannot be known.

    Parameters
    ----------
    fastener: the screw
    engine: whose it is
    loads: what each cylinder's parts have to bear
    thread: of another screw in its place, by its name in the tables
    """
    torque = find_torque_to_hold(fastener, engine, loads)
    name = thread or fastener.thread
    if torque is None or name is None or fastener.shaft is None or fastener.kind not in _PRESSING:
        return None
    row = find_thread(name)
    clamp = Clamp(
        row=row,
        hub=fastener.hole_material or _HUB,
        shaft=fastener.shaft,
        engagement=fastener.engagement or _ENGAGED * row.major,
        point=fastener.point or "cup",
        slotted=fastener.kind == "screw",
        screw=fastener.screw_material or "steel",
    )
    try:
        return plan_holding(clamp, torque=torque, load="reversing", purpose=fastener.name)
    except BadInput:
        # A screw thinner or thicker than the tables of grub screws cannot be judged.
        return None


def find_torque_to_hold(fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads]) -> float | None:
    """Return the greatest torque that a run puts on what a screw holds [N m]; None where none is known.

    Parameters
    ----------
    fastener: the screw
    engine: whose it is
    loads: what each cylinder's parts have to bear

    Source: exact geometry (rod force times crank throw, at its greatest)
    """
    load = loads.get(fastener.cylinder)
    if load is None:
        return None
    if fastener.holds == "eccentric":
        return load.eccentric_torque
    sizes = next(sizes for sizes in engine.cylinders if sizes.name == fastener.cylinder)
    return load.rod_force * sizes.number("stroke") / 2


def list_taken(fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads]) -> tuple[Assumed, ...]:
    """Return what was taken for what nobody gave of a grub screw, and of what it has to hold.

    Parameters
    ----------
    fastener: the screw
    engine: whose it is
    loads: what each cylinder's parts have to bear
    """
    usual = {
        "hole_material": (_HUB, f"the usual hub ({NO_SOURCE})"),
        "engagement": ("one diameter of the screw", f"usual ({NO_SOURCE})"),
        "point": ("cup", f"the usual point ({NO_SOURCE})"),
    }
    return (*list_missing(fastener, usual), *list_load_taken(fastener, engine, loads))


def list_load_taken(fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads]) -> tuple[Assumed, ...]:
    """Return what the run took for what nobody gave and the torque on a screw rests on.

    Parameters
    ----------
    fastener: the screw
    engine: whose it is
    loads: what each cylinder's parts have to bear
    """
    return list_run_taken(engine, loads.get(fastener.cylinder), friction=fastener.holds == "eccentric")


def _say_screws(fastener: Fastener) -> str:
    on = " on a flat" if fastener.seat == "flat" else ""
    return f"two{on} hold" if (fastener.count or 1) > 1 else f"it holds{on}"


def _tell(fastener: Fastener, plan: HoldingPlan, *, taken: tuple[Assumed, ...]) -> Finding:
    held = find_held(fastener, plan)
    share = 100 * held / plan.needed
    return Finding(
        code=CODE,
        cylinder=fastener.cylinder,
        end=None,
        severity="stops-it" if held < plan.torque else "spoils-it",
        size=share,
        unit="%",
        title=f"The {fastener.name} may not hold the {fastener.holds}",
        because=(
            f"seated to {say_torque(plan.grip.seating)} {_say_screws(fastener)} {say_torque(held)} at the shaft"
            f"{say_taken(taken)}; the run puts {say_torque(plan.torque)} on it, and {plan.factor:g} times that is "
            "wanted where the load turns round in every turn"
        ),
        effect=(
            "the eccentric slips, and the valve is out of time" if fastener.holds == "eccentric" else "it works loose"
        ),
        check_next="scribe a line across part and shaft, run it, and look whether the line has parted",
        rests_on=tuple(assumed.key for assumed in taken),
        part=fastener.name,
    )
