"""How an engine is painted: what its record asks for, put to the workshop, with what was taken for granted."""

from __future__ import annotations

from typing import Any

from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Assumed
from lapwright.medium.boiling import find_boiling_point
from lapwright.quantities.pressure import ATMOSPHERE
from lapwright.quantities.temperature import FREEZING
from lapwright.workshop.finish import plan_finish
from lapwright.workshop.finish_plan import Coat, FinishPlan

#: Warmth of a shop [K].
_ROOM = 293.15


def plan_painting(engine: Engine) -> FinishPlan | None:
    """Plan the painting that a record asks for; None where it asks for none.

    Raises
    ------
    NotOneOf: the paint that is wished for is none of the tables'
    """
    wanted = engine.finish
    if wanted is None:
        return None
    temperature = wanted.temperature
    return plan_finish(
        metal=wanted.metal,
        temperature=_find_temperature(engine) if temperature is None else temperature,
        surface=wanted.surface,
        old_paint=wanted.old_paint,
        lettering=wanted.lettering,
        masked=wanted.bright,
        paint=wanted.paint,
    )


def list_painting_assumed(engine: Engine) -> tuple[Assumed, ...]:
    """Return what was taken for the painting because nobody gave it."""
    if engine.finish is None or engine.finish.temperature is not None:
        return ()
    shown = f"{_find_temperature(engine) - FREEZING:.0f} degC"
    why = "that of the steam" if engine.fluid == "steam" else "that of the room"
    return (Assumed("finish.temperature", shown, f"not given: taken as {why}", ("finish",)),)


def _find_temperature(engine: Engine) -> float:
    """The metal is as hot as the steam in it, and on air as the room."""
    if engine.fluid != "steam":
        return _ROOM
    if engine.running.supply_temperature is not None:
        return engine.running.supply_temperature
    return find_boiling_point((engine.supply_pressure or 0.0) + ATMOSPHERE)


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
