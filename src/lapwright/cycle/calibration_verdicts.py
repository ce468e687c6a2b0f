"""What bench tests tell and what they leave open, in sentences; and which test would tell it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from lapwright.cycle.bench_prediction import AIR_FLOW, DECAY_TIME, RUN_DOWN_TIME, TORQUE, Reading
from lapwright.cycle.calibrating import CONTRADICTS, Calibration, Estimate
from lapwright.engine.bench_test import FITTED

#: What each figure is called in a sentence, and what each reading.
WORDS = {
    "friction_pressure": "friction",
    "ring_gap": "the ring gap",
    "valve_face_gap": "the valve face gap",
    "gland_gap": "the gland gap",
}
READINGS = {TORQUE: "torque", AIR_FLOW: "air taken", RUN_DOWN_TIME: "run-down", DECAY_TIME: "pressure fall"}
#: A figure is told nothing of where so much of the doubt before is left, and well known where no more than that.
SAYS_NOTHING, _WELL_KNOWN = 0.9, 0.35
#: Two figures are not told apart where each moves so far to make up for the other, in standard deviations.
_TRADED = 0.7
#: So many standard deviations from what is usual, a figure is worth a second look.
_UNUSUAL = 2.5
_CHEST = {"valve_face_gap", "gland_gap"}
#: The codes of what makes the figures worth nothing until it is cleared up.
TROUBLE = ("not-settled", "would-not-run", "does-not-fit", "contradicts")
#: The codes of what is to be tried next.
NEXT = ("try-run-down", "try-pressure-fall", "try-air-taken", "try-soapy-water")

#: The tests that would tell more, by what they tell of.
_TRY_RUN_DOWN = (
    "Run it down: shut the supply, open the drains, and time it from a known speed to rest. Nothing but friction stops "
    "it then."
)
_TRY_DECAY = (
    "Shut air in before the valve: valve over shut ports, low pressure, tap shut, and time how the gauge falls. Only "
    "valve face and spindle gland can let it out."
)
_TRY_FLOW = (
    "Run it on air and measure what it takes at two pressures, each time as slowly as it will run: the slower it "
    "turns, the more of the air is leakage, and the rings' share shows."
)
_TRY_SOAP = (
    "Brush soapy water round the spindle while air at low pressure stands in the chest: bubbles there are the gland, "
    "air at the open exhaust is the valve face. Write down what you learn of one of them, with its ±, and the tests "
    "tell the other."
)


@dataclass(frozen=True, slots=True)
class Verdict:
    """One thing that the tests tell, by a stable code and in a sentence."""

    code: str
    sentence: str


def tell_verdicts(calibration: Calibration, *, wheel_is_weighed: bool) -> tuple[Verdict, ...]:
    """Return what the tests tell and leave open, what is most to be minded first, and then what to try next.

    Parameters
    ----------
    calibration: the fit
    wheel_is_weighed: whether the record gives the flywheel's moment of inertia
    """
    return (
        *_tell_trouble(calibration),
        *_tell_unusual(calibration),
        *_tell_traded(calibration),
        *_tell_nothing(calibration),
        *_tell_weights(calibration, wheel_is_weighed=wheel_is_weighed),
        *_tell_next(calibration),
    )


def join_words(words: Sequence[str]) -> str:
    """Join words as in a sentence.

    Example:
    >>> join_words(["rings", "valve face", "gland"])
    'rings, valve face and gland'
    """
    return " and ".join(words) if len(words) < 3 else f"{', '.join(words[:-1])} and {words[-1]}"


def _begin(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]


def _tell_trouble(calibration: Calibration) -> Iterator[Verdict]:
    if not calibration.settled:
        yield Verdict(
            "not-settled",
            "No figures were found that the tests agree on: what is printed is only the nearest. Look at the tests "
            "again, one by one.",
        )
    idle = [reading for reading in calibration.readings if reading.kind == TORQUE and reading.indicated <= 0]
    for reading in idle:
        yield Verdict(
            "would-not-run",
            f"With the sizes in the record the engine would not run as in test {reading.number}: its pistons would "
            'take power, not give it. See first what "lapwright examine" says of its valve setting.',
        )
    # What the sizes forbid is no quarrel between the tests.
    if not idle:
        yield from _tell_misfits(calibration)


def _tell_misfits(calibration: Calibration) -> Iterator[Verdict]:
    for reading in () if calibration.contradictions else calibration.readings:
        if abs(reading.off) > CONTRADICTS:
            yield Verdict(
                "does-not-fit",
                f"No friction and no leaks that an engine has explain {_name(reading)}: see whether the sizes, or the "
                "setting of the valve, are still as the record has them.",
            )
    for group in calibration.contradictions:
        named = [_name(calibration.readings[n]) for n in group]
        if len(named) == 1:
            sentence = f"{_begin(named[0])} contradicts the rest: measure it again before you trust the fit."
        else:
            sentence = f"{_begin(join_words(named))} contradict each other: one of them is wrong; measure both again."
        yield Verdict("contradicts", sentence)


def _name(reading: Reading) -> str:
    return f"the {READINGS[reading.kind]} of test {reading.number}"


def _tell_unusual(calibration: Calibration) -> Iterator[Verdict]:
    for estimate in calibration.fitted:
        if abs(estimate.moved) < _UNUSUAL:
            continue
        size = "large" if estimate.moved > 0 else "small"
        than = "for what the record says of it" if estimate.prior.is_own else "for a small engine"
        advice = "look for a slip in the tests, or for a reason in the engine"
        yield Verdict("unusual", f"{_begin(WORDS[estimate.key])} comes out very {size} {than}: {advice}.")


def _tell_traded(calibration: Calibration) -> Iterator[Verdict]:
    if _is_torque_alone(calibration):
        yield Verdict(
            "cannot-tell-apart",
            "Friction and leaks cannot be told apart by pressure and speed alone: whatever torque is missing has been "
            "put to friction, the leaks taken as they were before.",
        )
    for one, other in list_traded(calibration):
        yield Verdict(
            "cannot-tell-apart",
            f"{_begin(WORDS[one])} and {WORDS[other]} cannot be told apart by these tests: more of one and less of the "
            "other would fit them as well.",
        )


def _is_torque_alone(calibration: Calibration) -> bool:
    return all(reading.kind == TORQUE for reading in calibration.readings)


def list_traded(calibration: Calibration) -> tuple[tuple[str, str], ...]:
    """Return the pairs of figures of which the tests tell only both together."""
    pairs = combinations(calibration.fitted, 2)
    return tuple((a.key, b.key) for a, b in pairs if min(a.trades[b.key], b.trades[a.key]) > _TRADED)


def _tell_nothing(calibration: Calibration) -> Iterator[Verdict]:
    traded = {key for pair in list_traded(calibration) for key in pair}
    silent = [e for e in calibration.fitted if e.kept > SAYS_NOTHING and e.key not in traded]
    if silent:
        words = join_words([WORDS[estimate.key] for estimate in silent])
        stays = "it stays as it was taken" if len(silent) == 1 else "they stay as they were taken"
        yield Verdict("says-nothing", f"The tests say nothing of {words}: {stays}.")
    fixed = [WORDS[estimate.key] for estimate in calibration.estimates if estimate.prior.spread == 0]
    if fixed:
        are = "is" if len(fixed) == 1 else "are"
        yield Verdict("left-at-nothing", f"{_begin(join_words(fixed))} {are} nothing in the record, and left so.")


def _tell_weights(calibration: Calibration, *, wheel_is_weighed: bool) -> Iterator[Verdict]:
    weights = calibration.weights
    best = max(weights, key=lambda number: weights[number])
    if len(weights) > 1 and weights[best] > 0:
        kinds = [READINGS[reading.kind] for reading in calibration.readings if reading.number == best]
        yield Verdict("says-most", f"Test {best} says the most ({join_words(list(dict.fromkeys(kinds)))}).")
    runs_down = any(reading.kind == RUN_DOWN_TIME for reading in calibration.readings)
    if runs_down and not wheel_is_weighed:
        yield Verdict(
            "wheel-not-weighed",
            "The flywheel's moment of inertia is only taken, so the run-down counts for little: weigh and measure the "
            "flywheel, and write flywheel_inertia.",
        )


def _tell_next(calibration: Calibration) -> Iterator[Verdict]:
    kinds = [reading.kind for reading in calibration.readings]
    traded = list_traded(calibration)
    open_keys = {estimate.key for estimate in calibration.fitted if _is_open(estimate)}
    apart = {key for pair in traded for key in pair}
    friction = "friction_pressure" in open_keys | apart or _is_torque_alone(calibration)
    if friction and RUN_DOWN_TIME not in kinds:
        yield Verdict("try-run-down", _TRY_RUN_DOWN)
    if open_keys & _CHEST and DECAY_TIME not in kinds:
        yield Verdict("try-pressure-fall", _TRY_DECAY)
    if "ring_gap" in open_keys and kinds.count(AIR_FLOW) < 2:
        yield Verdict("try-air-taken", _TRY_FLOW)
    if any(set(pair) == _CHEST for pair in traded) and DECAY_TIME in kinds:
        yield Verdict("try-soapy-water", _TRY_SOAP)


def _is_open(estimate: Estimate) -> bool:
    return estimate.kept > _WELL_KNOWN


def list_informed(calibration: Calibration) -> tuple[Estimate, ...]:
    """Return the figures of which the tests tell something, in the order of the record's keys."""
    return tuple(calibration.find(key) for key in FITTED if calibration.find(key).kept <= SAYS_NOTHING)
