"""What the geometry forbids, whatever the cure would like."""

from __future__ import annotations

from lapwright.engine.cylinder import ENDS
from lapwright.findings.reading import Reading
from lapwright.findings.symptoms import LEAST_WAY, overtravel_by, way_share

#: A bridge that is left thinner than this, and thinner than the port beside it, will not stand [m].
#: Common practice, no source.
THINNEST = 0.8e-3
#: Least opening of a port, as its share, that is still worth setting.
LEAST_OPENING = 0.35
HAIR = 1e-9


def forbids(before: Reading, after: Reading) -> str:
    """Return why a change must not be proposed, or nothing where the geometry allows it."""
    return (
        _land_too_narrow(before, after)
        or _exhaust_choked(before, after)
        or _cannot_uncover(after)
        or _bridge_too_thin(before, after)
        or ("the valve's end would run past the port" if _runs_past(before, after) else "")
    )


def only_removes_metal(before: Reading, after: Reading) -> bool:
    """Whether the valve can be made from the one there is: no edge stands farther out than metal reaches."""
    old, new = before.cylinder.valve, after.cylinder.valve
    for end in ENDS:
        was, now = old[end], new[end]
        if was.outer is None or now.outer is None or now.outer > was.outer + HAIR:
            return False
        if was.cavity is not None and now.cavity is not None and now.cavity < was.cavity - HAIR:
            return False
    return True


def opening_share(reading: Reading) -> float | None:
    """Return the least of the ends' greatest steam openings, as a share of the port; None where not known."""
    face = reading.cylinder.face
    openings = {end: reading.motion.ends[end].greatest_steam_opening_mm for end in reading.ends}
    if face is None:
        return None
    known = [opening * 1e-3 / face[end].width for end, opening in openings.items() if opening is not None]
    return min(known) if len(known) == len(openings) else None


def _land_too_narrow(before: Reading, after: Reading) -> str:
    was, now = before.motion.chest_to_exhaust_deg, after.motion.chest_to_exhaust_deg
    if now is not None and now > 0.5 and now > (was or 0.0) + 0.1:
        return "a land would be left narrower than its port"
    return ""


def _exhaust_choked(before: Reading, after: Reading) -> str:
    was, now = way_share(before), way_share(after)
    if now is not None and now < LEAST_WAY and now < (1.0 if was is None else was) - 0.01:
        return "the exhaust would be choked"
    return ""


def _cannot_uncover(after: Reading) -> str:
    share = opening_share(after)
    return "the travel could not uncover the port" if share is not None and share < LEAST_OPENING else ""


def _bridge_too_thin(before: Reading, after: Reading) -> str:
    if before.cylinder.face is None or after.cylinder.face is None:
        return ""
    for end in ENDS:
        was = before.cylinder.face[end].inner - before.cylinder.face[end].middle
        now = after.cylinder.face[end].inner - after.cylinder.face[end].middle
        stands = min(THINNEST, before.cylinder.face[end].width)
        if now < was - HAIR and now < max(stands, 0.4 * was):
            return "the bridge would be left too thin"
    return ""


def _runs_past(before: Reading, after: Reading) -> bool:
    return overtravel_by(after) > max(overtravel_by(before), 0.02e-3) + HAIR
