"""Parts that are found wrong and cannot be cured yet, for want of which size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cures.part_cure import PartCure
from lapwright.findings import Finding
from lapwright.job.gaps import Gap

#: What a cure wants to know of a part, by the code of the finding.
_WANTED: Mapping[str, str] = {
    "gland-leaks": "rod, box_bore and box_depth as they are, with room for packing between them",
    "packing-unsuitable": "rod, box_bore and box_depth as they are, with room for packing between them",
    "thread-worn": "thread, as it was cut",
    "screw-will-not-hold": "thread and shaft",
    "thread-as-bearing": "moving_part, and the diameter or the hole",
    "pin-worn": "moving_part",
    "stud-overloaded": "thread, count and joint_outside",
}


def find_part_gaps(findings: tuple[Finding, ...], cures: tuple[PartCure, ...]) -> Iterator[Gap]:
    """Yield a gap for every finding of a part that no cure answers.

    Parameters
    ----------
    findings: of parts
    cures: of parts
    """
    answered = {(cure.cylinder, cure.part, code) for cure in cures for code in cure.answers}
    for finding in findings:
        if (finding.cylinder, finding.part, finding.code) not in answered:
            yield Gap(
                figure=f"cures.{finding.part}",
                cylinder=finding.cylinder,
                words=f"what to do about the {finding.part}",
                because=f"not known, it wants {_WANTED[finding.code]}",
            )
