"""What `fit` answers: the limits of hole and shaft for a size, and how a clearance stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from lapwright.errors import NotInTable, OutOfRange
from lapwright.quantities import Length, read_length
from lapwright.workshop.clearances import ClearanceRule, ClearanceVerdict, judge_clearance
from lapwright.workshop.fits import BANDS, FitLimits, choose_fits, find_fit, list_fits_of

_UNTOLD = "The ± of the size is left aside: limits are laid off from the nominal size."


@dataclass(frozen=True, slots=True)
class FitAnswer:
    """The fits of a size, and where a clearance was given, how it stands and which fits give it."""

    size: Length
    fits: tuple[FitLimits, ...]
    verdict: ClearanceVerdict | None
    giving: tuple[str, ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]


def answer_fit(size: object, fit: str | None = None, *, clearance: object = None) -> FitAnswer:
    """Answer which limits hole and shaft of a size are made to.

    Parameters
    ----------
    size: the nominal size as it is written: "6 mm", "1/4 in"
    fit: "H7/g6", however it is spaced; left out, every fit of the table
    clearance: one that is wanted or was measured, as it is written: "0.02 mm", "1 thou"; may be left out

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Source: iso-286 (part 2: limits)
    """
    nominal = _read_size(size)
    fits = list_fits_of(nominal.si) if fit is None else (find_fit(nominal.si, fit),)
    verdict: ClearanceVerdict | None = None
    giving: tuple[str, ...] = ()
    if clearance is not None:
        wanted = _read_clearance(clearance, nominal)
        verdict = judge_clearance(wanted, diameter=nominal.si)
        giving = tuple(limits.fit for limits in choose_fits(nominal.si, wanted))
    notes = (_UNTOLD,) * (nominal.doubt_plus is not None)
    notes += tuple(dict.fromkeys(note for limits in fits for note in limits.notes))
    sources = [source for limits in fits for source in limits.sources]
    sources += () if verdict is None else verdict.sources
    return FitAnswer(nominal, fits, verdict, giving, notes, tuple(dict.fromkeys(sources)))


def _read_size(written: object) -> Length:
    size = read_length(written)
    if size.si <= 0:
        raise OutOfRange(str(size), "is no size for a fit", 'write it like "6 mm" or "1/4 in"')
    if size.si > BANDS[-1][1]:
        raise NotInTable(str(size), "fits", "it goes up to 30 mm (1.181 in)")
    return size


def _read_clearance(written: object, size: Length) -> float:
    clearance = read_length(written)
    if not abs(clearance.si) < size.si:
        raise OutOfRange(str(clearance), f"is no clearance on {size}", 'write it like "0.02 mm" or "1 thou"')
    return clearance.si


def list_fit(answer: FitAnswer) -> dict[str, Any]:
    """List an answer as plain figures and texts, by the names that JSON has for them.

    Parameters
    ----------
    answer: from `answer_fit`
    """
    listed: dict[str, Any] = {
        "size_mm": _mm(answer.size.si),
        "fits": [_list_limits(limits) for limits in answer.fits],
    }
    if answer.verdict is not None:
        listed["clearance"] = _list_verdict(answer.verdict, answer.giving)
    return {**listed, "notes": list(answer.notes), "sources": list(answer.sources)}


def _list_limits(limits: FitLimits) -> dict[str, Any]:
    return {
        "fit": limits.fit,
        "hole_mm": [_mm(size) for size in limits.hole],
        "shaft_mm": [_mm(size) for size in limits.shaft],
        "least_clearance_um": _um(limits.least_clearance),
        "most_clearance_um": _um(limits.most_clearance),
        "kind": limits.kind,
        "purpose": limits.purpose,
        "source": limits.source,
    }


def _list_verdict(verdict: ClearanceVerdict, giving: tuple[str, ...]) -> dict[str, Any]:
    return {
        "clearance_um": _um(verdict.measured),
        "verdict": verdict.verdict,
        "wanted_um": _um(verdict.wanted),
        "least_um": _um(verdict.least),
        "most_um": _um(verdict.most),
        "given_by": list(giving),
        "rules": [_list_rule(rule) for rule in verdict.rules],
    }


def _list_rule(rule: ClearanceRule) -> dict[str, Any]:
    return {
        "rule": rule.words,
        "clearance_um": _um(rule.clearance),
        "is_used": rule.is_used,
        "source": rule.source,
    }


def _mm(metres: float) -> float:
    """To a hundredth of a micron: what comes of adding sizes in m is not shown as more than it is."""
    return round(1e3 * metres, 5)


def _um(metres: float) -> float:
    return round(1e6 * metres, 2) + 0.0
