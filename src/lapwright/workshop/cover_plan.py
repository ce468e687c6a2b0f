"""A cover and its studs: the joint to cut, how tight to draw each stud, in which order, and what to have ready."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from lapwright.quantities import show_mm
from lapwright.workshop.cautions import LET_DOWN, OLD_PACKING, STEAM, TRYING_UNDER_PRESSURE
from lapwright.workshop.cover_figures import CoverFigures, CoverWish, find_cover_figures
from lapwright.workshop.cover_steps import list_items, list_rows, list_steps, show_torque
from lapwright.workshop.covers import RING_SOURCE
from lapwright.workshop.gasket_choice import OLD_SHEET, THICKNESSES, choose_gaskets
from lapwright.workshop.item import Item

_TRADE: Final = "Order, rounds, three quarters of the proof load, and the order of work: common practice, no source."
#: A torque tells the pull to a third: from this share of the proof stress on a stud is stretched whatever it was [-].
_SURELY: Final = 4 / 3
_THICKNESS: Final = "How thick a joint is cut: from memory."


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverPlan:
    """How to put a cover on: the figures, the work, and what to have ready.

    `rows` are the figures in words.
    """

    name: str
    figures: CoverFigures
    rows: tuple[tuple[str, str], ...]
    steps: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    have_ready: tuple[Item, ...]
    sources: tuple[str, ...]

    @property
    def set(self) -> dict[str, float | str]:
        """The main figures to work to, by stable names with their unit."""
        return {"torque_nm": self.figures.torque, "load_per_stud_n": self.figures.stud.pull}


def plan_cover(wish: CoverWish) -> CoverPlan:
    """Plan how a cover is put on: joint, torque, order, and whether its studs were drawn too tight.

    It never says that a cover is safe: what a pressure part may carry is for local rules, inspector and insurer.

    Parameters
    ----------
    wish: what is known of the cover

    Raises
    ------
    NotOneOf: a gasket, a metal or a condition that is not known
    DoesNotFit: the table has no seating stress for that gasket
    OutOfRange: no stud, or a pressure under nothing

    Source: asme-viii (loads of the joint); iso-898-1 (stud); common practice, no source (order of work)
    """
    figures = find_cover_figures(wish)
    steam = (STEAM,) if wish.fluid == "steam" else ()
    return CoverPlan(
        name=wish.name,
        figures=figures,
        rows=list_rows(wish, figures),
        steps=list_steps(wish, figures),
        notes=tuple(_list_notes(wish, figures)),
        cautions=(LET_DOWN, OLD_PACKING, TRYING_UNDER_PRESSURE, *steam),
        have_ready=list_items(wish, figures),
        sources=tuple(dict.fromkeys(_list_sources(figures))),
    )


def _list_notes(wish: CoverWish, figures: CoverFigures) -> Iterator[str]:
    loads = figures.loads
    yield from _say_found(figures)
    yield from _say_joint(wish, figures)
    if not figures.is_enough:
        yield _say_weak(wish, figures)
    yield (
        f"The code itself reckons with half the width of the joint (from memory) and asks {loads.half_width:.0f} N, "
        f"{show_torque(figures.half_width_torque)} a stud; the whole width is used here."
    )
    if figures.is_enough:
        yield (
            "The torque is right to about a third: if the joint weeps, draw all studs a little more, never over "
            f"{show_torque(figures.most_torque)}."
        )
    yield "A pressure test, with water only, is done as the local rules and the inspector have it."


def _say_joint(wish: CoverWish, figures: CoverFigures) -> Iterator[str]:
    if wish.gasket == OLD_SHEET:
        yield f"The old sheet may be asbestos and is not used again; {figures.gasket} takes its place."
    if figures.objection:
        choices = choose_gaskets(fluid=wish.fluid, temperature=wish.temperature, pressure=wish.pressure)
        these = ", ".join(choice.gasket for choice in choices if choice.fits)
        yield f"{figures.gasket.capitalize()}: {figures.objection}. These stand it: {these}."


def _say_weak(wish: CoverWish, figures: CoverFigures) -> str:
    studs = f"{wish.count} studs of {wish.thread.name}"
    ring = figures.narrower
    narrower = f"a joint no wider than {show_mm(ring.width, 1)}" if ring else "a joint that asks less to bed it"
    if figures.is_enough_by_the_code:
        return (
            f"{studs} can bed half the width of this joint, as the code reckons, not the whole of it: draw them to "
            f"{show_torque(figures.most_torque)} and no further; if it weeps, take {narrower}."
        )
    return (
        f"{studs} cannot bed this joint: take {narrower}, another sheet, or more or thicker studs; do not draw these "
        f"over {show_torque(figures.most_torque)}."
    )


def _say_found(figures: CoverFigures) -> Iterator[str]:
    found = figures.found
    if found is None:
        return
    torque, share = show_torque(found.torque), f"{100 * found.share:.0f} % of their proof stress"
    if found.share > _SURELY:
        yield f"Found drawn to {torque}, the studs were at {share}: past it, they are stretched for good."
    elif found.is_past_proof:
        yield (
            f"Found drawn to {torque}, the studs were at {share}; as a torque tells the pull to a third only, take "
            "them for stretched."
        )
    elif figures.was_overtightened:
        yield f"Found drawn to {torque}, the studs were at {share}: more than may be used, though not stretched by it."
    elif found.torque < figures.stud.torque:
        yield f"Found drawn to {torque}, which is not enough for this joint."


def _list_sources(figures: CoverFigures) -> Iterator[str]:
    yield RING_SOURCE
    yield f"Joint of {figures.gasket}: {figures.row.source}."
    yield from figures.stud.sources
    yield from figures.tightening_sources
    if figures.gasket in THICKNESSES:
        yield _THICKNESS
    yield _TRADE
