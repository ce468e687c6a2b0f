"""Trying other sizes on an engine that is being turned over: what can be tried, how far, and the turn that follows."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cache, cached_property
from math import degrees, pi
from typing import TYPE_CHECKING

from lapwright.engine.cylinder import ENDS, assemble_cylinder
from lapwright.engine.sizes import VALVE_EDGES, Sizes
from lapwright.errors import BadInput, CannotRun, NotOneOf, OutOfRange
from lapwright.job.turn.turning import (
    Turn,
    add_card,
    choose_conditions_of,
    find_cylinder,
    reverse_sizes,
    turn_sizes,
)
from lapwright.job.visit import Visit
from lapwright.motion.answers import find_laps
from lapwright.motion.travel import RPM
from lapwright.quantities import (
    read_angle,
    read_length,
    read_pressure,
    read_speed,
    show_angle,
    show_length_like,
    show_pressure_like,
)
from lapwright.quantities.pressure import ATMOSPHERE

if TYPE_CHECKING:
    from lapwright.cycle.conditions import Conditions

#: What can be tried, in the order in which it is shown. The steam lap is no size of its own: it cuts the valve.
TRIED = (
    "valve.length",
    "valve.cavity",
    "steam_lap",
    "valve_drive.eccentric_angle",
    "valve_drive.valve_offset",
    "supply_pressure",
    "speed",
)
_READERS: Mapping[str, Callable[[str], float]] = {
    "valve_drive.eccentric_angle": lambda text: read_angle(text).si,
    "supply_pressure": lambda text: read_pressure(text).gauge,
    "speed": lambda text: read_speed(text).si,
}
#: In whose unit lengths are shown, if the record gives one of them.
_LIKE = (".steam_port", ".valve.length", ".edges.0")
#: How many even angles a turn that is tried is told at [-]: the pictures show no difference from one of 360.
_POINTS = 120
#: Least metal left of a valve beside its cavity [m], and the fastest and hardest that is tried [rad/s, Pa].
_LEAST_LAND = 2e-4
_FASTEST, _HARDEST = 3000 * RPM, 20e5


@dataclass(frozen=True, slots=True, kw_only=True)
class Knob:
    """One size that can be tried, in SI: as found, between which limits it is moved by hand, in which steps.

    `shown` is the value as found in the record's own unit.
    """

    key: str
    found: float
    low: float
    high: float
    step: float
    shown: str


@dataclass(frozen=True, kw_only=True)
class Tried:
    """A turn with other sizes.

    `points` is at how many even angles it is told [-]; `supply` [Pa, gauge] and `speed` [rad/s] are what is tried of
    these, None for what the record speaks of. The rest is worked out when it is asked for: the picture comes first.
    """

    visit: Visit
    sizes: Sizes
    turn: Turn
    points: int
    supply: float | None
    speed: float | None

    @cached_property
    def conditions(self) -> Conditions | CannotRun:
        """What it is run on for its card, or why it cannot be run."""
        return choose_conditions_of(self.visit, supply=self.supply, speed=self.speed)

    @cached_property
    def values(self) -> Mapping[str, float]:
        """What every size that can be tried is then, in SI."""
        return _read_values(self.sizes, self.conditions)

    @cached_property
    def shown(self) -> Mapping[str, str]:
        """The same as the record would have it."""
        return {key: _show(self.visit, key, value) for key, value in self.values.items()}


def list_knobs(visit: Visit, cylinder: str) -> tuple[Knob, ...]:
    """Return what can be tried on a cylinder; a size that nobody knows cannot.

    Parameters
    ----------
    visit: the engine
    cylinder: its name

    Raises
    ------
    NotThere: the engine has no cylinder of that name
    """
    sizes = find_cylinder(visit, cylinder)
    found = _read_values(sizes, choose_conditions_of(visit))
    limits = _find_limits(sizes, found)
    return tuple(_make_knob(visit, key, found[key], limits=limits[key]) for key in TRIED if key in found)


def _make_knob(visit: Visit, key: str, found: float, *, limits: tuple[float, float, float]) -> Knob:
    """A knob whose steps are counted from the value as found, so that it can be put back there exactly."""
    low, high, step = limits
    below, above = max(int((found - low) / step), 0), max(int((high - found) / step), 0)
    shown = _show(visit, key, found)
    return Knob(key=key, found=found, low=found - below * step, high=found + above * step, step=step, shown=shown)


def try_sizes(
    visit: Visit,
    cylinder: str,
    *,
    changes: Mapping[str, str | float],
    backwards: bool = False,
    with_card: bool = True,
    last: Tried | None = None,
) -> Tried:
    """Turn a cylinder over with some sizes changed.

    Parameters
    ----------
    visit: the engine as found
    cylinder: name of the one that is changed
    changes: by key of `TRIED`, as a person writes them or in SI (pressure above the atmosphere); in their order
    backwards: whether it is turned against the direction for which its record gives the angles
    with_card: whether the pressures are worked out as well
    last: what was tried before on the same engine: pressure and speed leave its motion as it is

    Raises
    ------
    BadInput: a key that cannot be tried, a figure that cannot be read, or one that no valve can have
    NotThere: the engine has no cylinder of that name
    """
    sizes, given = find_cylinder(visit, cylinder), {key: _read(key, value) for key, value in changes.items()}
    for key, value in given.items():
        if key not in {"supply_pressure", "speed"}:
            sizes = _change(sizes, key, value)
    _check_valve(sizes)
    points = _POINTS if changes else 360
    tried = Tried(
        visit=visit,
        sizes=sizes,
        turn=_turn(visit, sizes, backwards=backwards, points=points, last=last),
        points=points,
        supply=given.get("supply_pressure"),
        speed=given.get("speed"),
    )
    return replace(tried, turn=add_card(visit, tried.turn, tried.conditions)) if with_card else tried


def _turn(visit: Visit, sizes: Sizes, *, backwards: bool, points: int, last: Tried | None) -> Turn:
    """Turn a cylinder over, or take it from what was tried last where the same sizes were turned the same way."""
    turned = reverse_sizes(sizes) if backwards else sizes
    if last is not None and (last.turn.sizes, last.turn.backwards, last.points) == (turned, backwards, points):
        return last.turn if last.turn.card is None else replace(last.turn, card=None, no_card="")
    return turn_sizes(visit, sizes, backwards=backwards, points=points)


def _read(key: str, value: str | float) -> float:
    if key not in TRIED:
        raise NotOneOf(key, TRIED)
    if isinstance(value, str):
        value = _READERS[key](value) if key in _READERS else read_length(value).si
    if not isinstance(value, int | float) or not -1e9 < value < 1e9:
        raise BadInput("what is to be tried is not a figure", "move the slider, or write a figure with its unit")
    if key == "speed" and not 0 < value <= _FASTEST:
        raise OutOfRange("the speed", "is not one that is tried here", "try more than 0 and up to 3000 rpm")
    if key == "supply_pressure" and value > _HARDEST:
        raise OutOfRange("the pressure", "is not one that is tried here", "try up to 20 bar")
    return float(value)


def _change(sizes: Sizes, key: str, value: float) -> Sizes:
    if key == "steam_lap":
        outside = sizes.admission == "outside"
        return _change_edges(sizes, outer=outside, more=(value - _mean_lap(sizes)) * (2 if outside else -2))
    if key in {"valve.length", "valve.cavity"}:
        outer = key == "valve.length"
        found = _measure_valve(sizes)[0 if outer else 1]
        if found is None:
            return sizes.replacing({key: value})
        return _change_edges(sizes, outer=outer, more=value - found)
    return sizes.replacing({key: value})


def _change_edges(sizes: Sizes, *, outer: bool, more: float) -> Sizes:
    """The valve longer (or its cavity wider) by so much, half at each end."""
    known = sizes.numbers
    if all(key in known for key in VALVE_EDGES):
        low, high = (VALVE_EDGES[0], VALVE_EDGES[3]) if outer else (VALVE_EDGES[1], VALVE_EDGES[2])
        return sizes.replacing({low: known[low] - more / 2, high: known[high] + more / 2})
    key = "valve.length" if outer else "valve.cavity"
    return sizes.replacing({key: known[key] + more}) if key in known else sizes


def _measure_valve(sizes: Sizes) -> tuple[float | None, float | None]:
    """Length of the valve and of its cavity [m]."""
    valve = assemble_cylinder(sizes).valve
    lengths = []
    for name in ("outer", "cavity"):
        parts = [getattr(valve[end], name) for end in ENDS]
        lengths.append(None if None in parts else sum(parts))
    return lengths[0], lengths[1]


def _mean_lap(sizes: Sizes) -> float:
    cylinder = assemble_cylinder(sizes)
    laps = [lap for end in ENDS if (lap := find_laps(cylinder, end).steam) is not None]
    return sum(laps) / len(laps) / 1e3 if laps else 0.0


def _check_valve(sizes: Sizes) -> None:
    length, cavity = _measure_valve(sizes)
    if length is not None and length <= 0:
        raise OutOfRange(f"{length * 1e3:.2f} mm", "is no length of a valve", "make it longer")
    if cavity is not None and cavity < 0:
        raise OutOfRange(f"{cavity * 1e3:.2f} mm", "is no width of a cavity", "make it wider")
    if length is not None and cavity is not None and length - cavity < 2 * _LEAST_LAND:
        why = f"leaves no metal beside a cavity of {cavity * 1e3:.2f} mm"
        raise OutOfRange(f"a valve of {length * 1e3:.2f} mm", why, "make the valve longer or the cavity narrower")


def _read_values(sizes: Sizes, conditions: Conditions | CannotRun) -> dict[str, float]:
    """What everything that can be tried is now [SI], as far as it is known."""
    (length, cavity), face = _measure_valve(sizes), assemble_cylinder(sizes).face
    known = {"valve.length": length, "valve.cavity": cavity}
    if face is not None and (length if sizes.admission == "outside" else cavity) is not None:
        known["steam_lap"] = _mean_lap(sizes)
    angle = sizes.numbers.get("valve_drive.eccentric_angle")
    known["valve_drive.eccentric_angle"] = angle
    if "valve_drive.throw" in sizes.numbers:
        known["valve_drive.valve_offset"] = sizes.number("valve_drive.valve_offset")
    if not isinstance(conditions, CannotRun):
        known["supply_pressure"], known["speed"] = conditions.supply - ATMOSPHERE, conditions.speed
    return {key: value for key, value in known.items() if value is not None}


def _find_limits(sizes: Sizes, found: Mapping[str, float]) -> dict[str, tuple[float, float, float]]:
    """How far each is moved by hand: low, high and step, in SI. A figure beyond them can still be written."""
    face = assemble_cylinder(sizes).face
    port = face["head"].width if face is not None else found.get("valve.length", 0.01) / 6
    length, cavity = found.get("valve.length", 0.0), found.get("valve.cavity", 0.0)
    fine = 1e-5 if port < 5e-3 else 5e-5
    lap = found.get("steam_lap", 0.0)
    narrowest = max(length - 2.4 * port, cavity + 4 * _LEAST_LAND)
    widest = min(cavity + 2.4 * port, length - 4 * _LEAST_LAND) if length else cavity + 2.4 * port
    # Less lap is cut off the valve's ends, or out of its cavity where that lets the steam in.
    spare = length - narrowest if sizes.admission == "outside" else widest - cavity
    hardest = max(2.5 * found.get("supply_pressure", 0.0), 1e5)
    return {
        "valve.length": (narrowest, length + 2.4 * port, fine),
        "valve.cavity": (max(cavity - 2.4 * port, 4 * _LEAST_LAND), widest, fine),
        "steam_lap": (lap - min(0.9 * port, spare / 2), lap + 0.9 * port, fine / 2),
        "valve_drive.eccentric_angle": (0.0, 2 * pi, pi / 720),
        "valve_drive.valve_offset": (-0.8 * port, 0.8 * port, fine / 2),
        "supply_pressure": (0.02e5, min(hardest, _HARDEST), 0.01e5),
        "speed": (10 * RPM, max(4 * found.get("speed", 0.0), 600 * RPM), 5 * RPM),
    }


def _show(visit: Visit, key: str, value: float) -> str:
    """A value in the unit in which the record gives its like."""
    if key == "speed":
        return f"{value / RPM:.0f} rpm"
    if key == "valve_drive.eccentric_angle":
        return show_angle(degrees(value) % 360 * pi / 180)
    written = visit.record.written
    if key == "supply_pressure":
        return show_pressure_like(value, _read_pressure(written.get("engine.supply_pressure", "1 bar")))
    like = next((text for name, text in written.items() if name.endswith(_LIKE)), "1 mm")
    return show_length_like(value, _read_length(like))


# The same few texts at every move of a slider.
_read_length, _read_pressure = cache(read_length), cache(read_pressure)
