"""The search for causes: which single repair leaves the least out of order, then the next, until nothing is left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from lapwright.engine.sizes import Sizes
from lapwright.findings.aim import Aim
from lapwright.findings.causes import SUSPECTS
from lapwright.findings.consequences import describe_effect, judge_severity, name_effects
from lapwright.findings.finding import SEVERITIES, Finding
from lapwright.findings.reading import Reading
from lapwright.findings.suspicion import Case, Suspicion
from lapwright.findings.symptoms import Symptom, add_weights, find_symptoms
from lapwright.findings.unexplained import tell_unexplained
from lapwright.motion.spread import measure_spread

#: Another cause is told as an alternative where its repair leaves hardly more out of order than the first one's.
ALIKE = 0.35
#: The most causes looked for in one cylinder.
MOST_CAUSES = 6


@dataclass(frozen=True, slots=True)
class Explanation:
    """One root cause tried out, and the other causes that would explain as much."""

    first: Case
    others: tuple[Case, ...]


def explain_cylinder(sizes: Sizes, aim: Aim) -> tuple[Explanation, ...]:
    """Return the root causes of all that is out of order in one cylinder, in the order in which they explain it.

    Every cause that can be suspected is tried: the sizes are repaired in it alone and the cylinder is judged anew. The
    cause that leaves least is taken, and the search goes on from the repaired cylinder.
    """
    reading = Reading(sizes)
    found: list[Explanation] = []
    symptoms, told = find_symptoms(reading, aim), set()
    while symptoms and len(found) < MOST_CAUSES:
        cases = [case for case in _try_out(reading, aim, symptoms) if case.suspicion.code not in told]
        if not cases:
            rest = tell_unexplained(reading, aim, symptoms)
            if rest is not None and rest.suspicion.code not in told:
                found.append(Explanation(rest, ()))
            break
        first = min(cases, key=_rank)
        others = [case for case in cases if case is not first and _explains_as_much(case, first)]
        found.append(Explanation(first, _one_of_each(others, first)))
        told.add(first.suspicion.code)
        reading, symptoms = first.mended, first.left
    return tuple(found)


def find_faults_of_cylinder(sizes: Sizes, aim: Aim) -> tuple[Finding, ...]:
    """Return one cylinder's findings: root causes worst first, each followed by what it might be instead."""
    groups, mended = [], tuple[str, ...]()
    for explanation in explain_cylinder(sizes, aim):
        root = describe_case(explanation.first, mended=mended)
        others = [describe_case(other, instead_of=root.code, mended=mended) for other in explanation.others]
        groups.append((root, others))
        mended += (root.code,)
    groups.sort(key=lambda group: SEVERITIES.index(group[0].severity))
    roots = {root.code for root, _ in groups}
    return tuple(finding for root, others in groups for finding in (root, *(o for o in others if o.code not in roots)))


def describe_case(case: Case, *, instead_of: str = "", mended: tuple[str, ...] = ()) -> Finding:
    """Put a tried-out cause into words; its evidence is what is seen once the causes in `mended` are put right."""
    words = case.suspicion.tell(case)
    rests_on = find_supports(case)
    # A size that hangs on a guess is in far more doubt than the measured sizes can tell.
    doubt, mostly_from = (None, "") if rests_on else _doubt(case.found.sizes, case.suspicion)
    taken = f" (with {' and '.join(rests_on)} taken for granted)" if rests_on else ""
    return Finding(
        code=case.suspicion.code,
        cylinder=case.found.sizes.name,
        end=case.suspicion.end,
        severity=judge_severity(case, doubt, assumed=bool(rests_on)),
        size=None if case.suspicion.size is None else case.size,
        unit=case.suspicion.unit,
        title=words.title,
        because=_say_first(mended) + words.because + taken,
        effect=describe_effect(case),
        check_next=words.check_next,
        doubt=doubt,
        doubt_mostly_from=mostly_from,
        effects=name_effects(case),
        rests_on=rests_on,
        instead_of=instead_of,
        mends=dict(case.suspicion.changes),
    )


def _say_first(mended: tuple[str, ...]) -> str:
    """The figures of a second fault are those after the first is mended: say so, or they contradict the table."""
    if not mended:
        return ""
    names = [code.replace("-", " ") for code in mended]
    told = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
    return f"with {told} put right first: "


def find_supports(case: Case) -> tuple[str, ...]:
    """Return the keys of the assumed sizes on which a fault's size hangs: its size changes when they do."""
    measure, sizes = case.suspicion.measure, case.found.sizes
    if measure is None:
        return ()
    size, supports = measure(case.found), []
    for key in sizes.assumed:
        changed = Reading(sizes.replacing({key: sizes.numbers[key] * 1.02}))
        other = measure(changed) if changed.turns else None
        if sizes.numbers[key] and (size is None or other is None or abs(other - size) > 1e-3 * abs(size)):
            supports.append(key)
    return tuple(supports)


def _try_out(reading: Reading, aim: Aim, symptoms: tuple[Symptom, ...]) -> Iterator[Case]:
    before = add_weights(symptoms)
    for suspect in SUSPECTS:
        for suspicion in suspect(reading, aim, symptoms):
            mended = reading.changed(dict(suspicion.changes))
            if not mended.turns:
                continue
            left = find_symptoms(mended, aim)
            if add_weights(left) < before - 1e-9:
                yield Case(
                    suspicion=suspicion,
                    aim=aim,
                    found=reading,
                    mended=mended,
                    cleared=_take_away(symptoms, left),
                    left=left,
                )


def _take_away(before: tuple[Symptom, ...], after: tuple[Symptom, ...]) -> tuple[Symptom, ...]:
    """The symptoms that are gone, and those that are lighter by what they lost."""
    rest = {(symptom.code, symptom.end): symptom.weight for symptom in after}
    lost = [Symptom(s.code, s.end, s.weight - rest.get((s.code, s.end), 0.0)) for s in before]
    return tuple(symptom for symptom in lost if symptom.weight > 1e-9)


def _rank(case: Case) -> float:
    return add_weights(case.left) + case.suspicion.reluctance


def _explains_as_much(case: Case, first: Case) -> bool:
    return add_weights(case.left) <= add_weights(first.left) + ALIKE


def _one_of_each(cases: list[Case], first: Case) -> tuple[Case, ...]:
    kept: dict[str, Case] = {}
    for case in sorted(cases, key=_rank):
        if case.suspicion.code != first.suspicion.code:
            kept.setdefault(case.suspicion.code, case)
    return tuple(kept.values())


def _doubt(sizes: Sizes, suspicion: Suspicion) -> tuple[float | None, str]:
    """The doubt of a fault's size and the record key that contributes most to it."""
    measure = suspicion.measure
    if measure is None or not sizes.doubts:
        return None, ""

    def answer(other: Sizes) -> dict[str, float]:
        reading = Reading(other)
        size = measure(reading) if reading.turns else None
        return {} if size is None else {"size": size}

    spread = measure_spread(sizes, answer).get("size")
    return (None, "") if spread is None else (spread.half_width, spread.mostly_from)
