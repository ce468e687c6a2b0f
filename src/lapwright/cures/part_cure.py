"""What a cure of a part says: what to do to a gland, a screw, a pin or a cover, and what to have ready for it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.cures.part_figures import name_figure, show_figure
from lapwright.engine.sizes import Assumed
from lapwright.workshop.item import Item


@dataclass(frozen=True, slots=True, kw_only=True)
class PartCure:
    """The way out of the findings of one part; it leaves the timing as it is.

    `part` is the part as the findings call it, `answers` the findings it clears, `work` one of `WORKS`. `set` holds
    figures to work to, by name with their unit (`tapping_drill_mm`, `torque_nm`, `rings`, ...), limits as two of them.
    `notes` are sentences to know besides, `sources` say what the figures rest on. `taken` holds what was taken for
    sizes that nobody gave, `left` names what would still be found afterwards.
    """

    code: str
    cylinder: str
    part: str
    title: str
    answers: tuple[str, ...]
    work: str
    steps: tuple[str, ...]
    set: Mapping[str, float | str | tuple[float, ...]]
    before_you_start: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    have_ready: tuple[Item, ...] = ()
    sources: tuple[str, ...] = ()
    taken: tuple[Assumed, ...] = ()
    left: tuple[str, ...] = ()

    @property
    def figures(self) -> tuple[tuple[str, str], ...]:
        """The figures to work to, as they are called and read at the bench."""
        return tuple((name_figure(name), show_figure(name, value)) for name, value in self.set.items())
