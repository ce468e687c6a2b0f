"""Soft packings: what each is like, how it rubs, and whether it suits what it has to live with."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.quantities import show_number
from lapwright.sources import cite
from lapwright.tables.packings import PackingLimit, find_packing_limit, list_packings
from lapwright.workshop.gland_service import FLUIDS, Service
from lapwright.workshop.gland_verdict import CARE, SUITS, UNSUITABLE, Judgement


@dataclass(frozen=True, slots=True)
class Yarn:
    """A soft packing: which rows of the table have its least and most friction, what it is like, what to mind.

    `only` names the fluids it is for; `minds` those in which there is something to mind.
    """

    least: str
    most: str
    like: str
    care: str = ""
    only: tuple[str, ...] = FLUIDS
    minds: tuple[str, ...] = FLUIDS


_GRAPHITE, _PTFE, _PLANT = "graphite packing mu", "PTFE packing mu", "dry hemp/flax tallowed mu"
_BOTH = "lives with steam and with mineral oil"
#: The packings by name.
YARNS = {
    "graphite yarn": Yarn(_GRAPHITE, _GRAPHITE, _BOTH),
    "expanded graphite": Yarn(
        _GRAPHITE, _GRAPHITE, _BOTH, "it comes as moulded rings, which crumble when they are sprung open too far"
    ),
    "PTFE yarn": Yarn(_PTFE, _PTFE, _BOTH),
    "graphite and PTFE yarn": Yarn(_PTFE, _GRAPHITE, _BOTH, "it needs a close bush at the bottom of the box"),
    "aramid yarn": Yarn(_PLANT, _PLANT, "is tough", "it wears a soft rod: keep it for a hardened one"),
    "ramie": Yarn(_PLANT, _PLANT, "is a plant fibre for pumps", only=("air", "water")),
    "flax": Yarn(
        _PLANT,
        _PLANT,
        "is the old packing, plaited and soaked in tallow,",
        "steam chars and hardens it, so it is renewed often",
        minds=("steam",),
    ),
}
#: String of unknown make found in an old box.
OLD_STRING = "old string"


def judge_yarn(name: str, service: Service) -> Judgement:
    """Judge a soft packing against what it has to live with.

    Parameters
    ----------
    name: one of `YARNS`, or `OLD_STRING`
    service: what it has to live with

    Source: tribology-handbook, table 25.1; hse-asbestos (old string); from memory (flax, and what to mind)
    """
    if name == OLD_STRING:
        return _judge_old_string()
    row = find_packing_limit(name)
    verdict, reason = _weigh(name, row, service)
    return Judgement(name, verdict, reason, row.limit, (f"{name}: {row.source}",))


def _weigh(name: str, row: PackingLimit, service: Service) -> tuple[str, str]:
    yarn, limit = YARNS[name], f"{show_number(row.celsius, 0)} degC{' (from memory)' if row.from_memory else ''}"
    if service.fluid not in yarn.only:
        return UNSUITABLE, f"{name} {yarn.like} and not for {service.fluid}."
    if service.celsius is not None and service.celsius > row.celsius:
        return UNSUITABLE, f"{name} is good to {limit}, and here it is {show_number(service.celsius, 0)} degC."
    if yarn.care and service.fluid in yarn.minds:
        return CARE, f"{name} {yarn.like} and is good to {limit}, but {yarn.care}."
    return SUITS, f"{name} {yarn.like} and is good to {limit}."


def _judge_old_string() -> Judgement:
    reason = (
        "old string of unknown make may be asbestos: never fit it again, and have a doubtful piece tested before it is "
        "touched dry."
    )
    return Judgement(OLD_STRING, UNSUITABLE, reason, None, (f"{OLD_STRING}: {cite('hse-asbestos')}",))


def find_friction(name: str) -> tuple[float, float]:
    """Tell the least and the greatest coefficient of friction of a soft packing on a polished rod [-].

    Parameters
    ----------
    name: one of `YARNS`

    Source: from memory

    Example:
    >>> find_friction("graphite yarn"), find_friction("graphite and PTFE yarn")
    ((0.1, 0.2), (0.08, 0.2))
    """
    yarn, found = YARNS[name], {row.case: (row.least, row.most) for row in list_packings() if row.item == "friction"}
    least, most = found[yarn.least][0], found[yarn.most][1]
    # The table prints both ends of every coefficient of friction.
    assert least is not None
    assert most is not None
    return least, most
