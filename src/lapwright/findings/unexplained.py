"""What is out of order though no single repair would mend it: it is told all the same, plainly."""

from __future__ import annotations

from lapwright.findings.aim import Aim
from lapwright.findings.consequences import TOLD_AS
from lapwright.findings.finding import CODES
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words
from lapwright.findings.symptoms import Symptom
from lapwright.findings.words import ENDS_IN_WORDS, say_leads, say_opening

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
    code, worst = max(known, key=lambda pair: pair[1].weight)
    suspicion = Suspicion(code=code, end=worst.end, size=None, unit="", changes={}, tell=_tell)
    return Case(suspicion=suspicion, aim=aim, found=reading, mended=reading, cleared=symptoms, left=())


def _tell(case: Case) -> Words:
    end = case.suspicion.end
    where = "" if end is None else f" at the {ENDS_IN_WORDS[end]}"
    return Words(
        title=_TITLES.get(case.suspicion.code, case.suspicion.code.replace("-", " ").capitalize()) + where,
        because=(
            f"{say_opening(case.found)} ({say_leads(case.found)}); no single size put right would mend it, so "
            "more than "
            "one must be wrong, or face, valve and travel do not belong together"
        ),
        check_next="measure port face, valve and travel once more, each by itself, before any metal is cut",
    )
