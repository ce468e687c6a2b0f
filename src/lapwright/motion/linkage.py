"""The slider-crank and its inverse: where the slide stands, and at which angles it stands at a given place.

Every function takes plain floats or numpy arrays alike; the square root is handed in, so that one engine
needs nothing but `math` and a million engines are one array call with the same algebra.
"""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt
from typing import Any

#: A float or an array of floats; `Root` is the square root that goes with it.
Number = Any
Root = Callable[[Number], Number]


def slide_position(
    throw: Number, rod: Number, offset: Number, *, cosine: Number, sine: Number, root: Root = sqrt
) -> Number:
    """Return how far the slide stands from the shaft, along its line.

    Parameters
    ----------
    throw, rod: crank throw and rod length [m], rod > throw + |offset|
    offset: distance of the line from the shaft centre [m]
    cosine, sine: of the crank's angle from the line, growing with the rotation
    root: square root for floats or for arrays

    Returns
    -------
    Distance [m], positive away from the shaft.

    Source: exact geometry

    Example:
    >>> slide_position(3.0, 5.0, 0.0, cosine=0.0, sine=1.0)
    4.0
    """
    return throw * cosine + root(rod * rod - (throw * sine - offset) ** 2)


def slide_limits(throw: Number, rod: Number, offset: Number, *, root: Root = sqrt) -> tuple[Number, Number]:
    """Return the nearest and the farthest place of the slide [m] from the shaft, along its line.

    Source: exact geometry (crank and rod in one line, folded and stretched)

    Example:
    >>> slide_limits(3.0, 10.0, 0.0)
    (7.0, 13.0)
    """
    near = root((rod - throw - offset) * (rod - throw + offset))
    far = root((rod + throw - offset) * (rod + throw + offset))
    return near, far


def find_crossing(
    throw: Number, rod: Number, offset: Number, *, position: Number, root: Root = sqrt
) -> tuple[Number, Number, Number, Number]:
    """Return the two crank directions at which the slide stands at a given place.

    The triangle shaft, crank pin, slide has all three sides known; the law of cosines, written with the
    half-angle products so that nothing cancels near the ends of the travel, gives the angle at the shaft.

    Parameters
    ----------
    throw, rod, offset: as in `slide_position` [m]
    position: the place asked for [m], strictly between the limits
    root: square root for floats or for arrays

    Returns
    -------
    (cosine, sine) of the angle at which the slide passes while coming nearer to the shaft, then
    (cosine, sine) of the angle at which it passes going away from it.

    Source: exact geometry (law of cosines)

    Example:
    >>> [round(value, 12) for value in find_crossing(3.0, 5.0, 0.0, position=4.0)]
    [0.0, 1.0, 0.0, -1.0]
    """
    distance = root(position * position + offset * offset)
    folded = (rod - distance + throw) * (rod + distance - throw)
    stretched = (distance + throw - rod) * (distance + throw + rod)
    whole = folded + stretched
    along, across = (stretched - folded) / whole, 2 * root(folded * stretched) / whole
    line, lean = position / distance, offset / distance
    line_along, lean_across = line * along, lean * across
    lean_along, line_across = lean * along, line * across
    return line_along - lean_across, lean_along + line_across, line_along + lean_across, lean_along - line_across
