"""What a grub screw holds: an eccentric or a crank on its shaft, against the torque that would turn it.

The published loads are those of an alloy-steel cup point on a steel shaft at the first slip of 0.010 in, the screw
seated to its full torque in a steel hub. In a brass hub the thread may not bear that torque; then the screw is seated
to what the thread bears, and holds in proportion.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from math import log
from types import MappingProxyType
from typing import Final

from lapwright.errors import DoesNotFit, NotInTable, NotOneOf
from lapwright.quantities import show_mm
from lapwright.tables.set_screws import SetScrewRow, list_set_screws
from lapwright.tables.threads import ThreadRow, list_threads
from lapwright.workshop import cautions
from lapwright.workshop.item import Item
from lapwright.workshop.screws import COEFFICIENTS, SCREWS
from lapwright.workshop.strength import stress_area
from lapwright.workshop.tightening import (
    Limit,
    Tightening,
    find_socket,
    find_tightening,
    say_torque,
    thrust_from_torque,
    torque_from_thrust,
)

#: What a point holds along the shaft, against a cup point [-].
POINTS: Final[Mapping[str, float]] = MappingProxyType(
    {"cup": 1.0, "cone": 1.07, "flat": 0.92, "dog": 0.92, "oval": 0.90}
)
#: How many times the torque it should hold [-]: 1.5 to 2 for a steady load, 4 to 8 for one that changes.
LOADS: Final[Mapping[str, float]] = MappingProxyType({"steady": 2.0, "reversing": 4.0})
#: A flat under the screw adds a little against turning [-]; two screws at a right angle hold less than double.
ON_A_FLAT, TWO_SCREWS = 1.06, 1.5
#: Thrust that becomes hold where no load was published [-]; share of yield that a slotted screw of plain steel is
#: drawn to [-]; the screw that suits a shaft, in its diameters [-], and the thickest.
_DIGS, _OF_YIELD, SUITS, _THICKEST = 0.5, 0.6, 0.5, 0.75
_DRY = COEFFICIENTS["dry"]
_SAME_SIZE = 1e-5
#: Where a hand pulls on a small hexagon key [m].
_KEY_ARM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A grub screw at its full seating torque [N m] and what it holds then along the shaft [N].

    `doubt` says in what makers differ about it. `stainless` is what makers seat a stainless one to and `test` what the
    standard has one of alloy steel stand, [N m]; None where none is printed.
    """

    torque: float
    hold: float
    estimated: bool
    source: str
    doubt: str = ""
    stainless: float | None = None
    test: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamp:
    """One grub screw and where it sits: hub metal, shaft [m], length of thread in the hub [m], how it is made.

    A `slotted` screw is of `screw` metal, others are socket screws of alloy steel; `worn` says so of the hub's thread.
    """

    row: ThreadRow
    hub: str
    shaft: float
    engagement: float
    point: str = "cup"
    slotted: bool = False
    screw: str = "steel"
    worn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldingWay:
    """One way of holding: the torque it holds [N m] and whether that is enough; None where it cannot be told."""

    name: str
    torque: float | None
    enough: bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """What one screw holds when it is seated to `seating` [N m].

    `limit` says what forbids more: "screw", "hole thread", "screw thread" or "hex key"; `limits` what gives way, first
    what goes first. It presses with `thrust` and
    holds `axial` along the shaft [N], and `holds` round it [N m].
    """

    clamp: Clamp
    seat: Seat
    seating: float
    limit: str
    thrust: float
    axial: float
    holds: float
    limits: tuple[Limit, ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldingPlan:
    """Whether a screw holds what it has to, and how that is brought about.

    `needed` [N m] is `factor` times the torque that has to be held, `needed_force` [N] the same at the shaft's skin.
    `larger` is the thinnest screw of its series that would be enough; None where it is enough itself, or none is.
    """

    grip: Grip
    torque: float
    factor: float
    needed: float
    needed_force: float
    enough: bool
    ways: tuple[HoldingWay, ...]
    larger: ThreadRow | None
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    have_ready: tuple[Item, ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]


def find_seat(row: ThreadRow, *, slotted: bool = False, metal: str = "steel") -> Seat:
    """Find the seating torque of a grub screw and what it holds then along a steel shaft.

    A size of the published tables is taken from them. Another one is given the torque between its neighbours, of which
    half the thrust becomes hold: our estimate.

    Parameters
    ----------
    row: its thread
    slotted: whether it is a slotted screw, of plain metal
    metal: of a slotted one, one of `screws.SCREWS`

    Raises
    ------
    NotInTable: it is thinner or thicker than any screw of the tables

    Source: set-screw-chart; the rest: exact geometry
    """
    if slotted:
        thrust = _OF_YIELD * SCREWS[metal].proof * stress_area(row)
        torque = torque_from_thrust(thrust, row.major, coefficient=_DRY)
        named = "plain steel" if metal == "steel" else metal
        source = f"slotted screw of {named} drawn to 0.6 of its yield, of which half becomes hold: our estimate"
        return Seat(torque=torque, hold=_DIGS * thrust, estimated=True, source=source)
    screws = sorted(list_set_screws(), key=lambda screw: screw.diameter)
    same = [screw for screw in screws if abs(screw.diameter - row.major) < _SAME_SIZE]
    if same:
        return _take(same[0])
    return _estimate(row, [screw for screw in screws if screw.kind.startswith("metric")])


def _take(screw: SetScrewRow) -> Seat:
    low, high = screw.seating_torque, screw.highest_torque
    differ = f"Makers print {say_torque(low)} and {say_torque(high)} for {screw.size}: the lower is taken."
    return Seat(
        torque=low,
        hold=screw.holding_force,
        estimated=False,
        source=f"{screw.size}: {screw.source}; what it holds: {screw.holding_source}",
        doubt=differ if high > low else "",
        stainless=screw.stainless_torque,
        test=screw.test_torque,
    )


def _estimate(row: ThreadRow, screws: list[SetScrewRow]) -> Seat:
    under = [screw for screw in screws if screw.diameter < row.major]
    over = [screw for screw in screws if screw.diameter > row.major]
    if not under or not over:
        ends = f"the table goes from {screws[0].size} to {screws[-1].size}"
        raise NotInTable(f"a grub screw of {1e3 * row.major:.2f} mm", "grub screws", ends)
    thin, thick = under[-1], over[0]
    # The torque goes as a power of the diameter, so the line is straight between logarithms.
    part = log(row.major / thin.diameter) / log(thick.diameter / thin.diameter)
    torque = thin.seating_torque * (thick.seating_torque / thin.seating_torque) ** part
    return Seat(
        torque=torque,
        hold=_DIGS * thrust_from_torque(torque, row.major, coefficient=_DRY),
        estimated=True,
        source=f"{row.name}: seated between {thin.size} and {thick.size}, half the thrust as hold: our estimate",
    )


def measure_grip(clamp: Clamp) -> Grip:
    """Work out what a grub screw holds, seated as far as screw, key and hub let it be.

    Parameters
    ----------
    clamp: the screw and where it sits

    Raises
    ------
    NotOneOf: a point or a metal that is not known
    DoesNotFit: a size that is none, or a screw thicker than its shaft
    NotInTable: a screw beyond the tables

    Source: set-screw-chart (loads and points); fed-std-h28 (thread of the hub)
    """
    if clamp.point not in POINTS:
        raise NotOneOf(clamp.point, tuple(POINTS))
    if clamp.shaft <= 0:
        raise DoesNotFit("the shaft has no diameter", 'give it, like "5 mm"')
    if clamp.row.major > clamp.shaft:
        raise DoesNotFit(
            f"a {clamp.row.name} screw is thicker than a shaft of {show_mm(clamp.shaft)}",
            f"a grub screw is no thicker than its shaft, better about half: {show_mm(SUITS * clamp.shaft, 1)}",
        )
    seat = find_seat(clamp.row, slotted=clamp.slotted, metal=clamp.screw)
    held = find_tightening(clamp.row, hole=clamp.hub, engagement=clamp.engagement, worn=clamp.worn, grub=True)
    limit, seating = min(_list_limits(held, seat, clamp), key=lambda entry: entry[1])
    axial = seat.hold * seating / seat.torque * POINTS[clamp.point]
    return Grip(
        clamp=clamp,
        seat=seat,
        seating=seating,
        limit=limit,
        thrust=thrust_from_torque(seating, clamp.row.major, coefficient=_DRY),
        axial=axial,
        holds=axial * clamp.shaft / 2,
        limits=tuple(_list_parts(held, clamp)),
        notes=tuple(_list_notes(clamp, seat, limit)),
        sources=(seat.source, *held.sources[1:], _CHART),
    )


def plan_holding(clamp: Clamp, *, torque: float, load: str = "reversing", purpose: str = "") -> HoldingPlan:
    """Work out whether a grub screw holds an eccentric or a crank, and what would.

    Parameters
    ----------
    clamp: the screw and where it sits
    torque: what has to be held, such as the greatest that the valve's friction puts on its eccentric [N.m]
    load: one of `LOADS`
    purpose: the part it is for, as it stands on a shopping list

    Raises
    ------
    NotOneOf: a point, a load or a metal that is not known
    DoesNotFit: a size or a torque that is none
    NotInTable: a screw beyond the tables

    Source: set-screw-chart (factors); two screws as one and a half: common practice, no source
    """
    if load not in LOADS:
        raise NotOneOf(load, tuple(LOADS))
    if torque <= 0:
        raise DoesNotFit("the torque that has to be held is nothing", 'give it, like "0.05 N m"')
    grip, needed = measure_grip(clamp), LOADS[load] * torque
    enough = grip.holds >= needed
    return HoldingPlan(
        grip=grip,
        torque=torque,
        factor=LOADS[load],
        needed=needed,
        needed_force=needed / (clamp.shaft / 2),
        enough=enough,
        ways=tuple(_list_ways(grip.holds, needed)),
        larger=None if enough else _find_larger(clamp, needed),
        steps=tuple(_list_steps(clamp, grip.seating, enough=enough)),
        cautions=(cautions.TURNING,) if enough else (cautions.CUTTING, cautions.SNATCHING, cautions.TURNING),
        have_ready=tuple(_list_items(clamp, enough=enough, purpose=purpose)),
        notes=grip.notes,
        sources=(*grip.sources, _TWO),
    )


_CHART = "points, flat and factors: a grub-screw maker's chart, alloy cup point on a steel shaft"
_TWO = "steps, and a second screw at a right angle counted as half a screw: common practice, no source"


def _list_limits(held: Tightening, seat: Seat, clamp: Clamp) -> Iterator[tuple[str, float]]:
    yield "screw", seat.torque
    for limit in _list_parts(held, clamp):
        yield limit.part, limit.safe


def _list_parts(held: Tightening, clamp: Clamp) -> Iterator[Limit]:
    """A slotted screw has no key, and its soft thread is no worse than its shank."""
    return (limit for limit in held.limits if not (clamp.slotted and limit.part != "hole thread"))


def _list_ways(holds: float, needed: float) -> Iterator[HoldingWay]:
    for name, gain in (
        ("on the plain shaft", 1.0),
        ("on a filed flat", ON_A_FLAT),
        ("two screws at a right angle", TWO_SCREWS),
        ("two screws on flats", TWO_SCREWS * ON_A_FLAT),
    ):
        yield HoldingWay(name=name, torque=gain * holds, enough=gain * holds >= needed)
    yield HoldingWay(name="dog or cone point let into a dimple", torque=None, enough=None)


def _find_larger(clamp: Clamp, needed: float) -> ThreadRow | None:
    for row in list_threads(clamp.row.series):
        if clamp.row.major < row.major <= _THICKEST * clamp.shaft:
            try:
                grip = measure_grip(replace(clamp, row=row))
            except NotInTable:
                continue
            if grip.holds >= needed:
                return row
    return None


def _list_steps(clamp: Clamp, seating: float, *, enough: bool) -> Iterator[str]:
    yield "Set the part to its place and angle, and scribe a line across it and the shaft: it shows the first slip."
    if not enough:
        yield (
            "Mark the shaft through the screw hole, take the part off, and file a flat there, or drill a dimple for a "
            "dog or cone point. A dimple fixes the angle: settle that first."
        )
    pull = f", a pull of {seating / _KEY_ARM:.0f} N at {show_mm(_KEY_ARM, 0)} along the key"
    yield (
        f"Put the {clamp.row.name} screw in clean and dry and draw it to {say_torque(seating)}"
        f"{'' if clamp.slotted else pull}."
    )
    yield "Turn it over by hand, then run it for some minutes, stop it, and try the screw and the scribed line again."


def _list_items(clamp: Clamp, *, enough: bool, purpose: str) -> Iterator[Item]:
    purposes = (purpose,) if purpose else ()
    socket = None if clamp.slotted else find_socket(clamp.row)
    kind = "slotted" if clamp.slotted else "socket"
    yield Item("screws", f"{clamp.row.name} {kind} grub screw, {clamp.point} point", 1, "", purposes)
    if socket:
        about = "" if clamp.row.series.startswith("metric") else ", or what the socket measures"
        yield Item("tools", f"hex key {1e3 * socket[0]:g} mm{about}", 1, "", purposes)
    yield Item("tools", "scriber", 1, "", purposes)
    if not enough:
        yield Item("tools", "fine flat file", 1, "", purposes)


def _list_notes(clamp: Clamp, seat: Seat, limit: str) -> Iterator[str]:
    if limit == "hole thread":
        yield (
            f"The thread in the {clamp.hub} decides, not the point of the screw: more thread in the hub, or a larger "
            "screw, holds more."
        )
    elif limit == "hex key":
        yield "The hex key twists before the screw is fully seated: use a new key with a square end."
    share = clamp.row.major / clamp.shaft
    if share > _THICKEST:
        yield f"The screw is thick for this shaft: about half the shaft, {show_mm(SUITS * clamp.shaft, 1)}, suits it."
    elif share < SUITS / 1.5:
        yield f"The screw is thin for this shaft: about half of it, {show_mm(SUITS * clamp.shaft, 1)}, suits it."
    socket = None if clamp.slotted else find_socket(clamp.row)
    if socket:
        yield f"Hex key: {socket[1]}."
    yield ("The point should be clearly harder than the shaft: on a hard shaft up to 15 % is lost.")
    if seat.doubt:
        yield seat.doubt
    if seat.test is not None:
        yield f"ISO 898-5 has a screw of class 45H stand {say_torque(seat.test)}: never seat one harder."
    if seat.estimated:
        yield "No published load was found for this screw: the figure is our estimate."
    yield (
        "Another chart, which names no test, gives 0.3 to 0.5 of the loads used here; those of the makers are used, "
        "with a factor."
    )
