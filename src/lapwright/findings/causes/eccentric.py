"""The eccentric behind or ahead of its place."""

from __future__ import annotations

from math import degrees

from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom
from lapwright.findings.words import say_degrees, say_lap, say_leads, say_opening

ANGLE = "valve_drive.eccentric_angle"


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the eccentric where both ends open late, or both early."""
    if ANGLE in reading.sizes.assumed or reading.direction < 0 or reading.advance is None:
        return []
    if not codes_of(symptoms) & {"late-admission", "early-admission", "port-never-opens"}:
        return []
    right = right_advance(reading, aim)
    if right is None or reading.lead is None or reading.throw is None:
        return []
    late = aim.is_late(reading.throw, reading.lead)
    if not late and not aim.is_early(reading.throw, lap=reading.lap or 0.0, lead=reading.lead):
        return []

    def measure(other: Reading) -> float | None:
        best = right_advance(other, aim)
        return None if best is None or other.advance is None else degrees(best - other.advance)

    return [
        Suspicion(
            code="eccentric-behind" if late else "eccentric-ahead",
            size=measure(reading),
            unit="deg",
            changes=reading.turned_to(right),
            measure=measure,
            tell=_tell,
        )
    ]


def right_advance(reading: Reading, aim: Aim) -> float | None:
    """Return the angle of advance [rad] that the aim asks for with the lap there is; None where none can."""
    if reading.throw is None or reading.lap is None:
        return None
    return reading.solve_advance(aim.lead(reading.throw, reading.lap))


def _tell(case: Case) -> Words:
    found, behind = case.found, case.suspicion.code == "eccentric-behind"
    side = "behind" if behind else "ahead of"
    lead = " and the lead that is asked for" if case.aim.target.lead is not None else ""
    right = degrees(case.suspicion.changes[ANGLE])
    return Words(
        title=f"The eccentric stands {say_degrees(case.size)} {side} its place",
        because=(
            f"the eccentric stands {degrees(found.sizes.numbers[ANGLE]):.1f} deg ahead of the crank; with "
            f"{say_lap(1e3 * (found.lap or 0.0))}{lead} it wants {right:.1f} deg. So {say_opening(found)} "
            f"({say_leads(found)})"
        ),
        check_next=f"{_CHECK[len(found.ends)]}. See that its screw holds and has not left a fresh mark on the shaft",
    )


#: What to look at, by the number of working ends.
_CHECK = {
    1: "put the crank on the head end's dead centre (a stop and two readings) and measure the lead there",
    2: (
        "put the crank on each dead centre (a stop and two readings) and measure the lead at both ends: a wrong "
        "eccentric makes both too small or both too large"
    ),
}
