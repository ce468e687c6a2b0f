"""In which order findings of valves and of parts are told together."""

from __future__ import annotations

from dataclasses import replace

from lapwright.findings.finding import SEVERITIES, Finding, put_worst_first

PLAIN = Finding(
    code="late-admission",
    cylinder="A",
    end=None,
    severity="note",
    size=None,
    unit="",
    title="",
    because="",
    effect="",
    check_next="",
)


def found(severity: str, title: str, instead_of: str = "") -> Finding:
    return replace(PLAIN, severity=severity, title=title, instead_of=instead_of)


def test_a_note_on_the_valve_waits_until_the_worse_parts_are_told() -> None:
    valve = (found("spoils-it", "valve"), found("spoils-it", "or eccentric", "valve"), found("note", "cavity"))
    parts = (found("stops-it", "pin"), found("spoils-it", "gland"), found("worth-doing", "joint"))
    told = [finding.title for finding in put_worst_first(valve, parts)]
    assert told == ["pin", "valve", "or eccentric", "gland", "joint", "cavity"]


def test_nothing_is_lost_and_within_a_group_nothing_moves() -> None:
    groups = [tuple(found(severity, f"{severity}{n}") for severity in SEVERITIES[n::-1]) for n in range(4)]
    merged = put_worst_first((), *groups)
    for group in groups:
        assert [finding for finding in merged if finding in group] == list(group)
