"""From which length of thread on a screw breaks before its thread or that of the hole strips."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from lapwright.tables.materials import find_metal
from lapwright.workshop.screws import find_screw
from lapwright.workshop.strength import USEFUL, WORN, breaking_engagement, weak_hole_factor

if TYPE_CHECKING:
    from lapwright.workshop.tightening import Tightening


@dataclass(frozen=True, slots=True)
class Breaking:
    """From which length of thread on a screw breaks before a thread strips [m], and what that rests on.

    Where it is longer than `counted` [m] it is never reached: there the threads always go first.
    """

    length: float
    counted: float
    sources: tuple[str, ...]

    @property
    def is_reached(self) -> bool:
        """Whether there is a length of thread, still counted, with which the screw breaks first."""
        return self.length <= self.counted


def find_breaking(held: Tightening) -> Breaking:
    """Find the length of thread from which a screw breaks before the threads strip: a broken screw is soon replaced.

    Parameters
    ----------
    held: the screw in its hole; not a grub screw, which is not pulled

    Source: fed-std-h28 (with J for a hole of weaker metal); half of a worn thread is counted: from memory
    """
    row, bore = held.row, held.row.tapping_drill
    ultimate = find_metal(held.hole).ultimate
    factor = weak_hole_factor(
        row, hole_strength=ultimate.value, screw_strength=find_screw(held.screw).tensile, bore=bore
    )
    length = breaking_engagement(row, factor=factor, bore=bore) / (WORN if held.worn else 1.0)
    return Breaking(
        length=length,
        counted=USEFUL * row.major,
        sources=(
            "where the screw breaks first: FED-STD-H28, with shear taken as half the ultimate strength; that of "
            f"{held.hole}: {ultimate.source}",
        ),
    )
