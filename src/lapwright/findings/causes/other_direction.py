"""The eccentric set for the other direction of rotation."""

from __future__ import annotations

from math import degrees, pi

from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words
from lapwright.findings.symptoms import Symptom
from lapwright.findings.words import say_degrees

ANGLE = "valve_drive.eccentric_angle"


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the eccentric of standing as the other direction of rotation wants it."""
    if reading.direction > 0 or ANGLE in reading.sizes.assumed or reading.advance is None:
        return []
    angle = reading.sizes.numbers[ANGLE]
    mirrored = {ANGLE: (-angle) % (2 * pi)}
    return [Suspicion(code="eccentric-reversed", size=_measure(reading), unit="deg", changes=mirrored, tell=_tell)]


def _measure(reading: Reading) -> float | None:
    """The shorter way round from where the eccentric stands to its mirror image."""
    if reading.advance is None:
        return None
    turn = degrees(2 * reading.sizes.numbers[ANGLE]) % 360
    return min(turn, 360 - turn)


def _tell(case: Case) -> Words:
    now = degrees(case.found.sizes.numbers[ANGLE])
    right = degrees(case.suspicion.changes[ANGLE])
    return Words(
        title="The eccentric is set for the other direction of rotation",
        because=(
            f"the eccentric stands {now:.1f} deg ahead of the crank in the direction of rotation, "
            f"where about {right:.0f} deg is wanted: {say_degrees(case.size)} away. As it stands the valve moves the "
            "wrong way, "
            "and the engine can only run backwards"
        ),
        check_next=(
            "turn the crank past a dead centre by hand in the running direction: the port at that end should "
            "open as the "
            "piston leaves it. Make sure, too, that the direction in the record is the one that is wanted"
        ),
    )
