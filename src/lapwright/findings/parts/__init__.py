"""Faults of glands, screws, pins and covers, one kind to a file: from what the record says of each, and the loads."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from lapwright.engine.engine import Engine
from lapwright.findings.finding import SEVERITIES, Finding
from lapwright.findings.parts import (
    bearing_thread,
    cover_studs,
    drawn_screw,
    holding_screw,
    joint_sheet,
    packing_kind,
    stuffing_box,
    worn_pin,
    worn_thread,
)
from lapwright.findings.parts.names import tell_apart

if TYPE_CHECKING:
    from lapwright.cycle.part_loads import PartLoads

_SUSPECTS = (
    stuffing_box.suspect,
    packing_kind.suspect,
    worn_thread.suspect,
    holding_screw.suspect,
    bearing_thread.suspect,
    worn_pin.suspect,
    cover_studs.suspect,
    drawn_screw.suspect,
    joint_sheet.suspect,
)


def find_part_faults(engine: Engine, loads: Mapping[str, PartLoads]) -> tuple[Finding, ...]:
    """Return what is wrong with an engine's glands, screws, pins and covers, the worst first.

    A size that is missing leaves the faults that it would show unsaid.

    Parameters
    ----------
    engine: the engine as its record tells of it
    loads: what each cylinder's parts have to bear, empty where no run can be worked out
    """
    engine = tell_apart(engine)
    found = [finding for suspect in _SUSPECTS for finding in suspect(engine, loads)]
    return tuple(sorted(found, key=lambda finding: SEVERITIES.index(finding.severity)))
