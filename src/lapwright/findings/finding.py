"""What a finding says: one fault, its size, its evidence and what to look at next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

#: How bad a fault is, worst first.
SEVERITIES = ("stops-it", "spoils-it", "worth-doing", "note")

#: Every timing-and-geometry fault that can be found from sizes.
CODES = (
    "late-admission",
    "early-admission",
    "eccentric-behind",
    "eccentric-ahead",
    "eccentric-reversed",
    "valve-too-long",
    "valve-too-short",
    "cavity-too-long",
    "cavity-too-short",
    "valve-off-centre",
    "ends-unequal",
    "chest-open-to-exhaust",
    "port-never-opens",
    "port-starved",
    "exhaust-choked",
    "overtravel",
    "valve-strikes-chest",
    "no-expansion-possible",
    "travel-too-short",
    "cylinders-differ",
)
#: Every fault of a gland, a screw, a pin or a cover that can be found from what the record says of it.
PART_CODES = (
    "gland-leaks",
    "packing-unsuitable",
    "thread-worn",
    "screw-will-not-hold",
    "thread-as-bearing",
    "pin-worn",
    "stud-overloaded",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One root fault of one cylinder, or of the one `part` of it that is named.

    `size` is how large the fault is in `unit` ("mm", "deg" or "%"), None where a fault has no size; `doubt` is the
    half-width of its 95 % interval in the same unit, None where the record gives no tolerances, and
    `doubt_mostly_from` the record key of the size that contributes most to it. `effects` names the faults that
    follow from this one.
    `rests_on` names the record keys of sizes that nobody gave and on which the fault's size hangs.
    `instead_of` is the code of the finding that this one would explain otherwise; empty for a root cause.
    `cost` says what the engine gains when this alone is put right, by a run; empty where none can be worked out.
    `mends` holds the sizes that would put it right, as record keys of the cylinder in SI.
    """

    code: str
    cylinder: str
    end: str | None
    severity: str
    size: float | None
    unit: str
    title: str
    because: str
    effect: str
    check_next: str
    doubt: float | None = None
    doubt_mostly_from: str = ""
    effects: tuple[str, ...] = ()
    rests_on: tuple[str, ...] = ()
    instead_of: str = ""
    cost: str = ""
    mends: Mapping[str, float] = field(default_factory=dict, compare=False)
    part: str = ""

    @property
    def doubt_words(self) -> str:
        """What the doubt mostly comes from, as it is called at the bench."""
        key = self.doubt_mostly_from
        return "what is between the threads" if key.endswith(".thread_is") else key


def put_worst_first(*groups: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Merge groups of findings, always going on with the group that has the worse one next; in a group nothing moves.

    Parameters
    ----------
    groups: findings that belong together, such as those of the valves and those of the parts
    """
    waiting = [_keep_together(group) for group in groups if group]
    merged: list[Finding] = []
    while waiting:
        worst = min(waiting, key=lambda group: SEVERITIES.index(group[0][0].severity))
        merged += worst.pop(0)
        waiting = [group for group in waiting if group]
    return tuple(merged)


def _keep_together(group: tuple[Finding, ...]) -> list[list[Finding]]:
    """A finding and what it might be instead are one."""
    together: list[list[Finding]] = []
    for finding in group:
        if finding.instead_of and together:
            together[-1].append(finding)
        else:
            together.append([finding])
    return together
