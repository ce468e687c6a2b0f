"""What the stable codes and the fields of the JSON mean: the words of the reference pages that no code holds."""

from __future__ import annotations

#: Every finding code: what is wrong when it is reported.
FINDINGS = {
    "late-admission": "the port opens to steam only after the dead centre, and no size of the valve explains it",
    "early-admission": "the port opens to steam much before the dead centre, and no size of the valve explains it",
    "eccentric-behind": "the eccentric stands back from where this valve wants it, so that every event is late",
    "eccentric-ahead": "the eccentric stands too far forward, so that every event is early",
    "eccentric-reversed": "the eccentric is set for the other direction of rotation",
    "valve-too-long": "the valve is longer than its ports and eccentric angle go with: steam comes late at both ends",
    "valve-too-short": "the valve does not reach over the outer edges of the ports: steam comes early, or never stops",
    "cavity-too-long": "the cavity reaches over the ports' inner edges too far: exhaust opens early and closes late",
    "cavity-too-short": "the cavity does not reach the ports in time: exhaust opens late and closes early",
    "valve-off-centre": "the valve does not stand half-way over the ports at mid-travel",
    "ends-unequal": "the two ends differ, and a valve off centre is not the reason",
    "chest-open-to-exhaust": "for a part of the turn live steam has a straight way to the exhaust",
    "port-never-opens": "the valve never uncovers the port to steam, or to exhaust",
    "port-starved": "the greatest opening to steam is too small for the port",
    "exhaust-choked": "at full travel the valve leaves the exhaust too narrow a way",
    "overtravel": "a valve edge goes beyond the port it works and uncovers what it should not",
    "valve-strikes-chest": "the valve reaches the wall of the steam chest",
    "no-expansion-possible": "steam is let in nearly to the end of the stroke, whatever the setting",
    "travel-too-short": "the travel cannot give both the lap and the opening that the purpose wants",
    "cylinders-differ": "two cylinders of one engine are not set alike",
}

#: Every field of `lapwright examine RECORD --json` that is not plain from its name. END stands for `head` and `crank`,
#: EVENT for `admission`, `cut_off`, `release` and `compression`, NAME for a name that differs from case to case.
RESULTS = {
    "format": ("", "1; nothing here changes its meaning without a new number, but fields may be added"),
    "engine": ("", "the engine's name"),
    "problems[].code": ("", "what kind of problem, see [problems](problems.md)"),
    "problems[].severity": ("", "`error` or `warning`"),
    "problems[].line": ("", "line of the record, from 1; 0 for the file as a whole"),
    "problems[].key": ("", "record key it is about"),
    "problems[].message": ("", "what is wrong"),
    "problems[].instead": ("", "what to write instead"),
    "assumed[].key": ("", "size that nobody gave"),
    "assumed[].value": ("", "what was taken for it"),
    "assumed[].because": ("", "why"),
    "assumed[].affects[]": ("", "answers that rest on it"),
    "cylinders[].name": ("", "the cylinder's name"),
    "cylinders[].piston_area_mm2.END": ("mm²", "area on which the steam presses"),
    "cylinders[].laps_mm.END.steam": ("mm", "steam lap; negative: open with the valve central"),
    "cylinders[].laps_mm.END.exhaust": ("mm", "exhaust lap; negative: open with the valve central"),
    "cylinders[].ends.END.events.EVENT.crank_deg[]": ("deg", "crank angles at which it happens, one each a turn"),
    "cylinders[].ends.END.events.EVENT.stroke_percent[]": (
        "%",
        "where the piston is then, from the dead centre at which this end's working stroke begins",
    ),
    "cylinders[].ends.END.lead_mm": ("mm", "opening to steam at the dead centre; negative: still to open"),
    "cylinders[].ends.END.greatest_steam_opening_mm": ("mm", "greatest opening to steam in a turn"),
    "cylinders[].ends.END.greatest_exhaust_opening_mm": ("mm", "greatest opening to exhaust in a turn"),
    "cylinders[].ends.END.spread.NAME": ("as the figure", "half-width of the 95 % interval of the figure of that name"),
    "cylinders[].chest_to_exhaust_deg": ("deg", "how much of a turn live steam has a straight way to exhaust"),
    "cylinders[].least_exhaust_way_mm": ("mm", "narrowest free width of the exhaust port while an end exhausts"),
    "cylinders[].valve_travel_mm": ("mm", "valve travel"),
    "findings[].code": ("", "what kind of fault, see [findings](problems.md)"),
    "findings[].cylinder": ("", "name of the cylinder"),
    "findings[].end": ("", "`head`, `crank`, or null for both or neither"),
    "findings[].severity": ("", "`stops-it`, `spoils-it`, `worth-doing` or `note`"),
    "findings[].size": ("as `unit`", "how large the fault is"),
    "findings[].unit": ("", "`mm` or `deg`"),
    "findings[].title": ("", "the fault in a line"),
    "findings[].because": ("", "the evidence"),
    "findings[].effect": ("", "what it does to the running"),
    "findings[].doubt": ("as `unit`", "half-width of the 95 % interval of the size"),
    "findings[].check_next": ("", "what to look at, to be sure"),
    "cures[].code": ("", "what kind of cure"),
    "cures[].cylinder": ("", "name of the cylinder"),
    "cures[].title": ("", "the cure in a line"),
    "cures[].answers[]": ("", "codes of the findings it clears"),
    "cures[].work": ("", "`minutes`, `an evening` or `a new part`"),
    "cures[].steps[]": ("", "what to do, in order"),
    "cures[].set.NAME": ("in the name", "sizes to set: `_mm`, `_deg`, or turns of the spindle"),
    "cures[].after": ("", "the cylinder afterwards, with the fields of a cylinder above"),
}

#: The codes of a record's problems that are not the code of an error class.
PROBLEMS: dict[str, str] = {
    "more-problems": "the file has more problems than anybody mends from one list",
}
