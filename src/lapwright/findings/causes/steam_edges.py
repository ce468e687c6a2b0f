"""The valve too long or too short over its steam edges (over its cavity, where steam is admitted inside)."""

from __future__ import annotations

from math import radians, sin

from lapwright.findings.aim import Aim, lap_slack
from lapwright.findings.edges import set_steam_laps
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom, misses_expansion
from lapwright.findings.words import say_mm, say_opening

#: An eccentric within this angle of square to the crank was meant to be square: its valve has no lap [rad].
SQUARE = radians(2.5)


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the valve's steam edges where the lap is not what the eccentric or the target asks for."""
    lap, throw = reading.lap, reading.throw
    if lap is None or throw is None or reading.steam_laps is None or reading.lead is None:
        return []
    wanted = right_lap(reading, aim)
    if wanted is None or not _can_be_to_blame(reading, aim, symptoms, wanted=wanted):
        return []
    more = lap - wanted
    laps = {end: own - more for end, own in reading.steam_laps.items()}
    square = reading.advance is not None and abs(sin(reading.advance)) < sin(SQUARE)

    def measure(other: Reading) -> float | None:
        best = right_lap(other, aim)
        return None if best is None or other.lap is None else 2e3 * (other.lap - best)

    return [
        Suspicion(
            code=_code(reading, more),
            size=abs(2e3 * more),
            unit="mm",
            changes=set_steam_laps(reading, laps),
            measure=measure,
            tell=_tell,
            reluctance=-0.5 if square or lap < -lap_slack(throw) else 0.15,
        )
    ]


def right_lap(reading: Reading, aim: Aim) -> float | None:
    """Return the steam lap [m] that the target names or that suits the eccentric: none, where it stands square."""
    if aim.target.lap is not None:
        return aim.target.lap
    reach, throw, advance = reading.reach(), reading.throw, reading.advance
    if reach is None or throw is None or advance is None:
        return None
    if abs(sin(advance)) < sin(SQUARE) or reach < 0:
        return 0.0
    return max(0.0, reach - aim.lead(throw, reach))


def _can_be_to_blame(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...], *, wanted: float) -> bool:
    lap, throw = reading.lap or 0.0, reading.throw or 0.0
    if abs(lap - wanted) <= lap_slack(throw):
        return False
    if aim.target.lap is not None and misses_expansion(reading, aim):
        return True
    if lap > wanted:
        return bool(codes_of(symptoms) & {"late-admission", "port-never-opens"})
    # A lap that is positive but small is a setting of the eccentric; below nothing it can only be the valve.
    return lap < -lap_slack(throw)


def _code(reading: Reading, more: float) -> str:
    if reading.outside:
        return "valve-too-long" if more > 0 else "valve-too-short"
    return "cavity-too-short" if more > 0 else "cavity-too-long"


def _tell(case: Case) -> Words:
    found, long = case.found, (case.found.lap or 0.0) > (case.mended.lap or 0.0)
    part = "valve" if found.outside else "valve's cavity"
    over = "outer edges of the ports" if found.outside else "inner edges of the ports"
    grown = long if found.outside else not long
    more = "longer" if grown else "shorter"
    matched = abs(case.mended.lap or 0.0) < 1e-9
    against = f"the {over}" if matched else "suits the eccentric's advance"
    if case.aim.target.lap is not None:
        against = "the lap that is asked for wants"
    blow = found.motion.chest_to_exhaust_deg
    so = say_opening(found)
    if not long and blow:
        so = (
            "both ports stand open to steam at mid-travel, "
            f"and the chest is open to exhaust for {blow:.0f} deg of a turn"
        )
    return Words(
        title=f"The {part} is {say_mm(case.size)} too {'long' if grown else 'short'}",
        because=f"the {part} is {say_mm(case.size)} {more} than {against}, so {so}",
        check_next=_CHECK_LONG if long else _CHECK_SHORT[found.sizes.kind],
    )


_CHECK_LONG = (
    "measure the valve over its edges and the ports over theirs with the same calliper, or print both on one paper "
    "with marking blue and compare. Then see whether the eccentric stands square to the crank: a valve with lap needs "
    "it further on"
)
_CHECK_SHORT = {
    "slide": (
        "lay the valve central on the face and look along it: light through both steam ports at once says that it does "
        "not cover them"
    ),
    "piston": (
        "set the valve at mid-travel and blow gently into the steam inlet: air at both ends of the cylinder at once "
        "says that it does not cover its ports"
    ),
}
