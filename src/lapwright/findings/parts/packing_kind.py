"""Packing that does not live with the steam or the oil that reaches it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Gland
from lapwright.errors import BadInput
from lapwright.findings.finding import Finding
from lapwright.findings.parts.names import name_gland
from lapwright.findings.parts.taking import find_pressure
from lapwright.workshop.gland_verdict import Judgement
from lapwright.workshop.packing_choice import judge_packing

CODE = "packing-unsuitable"


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every packing that fluid, heat or oil destroys."""
    for gland in engine.glands:
        judged = judge_gland(gland, engine, loads)
        if judged is not None and not judged.suits:
            yield _tell(gland, judged)


def judge_gland(gland: Gland, engine: Engine, loads: Mapping[str, PartLoads]) -> Judgement | None:
    """Judge what a gland is packed with; None where nothing is in it, or nobody said what.

    Parameters
    ----------
    gland: the gland
    engine: whose it is
    loads: what each cylinder's parts have to bear
    """
    if gland.packed_with in (None, "nothing"):
        return None
    load = loads.get(gland.cylinder)
    try:
        return judge_packing(
            gland.packed_with,
            fluid=engine.fluid,
            temperature=None if load is None else load.temperature,
            pressure=find_pressure(engine, load),
            oil=gland.oil,
        )
    except BadInput:
        # Water does not boil under such a pressure.
        return None


def _tell(gland: Gland, judged: Judgement) -> Finding:
    return Finding(
        code=CODE,
        cylinder=gland.cylinder,
        end=None,
        severity="spoils-it",
        size=None,
        unit="",
        title=f"What packs the {name_gland(gland)} does not last there: {judged.material}",
        because=judged.reason.rstrip("."),
        effect="it hardens, swells or chars, then leaks or grips the rod; on cold air it may hide for a while",
        check_next="look at a piece under a glass: swollen, sticky, cracked or glazed",
        part=name_gland(gland),
    )
