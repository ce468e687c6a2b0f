"""Everything a visit tells, as plain lists and dictionaries in the shape of the results format 1."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from math import pi
from typing import TYPE_CHECKING, Any

from lapwright.cures import Cure
from lapwright.findings import Finding
from lapwright.job.visit import Visit
from lapwright.motion.answers import CylinderMotion, EndMotion
from lapwright.motion.spread import Spread
from lapwright.quantities.pressure import ATMOSPHERE
from lapwright.record import OpenedRecord

if TYPE_CHECKING:
    from lapwright.cures.part_cure import PartCure
    from lapwright.cycle.comparing import Showing
    from lapwright.workshop.item import Item

NO_SPREAD: Mapping[str, Spread] = {}


def list_results(visit: Visit) -> dict[str, Any]:
    """Return all results of a visit; a figure that is not known is None and named under `not_known`.

    Lengths in mm, angles in degrees of crank turn, as the results format says.
    """
    return {
        "format": 1,
        "engine": visit.engine.name,
        "problems": [asdict(problem) for problem in visit.record.problems],
        "assumed": [{**asdict(assumed), "affects": list(assumed.affects)} for assumed in visit.assumed],
        "not_known": [{"figure": gap.figure, "because": gap.because} for gap in visit.gaps],
        "aim": list(visit.aim),
        "cylinders": [
            _list_cylinder(motion, visit.spreads.get(name, NO_SPREAD)) for name, motion in visit.motions.items()
        ],
        "run": None if visit.ground is None else _list_showing(visit.ground.found),
        "no_run": visit.no_run,
        "findings": [_list_finding(finding) for finding in visit.all_findings],
        "cures": [
            *(_list_cure(cure) for cure in visit.cures),
            *(_list_part_cure(cure, visit.motions[cure.cylinder]) for cure in visit.part_cures),
        ],
        "finish": _list_finish(visit),
        "have_ready": [_list_item(item) for item in visit.have_ready],
    }


def list_problems(record: OpenedRecord) -> dict[str, Any]:
    """Return the results of a record that has to be mended first: its problems, and nothing else."""
    return {
        "format": 1,
        "engine": None if record.engine is None else record.engine.name,
        "problems": [asdict(problem) for problem in record.problems],
        "run": None,
        "no_run": "",
        "finish": None,
        **{name: [] for name in ("assumed", "not_known", "aim", "cylinders", "findings", "cures", "have_ready")},
    }


def _list_cylinder(motion: CylinderMotion, spread: Mapping[str, Spread]) -> dict[str, Any]:
    whole = {name: part for name, part in spread.items() if not name.startswith(("head.", "crank."))}
    return {
        "name": motion.name,
        "piston_area_mm2": dict(motion.piston_area_mm2),
        "laps_mm": {end: asdict(laps) for end, laps in motion.laps_mm.items()},
        "ends": {end: _list_end(answers, _spread_of(spread, end)) for end, answers in motion.ends.items()},
        "chest_to_exhaust_deg": motion.chest_to_exhaust_deg,
        "least_exhaust_way_mm": motion.least_exhaust_way_mm,
        "least_inlet_way_mm": motion.least_inlet_way_mm,
        "valve_travel_mm": motion.valve_travel_mm,
        "chest_room_mm": dict(motion.chest_room_mm),
        "spread": {name: part.half_width for name, part in whole.items()},
        "spread_from": {name: part.mostly_from for name, part in whole.items()},
    }


def _spread_of(spread: Mapping[str, Spread], end: str) -> dict[str, Spread]:
    return {name.removeprefix(f"{end}."): part for name, part in spread.items() if name.startswith(f"{end}.")}


def _list_end(answers: EndMotion, spread: Mapping[str, Spread]) -> dict[str, Any]:
    return {
        "events": {
            event: {"crank_deg": _list(times.crank_deg), "stroke_percent": _list(times.stroke_percent)}
            for event, times in answers.events.items()
        },
        "lead_mm": answers.lead_mm,
        "greatest_steam_opening_mm": answers.greatest_steam_opening_mm,
        "greatest_exhaust_opening_mm": answers.greatest_exhaust_opening_mm,
        "spread": {name: part.half_width for name, part in spread.items()},
        "spread_from": {name: part.mostly_from for name, part in spread.items()},
    }


def _list(values: tuple[float, ...] | None) -> list[float] | None:
    return None if values is None else list(values)


def _list_finding(finding: Finding) -> dict[str, Any]:
    told = {name: value for name, value in asdict(finding).items() if name != "mends"}
    return {**told, "effects": list(finding.effects)}


def _list_cure(cure: Cure) -> dict[str, Any]:
    return {
        "code": cure.code,
        "cylinder": cure.cylinder,
        "title": cure.title,
        "answers": list(cure.answers),
        "work": cure.work,
        "steps": list(cure.steps),
        "set": {name: list(value) if isinstance(value, tuple) else value for name, value in cure.set.items()},
        "after": _list_cylinder(cure.after, NO_SPREAD),
        "left": list(cure.left),
        "before_you_start": list(cure.before_you_start),
        "gain": cure.gain,
        "run": None if cure.run is None else _list_showing(cure.run),
        "have_ready": [_list_item(item) for item in cure.have_ready],
        **{name: [] for name in ("notes", "sources", "taken")},
        "part": "",
    }


def _list_part_cure(cure: PartCure, motion: CylinderMotion) -> dict[str, Any]:
    """A part's cure in the shape of the others: it leaves the timing as it is."""
    told = {name: list(value) if isinstance(value, tuple) else value for name, value in asdict(cure).items()}
    return {
        **told,
        "after": _list_cylinder(motion, NO_SPREAD),
        "gain": "",
        "run": None,
        "have_ready": [_list_item(item) for item in cure.have_ready],
        "taken": [assumed.key for assumed in cure.taken],
    }


def _list_finish(visit: Visit) -> dict[str, Any] | None:
    # What paints is loaded for an engine that is to be painted.
    if visit.finish is None:
        return None
    from lapwright.job.finishing import list_finish

    return list_finish(visit.finish)


def _list_item(item: Item) -> dict[str, Any]:
    return {**asdict(item), "purposes": list(item.purposes)}


def _list_showing(showing: Showing) -> dict[str, Any]:
    """How the engine does, in short; pressures above the atmosphere."""
    run, least, starting = showing.run, showing.least_pressure, showing.starting_pressure
    return {
        "speed_rpm": run.conditions.speed * 30 / pi,
        "supply_pressure_kpa": (run.conditions.supply - ATMOSPHERE) / 1e3,
        "brake_power_w": run.brake_power,
        "indicated_power_w": run.indicated_power,
        "supplied_g_per_min": run.supplied * 6e4,
        "least_pressure_kpa": None if least is None else (least - ATMOSPHERE) / 1e3,
        "starting_percent": 100 * showing.starting_share,
        "starting_pressure_kpa": None if starting is None else (starting - ATMOSPHERE) / 1e3,
    }
