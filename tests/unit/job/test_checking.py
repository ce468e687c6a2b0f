"""Checks ticked off: how the findings stand then, and that the log book keeps it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest

from lapwright.errors import NotOneOf, NotThere
from lapwright.job.cure.checking import (
    Noted,
    find_finding,
    judge_cure,
    list_outcomes,
    name_finding,
    note_outcome,
    rank_checked,
)
from lapwright.job.cure.finding_pictures import find_part, picture_finding
from lapwright.job.log.draft import draft_of
from lapwright.job.shelf.workshop import Workshop, open_workshop
from lapwright.job.visit import examine
from lapwright.logbook import EntryDraft, Reading

EXAMPLES = Path(__file__).parents[3] / "examples"
NOW = datetime(2026, 3, 2, 9, 0)
YES, NO = Noted("yes", NOW), Noted("no", NOW)
LONG, BEHIND = "A: valve too long", "A: eccentric behind"


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    shutil.copy(EXAMPLES / "tern.toml", tmp_path)
    opened = open_workshop(tmp_path, clock=lambda: NOW)
    yield opened
    opened.close()


def stand(noted: dict[str, Noted]) -> list[tuple[str, str]]:
    findings = examine(EXAMPLES / "tern.toml").all_findings
    return [(each.ref, each.standing) for each in rank_checked(findings, noted)]


def test_nothing_moves_before_a_check() -> None:
    assert stand({}) == [
        (LONG, "open"),
        (BEHIND, "open"),
        ("B: valve too long", "open"),
        ("B: eccentric behind", "open"),
    ]


def test_what_is_confirmed_goes_first_and_sets_the_other_explanation_aside() -> None:
    assert stand({"B: eccentric behind": YES}) == [
        ("B: eccentric behind", "confirmed"),
        (LONG, "open"),
        (BEHIND, "open"),
        ("B: valve too long", "aside"),
    ]


def test_what_is_refuted_goes_last_and_leaves_the_other_in_its_place() -> None:
    findings = examine(EXAMPLES / "tern.toml").all_findings
    checked = rank_checked(findings, {LONG: NO})
    assert [(each.ref, each.standing, each.is_left) for each in checked] == [
        (BEHIND, "open", True),
        ("B: valve too long", "open", False),
        ("B: eccentric behind", "open", False),
        (LONG, "refuted", False),
    ]


def test_cures_stand_as_the_findings_that_they_treat() -> None:
    visit = examine(EXAMPLES / "tern.toml")

    def judge(noted: dict[str, Noted]) -> dict[str, str]:
        checked = rank_checked(visit.all_findings, noted)
        return {cure.code: judge_cure(cure, checked) for cure in visit.cures if cure.cylinder == "A"}

    cures = ("shorten-valve", "new-valve", "turn-eccentric+new-throw", "turn-eccentric")
    assert judge({}) == dict.fromkeys(cures, "open")
    told = judge({LONG: NO})
    assert [told[code] for code in cures] == ["refuted", "refuted", "open", "open"]
    told = judge({BEHIND: YES})
    assert [told[code] for code in cures] == ["refuted", "refuted", "confirmed", "confirmed"]


def test_the_log_book_keeps_the_newest_outcome_of_each_check(workshop: Workshop) -> None:
    note_outcome(workshop, "tern", LONG, outcome="no", now=NOW)
    entry = note_outcome(workshop, "tern", LONG, outcome="yes", now=NOW.replace(hour=10))
    assert entry is not None
    note_outcome(workshop, "tern", BEHIND, outcome="no", now=NOW)
    note_outcome(workshop, "tern", BEHIND, outcome="open", now=NOW.replace(hour=11))
    assert entry.kind == "found"
    assert entry.text.startswith("Cylinder A: The valve is 1.64 mm too long. To check: ")
    noted = list_outcomes(workshop, "tern")
    assert {ref: each.outcome for ref, each in noted.items()} == {LONG: "yes"}
    assert noted[LONG].when == NOW.replace(hour=10)
    assert rank_checked(workshop.visit("tern").all_findings, noted)[0].ref == LONG


def test_an_outcome_taken_back_at_the_same_sitting_leaves_nothing_in_the_log(workshop: Workshop) -> None:
    note_outcome(workshop, "tern", LONG, outcome="yes", now=NOW)
    note_outcome(workshop, "tern", LONG, outcome="yes", now=NOW)
    assert len(workshop.log.find_entries(engine="tern")) == 1
    assert note_outcome(workshop, "tern", LONG, outcome="open", now=NOW) is None
    assert workshop.log.find_entries(engine="tern") == ()
    # Nothing was noted, and nothing is taken back.
    note_outcome(workshop, "tern", LONG, outcome="open", now=NOW)
    assert workshop.log.find_entries(engine="tern") == ()


def test_an_outcome_taken_back_later_or_from_a_grown_entry_is_said_in_its_entry(workshop: Workshop) -> None:
    entry = note_outcome(workshop, "tern", LONG, outcome="yes", now=NOW)
    assert entry is not None
    workshop.log.change_entry(
        entry.id, replace(draft_of(entry), text=f"{entry.text}\nWith a feeler."), seen=entry.version, now=NOW
    )
    note_outcome(workshop, "tern", BEHIND, outcome="no", now=NOW)
    for ref, days in ((LONG, 0), (BEHIND, 3)):
        note_outcome(workshop, "tern", ref, outcome="open", now=NOW.replace(day=NOW.day + days))
    entries = workshop.log.find_entries(engine="tern")
    assert len(entries) == 2
    assert all("What the check said was taken back on 2026-03-0" in entry.text for entry in entries)
    assert any("With a feeler." in entry.text for entry in entries)
    assert {each.outcome for each in list_outcomes(workshop, "tern").values()} == {"open"}
    # What is ticked anew is an entry of its own.
    note_outcome(workshop, "tern", LONG, outcome="no", now=NOW.replace(hour=12))
    assert list_outcomes(workshop, "tern")[LONG].outcome == "no"


def test_an_earlier_sitting_speaks_again_only_where_it_was_not_taken_back(workshop: Workshop) -> None:
    note_outcome(workshop, "tern", LONG, outcome="yes", now=NOW.replace(day=1))
    note_outcome(workshop, "tern", LONG, outcome="no", now=NOW.replace(day=2))
    note_outcome(workshop, "tern", LONG, outcome="open", now=NOW.replace(day=2))
    assert list_outcomes(workshop, "tern")[LONG].outcome == "open"


def test_what_an_earlier_log_calls_by_its_code_still_counts(workshop: Workshop) -> None:
    readings = (Reading("finding", "A valve-too-long"), Reading("the check says", "so"))
    workshop.log.add_entry(EntryDraft(engine="tern", kind="found", text="x", readings=readings), now=NOW)
    assert list_outcomes(workshop, "tern")[LONG].outcome == "yes"
    assert find_finding(workshop.visit("tern"), "A valve-too-long").code == "valve-too-long"


def test_a_finding_or_an_outcome_that_is_none_is_refused(workshop: Workshop) -> None:
    with pytest.raises(NotThere):
        note_outcome(workshop, "tern", "C: valve too long", outcome="yes", now=NOW)
    with pytest.raises(NotOneOf):
        note_outcome(workshop, "tern", LONG, outcome="perhaps", now=NOW)
    assert workshop.log.find_entries(engine="tern") == ()


@pytest.mark.parametrize("name", ["tern", "turnstone", "curlew", "plover", "knot", "merganser"])
def test_every_finding_has_a_name_of_its_own_and_a_picture(name: str) -> None:
    visit = examine(EXAMPLES / f"{name}.toml")
    assert visit.all_findings
    assert len({name_finding(finding) for finding in visit.all_findings}) == len(visit.all_findings)
    for finding in visit.all_findings:
        drawing = picture_finding(visit, finding, width=150.0)
        assert drawing is not None, finding.code
        assert drawing.shapes


def test_a_finding_of_a_part_leads_to_that_part_of_the_record() -> None:
    visit = examine(EXAMPLES / "turnstone.toml")
    paths = {finding.code: find_part(visit, finding) for finding in visit.part_findings}
    assert paths == {
        "thread-worn": "fastener.0",
        "stud-overloaded": "fastener.1",
        "gland-leaks": "cylinder.0.gland.0",
        "thread-as-bearing": "pin.0",
    }
    for path in paths.values():
        assert any(key.startswith(f"{path}.") for key in visit.record.written)
