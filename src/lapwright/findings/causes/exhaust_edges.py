"""The exhaust edges too far apart or too close (the cavity, where steam is admitted outside)."""

from __future__ import annotations

from lapwright.findings.aim import Aim, lap_slack
from lapwright.findings.edges import set_exhaust_laps
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom, exhaust_slack
from lapwright.findings.words import ENDS_IN_WORDS, late_by, say_degrees, say_mm


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the valve's exhaust edges where the exhaust lap is more or less than does any good."""
    lap, laps, throw = reading.exhaust_lap, reading.exhaust_laps, reading.throw
    if lap is None or laps is None or throw is None:
        return []
    below, above = exhaust_slack(throw, reading.lap or 0.0)
    if "chest-open-to-exhaust" in codes_of(symptoms):
        below = lap_slack(throw)
    if -below <= lap <= above:
        return []
    wide = lap < 0
    code = (
        ("cavity-too-long" if wide else "cavity-too-short")
        if reading.outside
        else ("valve-too-short" if wide else "valve-too-long")
    )
    return [
        Suspicion(
            code=code,
            size=_measure(reading),
            unit="mm",
            changes=set_exhaust_laps(reading, {end: own - lap for end, own in laps.items()}),
            measure=_measure,
            tell=_tell,
        )
    ]


def _measure(reading: Reading) -> float | None:
    return None if reading.exhaust_lap is None else 2e3 * reading.exhaust_lap


def _tell(case: Case) -> Words:
    found = case.found
    wide = (found.exhaust_lap or 0.0) < 0
    part = "valve's cavity" if found.outside else "valve"
    grown = wide if found.outside else not wide
    edges = "inner edges" if found.outside else "outer edges"
    return Words(
        title=f"The {part} is {say_mm(case.size)} too {'long' if grown else 'short'}",
        because=(
            f"the {part} is {say_mm(case.size)} {'longer' if grown else 'shorter'} than the {edges} of the steam "
            "ports, "
            f"so {_say_exhaust(found, wide=wide)}"
        ),
        check_next=(
            "measure the cavity and the distance over the bridges with the same calliper; with the cover off and "
            "the valve "
            "central, the cavity's edges should stand on the ports' inner edges"
        ),
    )


def _say_exhaust(reading: Reading, *, wide: bool) -> str:
    """Say when the ends let go and shut in, and whether live steam goes with it."""
    parts = []
    for end in reading.ends:
        release, shut = late_by(reading, end, "release"), late_by(reading, end, "compression")
        if release is None:
            parts.append(f"the {ENDS_IN_WORDS[end]} never opens to exhaust" if not wide else "")
        else:
            side = "after" if release > 0 else "before"
            parts.append(f"the {ENDS_IN_WORDS[end]} lets go {say_degrees(release)} {side} the stroke's end")
        if shut is not None and end == reading.ends[-1] and not wide:
            parts.append("and shuts in what is left too early on the way back")
    blow = reading.motion.chest_to_exhaust_deg
    if blow:
        parts.append(f"and the chest is open to exhaust for {blow:.0f} deg of a turn")
    return ", ".join(part for part in parts if part) or "the exhaust is mistimed"
