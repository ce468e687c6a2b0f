"""Covers pulled down so far that their studs are overloaded."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.engine.sizes import Assumed
from lapwright.errors import BadInput
from lapwright.findings.finding import Finding
from lapwright.findings.parts.names import name_fasteners
from lapwright.findings.parts.taking import NO_SOURCE, find_pressure, list_missing, list_run_taken, say_taken
from lapwright.medium.boiling import find_boiling_point
from lapwright.quantities.pressure import ATMOSPHERE
from lapwright.tables.naming import find_thread
from lapwright.workshop.cover_figures import CoverFigures, CoverWish, find_cover_figures
from lapwright.workshop.covers import Joint
from lapwright.workshop.tightening import say_torque

CODE = "stud-overloaded"
#: Where nobody gave it: how much wider than the bore the joint is [m]; common practice, no source.
_LAND = 5e-3
_ROOM = 293.15
#: A torque tells the pull to about a third of it: published bolting tables.
_TORQUE_DOUBT = 1 / 3


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every cover whose studs were drawn tighter than they may be."""
    for fastener in engine.fasteners:
        wish = describe_cover(fastener, engine, loads)
        if wish is None or wish.torque is None:
            continue
        figures = find_cover_figures(wish)
        if figures.was_overtightened:
            yield _tell(fastener, figures, taken=list_taken(fastener, engine, loads))


def describe_cover(fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads]) -> CoverWish | None:
    """Put together what is known of a cover; None for another fastener, or where too little is known.

    Parameters
    ----------
    fastener: the studs
    engine: whose they are
    loads: what each cylinder's parts have to bear
    """
    sizes = next(sizes for sizes in engine.cylinders if sizes.name == fastener.cylinder)
    bore, load = sizes.numbers.get("bore"), loads.get(fastener.cylinder)
    pressure = find_pressure(engine, load)
    if fastener.holds != "cover" or fastener.kind == "grub screw":
        return None
    if fastener.thread is None or fastener.count is None or bore is None or pressure is None:
        return None
    outside = fastener.joint_outside or bore + _LAND
    temperature = _find_temperature(load, engine, pressure)
    if outside <= bore or temperature is None:
        return None
    return CoverWish(
        name=fastener.name,
        joint=Joint(bore, outside),
        pressure=pressure,
        fluid=engine.fluid or "air",
        temperature=temperature,
        count=fastener.count,
        thread=find_thread(fastener.thread),
        gasket=fastener.gasket,
        stud_metal=fastener.screw_material or "steel",
        condition=fastener.thread_is or "dry",
        hole_metal=fastener.hole_material,
        engagement=fastener.engagement,
        torque=fastener.torque,
        kind=fastener.kind,
    )


def _find_temperature(load: PartLoads | None, engine: Engine, pressure: float) -> float | None:
    """None where water does not boil under such a pressure."""
    known = engine.running.supply_temperature if load is None else load.temperature
    if known is not None or engine.fluid != "steam":
        return _ROOM if known is None else known
    try:
        return find_boiling_point(pressure + ATMOSPHERE)
    except BadInput:
        return None


def list_taken(fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads]) -> tuple[Assumed, ...]:
    """Return what was taken for what nobody gave of a cover's studs, and of what it has to hold.

    Parameters
    ----------
    fastener: the studs
    engine: whose they are
    loads: what each cylinder's parts have to bear
    """
    usual = {
        "joint_outside": (f"{_LAND * 1e3:g} mm over the bore", f"usual ({NO_SOURCE})"),
        "screw_material": ("steel", "of class 4.6, the weaker"),
        "thread_is": ("dry", "dry, which pulls least for a torque"),
    }
    return (*list_missing(fastener, usual), *list_run_taken(engine, loads.get(fastener.cylinder)))


def _tell(fastener: Fastener, figures: CoverFigures, *, taken: tuple[Assumed, ...]) -> Finding:
    found = figures.found
    assert found is not None
    share = 100 * found.stress / found.proof
    past = found.stress > found.proof
    name, verb = name_fasteners(fastener)
    return Finding(
        code=CODE,
        cylinder=fastener.cylinder,
        end=None,
        severity="stops-it" if past else "spoils-it",
        size=share,
        unit="%",
        title=f"The {name} {verb} drawn too tight",
        because=(
            f"{say_torque(found.torque)} pulls {found.pull:.0f} N in each {fastener.thread}, {found.stress / 1e6:.0f} "
            f"MPa, which is {share:.0f} % of the proof stress{say_taken(taken)}; the joint asks "
            f"{say_torque(figures.stud.torque)}, and {say_torque(figures.most_torque)} is the most that may be used"
        ),
        effect=(
            "a stud stretched past its proof stress has lost its grip and may part under pressure: put none on"
            if past
            else "little is left for the pressure, and the next pull may strip or break one"
        ),
        check_next=(
            "take one out and lay it beside a new one: a stretched stud has threads that no longer match, and a waist"
        ),
        rests_on=tuple(assumed.key for assumed in taken),
        doubt=share * _TORQUE_DOUBT,
        doubt_mostly_from=f"fastener.{fastener.number}.thread_is",
        part=fastener.name,
    )
