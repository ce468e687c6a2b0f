"""The picture that goes with a finding of the valve: the valve on its face at the place that tells, or the timing."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.engine.sizes import Sizes
from lapwright.findings.finding import Finding
from lapwright.papers.drawing import Drawing
from lapwright.papers.lettering import END_NAMES
from lapwright.papers.timing_picture import draw_timing
from lapwright.papers.valve_picture import draw_section, fit_frame

#: Where the valve stands in the picture of a fault: at mid-travel, or at a dead centre.
_MIDDLE, _DEAD = "middle", "dead centre"
_STANDS: Mapping[str, str] = {
    "late-admission": _DEAD,
    "early-admission": _DEAD,
    "eccentric-behind": _DEAD,
    "eccentric-ahead": _DEAD,
    "eccentric-reversed": _DEAD,
    "ends-unequal": _DEAD,
    "valve-too-long": _MIDDLE,
    "valve-too-short": _MIDDLE,
    "cavity-too-long": _MIDDLE,
    "cavity-too-short": _MIDDLE,
    "valve-off-centre": _MIDDLE,
    "chest-open-to-exhaust": _MIDDLE,
    "no-expansion-possible": _MIDDLE,
    "valve-strikes-chest": _MIDDLE,
}
#: Paper kept free at each side for the names of the laps [mm].
_MARGIN, _NARROW_MARGIN = 27.0, 3.0
#: What the curves of the timing need to be told apart [mm].
_TIMING = 150.0


def draw_finding(sizes: Sizes, finding: Finding, *, width: float) -> Drawing | None:
    """Draw what a finding of the valve is about; None where too few sizes are known.

    What shows at mid-travel or at a dead centre is drawn there; how wide the ports open shows in the timing, as found
    and with the fault put right.

    Parameters
    ----------
    sizes: the cylinder as found
    finding: one of its valve
    width: of the picture [mm]; that of the timing is wider
    """
    stand = _STANDS.get(finding.code)
    if stand is None:
        return draw_timing(sizes, sizes.replacing(finding.mends) if finding.mends else None, width=max(width, _TIMING))
    end = finding.end or "head"
    margin = _MARGIN if stand == _MIDDLE else _NARROW_MARGIN
    frame = fit_frame((sizes,), width=width, margin=margin, size=3.7)
    if frame is None:
        return None
    if stand == _MIDDLE:
        return draw_section(sizes, frame, stand="middle", title="Mid-travel, as found")
    title = f"{END_NAMES[end].capitalize()} dead centre, as found"
    return draw_section(sizes, frame, stand=end, title=title)
