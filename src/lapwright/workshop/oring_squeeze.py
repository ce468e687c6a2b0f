"""How hard a groove squeezes an O-ring on a moving rod, and how full of it the groove is."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from lapwright.errors import OutOfRange
from lapwright.quantities import show_mm


@dataclass(frozen=True, slots=True)
class Squeeze:
    """How much of its section a ring loses in the groove [-]: with middle sizes, and at the ends of the tolerances.

    `fill` is the share of the groove that the ring takes up with middle sizes, `most_fill` at the worst [-].
    """

    nominal: float
    least: float
    most: float
    fill: float
    most_fill: float


def find_stretch(inside: float, section: float, rod: float) -> float:
    """Work out by what share a ring is stretched on its rod; negative where it is larger than the rod [-].

    Parameters
    ----------
    inside: inside diameter of the ring [m]
    section: of the ring [m]
    rod: diameter of the rod [m]

    Source: exact geometry (on the inside diameter, as makers count it)

    Example:
    >>> f"{find_stretch(0.00447, 0.00178, 0.0047625):.3f}"
    '0.065'
    """
    for size in (inside, section, rod):
        if size <= 0:
            raise OutOfRange(show_mm(size), "is no size of a ring or a rod")
    return rod / inside - 1


def thin_section(inside: float, section: float, rod: float) -> float:
    """Work out the section of a ring that is stretched on its rod; its volume stays the same [m].

    A ring that is larger than the rod keeps its section: it is not pressed shorter, it only lies loose.

    Parameters
    ----------
    inside: inside diameter of the ring [m]
    section: of the ring as it lies on the table [m]
    rod: diameter of the rod [m]

    Source: exact geometry (the middle line of the ring goes from inside + section to rod + section)

    Example:
    >>> f"{1000 * thin_section(0.00447, 0.00178, 0.0047625):.3f} mm"
    '1.740 mm'
    """
    if rod <= inside:
        return section
    return section * sqrt((inside + section) / (rod + section))


def find_squeeze(
    section: float, *, tolerance: float, depths: tuple[float, float], width: float, stretched: float
) -> Squeeze:
    """Work out how hard a ring is squeezed in its groove, and how full it is.

    Parameters
    ----------
    section: of the ring as it lies on the table [m]
    tolerance: by how much the section may be off, either way [m]
    depths: least and greatest depth of the groove, from the rod [m]
    width: of the groove along the rod [m]
    stretched: its section on the rod [m]

    Source: exact geometry

    Example:
    >>> ring = find_squeeze(0.00178, tolerance=8e-5, depths=(0.0014, 0.00145), width=0.00241, stretched=0.00178)
    >>> f"{ring.least:.2f} to {ring.most:.2f}, {ring.fill:.2f} full"
    '0.15 to 0.25, 0.72 full'
    """
    share = stretched / section
    thin, thick = (section - tolerance) * share, (section + tolerance) * share
    low, high = depths
    middle = (low + high) / 2
    return Squeeze(
        nominal=1 - middle / stretched,
        least=1 - high / thin,
        most=1 - low / thick,
        fill=pi / 4 * stretched**2 / (middle * width),
        most_fill=pi / 4 * thick**2 / (low * width),
    )
