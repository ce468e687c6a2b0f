"""Too little or too much travel for the ports."""

from __future__ import annotations

from math import sin

from lapwright.findings.aim import Aim
from lapwright.findings.causes.steam_edges import SQUARE
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom, overtravel_by
from lapwright.findings.words import say_mm, say_opening

THROW = "valve_drive.throw"
#: Share of the port opened at full travel below which the travel itself is to blame; above it the port is only starved.
TRAVEL_TO_BLAME = 0.5
#: What too little travel shows itself by, and too much; a middle port that lets steam in starves it by too much.
_SHOW_LITTLE = {"port-starved", "port-never-opens", "exhaust-starved"}
_SHOW_MUCH = {"overtravel", "valve-strikes-chest", "exhaust-choked", "port-starved"}


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the eccentric's throw where the ports open too little, or the valve runs past what it should cover."""
    lap, port, throw = reading.lap, reading.port, reading.throw
    codes = codes_of(symptoms)
    if lap is None or port is None or throw is None:
        return []
    right = right_throw(reading, aim)
    if right is None or abs(right - throw) < 0.01 * throw:
        return []
    short = right > throw
    if not codes & (_SHOW_LITTLE if short else _SHOW_MUCH):
        return []
    if not short and "overtravel" not in codes and right > 0.9 * throw:
        return []

    def measure(other: Reading) -> float | None:
        best = right_throw(other, aim)
        return None if best is None or other.throw is None else 2e3 * (best - other.throw)

    starved = short and (throw - max(lap, 0.0)) / port >= TRAVEL_TO_BLAME
    return [
        Suspicion(
            code="port-starved" if starved else "travel-too-short" if short else "overtravel",
            size=measure(reading),
            unit="mm",
            changes={THROW: reading.sizes.numbers[THROW] * right / throw},
            measure=measure,
            tell=_tell_short if short else _tell_long,
            reluctance=0.1 if short or "overtravel" in codes else 0.4,
        )
    ]


def right_throw(reading: Reading, aim: Aim) -> float | None:
    """Return the throw [m] that suits lap and advance, or that just opens the port where the eccentric is square.

    Source: williams-1906 (throw = lap + port; lap and lead set the advance)
    """
    lap, port, advance, throw = reading.lap, reading.port, reading.advance, reading.throw
    if lap is None or port is None or advance is None or throw is None:
        return None
    just_open = max(lap, 0.0) + port
    if abs(sin(advance)) < 2 * sin(SQUARE) or lap <= 0 or sin(advance) < 0:
        return just_open
    suits = throw
    for _ in range(6):  # the lead that is usual grows with the throw, by far less than the throw itself
        suits = (lap + aim.lead(suits, lap)) / sin(advance)
    return suits if lap + 0.75 * port <= suits <= 1.5 * just_open else just_open


def _tell_short(case: Case) -> Words:
    found = case.found
    throw, lap, port = 1e3 * (found.throw or 0.0), 1e3 * (found.lap or 0.0), 1e3 * (found.port or 0.0)
    opens = max(throw - max(lap, 0.0), 0.0)
    starved = case.suspicion.code == "port-starved"
    title = "The steam ports open too little" if starved else "The valve's travel is too short for the ports"
    goes = f" and {say_mm(lap)} of it goes on lap" if lap > 0.005 else ""
    return Words(
        title=title,
        because=(
            f"half the travel is {say_mm(throw)}{goes}, so the valve opens the "
            f"{say_mm(port)} ports by {say_mm(opens)} at most; {say_mm(case.size)} more travel opens them fully. "
            f"Now {say_opening(found)}"
        ),
        check_next=(
            "measure the valve's travel over a full turn at the spindle, not at the eccentric: lost motion in "
            "fork, nut or strap "
            "takes as much off as a small throw"
        ),
    )


def _tell_long(case: Case) -> Words:
    found = case.found
    past = 1e3 * max(overtravel_by(found), 0.0)
    blow = found.motion.chest_to_exhaust_deg or 0.0
    so = (
        f"the valve's end runs {say_mm(past)} past an edge that it should keep covered"
        if past > 0
        else "the valve runs too far"
    )
    if blow > 0:
        so += f", and the chest is open to exhaust for {blow:.0f} deg of a turn"
    return Words(
        title=f"The valve travels {say_mm(case.size)} too far",
        because=f"the valve's travel is {say_mm(2e3 * (found.throw or 0.0))}: {so}",
        check_next=(
            "measure the travel at the spindle over a full turn, and see where the valve's end stands at each end of it"
        ),
    )
