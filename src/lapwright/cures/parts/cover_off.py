"""A cover that comes off for other work on its holes: what it asks of its screws, and how it is put back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.engine.sizes import Assumed
from lapwright.findings.parts import cover_studs, joint_sheet
from lapwright.workshop.cover_figures import CoverFigures, CoverWish, find_cover_figures
from lapwright.workshop.cover_steps import list_items, say_order
from lapwright.workshop.item import Item
from lapwright.workshop.tightening import say_torque


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverOff:
    """A cover on its new screws, and what was `taken` for what nobody gave.

    `is_put_on` says that it is put on anew by another work, which has its own list.
    """

    wish: CoverWish
    figures: CoverFigures
    is_put_on: bool
    taken: tuple[Assumed, ...]


def take_off(fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads]) -> CoverOff | None:
    """Work out what a cover asks of its screws; None for another fastener, or where too little is known.

    Parameters
    ----------
    fastener: what holds the cover down, with the thread that it has afterwards
    engine: whose it is
    loads: what each cylinder's parts have to bear
    """
    wish = find_wish(fastener, engine, loads)
    if wish is None:
        return None
    found = (*cover_studs.suspect(engine, loads), *joint_sheet.suspect(engine, loads))
    put_on = any((one.cylinder, one.part) == (fastener.cylinder, fastener.name) for one in found)
    taken = cover_studs.list_taken(fastener, engine, loads)
    return CoverOff(wish=wish, figures=find_cover_figures(wish), is_put_on=put_on, taken=taken)


def find_wish(fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads]) -> CoverWish | None:
    """Return what is known of a cover, with a joint that lasts; None for another fastener, or where too little is.

    Parameters
    ----------
    fastener: what holds the cover down
    engine: whose it is
    loads: what each cylinder's parts have to bear
    """
    wish = cover_studs.describe_cover(fastener, engine, loads)
    joint = joint_sheet.judge_joint(fastener, engine, loads)
    if wish is None or joint is None or joint.fits or joint.gasket == joint_sheet.PUT_UP_WITH:
        return wish
    # The sheet that does not last is not put back: what does is chosen.
    return replace(wish, gasket=None)


def list_cover_items(fastener: Fastener, cover: CoverOff | None) -> Iterator[Item]:
    """Yield what goes under a cover that has been off: the sheet, and the punch where the joint has holes.

    Parameters
    ----------
    fastener: what holds it down
    cover: what is known of it
    """
    if fastener.holds != "cover" or (cover is not None and cover.is_put_on):
        return
    if cover is None:
        yield Item("joints", f"{fastener.gasket or 'sheet'} for the joint under the cover", purposes=(fastener.name,))
        return
    items = list_items(cover.wish, cover.figures)
    yield from (item for item in items if item.shelf == "joints" or item.name.startswith("hole punch"))


def list_cover_steps(cover: CoverOff | None) -> Iterator[str]:
    """Yield how a cover is put back, where no other work on the card tells it.

    Parameters
    ----------
    cover: what is known of it

    Source: common practice, no source
    """
    if cover is None or cover.is_put_on:
        return
    wish, figures = cover.wish, cover.figures
    yield (
        f"When all {wish.count} are done, put the cover back on a fresh joint of {figures.gasket}, and draw the "
        f"{wish.drawn}s down in the order {say_order(wish.count, figures.order)}; three rounds, the last to "
        f"{say_torque(figures.torque)}."
    )


def say_load(cover: CoverOff) -> str:
    """Say from which load and which pressure the torque of a cover's screws comes.

    Parameters
    ----------
    cover: what is known of it
    """
    wish, figures, loads = cover.wish, cover.figures, cover.figures.loads
    asks = (
        f"{loads.seating:.0f} N to bed the {figures.gasket}, and {loads.operating:.0f} N to hold "
        f"{wish.pressure / 1e5:.1f} bar; the larger, shared by {wish.count}, is {figures.stud.pull:.0f} N each"
    )
    if figures.is_enough:
        return f"The {say_torque(figures.torque)} is what the joint asks, not all that the thread bears: {asks}."
    return f"The {say_torque(figures.torque)} is all that the thread bears, and the joint asks more: {asks}."
