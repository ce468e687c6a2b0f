"""Which packing or ring lives with what: judged by name, and listed for a service."""

from __future__ import annotations

import re

from lapwright.errors import NotOneOf
from lapwright.workshop.gland_service import Service, settle_service
from lapwright.workshop.gland_verdict import Judgement
from lapwright.workshop.gland_yarns import OLD_STRING, YARNS, judge_yarn
from lapwright.workshop.rubbers import RUBBERS, judge_rubber

#: All that may be found in a stuffing box or put into it.
MATERIALS = (*YARNS, OLD_STRING, *RUBBERS)
#: What lives with steam and with mineral oil, and with most that an engine is put on.
USUAL_CURE = "graphite yarn"
#: What they are called besides.
_ALSO = {
    "graphite": "graphite yarn", "graphited yarn": "graphite yarn", "graphite packing": "graphite yarn",
    "graphite foil": "expanded graphite", "graphite rings": "expanded graphite", "ptfe": "PTFE yarn",
    "ptfe packing": "PTFE yarn", "ptfe filament": "PTFE yarn", "graphite/ptfe": "graphite and PTFE yarn",
    "graphite ptfe": "graphite and PTFE yarn", "aramid": "aramid yarn", "hemp": "flax", "tallowed hemp": "flax",
    "tallowed flax": "flax", "asbestos": OLD_STRING, "string": OLD_STRING, "nbr": "NBR O-ring",
    "nitrile": "NBR O-ring", "hnbr": "HNBR O-ring", "epdm": "EPDM O-ring", "silicone": "silicone O-ring",
    "vmq": "silicone O-ring", "fkm": "FKM O-ring", "fpm": "FKM O-ring", "tfe/p": "TFE/P O-ring",
    "fepm": "TFE/P O-ring", "ffkm": "FFKM O-ring", "solid ptfe": "solid PTFE ring", "graphite string": "graphite yarn",
    "graphited string": "graphite yarn", "graphite cord": "graphite yarn", "ptfe string": "PTFE yarn",
    "ptfe cord": "PTFE yarn", "plumber's hemp": "flax", "linen": "flax", "fluorocarbon": "FKM O-ring",
    "fluoroelastomer": "FKM O-ring", "perfluoroelastomer": "FFKM O-ring", "ethylene propylene": "EPDM O-ring",
    # A ring of which nothing is said is sold in nitrile.
    "o-ring": "NBR O-ring",
}  # fmt: skip
#: Words behind a name that say no more than it does.
_TAILS = (" o-ring", " rubber", " packing", " yarn", " ring", "s")


def find_material(text: str) -> str:
    """Find a packing or a ring by any name that people write.

    Parameters
    ----------
    text: `graphite yarn`, `PTFE`, `hemp`, `EPDM`, `tfe/p O-ring`

    Raises
    ------
    NotOneOf: there is no such material

    Example:
    >>> find_material("Graphite"), find_material("hemp"), find_material("epdm")
    ('graphite yarn', 'flax', 'EPDM O-ring')
    """
    plain = re.sub(r"\bo[ -]?ring", "o-ring", " ".join(text.lower().replace("_", " ").split()))
    names = {name.lower(): name for name in MATERIALS} | _ALSO
    # "Nitrile O-rings" loses its s, then its ring.
    for word in (plain, plain.removesuffix("s")):
        for name in (word, *(word.removesuffix(tail) for tail in _TAILS)):
            if name in names:
                return names[name]
    raise NotOneOf(text, MATERIALS)


def choose_yarn(asked: str, service: Service) -> Judgement:
    """Choose what a gland is packed with: what was asked for where that is a packing that suits, or graphite yarn.

    Parameters
    ----------
    asked: one of `MATERIALS`
    service: what it has to live with
    """
    judged = judge_in(asked, service)
    return judged if asked in YARNS and judged.suits else judge_yarn(USUAL_CURE, service)


def judge_packing(
    material: str,
    *,
    fluid: str | None,
    temperature: float | None = None,
    pressure: float | None = None,
    oil: str | None = None,
) -> Judgement:
    """Judge a packing or a ring against what it has to live with, and say why.

    Parameters
    ----------
    material: by any of its names
    fluid: "air", "steam" or "water"; None, steam
    temperature: of the fluid [K]; left out, that of saturated steam where the pressure is known
    pressure: above the atmosphere [Pa]
    oil: "mineral" or "none"; left out, mineral

    Raises
    ------
    NotOneOf: no such material, fluid or oil
    OutOfRange: a pressure below the atmosphere, or one under which water does not boil

    Source: tribology-handbook, table 25.1; makers' tables of rubbers

    Example:
    >>> [judge_packing(name, fluid="steam", pressure=3e5).verdict for name in ("graphite", "NBR", "EPDM", "FKM")]
    ['suits', 'unsuitable', 'unsuitable', 'unsuitable']
    """
    return judge_in(find_material(material), settle_service(fluid, pressure=pressure, temperature=temperature, oil=oil))


def judge_in(name: str, service: Service) -> Judgement:
    """Judge a packing or a ring in a service.

    Parameters
    ----------
    name: one of `MATERIALS`
    service: what it has to live with

    Source: tribology-handbook, table 25.1; makers' tables of rubbers
    """
    return judge_rubber(name, service) if name in RUBBERS else judge_yarn(name, service)


def judge_all(service: Service) -> tuple[Judgement, ...]:
    """Judge everything that can be bought for a gland, the soft packings first.

    Parameters
    ----------
    service: what it has to live with
    """
    return tuple(judge_in(name, service) for name in MATERIALS if name != OLD_STRING)
