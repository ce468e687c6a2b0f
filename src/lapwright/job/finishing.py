"""How an engine is painted: what its record asks for, put to the workshop, with what was taken for granted."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Assumed
from lapwright.medium.boiling import HIGHEST, LOWEST, find_boiling_point
from lapwright.quantities.pressure import ATMOSPHERE
from lapwright.quantities.temperature import FREEZING
from lapwright.workshop.finish import plan_finish
from lapwright.workshop.finish_plan import Coat, FinishPlan
from lapwright.workshop.paint_choice import list_paints

#: Warmth of a shop [K].
ROOM = 293.15


def plan_painting(engine: Engine) -> FinishPlan | None:
    """Plan the painting that a record asks for; None where it asks for none."""
    wanted = engine.finish
    if wanted is None:
        return None
    # A record may name every row of the table of paints, and some of them are primers.
    is_primer = wanted.paint is not None and wanted.paint not in {paint.name for paint in list_paints()}
    plan = plan_finish(
        metal=wanted.metal,
        temperature=find_heat(engine)[0] if wanted.temperature is None else wanted.temperature,
        surface=wanted.surface,
        old_paint=wanted.old_paint,
        lettering=wanted.lettering,
        masked=wanted.bright,
        paint=None if is_primer else wanted.paint,
    )
    if wanted.paint is None or not is_primer:
        return plan
    wish = f"{wanted.paint[:1].upper()}{wanted.paint[1:]}"
    return replace(plan, instead_of=wanted.paint, why=f"{wish} is a primer and no last coat. {plan.why}")


def list_painting_assumed(engine: Engine) -> tuple[Assumed, ...]:
    """Return what was taken for the painting because nobody gave it."""
    if engine.finish is None or engine.finish.temperature is not None:
        return ()
    temperature, whose = find_heat(engine)
    shown = f"{temperature - FREEZING:.0f} degC"
    return (Assumed("finish.temperature", shown, f"not given: taken as that of {whose}", ("finish",)),)


def find_heat(engine: Engine) -> tuple[float, str]:
    """Return how hot an engine's metal is in service [K] where nobody measured it, and what it is as hot as.

    It is as hot as what arrives in it; on air, where nobody measured that either, as the room.

    Parameters
    ----------
    engine: as recorded
    """
    supply = engine.running.supply_temperature
    if engine.fluid != "steam":
        return (ROOM, "the room") if supply is None else (supply, "the air that arrives")
    if supply is not None:
        return supply, "the steam"
    if engine.supply_pressure is None:
        return find_boiling_point(ATMOSPHERE), "steam at the atmosphere's pressure, for no other is given"
    pressure = min(max(engine.supply_pressure + ATMOSPHERE, LOWEST), HIGHEST)
    return find_boiling_point(pressure), "the steam"


def list_finish(plan: FinishPlan) -> dict[str, Any]:
    """Return a painting plan as plain lists: temperatures in degC, films in micrometres, paint in millilitres."""
    return {
        "metal": plan.metal,
        "temperature_c": plan.temperature - FREEZING,
        "surface_cm2": None if plan.surface is None else plan.surface * 1e4,
        "paint": plan.paint,
        "instead_of": plan.instead_of,
        "why": plan.why,
        "coats": [_list_coat(coat) for coat in plan.coats],
        **{name: list(getattr(plan, name)) for name in ("steps", "faults", "notes", "cautions", "sources")},
    }


def _list_coat(coat: Coat) -> dict[str, Any]:
    return {
        "name": coat.name,
        "paint": coat.paint,
        "dry_film_um": None if coat.dry_film is None else coat.dry_film * 1e6,
        "wet_film_um": None if coat.wet_film is None else coat.wet_film * 1e6,
        "recoat": coat.recoat,
        "cure": coat.cure,
        "amount_ml": None if coat.amount is None else coat.amount * 1e6,
        "source": coat.source,
    }
