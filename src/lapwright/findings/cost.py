"""What each fault costs, by running the engine with it and without."""

from __future__ import annotations

from dataclasses import replace

from lapwright.cycle.comparing import Ground, Showing, tell_gain
from lapwright.errors import CannotRun
from lapwright.findings.finding import SEVERITIES, Finding

#: What mending a fault gains where it is more than worth doing, and where it is worth doing at all: power, pressure
#: to turn over, air or steam for the work, share of the turn from which it starts. Common practice, no source.
SPOILS = (0.15, 0.30, 0.25, 0.25)
WORTH = (0.03, 0.08, 0.05, 0.05)


def weigh_by_run(findings: tuple[Finding, ...], ground: Ground) -> tuple[Finding, ...]:
    """Return the findings with what each costs, judged by it, each cylinder's worst root first.

    A fault that several cylinders share is put right in all of them at once: nobody mends one valve of a pair. A fault
    within its own doubt stays a note, one that hangs on an assumed size is never more than worth doing, and what its
    sizes say of a fault counts too, a step lower: a run knows nothing of bent spindles or worn faces.

    Parameters
    ----------
    findings: what was found from sizes
    ground: the engine as found, run
    """
    weighed: dict[str, Showing | None] = {}
    told = []
    for finding in findings:
        if finding.code not in weighed:
            weighed[finding.code] = _show_mended(finding.code, findings, ground)
        after = weighed[finding.code]
        told.append(finding if after is None else _judge(finding, ground.found, after))
    return _order(tuple(told))


def _show_mended(code: str, findings: tuple[Finding, ...], ground: Ground) -> Showing | None:
    changes = {finding.cylinder: finding.mends for finding in findings if finding.code == code and finding.mends}
    if not changes:
        return None
    try:
        return ground.show_changed(changes)
    except CannotRun:
        return None


def _judge(finding: Finding, before: Showing, after: Showing) -> Finding:
    cost = f"put right alone: {tell_gain(before, after)}"
    if finding.severity == "note":
        return replace(finding, cost=cost)
    by_size = min(SEVERITIES.index(finding.severity) + 1, len(SEVERITIES) - 1)
    grade = min(SEVERITIES.index(grade_gain(before, after)), by_size)
    if finding.code == "valve-strikes-chest":
        grade = 0
    if finding.rests_on:
        grade = max(grade, SEVERITIES.index("worth-doing"))
    return replace(finding, cost=cost, severity=SEVERITIES[grade])


def grade_gain(before: Showing, after: Showing) -> str:
    """Return how bad a fault is from how much better the engine does without it."""
    if after.runs and not before.runs:
        return "stops-it"
    gains = measure_gain(before, after)
    if any(gain >= least for gain, least in zip(gains, SPOILS, strict=True)):
        return "spoils-it"
    if any(gain >= least for gain, least in zip(gains, WORTH, strict=True)):
        return "worth-doing"
    return "note"


def measure_gain(before: Showing, after: Showing) -> tuple[float, float, float, float]:
    """Return what is gained, as shares: power, pressure to turn over, air or steam for the work, starting arc."""
    power = after.run.brake_power / before.run.brake_power - 1 if before.run.brake_power > 0 else 0.0
    exhaust = before.run.conditions.exhaust
    was, now = before.least_pressure, after.least_pressure
    pressure = 0.0 if was is None or now is None else 1 - (now - exhaust) / (was - exhaust)
    used, uses = before.use_for_work, after.use_for_work
    use = 0.0 if used is None or uses is None else 1 - uses / used
    return power, pressure, use, after.starting_share - before.starting_share


def _order(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Within each cylinder the worst root first, what it might be instead right behind it."""
    groups: list[list[Finding]] = []
    for finding in findings:
        if finding.instead_of and groups:
            groups[-1].append(finding)
        else:
            groups.append([finding])
    places = {name: n for n, name in enumerate(dict.fromkeys(finding.cylinder for finding in findings))}
    groups.sort(key=lambda group: (places[group[0].cylinder], SEVERITIES.index(group[0].severity)))
    return tuple(finding for group in groups for finding in group)
