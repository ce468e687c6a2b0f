"""What a painting plan says: which paint and why, coat by coat, in which order, with what, and what to look out for."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.workshop.item import Item


@dataclass(frozen=True, slots=True, kw_only=True)
class Coat:
    """One coat: its films [m], when the next may follow, how it hardens, and how much it takes.

    `dry_film` and `wet_film` are None where the sheet that was read does not tell them; `amount` [m3] is what the
    surface takes with what stays in brush and pot, None where film or surface is not known. `from_memory` says that its
    figures were recalled and not read.
    """

    name: str
    paint: str
    dry_film: float | None
    wet_film: float | None
    recoat: str
    cure: str
    amount: float | None
    source: str
    from_memory: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishPlan:
    """How to paint one part.

    `temperature` is the metal's in service [K], `surface` what is painted [m2], None where not known. `paint` is empty
    where no paint stands the heat: then there are no coats, and the steps say what to do instead. `instead_of` is the
    paint that was wished for and does not stand it, empty otherwise. `faults` says why paint runs, wrinkles, lifts or
    browns: all four, those that were seen first.
    """

    metal: str
    temperature: float
    surface: float | None
    paint: str
    instead_of: str
    why: str
    coats: tuple[Coat, ...]
    steps: tuple[str, ...]
    faults: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    have_ready: tuple[Item, ...]
    sources: tuple[str, ...]

    @property
    def dry_film(self) -> float | None:
        """How thick all coats are together when dry [m]; None where one of them is not known, or there is none."""
        films = [coat.dry_film for coat in self.coats]
        known = [film for film in films if film is not None]
        return sum(known) if films and len(known) == len(films) else None
