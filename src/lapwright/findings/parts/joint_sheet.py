"""Joints under covers that do not live with the steam, or may hold asbestos."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.findings.finding import Finding
from lapwright.findings.parts.cover_studs import describe_cover
from lapwright.findings.parts.packing_kind import CODE
from lapwright.workshop.gasket_choice import OLD_SHEET, GasketChoice, choose_gaskets

#: What chars beyond its limit and is renewed, and is fitted nonetheless: told with the cover, and no fault by itself.
PUT_UP_WITH = "oiled paper"


def suspect(engine: Engine, loads: Mapping[str, PartLoads]) -> Iterator[Finding]:
    """Suspect every joint of a sheet that does not stand what it has to hold."""
    for fastener in engine.fasteners:
        choice = judge_joint(fastener, engine, loads)
        if choice is not None and not choice.fits and choice.gasket != PUT_UP_WITH:
            yield _tell(fastener, choice)


def judge_joint(fastener: Fastener, engine: Engine, loads: Mapping[str, PartLoads]) -> GasketChoice | None:
    """Judge the sheet under a cover; None for another fastener, or where sheet or pressure is not known.

    Parameters
    ----------
    fastener: what holds the cover down
    engine: whose it is
    loads: what each cylinder's parts have to bear
    """
    wish = describe_cover(fastener, engine, loads)
    if wish is None or wish.gasket is None:
        return None
    choices = choose_gaskets(fluid=wish.fluid, temperature=wish.temperature, pressure=wish.pressure)
    return next((choice for choice in choices if choice.gasket == wish.gasket), None)


def _tell(fastener: Fastener, choice: GasketChoice) -> Finding:
    old = choice.gasket == OLD_SHEET
    return Finding(
        code=CODE,
        cylinder=fastener.cylinder,
        end=None,
        severity="worth-doing" if old else "spoils-it",
        size=None,
        unit="",
        title=f"The joint held by the {fastener.name} does not last there: {choice.gasket}",
        because=choice.why.rstrip("."),
        effect="old sheet may hold asbestos, and is not drawn up again" if old else "it softens, creeps and blows out",
        check_next="look at its edge, without scraping: have a doubtful piece tested before anybody touches it dry",
        part=fastener.name,
    )
