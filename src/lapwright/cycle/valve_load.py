"""What presses a flat slide valve on its face through the turn, whether it lifts, and what its friction costs."""

from __future__ import annotations

import numpy as np

from lapwright.cycle import layout as at
from lapwright.cycle.answers import ValveLoad
from lapwright.cycle.conditions import Setup
from lapwright.cycle.layout import Floats
from lapwright.cycle.packing import Pack, valve_reach
from lapwright.engine.cylinder import ENDS, OTHER_END
from lapwright.motion.travel import TURN


def find_valve_load(setup: Setup, pack: Pack, out: Floats) -> ValveLoad | None:
    """Work out the load [N] on a flat valve admitting over its outside edges; None for a piston valve or inside edges.

    The chest presses on the whole back; under the cavity there is exhaust, under a land over a port what is in that
    end, under the rest of the lands half of what stands on either side.

    Source: bourne-1865, Q55-57 (friction = coefficient x load); half the pressure under a land: common practice,
    no source
    """
    sizes = setup.sizes
    if sizes.kind != "slide" or sizes.admission != "outside":
        return None
    cavity, length = valve_reach(sizes)
    across = sizes.number("valve.width")
    port_length = sizes.number("port_face.port_length")
    chest, exhaust = out[:, at.OUT_P + at.CHEST], out[:, at.OUT_P + at.PIPE]
    hollow = cavity * port_length
    force = chest * length * across - exhaust * hollow
    lands: Floats = np.full(len(chest), length * across - hollow)
    for n, end in enumerate(ENDS):
        covered = _cover(pack, end) * port_length
        force = force - covered * out[:, at.OUT_P + n]
        lands = lands - covered
    force = force - 0.5 * (chest + exhaust) * lands
    friction = (setup.running.valve_friction or 0.0) * np.maximum(force, 0.0)
    moved = _valve_speed(pack)
    drag = friction * np.abs(moved)
    work = float(np.sum(drag * out[:, at.OUT_SHARE]))
    return ValveLoad(
        force=force,
        lifts=_find_lifts(pack.angles, force),
        friction=float(np.max(friction)),
        eccentric_torque=float(np.max(drag)),
        work=work,
    )


def _cover(pack: Pack, end: str) -> Floats:
    """How much of an end's port lies under a land [m]."""
    cylinder, sign = pack.moving.cylinder, ENDS[end]
    assert cylinder.face is not None
    side, valve, other = cylinder.face[end], cylinder.valve[end], cylinder.valve[OTHER_END[end]]
    outer, cavity, far_cavity, far_outer = (
        part or 0.0 for part in (valve.outer, valve.cavity, other.cavity, other.outer)
    )
    towards = sign * pack.positions
    near = np.minimum(side.outer, towards + outer) - np.maximum(side.inner, towards + cavity)
    far = np.minimum(side.outer, towards - far_cavity) - np.maximum(side.inner, towards - far_outer)
    return np.asarray(np.maximum(near, 0.0) + np.maximum(far, 0.0))


def _valve_speed(pack: Pack) -> Floats:
    """How fast the valve moves [m/rad], by differences over the uneven mesh."""
    angles = np.concatenate(([pack.angles[-1] - TURN], pack.angles, [pack.angles[0] + TURN]))
    places = np.concatenate((pack.positions[-1:], pack.positions, pack.positions[:1]))
    return np.asarray(np.gradient(places, angles)[1:-1])


def _find_lifts(angles: Floats, force: Floats) -> tuple[tuple[float, float], ...]:
    """Arcs in which the force is against the face; a whole turn is (0, 2 pi)."""
    lifted = force < 0
    if lifted.all():
        return ((0.0, TURN),)
    starts = np.flatnonzero(lifted & ~np.roll(lifted, 1))
    stops = np.flatnonzero(lifted & ~np.roll(lifted, -1))
    if len(starts) and stops[0] < starts[0]:
        stops = np.roll(stops, -1)
    return tuple((float(angles[a]), float(angles[b])) for a, b in zip(starts, stops, strict=True))
