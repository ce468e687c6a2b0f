"""What each cure gains, by running the engine after it."""

from __future__ import annotations

from dataclasses import replace

from lapwright.cures.cure import Cure
from lapwright.cycle.comparing import Ground, Showing, tell_gain
from lapwright.errors import CannotRun


def prove_cures(cures: tuple[Cure, ...], ground: Ground) -> tuple[Cure, ...]:
    """Return the cures with the run after each, and in words what it gains.

    A cure that several cylinders share is done to all of them at once.

    Parameters
    ----------
    cures: what may be done, by cylinder
    ground: the engine as found, run
    """
    shown: dict[str, Showing | None] = {}
    for cure in cures:
        if cure.code not in shown:
            shown[cure.code] = _show_cured(cure.code, cures, ground)
    return tuple(_add(cure, shown[cure.code], ground.found) for cure in cures)


def _show_cured(code: str, cures: tuple[Cure, ...], ground: Ground) -> Showing | None:
    try:
        return ground.show_changed({cure.cylinder: cure.changes for cure in cures if cure.code == code})
    except CannotRun:
        return None


def _add(cure: Cure, after: Showing | None, found: Showing) -> Cure:
    return cure if after is None else replace(cure, run=after, gain=tell_gain(found, after))
