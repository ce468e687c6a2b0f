"""The sentences that several faults share: lengths and angles as the bench says them, and when a port opens."""

from __future__ import annotations

from math import degrees, pi

from lapwright.engine.cylinder import OTHER_END
from lapwright.findings.reading import Reading, wrap

ENDS_IN_WORDS = {"head": "head end", "crank": "crank end"}


def say_mm(length_mm: float) -> str:
    """Say a length [mm] without its sign, to a hundredth.

    Example:
    >>> say_mm(-0.8249)
    '0.82 mm'
    """
    return f"{abs(length_mm):.2f} mm"


def say_signed_mm(length_mm: float) -> str:
    """Say a length [mm] with its sign, to a hundredth; what rounds to nothing has none.

    Example:
    >>> say_signed_mm(0.8249), say_signed_mm(-0.001)
    ('+0.82 mm', '0.00 mm')
    """
    return f"{length_mm:+.2f} mm" if abs(length_mm) >= 0.005 else "0.00 mm"


def say_lap(lap_mm: float) -> str:
    """Say a lap [mm], to a hundredth.

    Example:
    >>> say_lap(0.8249), say_lap(0.001), say_lap(-0.3)
    ('0.82 mm of lap', 'no lap', '0.30 mm of negative lap')
    """
    if abs(lap_mm) < 0.005:
        return "no lap"
    return f"{say_mm(lap_mm)} of {'lap' if lap_mm > 0 else 'negative lap'}"


def say_degrees(angle_deg: float) -> str:
    """Say an angle [deg] without its sign: to a tenth below ten degrees, whole above.

    Example:
    >>> say_degrees(-4.26), say_degrees(15.2)
    ('4.3 deg', '15 deg')
    """
    size = abs(angle_deg)
    return f"{size:.1f} deg" if size < 9.95 else f"{size:.0f} deg"


def late_by(reading: Reading, end: str, event: str = "admission") -> float | None:
    """Return how far after its dead centre an end opens to steam [deg], negative for before; None if it never does.

    For `release` and `compression` the dead centre is the other end's, where that stroke ends.
    """
    times = reading.motion.ends[end].events[event].crank_deg
    at = end if event == "admission" else OTHER_END[end]
    centre = reading.moving.dead_centre(at)
    if not times or centre is None:
        return None
    return min((degrees(wrap(angle * pi / 180 - centre)) for angle in times), key=abs)


def say_opening(reading: Reading) -> str:
    """Say when the ports open to steam, against their dead centres.

    The engine's own direction counts: where the eccentric is set for the other direction, nothing is said here.
    """
    lateness = {end: late_by(reading, end) for end in reading.ends}
    never = [ENDS_IN_WORDS[end] for end, late in lateness.items() if late is None]
    if len(never) == len(lateness):
        return "no port ever opens to steam" if len(never) > 1 else f"the {never[0]} never opens to steam"
    known = {end: late for end, late in lateness.items() if late is not None}
    values = list(known.values())
    if len(values) == 2 and abs(values[0] - values[1]) < 1.0:
        return f"each end opens {_say_side(sum(values) / 2)}"
    parts = [f"the {ENDS_IN_WORDS[end]} opens {_say_side(late)}" for end, late in known.items()]
    parts += [f"the {name} never opens to steam" for name in never]
    return " and ".join(parts)


def _say_side(late: float) -> str:
    if abs(late) < 0.5:
        return "at dead centre"
    return f"late by {say_degrees(late)}" if late > 0 else f"{say_degrees(late)} before dead centre"


def set_at_mid_travel(reading: Reading) -> str:
    """Say how the valve is brought to where its edges can be held against the ports'."""
    if reading.sizes.kind == "piston":
        return "with the valve at mid-travel, measured in from the end of its liner"
    return "with the cover off and the valve central"


def say_leads(reading: Reading) -> str:
    """Say the lead at each working end as the feeler would find it."""
    parts = []
    for end in reading.ends:
        lead = reading.lead_at(end)
        if lead is None:
            return "the leads are not known"
        parts.append(f"{say_signed_mm(lead * 1e3)} at the {ENDS_IN_WORDS[end]}")
    return "lead " + " and ".join(parts)
