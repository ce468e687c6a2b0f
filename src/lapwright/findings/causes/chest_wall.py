"""The valve striking the wall of the steam chest."""

from __future__ import annotations

from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words
from lapwright.findings.symptoms import Symptom
from lapwright.findings.words import ENDS_IN_WORDS, say_mm

#: Room to leave between valve and wall [m]. Common practice, no source.
ROOM = 0.2e-3


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the chest of being too short at the end where the valve strikes."""
    return [_suspect_end(reading, s.end) for s in symptoms if s.code == "valve-strikes-chest" and s.end is not None]


def _suspect_end(reading: Reading, end: str) -> Suspicion:
    key = f"port_face.chest_{end}"

    def measure(other: Reading) -> float | None:
        room = other.motion.chest_room_mm[end]
        return None if room is None else -room

    size = measure(reading) or 0.0
    return Suspicion(
        code="valve-strikes-chest",
        end=end,
        size=size,
        unit="mm",
        changes={key: reading.sizes.numbers[key] + size * 1e-3 + ROOM},
        measure=measure,
        tell=_tell,
        reluctance=0.3,
    )


def _tell(case: Case) -> Words:
    end = ENDS_IN_WORDS[case.suspicion.end or "head"]
    return Words(
        title=f"The valve strikes the steam chest at the {end}",
        because=(
            f"at the end of its travel the valve would stand {say_mm(case.size)} inside the chest's wall at the {end}"
        ),
        check_next=(
            "turn the engine over by hand, slowly, with the cover off: stop at the first resistance, do not "
            "force it. Look for a "
            "bright mark on the valve's end"
        ),
    )
