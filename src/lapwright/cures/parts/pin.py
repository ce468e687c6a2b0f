"""A shouldered pin with a plain shank takes the place of a bolt."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.cures.part_cure import PartCure
from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Pin
from lapwright.engine.sizes import Assumed
from lapwright.errors import BadInput
from lapwright.findings.finding import Finding
from lapwright.findings.parts.bearing_thread import list_taken as list_shank_taken
from lapwright.findings.parts.taking import NO_SOURCE, list_missing, list_run_taken
from lapwright.tables.naming import find_thread
from lapwright.workshop.pin_plan import PinPlan, plan_pin
from lapwright.workshop.pin_sizes import PinWish

#: What the pin and the part on it are made of where nobody gave it.
_PIN, _PART = "steel", "gunmetal"


def cure(finding: Finding, engine: Engine, loads: Mapping[str, PartLoads]) -> PartCure | None:
    """Make the pin that a finding names; None where its size is not known.

    Parameters
    ----------
    finding: what was found
    engine: whose pin it is
    loads: what each cylinder's parts have to bear
    """
    pin = next(p for p in engine.pins if p.cylinder == finding.cylinder and p.name == finding.part)
    if pin.moving_part is None:
        return None
    try:
        plan = plan_pin(_describe(pin, loads.get(pin.cylinder)))
    except BadInput:
        return None
    return PartCure(
        code="make-pin",
        cylinder=pin.cylinder,
        part=pin.name,
        title=f"Make a shouldered {pin.name} with a plain shank",
        answers=(finding.code,),
        work="a new part",
        steps=plan.steps,
        set=_figures(plan),
        before_you_start=plan.cautions,
        notes=plan.notes,
        have_ready=plan.have_ready,
        sources=plan.sources,
        taken=(*_list_taken(pin), *_list_load_taken(pin, engine, loads.get(pin.cylinder))),
    )


def _figures(plan: PinPlan) -> dict[str, float | str | tuple[float, ...]]:
    sizes = plan.sizes
    end = {} if sizes.thread is None else {"thread": sizes.thread.name}
    # Where the cheek under the head is not known, the shank is longer by it.
    length = "shank_past_cheek_mm" if sizes.adds_cheek else "shank_length_mm"
    return {
        "shank_mm": tuple(1e3 * size for size in sizes.shank.shaft),
        length: tuple(1e3 * length for length in sizes.length),
        "reamed_mm": tuple(1e3 * size for size in sizes.shank.hole),
        **end,
    }


def _describe(pin: Pin, load: PartLoads | None) -> PinWish:
    assert pin.moving_part is not None
    thread = find_thread(pin.thread) if pin.thread else None
    diameter = pin.diameter
    if diameter is None and pin.hole is None and thread is not None:
        # A bolt is as thick as its thread.
        diameter = thread.major
    return PinWish(
        name=pin.name,
        joint=pin.joint,
        moving_part=pin.moving_part,
        diameter=diameter,
        hole=pin.hole,
        planes=1 if pin.shear == "single" else 2,
        metal=pin.material or _PIN,
        runs_in=pin.runs_in or _PART,
        thread=thread,
        load=_find_load(pin, load),
    )


def _find_load(pin: Pin, load: PartLoads | None) -> float | None:
    """The valve's friction on its fork and eccentric rod, the piston's force on the crosshead and the crank pin."""
    if load is None:
        return None
    return {
        "valve fork": load.valve_friction,
        "eccentric rod": load.valve_friction,
        "crosshead": load.rod_force,
        "crank pin": load.rod_force,
    }.get(pin.joint)


def _list_load_taken(pin: Pin, engine: Engine, load: PartLoads | None) -> tuple[Assumed, ...]:
    if _find_load(pin, load) is None:
        return ()
    return list_run_taken(engine, load, friction=pin.joint in ("valve fork", "eccentric rod"))


def _list_taken(pin: Pin) -> tuple[Assumed, ...]:
    usual = {
        "material": (_PIN, f"the usual metal ({NO_SOURCE})"),
        "runs_in": (_PART, f"the usual metal ({NO_SOURCE})"),
        "shear": ("double", "held at both sides of the part"),
    }
    if pin.hole is None:
        usual["diameter"] = (f"that of its thread, {pin.thread}", "the diameter of the thread on it")
    screw = list_shank_taken(pin) if pin.kind == "screw" else ()
    return (*list_missing(pin, usual), *screw)
