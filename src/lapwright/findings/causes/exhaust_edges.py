"""The exhaust edges too far apart or too close (the cavity, where steam is admitted outside)."""

from __future__ import annotations

from lapwright.findings.aim import Aim, lap_slack
from lapwright.findings.edges import set_exhaust_laps
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom, exhaust_slack
from lapwright.findings.words import ENDS_IN_WORDS, late_by, say_degrees, say_mm, set_at_mid_travel


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
            f"the {part} is {say_mm(case.size)} {'longer' if grown else 'shorter'} than the distance over the "
            f"{edges} of the steam ports, so {_say_exhaust(found, wide=wide)}"
        ),
        check_next=(
            f"measure the {part} and the distance over the {edges} of the ports with the same calliper; "
            f"{set_at_mid_travel(found)}, the {'cavity' if found.outside else 'valve'}'s edges should stand on theirs"
        ),
    )


def _say_exhaust(reading: Reading, *, wide: bool) -> str:
    """Say when the ends let go and shut in, and whether live steam goes with it."""
    releases = {end: late_by(reading, end, "release") for end in reading.ends}
    parts = []
    if not wide:
        parts += [f"the {ENDS_IN_WORDS[end]} never opens to exhaust" for end, late in releases.items() if late is None]
    known = {end: late for end, late in releases.items() if late is not None}
    if len(known) == 2 and abs(known["head"] - known["crank"]) < 1.0:
        parts.append(f"each end lets go {_say_release(sum(known.values()) / 2, wide=wide)}")
    else:
        parts += [f"the {ENDS_IN_WORDS[end]} lets go {_say_release(late, wide=wide)}" for end, late in known.items()]
    if known and not wide:
        parts.append("what is left is shut in too early on the way back")
    blow = reading.motion.chest_to_exhaust_deg
    if blow:
        parts.append(f"the chest is open to exhaust for {blow:.0f} deg of a turn")
    return ", and ".join(filter(None, (", ".join(parts[:-1]), *parts[-1:]))) or "the exhaust is mistimed"


def _say_release(late: float, *, wide: bool) -> str:
    if abs(late) < 0.5:
        return "at the stroke's end"
    only = "" if wide or late > 0 else "only "
    return f"{only}{say_degrees(late)} {'after' if late > 0 else 'before'} the stroke's end"
