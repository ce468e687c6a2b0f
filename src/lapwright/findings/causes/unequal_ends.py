"""The two ends unlike: an edge out of place, or cut-off not equal where that is wanted."""

from __future__ import annotations

from lapwright.findings.aim import Aim
from lapwright.findings.edges import set_exhaust_laps, set_steam_laps
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom, cut_offs, edge_slack
from lapwright.findings.words import ENDS_IN_WORDS, say_mm, say_signed_mm
from lapwright.motion.solve import find_zero

OFFSET = "valve_drive.valve_offset"


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect an edge of valve or face of being out of place at one end."""
    found = _suspect_laps(reading, steam=True) + _suspect_laps(reading, steam=False)
    if aim.target.equal == "cut-off" and "ends-unequal" in codes_of(symptoms):
        found += _suspect_cut_off(reading)
    return found


def _suspect_laps(reading: Reading, *, steam: bool) -> list[Suspicion]:
    laps, throw = (reading.steam_laps if steam else reading.exhaust_laps), reading.throw
    if laps is None or throw is None or len(reading.ends) < 2:
        return []
    if abs(laps["head"] - laps["crank"]) / 2 <= edge_slack(throw):
        return []
    mean = sum(laps.values()) / 2
    shut = [end for end in laps if laps[end] >= throw]
    right = _likely_lap(laps, throw, shut)
    place = set_steam_laps if steam else set_exhaust_laps

    def measure(other: Reading) -> float | None:
        own = other.steam_laps if steam else other.exhaust_laps
        return None if own is None else 1e3 * (own["head"] - own["crank"])

    one_shut = len(shut) == 1
    return [
        Suspicion(
            code="port-never-opens" if one_shut else "ends-unequal",
            end=shut[0] if one_shut else None,
            size=abs(1e3 * (laps["head"] - laps["crank"])),
            unit="mm",
            changes=place(reading, dict.fromkeys(laps, level)),
            measure=measure,
            tell=_tell_steam if steam else _tell_exhaust,
        )
        for level in dict.fromkeys((mean, right))
    ]


def _likely_lap(laps: dict[str, float], throw: float, shut: list[str]) -> float:
    """The lap of the end that is right: the one that opens, or the one nearer to nothing."""
    able = [lap for end, lap in laps.items() if end not in shut]
    return min(able or list(laps.values()), key=lambda lap: abs(lap / throw))


def _suspect_cut_off(reading: Reading) -> list[Suspicion]:
    room = ((reading.throw or 0.0) - abs(reading.lap or 0.0)) * 0.9

    def uneven(offset: float) -> float:
        shares = cut_offs(reading.changed({OFFSET: offset}))
        return shares[0] - shares[1] if len(shares) == 2 else 0.0

    best = find_zero(uneven, -room, room) if room > 0 else None
    if best is None:
        return []
    shares = cut_offs(reading)
    return [
        Suspicion(
            code="ends-unequal",
            size=abs(1e3 * (best - reading.offset)),
            unit="mm",
            changes={OFFSET: best},
            tell=_tell_cut_off,
            reluctance=-0.2 if len(shares) == 2 else 0.0,
        )
    ]


def _tell_steam(case: Case) -> Words:
    return _tell_laps(case, "steam", case.found.steam_laps or {})


def _tell_exhaust(case: Case) -> Words:
    return _tell_laps(case, "exhaust", case.found.exhaust_laps or {})


def _tell_laps(case: Case, way: str, laps: dict[str, float]) -> Words:
    told = " and ".join(f"{say_signed_mm(1e3 * lap)} at the {ENDS_IN_WORDS[end]}" for end, lap in laps.items())
    end = case.suspicion.end
    title = f"The two ends' {way} laps differ by {say_mm(case.size)}"
    if end is not None:
        title = f"The {ENDS_IN_WORDS[end]} port never opens to {way}"
    return Words(
        title=title,
        because=(
            f"with the valve central the {way} lap is {told}: the cavity or the bridges do not stand central"
            + (
                ", and the travel does not reach the larger of them"
                if end is not None
                else ", so the two ends do unequal work"
            )
        ),
        check_next=(
            "turn the valve end for end and time it again: if the fault changes ends it is in the valve, if it "
            "stays it is in the face"
        ),
    )


def _tell_cut_off(case: Case) -> Words:
    shares = cut_offs(case.found)
    told = " and ".join(
        f"{100 * share:.0f} % at the {ENDS_IN_WORDS[end]}" for end, share in zip(case.found.ends, shares, strict=False)
    )
    return Words(
        title="The two ends do not cut off alike",
        because=(
            f"cut-off is {told} of the stroke, and equal cut-off is asked for; the connecting rod's slant makes "
            "the difference"
        ),
        check_next="measure the piston's place at cut-off at both ends; unequal leads are the price of equal cut-off",
    )
