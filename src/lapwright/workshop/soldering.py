"""Solder: what an alloy stands in steam, and how loose a soldered bush has to be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite
from typing import Final

from lapwright.errors import DoesNotFit, NotOneOf, OutOfRange
from lapwright.quantities import show_length_both, show_mm
from lapwright.quantities.figure import show_start
from lapwright.tables.materials import Metal, find_metal
from lapwright.tables.solders import KINDS, SolderRow, find_brazing_gap, list_solders
from lapwright.workshop.cautions import FLAME
from lapwright.workshop.heat import show_heat

#: How a solder takes a temperature in service.
VERDICTS: Final = ("stands", "creeps", "melts")
_SOFT: Final = KINDS[1]
#: A soft solder creeps under load above this share of its solidus, both counted from absolute zero [-].
_CREEPS: Final = 0.8
_SOFT_TRAP: Final = (
    "Soft solder seals, and does not carry: let a fit, a thread or a shoulder hold the part. Steam of 4 bar is at 152 "
    "degC, of 10 bar at 184: there tin-lead solder, which melts from 183, is gone."
)
_ZINC: Final = (
    "Brass gives off zinc fume when it is too hot: heat it evenly, no hotter than the solder asks, in moving air."
)
_TOO_WIDE: Final = "Hot, {} are left on each side, more than solder is drawn into: make the bush of the body's metal."
#: By how much a bush has to be less than its hole to go in cold, on the diameter: from memory [m].
_ENTERS: Final = 0.01e-3
#: Less than this does not show in the hundredths of a mm [m].
_SEEN: Final = 0.005e-3
#: What rounding may add to a gap [m].
_HAIR: Final = 1e-9
_GRAPHITE: Final = (
    "Solder takes badly on cast iron, for there is graphite in it: file the joint bright just before, and have plenty "
    "of flux (common practice, no source)."
)
_MORE_WHEN_HOT: Final = "Growth is that of figures up to some 100 degC; hotter, metals grow rather more (from memory)."
#: At what warmth sizes are measured [K].
_ROOM: Final = 293.15
#: Colder and hotter than this nothing soldered is in service [K].
_COLDEST, _HOTTEST = 223.15, 1273.15
#: A hole wider than this is none for a bush of a small engine [m].
_WIDEST: Final = 0.5
_STEAM_SOURCE: Final = "Heat of steam: IAPWS R7-97, industrial formulation 1997."
_CREEP_SOURCE: Final = "Where soft solder begins to creep, four fifths of its solidus in kelvin: from memory."


@dataclass(frozen=True, slots=True, kw_only=True)
class SolderJudgement:
    """Whether an alloy will do at a temperature in service [K]; `verdict` is one of `VERDICTS`.

    `instead` names the alloys of the table that stand it, those that melt first standing first; it is empty where the
    alloy stands it itself.
    """

    alloy: str
    solidus: float
    liquidus: float
    temperature: float
    verdict: str
    why: str
    instead: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SolderedBush:
    """What to turn a bush to, cold, so that the solder finds its gap when all is hot: from `least` to `most` [m].

    `closing` [m] is by how much the hole has less room for the bush when hot, on the diameter; negative: more room.
    """

    least: float
    most: float
    closing: float
    why: str
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]


def find_solder(text: str) -> SolderRow:
    """Find an alloy by its name in the table, or by a part of it that no other has.

    Parameters
    ----------
    text: `60Sn40Pb`, `Ag155`, `high melting point`

    Raises
    ------
    NotOneOf: no alloy is called so, or more than one

    Example:
    >>> find_solder("ag155").alloy
    '55Ag-Cu-Zn-Sn (AG14, Ag155)'
    """
    wish = "".join(text.split()).casefold()
    rows = list_solders()
    names = {row.alloy: "".join(row.alloy.split()).casefold() for row in rows}
    found = [row for row in rows if names[row.alloy] == wish]
    found = found or [row for row in rows if wish and wish in names[row.alloy]]
    if len(found) != 1:
        raise NotOneOf(show_start(text), tuple(row.alloy for row in found or rows))
    return found[0]


def judge_solder(alloy: str, temperature: float) -> SolderJudgement:
    """Return whether a solder will do in a joint that is so hot in service, and what will instead.

    Parameters
    ----------
    alloy: its name in the table, or a part of it
    temperature: of the joint in service [K], 223 to 1273

    Raises
    ------
    NotOneOf: no alloy is called so
    OutOfRange: a temperature at which nothing soldered is in service

    Source: from memory (creep); iapws-r7-97 (heat of steam); melting ranges as the rows of the table of solders say

    Example: tin-lead solder in steam of 4 bar
    >>> judge_solder("60Sn40Pb", 425.15).verdict
    'creeps'
    """
    if not (isfinite(temperature) and _COLDEST <= temperature <= _HOTTEST):
        raise OutOfRange(show_heat(temperature), f"is not between {show_heat(_COLDEST)} and {show_heat(_HOTTEST)}")
    row = find_solder(alloy)
    verdict = _judge(row, temperature)
    good = sorted(
        (one for one in list_solders() if _judge(one, temperature) == VERDICTS[0]), key=lambda one: one.liquidus
    )
    soft = row.kind == _SOFT
    on_soft = (_CREEP_SOURCE, _STEAM_SOURCE) if soft else ()
    return SolderJudgement(
        alloy=row.alloy,
        solidus=row.solidus,
        liquidus=row.liquidus,
        temperature=temperature,
        verdict=verdict,
        why=_explain(row, temperature, verdict),
        instead=() if verdict == VERDICTS[0] else tuple(one.alloy for one in good),
        notes=(_SOFT_TRAP,) if soft else (),
        cautions=(FLAME,),
        sources=(f"{row.alloy}: {row.source}.", *on_soft),
    )


def _judge(row: SolderRow, temperature: float) -> str:
    if temperature >= row.solidus:
        return "melts"
    return "creeps" if row.kind == _SOFT and temperature > _CREEPS * row.solidus else "stands"


def _explain(row: SolderRow, temperature: float, verdict: str) -> str:
    memory = " (from memory)" if row.from_memory else ""
    melts = f"{row.alloy} melts from {show_heat(row.solidus)} and is all liquid at {show_heat(row.liquidus)}{memory}"
    hot = show_heat(temperature)
    if verdict == "melts":
        return f"{melts}: at {hot} the joint lets go."
    if verdict == "creeps":
        return f"{melts}: at {hot} it does not melt, but gives way slowly under any load. It may seal there, not hold."
    return f"{melts}: it stands {hot}."


def fit_soldered_bush(hole: float, *, alloy: str, bush: str, body: str) -> SolderedBush:
    """Return what to turn a bush to that is soldered in: bush and body do not grow alike until the solder runs.

    Parameters
    ----------
    hole: its diameter, cold [m], more than 0, up to 0.5
    alloy: the solder, by its name in the table or a part of it
    bush, body: what they are made of, by name or grade

    Raises
    ------
    NotOneOf: an alloy or a metal that is in no table
    OutOfRange: a hole that is none for a bush
    DoesNotFit: a bush or a body of aluminium, which these alloys do not wet

    Source: exact geometry, with the growth of both metals from the table of materials; gap as the answer says

    Example: a brass bush in 12 mm of cast iron, silver-soldered
    >>> fit = fit_soldered_bush(0.012, alloy="Ag155", bush="brass", body="cast iron")
    >>> f"{fit.least * 1e3:.2f} to {fit.most * 1e3:.2f} mm"
    '11.76 to 11.86 mm'
    """
    if not 0 < hole <= _WIDEST:
        raise OutOfRange(show_mm(hole), "is no hole for a bush")
    row, inner, outer = find_solder(alloy), find_metal(bush), find_metal(body)
    if "aluminium" in (inner.name, outer.name):
        raise DoesNotFit(f"{row.alloy} does not take on aluminium", "press the bush in, or screw it in with sealant")
    gap = find_brazing_gap()
    rise = row.liquidus - _ROOM
    hot_hole, growth = hole * (1 + outer.expansion * rise), 1 + inner.expansion * rise
    closing = hole * rise * (inner.expansion - outer.expansion)
    goes_in = hole - _ENTERS
    most, least = (min((hot_hole - 2 * side) / growth, goes_in) for side in (gap.least, gap.most))
    widest = (hot_hole - least * growth) / 2
    way = "closes on the bush" if closing >= 0 else "opens round the bush"
    hole_goes = f"{way} by {show_mm(abs(closing))}" if abs(closing) >= _SEEN else "grows as the bush does"
    return SolderedBush(
        least=least,
        most=most,
        closing=closing,
        why=(
            f"Turn the bush to {show_length_both(least)} to {show_length_both(most)}. By {show_heat(row.liquidus)}, "
            f"where {row.alloy} is liquid, the hole {hole_goes}; {show_mm(gap.least)} to "
            f"{show_mm(gap.most)} on each side are to be left for the solder then, and cold the bush has to go in."
        ),
        notes=tuple(_note_bush(row, inner, outer, widest=widest)),
        cautions=(FLAME,),
        sources=(
            f"{row.alloy}: {row.source}.",
            *dict.fromkeys(f"Growth of {metal.name}: {metal.source}." for metal in (inner, outer)),
            f"Gap: {gap.source}; {gap.note}.",
        ),
    )


def _note_bush(row: SolderRow, inner: Metal, outer: Metal, *, widest: float) -> Iterator[str]:
    metals = (inner.name, outer.name)
    if row.kind == _SOFT:
        yield _SOFT_TRAP
    if widest > find_brazing_gap().most + _HAIR:
        yield _TOO_WIDE.format(show_mm(widest))
    if "brass" in metals and row.kind != _SOFT:
        yield _ZINC
    if "cast iron" in metals:
        yield _GRAPHITE
    if inner.name != outer.name:
        yield _MORE_WHEN_HOT
