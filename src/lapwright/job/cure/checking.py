"""What the checks of findings came to: kept in the log book, and the order of the findings that follows from it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Literal, get_args

from lapwright.errors import NotOneOf, NotThere
from lapwright.findings import Finding
from lapwright.job.in_words import say_finding, tell_finding
from lapwright.job.log.draft import draft_of
from lapwright.logbook import Entry, EntryDraft, Reading

if TYPE_CHECKING:
    from lapwright.cures import Cure
    from lapwright.job.shelf.workshop import Workshop
    from lapwright.job.visit import Visit

Outcome = Literal["yes", "no", "open"]
OUTCOMES: tuple[Outcome, ...] = get_args(Outcome)
Standing = Literal["confirmed", "open", "aside", "refuted"]
#: In what order findings stand once they were checked.
STANDINGS: tuple[Standing, ...] = get_args(Standing)

#: How an outcome reads in the log book, under these names.
_FINDING, _SAYS = "finding", "the check says"
_TAKEN_BACK = "What the check said was taken back on"
_SAID: Mapping[Outcome, str] = {"yes": "so", "no": "no", "open": "nothing yet"}
_MOST = 500
#: As long as a person goes on with the same work.
_SITTING = timedelta(hours=8)


@dataclass(frozen=True, slots=True)
class Noted:
    """An outcome as it stands in the log book, when it was noted, and the entry that keeps it."""

    outcome: Outcome
    when: datetime
    entry: Entry | None = None

    def is_untouched(self, now: datetime) -> bool:
        """Whether it was noted at this sitting, and nothing was added to its entry by hand since."""
        entry = self.entry
        return entry is not None and entry.version == 1 and not entry.photographs and abs(now - entry.saved) < _SITTING


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A finding with what its check came to, and when.

    `ref` names it in addresses and in the log book. `aside` means that the check spoke for another explanation of the
    same figures; `is_left` that it was the second explanation, and the first is refuted.
    """

    finding: Finding
    ref: str
    outcome: Outcome
    standing: Standing
    when: datetime | None = None
    is_left: bool = False


def name_finding(finding: Finding) -> str:
    """Return the name by which a finding is known from one visit to the next.

    Parameters
    ----------
    finding: of a valve or a part
    """
    return tell_finding(finding.cylinder, finding.code, end=finding.end or "", part=finding.part)


def rank_checked(findings: tuple[Finding, ...], noted: Mapping[str, Noted]) -> tuple[Checked, ...]:
    """Put findings in the order that their checks give: what a check confirmed first, what it refuted last.

    Where two explain the same figures, the one that is confirmed sets the other aside, and the one that is refuted
    leaves the other in its place.

    Parameters
    ----------
    findings: the worst first
    noted: what the checks came to, by the name of the finding
    """
    checked = [_judge(finding, _list_rivals(finding, findings), noted=noted) for finding in findings]
    return tuple(sorted(checked, key=lambda each: STANDINGS.index(each.standing)))


def _list_rivals(finding: Finding, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The other explanations of the same figures."""
    root = finding.instead_of or finding.code
    return tuple(
        other
        for other in findings
        if other is not finding
        and other.cylinder == finding.cylinder
        and not finding.part
        and root in (other.instead_of, other.code)
        and (finding.instead_of or other.instead_of)
    )


def _judge(finding: Finding, rivals: tuple[Finding, ...], *, noted: Mapping[str, Noted]) -> Checked:
    ref = name_finding(finding)
    own = noted.get(ref)
    outcome: Outcome = "open" if own is None else own.outcome
    of_rivals = [noted[name].outcome for name in map(name_finding, rivals) if name in noted]
    standing: Standing = "open"
    if outcome != "open":
        standing = "confirmed" if outcome == "yes" else "refuted"
    elif "yes" in of_rivals:
        standing = "aside"
    is_left = standing == "open" and bool(finding.instead_of) and of_rivals.count("no") == len(rivals)
    when = None if own is None or outcome == "open" else own.when
    return Checked(finding=finding, ref=ref, outcome=outcome, standing=standing, when=when, is_left=is_left)


def judge_cure(cure: Cure, checked: tuple[Checked, ...]) -> Standing:
    """Return how a cure stands by the checks: a cure treats the findings whose sizes it changes.

    It is confirmed where one of them is, and refuted where all that it treats are refuted or set aside.

    Parameters
    ----------
    cure: one of the engine's
    checked: its findings, checked
    """
    treated = [
        each.standing
        for each in checked
        if each.finding.cylinder == cure.cylinder and each.finding.mends.keys() & cure.changes.keys()
    ]
    if "confirmed" in treated:
        return "confirmed"
    return "refuted" if treated and "open" not in treated else "open"


def list_outcomes(workshop: Workshop, engine: str) -> dict[str, Noted]:
    """Return what the checks of an engine's findings came to, by the name of the finding.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine

    Raises
    ------
    CannotSave: there is no log book
    """
    entries = workshop.log.find_entries(engine=engine, kind="found", words=_SAYS, limit=_MOST)
    noted: dict[str, Noted] = {}
    for entry in entries:
        readings = {reading.name: reading.value for reading in entry.readings}
        said = next((outcome for outcome, words in _SAID.items() if words == readings.get(_SAYS)), None)
        if said is not None and _FINDING in readings:
            # The newest entry comes first, and it counts.
            noted.setdefault(say_finding(readings[_FINDING]), Noted(said, entry.when, entry))
    return noted


def note_outcome(workshop: Workshop, engine: str, ref: str, *, outcome: str, now: datetime) -> Entry | None:
    """Write into the log book what the check of a finding came to, and return the entry that tells it.

    What is ticked otherwise at the same sitting takes the place of what was ticked before. An outcome that is taken
    back goes with its entry then, and later its entry says so.

    Parameters
    ----------
    workshop: with its log book
    engine: id of the engine
    ref: name of the finding
    outcome: "yes", "no", or "open" to take an outcome back
    now: the time

    Raises
    ------
    NotThere: no such finding
    NotOneOf: no such outcome
    LogChanged, CannotSave
    """
    said = next((known for known in OUTCOMES if known == outcome), None)
    if said is None:
        raise NotOneOf(outcome[:40], OUTCOMES)
    finding = find_finding(workshop.visit(engine), ref)
    before = list_outcomes(workshop, engine).get(name_finding(finding))
    kept = None if before is None else before.entry
    if before is not None and kept is not None and before.is_untouched(now) and before.outcome != said:
        workshop.log.remove_entry(kept.id, seen=kept.version)
        # What an earlier sitting noted speaks again.
        before = list_outcomes(workshop, engine).get(name_finding(finding))
        kept = None if before is None else before.entry
    if said == (before.outcome if before is not None else "open"):
        return kept
    if said == "open" and kept is not None:
        return _take_back(workshop, kept, now=now)
    draft = EntryDraft(
        engine=engine,
        kind="found",
        text=f"Cylinder {finding.cylinder}: {finding.title}. To check: {finding.check_next}",
        readings=(Reading(_FINDING, name_finding(finding)), Reading(_SAYS, _SAID[said])),
    )
    return workshop.log.add_entry(draft, now=now)


def _take_back(workshop: Workshop, entry: Entry, *, now: datetime) -> Entry:
    """Say in an entry that its outcome does not count any more."""
    draft = replace(
        draft_of(entry),
        text=f"{entry.text}\n{_TAKEN_BACK} {now:%Y-%m-%d %H:%M}.",
        readings=tuple(
            Reading(_SAYS, _SAID["open"]) if reading.name == _SAYS else reading for reading in entry.readings
        ),
    )
    return workshop.log.change_entry(entry.id, draft, seen=entry.version, now=now)


def find_finding(visit: Visit, ref: str) -> Finding:
    """Return the finding of a name.

    Raises
    ------
    NotThere
    """
    name = say_finding(ref)
    found = next((finding for finding in visit.all_findings if name_finding(finding) == name), None)
    if found is None:
        raise NotThere("such finding any more", "look at the findings again; the record may have changed")
    return found
