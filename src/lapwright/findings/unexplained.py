"""What is out of order though no single repair would mend it: it is told all the same, plainly."""

from __future__ import annotations

from lapwright.findings.aim import Aim
from lapwright.findings.consequences import TOLD_AS
from lapwright.findings.finding import CODES
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom, cut_offs
from lapwright.findings.words import ENDS_IN_WORDS, say_lap, say_leads, say_opening

_TITLES = {
    "late-admission": "The ports open late",
    "early-admission": "The ports open early",
    "port-never-opens": "A port never opens",
    "port-starved": "The ports open too little",
    "exhaust-choked": "The exhaust is choked",
    "ends-unequal": "The two ends are not alike",
    "overtravel": "The valve runs past what it should cover",
    "chest-open-to-exhaust": "The chest is open to exhaust for a part of the turn",
    "no-expansion-possible": "The steam cannot be cut off where it should be",
}


def tell_unexplained(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> Case | None:
    """Return the heaviest of what is out of order as a case without a repair; None where none has a code."""
    told = [(TOLD_AS.get(symptom.code, symptom.code), symptom) for symptom in symptoms]
    known = [(code, symptom) for code, symptom in told if code in CODES]
    if not known:
        return None
    # Of two alike the one that is told by its own name: the exhaust is starved because the steam port is.
    code, worst = max(known, key=lambda pair: pair[1].weight - 0.1 * (pair[0] != pair[1].code))
    tell = _tell_no_room if codes_of(symptoms) == {"no-expansion-possible"} else _tell
    suspicion = Suspicion(code=code, end=worst.end, size=None, unit="", changes={}, tell=tell)
    return Case(suspicion=suspicion, aim=aim, found=reading, mended=reading, cleared=symptoms, left=())


def _tell(case: Case) -> Words:
    end = case.suspicion.end
    where = "" if end is None else f" at the {ENDS_IN_WORDS[end]}"
    return Words(
        title=_TITLES.get(case.suspicion.code, case.suspicion.code.replace("-", " ").capitalize()) + where,
        because=(
            f"{say_opening(case.found)} ({say_leads(case.found)}); no single size put right would mend it, so "
            "more than one must be wrong, or face, valve and travel do not belong together"
        ),
        check_next="measure port face, valve and travel once more, each by itself, before any metal is cut",
    )


def _tell_no_room(case: Case) -> Words:
    """An engine in order, but whose face and chest were laid out for full stroke."""
    shares, lap = cut_offs(case.found), 1e3 * max(case.found.lap or 0.0, 0.0)
    cut = f" and cuts the steam off at {100 * sum(shares) / len(shares):.0f} % of the stroke" if shares else ""
    return Words(
        title=_TITLES["no-expansion-possible"],
        because=(
            f"the valve has {say_lap(lap)}{cut}; the cut-off that is wanted needs more lap and more travel, "
            "for which face and chest leave no room"
        ),
        check_next="decide first whether the engine is to work on steam at all; economy takes another face and valve",
    )
