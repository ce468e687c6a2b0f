"""What is bought and cut for a gland: the packing, its rings, and the string where it has to be in one length."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from lapwright.workshop.gland import (
    Bought,
    Rings,
    choose_packing,
    count_rings,
    packing_section,
    ring_length,
    wound_length,
)
from lapwright.workshop.gland_words import JOINT_NAMES, pick_word

#: How the ends of a ring meet, and how they are cut; both are published.
JOINTS = {
    "butt": "straight across, so that the ends meet flat",
    "skive": "at 45 degrees, so that the ends overlap",
}
#: Turns on the mandrel beyond the rings that are wanted: one to spare, and the two ends that are cut off.
EXTRA_TURNS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """What is bought and cut for a gland; lengths in m.

    `depth` is None where it is not known; `length` is that of one ring, `total` what to buy, `wound` the string in one
    length. Each joint is turned on by `stagger` [deg] from the one below.
    """

    rod: float
    bore: float
    depth: float | None
    section: float
    bought: Bought
    rings: Rings
    joint: str
    stagger: int
    length: float
    total: float
    wound: float


def cut_rings(rod: float, bore: float, depth: float | None = None, *, joint: str = "butt") -> Cutting:
    """Work out what is bought and cut for a gland.

    Parameters
    ----------
    rod, bore: diameters of rod and stuffing box [m]
    depth: of the box, from its mouth to its bottom [m]; None where it could not be reached
    joint: one of `JOINTS`, by any name that people write

    Raises
    ------
    OutOfRange: a size is nothing or negative
    DoesNotFit: rod, box and depth cannot be those of one gland
    NotInTable: no packing is so thick
    NotOneOf: no such joint

    Source: mobley-1999, p. 226; common practice, no source (one ring to spare)

    Example:
    >>> cutting = cut_rings(0.004, 0.008, 0.010)
    >>> f"{cutting.rings.count} rings of {1000 * cutting.length:.1f} mm, from {cutting.total:.2f} m"
    '4 rings of 18.8 mm, from 0.12 m'
    """
    joint = pick_word(joint, tuple(JOINTS), JOINT_NAMES)
    section = packing_section(rod, bore)
    rings, length = count_rings(section, depth), ring_length(rod, section)
    return Cutting(
        rod=rod,
        bore=bore,
        depth=depth,
        section=section,
        bought=choose_packing(section),
        rings=rings,
        joint=joint,
        stagger=find_stagger(rings.count),
        length=length,
        # To the next centimetre; rounding must not make another one of it.
        total=ceil(round(100 * (rings.count + EXTRA_TURNS) * length, 6)) / 100,
        wound=wound_length(rod, section, rings.count),
    )


def find_stagger(rings: int) -> int:
    """Tell by how much each ring's joint is turned on from that of the ring below [deg]; 0 for a ring alone.

    Parameters
    ----------
    rings: how many there are

    Source: tribology-handbook, B25 (90 deg or more; propeller shafts are packed at 120)

    Example:
    >>> find_stagger(2), find_stagger(3), find_stagger(4)
    (180, 120, 90)
    """
    return {1: 0, 2: 180, 3: 120}.get(rings, 90)
