"""The examination as it is read in a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from textwrap import fill
from typing import TYPE_CHECKING

from lapwright.cli.event_table import EventTable
from lapwright.cli.part_summary import list_painting, list_part_cures, list_ready

if TYPE_CHECKING:
    from lapwright.cures import Cure
    from lapwright.findings import Finding
    from lapwright.job.visit import Visit

WIDTH = 96
LEGEND = (
    "Crank angles from the head end's dead centre, in the running direction; in brackets the piston's place, in % of "
    "that end's stroke."
)
EVENTS = (
    ("admission", "opens to steam"),
    ("cut_off", "cut-off"),
    ("release", "release"),
    ("compression", "compression"),
)
MARKS = {"stops-it": "STOPS IT", "spoils-it": "SPOILS IT", "worth-doing": "WORTH DOING", "note": "NOTE"}
#: The most alternatives and cures told in full; the card and `--json` have all.
MOST_CURES = 3


def summarise(visit: Visit) -> str:
    """Return the whole examination as text, at most `WIDTH` columns wide."""
    parts = [
        _title(visit),
        *_cylinders(visit),
        *_findings(visit),
        *_cures(visit),
        *list_part_cures(visit),
        *list_painting(visit),
        *list_ready(visit),
        *_assumptions(visit),
    ]
    return "\n\n".join(part for part in parts if part)


def _title(visit: Visit) -> str:
    name = visit.engine.name
    lines = [name, "=" * max(len(name), 3)]
    lines += [_wrap(line) for line in visit.aim]
    lines.append("")
    lines.append(_wrap(LEGEND))
    return "\n".join(lines)


def _wrap(text: str, indent: str = "") -> str:
    return fill(text, WIDTH, initial_indent=indent, subsequent_indent=indent)


def _cylinders(visit: Visit) -> Iterator[str]:
    for sizes in visit.cylinders:
        yield EventTable(visit, sizes.name).write()


def _findings(visit: Visit) -> Iterator[str]:
    if not visit.all_findings:
        yield "Nothing wrong was found" + (" in what is known." if visit.gaps else ".")
        return
    yield "What is wrong"
    count = 0
    for names, group in _group_alike(visit.all_findings):
        for finding in group:
            if finding.instead_of:
                yield _wrap(f"Or instead: {finding.title}. {_sentence(finding.check_next)}", "     ")
                continue
            count += 1
            yield _tell_finding(count, names, finding)


def _group_alike(findings: tuple[Finding, ...]) -> list[tuple[str, list[Finding]]]:
    """Findings by the cylinders that have just the same ones; those of valves and of parts apart."""
    by_cylinder: dict[tuple[str, bool], list[Finding]] = {}
    for finding in findings:
        by_cylinder.setdefault((finding.cylinder, bool(finding.part)), []).append(finding)
    seen: list[tuple[list[str], list[Finding]]] = []
    for (name, _), own in by_cylinder.items():
        plain = [replace(finding, cylinder="") for finding in own]
        for names, others in seen:
            if [replace(finding, cylinder="") for finding in others] == plain:
                names.append(name)
                break
        else:
            seen.append(([name], own))
    return [
        ("cylinder " + names[0] if len(names) == 1 else "cylinders " + " and ".join(names), own) for names, own in seen
    ]


def _tell_finding(count: int, names: str, finding: Finding) -> str:
    doubt = ""
    if finding.doubt is not None and finding.doubt > 0:
        doubt = f" Doubt: ± {finding.doubt:.2g} {finding.unit}, mostly from {finding.doubt_words}."
    lines = [
        _wrap(f"{count}. {finding.title} ({names})  [{MARKS[finding.severity]}]"),
        _wrap(_sentence(finding.because) + doubt, "   "),
        _wrap(f"Effect: {finding.effect}.", "   "),
    ]
    if finding.cost:
        lines.append(_wrap(f"In a run, {finding.cost}.", "   "))
    return "\n".join([*lines, _wrap(f"Check: {finding.check_next}.", "   ")])


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:] + ("" if text.endswith(".") else ".")


def _cures(visit: Visit) -> Iterator[str]:
    if not visit.cures:
        return
    yield "What to do"
    shown: dict[str, list[str]] = {}
    by_cylinder: dict[str, list[Cure]] = {}
    for cure in visit.cures:
        by_cylinder.setdefault(cure.cylinder, []).append(cure)
    for name, own in by_cylinder.items():
        text = "\n".join(_tell_cure(i, cure) for i, cure in enumerate(own[:MOST_CURES], 1))
        shown.setdefault(text, []).append(name)
    for text, names in shown.items():
        many = len(visit.cylinders) > 1
        heading = ("Cylinder " if len(names) == 1 else "Cylinders ") + " and ".join(names) + ":\n" if many else ""
        yield heading + text


def _tell_cure(count: int, cure: Cure) -> str:
    left = f" Leaves: {', '.join(cure.left).replace('-', ' ')}." if cure.left else ""
    lines = [_wrap(f"{'best' if count == 1 else 'or'}: {cure.title} ({cure.work}).{left} [{cure.code}]", "   ")]
    then = _tell_after(cure)
    if then:
        lines.append(f"      then: {then}")
    if cure.gain:
        lines.append(_wrap(f"run: {cure.gain}", "      "))
    return "\n".join(lines)


def _tell_after(cure: Cure) -> str:
    """Lead and cut-off of the working ends after a cure."""
    ends = ("head", "crank") if cure.after.piston_area_mm2["crank"] != 0 else ("head",)
    leads = [cure.after.ends[end].lead_mm for end in ends]
    places = [cure.after.ends[end].events["cut_off"].stroke_percent for end in ends]
    told = []
    if None not in leads:
        told.append("lead " + " / ".join(f"{lead:+.2f}" for lead in leads) + " mm")
    if all(places):
        told.append("cut-off " + " / ".join(f"{place[0]:.0f}" for place in places if place) + " % of the stroke")
    return ", ".join(told) + (" (head / crank end)" if told and len(ends) > 1 else "")


def _assumptions(visit: Visit) -> Iterator[str]:
    told = [f"{assumed.key} = {assumed.value}: {assumed.because}" for assumed in visit.assumed if assumed.affects]
    if told:
        yield "Assumed\n" + "\n".join(_wrap(line, "   ") for line in dict.fromkeys(told))
    if visit.all_findings and visit.no_run:
        yield _wrap(f"Not run: {visit.no_run}.")
    if visit.gaps:
        many = len(visit.cylinders) > 1
        lines = [
            f"{gap.cylinder + ': ' if many else ''}{gap.words}: {gap.because.removeprefix('not known, ')}"
            for gap in visit.gaps
        ]
        yield "Not known\n" + "\n".join(_wrap(line, "   ") for line in lines)
