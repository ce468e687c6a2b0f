"""Sizes of one cylinder held against each other: what cannot be true is noted, and left out."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from lapwright.engine.sizes import FACE_EDGES, FACE_WIDTHS, VALVE_EDGES
from lapwright.quantities import Angle, Length, Turns, show_length_like
from lapwright.quantities.length import LENGTH
from lapwright.record.contents import Values
from lapwright.record.problem import Ledger

#: Sizes beyond these are slips of the pen [m].
LONGEST, _SHORTEST = Fraction(10), Fraction(1, 1_000_000)
#: Lengths that are counted from somewhere, so that they may be nothing or less.
_SIGNED = {"cylinder_offset", "valve_drive.valve_line_offset", "valve_drive.valve_offset", *FACE_EDGES, *VALVE_EDGES}
#: Lengths that may be nothing, but not less.
_CLEARANCES = ("clearance_head", "clearance_crank")


@dataclass(slots=True)
class Bench:
    """One cylinder's values under check; what is struck out is kept from the later checks and the engine."""

    number: int
    values: Values
    ledger: Ledger

    def length(self, key: str) -> Length | None:
        """Return a length that is known and not struck out."""
        value = self.values.get(key)
        return value if isinstance(value, Length) else None

    def strike(self, code: str, key: str, message: str, *, instead: str) -> None:
        """Note a problem with a key and leave the key out from here on."""
        path = ("cylinder", self.number, *(int(part) if part.isdigit() else part for part in key.split(".")))
        self.ledger.add(code, path, f"{_name(key)}: {message}", instead=instead)
        self.values.pop(key, None)


def _name(key: str) -> str:
    parts = key.split(".")
    return f"{parts[-2]}, no. {int(parts[-1]) + 1}" if parts[-1].isdigit() else parts[-1]


def check_sizes(bench: Bench) -> None:
    """Strike out every size of a cylinder that cannot be true, alone or beside the others."""
    for key in list(bench.values):
        _check_alone(bench, key)
    for key in _CLEARANCES:
        _check_clearance(bench, key)
    _check_edges(bench, FACE_EDGES, FACE_WIDTHS)
    _check_edges(bench, VALVE_EDGES, ("valve.length", "valve.cavity"))
    _check_rod(bench, ("connecting_rod", "stroke", "cylinder_offset"), half=Fraction(1, 2))
    _check_rod(
        bench, ("valve_drive.eccentric_rod", "valve_drive.throw", "valve_drive.valve_line_offset"), half=Fraction(1)
    )
    _check_smaller(bench, "valve.cavity", "valve.length", why="leaves the valve no walls")
    _check_smaller(bench, "piston_rod", "bore", why="does not go into the bore")


def _check_alone(bench: Bench, key: str) -> None:
    value = bench.values[key]
    if isinstance(value, Length):
        _check_length(bench, key, value)
    elif isinstance(value, Angle) and abs(value.degrees) > 360:
        bench.strike("absurd", key, f"{value} is more than a turn", instead="write an angle from -360 deg to 360 deg")
    elif isinstance(value, Turns) and value.value <= 0:
        bench.strike("not-positive", key, f"{value} is not more than nothing", instead='write it like "1/2 turn"')


def _check_length(bench: Bench, key: str, value: Length) -> None:
    again = "measure again, or leave it out"
    size = value.metres
    if abs(size) > LONGEST:
        bench.strike("absurd", key, f"{value} is longer than 10 m", instead="check the figure and its unit")
    elif key in _SIGNED or (key in _CLEARANCES and size == 0):
        return
    elif size <= 0:
        bench.strike("not-positive", key, f"{value} is not more than nothing", instead=again)
    elif size < _SHORTEST:
        bench.strike(
            "absurd", key, f"{value} is less than a thousandth of a mm", instead="check the figure and its unit"
        )
    elif max(value.plus or 0, value.minus or 0) >= size:
        message = f"{value} has a doubt as large as the size"
        bench.strike("doubt-too-large", key, message, instead="measure it more closely, or leave it out")


def _check_clearance(bench: Bench, key: str) -> None:
    value = bench.values.get(key)
    if value is None:
        return
    stroke, gap = bench.length("stroke"), bench.length(key)
    if value.value == 0:
        path = ("cylinder", bench.number, key)
        what = "lets the piston touch the cover" if gap else "leaves no room for steam at dead centre"
        instead = 'measure the gap, like "0.8 mm", or write the clearance volume, like "8 %"'
        bench.ledger.add("no-clearance", path, f"{key}: {value} {what}", instead=instead, severity="warning")
    elif stroke is not None and gap is not None and gap.metres > stroke.metres:
        instead = 'measure from piston to cover at dead centre, or write the clearance volume, like "8 %"'
        bench.strike("absurd", key, f"{value} is more than the stroke, {stroke}", instead=instead)


def _check_rod(bench: Bench, keys: tuple[str, str, str], *, half: Fraction) -> None:
    rod, throw = bench.length(keys[0]), bench.length(keys[1])
    if rod is None or throw is None:
        return
    offset = bench.length(keys[2])
    least = throw.metres * half + (abs(offset.metres) if offset else Fraction(0))
    if rod.metres <= least:
        aside = f" on a line {offset} off the shaft" if offset and offset.metres else ""
        message = f"{rod} is too short for a {_name(keys[1])} of {throw}{aside}"
        least_shown = show_length_like(float(least), rod)
        instead = f"measure from centre to centre; it must be longer than {least_shown}"
        bench.strike("rod-too-short", keys[0], message, instead=instead)


def _check_smaller(bench: Bench, small: str, large: str, *, why: str) -> None:
    inner, outer = bench.length(small), bench.length(large)
    if inner is not None and outer is not None and inner.metres >= outer.metres:
        instead = f"measure both again: {_name(small)} must be less than {_name(large)}, {outer}"
        # Without its bore a cylinder has no areas; without its rod it would pass for single-acting.
        struck = large if large == "bore" else small
        bench.strike("does-not-fit", small, f"{inner} {why}", instead=instead)
        if struck == large:
            bench.values[small] = inner
            bench.values.pop(large)


def _check_edges(bench: Bench, keys: tuple[str, ...], widths: tuple[str, ...]) -> None:
    table = keys[0].split(".", maxsplit=1)[0]
    marker = f"{table}.edges"
    if marker not in bench.values:
        return
    both = [key for key in widths if bench.length(key) is not None]
    if both:
        names = " and ".join(_name(key) for key in both)
        instead = f"keep edges and take out {names}, or the other way round"
        bench.strike("given-both-ways", both[0], "edges are given too", instead=instead)
        for key in both:
            bench.values.pop(key, None)
    edges = [bench.length(key) for key in keys]
    known = [edge for edge in edges if edge is not None]
    if len(known) == len(keys):
        _check_order(bench, keys, known)


def _check_order(bench: Bench, keys: tuple[str, ...], edges: list[Length]) -> None:
    marker = keys[0].removesuffix(".0")
    pairs = list(pairwise(edges))
    if all(a.metres > b.metres for a, b in pairs):
        message = "the figures fall; they must rise from the head end to the crank end"
        _strike_edges(bench, keys, marker, message=message, instead=f"write {_turn_round(edges)}")
        return
    for number, (a, b) in enumerate(pairs, 1):
        if b.metres <= a.metres:
            message = f"no. {number + 1}, {b}, does not lie beyond no. {number}, {a}"
            instead = "measure again: the edges must rise from the head end to the crank end, none on another"
            _strike_edges(bench, keys, marker, message=message, instead=instead)
            return


def _strike_edges(bench: Bench, keys: tuple[str, ...], marker: str, *, message: str, instead: str) -> None:
    bench.strike("edges-out-of-order", marker, message, instead=instead)
    for key in keys:
        bench.values.pop(key, None)


def _turn_round(edges: list[Length]) -> str:
    """Write falling edges as measured from the first one."""
    unit = edges[0].unit
    factor = LENGTH.units[unit][1]
    return (
        "edges = [" + ", ".join(f'"{_show_exact((edges[0].metres - e.metres) / factor)} {unit}"' for e in edges) + "]"
    )


def _show_exact(number: Fraction) -> str:
    """Write a number as a decimal where that is exact, as a fraction otherwise."""
    decimal = f"{float(number):.6g}"
    if Fraction(decimal) == number:
        return decimal
    whole, part = divmod(number, 1)
    return f"{whole} {part}" if whole else str(part)
