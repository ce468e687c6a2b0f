"""How strong a screw thread is: where the screw breaks, and where the threads of screw and hole shear off.

The ridges of a hole shear off round the screw's crests, at its major diameter. The bore that was drilled before tapping
is not in that figure: a hole drilled large keeps its own strength, and it is the screw's thread, which shears off
round the bore, that loses. A figure from the drawn shape of a thread is more than a real one carries: see `USEFUL`,
`WORN` and the doubling in `lapwright.workshop.tightening`.
"""

from __future__ import annotations

from math import inf, pi
from typing import TYPE_CHECKING

from lapwright.errors import DoesNotFit
from lapwright.workshop.forms import FORMS

if TYPE_CHECKING:
    from lapwright.tables.threads import ThreadRow

#: Load crowds into the first turns: engagement beyond so many diameters is not counted [-].
USEFUL = 1.5
#: How much thread is usual where there is room, in diameters [-]; one in metals that are not named (from memory).
USUAL = {"cast iron": 1.5, "aluminium": 1.5}
#: What a worn thread still carries of the drawn one [-]: a working rule, from memory.
WORN = 0.5
#: Where a standard has a factor of its own: ASME B1.1.
_STRESS_FACTORS = {"Unified": 0.9743}


def stress_area(row: ThreadRow) -> float:
    """Work out the area on which a screw is taken to break [m2].

    It is that of a round bar as thick as the mean of the screw's effective and minor diameters: pi/4 (D - 0.938194 p)^2
    for metric threads. The American standard counts on a slightly deeper root, pi/4 (D - 0.9743/n)^2. BA and Whitworth
    threads have no standard stress area; the same mean gives D - 0.9 p and D - 0.96049 p.

    Parameters
    ----------
    row: a thread of the tables

    Source: iso-898-1 (metric); asme-b1-1 (Unified); the same mean for BA and Whitworth: exact geometry
    """
    form = FORMS[row.form]
    usual = 0.5 * (form.effective_factor + form.external_minor_factor)
    mean = row.major - _STRESS_FACTORS.get(row.form, usual) * row.pitch
    return pi / 4 * mean**2


def refuse_pipe_thread(row: ThreadRow) -> None:
    """Refuse a pipe thread, which seals and is not drawn up like a screw's.

    Parameters
    ----------
    row: a thread of the tables

    Raises
    ------
    DoesNotFit: it is a pipe thread
    """
    if row.series == "BSP":
        instead = "a worn one gets a bush from the pipe's own fittings; what holds steam is for whoever may work on it"
        raise DoesNotFit(f"{row.name} is a pipe thread: it seals, and is not drawn up like a screw", instead)


def hole_shear_area(row: ThreadRow, engagement: float) -> float:
    """Work out the area on which the thread of a hole shears off, round the screw's major diameter [m2].

    Parameters
    ----------
    row: a thread of the tables
    engagement: length of thread in the hole [m], all of it counted

    Source: fed-std-h28 (with the tangent of any half angle)
    """
    ridge = 0.5 * row.pitch + FORMS[row.form].half_angle_tangent * (row.major - row.effective)
    return pi * row.major * engagement / row.pitch * ridge


def screw_shear_area(row: ThreadRow, engagement: float, *, bore: float | None = None) -> float:
    """Work out the area on which the thread of a screw shears off, round the bore of the hole [m2].

    Parameters
    ----------
    row: a thread of the tables
    engagement: length of thread in the hole [m], all of it counted
    bore: the hole before it was tapped [m]; the basic minor diameter where it is left out. A bore as wide as the
        screw leaves nothing: 0

    Source: fed-std-h28 (with the tangent of any half angle)
    """
    across = max(bore or row.minor, row.minor)
    if across >= row.major:
        return 0.0
    ridge = 0.5 * row.pitch + FORMS[row.form].half_angle_tangent * (row.effective - across)
    return pi * across * engagement / row.pitch * ridge


def useful_engagement(row: ThreadRow, engagement: float) -> float:
    """Return the length of thread that is counted [m]: of a long one only the first one and a half diameters.

    Parameters
    ----------
    row: a thread of the tables
    engagement: length of thread in the hole [m]

    Source: common practice, no source (the formulas of fed-std-h28 would let it rise without end)
    """
    return min(engagement, USEFUL * row.major)


def usual_engagement(row: ThreadRow, metal: str) -> float:
    """Return the length of thread that is usual in a metal where there is room for it [m].

    Parameters
    ----------
    row: a thread of the tables
    metal: that of the hole, one of the tables' metals

    Source: from memory
    """
    return USUAL.get(metal, 1.0) * row.major


def hole_strip_force(row: ThreadRow, engagement: float, *, shear: float, worn: bool = False) -> float:
    """Work out the thrust at which the thread of a hole strips [N].

    Parameters
    ----------
    row: a thread of the tables
    engagement: length of thread in the hole [m]
    shear: shear strength of the hole's metal [Pa]
    worn: whether the thread is a worn one

    Source: fed-std-h28; half of it for a worn thread: from memory
    """
    return (WORN if worn else 1.0) * shear * hole_shear_area(row, useful_engagement(row, engagement))


def screw_strip_force(
    row: ThreadRow, engagement: float, *, shear: float, bore: float | None = None, worn: bool = False
) -> float:
    """Work out the thrust at which the thread of a screw strips [N].

    Parameters
    ----------
    row: a thread of the tables
    engagement: length of thread in the hole [m]
    shear: shear strength of the screw's metal [Pa]
    bore: the hole before it was tapped [m]; the basic minor diameter where it is left out
    worn: whether the thread is a worn one

    Source: fed-std-h28; half of it for a worn thread: from memory
    """
    area = screw_shear_area(row, useful_engagement(row, engagement), bore=bore)
    return (WORN if worn else 1.0) * shear * area


def weak_hole_factor(
    row: ThreadRow, *, hole_strength: float, screw_strength: float, bore: float | None = None
) -> float:
    """Work out how many times longer a thread has to be in a weak metal [-], the factor J; never under 1.

    Parameters
    ----------
    row: a thread of the tables
    hole_strength, screw_strength: tensile strengths of the two metals [Pa]
    bore: the hole before it was tapped [m]; the basic minor diameter where it is left out

    Source: fed-std-h28 (J)
    """
    areas = screw_shear_area(row, 1.0, bore=bore) / hole_shear_area(row, 1.0)
    return max(1.0, areas * screw_strength / hole_strength)


def breaking_engagement(row: ThreadRow, *, factor: float = 1.0, bore: float | None = None) -> float:
    """Work out the length of thread from which the screw breaks before any thread strips [m]; infinite without ridges.

    It takes the shear strength of a metal as half its tensile strength, as the standard does, and the basic sizes;
    threads at the loose end of their tolerance want more.

    Parameters
    ----------
    row: a thread of the tables
    factor: from `weak_hole_factor` [-]; 1 where screw and hole are of one metal
    bore: the hole before it was tapped [m]; the basic minor diameter where it is left out

    Source: fed-std-h28 (2 At over the shear area of the screw's thread in a unit of length)
    """
    area = screw_shear_area(row, 1.0, bore=bore)
    return factor * 2 * stress_area(row) / area if area else inf
