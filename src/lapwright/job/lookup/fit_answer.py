"""What `fit` answers: the limits of hole and shaft for a size, and how a clearance stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, Final

from lapwright.errors import DoesNotFit, NotInTable, OutOfRange
from lapwright.quantities import Length, read_length, show_mm
from lapwright.workshop.clearances import ClearanceRule, ClearanceVerdict, judge_clearance
from lapwright.workshop.fit_measured import SOURCE, MeasuredPair, judge_pair, name_nominal, tell_worn
from lapwright.workshop.fits import BANDS, FitLimits, choose_fits, find_fit, list_fits_of

#: What is shown to a thousandth of a mm is inside its limits to half of that [m].
_SHOWN: Final = 0.5e-6
#: Hole and pin that differ by more than this share of the hole do not belong together [-].
_FAR: Final = 0.25
_UNTOLD = "The ± of the size is left aside: limits are laid off from the nominal size."


@dataclass(frozen=True, slots=True)
class FitAnswer:
    """The fits of a size, and where a clearance was given, how it stands and which fits give it.

    `pair` is there where hole and pin were measured; the size is then the one that they were most likely made to.
    """

    size: Length
    fits: tuple[FitLimits, ...]
    verdict: ClearanceVerdict | None
    giving: tuple[str, ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]
    pair: MeasuredPair | None = None


def answer_fit(size: object, fit: str | None = None, *, clearance: object = None, pin: object = None) -> FitAnswer:
    """Answer which limits hole and shaft of a size are made to.

    Parameters
    ----------
    size: the nominal size as it is written: "6 mm", "1/4 in"; with a pin, the hole as it was measured
    fit: "H7/g6", however it is spaced; left out, every fit of the table
    clearance: one that is wanted or was measured, as it is written: "0.02 mm", "1 thou"; may be left out
    pin: the pin as it was measured; may be left out

    Raises
    ------
    BadInput: one of its kinds, saying how to write it instead

    Source: iso-286 (part 2: limits)
    """
    nominal = _read_size(size)
    if pin is not None:
        if clearance is not None:
            raise DoesNotFit("a pin and a clearance are both given", "hole and pin tell the clearance: leave it out")
        return _answer_pair(nominal, _read_pin(pin, nominal), fit)
    wanted = None if clearance is None else _read_clearance(clearance, nominal)
    return _answer(nominal, fit, wanted)


def _answer(nominal: Length, fit: str | None, wanted: float | None) -> FitAnswer:
    fits = list_fits_of(nominal.si) if fit is None else (find_fit(nominal.si, fit),)
    verdict: ClearanceVerdict | None = None
    giving: tuple[str, ...] = ()
    if wanted is not None:
        verdict = judge_clearance(wanted, diameter=nominal.si)
        giving = tuple(limits.fit for limits in choose_fits(nominal.si, wanted))
    notes = (*_tell_outside(fits, wanted), *(_UNTOLD,) * (nominal.doubt_plus is not None))
    notes += tuple(dict.fromkeys(note for limits in fits for note in limits.notes))
    sources = [source for limits in fits for source in limits.sources]
    sources += () if verdict is None else verdict.sources
    return FitAnswer(nominal, fits, verdict, giving, notes, tuple(dict.fromkeys(sources)))


def _tell_outside(fits: tuple[FitLimits, ...], clearance: float | None) -> Iterator[str]:
    """Say so where a clearance is not one of the fit that was asked for."""
    if clearance is None or len(fits) != 1:
        return
    limits = fits[0]
    least, most = limits.least_clearance, limits.most_clearance
    if least - _SHOWN <= clearance <= most + _SHOWN:
        return
    off = (
        f"{show_mm(clearance - most, 3)} too much"
        if clearance > most
        else f"{show_mm(least - clearance, 3)} too little"
    )
    yield (
        f"A clearance of {show_mm(clearance, 3)} is outside {limits.fit}, which leaves {show_mm(least, 3)} to "
        f"{show_mm(most, 3)}: {off}."
    )


def _answer_pair(hole: Length, pin: Length, fit: str | None) -> FitAnswer:
    """Hole and pin as measured: the size that they were made to is taken from the two."""
    name = name_nominal(hole.si, pin.si, in_inches=hole.unit in ("in", "thou"))
    nominal = read_length(name or f"{1e3 * hole.si:.2f} mm")
    answer = _answer(nominal, fit, hole.si - pin.si)
    pair = judge_pair(hole.si, pin.si, size=nominal.si)
    taken = (
        f"Taken as made to {nominal}, the likeliest usual size between hole and pin."
        if name
        else f"No usual size lies between hole and pin: the limits are laid off from {nominal}."
    )
    verdict = "" if answer.verdict is None else answer.verdict.verdict
    notes = (*tell_worn(pair, verdict), taken, *answer.notes)
    return replace(answer, pair=pair, notes=notes, sources=(*answer.sources, SOURCE))


def _read_pin(written: object, hole: Length) -> Length:
    pin = read_length(written)
    if pin.si <= 0:
        raise OutOfRange(str(pin), "is no size for a pin", 'write it like "3.98 mm"')
    if abs(hole.si - pin.si) > _FAR * hole.si:
        raise DoesNotFit(f"a pin of {pin} is none for a hole of {hole}", "check the two and their units")
    return pin


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
        "format": 1,
        "size_mm": _mm(answer.size.si),
        "fits": [_list_limits(limits) for limits in answer.fits],
    }
    if answer.pair is not None:
        listed["measured"] = _list_pair(answer.pair)
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


def _list_pair(pair: MeasuredPair) -> dict[str, Any]:
    return {
        "hole_mm": _mm(pair.hole),
        "pin_mm": _mm(pair.pin),
        "hole_inside": list(pair.hole_inside),
        "pin_inside": list(pair.pin_inside),
    }


def _list_verdict(verdict: ClearanceVerdict, giving: tuple[str, ...]) -> dict[str, Any]:
    return {
        "clearance_um": _um(verdict.measured),
        "verdict": verdict.verdict,
        "sentence": verdict.sentence,
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
