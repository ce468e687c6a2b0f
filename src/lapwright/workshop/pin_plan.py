"""A shouldered pin instead of a bolt: its sizes, how it bears its load, and the work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from lapwright.tables.materials import find_metal
from lapwright.workshop.bearing_loads import BearingVerdict, judge_bearing
from lapwright.workshop.cautions import CUTTING, LET_DOWN, SNATCHING, TURNING
from lapwright.workshop.item import Item
from lapwright.workshop.pin_sizes import HOLDS, PinSizes, PinWish, size_pin
from lapwright.workshop.pin_steps import list_items, list_sizes, list_steps, show_limits
from lapwright.workshop.pins import SHANK_SOURCE, PinStrength, Span, judge_pin

#: Which printed pressure goes with a joint; that of a crosshead where a part only rocks.
_BEARINGS: Final = {"crank pin": "crank pin"}
_TRADE: Final = "Shoulder, head, nut, reamers and order of work: common practice, no source."


@dataclass(frozen=True, slots=True, kw_only=True)
class PinPlan:
    """A pin to make: every size with its limits, how it bears its load, the work, and what to have ready.

    `strength` and `bearing` are None where no load is known. `rows` are the sizes in words, for a list or a drawing.
    """

    name: str
    metal: str
    sizes: PinSizes
    strength: PinStrength | None
    bearing: BearingVerdict | None
    rows: tuple[tuple[str, str], ...]
    steps: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    have_ready: tuple[Item, ...]
    sources: tuple[str, ...]

    @property
    def set(self) -> dict[str, str]:
        """The main sizes to work to, by stable names with their unit."""
        end = {} if self.sizes.thread is None else {"thread": self.sizes.thread.name}
        longer = ", and the cheek under the head" if self.sizes.adds_cheek else ""
        return {
            "shank_mm": show_limits(self.sizes.shank.shaft),
            "shank_length_mm": f"{show_limits(self.sizes.length, 2)}{longer}",
            "reamed_mm": show_limits(self.sizes.shank.hole),
            **end,
        }


def plan_pin(wish: PinWish) -> PinPlan:
    """Plan a shouldered pin with a plain shank for a part that turns on it.

    Parameters
    ----------
    wish: what is known of the pin and of its place

    Raises
    ------
    NotOneOf: a joint, a metal or a way of holding that is not known
    NotInTable: a pin beyond the table of fits
    OutOfRange: a size of nothing or less
    DoesNotFit: neither the pin nor its hole has been measured, or it is too thin for a shoulder

    Source: iso-286 (limits); common practice, no source (shoulder, head, order of work)
    """
    metal = find_metal(wish.metal).name
    sizes = size_pin(wish)
    strength, bearing = _judge(wish, sizes)
    return PinPlan(
        name=wish.name,
        metal=metal,
        sizes=sizes,
        strength=strength,
        bearing=bearing,
        rows=list_sizes(wish, sizes),
        steps=list_steps(wish, sizes),
        notes=tuple(_list_notes(wish, strength, bearing)),
        cautions=(LET_DOWN, CUTTING, SNATCHING, TURNING),
        have_ready=list_items(wish, sizes),
        sources=tuple(_list_sources(sizes, strength, bearing)),
    )


def _judge(wish: PinWish, sizes: PinSizes) -> tuple[PinStrength | None, BearingVerdict | None]:
    """The new pin under its load, where one is known."""
    if wish.load is None:
        return None, None
    span = Span(
        diameter=sizes.shank.size, moving_part=wish.moving_part, gap=wish.gap, cheek=wish.cheek, planes=wish.planes
    )
    part = _BEARINGS.get(wish.joint, "crosshead")
    bearing = judge_bearing(
        part,
        wish.load,
        diameter=sizes.shank.size,
        length=wish.moving_part,
        fast=wish.fast,
        steam_pressure=wish.steam_pressure,
    )
    return judge_pin(wish.load, span, metal=wish.metal), bearing


def _list_notes(wish: PinWish, strength: PinStrength | None, bearing: BearingVerdict | None) -> Iterator[str]:
    if strength is not None and bearing is not None:
        yield f"The pin: {strength.sentence}"
        yield f"The bearing: {bearing.sentence}"
        if bearing.others:
            others = "; ".join(f"{band.show()}, {band.case} ({band.source})" for band in bearing.others)
            yield f"What else is printed of it: {others}."
    nut = ", and the nut stays clear of it" if wish.held == HOLDS[0] else ""
    yield f"A thread is no bearing: only the plain shank runs in the moving part{nut}."
    if find_metal(wish.runs_in).name == find_metal(wish.metal).name:
        same = f"{wish.metal.capitalize()} on {wish.metal}"
        yield f"{same} seizes when the oil is gone: bush the moving part with gunmetal or bronze."


def _list_sources(sizes: PinSizes, strength: PinStrength | None, bearing: BearingVerdict | None) -> Iterator[str]:
    yield from sizes.shank.sources
    yield SHANK_SOURCE
    yield from () if strength is None else strength.sources
    yield from () if bearing is None else bearing.sources
    yield _TRADE
