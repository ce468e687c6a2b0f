"""One end late or early though the valve stands central: the slant of a short eccentric rod, left uncorrected."""

from __future__ import annotations

from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words
from lapwright.findings.symptoms import Symptom
from lapwright.findings.words import ENDS_IN_WORDS, late_by, say_degrees, say_leads, say_mm, say_opening

OFFSET = "valve_drive.valve_offset"


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect a valve centred by its travel where it should have been set by its leads."""
    equal = reading.equal_lead_offset
    ends = [s for s in symptoms if s.code in ("late-admission", "early-admission") and s.end is not None]
    if equal is None or not ends:
        return []
    worst = max(ends, key=lambda symptom: symptom.weight)
    end = worst.end or "head"

    def measure(other: Reading) -> float | None:
        late = late_by(other, end)
        return None if late is None else late

    return [
        Suspicion(
            code=worst.code,
            end=end,
            size=measure(reading),
            unit="deg",
            changes={OFFSET: equal},
            measure=measure,
            tell=_tell,
        )
    ]


def _tell(case: Case) -> Words:
    found = case.found
    name, late = ENDS_IN_WORDS[case.suspicion.end or "head"], case.suspicion.code == "late-admission"
    side = "late" if late else "early"
    move = ((found.equal_lead_offset or 0.0) - found.offset) * 1e3
    return Words(
        title=f"The {name} opens {say_degrees(case.size)} {side}",
        because=(
            "the valve is centred on its travel, but the slant of the eccentric rod is felt at the dead centres: "
            f"{say_opening(found)} "
            f"({say_leads(found)}). {say_mm(move)} towards the {'head' if move > 0 else 'crank'} end evens the "
            "leads out"
        ),
        check_next=(
            "measure the lead at both dead centres: the mean of the two is right, so only the valve's place on "
            "its spindle is not"
        ),
    )
