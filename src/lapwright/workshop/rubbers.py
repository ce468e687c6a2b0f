"""Rubbers for rings: which lives with air, steam or water, which with mineral oil, and why hardly one with both.

EPDM lives in steam and swells in mineral steam oil; FKM is the other way round. Only TFE/P, FFKM and PTFE live with
both, which is why soft packing of graphite or PTFE is the usual cure on a steam engine.
"""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.quantities import show_number
from lapwright.quantities.temperature import FREEZING
from lapwright.tables.elastomers import ElastomerRow, find_elastomer
from lapwright.workshop.gland_service import Service
from lapwright.workshop.gland_verdict import CARE, SUITS, UNSUITABLE, Judgement


@dataclass(frozen=True, slots=True)
class Rubber:
    """A rubber: its row in the table, that of its better cure if it has one, and what to know of it.

    `grease` is what a ring of it is put in with; `steam` and `oil` say why it is not for steam, or not for mineral oil;
    `care` what else to mind.
    """

    row: str
    grease: str = "silicone grease or a drop of mineral oil"
    better: str = ""
    steam: str = ""
    oil: str = ""
    care: str = ""


#: The rubbers by the name of the ring.
RUBBERS = {
    "NBR O-ring": Rubber("NBR", steam="steam hardens and cracks it"),
    "HNBR O-ring": Rubber("HNBR", steam="steam hardens it, as it does NBR"),
    "EPDM O-ring": Rubber(
        "EPDM sulphur cured",
        grease="silicone grease, never mineral oil or grease, which swell it",
        better="EPDM peroxide cured",
        oil="it lives in steam, but mineral steam oil swells it until it grips the rod",
    ),
    "silicone O-ring": Rubber(
        "VMQ silicone",
        grease="a drop of mineral oil, never silicone grease, which swells it",
        care="it is weak, tears in motion, and turns back to gum in hotter steam",
    ),
    "FKM O-ring": Rubber(
        "FKM",
        steam="oil does it no harm, but water strips hydrogen fluoride from its chain, for certain above 150 degC",
    ),
    "TFE/P O-ring": Rubber("FEPM (TFE/P)", care="it is dear, and made in few small sizes"),
    "FFKM O-ring": Rubber("FFKM", care="it is very dear"),
    "solid PTFE ring": Rubber(
        "PTFE (solid)", care="it has no spring of its own and needs a spring or an O-ring behind it"
    ),
}


def judge_rubber(name: str, service: Service) -> Judgement:
    """Judge a ring of rubber against what it has to live with.

    Parameters
    ----------
    name: one of `RUBBERS`
    service: what it has to live with

    Source: common practice, no source (what to mind); makers' tables of rubbers, as each row of the table says
    """
    rubber = RUBBERS[name]
    row = find_elastomer(rubber.row)
    limit = find_limit(row, service.fluid)
    verdict, reason = _weigh(name, row, limit=limit, service=service)
    return Judgement(name, verdict, reason, limit, (f"{name}: {row.source}",))


def find_limit(row: ElastomerRow, fluid: str) -> float | None:
    """Tell up to what temperature a rubber lives in a fluid [K]; None where it is not for that.

    Parameters
    ----------
    row: of the table
    fluid: "air", "steam" or "water"

    Example:
    >>> find_limit(find_elastomer("NBR"), "steam") is None, find_limit(find_elastomer("FKM"), "water")
    (True, 353.15)
    """
    if fluid == "steam":
        return row.steam_limit
    if fluid == "water":
        # What no table prints for hot water is taken as for steam, which asks more.
        return row.water_limit or row.steam_limit
    return row.air_limit


def _weigh(name: str, row: ElastomerRow, *, limit: float | None, service: Service) -> tuple[str, str]:
    rubber = RUBBERS[name]
    if service.oil == "mineral" and not row.stands_mineral_oil and rubber.oil:
        return UNSUITABLE, f"{name}: {rubber.oil}."
    if limit is None:
        return UNSUITABLE, f"{name}: not for {service.fluid}; {rubber.steam}."
    better = _find_better(rubber, service.fluid)
    good = f"good to {_show(limit)} in {service.fluid}{better.told if better else ''}"
    care = f", but {rubber.care}" if rubber.care else ""
    if service.temperature is None or service.temperature <= limit:
        return (CARE if care else SUITS), f"{name}: {good}{care}."
    here = f"and here it is {_show(service.temperature)}"
    if better and service.temperature <= better.limit:
        return CARE, f"{name}: {good}, {here}: only a peroxide cured one will do."
    return UNSUITABLE, f"{name}: {good}, {here}."


@dataclass(frozen=True, slots=True)
class _Better:
    """What the better cure of a rubber stands [K], and what is said of it and of tables that differ."""

    limit: float
    told: str


def _find_better(rubber: Rubber, fluid: str) -> _Better | None:
    if not rubber.better:
        return None
    row = find_elastomer(rubber.better)
    limit = find_limit(row, fluid)
    if limit is None:
        return None
    low, _, high = row.steam.partition("-")
    differs = f" (tables differ, {low} and {high} degC; the lower is used)" if fluid == "steam" and high else ""
    return _Better(limit, f" if sulphur cured, to {_show(limit)} if peroxide cured{differs}")


def _show(kelvin: float) -> str:
    return f"{show_number(kelvin - FREEZING, 0)} degC"
