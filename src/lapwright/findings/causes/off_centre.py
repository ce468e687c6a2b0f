"""The valve off centre on its spindle."""

from __future__ import annotations

from lapwright.engine.sizes import Sizes
from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words, codes_of
from lapwright.findings.symptoms import Symptom, edge_slack
from lapwright.findings.words import say_leads, say_mm, say_opening

OFFSET = "valve_drive.valve_offset"


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the valve's place on its spindle where it stands neither central nor at equal leads."""
    equal, throw = reading.equal_lead_offset, reading.throw
    if equal is None or throw is None or "valve-off-centre" not in codes_of(symptoms):
        return []

    def measure(other: Reading) -> float:
        return 1e3 * other.offset

    near = abs(reading.offset) <= edge_slack(throw) / 2
    return [
        Suspicion(
            code="valve-off-centre",
            size=abs(1e3 * (reading.offset - equal)) if near else measure(reading),
            unit="mm",
            changes={OFFSET: equal},
            measure=None if near else measure,
            tell=_tell,
        )
    ]


def spindle_step(sizes: Sizes) -> float | None:
    """Return the smallest move [m] that the spindle's thread and fork allow; None where they are not known."""
    pitch, step = (sizes.numbers.get(f"valve_drive.spindle_{part}") for part in ("thread", "step"))
    return None if pitch is None or step is None else pitch * step


def _tell(case: Case) -> Words:
    found, equal = case.found, case.found.equal_lead_offset or 0.0
    offset = found.offset
    step = spindle_step(found.sizes)
    right = f"; {say_mm(equal * 1e3)} towards the {_side(equal)} makes the leads equal" if len(found.ends) > 1 else ""
    because = (
        f"the valve stands {say_mm(offset * 1e3)} off the centre of the port face, towards the {_side(offset)}{right}. "
        f"So {say_opening(found)} ({say_leads(found)})"
    )
    place = "off centre" if case.suspicion.measure is not None else "from its place"
    if step is not None and abs(offset - equal) < step / 2:
        because += (
            f". One step of the spindle is {say_mm(step * 1e3)}, more than twice the error: "
            "turning it only makes it worse"
        )
    return Words(
        title=f"The valve stands {say_mm(case.size)} {place}, towards the {_side(offset - equal)}",
        because=because,
        check_next=f"{_CHECK[len(found.ends)]}. Feel first for play between valve, nut and spindle: it looks the same",
    )


#: What to look at, by the number of working ends.
_CHECK = {
    1: "put the crank on the head end's dead centre and measure the lead, then how far the port opens",
    2: (
        "turn the crank a full turn and measure how far each port opens: a valve off centre opens one more by as much "
        "as the other less"
    ),
}


def _side(offset: float) -> str:
    return "head end" if offset >= 0 else "crank end"
