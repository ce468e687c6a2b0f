"""A fault that may be the cause of what is out of order, and the single repair that would show whether it is."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lapwright.findings.aim import Aim
from lapwright.findings.reading import Reading
from lapwright.findings.symptoms import Symptom

Measure = Callable[[Reading], float | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What is said of a fault: its title, the evidence, and what to look at next."""

    title: str
    because: str
    check_next: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspicion:
    """One possible cause.

    `size` is in `unit` ("mm" or "deg"), its sign telling the side; `changes` are the record keys, in SI, that would put
    it right and nothing else;
    `reluctance` counts against a cause that is seldom met; `measure` works the size out afresh for other sizes, for
    its doubt; `tell` is called with the readings before and after the repair.
    """

    code: str
    size: float | None
    unit: str
    changes: Mapping[str, float]
    tell: Callable[[Case], Words]
    measure: Measure | None = None
    end: str | None = None
    reluctance: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A suspicion tried out: the cylinder as found, what the repair makes of it, and what that clears."""

    suspicion: Suspicion
    aim: Aim
    found: Reading
    mended: Reading
    cleared: tuple[Symptom, ...]
    left: tuple[Symptom, ...]

    @property
    def size(self) -> float:
        """Size of the fault in its unit; 0 where it has none."""
        return abs(self.suspicion.size or 0.0)


Suspect = Callable[[Reading, Aim, tuple[Symptom, ...]], list[Suspicion]]


def codes_of(symptoms: tuple[Symptom, ...]) -> set[str]:
    """Return the codes of some symptoms."""
    return {symptom.code for symptom in symptoms}
