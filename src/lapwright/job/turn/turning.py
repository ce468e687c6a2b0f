"""One cylinder turned over: all that moves, opens and presses through a turn, as arrays and figures for a picture."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from math import degrees
from typing import TYPE_CHECKING, Any

from lapwright.engine.cylinder import ENDS
from lapwright.engine.sizes import Sizes
from lapwright.errors import CannotRun, NotThere
from lapwright.job.visit import Visit
from lapwright.motion.answers import CylinderMotion, Movement, describe_motion, set_moving
from lapwright.motion.arcs import Arc, find_arcs
from lapwright.motion.regions import find_exhaust_region, find_steam_region, find_straight_region
from lapwright.motion.travel import TURN
from lapwright.quantities.pressure import ATMOSPHERE

if TYPE_CHECKING:
    from lapwright.cycle.conditions import Conditions
    from lapwright.motion.ways import Trace

#: What an end can be open to.
STATES = ("shut", "steam", "exhaust", "both")
#: Figures travel as whole numbers of ten-thousandths: of a millimetre, a degree, a bar.
_FINE = 1e4
_BAR = 1e5


@dataclass(frozen=True, slots=True, kw_only=True)
class PressureCard:
    """The pressures of one turn: by end, over the turn's angles, absolute [Pa]; mean effective pressures [Pa] by end.

    `supply` and `exhaust` [Pa, absolute] and `speed` [rad/s] are what it was run on.
    """

    pressures: Mapping[str, Any]
    means: Mapping[str, float]
    supply: float
    exhaust: float
    speed: float


@dataclass(frozen=True, kw_only=True)
class Turn:
    """One cylinder through one turn, in the direction in which it is turned.

    `trace` holds the arrays over the angles of its own crank. `phase` [rad] is how far its crank leads the first
    cylinder's. `card` is None where no run can be worked out (`no_card` says why) or none was asked for.
    """

    name: str
    sizes: Sizes
    moving: Movement
    backwards: bool
    phase: float
    trace: Trace
    card: PressureCard | None = None
    no_card: str = ""

    @cached_property
    def motion(self) -> CylinderMotion:
        """Events, lead and laps as everywhere else; worked out when they are asked for, for the arrays come first."""
        return describe_motion(self.sizes)

    @cached_property
    def steam(self) -> Mapping[str, tuple[Arc, ...]]:
        """The arcs during which an end's port is open to steam."""
        return {end: _find_arcs(self.moving, find_steam_region(self.moving.cylinder, end)) for end in ENDS}

    @cached_property
    def exhaust(self) -> Mapping[str, tuple[Arc, ...]]:
        """The arcs during which an end's port is open to exhaust."""
        return {end: _find_arcs(self.moving, find_exhaust_region(self.moving.cylinder, end)) for end in ENDS}

    @cached_property
    def straight(self) -> tuple[Arc, ...]:
        """The arcs during which the chest is open straight to exhaust."""
        return _find_arcs(self.moving, find_straight_region(self.moving.cylinder))

    @property
    def ends(self) -> tuple[str, ...]:
        """The ends that work."""
        return tuple(ENDS) if self.moving.cylinder.double_acting else ("head",)

    def find_state(self, end: str, angle: float) -> str:
        """Return what an end is open to at an angle of its crank [rad]: one of `STATES`.

        "both" is live steam going straight through the port to exhaust.
        """
        steam = any(arc.holds(angle) for arc in self.steam.get(end, ()))
        exhaust = any(arc.holds(angle) for arc in self.exhaust.get(end, ()))
        return STATES[steam + 2 * exhaust]


def turn_over(visit: Visit, cylinder: str, *, backwards: bool = False, with_card: bool = False) -> Turn:
    """Turn one cylinder of an engine over as it was found.

    Parameters
    ----------
    visit: the engine
    cylinder: its name
    backwards: whether it is turned against the direction for which its record gives the angles
    with_card: whether the pressures are worked out as well

    Raises
    ------
    NotThere: the engine has no cylinder of that name
    """
    sizes = find_cylinder(visit, cylinder)
    conditions = choose_conditions_of(visit) if with_card else None
    return turn_sizes(visit, sizes, backwards=backwards, conditions=conditions)


def find_cylinder(visit: Visit, name: str) -> Sizes:
    """Return a cylinder of an engine by its name.

    Raises
    ------
    NotThere: the engine has none of that name
    """
    for sizes in visit.cylinders:
        if sizes.name == name:
            return sizes
    names = ", ".join(sizes.name for sizes in visit.cylinders)
    raise NotThere(f"cylinder {name}", f"its cylinders: {names}")


def turn_sizes(
    visit: Visit,
    sizes: Sizes,
    *,
    backwards: bool = False,
    conditions: Conditions | CannotRun | None = None,
    points: int = 360,
) -> Turn:
    """Turn one cylinder over with sizes of its own.

    Parameters
    ----------
    visit: the engine that it belongs to
    sizes: of the cylinder
    backwards: whether it is turned against the direction for which the sizes give the angles
    conditions: what it is run on for its pressure card, or why it cannot be run; None leaves the card out
    points: how many even angles it is told at [-]
    """
    from lapwright.motion.ways import trace_turn

    turned = reverse_sizes(sizes) if backwards else sizes
    moving = set_moving(turned)
    turn = Turn(
        name=sizes.name,
        sizes=turned,
        moving=moving,
        backwards=backwards,
        phase=moving.cylinder.crank_phase,
        trace=trace_turn(moving, points=points),
    )
    return turn if conditions is None else add_card(visit, turn, conditions)


def add_card(visit: Visit, turn: Turn, conditions: Conditions | CannotRun) -> Turn:
    """Return a turn with its pressure card, or with the reason why there is none.

    Parameters
    ----------
    visit: the engine that it belongs to
    turn: without a card
    conditions: what it is run on, or why it cannot be run
    """
    if isinstance(conditions, CannotRun):
        return replace(turn, no_card=str(conditions))
    try:
        return replace(turn, card=_draw_card(visit, turn, conditions))
    except CannotRun as error:
        return replace(turn, no_card=str(error))


def _find_arcs(moving: Movement, region: Any) -> tuple[Arc, ...]:
    return () if region is None or moving.valve is None else find_arcs(moving.valve, region)


def reverse_sizes(sizes: Sizes) -> Sizes:
    """Return the same cylinder as it is when it turns the other way: what leads then follows.

    Parameters
    ----------
    sizes: of the cylinder, counted in one direction of turning

    Source: exact geometry (the mirror image)
    """
    mirrored = ("crank_phase", "cylinder_offset", "valve_drive.eccentric_angle", "valve_drive.valve_line_offset")
    changes = {key: -sizes.numbers[key] for key in mirrored if key in sizes.numbers}
    for key in ("crank_phase", "valve_drive.eccentric_angle"):
        if key in changes:
            changes[key] %= TURN
    return replace(sizes, numbers={**sizes.numbers, **changes})


def choose_conditions_of(
    visit: Visit, *, supply: float | None = None, speed: float | None = None
) -> Conditions | CannotRun:
    """Return what an engine is run on: what its record speaks of, or supply [Pa, gauge] and speed [rad/s] of one's own.

    Where it cannot be run the reason is returned, not raised: the picture moves all the same.
    """
    from lapwright.cycle.plant_setup import choose_conditions, prepare_plant

    fluid = visit.engine.fluid or "air"
    engine = visit.engine if supply is None else replace(visit.engine, supply_pressure=supply)
    try:
        plant = prepare_plant(engine, fluid=fluid, cylinders=visit.cylinders)
        return choose_conditions(engine, plant, fluid=fluid, speed=speed)
    except CannotRun as error:
        return error


def _draw_card(visit: Visit, turn: Turn, conditions: Conditions) -> PressureCard:
    """Run the cylinder alone, on few steps: its card hangs on no other cylinder."""
    from lapwright.cycle.cylinder_run import run_cylinder, sample_pressures
    from lapwright.cycle.plant_setup import prepare_plant

    plant = prepare_plant(visit.engine, fluid=conditions.fluid, cylinders=(turn.sizes,))
    run = run_cylinder(plant.setups[0], conditions, quick=True)
    return PressureCard(
        pressures={end: sample_pressures(run, end, turn.trace.angles) for end in run.ends},
        means={end: part.mean_effective_pressure for end, part in run.ends.items()},
        supply=conditions.supply,
        exhaust=conditions.exhaust,
        speed=conditions.speed,
    )


def show_turn(turn: Turn) -> dict[str, Any]:
    """Return a turn as plain data for a page: whole numbers of 0.0001 mm, 0.0001 deg and 0.0001 bar (gauge).

    Parameters
    ----------
    turn: from `turn_over` or `try_sizes`
    """
    return {**show_openings(turn), **show_times(turn), **show_card(turn)}


def show_openings(turn: Turn) -> dict[str, Any]:
    """Return how the valve moves and what it opens: that is drawn first.

    Parameters
    ----------
    turn: from `turn_over` or `try_sizes`
    """
    trace, gear = turn.trace, turn.moving.cylinder.gear
    return {
        "name": turn.name,
        "backwards": turn.backwards,
        "ends": list(turn.ends),
        "angles": _scale(trace.angles * (360 / TURN)),
        "valve": _scale_mm(trace.valve),
        "steam": {} if trace.steam is None else {end: _scale_mm(trace.steam[end]) for end in turn.ends},
        "exhaust": {} if trace.exhaust is None else {end: _scale_mm(trace.exhaust[end]) for end in turn.ends},
        "eccentric": None if gear is None else degrees(gear.angle),
        "valve_offset": None if gear is None else gear.valve_offset * 1e3,
    }


def show_times(turn: Turn) -> dict[str, Any]:
    """Return where crank and piston stand, and what is told in figures: events, arcs, leads and laps.

    Parameters
    ----------
    turn: from `turn_over` or `try_sizes`
    """
    motion, valve = turn.motion, turn.moving.valve
    return {
        "place": _scale_mm(turn.trace.place),
        "gone": _scale_mm(turn.trace.gone),
        "phase": degrees(turn.phase),
        "arcs": {
            end: {"steam": _show_arcs(turn.steam[end]), "exhaust": _show_arcs(turn.exhaust[end])} for end in turn.ends
        },
        "straight_arcs": _show_arcs(turn.straight),
        "middle": None if valve is None else valve.middle * 1e3,
        "stroke": None if turn.moving.piston is None else turn.moving.piston.stroke * 1e3,
        "dead": {end: _degrees(turn.moving.dead_centre(end)) for end in turn.ends},
        "events": _list_events(turn),
        "unknown": _list_unknown(turn),
        "lead": {end: motion.ends[end].lead_mm for end in turn.ends},
        "lap": {end: motion.laps_mm[end].steam for end in turn.ends},
        "exhaust_lap": {end: motion.laps_mm[end].exhaust for end in turn.ends},
        "travel": motion.valve_travel_mm,
        "blow": motion.chest_to_exhaust_deg,
    }


def _scale(values: Any) -> list[int]:
    return (values * _FINE).round().astype(int).tolist()  # type: ignore[no-any-return]


def _scale_mm(values: Any) -> list[int] | None:
    return None if values is None else _scale(values * 1e3)


def _degrees(angle: float | None) -> float | None:
    return None if angle is None else degrees(angle) % 360


def _show_arcs(arcs: tuple[Arc, ...]) -> list[list[float]]:
    """Each arc as the angle at which it begins and how long it lasts [deg]."""
    return [[round(degrees(arc.start), 4), round(degrees(arc.sweep), 4)] for arc in arcs]


def _list_events(turn: Turn) -> list[dict[str, Any]]:
    """Every event of every working end, in the order in which they come."""
    events = []
    for end in turn.ends:
        for event, times in turn.motion.ends[end].events.items():
            shares = times.stroke_percent or (None,) * len(times.crank_deg or ())
            for angle, share in zip(times.crank_deg or (), shares, strict=True):
                events.append({"end": end, "event": event, "deg": angle, "stroke": share})
    return sorted(events, key=lambda one: float(one["deg"]))


def _list_unknown(turn: Turn) -> list[str]:
    """The events of which nobody can tell whether they happen."""
    ends = (turn.motion.ends[end].events for end in turn.ends)
    return sorted({event for events in ends for event, times in events.items() if times.crank_deg is None})


def show_card(turn: Turn) -> dict[str, Any]:
    """Return a turn's pressure card as plain data for a page, in whole numbers of 0.0001 bar (gauge), or why not.

    Parameters
    ----------
    turn: with a card, or without
    """
    card = turn.card
    if card is None:
        return {"card": None, "no_card": turn.no_card}
    told = {
        "pressures": {end: _scale((values - ATMOSPHERE) / _BAR) for end, values in card.pressures.items()},
        "means": {end: mean / _BAR for end, mean in card.means.items()},
        "supply": (card.supply - ATMOSPHERE) / _BAR,
        "exhaust": (card.exhaust - ATMOSPHERE) / _BAR,
        "rpm": card.speed * 60 / TURN,
    }
    return {"card": told, "no_card": ""}
