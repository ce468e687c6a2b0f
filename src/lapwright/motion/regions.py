"""Where the valve must stand for a port to be open: stretches of valve position, and their sums.

A stretch is a pair (low, high) of valve positions along the valve line in m, positive towards the head end,
measured from the port-face centre to the valve's centre. Slide valve or piston valve, admission over the
outside or the inside edges: the space outside the valve's ends and the cavity between its lands change places,
and nothing else does.
"""

from __future__ import annotations

from math import inf

from lapwright.engine.cylinder import ENDS, OTHER_END, Cylinder

Stretch = tuple[float, float]
Region = tuple[Stretch, ...]
#: Less than this is no gap but the rounding of the sums [m].
HAIR = 1e-12


def merge_stretches(stretches: Region) -> Region:
    """Return the same set of positions as separate stretches in rising order.

    Example:
    >>> merge_stretches(((2.0, 4.0), (0.0, 1.0), (3.0, 5.0)))
    ((0.0, 1.0), (2.0, 5.0))
    """
    merged: list[Stretch] = []
    for low, high in sorted(stretch for stretch in stretches if stretch[0] < stretch[1]):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(high, merged[-1][1]))
        else:
            merged.append((low, high))
    return tuple(merged)


def meet_regions(one: Region, other: Region) -> Region:
    """Return the positions that lie in both regions."""
    return merge_stretches(tuple((max(a, c), min(b, d)) for a, b in one for c, d in other))


def _face_valve(stretches: Region, end: str) -> Region:
    """Turn stretches counted towards one end into valve positions, positive towards the head end."""
    if ENDS[end] > 0:
        return merge_stretches(stretches)
    return merge_stretches(tuple((-high, -low) for low, high in stretches))


def find_outer_region(cylinder: Cylinder, end: str) -> Region | None:
    """Return where the end's port is open to the space outside the valve's ends; None if not known."""
    near, far = cylinder.valve[end].outer, cylinder.valve[OTHER_END[end]].outer
    if cylinder.face is None or near is None or far is None:
        return None
    side = cylinder.face[end]
    return _face_valve(((-inf, side.outer - near), (side.inner + far, inf)), end)


def find_cavity_region(cylinder: Cylinder, end: str) -> Region | None:
    """Return where the end's port is open to the cavity between the valve's lands; None if not known."""
    near, far = cylinder.valve[end].cavity, cylinder.valve[OTHER_END[end]].cavity
    if cylinder.face is None or near is None or far is None:
        return None
    side = cylinder.face[end]
    return _face_valve(((side.inner - near, side.outer + far),), end)


def find_steam_region(cylinder: Cylinder, end: str) -> Region | None:
    """Return where the end's port is open to the steam chest; None if not known."""
    return (find_outer_region if cylinder.admission == "outside" else find_cavity_region)(cylinder, end)


def find_exhaust_region(cylinder: Cylinder, end: str) -> Region | None:
    """Return where the end's port is open to exhaust; None if not known."""
    return (find_cavity_region if cylinder.admission == "outside" else find_outer_region)(cylinder, end)


def find_bare_middle_region(cylinder: Cylinder) -> Region | None:
    """Return where the middle port is uncovered past the end of the valve; None if not known."""
    if cylinder.face is None:
        return None
    region: Region = ()
    for end in ENDS:
        near = cylinder.valve[end].outer
        if near is None:
            return None
        region += _face_valve(((-inf, cylinder.face[end].middle - near),), end)
    return merge_stretches(region)


def find_straight_region(cylinder: Cylinder) -> Region | None:
    """Return where live steam has a straight way to exhaust, through one port or past the valve's end."""
    bare = find_bare_middle_region(cylinder)
    if bare is None:
        return None
    region = bare
    for end in ENDS:
        steam, exhaust = find_steam_region(cylinder, end), find_exhaust_region(cylinder, end)
        if steam is None or exhaust is None:
            return None
        region += meet_regions(steam, exhaust)
    # Edges that match exactly leave a gap of rounding, which is no way at all.
    return tuple((low, high) for low, high in merge_stretches(region) if high - low > HAIR)


def outer_opening(cylinder: Cylinder, end: str, position: float) -> float | None:
    """Return how much of the end's port lies outside the valve at a valve position [m]."""
    near, far = cylinder.valve[end].outer, cylinder.valve[OTHER_END[end]].outer
    if cylinder.face is None or near is None or far is None:
        return None
    side, towards = cylinder.face[end], ENDS[end] * position
    past_near = min(max(side.outer - towards - near, 0.0), side.width)
    past_far = min(max(towards - far - side.inner, 0.0), side.width)
    return min(past_near + past_far, side.width)


def cavity_opening(cylinder: Cylinder, end: str, position: float) -> float | None:
    """Return how much of the end's port lies under the valve's cavity at a valve position [m]."""
    near, far = cylinder.valve[end].cavity, cylinder.valve[OTHER_END[end]].cavity
    if cylinder.face is None or near is None or far is None:
        return None
    side, towards = cylinder.face[end], ENDS[end] * position
    return max(0.0, min(side.outer, towards + near) - max(side.inner, towards - far))


def middle_way(cylinder: Cylinder, position: float) -> float | None:
    """Return the free width of the middle port under the cavity at a valve position [m]."""
    head, crank = cylinder.valve["head"].cavity, cylinder.valve["crank"].cavity
    if cylinder.face is None or head is None or crank is None:
        return None
    face = cylinder.face
    return max(0.0, min(face["head"].middle, position + head) + min(face["crank"].middle, crank - position))
