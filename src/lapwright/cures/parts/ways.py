"""Which help a grub screw gets that does not hold by itself."""

from __future__ import annotations

from lapwright.workshop.holding import HoldingPlan, HoldingWay


def find_way(plan: HoldingPlan) -> HoldingWay:
    """Return the least help that is enough: a flat, a second screw, both, or else a point let into a dimple.

    Parameters
    ----------
    plan: what the screw holds, and what it has to hold
    """
    return next((way for way in plan.ways if way.enough), plan.ways[-1])
