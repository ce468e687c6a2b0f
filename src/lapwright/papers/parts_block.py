"""Glands, screws, pins, covers and paint on the card, and the list of what to have ready for the whole job."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.cures.part_cure import PartCure
from lapwright.papers.blocks import Block, Cautions, Heading, Paragraph, Points, Steps, Table, Ticks
from lapwright.papers.lettering import NOT_KNOWN, join_words
from lapwright.papers.matter import CardMatter
from lapwright.workshop.item import SHELVES, Item


def lay_parts(matter: CardMatter) -> Iterator[Block]:
    """Lay out what to do about the parts, each with its steps and the figures to work to.

    Parameters
    ----------
    matter: what is told
    """
    if not matter.part_cures:
        return
    yield Heading("Parts to put right")
    yield Cautions(tuple(dict.fromkeys(line for cure in matter.part_cures for line in cure.before_you_start)))
    for cure in matter.part_cures:
        where = f"Cylinder {cure.cylinder}: " if len(matter.before) > 1 else ""
        yield Heading(f"{where}{cure.title} ({cure.work})", 2)
        yield Steps(cure.steps)
        if cure.left:
            yield Paragraph(f"This leaves: {join_words([code.replace('-', ' ') for code in cure.left])}.")
        rows = tuple((*figure, "") for figure in cure.figures)
        if rows:
            yield Table(("Figure", "to work to", "as left"), rows, blanks=(2,))
        yield Points((*(f"Taken, not measured: {each.words} {each.value}." for each in cure.taken), *cure.notes))


def lay_finish(matter: CardMatter) -> Iterator[Block]:
    """Lay out how a part is painted.

    Parameters
    ----------
    matter: what is told
    """
    plan = matter.finish
    if plan is None:
        return
    yield Heading("Painting")
    yield Cautions(plan.cautions)
    yield Paragraph(plan.why)
    if matter.part_cures:
        yield Paragraph("Paint before glands are packed and covers are put back for good.")
    if plan.coats:
        rows = tuple((c.name, _show_film(c.dry_film), _show_film(c.wet_film), c.recoat) for c in plan.coats)
        yield Table(("Coat", "dry film", "wet film", "next coat"), rows)
    yield Steps(plan.steps)
    yield Points((*plan.notes, *plan.faults))


def _show_film(film: float | None) -> str:
    return NOT_KNOWN if film is None else f"{film * 1e6:.0f} µm"


def lay_shopping(matter: CardMatter) -> Iterator[Block]:
    """Lay out what to have ready for the whole job, shelf by shelf.

    Parameters
    ----------
    matter: what is told
    """
    if not matter.have_ready:
        return
    yield Heading("To have ready")
    for shelf in SHELVES:
        rows = tuple(_row(item) for item in matter.have_ready if item.shelf == shelf)
        if rows:
            yield Ticks(shelf[:1].upper() + shelf[1:], rows)


def _row(item: Item) -> tuple[str, str, str]:
    return item.name, item.amount or str(item.count), ", ".join(item.purposes)


def list_part_sources(cures: tuple[PartCure, ...]) -> tuple[str, ...]:
    """Return what the figures of the cures rest on, each once."""
    return tuple(dict.fromkeys(source for cure in cures for source in cure.sources))
