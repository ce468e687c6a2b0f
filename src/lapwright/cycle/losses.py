"""Where a card falls short of full pressure all the stroke, and where the air or steam goes."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lapwright.cycle import layout as at
from lapwright.cycle.answers import LOSSES, USES
from lapwright.cycle.layout import Floats

Marks = NDArray[np.bool_]


def split_card(n: int, turn: Floats, out: Floats, *, supply: float, exhaust: float) -> tuple[float, dict[str, float]]:
    """Split an end's card into what a full one would do and what is missing, by cause.

    On the way out it is pressure below the supply's that is missed, on the way back pressure above the exhaust's. The
    parts add up to the work on the piston exactly, since all are sums of the same stages.

    Parameters
    ----------
    n: 0 for the head end, 1 for the crank end
    turn, out: a march's geometry and results
    supply, exhaust: absolute pressures [Pa]

    Returns
    -------
    Work of the full card [J a turn], and the losses by the names in `LOSSES` [J a turn]; negative is a gain.
    """
    swell = turn[:, at.SWELL_HEAD + 2 * n] * out[:, at.OUT_SHARE]
    pressure = out[:, at.OUT_P + n]
    steam, exhausting = turn[:, at.OPEN_STEAM_HEAD + n] > 0, turn[:, at.OPEN_EXHAUST_HEAD + n] > 0
    outward = swell > 0
    missed = np.where(outward, (supply - pressure) * swell, (exhaust - pressure) * swell)
    early = _before_steam(steam, outward)
    parts = {
        "blow-through": outward & steam & exhausting,
        "wire-drawing": outward & steam & ~exhausting,
        "late admission": outward & ~steam & early,
        "early release": outward & ~steam & ~early & exhausting,
        "cut-off": outward & ~steam & ~early & ~exhausting,
        "early admission": ~outward & steam,
        "back pressure": ~outward & ~steam & exhausting,
        "cushioning": ~outward & ~steam & ~exhausting,
    }
    full = float(np.sum((supply - exhaust) * swell[outward]))
    return full, {name: float(np.sum(missed[parts[name]])) for name in LOSSES}


def _before_steam(steam: Marks, outward: Marks) -> Marks:
    """Mark the part of the stroke outward that comes before the port opens to steam."""
    start = int(np.argmax(outward & ~np.roll(outward, 1)))
    seen = np.cumsum(np.roll(steam & outward, -start)) > 0
    return np.asarray(np.roll(~seen, start))


def split_supply(turn: Floats, out: Floats, *, speed: float) -> tuple[float, dict[str, float]]:
    """Say where the air or steam of a turn goes: in all, and by the names in `USES` [kg].

    What goes in at a port while the same port lets out is counted as blown through, as far as both flows match.
    """
    flows, time = out[:, at.OUT_FLOWS : at.OUT_FLOWS + at.WAYS], out[:, at.OUT_SHARE] / speed

    def total(flow: Floats) -> float:
        return float(np.sum(flow * time))

    through = np.maximum(flows[:, at.WAY_STRAIGHT], 0.0)
    for n in range(2):
        into, away = flows[:, at.WAY_STEAM_HEAD + n], flows[:, at.WAY_EXHAUST_HEAD + n]
        through = through + np.clip(np.minimum(into, away), 0.0, None)
    from_chest = (at.WAY_STEAM_HEAD, at.WAY_STEAM_CRANK, at.WAY_STRAIGHT, at.GAP_FACE, at.GAP_SPINDLE)
    supplied = sum(total(flows[:, way]) for way in from_chest)
    uses = {
        "blow-through": total(through),
        "rings": total(np.abs(flows[:, at.GAP_RINGS])),
        "valve face": total(flows[:, at.GAP_FACE]),
        "piston-rod gland": total(flows[:, at.GAP_GLAND]),
        "spindle gland": total(flows[:, at.GAP_SPINDLE]),
    }
    uses["worked"] = supplied - sum(uses.values())
    return supplied, {name: uses[name] for name in USES}


def find_exhaust_heat(out: Floats, *, speed: float) -> tuple[float, float]:
    """Return what goes to exhaust in a turn [kg], and the enthalpy it carries [J].

    What comes back from there is left out: where an engine only breathes, the difference of two like sums says nothing.
    """
    time = out[:, at.OUT_SHARE] / speed
    ways = (at.WAY_EXHAUST_HEAD, at.WAY_EXHAUST_CRANK, at.WAY_STRAIGHT, at.GAP_FACE)
    mass = heat = 0.0
    for way in ways:
        flow = out[:, at.OUT_FLOWS + way]
        mass += float(np.sum(np.where(flow > 0, flow, 0.0) * time))
        heat += float(np.sum(np.where(flow > 0, out[:, at.OUT_CARRIED + way], 0.0) * time))
    return mass, heat
