"""Cylinders that are each in order but not alike, so that the beats are not."""

from __future__ import annotations

from lapwright.findings.finding import Finding
from lapwright.findings.reading import Reading
from lapwright.findings.symptoms import cut_offs
from lapwright.findings.words import late_by, say_degrees

#: Differences between cylinders that are heard in the beat: admission [deg] and cut-off [share of stroke].
#: Common practice, no source.
ADMISSION_SLACK = 3.0
CUT_OFF_SLACK = 0.05


def compare_cylinders(readings: tuple[Reading, ...]) -> tuple[Finding, ...]:
    """Return a finding for every cylinder that is timed differently from the first one."""
    first, found = readings[0], []
    for other in readings[1:]:
        admission, cut_off = _differ_in_admission(first, other), _differ_in_cut_off(first, other)
        if admission <= ADMISSION_SLACK and cut_off <= CUT_OFF_SLACK:
            continue
        found.append(_tell(first, other, admission=admission, cut_off=cut_off))
    return tuple(found)


def _differ_in_admission(first: Reading, other: Reading) -> float:
    pairs = [(late_by(first, end), late_by(other, end)) for end in first.ends if end in other.ends]
    return max((abs(a - b) for a, b in pairs if a is not None and b is not None), default=0.0)


def _differ_in_cut_off(first: Reading, other: Reading) -> float:
    return max((abs(a - b) for a, b in zip(cut_offs(first), cut_offs(other), strict=False)), default=0.0)


def _tell(first: Reading, other: Reading, *, admission: float, cut_off: float) -> Finding:
    one, two = first.sizes.name, other.sizes.name
    parts = []
    if admission > ADMISSION_SLACK:
        parts.append(f"their ports open up to {say_degrees(admission)} apart, counted from their own dead centres")
    if cut_off > CUT_OFF_SLACK:
        parts.append(f"their cut-offs lie up to {100 * cut_off:.0f} % of the stroke apart")
    return Finding(
        code="cylinders-differ",
        cylinder=two,
        end=None,
        severity="worth-doing",
        size=admission,
        unit="deg",
        title=f"Cylinders {one} and {two} are not timed alike",
        because=" and ".join(parts) + ", though each is in order by itself",
        effect="the cylinders share the work unequally: the beats are uneven, and the engine hunts at low speed",
        check_next=(
            f"measure valve and eccentric of {two} once more beside those of {one}; then set both by the same leads"
        ),
    )
