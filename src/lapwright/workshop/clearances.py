"""How much clearance a plain bearing wants: the rules in use, and how a measured clearance stands."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from lapwright.errors import OutOfRange
from lapwright.quantities import show_mm
from lapwright.tables.bearings import ClearanceRow, list_clearance_rules
from lapwright.workshop.fits import BANDS, find_fit

_INCH, _THOU = 0.0254, 25.4e-6
_VERDICT_SOURCE: Final = (
    "Too tight under half the bench rule, at the limit beyond the running fit H7/f7, worn beyond the widest running "
    "fit of the table (H8/f7): common practice, no source."
)
PRESS, TOO_TIGHT, FINE, AT_LIMIT, WORN = "press fit", "too tight", "fine", "at the limit", "worn"
#: Beyond the table of fits the limit is near from this share of the widest rule on [-].
_NEAR: Final = 0.85
#: Sizes that are the same to what is shown of them [m].
_SAME: Final = 1e-9


@dataclass(frozen=True, slots=True)
class ClearanceRule:
    """One rule in use for the clearance of a plain bearing: in words, what it gives [m], whether it is used here."""

    words: str
    clearance: float
    source: str
    is_used: bool = False


@dataclass(frozen=True, slots=True)
class ClearanceVerdict:
    """How a measured clearance stands, in m: what is wanted, within what it runs, and the rules that differ.

    `verdict` is one of "press fit" (no clearance at all), "too tight", "fine", "at the limit" (over `near`) and "worn"
    (over `most`).
    """

    measured: float
    verdict: str
    wanted: float
    least: float
    near: float
    most: float
    sentence: str
    rules: tuple[ClearanceRule, ...]
    sources: tuple[str, ...]


def find_clearance(diameter: float) -> float:
    """Work out the clearance to make a small plain bearing with [m]: a thousandth of its diameter, at least 0.01 mm.

    Parameters
    ----------
    diameter: of the shaft or pin [m], more than 0

    Raises
    ------
    OutOfRange: a diameter of nothing or less

    Source: from memory

    Example:
    >>> round(1e6 * find_clearance(6e-3)), round(1e6 * find_clearance(20e-3))
    (10, 20)
    """
    return list_clearances(diameter)[0].clearance


def list_clearances(diameter: float) -> tuple[ClearanceRule, ...]:
    """List what every rule in use gives for a diameter, the bench rule, which is used here, first.

    Parameters
    ----------
    diameter: of the shaft or pin [m], more than 0

    Raises
    ------
    OutOfRange: a diameter of nothing or less

    Source: from memory (bench rule); common practice, no source (the four rules for the bearings of machines)
    """
    _check_diameter(diameter)
    rows: dict[tuple[float, float, float], list[ClearanceRow]] = {}
    for row in list_clearance_rules():
        rows.setdefault((row.fixed, row.per_diameter, row.least), []).append(row)
    rules = [_work_out(alike, diameter) for alike in rows.values()]
    return tuple(sorted(rules, key=lambda rule: (not rule.is_used, rule.clearance)))


def _work_out(alike: list[ClearanceRow], diameter: float) -> ClearanceRule:
    """One rule, whoever else has it."""
    row = alike[0]
    return ClearanceRule(
        words=_say_rule(row),
        clearance=max(row.fixed + row.per_diameter * diameter, row.least),
        source="; ".join(dict.fromkeys(row.source for row in alike)),
        is_used=row.from_memory,
    )


def _say_rule(row: ClearanceRow) -> str:
    each = f"{row.per_diameter * _INCH / _THOU:g}"
    if row.least > 0:
        return f"{row.per_diameter:g} of the diameter, at least {show_mm(row.least)}"
    return (
        f"{row.fixed / _THOU:g} thou, and {each} more for each inch" if row.fixed > 0 else f"{each} thou for each inch"
    )


def judge_clearance(measured: float, *, diameter: float) -> ClearanceVerdict:
    """Judge a measured clearance of a plain bearing: too tight, fine, at the limit, or worn; or else a press fit.

    Parameters
    ----------
    measured: bore less shaft, as measured [m]; negative where the shaft is the larger
    diameter: of the shaft or pin [m], more than 0

    Raises
    ------
    OutOfRange: a diameter of nothing or less

    Source: common practice, no source (where tight and worn begin)

    Example:
    >>> [judge_clearance(1e-6 * found, diameter=6e-3).verdict for found in (-9, 2, 20, 38, 90)]
    ['press fit', 'too tight', 'fine', 'at the limit', 'worn']
    """
    rules = list_clearances(diameter)
    wanted, (near, most) = rules[0].clearance, _find_ends(diameter, rules)
    ends = ((-_SAME, PRESS), (wanted / 2 - _SAME, TOO_TIGHT), (near + _SAME, FINE), (most + _SAME, AT_LIMIT))
    told = f"Clearance of a small plain bearing: {rules[0].source}; the others: {'; '.join(_list_others(rules))}."
    found = ClearanceVerdict(
        measured=measured,
        verdict=next((verdict for end, verdict in ends if measured < end), WORN),
        wanted=wanted,
        least=wanted / 2,
        near=near,
        most=most,
        sentence="",
        rules=rules,
        sources=(told, _VERDICT_SOURCE),
    )
    return replace(found, sentence=_say(found, diameter))


def _say(found: ClearanceVerdict, diameter: float) -> str:
    """What the verdict is, and what the band that it rests on is made of."""
    in_table = diameter <= BANDS[-1][1]
    words = {
        "found": show_mm(found.measured, 3),
        "diameter": show_mm(diameter),
        "wanted": show_mm(found.wanted, 3),
        "least": show_mm(found.least, 3),
        "near": show_mm(found.near, 3),
        "most": show_mm(found.most, 3),
        "near_is": "the most that the running fit H7/f7 leaves" if in_table else "most of what the widest rule gives",
        "most_is": "the most that the easy running fit H8/f7 leaves" if in_table else "what the widest rule gives",
    }
    return _say_press(found, diameter) if found.verdict == PRESS else _SENTENCES[found.verdict].format(**words)


_SENTENCES: Final = {
    TOO_TIGHT: (
        "{found} on {diameter} is too tight to run: it leaves no room for oil and warmth; ease it to {least} at least, "
        "half of what a new bearing is made with ({wanted})."
    ),
    FINE: (
        "{found} on {diameter} is fine. A new bearing is made with {wanted}; it runs from half of that, {least}, to "
        "{most}, {most_is}."
    ),
    AT_LIMIT: (
        "{found} on {diameter} is at the limit: over {near}, {near_is}, and not over {most}, {most_is}. A shaft "
        "bearing may stay; a pin in a fork is bushed, or gets a larger pin. A new bearing is made with {wanted}."
    ),
    WORN: "{found} on {diameter} is worn: more than {most}, {most_is}, knocks; bush it, or make a larger pin.",
}


def _say_press(found: ClearanceVerdict, diameter: float) -> str:
    """Metal too much is a press fit, and not a bearing that is tight."""
    metal = -found.measured
    told = f"an interference of {show_mm(metal, 3)} on {show_mm(diameter)}: "
    if diameter > BANDS[-1][1]:
        told += "a press fit, not a running fit."
    else:
        limits = find_fit(diameter, "H7/p6")
        least, most = max(0.0, -limits.most_clearance), -limits.least_clearance
        span = f"{show_mm(least, 3).removesuffix(' mm')} to {show_mm(most, 3)}"
        if metal > most + _SAME:
            told += f"more than the press fit H7/p6 has ({span}), and a thin boss splits; not a running fit."
        elif metal < least - _SAME:
            told += f"less than the press fit H7/p6 has ({span}), so it may come loose; not a running fit."
        else:
            told += f"a press fit (H7/p6, {span}), not a running fit."
    return f"{told} To run it wants a clearance of {show_mm(found.wanted, 3)}."


def _list_others(rules: tuple[ClearanceRule, ...]) -> dict[str, None]:
    return dict.fromkeys(part for rule in rules if not rule.is_used for part in rule.source.split("; "))


def _find_ends(diameter: float, rules: tuple[ClearanceRule, ...]) -> tuple[float, float]:
    """The most of the running fits; beyond the table of fits the widest of the rules, which goes on from it."""
    if diameter <= BANDS[-1][1]:
        return find_fit(diameter, "H7/f7").most_clearance, find_fit(diameter, "H8/f7").most_clearance
    widest = max(rule.clearance for rule in rules)
    return _NEAR * widest, widest


def _check_diameter(diameter: float) -> None:
    if not diameter > 0:
        raise OutOfRange(show_mm(diameter), "is no diameter", 'write it like "6 mm" or "1/4 in"')
