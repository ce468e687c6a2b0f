"""The picture of each finding: of the valve on its face or its timing, or of the part with its fault."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.findings import Finding
from lapwright.findings.parts.names import name_fasteners, name_gland, name_glands, tell_apart
from lapwright.job.visit import Visit
from lapwright.papers.drawing import Drawing
from lapwright.papers.finding_picture import draw_finding
from lapwright.papers.part_fault import draw_fault


def picture_finding(visit: Visit, finding: Finding, *, width: float) -> Drawing | None:
    """Draw what a finding is about; None where it cannot be drawn.

    Parameters
    ----------
    visit: the engine
    finding: one of its findings
    width: of the picture of a valve on its face [mm]; the others have their own
    """
    if not finding.part:
        sizes = next(each for each in visit.cylinders if each.name == finding.cylinder)
        return draw_finding(sizes, finding, width=width)
    path = find_part(visit, finding)
    if not path:
        return None
    return draw_fault(path, visit.engine, finding, written=visit.record.written)


def find_part(visit: Visit, finding: Finding) -> str:
    """Return the record path of the part that a finding is about, the first where it is about several; or nothing.

    Parameters
    ----------
    visit: the engine
    finding: one of its parts'
    """
    return next((path for name, path in _list_parts(visit, finding.cylinder) if name == finding.part), "")


def _list_parts(visit: Visit, cylinder: str) -> Iterator[tuple[str, str]]:
    """The parts of a cylinder, as the findings call them and as the record does."""
    engine = tell_apart(visit.engine)
    place = next(n for n, sizes in enumerate(engine.cylinders) if sizes.name == cylinder)
    glands = [gland for gland in engine.glands if gland.cylinder == cylinder]
    for start in range(len(glands)):
        for stop in range(start + 1, len(glands) + 1):
            yield name_glands(tuple(glands[start:stop])), f"cylinder.{place}.gland.{glands[start].number - 1}"
    for gland in glands:
        yield name_gland(gland), f"cylinder.{place}.gland.{gland.number - 1}"
    for fastener in engine.fasteners:
        if fastener.cylinder == cylinder:
            path = f"fastener.{fastener.number - 1}"
            yield fastener.name, path
            yield name_fasteners(fastener)[0], path
    for pin in engine.pins:
        if pin.cylinder == cylinder:
            yield pin.name, f"pin.{pin.number - 1}"
