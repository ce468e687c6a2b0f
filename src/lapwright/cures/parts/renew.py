"""Screws that were drawn too far, or are not their hole's own, are renewed and drawn to what they bear."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.cures.part_cure import PartCure
from lapwright.cures.parts.thread import find_fastener
from lapwright.cures.parts.ways import scribe_place
from lapwright.cycle.part_loads import PartLoads
from lapwright.engine.engine import Engine
from lapwright.engine.parts import Fastener
from lapwright.findings.finding import Finding
from lapwright.findings.parts.drawn_screw import judge_drawn, list_taken
from lapwright.findings.parts.names import name_fasteners
from lapwright.workshop.cautions import LET_DOWN
from lapwright.workshop.item import Item
from lapwright.workshop.tightening import Tightening, say_torque


def cure(finding: Finding, engine: Engine, loads: Mapping[str, PartLoads]) -> PartCure | None:
    """Renew the screws that a finding names; None where they cannot be judged.

    Parameters
    ----------
    finding: what was found
    engine: whose screws they are
    loads: what each cylinder's parts have to bear
    """
    fastener = find_fastener(finding, engine)
    held = None if fastener is None else judge_drawn(fastener)
    if fastener is None or held is None:
        return None
    name, verb = name_fasteners(fastener)
    return PartCure(
        code="renew-screw",
        cylinder=fastener.cylinder,
        part=fastener.name,
        title=f"Renew the {name}, and draw {'them' if verb == 'are' else 'it'} to {say_torque(held.torque)}",
        answers=(finding.code,),
        work="minutes",
        steps=_list_steps(fastener, held),
        set={"thread": held.row.name, "torque_nm": held.torque},
        before_you_start=(LET_DOWN,),
        notes=held.notes,
        have_ready=_list_items(fastener, held),
        sources=held.sources,
        taken=list_taken(fastener),
    )


def _list_steps(fastener: Fastener, held: Tightening) -> tuple[str, ...]:
    one = f"{held.row.name} {fastener.kind}"
    return (
        *scribe_place(fastener),
        f"Take the old {one} out. Wind a good one into the hole by hand: where it turns in with play, or never pulls "
        "up, the hole has gone too; write it down as stripped, and examine again.",
        f"Put in a new {one}, the thread {held.condition}, and draw it to {say_torque(held.torque)}, no further.",
        "Look at it again after the first hour of running, with the pressure let down.",
    )


def _list_items(fastener: Fastener, held: Tightening) -> tuple[Item, ...]:
    use = (fastener.name,)
    metal = "socket, alloy steel" if fastener.kind == "grub screw" else held.screw
    return (
        Item("screws", f"{held.row.name} {fastener.kind}, {metal}", fastener.count or 1, purposes=use),
        Item("tools", f"torque driver or spanner, to {say_torque(held.torque)}", purposes=use),
    )
