"""The way in: everything that is wrong with an engine, as far as its sizes tell."""

from __future__ import annotations

from lapwright.engine.assume import assume_missing
from lapwright.engine.engine import Engine
from lapwright.findings.aim import choose_aim
from lapwright.findings.cylinders import compare_cylinders
from lapwright.findings.finding import Finding
from lapwright.findings.reading import Reading
from lapwright.findings.search import find_faults_of_cylinder


def find_faults(engine: Engine) -> tuple[Finding, ...]:
    """Return an engine's findings, cylinder by cylinder, each cylinder's worst root cause first.

    A size that is missing and cannot be assumed leaves the faults that it would show unsaid.
    """
    aim = choose_aim(engine)
    cylinders = tuple(assume_missing(sizes) for sizes in engine.cylinders)
    found = [finding for sizes in cylinders for finding in find_faults_of_cylinder(sizes, aim)]
    if len(cylinders) > 1 and not found:
        found += compare_cylinders(tuple(Reading(sizes) for sizes in cylinders))
    return tuple(found)
