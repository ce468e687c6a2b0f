"""Ahrons, Steam Locomotive Construction and Maintenance: equal leads by the eccentric rod."""

from __future__ import annotations

from lapwright.cures import find_cures
from lapwright.engine.engine import Engine
from lapwright.engine.sizes import Sizes
from lapwright.findings import find_faults
from lapwright.findings.reading import Reading
from tests.published.engines import INCH, MM, build, read_lead
from tests.published.figure import Figure, Row

KEY = "valve_drive.valve_offset"


def as_found() -> Sizes:
    """Lead 1/16 in at the front (head) end and 3/16 in at the back."""
    return build(throw=2.5, lap=1, lead=0.125, port=1.5, offset=0.0625)


def lengthening() -> float:
    """By how much to lengthen the eccentric rod [in]; the valve moves towards the front by as much."""
    reading = Reading(as_found())
    assert reading.equal_lead_offset is not None
    return (reading.equal_lead_offset - reading.offset) / INCH


def lengthening_told() -> float:
    """The same as the cure of the fault found tells it [in]."""
    engine = Engine(name="Wren", cylinders=(as_found(),))
    cures = {cure.code: cure for cure in find_cures(engine, find_faults(engine))}
    change = cures["change-rod-length"].set["eccentric_rod_change_mm"]
    assert isinstance(change, float)
    return change * MM / INCH


def evened_out(end: str) -> float:
    offset = Reading(as_found()).equal_lead_offset
    assert offset is not None
    return read_lead(as_found().replacing({KEY: offset}), end)


ROWS = (
    Row(
        id="AHR-118",
        source="ahrons",
        locator="p. 104",
        kind="check",
        figures=(
            Figure(
                what="lead as found, front",
                theirs=0.0625,
                ours=lambda: read_lead(as_found(), "head"),
                unit="in",
                within=1e-5,
                places=4,
            ),
            Figure(
                what="lead as found, back",
                theirs=0.1875,
                ours=lambda: read_lead(as_found(), "crank"),
                unit="in",
                within=1e-5,
                places=4,
            ),
            Figure(
                what="eccentric rod to be made longer by",
                theirs=-0.0625,
                ours=lengthening,
                unit="in",
                within=1e-5,
                places=4,
            ),
            Figure(
                what="the same in the cure of what is found",
                theirs=-0.0625,
                ours=lengthening_told,
                unit="in",
                within=1e-5,
                places=4,
            ),
            *(
                Figure(
                    what=f"lead then, {name}",
                    theirs=0.125,
                    ours=lambda end=end: evened_out(end),  # type: ignore[misc]
                    unit="in",
                    within=1e-5,
                    places=4,
                )
                for name, end in (("front", "head"), ("back", "crank"))
            ),
        ),
        note="Outside admission, no rocker; minus: the rod is shortened by 1/16 in. Front is the end "
        "away from the crank.",
    ),
)
