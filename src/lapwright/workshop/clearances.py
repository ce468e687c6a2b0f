"""How much clearance a plain bearing wants: the rules in use, and how a measured clearance stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from lapwright.errors import OutOfRange
from lapwright.quantities import show_mm
from lapwright.tables.bearings import ClearanceRow, list_clearance_rules
from lapwright.workshop.fits import BANDS, find_fit

_INCH, _THOU = 0.0254, 25.4e-6
_VERDICT_SOURCE: Final = (
    "Too tight under half the bench rule, worn beyond the widest running fit of the table (H8/f7): common practice, no "
    "source."
)
TOO_TIGHT, FINE, WORN = "too tight", "fine", "worn"


@dataclass(frozen=True, slots=True)
class ClearanceRule:
    """One rule in use for the clearance of a plain bearing: in words, what it gives [m], whether it is used here."""

    words: str
    clearance: float
    source: str
    is_used: bool = False


@dataclass(frozen=True, slots=True)
class ClearanceVerdict:
    """How a measured clearance stands, in m: what is wanted, within what it is fine, and the rules that differ."""

    measured: float
    verdict: str
    wanted: float
    least: float
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
    """Judge a measured clearance of a plain bearing: too tight, fine, or worn.

    Parameters
    ----------
    measured: bore less shaft, as measured [m]
    diameter: of the shaft or pin [m], more than 0

    Raises
    ------
    OutOfRange: a diameter of nothing or less

    Source: common practice, no source (where tight and worn begin)

    Example:
    >>> [judge_clearance(1e-6 * found, diameter=6e-3).verdict for found in (2, 20, 90)]
    ['too tight', 'fine', 'worn']
    """
    rules = list_clearances(diameter)
    wanted, least = rules[0].clearance, rules[0].clearance / 2
    most = _find_most(diameter, rules)
    verdict = TOO_TIGHT if measured < least else FINE if measured <= most else WORN
    told = f"Clearance of a small plain bearing: {rules[0].source}; the others: {'; '.join(_list_others(rules))}."
    sentence = _SENTENCES[verdict].format(
        found=show_mm(measured, 3), least=show_mm(least, 3), most=show_mm(most, 3), diameter=show_mm(diameter)
    )
    return ClearanceVerdict(measured, verdict, wanted, least, most, sentence, rules, (told, _VERDICT_SOURCE))


_SENTENCES: Final = {
    TOO_TIGHT: "{found} on {diameter} is too tight: it leaves no room for oil and warmth; ease it to {least} at least.",
    FINE: "{found} on {diameter} is fine: it may be {least} to {most}.",
    WORN: "{found} on {diameter} is worn: more than {most} knocks; bush it, or make a larger pin.",
}


def _list_others(rules: tuple[ClearanceRule, ...]) -> dict[str, None]:
    return dict.fromkeys(part for rule in rules if not rule.is_used for part in rule.source.split("; "))


def _find_most(diameter: float, rules: tuple[ClearanceRule, ...]) -> float:
    """The widest running fit; beyond the table of fits the widest of the rules, which goes on from it."""
    if diameter <= BANDS[-1][1]:
        return find_fit(diameter, "H8/f7").most_clearance
    return max(rule.clearance for rule in rules)


def _check_diameter(diameter: float) -> None:
    if not diameter > 0:
        raise OutOfRange(show_mm(diameter), "is no diameter", 'write it like "6 mm" or "1/4 in"')
