"""The valve's wall covering the exhaust port at full travel."""

from __future__ import annotations

from lapwright.findings.aim import Aim
from lapwright.findings.edges import set_middle_port
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion, Words
from lapwright.findings.symptoms import LEAST_WAY, Symptom, way_share
from lapwright.findings.words import say_mm


def suspect(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> list[Suspicion]:
    """Suspect the middle port of being too narrow for the travel."""
    share, port = way_share(reading), reading.port
    if share is None or port is None or share >= LEAST_WAY:
        return []
    return [
        Suspicion(
            code="exhaust-choked" if reading.outside else "port-starved",
            size=_measure(reading),
            unit="mm",
            changes=set_middle_port(reading, _widening(reading)),
            measure=_measure,
            tell=_tell,
            reluctance=0.2,
        )
    ]


def _measure(reading: Reading) -> float | None:
    """How much wider the way would have to be to equal the steam port."""
    share, port = way_share(reading), reading.port
    return None if share is None or port is None else 1e3 * (1 - share) * port


def _widening(reading: Reading) -> float:
    """How far to move each edge of the middle port: all that is missing, since only one edge throttles at a time."""
    return (_measure(reading) or 0.0) * 1e-3


def _tell(case: Case) -> Words:
    found = case.found
    port = 1e3 * (found.port or 0.0)
    way = port * (way_share(found) or 0.0)
    return Words(
        title="The valve chokes the exhaust at full travel"
        if found.outside
        else "The valve chokes the inlet at full travel",
        because=(
            f"at the end of its travel the valve's wall leaves {say_mm(way)} of the middle port free, while the "
            "steam port beside it "
            f"is {say_mm(port)} wide: {say_mm(case.size)} is missing"
        ),
        check_next=(
            "set the valve at each end of its travel and look, or feel with a wire, how much of the middle port is left"
        ),
    )
