"""What a bush for a worn thread is sealed or fastened with: compound, or the solder that stands the part's heat."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from lapwright.quantities import show_mm
from lapwright.workshop.heat import show_heat
from lapwright.workshop.soldering import SolderedBush, SolderJudgement, fit_soldered_bush, judge_solder

#: The soft solder of every bench, which seals; and a silver solder, which carries.
USUAL: Final = "60Sn40Pb"
STRONG: Final = "Ag155"
#: Where nobody says how hot the part runs, it is as warm as the bench [K].
_ROOM: Final = 293.15
_COMPOUND: Final = "retaining compound"
_FOR_STEAM: Final = "sealant that stands steam"
_COPPER_ALLOYS: Final = ("brass", "gunmetal", "phosphor bronze")
_UNTOLD: Final = (
    "Soft solder gives way slowly under load from some 90 degC (from memory): how hot the part runs was not given."
)
_IN_STEAM: Final = (
    "Soft solder creeps at the heat of steam: thread and shoulder hold the bush, a sealant only seals. A bush that is "
    "soldered into a steam space is for whoever may work on pressure parts."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BushSeal:
    """What a screwed bush goes home on, and what else is to be known of solder there."""

    seal: str
    notes: tuple[str, ...]
    sources: tuple[str, ...]


def choose_seal(metal: str, bore: float, *, temperature: float | None, into_steam: bool) -> BushSeal:
    """Choose what a bush goes home on, and tell the size of one that is soldered in plain instead.

    Parameters
    ----------
    metal: of the part: a metal of the tables
    bore: the hole that is drilled for the bush [m]
    temperature: how hot the part runs [K]; None where it is not known
    into_steam: whether the hole breaks into a space with steam in it, where nothing is left to solder

    Raises
    ------
    OutOfRange: a temperature at which nothing soldered is in service

    Source: common practice, no source (compound or solder); from memory (creep of soft solder)
    """
    warmth = _ROOM if temperature is None else temperature
    judged = judge_solder(USUAL, warmth)
    told = _UNTOLD if temperature is None else _tell_soft(judged)
    if into_steam:
        notes = (_IN_STEAM, *(() if temperature is None else (told,)), *judged.notes)
        return BushSeal(seal=_FOR_STEAM, notes=notes, sources=judged.sources)
    stands = not judged.instead
    compound = _COMPOUND if stands else f"{_COMPOUND} that stands {show_heat(warmth)}"
    if metal == "aluminium":
        return BushSeal(seal=compound, notes=("Solder does not take on aluminium.",), sources=())
    strong = judge_solder(STRONG, warmth)
    fit = fit_soldered_bush(bore, alloy=STRONG, bush=_choose_metal(metal), body=metal)
    plain = () if strong.instead else (_tell_plain(fit, bore=bore, bush=_choose_metal(metal)), *fit.notes)
    return BushSeal(
        seal=f"{compound} or soft solder" if stands else compound,
        notes=(told, *judged.notes, *plain),
        sources=tuple(dict.fromkeys((*judged.sources, *(fit.sources if plain else ())))),
    )


def _tell_soft(judged: SolderJudgement) -> str:
    """Whether the usual solder stands the heat, and what does where it does not."""
    others = f" Solders that stand it: {'; '.join(judged.instead[:2])}." if judged.instead else ""
    return f"{judged.why}{others}"


def _choose_metal(body: str) -> str:
    """A bush of the body's metal grows as that does; one of gunmetal is the next best."""
    return body if body in _COPPER_ALLOYS else "gunmetal"


def _tell_plain(fit: SolderedBush, *, bore: float, bush: str) -> str:
    return (
        f"Or leave the hole of {show_mm(bore)} without a thread, and silver-solder a plain bush of {bush} in with "
        f"{STRONG}. {fit.why}"
    )
