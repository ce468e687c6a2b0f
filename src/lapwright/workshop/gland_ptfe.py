"""PTFE that grows warm: the gap to leave in a piston ring of it."""

from __future__ import annotations

from math import pi

from lapwright.errors import NotOneOf, OutOfRange

#: How much each kind grows [1/K], at about 100 degC (tribology-handbook, B17; virgin from memory).
GROWTH = {
    "carbon-filled": 55e-6,
    "glass-filled": 80e-6,
    "graphite and MoS2": 115e-6,
    "bronze-filled": 118e-6,
    "virgin": 125e-6,
}


def ptfe_ring_gap(bore: float, *, rise: float, kind: str = "carbon-filled") -> float:
    """Work out the least gap to leave in a PTFE piston ring, so that heat does not close it and lock the piston [m].

    A ring that runs freely on air proves nothing: on steam one without a gap has locked an engine solid. The book's
    formula takes the temperature itself [degC] for the rise, which is a little on the safe side.

    Parameters
    ----------
    bore: of the cylinder [m]
    rise: how much hotter it runs than it was fitted at [K]
    kind: one of `GROWTH`

    Raises
    ------
    NotOneOf: there is no such kind
    OutOfRange: the bore or the rise is nothing or negative

    Source: tribology-handbook, B17; from memory (virgin PTFE)

    Example:
    >>> [f"{1000 * ptfe_ring_gap(0.025, rise=130, kind=kind):.2f} mm" for kind in ("carbon-filled", "virgin")]
    ['0.56 mm', '1.28 mm']
    """
    if kind not in GROWTH:
        raise NotOneOf(kind, tuple(GROWTH))
    if bore <= 0 or rise <= 0:
        raise OutOfRange(f"{1000 * bore:g} mm, {rise:g} K", "is no bore and rise of a warm cylinder")
    return pi * bore * GROWTH[kind] * rise
